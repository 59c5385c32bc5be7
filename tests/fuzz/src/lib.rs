//! Properties that every reader of recordings must hold, whatever the bytes; a session of the page.

pub mod session;

use baybrief_formats::{FormatReader, Reading, Source};

/// An answer or an error; of an answer all channels are as long as the time, which never goes back.
pub fn check(reader: &dyn FormatReader, data: &[u8]) {
    let source = Source::new("x", data);
    let _ = reader.probe(&source);
    let _ = reader.incomplete(&source);
    if let Ok(Reading::Capture(c)) = reader.read(&source) {
        assert!(c.channels.iter().all(|ch| ch.samples.len() == c.time.len()));
        assert!((1..c.time.len()).all(|i| c.time.at(i - 1) <= c.time.at(i)));
    }
}
