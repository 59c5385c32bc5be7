//! Conversions from raw to physical values.

use super::block::File;

/// A conversion rule.
#[derive(Debug, Clone)]
enum Rule {
    None,
    /// `p0 + p1 x`
    Linear(f64, f64),
    /// `(p0 x² + p1 x + p2) / (p3 x² + p4 x + p5)`
    Rational([f64; 6]),
    /// Pairs of raw and physical value, by rising raw value; with or without interpolation.
    Table(Vec<(f64, f64)>, bool),
    /// Ranges of raw values with their physical value, and the value elsewhere.
    Ranges(Vec<(f64, f64, f64)>, f64),
}

/// A conversion and the unit that it leads to.
#[derive(Debug, Clone)]
pub(super) struct Conversion {
    rule: Rule,
    pub unit: Option<String>,
}

impl Conversion {
    /// Reads the conversion at an address (0: none); the error says why it cannot be used.
    pub fn read(file: &File, at: u64) -> Result<Self, String> {
        if at == 0 {
            return Ok(Conversion {
                rule: Rule::None,
                unit: None,
            });
        }
        let block = file.block(at, b"##CC").map_err(|e| e.expected)?;
        let kind = block.u8(0).ok_or("its conversion is too short")?;
        let count = usize::from(block.u16(6).unwrap_or(0));
        let values: Vec<f64> = (0..count).map_while(|i| block.f64(24 + 8 * i)).collect();
        let rule = match (kind, values.as_slice()) {
            (0, _) => Rule::None,
            (1, [a, b, ..]) => Rule::Linear(*a, *b),
            (2, [a, b, c, d, e, f, ..]) => Rule::Rational([*a, *b, *c, *d, *e, *f]),
            (4 | 5, [_, _, ..]) => {
                let mut pairs: Vec<(f64, f64)> =
                    values.chunks_exact(2).map(|p| (p[0], p[1])).collect();
                pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
                Rule::Table(pairs, kind == 4)
            }
            (6, [_, _, _, ..]) => {
                let ranges = values.chunks_exact(3).map(|r| (r[0], r[1], r[2])).collect();
                Rule::Ranges(
                    ranges,
                    values.get(count / 3 * 3).copied().unwrap_or(f64::NAN),
                )
            }
            (7.., _) => return Err("its conversion leads to text".into()),
            (3, _) => return Err("its conversion is a formula, which is not read".into()),
            _ => return Err("its conversion lacks values".into()),
        };
        Ok(Conversion {
            rule,
            unit: file.text(block.link(1)),
        })
    }

    pub fn apply(&self, x: f64) -> f64 {
        match &self.rule {
            Rule::None => x,
            Rule::Linear(a, b) => a + b * x,
            Rule::Rational([a, b, c, d, e, f]) => (a * x * x + b * x + c) / (d * x * x + e * x + f),
            Rule::Table(pairs, interpolate) => look_up(pairs, x, *interpolate),
            Rule::Ranges(ranges, elsewhere) => ranges
                .iter()
                .find(|(low, high, _)| *low <= x && x <= *high)
                .map_or(*elsewhere, |r| r.2),
        }
    }
}

/// The value of a table; outside it the nearest end. Without interpolation the nearest entry, the lower
/// one when both are as near.
fn look_up(pairs: &[(f64, f64)], x: f64, interpolate: bool) -> f64 {
    let (Some(first), Some(last)) = (pairs.first(), pairs.last()) else {
        return f64::NAN;
    };
    if x.is_nan() {
        return f64::NAN;
    }
    let above = pairs.partition_point(|p| p.0 <= x);
    let (Some(high), Some(low)) = (
        pairs.get(above),
        above.checked_sub(1).and_then(|i| pairs.get(i)),
    ) else {
        return if above == 0 { first.1 } else { last.1 };
    };
    if interpolate {
        low.1 + (high.1 - low.1) * (x - low.0) / (high.0 - low.0)
    } else if high.0 - x < x - low.0 {
        high.1
    } else {
        low.1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables() {
        let pairs = [(0.0, 10.0), (2.0, 20.0), (4.0, 0.0)];
        assert_eq!(look_up(&pairs, 1.0, true), 15.0);
        assert_eq!(look_up(&pairs, 3.0, true), 10.0);
        assert_eq!(look_up(&pairs, -1.0, true), 10.0);
        assert_eq!(look_up(&pairs, 9.0, true), 0.0);
        assert_eq!(look_up(&pairs, 1.0, false), 10.0);
        assert_eq!(look_up(&pairs, 1.1, false), 20.0);
    }
}
