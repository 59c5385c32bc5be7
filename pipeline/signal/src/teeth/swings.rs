//! Transitions of a signal between its extremes, with a threshold that follows the signal's own amplitude.
//!
//! Integrated conditioners for variable reluctance sensors arm on a share of the signal's own recent peaks and never
//! below a fixed voltage (LM1815, TI SNOSBU8F: 80 % of the peak, 30 to 60 mV; MAX9924, Maxim 19-4283: a third of the
//! peak, released when no tooth comes). Here the share is of the amplitude from peak to peak, so that neither an
//! offset nor a clamped half wave moves it, and the memory is a median, so that one odd peak (after a gap, a spike)
//! does not blind it.

use crate::levels::least_and_greatest;

/// One transition between two successive extremes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Swing {
    /// Fractional sample index of the crossing of the middle between the extremes.
    pub at: f64,
    /// Upwards or downwards.
    pub rising: bool,
    /// Extreme from which it came.
    pub from: f32,
    /// Extreme to which it went.
    pub to: f32,
}

impl Swing {
    /// Amplitude from peak to peak.
    pub fn amplitude(&self) -> f32 {
        (self.to - self.from).abs()
    }
}

/// Share of the recent amplitude that a transition must reach.
const SHARE: f64 = 0.3;

/// Transitions from whose amplitudes the recent amplitude is taken.
const RECENT: usize = 9;

/// Samples of a period as long as none was seen.
const UNKNOWN_PERIOD: f64 = 200.0;

/// Samples that are looked at together.
const STRETCH: usize = 32;

/// Transitions of `x` that reach `least` and 30 % of the median amplitude of the last nine. That memory holds over six
/// of the last periods (a wheel's gap), then fades. `held` says that each sample holds until the next (a list of
/// level changes): a transition then happens at the sample that brings it. Samples that are NaN are passed over.
pub fn find_swings(x: &[f32], least: f64, held: bool) -> Vec<Swing> {
    let mut finder = Finder {
        x,
        held,
        least: least.max(f64::MIN_POSITIVE),
        threshold: least.max(f64::MIN_POSITIVE),
        recent: Recent::default(),
        former: f64::INFINITY,
        lengths: Recent::default(),
        deadline: usize::MAX,
        fade_step: 1,
        before: (0, f32::NAN),
        extreme: (0, f32::NAN),
        direction: 0,
        turned: [0; 2],
        swings: Vec::new(),
    };
    for (k, stretch) in x.chunks(STRETCH).enumerate() {
        finder.look_at(k * STRETCH, stretch);
    }
    finder.finish()
}

struct Finder<'a> {
    x: &'a [f32],
    held: bool,
    least: f64,
    threshold: f64,
    recent: Recent,
    /// Amplitude before the memory faded, until half a memory is new: the first step may be another's (a contact that
    /// closes again).
    former: f64,
    lengths: Recent,
    /// Sample at which the memory begins to fade.
    deadline: usize,
    fade_step: usize,
    before: (usize, f32),
    extreme: (usize, f32),
    direction: i8,
    /// Last two samples at which an extreme was confirmed.
    turned: [usize; 2],
    swings: Vec<Swing>,
}

