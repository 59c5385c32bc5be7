//! Amplitude of each sensor by its own law, and what a coil's tells of its air gap.
//!
//! A coil's voltage is proportional to its speed, so it is given at 100 rpm. Between sensor and tooth the field falls off
//! exponentially with the distance, over a pitch by exp(-2 pi) (Laplace's equation over a periodic array): a gap that is
//! wider by a tenth of the pitch halves the voltage.

use crate::LIMITS;
use crate::pair::difference;
use crate::sensors::{self, Law, Sensor};
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Limit, Observation, Output};

/// The analyzer.
pub struct SensorAmplitude;

impl Analyzer for SensorAmplitude {
    const DECLARATION: Declaration = Declaration {
        id: "sensor-amplitude",
        name: "Amplitude of the speed sensors",
        needs: sensors::NEEDS,
        uses: &[sensors::ENGINE],
        inputs: crate::TRAINS,
        kinds: &[("sensor-amplitude", "V|mA")],
        messages: &[
            ("sensor-amplitude", &[]),
            ("sensor-amplitude-low", &[]),
            ("sensor-amplitude-beside", &["other", "share"]),
            ("sensor-amplitude-among", &["other", "share"]),
            ("sensor-amplitude-apart", &["other", "share"]),
            ("sensor-amplitude-clamped", &[]),
            ("sensor-level-low", &[]),
            ("sensor-level-high", &[]),
        ],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let sensors = sensors::read(input);
        for sensor in sensors.iter().filter(|s| s.is_own() && s.rotates()) {
            match sensor.law {
                Law::Coil => coil(sensor, &sensors, input, out),
                Law::Hall | Law::CurrentLoop => levels(sensor, out),
            }
        }
        Ok(())
    }
}

/// Difference of two wheels' speeds from which on the number of teeth may not be that of both rings, %, so that their amplitudes at
/// equal speed are not known; an axle in the tightest turn comes to 25 (track 1.5 m, radius 6 m).
const APART: f64 = 28.0;

/// Amplitude of a coil at 100 rpm: half of peak to peak, V, and its standard uncertainty.
fn at_100_rpm(sensor: &Sensor<'_>) -> Option<(f64, f64)> {
    let law = sensor.train.amplitude_law?;
    let positions = f64::from(sensor.train.wheel.positions_per_turn()?);
    let hz = positions * 100.0 / 60.0;
    let value = law.per_hz * hz / 2.0;
    let calibrated = sensor.channel.facts.calibrated && sensor.channel.unit == "V";
    // The scatter is a quantile of 95 %.
    (calibrated && value.is_finite()).then_some((value, value * law.scatter / 2.0))
}

fn coil(sensor: &Sensor<'_>, all: &[Sensor<'_>], input: &Input<'_>, out: &mut Output) {
    let limits = LIMITS.with(&input.settings);
    let (Some(segment), Some((value, uncertainty))) = (sensor.longest(), at_100_rpm(sensor)) else {
        return;
    };
    let about = |message: &str| {
        Observation::new("sensor-amplitude", message)
            .about(sensor.role())
            .span(segment.start_s, segment.end_s)
            .value(value, uncertainty, "V")
    };
    if sensor.clamped {
        out.add(about("sensor-amplitude-clamped").grade(Grade::Unusable));
        return;
    }
    let least = limits.low("coil-amplitude");
    let (message, name, other) = match sibling(sensor, all) {
        Some(twin) => (
            "sensor-amplitude-beside",
            "coil-amplitude-beside",
            Some(twin),
        ),
        None => (
            "sensor-amplitude-among",
            "coil-amplitude-among",
            weakest_other(sensor, all),
        ),
    };
    let low = limits.low(name) / 100.0;
    let beside = other.and_then(|other| {
        let (its, its_u) = at_100_rpm(other)?;
        let share = value / its;
        let u = share * (uncertainty / value).hypot(its_u / its);
        (share + u < low).then_some((other, its, share))
    });
    if let Some((other, its, share)) = beside {
        let apart = difference(sensor, other, input).is_some_and(|d| d.percent.abs() > APART);
        let (message, grade) = match apart {
            true => ("sensor-amplitude-apart", Grade::Unusable),
            false => (message, Grade::Abnormal),
        };
        out.add(
            about(message)
                .limit(Limit {
                    low: Some(its * low),
                    high: None,
                    unit: "V".into(),
                    source: limits.limit(name).source,
                })
                .arg("other", other.role())
                .arg("share", (100.0 * share).round())
                .grade(grade),
        );
        return;
    }
    let grade = match value {
        v if v + uncertainty < least => Grade::Abnormal,
        v if v < least + 2.0 * uncertainty && v < 1.2 * least => Grade::Unusable,
        _ => Grade::Normal,
    };
    let message = match grade {
        Grade::Abnormal => "sensor-amplitude-low",
        _ => "sensor-amplitude",
    };
    out.add(
        about(message)
            .limit(limits.limit("coil-amplitude"))
            .grade(grade),
    );
}

