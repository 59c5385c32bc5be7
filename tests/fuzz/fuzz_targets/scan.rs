//! Whatever the text: what is understood of it.
#![no_main]

use baybrief_formats::{FormatReader, Source};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let source = Source::new("x", data);
    let _ = baybrief_scan::ScanReader.probe(&source);
    let text = String::from_utf8_lossy(data);
    let record = baybrief_scan::parse("x", &text);
    let lines = text.split(['\r', '\n']).count();
    assert!(
        record
            .codes
            .iter()
            .all(|c| c.code.len() == 5 && (1..=lines).contains(&c.line))
    );
    assert!(
        record
            .tracks
            .iter()
            .all(|t| t.time_s.len() == t.values.len())
    );
});