impl Finder<'_> {
    fn look_at(&mut self, from: usize, stretch: &[f32]) {
        self.fade(from);
        if self.direction != 0 {
            let (low, high) = least_and_greatest(stretch, (f32::INFINITY, f32::NEG_INFINITY));
            let up = self.direction > 0;
            // As if the signal only ever rose: what falls is turned over.
            let (top, bottom) = if up { (high, low) } else { (-low, -high) };
            let extreme = if up { self.extreme.1 } else { -self.extreme.1 };
            let calm = f64::from(extreme.max(top)) - f64::from(bottom) < self.threshold;
            if calm && self.deadline > from + stretch.len() {
                if top > extreme {
                    let wanted = if up { high } else { low };
                    let at = stretch.iter().position(|v| *v == wanted).unwrap_or(0);
                    self.extreme = (from + at, wanted);
                }
                return;
            }
        }
        for (i, &v) in (from..).zip(stretch) {
            if i >= self.deadline {
                self.fade(i);
            }
            if !v.is_nan() {
                self.step(i, v);
            }
        }
    }

    fn step(&mut self, i: usize, v: f32) {
        if self.direction == 0 {
            self.begin(i, v);
            return;
        }
        let up = self.direction > 0;
        let further = if up {
            v > self.extreme.1
        } else {
            v < self.extreme.1
        };
        if further {
            self.extreme = (i, v);
        } else if f64::from((v - self.extreme.1).abs()) >= self.threshold {
            self.confirm();
            self.learn(i);
            self.before = self.extreme;
            self.extreme = (i, v);
            self.direction = -self.direction;
        }
    }

    /// Before the first transition both extremes are open.
    fn begin(&mut self, i: usize, v: f32) {
        if self.before.1.is_nan() {
            (self.before, self.extreme) = ((i, v), (i, v));
        }
        if v < self.before.1 {
            self.before = (i, v);
        }
        if v > self.extreme.1 {
            self.extreme = (i, v);
        }
        if f64::from(self.extreme.1 - self.before.1) >= self.threshold {
            self.direction = 1;
            if self.before.0 > self.extreme.0 {
                std::mem::swap(&mut self.before, &mut self.extreme);
                self.direction = -1;
            }
        }
    }

    fn confirm(&mut self) {
        let (from, to) = (self.before, self.extreme);
        self.swings.push(Swing {
            at: self.crossing(),
            rising: self.direction > 0,
            from: from.1,
            to: to.1,
        });
    }

    /// Index at which the middle is crossed between the two extremes: half way between the first and the last crossing
    /// where noise makes several.
    fn crossing(&self) -> f64 {
        let (from, to) = (self.before, self.extreme);
        let middle = (from.1 + to.1) / 2.0;
        let rising = self.direction > 0;
        let past = |v: f32| if rising { v >= middle } else { v <= middle };
        let between = |j: usize| {
            if self.held {
                return (j + 1) as f64;
            }
            let (a, b) = (self.x[j], self.x[j + 1]);
            match b - a {
                d if d.is_finite() && d != 0.0 => {
                    j as f64 + f64::from((middle - a) / d).clamp(0.0, 1.0)
                }
                _ => (j + 1) as f64,
            }
        };
        let range = from.0..to.0;
        let first = range.clone().find(|&j| past(self.x[j + 1]));
        let last = range
            .rev()
            .find(|&j| !past(self.x[j]) || self.x[j].is_nan());
        match (first, last) {
            (Some(a), Some(b)) if a == b => between(a),
            (Some(a), Some(b)) => (between(a) + between(b)) / 2.0,
            _ => to.0 as f64,
        }
    }

    fn learn(&mut self, i: usize) {
        self.recent
            .push(f64::from((self.extreme.1 - self.before.1).abs()));
        // Two transitions are a period: pulses may be narrow and gaps wide.
        if self.turned[0] > 0 {
            self.lengths.push((i - self.turned[0]) as f64);
        }
        self.turned = [self.turned[1], i];
        if 2 * self.recent.len > RECENT {
            self.former = f64::INFINITY;
        }
        self.threshold = self
            .least
            .max(SHARE * self.recent.middle().min(self.former));
        // One great step (a supply that comes, a contact that opens) must not blind what follows.
        let period = match self.lengths.len {
            0 => UNKNOWN_PERIOD,
            _ => self.lengths.middle(),
        };
        self.deadline = i + (6.0 * period) as usize + 1;
        self.fade_step = (period / 4.0) as usize + 1;
    }

    fn fade(&mut self, i: usize) {
        while i >= self.deadline && self.threshold > self.least {
            self.threshold = self.least.max(0.9 * self.threshold);
            self.deadline += self.fade_step;
            if self.threshold <= self.least {
                self.former = self.recent.middle();
                self.recent = Recent::default();
                self.turned = [0; 2];
                self.deadline = usize::MAX;
            }
        }
    }

    fn finish(mut self) -> Vec<Swing> {
        let open = f64::from((self.extreme.1 - self.before.1).abs());
        if self.direction != 0 && open >= self.threshold {
            self.confirm();
        }
        self.swings
    }
}

/// The last few of a series of numbers and their median.
#[derive(Default)]
struct Recent {
    len: usize,
    /// In the order in which they came, as a ring.
    values: [f64; RECENT],
    /// Place in the ring of the next.
    next: usize,
    sorted: [f64; RECENT],
}