/// True for a sensor whose amplitude can be held against that of another one.
fn is_alike(sensor: &Sensor<'_>, other: &Sensor<'_>) -> bool {
    other.law == sensor.law && other.rotates() && !other.clamped
}

/// Sensor on the other wheel of the same axle, of the same law.
fn sibling<'s, 'a>(sensor: &Sensor<'_>, all: &'s [Sensor<'a>]) -> Option<&'s Sensor<'a>> {
    let role = axle_twin(sensor.role())?;
    let mut all = all.iter();
    all.find(|s| s.role() == role && is_alike(sensor, s))
}

/// Weakest of at least two coils before rings of as many teeth, for a wheel whose twin was not recorded.
fn weakest_other<'s, 'a>(sensor: &Sensor<'_>, all: &'s [Sensor<'a>]) -> Option<&'s Sensor<'a>> {
    let twin = axle_twin(sensor.role())?;
    if all.iter().any(|s| s.role() == twin) {
        return None;
    }
    let positions = |s: &Sensor<'_>| s.train.wheel.positions_per_turn();
    let is_other = |s: &&Sensor<'_>| {
        s.role() != sensor.role()
            && is_alike(sensor, s)
            && axle_twin(s.role()).is_some()
            && positions(s) == positions(sensor)
    };
    let mut others: Vec<(f64, &Sensor<'a>)> = all
        .iter()
        .filter(is_other)
        .filter_map(|s| Some((at_100_rpm(s)?.0, s)))
        .collect();
    others.sort_by(|a, b| a.0.total_cmp(&b.0));
    match others.as_slice() {
        [(_, weakest), _, ..] => Some(weakest),
        _ => None,
    }
}

/// Role of the other wheel of the same axle: the first two and the last two belong together.
pub fn axle_twin(role: &str) -> Option<&'static str> {
    let pairs = [
        ("wheel-speed-1", "wheel-speed-2"),
        ("wheel-speed-3", "wheel-speed-4"),
    ];
    pairs.into_iter().find_map(|(a, b)| match role {
        r if r == a => Some(b),
        r if r == b => Some(a),
        _ => None,
    })
}

/// The two levels of a sensor that switches.
fn levels(sensor: &Sensor<'_>, out: &mut Output) {
    let Some(segment) = sensor.longest() else {
        return;
    };
    let signal = &sensor.train.signal;
    if !sensor.channel.facts.calibrated || signal.level_changes {
        return;
    }
    let (factor, unit) = match sensor.channel.unit {
        "A" => (1000.0, "mA"),
        _ => (1.0, "V"),
    };
    let noise = signal.noise.unwrap_or(0.0) * factor;
    for (message, level) in [
        ("sensor-level-low", signal.low),
        ("sensor-level-high", signal.high),
    ] {
        let value = level * factor;
        // Half of a bin of the histogram that levels are read from, evenly distributed (GUM 4.3.7).
        let bin = (signal.high - signal.low) * factor / 256.0 / 12f64.sqrt();
        out.add(
            Observation::new("sensor-amplitude", message)
                .about(sensor.role())
                .span(segment.start_s, segment.end_s)
                .value(value, noise.hypot(bin), unit),
        );
    }
}
