//! Seeded randomness: the same seed gives the same recording, on every machine.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// A seeded source of numbers (ChaCha with 8 rounds, whose stream is fixed by its specification).
#[derive(Debug, Clone)]
pub struct Noise(ChaCha8Rng);

impl Noise {
    /// A source for a seed.
    pub fn new(seed: u64) -> Self {
        Noise(ChaCha8Rng::seed_from_u64(seed))
    }

    /// Evenly spread over `low..high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * ((self.0.next_u64() >> 11) as f64 / (1u64 << 53) as f64)
    }

    /// Normal distribution with mean 0 and standard deviation 1 (Box and Muller's transform).
    pub fn normal(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.between(0.0, 1.0)).ln()).sqrt();
        radius * (std::f64::consts::TAU * self.between(0.0, 1.0)).cos()
    }

    /// A whole number of `low..=high`.
    pub fn whole(&mut self, low: u64, high: u64) -> u64 {
        low + self.0.next_u64() % (high - low + 1)
    }

    /// True with the given probability.
    pub fn chance(&mut self, probability: f64) -> bool {
        self.between(0.0, 1.0) < probability
    }

    /// One of several, each as likely as the others; the slice must not be empty.
    pub fn pick<'a, T>(&mut self, from: &'a [T]) -> &'a T {
        &from[self.whole(0, from.len() as u64 - 1) as usize]
    }
}
