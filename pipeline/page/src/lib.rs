//! The page in the browser: jobs, traces, answers, lines of work, signatures. Served on this machine only.
//!
//! The page shows what a [`Workshop`] tells it and sends it what a person wants; it reads no ledger and measures
//! nothing.

mod answers;
mod lock;
mod message;
mod routes;
mod server;
pub mod trace;
mod upload;
mod view;
mod words;
mod workshop;

pub use message::Message;
pub use routes::addresses;
pub use server::{Options, Page, PageError};
pub use workshop::*;
