//! Random numbers for tests: the same on every machine and in every version.

/// Steps of a linear congruential generator (Knuth's MMIX constants, from memory).
fn step(state: u64) -> u64 {
    state
        .wrapping_mul(6_364_136_223_846_793_005)
        .wrapping_add(1_442_695_040_888_963_407)
}

/// Even numbers from -0.5 to 0.5 without end.
pub fn noise(seed: u64) -> impl Iterator<Item = f64> {
    let mut state = seed;
    std::iter::repeat_with(move || {
        state = step(state);
        (state >> 33) as f64 / f64::from(1u32 << 31) - 0.5
    })
}

/// Pseudo-random numbers (PCG-XSH-RR 64/32, M. O'Neill 2014).
#[derive(Debug, Clone)]
pub struct Random(u64);

impl Random {
    /// Numbers of a seed; those of another `stream` are others.
    pub fn new(seed: u64, stream: u64) -> Random {
        let mut random = Random(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ stream);
        (0..4).for_each(|_| {
            random.next_u32();
        });
        random
    }

    /// The next number.
    pub fn next_u32(&mut self) -> u32 {
        let old = self.0;
        self.0 = step(old);
        let mixed = (((old >> 18) ^ old) >> 27) as u32;
        mixed.rotate_right((old >> 59) as u32)
    }

    /// A number from `low` to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * f64::from(self.next_u32()) / f64::from(u32::MAX)
    }

    /// A standard normal deviate, as the sum of twelve even ones.
    pub fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.between(0.0, 1.0)).sum::<f64>() - 6.0
    }
}
