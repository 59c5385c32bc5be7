//! The report's tests in one program: each would carry the whole typesetter.

mod pages;
mod reading;
mod report;
mod samples;
mod theme;
