//! Tooth wheels: where on a turn the teeth stand.

/// A tooth wheel. Angles are shares of a turn.
#[derive(Debug, Clone, PartialEq)]
pub struct Wheel {
    /// Pitch positions per turn, as `teeth` of job.toml counts them.
    pub positions: u32,
    /// Positions without a tooth, as `missing_teeth` of job.toml counts them.
    pub missing: u32,
    /// True where a tooth was taken off or notched after the wheel was made.
    pub damaged: bool,
    /// Leading and trailing edge of each tooth, ascending, within 0 to 1.
    teeth: Vec<(f64, f64)>,
}

/// Leading edges of the four uneven teeth, shares of a turn (invented; two pairs of unlike spacing, as wheels
/// with few teeth have them so that a control unit can tell the pairs apart).
const UNEVEN: [f64; 4] = [0.0, 0.18, 0.5, 0.68];
/// Width of an uneven tooth, share of a turn.
const UNEVEN_WIDTH: f64 = 0.04;
/// Which of the teeth of a narrow-and-wide wheel are wide (invented bits, without a shorter period).
const WIDE: u32 = 0b0000_0000_1100_1010_0111_0001_0110_1001;
/// Widths of a narrow and of a wide tooth, shares of a pitch.
const WIDTHS: [f64; 2] = [0.3, 0.7];
/// Half-width of the flux change at a tooth's edge, shares of a pitch.
const FRINGE: f64 = 0.2;

impl Wheel {
    /// `count` even teeth, each `duty` (0 to 1) of a pitch wide.
    pub fn even(count: u32, duty: f64) -> Self {
        Wheel::with_gaps(count, &[], duty)
    }

    /// A wheel without the teeth of each gap (first position, count): N-1, N-2, N-2-1, N-2-2-2.
    pub fn with_gaps(positions: u32, gaps: &[(u32, u32)], duty: f64) -> Self {
        let pitch = 1.0 / f64::from(positions);
        let absent = |i: u32| {
            gaps.iter()
                .any(|&(first, n)| (first..first + n).contains(&i))
        };
        let teeth: Vec<(f64, f64)> = (0..positions)
            .filter(|&i| !absent(i))
            .map(|i| (f64::from(i) * pitch, (f64::from(i) + duty) * pitch))
            .collect();
        Wheel {
            positions,
            missing: positions - teeth.len() as u32,
            damaged: false,
            teeth,
        }
    }

    /// `positions` teeth less the last `missing`.
    pub fn missing(positions: u32, missing: u32, duty: f64) -> Self {
        Wheel::with_gaps(positions, &[(positions - missing, missing)], duty)
    }

    /// `count` (up to 24) teeth whose trailing edges are evenly spaced; some are narrow, some wide.
    pub fn narrow_and_wide(count: u32) -> Self {
        let pitch = 1.0 / f64::from(count);
        let teeth = (0..count).map(|i| {
            let width = WIDTHS[(WIDE >> i & 1) as usize];
            let end = (f64::from(i) + 0.85) * pitch;
            (end - width * pitch, end)
        });
        Wheel {
            teeth: teeth.collect(),
            ..Wheel::even(count, 0.5)
        }
    }

    /// Four teeth in two pairs of unlike spacing.
    pub fn four_uneven() -> Self {
        Wheel {
            teeth: UNEVEN.map(|a| (a, a + UNEVEN_WIDTH)).to_vec(),
            ..Wheel::even(4, 0.5)
        }
    }

    /// `count` even teeth and a further narrow one between the first two.
    pub fn plus_one(count: u32) -> Self {
        let mut wheel = Wheel::even(count, 0.3);
        let pitch = 1.0 / f64::from(count);
        wheel.teeth.insert(1, (0.52 * pitch, 0.75 * pitch));
        wheel
    }

    /// Takes off the tooth of a given number.
    pub fn break_off(&mut self, tooth: usize) {
        if tooth < self.teeth.len() {
            self.teeth.remove(tooth);
            self.damaged = true;
        }
    }

    /// Notches a tooth: its middle third is gone, so that it counts twice.
    pub fn notch(&mut self, tooth: usize) {
        if let Some(&(a, b)) = self.teeth.get(tooth) {
            let third = (b - a) / 3.0;
            self.teeth[tooth] = (a, a + third);
            self.teeth.insert(tooth + 1, (b - third, b));
            self.damaged = true;
        }
    }

    /// Bends a tooth by a share of the pitch, backwards where negative.
    pub fn bend(&mut self, tooth: usize, share: f64) {
        let by = share / f64::from(self.positions);
        if let Some(t) = self.teeth.get_mut(tooth) {
            *t = (t.0 + by, t.1 + by);
            self.damaged = true;
        }
    }

    /// Number of teeth.
    pub fn count(&self) -> usize {
        self.teeth.len()
    }

    /// True where a tooth stands before the sensor at an angle, turns.
    pub fn covers(&self, turns: f64) -> bool {
        let x = turns.rem_euclid(1.0);
        let after = self.teeth.partition_point(|t| t.0 <= x);
        after.checked_sub(1).is_some_and(|i| x < self.teeth[i].1)
    }

    /// Change of flux per angle at a coil: 1 at a leading edge that stands alone, -1 at a trailing one.
    ///
    /// The flux at an edge follows a hyperbolic tangent, so that an even wheel gives nearly a sine.
    pub fn flux_change(&self, turns: f64) -> f64 {
        let width = FRINGE / f64::from(self.positions);
        let reach = 5.0 * width;
        let x = turns.rem_euclid(1.0);
        let hump = |edge: f64| {
            let c = ((x - edge) / width).cosh();
            1.0 / (c * c)
        };
        let mut sum = 0.0;
        for turn in [-1.0, 0.0, 1.0] {
            let from = self.teeth.partition_point(|t| t.1 + turn < x - reach);
            for &(a, b) in self.teeth[from..]
                .iter()
                .take_while(|t| t.0 + turn <= x + reach)
            {
                sum += hump(a + turn) - hump(b + turn);
            }
        }
        sum
    }

    /// Angles of every change of level within a turn: (angle, whether a tooth begins), ascending.
    pub fn changes(&self) -> impl Iterator<Item = (f64, bool)> + '_ {
        self.teeth
            .iter()
            .flat_map(|&(a, b)| [(a, true), (b, false)])
    }
}
