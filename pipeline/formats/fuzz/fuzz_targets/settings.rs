//! Whatever the text: job.toml, shop.toml and a saved hook-up are read or refused with a place.
#![no_main]

use baybrief_formats::settings;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let text = String::from_utf8_lossy(data);
    if let Ok(job) = settings::read_job_file(&text, "job.toml") {
        settings::job_file_doubts(&job, &text, "job.toml");
    }
    for errors in [
        settings::read_job_file(&text, "job.toml").err(),
        settings::read_shop_file(&text, "shop.toml").err(),
        settings::read_hookup(&text, "hookup.toml").err(),
    ] {
        assert!(errors.is_none_or(|e| e.iter().all(|p| !p.message.is_empty())));
    }
});
