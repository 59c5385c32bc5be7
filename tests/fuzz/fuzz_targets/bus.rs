//! Whatever the text: frames of a bus, or none.
#![no_main]

use baybrief_formats::{FormatReader, Reading, Source};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let source = Source::new("x", data);
    let _ = baybrief_scan::BusLogReader.probe(&source);
    if let Ok(Reading::Scan(record)) = baybrief_scan::BusLogReader.read(&source) {
        let log = record.bus_log.expect("a bus log");
        assert!(log.frames.iter().all(|f| log.data(f).len() <= 64));
    }
});
