//! The parameters of a case: every one is drawn by name.
//!
//! A parameter is a pure function of the seed and its name (counter-based random numbers), unless it is overridden. So a
//! search can change one and leave all others as they are, even where the change leads the case another way, and a case
//! is told completely by its class, its seed and its overrides.

use serde::{Deserialize, Serialize};
use simulator::noise::Noise;
use std::collections::BTreeMap;

/// Overridden parameters: name to position in the parameter's range, 0 (inclusive) to 1 (exclusive).
pub type Overrides = BTreeMap<String, f64>;

/// Source of a case's parameters.
#[derive(Debug, Clone)]
pub struct Params {
    seed: u64,
    overrides: Overrides,
    times_drawn: BTreeMap<String, u32>,
    drawn: Vec<Drawn>,
}

/// A parameter as it was drawn.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Drawn {
    /// Its name; a name drawn again gets a number behind it.
    pub name: String,
    /// Position in its range, 0 (inclusive) to 1 (exclusive).
    pub position: f64,
    /// Its value, for a person.
    pub value: String,
}

impl Params {
    /// Parameters of a seed.
    pub fn new(seed: u64) -> Self {
        Params::with_overrides(seed, Overrides::new())
    }

    /// Parameters of a seed, some of them overridden.
    pub fn with_overrides(seed: u64, overrides: Overrides) -> Self {
        Params {
            seed,
            overrides,
            times_drawn: BTreeMap::new(),
            drawn: Vec::new(),
        }
    }

    /// Parameters drawn so far, in order.
    pub fn drawn(&self) -> &[Drawn] {
        &self.drawn
    }

    fn position(&mut self, name: &str) -> (String, f64) {
        let times = self.times_drawn.entry(name.into()).or_default();
        *times += 1;
        let name = match *times {
            1 => name.to_string(),
            n => format!("{name} #{n}"),
        };
        let given = self.overrides.get(&name).copied();
        let position = given.unwrap_or_else(|| self.noise(&name).between(0.0, 1.0));
        (name, position.clamp(0.0, 1.0 - f64::EPSILON))
    }

    fn keep(&mut self, name: String, position: f64, value: String) {
        self.drawn.push(Drawn {
            name,
            position,
            value,
        });
    }

    /// A number evenly spread over `low..high`.
    pub fn between(&mut self, name: &str, low: f64, high: f64) -> f64 {
        let (name, position) = self.position(name);
        let value = low + (high - low) * position;
        self.keep(name, position, format!("{value:.4}"));
        value
    }

    /// A whole number of `low..=high`.
    pub fn whole(&mut self, name: &str, low: u64, high: u64) -> u64 {
        let (name, position) = self.position(name);
        let value = low + (position * (high - low + 1) as f64) as u64;
        self.keep(name, position, value.to_string());
        value
    }

    /// An index of 0..`count`.
    pub fn index(&mut self, name: &str, count: usize) -> usize {
        self.whole(name, 0, count as u64 - 1) as usize
    }

    /// True with the given probability.
    pub fn chance(&mut self, name: &str, probability: f64) -> bool {
        let (name, position) = self.position(name);
        let value = position < probability;
        self.keep(name, position, value.to_string());
        value
    }

    /// One of several, each as likely as the others; the slice must not be empty.
    pub fn pick<T: Clone>(&mut self, name: &str, from: &[T]) -> T {
        from[self.index(name, from.len())].clone()
    }

    /// A source of noise of its own for each name.
    pub fn noise(&self, name: &str) -> Noise {
        Noise::new(mix(self.seed ^ fnv1a(name.bytes())))
    }
}

/// FNV-1a, 64 bits (G. Fowler, L. C. Noll, K.-P. Vo).
pub(crate) fn fnv1a(bytes: impl Iterator<Item = u8>) -> u64 {
    bytes.fold(0xcbf2_9ce4_8422_2325, |h, b| {
        (h ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// Finalizer of SplitMix64 (G. Steele, D. Lea, C. Flood): like seeds give unlike streams.
fn mix(seed: u64) -> u64 {
    let mut z = seed.wrapping_add(0x9e37_79b9_7f4a_7c15);
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ (z >> 31)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_parameter_depends_on_seed_and_name_alone() {
        let mut one = Params::new(7);
        let mut two = Params::new(7);
        let a = one.between("a", 0.0, 1.0);
        let b = one.between("b", 0.0, 1.0);
        assert_eq!(two.between("b", 0.0, 1.0), b);
        assert_eq!(two.between("a", 0.0, 1.0), a);
        assert_ne!(
            two.between("a", 0.0, 1.0),
            a,
            "a name drawn again is another parameter"
        );
        assert_ne!(Params::new(8).between("a", 0.0, 1.0), a);
    }

    #[test]
    fn an_override_changes_one_parameter() {
        let overrides = Overrides::from([("n".to_string(), 0.999)]);
        let mut p = Params::with_overrides(7, overrides);
        assert_eq!(p.whole("n", 1, 3), 3);
        assert_eq!(
            p.between("a", 0.0, 1.0),
            Params::new(7).between("a", 0.0, 1.0)
        );
        assert_eq!(p.drawn()[0].value, "3");
    }

    /// Mean and variance of a uniform variable on 0..1 are 1/2 and 1/12, here within four standard errors.
    #[test]
    fn positions_are_uniform() {
        let n = 20_000;
        let all: Vec<f64> = (0..n)
            .map(|s| Params::new(s).between("x", 0.0, 1.0))
            .collect();
        let mean = all.iter().sum::<f64>() / n as f64;
        let variance = all.iter().map(|x| (x - mean).powi(2)).sum::<f64>() / n as f64;
        assert!(
            (mean - 0.5).abs() < 4.0 * (1.0 / 12.0 / n as f64).sqrt(),
            "{mean}"
        );
        assert!(
            (variance - 1.0 / 12.0).abs() < 4.0 * (1.0 / 180.0 / n as f64).sqrt(),
            "{variance}"
        );
    }
}
