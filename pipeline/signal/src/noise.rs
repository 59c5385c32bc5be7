//! Noise for the tests.

/// Even numbers from -0.5 to 0.5 without end, by a linear congruential generator, the same in any language.
pub(crate) fn noise(seed: u64) -> impl Iterator<Item = f64> {
    let mut s = seed;
    std::iter::repeat_with(move || {
        s = s
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (s >> 33) as f64 / f64::from(1u32 << 31) - 0.5
    })
}
