//! Shut-downs of known stages.

use baybrief_plugin_start_and_charge::measure::drain::{charge_a_day, days_until_no_start};
use baybrief_plugin_start_and_charge::{Charging, KeyOffCurrent};
use plugin_sdk::testing::{find, input, near, noise, observe, settings};
use plugin_sdk::{Grade, Observation};

/// Stages of (seconds, amperes) at 5 samples a second with noise of 4 mA, after which pulses of (start, length, height)
/// are added.
fn record(stages: &[(f64, f64)], pulses: &[(f64, f64, f64)]) -> Vec<f32> {
    let mut all = Vec::new();
    let mut noises = noise(2);
    for (seconds, amps) in stages {
        for _ in 0..(seconds * 5.0) as usize {
            let n = noises.next().unwrap_or(0.0);
            all.push((amps * (1.0 + 0.02 * n) + 0.008 * n) as f32);
        }
    }
    for (from, length, height) in pulses {
        for v in &mut all[(from * 5.0) as usize..((from + length) * 5.0) as usize] {
            *v += *height as f32;
        }
    }
    all
}

fn watched(stages: &[(f64, f64)], pulses: &[(f64, f64, f64)]) -> Vec<Observation> {
    let amps = record(stages, pulses);
    let settings = settings("off", &[("battery_ah", 70.0)]);
    observe::<KeyOffCurrent>(&input(&[("battery-current", &amps)], 5.0, settings))
}

/// A GM bulletin's rule by a copy: no start after 40 % of the charge; 70 Ah at 50 mA: 28 Ah over 1.2 Ah a day.
#[test]
fn days_until_no_start_by_hand() {
    assert!((charge_a_day(0.05) - 1.2).abs() < 1e-12);
    assert!((days_until_no_start(0.05, 70.0, 0.4).expect("days") - 23.333).abs() < 1e-3);
    assert_eq!(days_until_no_start(0.0, 70.0, 0.4), None);
}

#[test]
fn stages_of_a_vehicle_that_falls_asleep() {
    let all = watched(
        &[(4.0, 30.0), (40.0, 4.5), (180.0, 1.2), (300.0, 0.018)],
        &[],
    );
    let remains = find(&all, "key-off-current");
    near(remains, 0.018, 0.002);
    assert_eq!(remains.grade, Grade::Normal);
    // From the key's turn on, which the fall from the ignition's current shows.
    near(find(&all, "sleep-time"), 220.0, 2.0);
    assert_eq!(find(&all, "wake-ups").value, Some(0.0));
    let stages: Vec<f64> = all
        .iter()
        .filter(|o| o.kind == "key-off-stage")
        .filter_map(|o| o.value)
        .collect();
    assert_eq!(stages.len(), 3, "{stages:?}");
}

#[test]
fn wake_ups_are_counted_and_do_not_count_as_what_remains() {
    let pulses = [(120.0, 4.0, 1.5), (200.0, 6.0, 1.5), (290.0, 3.0, 0.8)];
    let all = watched(&[(60.0, 5.0), (300.0, 0.02)], &pulses);
    near(find(&all, "key-off-current"), 0.02, 0.002);
    assert_eq!(find(&all, "wake-ups").value, Some(3.0));
    near(find(&all, "sleep-time"), 60.0, 1.0);
    // On the average: 20 mA and the pulses' 17.4 As in 300 s.
    let mean = find(&all, "wake-ups").args["mean_a"]
        .as_f64()
        .expect("a mean");
    assert!((mean - 0.078).abs() < 0.005, "{mean}");
    assert_eq!(find(&all, "wake-ups").message, "wake-ups-draining");
}

#[test]
fn a_drain_is_called_when_no_vehicle_takes_longer() {
    let early = watched(&[(40.0, 5.0), (60.0, 1.5), (400.0, 0.4)], &[]);
    let o = find(&early, "key-off-current");
    assert_eq!(
        (o.message.as_str(), o.grade),
        ("key-off-current-high-early", Grade::Abnormal)
    );
    let late = watched(&[(40.0, 5.0), (60.0, 1.5), (2_700.0, 0.4)], &[]);
    let o = find(&late, "key-off-current");
    assert_eq!(
        (o.message.as_str(), o.grade),
        ("key-off-current-high", Grade::Abnormal)
    );
    // 0.4 A: 9.6 Ah a day; 28 Ah last 2.9 days.
    let days = o.args["days"].as_f64().expect("days");
    assert!((days - 2.92).abs() < 0.1, "{days}");
}

/// What remains, 19 mA, lies between two steps of a recorder of 10 mA: noise takes it from the one to the other, and now
/// and then it stays at one for a while. None of that is a stage of the shut-down.
#[test]
fn steps_of_a_coarse_recorder_are_no_stages() {
    let amps = record(&[(20.0, 14.5), (400.0, 1.9), (2_280.0, 0.019)], &[]);
    let lsb = 0.009_765_625;
    let coarse: Vec<f32> = amps.iter().map(|v| (v / lsb).round() * lsb).collect();
    let settings = settings("off", &[]);
    let all = observe::<KeyOffCurrent>(&input(&[("battery-current", &coarse)], 5.0, settings));
    near(find(&all, "sleep-time"), 400.0, 2.0);
    near(find(&all, "key-off-current"), 0.019, 0.003);
}

