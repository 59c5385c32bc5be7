//! A segment of turning: its speed, and its meaning under the conditions of the recording.

use super::meaning::meaning;
use super::{Context, Shaft, round};
use plugin_sdk::derived::Word;
use plugin_sdk::signal::teeth::{Motion, Segment, Trend};
use plugin_sdk::{Observation, Output};

pub fn observe(shaft: &Shaft<'_>, segment: &Segment, context: &Context<'_>, out: &mut Output) {
    let Some(m) = segment.motion else { return };
    let role = shaft.channel.role;
    let (kind, message, grade) = meaning(shaft, segment, &m, context).finding();
    let o = Observation::new(kind, message)
        .about(role)
        .span(segment.start_s, segment.end_s)
        .arg("duration_s", round(segment.duration_s()))
        .arg("steady_s", round(m.plateau.end_s - m.plateau.start_s))
        .arg("steady_hz", round(m.plateau.hz))
        .arg("jitter", round(m.scatter))
        .arg("swing", round(m.amplitude))
        .arg("acceleration_hz_s", round(m.acceleration_hz_s))
        .arg("trend", m.trend.word())
        .arg("ending", m.ending.word())
        .grade(grade);
    let mut o = valued(o, &m);
    if m.samples_per_pitch.is_finite() {
        o = o.arg("samples_a_tooth", round(m.samples_per_pitch));
    }
    if let Some(noise) = shaft.train.signal.noise.filter(|n| *n > 0.0) {
        o = o.arg("swing_to_noise", round(m.amplitude / noise));
    }
    if kind == "shaft-turning-at-rest" {
        o = o.limit(context.limits.limit("parked-input-speed"));
    }
    out.add(o);
    out.observations
        .extend(speed(shaft, segment, "shaft-speed"));
}

/// Median speed over a segment; `None` where the positions per turn are not known.
pub fn speed(shaft: &Shaft<'_>, segment: &Segment, message: &str) -> Option<Observation> {
    let m = segment.motion.filter(|m| m.rpm.is_some())?;
    let o = Observation::new("shaft-speed", message)
        .about(shaft.channel.role)
        .span(segment.start_s, segment.end_s);
    Some(valued(o, &m))
}

/// The observation with the median speed, rpm, or rate, Hz.
fn valued(o: Observation, m: &Motion) -> Observation {
    let u_hz = uncertainty_hz(m);
    match m.rpm {
        Some(rpm) => o.value(rpm, rpm * u_hz / m.hz, "rpm"),
        None => o.value(m.hz, u_hz, "Hz"),
    }
}

/// Standard uncertainty of the median rate, Hz. Half of the 16 to 84 % range is how the speed itself scatters; the median
/// of n teeth is known better by the root of n, and one sample at either end of the segment bounds it from below. Of a
/// speed that changes there is no one value: the scatter is stated whole.
fn uncertainty_hz(m: &Motion) -> f64 {
    if m.trend != Trend::Steady {
        return m.spread_hz;
    }
    let n = f64::from(m.positions.max(1));
    let sampling = m.hz / (m.samples_per_pitch * n);
    (m.spread_hz / n.sqrt()).hypot(sampling)
}
