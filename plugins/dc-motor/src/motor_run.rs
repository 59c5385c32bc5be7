//! Start, steady run and stall of a motor, by what it draws.

use crate::limits;
use crate::measure::commutation;
use crate::measure::run::{Run, inrush, running_current, runs, steady};
use crate::measure::stall::{Stall, back_emf_after_off, stall};
use crate::measure::start_up::{StartUp, start_up, start_up_alone};
use crate::measure::switching::switching;
use crate::outputs;
use plugin_sdk::signal::windows::{mean, quantile, swing};
use plugin_sdk::{
    Analyzer, Declaration, Grade, Input, Limit, Observation, Output, Record, Settings, Side,
};

/// Currents, resistance and stall.
pub struct MotorRun;

/// Voltage from which a motor is switched on, V.
const ON_V: f64 = 3.0;
/// Time from switching on to a standstill from which on a motor turned before, s: nothing that jams from the start leaves its inrush.
const RAN_BEFORE_S: f64 = 0.15;
/// Slowest sample rate at which the absence of a ripple says that a motor stands, Hz.
const RIPPLE_RATE_HZ: f64 = 2_000.0;

impl Analyzer for MotorRun {
    const DECLARATION: Declaration = Declaration {
        id: "motor-run",
        name: "Start, run and stall",
        needs: &["motor-current"],
        uses: &["motor-voltage", "supply-voltage"],
        kinds: outputs::MOTOR_RUN.kinds,
        messages: outputs::MOTOR_RUN.messages,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let Some(current) = crate::undirected(input, "motor-current") else {
            return Ok(());
        };
        let volts = crate::undirected(input, "motor-voltage").filter(|v| v.matches(&current));
        let supply = Record::of(input, &["supply-voltage"]).filter(|v| v.matches(&current));
        let on_off = volts.as_ref().map(|v| &v.values[..]);
        for run in runs(&current.values, on_off, current.step_s) {
            let seen = Seen {
                current: &current,
                volts: volts.as_ref(),
                source: volts.as_ref().or(supply.as_ref()),
                run,
            };
            seen.observe(&input.settings, out);
        }
        Ok(())
    }
}

struct Seen<'a> {
    current: &'a Record,
    volts: Option<&'a Record>,
    source: Option<&'a Record>,
    run: Run,
}

