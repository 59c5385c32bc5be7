//! Speed of a motor from its commutation ripple, and bars or brushes that leave a gap in it.

use crate::limits;
use crate::measure::comb::{Comb, comb, load_variation, once_a_turn};
use crate::measure::commutation::{
    Commutation, FASTEST_HZ, below_ripple, between_dips, commutation, may_be_false, pick_up,
    ripples_a_turn,
};
use crate::measure::gaps::{Dips, dips, dips_a_turn, shows_ripples, slower_at_start};
use crate::measure::lines::SteadyLines;
use crate::measure::run::{Run, inrush, runs, steady};
use crate::measure::stall::stall;
use crate::measure::start_up::{start_up, start_up_alone};
use crate::measure::switching::switching;
use crate::outputs;
use plugin_sdk::signal::windows::mean;
use plugin_sdk::{
    Analyzer, Declaration, Grade, Input, Limit, Observation, Output, Record, Settings, Side,
    unit_fact,
};
use std::f64::consts::PI;

/// Commutation ripple and its gaps.
pub struct MotorSpeed;

/// Samples a ripple period that a gap of the commutation must have to be seen.
const SAMPLES_A_RIPPLE: f64 = 4.0;
/// Turns over which a gap must not be seen to call a commutator whole.
const FEWEST_TURNS: f64 = 10.0;
/// Share of the current in lines below the ripple from which a commutator is not called whole: an open bar under a wide
/// brush leaves no dip but some percent of low orders (4 to 10 % in a model of the coils), as loads may leave them, too.
const MOST_BELOW: f64 = 0.03;
/// Height over its neighbours from which an order of what repeats with the turn is the ripple itself, for sure and perhaps: an
/// overtone of a sound ripple stands out by 1.2 in a model of the coils, the ripple beside an open or shorted bar by 1.5 to 4.
const STANDS_OUT: (f64, f64) = (2.0, 1.4);
/// Swing of the current over what the envelope of equal back-EMFs leaves (1 - cos(pi / n) of n ripples a turn) from which it is no
/// ripple of whole bars; that of whole ones comes to 1.1 times it in a model of the coils.
const BEYOND_RIPPLE: f64 = 1.6;
/// Share of its highest voltage that a coil has at most when a brush shorts it. Judgement: the field falls off towards the neutral zone.
const SHORTED_COIL: f64 = 0.72;
/// Speed below which no small motor runs at its whole voltage with little to turn, rpm, and that voltage, V. Judgement.
const SLOWEST_RPM: f64 = 600.0;
const WHOLE_V: f64 = 9.0;
/// Speed below which a ripple may as well be what a single bar leaves once or twice a turn of a motor at a usual speed, rpm. Judgement.
const CRAWLING_RPM: f64 = 1_000.0;
/// Least swing of the current, as a share of its mean, that an uneven commutation leaves at the rate of the turn or twice it.
const UNEVEN: f64 = 0.05;
/// Least share of the first order that the ripple has beside an uneven commutation (0.06 and more in a model of the coils).
const CLEAR_OF_FIRST: f64 = 0.04;
/// Share of its mean by which no load varies within a turn without driving the motor.
const WHOLE_LOAD: f64 = 1.0;
/// Time constant of a start that was not recorded, s: no motor with a load on its shaft gathers speed more quickly. Judgement.
const QUICKEST_START_S: f64 = 0.01;
/// Most ripples a turn of a small motor, where the bars are not known.
const MOST_RIPPLES: f64 = 40.0;

