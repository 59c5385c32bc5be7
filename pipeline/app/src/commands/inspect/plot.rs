//! A small plot in the terminal: a signal's lowest and highest value in each column, in dots of Braille patterns
//! (Unicode block U+2800), two across and four down in a character.

const COLUMNS: usize = 64;
const LINES: usize = 3;
const ACROSS: usize = 2;
const DOWN: usize = 4;
/// Bits of a character's dots by column, from the top down.
const BITS: [[u32; DOWN]; ACROSS] = [[0x01, 0x02, 0x04, 0x40], [0x08, 0x10, 0x20, 0x80]];

/// The lines of a plot of `n` values against their number; none where there is nothing to see.
pub fn lines(n: usize, value: impl Fn(usize) -> f64) -> Vec<String> {
    let width = (COLUMNS * ACROSS).min(n);
    let spans: Vec<Option<(f64, f64)>> = (0..width)
        .map(|x| {
            // One value of the neighbour, so that a step is a line and no gap.
            let (from, to) = (x * n / width, ((x + 1) * n / width + 1).min(n));
            let finite = || (from..to).map(&value).filter(|v| v.is_finite());
            Some((finite().reduce(f64::min)?, finite().reduce(f64::max)?))
        })
        .collect();
    let seen = || spans.iter().flatten();
    let (Some(low), Some(high)) = (
        seen().map(|s| s.0).reduce(f64::min),
        seen().map(|s| s.1).reduce(f64::max),
    ) else {
        return Vec::new();
    };
    let last = LINES * DOWN - 1;
    let level = |v: f64| match high - low {
        range if range > 0.0 => last - ((v - low) / range * last as f64).round() as usize,
        _ => last,
    };
    let mut cells = [[0u32; COLUMNS]; LINES];
    for (x, span) in spans.iter().enumerate() {
        let Some((a, b)) = span else { continue };
        for y in level(*b)..=level(*a) {
            cells[y / DOWN][x / ACROSS] |= BITS[x % ACROSS][y % DOWN];
        }
    }
    let dots = |line: &[u32; COLUMNS]| -> String {
        let shown = line[..width.div_ceil(ACROSS)].iter();
        shown
            .filter_map(|bits| char::from_u32(0x2800 + bits))
            .collect()
    };
    cells.iter().map(dots).collect()
}

#[cfg(test)]
mod tests {
    use super::lines;

    #[test]
    fn a_step_a_spike_and_nothing() {
        let step = lines(8, |i| if i < 4 { 0.0 } else { 1.0 });
        assert_eq!(
            step,
            [
                "\u{2800}\u{2882}\u{2809}\u{2809}".replace('\u{2882}', "\u{28b8}"),
                "\u{2800}\u{28b8}\u{2800}\u{2800}".into(),
                "\u{28c0}\u{28f8}\u{2800}\u{2800}".into()
            ]
        );
        // One sample of a million is seen.
        let spike = lines(1_000_000, |i| if i == 500_000 { 1.0 } else { 0.0 });
        assert!(spike[0].chars().any(|c| c != '\u{2800}'));
        assert!(lines(0, |_| 0.0).is_empty());
        assert!(lines(10, |_| f64::NAN).is_empty());
        assert_eq!(lines(1, |_| 5.0).len(), 3);
        lines(3, |i| [0.0, f64::MAX, f64::MIN][i]);
    }
}