impl Recent {
    /// Takes one, and drops the oldest where they are enough. The new one takes the place of the old among those that are
    /// sorted already and moves to where it belongs: a train of millions asks for the median after each.
    fn push(&mut self, value: f64) {
        let mut at = self.len;
        if self.len == RECENT {
            let oldest = self.values[self.next];
            at = self.sorted.iter().position(|v| *v == oldest).unwrap_or(0);
        } else {
            self.len += 1;
        }
        let sorted = &mut self.sorted[..self.len];
        sorted[at] = value;
        while at > 0 && sorted[at - 1] > value {
            sorted.swap(at - 1, at);
            at -= 1;
        }
        while at + 1 < sorted.len() && sorted[at + 1] < value {
            sorted.swap(at, at + 1);
            at += 1;
        }
        self.values[self.next] = value;
        self.next = (self.next + 1) % RECENT;
    }

    /// The median, the higher of the middle two; 0 of none.
    fn middle(&self) -> f64 {
        match self.len {
            0 => 0.0,
            n => self.sorted[n / 2],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Closed form: sin(2 pi 50 t + 0.1), 10 kHz, 1 s has 50 rising zero crossings, mean period 0.02 s (the same from
    /// NumPy 2.4.6). The first lies before the first extreme, where no middle is known.
    #[test]
    fn crossings_of_a_sine() {
        let x: Vec<f32> = (0..10_000)
            .map(|i| (2.0 * std::f64::consts::PI * 50.0 * f64::from(i) / 1e4 + 0.1).sin() as f32)
            .collect();
        let swings = find_swings(&x, 0.02, false);
        let up: Vec<f64> = swings
            .iter()
            .filter(|s| s.rising && s.amplitude() > 1.9)
            .map(|s| s.at / 1e4)
            .collect();
        assert!((49..=50).contains(&up.len()), "{}", up.len());
        let mean = (up[up.len() - 1] - up[0]) / (up.len() - 1) as f64;
        assert!((mean - 0.02).abs() < 1e-6, "{mean}");
    }

    #[test]
    fn noise_below_the_least_makes_no_transition() {
        let x: Vec<f32> = (0..1000)
            .map(|i| if i % 2 == 0 { 0.1 } else { -0.1 })
            .collect();
        assert!(find_swings(&x, 0.3, false).is_empty());
    }

    #[test]
    fn a_growing_sine_keeps_its_transitions_about_any_centre() {
        for centre in [0.0, 3.5] {
            let x: Vec<f32> = (0..2000)
                .map(|i| (centre + f64::from(i) / 2000.0 * (f64::from(i) * 0.2).sin()) as f32)
                .collect();
            // 2000 * 0.2 / pi = 127 half periods; the first few lie below the least amplitude.
            let found = find_swings(&x, 0.04, false).len();
            assert!((120..=128).contains(&found), "{found}");
        }
    }

    /// A line that jumps to twenty times the amplitude of its teeth and back, before them and between them.
    #[test]
    fn a_great_step_blinds_for_a_while_only() {
        let jump = |i: usize| (500..800).contains(&i) || (10_000..10_900).contains(&i);
        let x: Vec<f32> = (0..20_000)
            .map(|i| match jump(i) {
                true => 40.0,
                false => (i as f64 * 2.0 * std::f64::consts::PI / 50.0).sin() as f32,
            })
            .collect();
        let swings = find_swings(&x, 0.04, false);
        let within = |from: f64, to: f64| {
            let own = swings
                .iter()
                .filter(|s| s.rising && s.at > from && s.at < to);
            own.count()
        };
        // 80 and 160 periods of 50 samples, the second from the step on.
        assert!(within(4_000.0, 8_000.0) >= 79);
        assert!(within(10_950.0, 18_950.0) >= 159);
    }

    #[test]
    fn the_median_of_the_last_nine_is_that_of_them_sorted() {
        let numbers: Vec<f64> = crate::noise::noise(11)
            .take(500)
            .map(|v| (8.0 * v).round())
            .collect();
        let mut recent = Recent::default();
        assert_eq!(recent.middle(), 0.0);
        for k in 0..numbers.len() {
            recent.push(numbers[k]);
            let mut last = numbers[(k + 1).saturating_sub(RECENT)..=k].to_vec();
            last.sort_by(f64::total_cmp);
            assert_eq!(recent.middle(), last[last.len() / 2], "{k}");
        }
    }

    #[test]
    fn a_list_of_level_changes_changes_at_its_stamps() {
        let swings = find_swings(&[0.0, 1.0, 1.0, 0.0, 0.0, 1.0], 0.5, true);
        let at: Vec<f64> = swings.iter().map(|s| s.at).collect();
        assert_eq!(at, [1.0, 3.0, 5.0]);
    }
}