impl Analyzer for MotorSpeed {
    const DECLARATION: Declaration = Declaration {
        id: "motor-speed",
        name: "Speed and commutation",
        needs: &["motor-current"],
        uses: &["motor-voltage"],
        kinds: outputs::MOTOR_SPEED.kinds,
        messages: outputs::MOTOR_SPEED.messages,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let Some(current) = crate::undirected(input, "motor-current") else {
            return Ok(());
        };
        let volts = crate::undirected(input, "motor-voltage").filter(|v| v.matches(&current));
        let on_off = volts.as_ref().map(|v| &v.values[..]);
        let all = runs(&current.values, on_off, current.step_s);
        let off = all.first().map_or(0, |r| {
            r.on.saturating_sub((0.005 / current.step_s) as usize)
        });
        let others = pick_up(&current.values, current.step_s, (0, off));
        for run in &all {
            let Some(span) = steady(&current.values, current.step_s, run) else {
                continue;
            };
            let peak = inrush(&current.values, current.start_s, current.step_s, run);
            let standing = peak.and_then(|p| {
                stall(
                    &current.values,
                    current.start_s,
                    current.step_s,
                    run,
                    p.value,
                )
            });
            let bars = unit_fact(&input.settings, "motor_bars").map(|b| b as u32);
            let pulses = volts
                .as_ref()
                .and_then(|v| switching(&v.values, current.step_s, run));
            let mut others = others.clone();
            if let Some(p) = pulses {
                let highest = (0.5 / current.step_s / p.hz) as usize;
                others.extend((1..=highest).map(|k| k as f64 * p.hz));
            }
            let ripples = bars.map(ripples_a_turn);
            let ripple = commutation(&current.values, current.step_s, span, ripples, &others);
            let lines = SteadyLines::of(&current.values, current.step_s, span);
            let (amps, start_s, step_s) = (&current.values, current.start_s, current.step_s);
            let start = match &volts {
                Some(v) => start_up(amps, &v.values, start_s, step_s, run),
                None => start_up_alone(amps, start_s, step_s, run),
            };
            // One that draws its stall current and shows no ripple does not turn.
            if standing.is_some() && ripple.is_none_or(|r| r.over_noise < 10.0) {
                continue;
            }
            let seen = Seen {
                current: &current,
                volts: volts.as_ref(),
                run,
                span,
                bars,
                pulsed: pulses.is_some(),
                repeats: lines.as_ref().and_then(|l| comb(l, &others)),
                lines,
                time_constant_s: start.map(|s| s.time_constant_s),
                standing_a: peak.map(|p| p.value),
            };
            seen.observe(ripple, &input.settings, out);
        }
        Ok(())
    }
}

struct Seen<'a> {
    current: &'a Record,
    volts: Option<&'a Record>,
    run: &'a Run,
    span: (usize, usize),
    bars: Option<u32>,
    /// True for a switched supply: what its pulses leave on the current is no gap of the motor.
    pulsed: bool,
    /// Lines of the steady current.
    lines: Option<SteadyLines>,
    /// Those that repeat with the turn.
    repeats: Option<Comb>,
    /// Time constant of the start, s, where it was recorded.
    time_constant_s: Option<f64>,
    /// Peak of the start, A, where it was recorded.
    standing_a: Option<f64>,
}

/// A commutation that is uneven at one place of the turn.
struct Uneven {
    /// Repetitions a second.
    hz: f64,
    /// Repetitions a turn, where the bars are known.
    a_turn: Option<u32>,
    /// Swing of the current below the ripple, share of its mean.
    swing: f64,
    /// False where it could be the overtones of a sound ripple as well.
    sure: bool,
}