#[test]
fn a_step_just_before_the_end_is_not_the_last() {
    let all = watched(&[(30.0, 5.0), (50.0, 2.4), (15.0, 0.9)], &[]);
    let o = find(&all, "key-off-current");
    assert_eq!(
        (o.message.as_str(), o.grade),
        ("key-off-current-not-final", Grade::Unusable)
    );
    assert!(
        all.iter()
            .all(|o| o.kind != "sleep-time" && o.kind != "wake-ups"),
        "{all:?}"
    );
}

/// A clamp that was put on the other way round shows a drain as a charge: nobody is told that the vehicle sleeps.
#[test]
fn a_current_into_the_battery_is_no_sleep() {
    let amps = record(&[(30.0, 5.0), (300.0, 2.4), (2_600.0, 0.9)], &[]);
    let turned: Vec<f32> = amps.iter().map(|v| -v).collect();
    let settings = settings("off", &[]);
    let all = observe::<KeyOffCurrent>(&input(&[("battery-current", &turned)], 5.0, settings));
    let o = find(&all, "key-off-current");
    assert_eq!(
        (o.message.as_str(), o.grade),
        ("key-off-current-backwards", Grade::Unusable)
    );
}

#[test]
fn a_current_at_the_recorders_step_is_not_judged_against_a_finer_limit() {
    // A step of 0.25 A: what remains may be anything up to half of it.
    let amps: Vec<f32> = record(&[(60.0, 5.0), (300.0, 0.05)], &[])
        .iter()
        .map(|v| (v / 0.25).round() * 0.25)
        .collect();
    let all = observe::<KeyOffCurrent>(&input(
        &[("battery-current", &amps)],
        5.0,
        settings("off", &[]),
    ));
    assert_eq!(
        find(&all, "key-off-current").grade,
        Grade::Unusable,
        "{all:?}"
    );
}

#[test]
fn only_with_the_key_off() {
    let amps = record(&[(60.0, 5.0), (300.0, 0.4)], &[]);
    let channels = [("battery-current", &amps[..])];
    assert_eq!(
        observe::<KeyOffCurrent>(&input(&channels, 5.0, settings("running", &[]))),
        []
    );
}

/// Ranges of a regulator by temperature (Mitsubishi Attrage 2018, by a copy): 12.9 to 15.1 V from 80 to -20 degC.
#[test]
fn charging_voltage_and_its_sides() {
    for (volts, amps, message) in [
        (14.3, -8.0, "charging-voltage"),
        (13.4, -2.0, "charging-voltage"),
        (12.3, 25.0, "charging-voltage-low-discharging"),
        (11.9, 0.0, "charging-voltage-none"),
        (12.7, -0.5, "charging-voltage-low"),
        (15.8, -20.0, "charging-voltage-high"),
        (28.3, -20.0, "charging-voltage"),
    ] {
        let v: Vec<f32> = noise(3)
            .take(20_000)
            .map(|n| (volts + 0.05 * n) as f32)
            .collect();
        let i = vec![amps as f32; 20_000];
        let channels = [("battery-voltage", &v[..]), ("battery-current", &i[..])];
        let all = observe::<Charging>(&input(&channels, 10_000.0, settings("running", &[])));
        let o = find(&all, "charging-voltage");
        near(o, volts, 0.005);
        assert_eq!(o.message, message);
    }
    // Motorcycles of 6 V are charged to some 7 V (open log of one, 10 s a row: 6.9 to 7.86 V while its engine runs); no
    // limit of a 12 V battery applies.
    let v = vec![7.2f32; 20_000];
    let input = input(
        &[("battery-voltage", &v)],
        10_000.0,
        settings("running", &[]),
    );
    let o = observe::<Charging>(&input);
    assert_eq!(find(&o, "charging-voltage").grade, Grade::Unusable);
}

/// A voltage that is low for most of the recording and held in the rest of it is that of an alternator that can charge: glow plugs
/// and heaters after a start take all that it gives at idle, and charge management lets it rest.
#[test]
fn a_voltage_that_is_held_at_times_accuses_no_alternator() {
    for held_s in [0.0, 1.5] {
        let v: Vec<f32> = noise(4)
            .take(80_000)
            .enumerate()
            .map(|(n, noise)| {
                let t = n as f64 / 10_000.0;
                let level = if t > 8.0 - held_s { 14.0 } else { 12.8 };
                (level + 0.03 * noise) as f32
            })
            .collect();
        let i = vec![8.0f32; v.len()];
        let channels = [("battery-voltage", &v[..]), ("battery-current", &i[..])];
        let all = observe::<Charging>(&input(&channels, 10_000.0, settings("running", &[])));
        let o = find(&all, "charging-voltage");
        let expected = match held_s > 0.0 {
            true => ("charging-voltage-at-times", Grade::Unusable),
            false => ("charging-voltage-low-discharging", Grade::Abnormal),
        };
        assert_eq!((o.message.as_str(), o.grade), expected, "{o:?}");
    }
}
