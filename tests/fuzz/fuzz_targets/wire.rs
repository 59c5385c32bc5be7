//! Whatever a worker sends: an answer or an error.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| {
    let _ = baybrief_plugin_host::read_reply(data.to_vec());
});
