//! Whatever the bytes: an answer or an error.
#![no_main]

use baybrief_formats::{FormatReader, Reading, Source, roles, mdf::MdfReader};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let source = Source::new("x", data);
    let reader = MdfReader;
    let _ = reader.probe(&source);
    if let Ok(Reading::Capture(c)) = reader.read(&source) {
        // All channels are as long as the time, which never goes back.
        assert!(c.channels.iter().all(|ch| ch.samples.len() == c.time.len()));
        assert!((1..c.time.len()).all(|i| c.time.at(i - 1) <= c.time.at(i)));
        roles::guess(&c);
    }
});
