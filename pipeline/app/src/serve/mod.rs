//! The program behind the page: reads the folder of results, and sends the service what a person at the page wants.

mod mail;
mod persons;
mod progress;
mod recordings;
mod requests;
mod rows;
mod workshop;

pub use persons::{PIN_DIGITS, set_pin};
pub use progress::progress;
pub use requests::{Follow, Question, Reply, Request, Sent};
pub use workshop::Shop;
