//! See the library beside this.
#![no_main]

libfuzzer_sys::fuzz_target!(|data: &[u8]| {
    baybrief_fuzz::check(&baybrief_formats::npy::NpyReader, data);
});
