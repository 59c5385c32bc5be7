//! Scan-tool text and bus logs: codes, live data and the vehicle, in free layouts and five languages.

mod bus;
mod codes;
mod diagnostics;
mod found;
mod frame;
mod live;
mod over_time;
mod parse;
mod record;
mod sections;
mod table;
mod text;
mod vehicle;
mod words;

pub use bus::BusLogReader;
pub use parse::parse;
pub use text::ScanReader;

use formats::FormatReader;

/// Readers of this crate, to be asked beside [`formats::READERS`].
pub static READERS: [&dyn FormatReader; 2] = [&BusLogReader, &ScanReader];

#[cfg(test)]
mod tests;
