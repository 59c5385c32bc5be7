//! A physical model of an automated gearbox with two dry clutches, of its sensors and of the recorder, models of what
//! further systems draw and signal, and writers for the files that a workshop's tools leave behind. Everything here is invented: people, vehicles
//! and numbers. It makes the demo jobs and the labelled cases of the tests; the same seed gives the same bytes.

pub mod actuator;
pub mod bench;
pub mod bus;
pub mod csv;
pub mod edges;
pub mod engine;
pub mod feed;
pub mod folder;
pub mod motor;
pub mod noise;
pub mod ode;
pub mod recorder;
pub mod road;
mod road_control;
pub mod scan_text;
pub mod scan_words;
pub mod sensor;
pub mod shaft;
pub mod supply;
pub mod systems;
pub mod traces;
pub mod vin;
pub mod wav;
pub mod wheel;
