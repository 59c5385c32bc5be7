//! The program behind the page: reads the folder of results, and does what a person at the page wants.

mod recordings;
mod workshop;

pub use workshop::Shop;