impl Seen<'_> {
    fn about(&self, kind: &str, message: &str) -> Observation {
        Observation::new(kind, message)
            .about("motor-current")
            .span(self.current.at(self.span.0), self.current.at(self.span.1))
    }

    fn observe(&self, ripple: Option<Commutation>, settings: &Settings, out: &mut Output) {
        let c = self.current;
        let dips = dips(&c.values, c.step_s, self.span);
        let ripples = self.bars.map(ripples_a_turn);
        // Without the number of the bars nothing tells how deep their ripple may be.
        let may_be_ripple = dips
            .as_ref()
            .is_some_and(|d| self.may_be_the_ripple(d, ripples));
        let is_ripple = may_be_ripple && ripples.is_some();
        let ripple = match dips.as_ref().filter(|_| is_ripple) {
            Some(d) => Some(Commutation {
                hz: d.hz,
                uncertainty: (0.001 * d.hz).max(d.hz * d.jitter / (d.at.len() as f64).sqrt()),
                amplitude: d.depth * self.mean_current(),
                over_noise: f64::INFINITY,
            }),
            None => ripple,
        };
        let found = dips.filter(|_| !is_ripple);
        let uneven = self
            .uneven(ripple.as_ref(), ripples)
            .filter(|_| found.is_none() && !is_ripple);
        // Dips, and what repeats with the turn, mask the ripple: what lies between them counts.
        let masked = found
            .as_ref()
            .map(|d| d.hz)
            .or(uneven.as_ref().map(|u| u.hz));
        let ripple = match (masked, ripples) {
            (Some(hz), Some(n)) => between_dips(&c.values, c.step_s, self.span, n, hz),
            _ => ripple,
        };
        if let Some((r, n)) = ripple
            .zip(ripples)
            .filter(|(r, n)| found.is_none() && uneven.is_none() && self.may_be_turns(r, *n))
        {
            return out.add(
                self.about("commutation-gap", "commutation-rate-unclear")
                    .grade(Grade::Unusable)
                    .arg("hz", r.hz)
                    .arg("rpm", 60.0 * r.hz / f64::from(n)),
            );
        }
        let a_turn = found
            .as_ref()
            .and_then(|d| dips_a_turn(d, ripple.map(|r| r.hz), ripples));
        let false_speed =
            |r: &Commutation| ripples.is_some_and(|n| may_be_false(r.hz, n, c.step_s));
        if let Some(r) = ripple.filter(|r| !false_speed(r)) {
            self.speed(&r, ripples, settings, out);
        }
        match (found, uneven) {
            (Some(d), _) => self.gap(&d, a_turn, may_be_ripple, out),
            (None, Some(u)) => self.uneven_at_one_place(&u, out),
            (None, None) => {
                self.no_gap(ripple, ripples, out);
                if let Some((r, n)) = ripple.filter(|r| !false_speed(r)).zip(ripples) {
                    self.load(r.hz / f64::from(n), settings, out);
                }
            }
        }
    }

    /// True for a ripple that may be what one bar leaves once or twice a turn: as such it is that of a usual speed, as the ripple that of
    /// a motor that crawls at its whole voltage; or what repeats with the turn does so at no rate that the number of the bars allows.
    fn may_be_turns(&self, r: &Commutation, ripples: u32) -> bool {
        let n = f64::from(ripples);
        let low = self
            .volts
            .is_some_and(|v| mean(&v.values[self.span.0..self.span.1]) < WHOLE_V);
        let crawls = 60.0 * r.hz / n < CRAWLING_RPM && r.hz < 2.0 * FASTEST_HZ && !low;
        let repeats = self
            .repeats
            .as_ref()
            .filter(|c| c.is_rich() && c.hz < 0.9 * r.hz);
        let allowed = |c: &Comb| [n, n / 2.0].iter().any(|m| (r.hz / c.hz - m).abs() < 0.1);
        crawls || repeats.is_some_and(|c| !allowed(c))
    }

    /// True for dips that may be the ripple of all bars: between them no bars are seen that carry, and they are no deeper than whole
    /// bars make them.
    fn may_be_the_ripple(&self, d: &Dips, ripples: Option<u32>) -> bool {
        let counted = |n: u32| shows_ripples(&self.current.values, d, n as usize);
        let between = match ripples {
            Some(n) => counted(n) || counted(n / 2),
            None => (1..=MOST_RIPPLES as u32).any(counted),
        };
        // A coil that a brush shorts gives no voltage: one of those of its path, half of all, and near the neutral zone a part of it.
        let own = self.bars.map(|n| SHORTED_COIL * 2.0 / f64::from(n));
        let swing = self.standing_a.map(|a| d.depth * self.mean_current() / a);
        let beyond = own.zip(swing).is_some_and(|(own, s)| s > own);
        let possible = d.hz < FASTEST_HZ * ripples.map_or(MOST_RIPPLES, f64::from);
        // Alternate dips, of one brush and of the other, are no ripple of equal bars.
        !between && !beyond && !d.alternate && possible
    }

    /// Looks for a bar, coil or brush that carries otherwise than the others: lines at the rate of the turn or twice it, too
    /// large for any load, out of which the ripple stands at the order that the number of the bars asks for.
    fn uneven(&self, ripple: Option<&Commutation>, ripples: Option<u32>) -> Option<Uneven> {
        // What repeats more often than any motor turns twice is the ripple itself.
        let of_turn = |c: &&Comb| c.is_rich() && c.hz < 2.0 * FASTEST_HZ;
        let comb = self.repeats.as_ref().filter(of_turn)?;
        let tau_s = self.time_constant_s.unwrap_or(QUICKEST_START_S);
        if comb.load(tau_s.max(QUICKEST_START_S)) <= WHOLE_LOAD {
            return None;
        }
        let candidates: Vec<(Option<u32>, usize)> = match ripples {
            Some(n) => [1, 2].map(|k| (Some(k), (n / k) as usize)).to_vec(),
            None => (4..comb.orders.len()).map(|m| (None, m)).collect(),
        };
        // An overtone beside the noise is no ripple, and no motor turns so fast.
        let clear = |m: usize| comb.orders.get(m - 1) >= Some(&(CLEAR_OF_FIRST * comb.orders[0]));
        let possible = |a_turn: Option<u32>| comb.hz < FASTEST_HZ * f64::from(a_turn.unwrap_or(2));
        let height = |c: &(Option<u32>, usize)| match clear(c.1) && possible(c.0) {
            true => comb.stands_out(c.1),
            false => 0.0,
        };
        let best = candidates
            .into_iter()
            .max_by(|a, b| height(a).total_cmp(&height(b)))?;
        // A sound ripple at the comb's own rate would mean a motor that crawls at its whole voltage.
        let crawls = ripples.is_some_and(|n| 60.0 * comb.hz / f64::from(n) < SLOWEST_RPM);
        let crawls = crawls && self.runs_light();
        let is_ripple = height(&best) >= STANDS_OUT.1 || crawls && height(&best) > 0.0;
        // Slower than what was taken for the ripple, and none of its orders told which of them is it.
        let slower = ripple.is_some_and(|r| comb.hz < 0.9 * r.hz);
        let (a_turn, order) = match is_ripple {
            true => best,
            false => (None, comb.orders.len()),
        };
        let swing = comb.swing(order);
        // Whole bars vary the back-EMF, and with it the current, by so much of what a motor draws standing.
        let own = ripples.map(|n| 1.0 - (PI / f64::from(n)).cos());
        let of_standing = self.standing_a.map(|a| swing * self.mean_current() / a);
        let beyond = own
            .zip(of_standing)
            .is_some_and(|(own, s)| s > BEYOND_RIPPLE * own);
        let told = height(&best) >= STANDS_OUT.0 || beyond || crawls;
        ((is_ripple || slower) && swing >= UNEVEN).then(|| Uneven {
            hz: comb.hz,
            a_turn,
            swing,
            sure: a_turn.is_some() && told && !self.pulsed,
        })
    }

    /// True where the motor has the voltage of a vehicle and draws less than half of what it draws standing.
    fn runs_light(&self) -> bool {
        let volts = self
            .volts
            .map(|v| mean(&v.values[self.span.0..self.span.1]));
        let light = self
            .standing_a
            .is_some_and(|a| self.mean_current() < 0.5 * a);
        light && volts.is_some_and(|v| v > WHOLE_V)
    }

    fn mean_current(&self) -> f64 {
        mean(&self.current.values[self.span.0..self.span.1])
    }

    fn uneven_at_one_place(&self, u: &Uneven, out: &mut Output) {
        let (message, grade) = match u.sure {
            true => ("commutation-uneven", Grade::Abnormal),
            false => ("commutation-uneven-unclear", Grade::Unusable),
        };
        let seconds = (self.span.1 - self.span.0) as f64 * self.current.step_s;
        let n = u.a_turn.unwrap_or(1);
        out.add(
            self.about("commutation-gap", message)
                .value(f64::from(n), 0.0, "count")
                .grade(grade)
                .arg("swing_percent", 100.0 * u.swing)
                .arg("hz", u.hz)
                .arg("turns", (seconds * u.hz / f64::from(n)).floor()),
        );
    }

    /// Variation of the load once a turn: a tight spot, a bent shaft, a wheel that rubs.
    fn load(&self, turn_hz: f64, settings: &Settings, out: &mut Output) {
        let Some(tau_s) = self.time_constant_s.filter(|_| !self.pulsed) else {
            return;
        };
        let lines = self.lines.as_ref();
        let Some((line, least)) = lines.and_then(|l| once_a_turn(l, turn_hz)) else {
            return;
        };
        let percent = |of_current: f64| 100.0 * load_variation(of_current, turn_hz, tau_s);
        let limit = limits(settings).limit("load-variation");
        let (value, least) = (percent(line), percent(least));
        // The fit of the start knows its time constant to a tenth.
        let u = (0.1 * value).hypot(least / 5.0);
        let low = limit.low.unwrap_or(0.0);
        let (message, grade) = match Side::of(
            value,
            u,
            &Limit {
                low: None,
                ..limit.clone()
            },
        ) {
            // What varies by more than all of the load has an electrical cause.
            Side::Above if value > 100.0 * WHOLE_LOAD => ("load-uneven-unclear", Grade::Unusable),
            Side::Above => ("load-uneven", Grade::Abnormal),
            _ if value + 2.0 * u > low => ("load-uneven-unclear", Grade::Unusable),
            _ if least > low => ("load-not-tested", Grade::NotTested),
            _ => ("load-even", Grade::Normal),
        };
        let o = self.about("load-variation", message).grade(grade);
        out.add(match grade {
            Grade::NotTested => o.arg("least_percent", least),
            _ => o
                .value(value, u, "%")
                .limit(Limit { low: None, ..limit })
                .arg("turn_hz", turn_hz),
        });
    }

    fn speed(&self, r: &Commutation, ripples: Option<u32>, settings: &Settings, out: &mut Output) {
        let Some((n, bars)) = ripples.zip(self.bars) else {
            out.add(self.about("commutation-rate", "commutation-rate").value(
                r.hz,
                r.uncertainty,
                "Hz",
            ));
            return;
        };
        let a_turn = 60.0 / f64::from(n);
        let (rpm, u) = (a_turn * r.hz, a_turn * r.uncertainty);
        let limit = limits(settings).limit("motor-speed");
        let low = Side::of(rpm, u, &limit) == Side::Below;
        out.add(
            self.about(
                "motor-speed",
                if low {
                    "motor-speed-low"
                } else {
                    "motor-speed"
                },
            )
            .value(rpm, u, "rpm")
            .limit(limit)
            .grade(if low { Grade::Abnormal } else { Grade::Normal })
            .arg("bars", bars)
            .arg("hz", r.hz),
        );
    }

    fn gap(&self, d: &Dips, a_turn: Option<u32>, may_be_ripple: bool, out: &mut Output) {
        let turning = match self.source_rises(d) {
            _ if self.pulsed || may_be_ripple => None,
            // A supply that is switched falls together with the current.
            Some(rises) => Some(rises),
            None => slower_at_start(
                &self.current.values,
                self.current.step_s,
                self.run.on,
                self.span.0,
                d.hz,
            )
            .filter(|_| self.run.from_rest),
        };
        let (message, grade) = match turning {
            Some(true) => ("commutation-gap", Grade::Abnormal),
            _ => ("commutation-gap-unclear", Grade::Unusable),
        };
        let n = a_turn.unwrap_or(1);
        out.add(
            self.about("commutation-gap", message)
                .value(f64::from(n), 0.0, "count")
                .grade(grade)
                .arg("depth_percent", 100.0 * d.depth)
                .arg("hz", d.hz)
                .arg("turns", d.at.len() as u32 / n),
        );
    }

    /// True where the motor's voltage rises during the dips, as that of an unloaded source does; `None` without a voltage
    /// or where it shows nothing.
    fn source_rises(&self, d: &Dips) -> Option<bool> {
        let v = &self.volts?.values;
        let every = (1.0 / d.hz / self.current.step_s) as usize;
        let mut inside = Vec::new();
        let mut between = Vec::new();
        for &at in &d.at {
            inside.push(*v.get(at)?);
            if let Some(b) = v.get(at + every / 2) {
                between.push(*b);
            }
        }
        let (a, b) = (mean(&inside), mean(&between));
        let scatter = (between.iter().map(|v| (v - b) * (v - b)).sum::<f64>()
            / between.len().max(1) as f64)
            .sqrt();
        let clear = (a - b).abs() > 4.0 * scatter / (between.len() as f64).sqrt() + 1e-4 * b.abs();
        clear.then_some(a > b)
    }

    /// A commutator without a gap, where one would have been seen.
    fn no_gap(&self, ripple: Option<Commutation>, ripples: Option<u32>, out: &mut Output) {
        let not_tested = || {
            self.about("commutation-gap", "commutation-gap-not-tested")
                .grade(Grade::NotTested)
        };
        let Some(r) = ripple else {
            out.add(not_tested());
            return;
        };
        let seconds = (self.span.1 - self.span.0) as f64 * self.current.step_s;
        let turns = seconds * r.hz / ripples.map_or(MOST_RIPPLES, f64::from);
        let fine = 1.0 / self.current.step_s / r.hz >= SAMPLES_A_RIPPLE;
        // What is slower than the turn is the load's.
        let slowest = ripples.map_or(0.0, |n| 0.9 * r.hz / f64::from(n));
        let lines = self.lines.as_ref();
        let below = lines.map_or(0.0, |l| below_ripple(l, (slowest, r.hz)));
        if fine && turns >= FEWEST_TURNS && below < MOST_BELOW {
            out.add(
                self.about("commutation-gap", "commutation-gap-none")
                    .value(0.0, 0.0, "count")
                    .arg("depth_percent", 12)
                    .arg("hz", 0)
                    .arg("turns", turns.floor()),
            );
        } else {
            out.add(not_tested());
        }
    }
}
