//! Whatever the text: job.toml, shop.toml and a channel preset give a value, and errors that say something.
#![no_main]

use baybrief_settings::{KnownNames, read_job_file, read_preset, read_shop_file};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let text = String::from_utf8_lossy(data);
    let known = KnownNames::default();
    for errors in [
        read_job_file(&text, "job.toml", &known).errors,
        read_shop_file(&text, "shop.toml").errors,
        read_preset(&text, "preset.toml", &known).errors,
    ] {
        assert!(errors.iter().all(|e| !e.message.is_empty()));
    }
});