impl Seen<'_> {
    fn about(&self, kind: &str, message: &str, span: (f64, f64)) -> Observation {
        Observation::new(kind, message)
            .about("motor-current")
            .span(span.0, span.1)
    }

    fn amps(&self, value: f64, u: f64) -> f64 {
        u.hypot(self.current.accuracy * value)
    }

    fn observe(&self, settings: &Settings, out: &mut Output) {
        let c = self.current;
        if self.draws_nothing(out) || !c.calibrated {
            return;
        }
        let peak = inrush(&c.values, c.start_s, c.step_s, &self.run).filter(|_| !c.over_range);
        if let Some(m) = peak {
            out.add(
                self.about("inrush-current", "motor-inrush", (m.from_s, m.to_s))
                    .value(m.value, self.amps(m.value, m.uncertainty), "A"),
            );
        }
        // What a motor draws of a switched supply says nothing of what it would draw standing.
        let pulsed = self
            .volts
            .is_some_and(|v| switching(&v.values, c.step_s, &self.run).is_some());
        // The fall of the current tells as much without a voltage, but for the resistance.
        let fitted = match self.source {
            Some(v) => start_up(&c.values, &v.values, c.start_s, c.step_s, &self.run),
            None => start_up_alone(&c.values, c.start_s, c.step_s, &self.run),
        };
        let fitted = fitted.filter(|_| !pulsed);
        if let Some(f) = fitted.filter(|_| self.volts.is_some()) {
            self.started(&f, out);
        }
        let peak = peak.filter(|_| !pulsed);
        let stood = peak.and_then(|p| stall(&c.values, c.start_s, c.step_s, &self.run, p.value));
        if stood.is_some_and(|s| self.stalled(&s, out)) {
            return;
        }
        if let Some(span) = steady(&c.values, c.step_s, &self.run) {
            self.runs_steadily(span, fitted.map(|f| f.stall_current), settings, out);
        }
    }

    /// A motor with voltage on it that draws nothing.
    fn draws_nothing(&self, out: &mut Output) -> bool {
        let (c, run) = (self.current, &self.run);
        let Some(volts) = self.volts else {
            return false;
        };
        let part = &c.values[run.on..run.off];
        let (drawn, on) = (mean(part), mean(&volts.values[run.on..run.off]));
        let scatter = (part.iter().map(|v| (v - drawn) * (v - drawn)).sum::<f64>()
            / part.len() as f64)
            .sqrt();
        let peak = part
            .iter()
            .map(|v| (v - run.rest).abs())
            .fold(0.0, f64::max);
        let long = part.len() as f64 * c.step_s >= 0.1;
        // Under a voltage that is raised gradually the motor draws before it counts as switched on.
        let level = |q| quantile(&c.values, q).unwrap_or(0.0);
        let ever = level(0.98) - level(0.02) > (5.0 * scatter).max(0.05);
        let nothing = !ever
            && (drawn - run.rest).abs() < (0.5 * scatter).max(0.02)
            && peak < (8.0 * scatter).max(0.05);
        if !long || !nothing || on < ON_V {
            return false;
        }
        // A channel without any noise of its own may be one that nobody connected.
        let alive = scatter > 0.0;
        let (message, grade) = match alive {
            true => ("motor-draws-nothing", Grade::Abnormal),
            false => ("motor-draws-nothing-flat", Grade::Unusable),
        };
        out.add(
            self.about("running-current", message, (c.at(run.on), c.at(run.off)))
                .value((drawn - run.rest).max(0.0), scatter.max(0.01), "A")
                .grade(grade)
                .arg("volts", on),
        );
        true
    }

    fn started(&self, f: &StartUp, out: &mut Output) {
        let r = f.resistance;
        let (value, u) = (1e3 * r.value, 1e3 * r.uncertainty);
        out.add(
            self.about(
                "motor-resistance",
                "motor-resistance-start",
                (r.from_s, r.to_s),
            )
            .value(value, u.hypot(self.current.accuracy * value), "mohm")
            .arg("current_a", f.stall_current),
        );
        out.add(
            self.about("motor-start", "motor-start", (r.from_s, r.to_s))
                .value(f.time_constant_s, 0.1 * f.time_constant_s, "s")
                .arg("back_emf_percent", 100.0 * f.back_emf_share),
        );
    }

    /// Tells a standing motor from one that draws as much and turns; `true` where it stood.
    fn stalled(&self, s: &Stall, out: &mut Output) -> bool {
        let (c, d) = (self.current, s.duration);
        let span = (
            ((d.from_s - c.start_s) / c.step_s) as usize,
            (((d.to_s - c.start_s) / c.step_s) as usize).min(c.values.len()),
        );
        let ripple = commutation::commutation(&c.values, c.step_s, span, None, &[]);
        let turned = ripple.is_some_and(|r| r.over_noise > 10.0)
            || self
                .volts
                .and_then(|v| back_emf_after_off(&v.values, c.step_s, &self.run))
                .is_some();
        if turned {
            return false;
        }
        let volts = self.volts.map(|v| &v.values[span.0..span.1]);
        // A driver that limits the current lets the voltage follow the speed.
        let held = volts.map(|v| swing_of_level(v, c.step_s) < 0.06 * mean(v).abs());
        let told = 1.0 / c.step_s >= RIPPLE_RATE_HZ && held != Some(false) && !s.rose_slowly;
        let (message, grade) = match (told, held) {
            // It turned before: an obstacle, or the end of what it moves.
            (true, _) if d.from_s - c.at(self.run.on) > RAN_BEFORE_S => {
                ("motor-stall-later", Grade::Abnormal)
            }
            (true, Some(_)) => ("motor-stall", Grade::Abnormal),
            (true, None) => ("motor-stall-current-only", Grade::Abnormal),
            (false, _) => ("motor-stall-unclear", Grade::Unusable),
        };
        out.add(
            self.about("motor-stall", message, (d.from_s, d.to_s))
                .value(d.value, d.uncertainty, "s")
                .grade(grade)
                .arg("current_a", s.current),
        );
        if let Some(v) = volts.filter(|_| told).map(mean) {
            let r = 1e3 * v / s.current;
            out.add(
                self.about(
                    "motor-resistance",
                    "motor-resistance-stall",
                    (d.from_s, d.to_s),
                )
                .value(r, r * (0.01f64).hypot(c.accuracy), "mohm")
                .arg("current_a", s.current),
            );
        }
        told
    }

    fn runs_steadily(
        &self,
        span: (usize, usize),
        standing: Option<f64>,
        settings: &Settings,
        out: &mut Output,
    ) {
        let c = self.current;
        let Some(m) = running_current(&c.values, c.start_s, c.step_s, span) else {
            return;
        };
        let u = self.amps(m.value, m.uncertainty);
        let o = |message: &str| {
            self.about("running-current", message, (m.from_s, m.to_s))
                .value(m.value, u, "A")
        };
        let sheet = limits(settings);
        let share = standing.map(|s| 100.0 * m.value / s);
        // A known-good of the same motor says more than any rule.
        if sheet.get("running-current").is_some() {
            let limit = sheet.limit("running-current");
            let beyond = Side::of(m.value, u, &limit) != Side::Within;
            let message = if beyond {
                "motor-runs-beyond-sheet"
            } else {
                "motor-runs"
            };
            out.add(
                o(message)
                    .limit(limit)
                    .grade(if beyond {
                        Grade::Abnormal
                    } else {
                        Grade::Normal
                    })
                    .arg("share_percent", share.unwrap_or(0.0)),
            );
            return;
        }
        let Some((share, standing)) = share.zip(standing) else {
            out.add(o("motor-runs-alone"));
            return;
        };
        let free = settings.state.as_deref() == Some("free");
        let name = if free {
            "running-current-share-free"
        } else {
            "running-current-share"
        };
        let limit = sheet.limit(name);
        let hard = Side::of(share, 0.03 * share, &limit) == Side::Above;
        let message = match share {
            _ if hard => "motor-runs-hard",
            s if s > limit.low.unwrap_or(100.0) => "motor-runs-raised",
            _ => "motor-runs",
        };
        let high = limit.high.map(|h| h / 100.0 * standing);
        out.add(
            o(message)
                .limit(Limit {
                    low: None,
                    high,
                    unit: "A".into(),
                    ..limit
                })
                .grade(if hard { Grade::Abnormal } else { Grade::Normal })
                .arg("share_percent", share),
        );
    }
}

/// Swing of the level of a stretch: difference of its 50 ms means, the first of them left out.
fn swing_of_level(x: &[f64], step_s: f64) -> f64 {
    let n = ((0.05 / step_s) as usize).max(1);
    let means: Vec<f64> = x.chunks_exact(n).skip(1).map(mean).collect();
    if means.len() < 2 { 0.0 } else { swing(&means) }
}
