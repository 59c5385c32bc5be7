//! Tooth trains of simulated sensors, each class after what real recordings of turning shafts show.

mod engines;
mod evidence;
mod models;
mod patterns;
mod rest;
mod speed;
mod unreadable;
