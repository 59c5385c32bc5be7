//! Roles, calibrations and the unit of time as job.toml states them, on small recordings read from text.

use baybrief_channels::{apply_presets, apply_to_bus_log, assign};
use formats::{READERS, Reading, read_bytes};
use model::system::{Quantity, RoleDeclaration, RoleHints, Roles, SystemSheet};
use model::{Calibration, Capture, JobFile, Problem, TimeAxis, TimeSource};
use settings::{KnownNames, read_job_file, read_preset};

fn roles() -> Roles {
    let role = |name: &str, quantity, unit: &str, usual| RoleDeclaration {
        name: name.into(),
        quantity,
        unit: unit.into(),
        plot_order: 0,
        names: Default::default(),
        hints: RoleHints {
            usual,
            ..RoleHints::default()
        },
    };
    let sheet = SystemSheet {
        name: "sample".into(),
        roles: vec![
            role("feed", Quantity::Current, "A", None),
            role("supply", Quantity::Voltage, "V", Some((5.0, 32.0))),
            role("pulses", Quantity::ToothSignal, "V", None),
        ],
        ..SystemSheet::default()
    };
    Roles::declared_by(&[sheet]).unwrap()
}

fn job(text: &str) -> JobFile {
    let parsed = read_job_file(text, "job.toml", &KnownNames::default());
    assert!(parsed.errors.is_empty(), "{:?}", parsed.errors);
    parsed.value
}

fn table(header: &str, row: impl Fn(u32) -> String) -> Capture {
    let rows: String = (0..30).map(|i| row(i) + "\n").collect();
    match read_bytes(format!("{header}\n{rows}").as_bytes(), "a.csv", &READERS) {
        Ok(Reading::Capture(c)) => c,
        other => panic!("{other:?}"),
    }
}

fn assigned(mut capture: Capture, text: &str) -> (Capture, Vec<Problem>) {
    let mut problems = Vec::new();
    let job = job(&format!("[[capture]]\nfile = \"a.csv\"\n{text}"));
    assign(&mut capture, Some(&job), &[], &roles(), &mut problems);
    (capture, problems)
}

#[test]
fn the_unit_of_time_is_the_job_files_where_the_file_states_none() {
    let counter = || table("t;Input 1 [V]", |i| format!("{};12.5", i * 5));
    let (c, problems) = assigned(counter(), "time_unit = \"ms\"\n");
    assert!(
        problems.is_empty() && c.problems.is_empty(),
        "{:?}",
        c.problems
    );
    assert_eq!(c.time_source, TimeSource::JobFile);
    assert!(matches!(c.time, TimeAxis::Even { step_s, .. } if (step_s - 0.005).abs() < 1e-12));
    assert!(
        c.read_as.ends_with("in ms, as job.toml says"),
        "{}",
        c.read_as
    );
    let (c, _) = assigned(counter(), "");
    assert!(c.time_source == TimeSource::Unknown && !c.problems.is_empty());
    // Fractions that are no seconds after all.
    let fractions = table("t;Input 1", |i| format!("{:.1};0.5", f64::from(i) * 0.5));
    let (c, _) = assigned(fractions, "time_unit = \"ms\"\n");
    assert!((c.time.duration_s() - 0.0145).abs() < 1e-9);
    assert!(!c.read_as.contains("taken as seconds"), "{}", c.read_as);
    // A file that states its unit is believed, and that is said.
    let stated = table("t [s];Input 1 [V]", |i| format!("{i};0.5"));
    let (c, problems) = assigned(stated, "time_unit = \"ms\"\n");
    assert_eq!(
        (c.time_source, c.time.duration_s()),
        (TimeSource::File, 29.0)
    );
    assert!(
        problems[0].message.contains("states the unit"),
        "{problems:?}"
    );
}

#[test]
fn a_bus_logs_time_too() {
    let rows: String = (0..20)
        .map(|i| format!("{};13A;2;00 01\n", i * 10))
        .collect();
    let mut readers = READERS.to_vec();
    readers.extend(scan::READERS);
    let text = format!("time;id;len;data\n{rows}");
    let Ok(Reading::Scan(mut record)) = read_bytes(text.as_bytes(), "a.csv", &readers) else {
        panic!()
    };
    let at = |record: &model::ScanRecord| record.bus_log.as_ref().unwrap().frames[1].time_s;
    assert!(
        (at(&record) - 0.01).abs() < 1e-9,
        "taken as milliseconds by the repetition"
    );
    let mut problems = Vec::new();
    let job = job("[[capture]]\nfile = \"a.csv\"\ntime_unit = \"us\"\n");
    apply_to_bus_log(&mut record, Some(&job), &mut problems);
    assert!((at(&record) - 1e-5).abs() < 1e-12 && problems.is_empty());
    assert_eq!(record.bus_log.unwrap().time_source, TimeSource::JobFile);
}

#[test]
fn what_was_assumed_of_numbers_is_said_on_the_files_line() {
    let bare = |_: u32| "0.02;12.6;4.8".to_string();
    let roles = "[capture.channels.\"Input 1\"]\nrole = \"feed\"\n[capture.channels.\"Input 2\"]\nrole = \"supply\"\n\
                 [capture.channels.\"Input 3\"]\nrole = \"pulses\"\n";
    let capture = table("Sample interval: 1 ms\nInput 1;Input 2;Input 3", bare);
    let (c, problems) = assigned(capture, roles);
    let calibrations: Vec<_> = c.channels.iter().map(|ch| ch.calibration).collect();
    use Calibration::{None, TakenAsVolts};
    assert_eq!(calibrations, [None, TakenAsVolts, TakenAsVolts]);
    assert!(
        c.read_as
            .ends_with("\"Input 2\", \"Input 3\" without unit, taken as volts"),
        "{}",
        c.read_as
    );
    assert!(
        problems[0].message.contains("amps_per_volt"),
        "{problems:?}"
    );
    // One unit in the file, and the others are not guessed.
    let capture = table("Sample interval: 1 ms\nInput 1 [A];Input 2;Input 3", bare);
    let (c, _) = assigned(capture, roles);
    assert!(c.channels[0].calibrated() && !c.channels[1].calibrated());
}

#[test]
fn channels_by_name_with_a_unit_and_by_column() {
    let keys = [
        "Input 1",
        "Input 1 [V]",
        "Input 1 (V)",
        "Input 1 in V",
        "Input 1_V",
        "Column 2",
    ];
    for key in keys {
        let capture = table("Time [s];Input 1 [V]", |i| {
            format!("{:.2};12.5", f64::from(i) * 0.01)
        });
        let text = format!("[capture.channels.\"{key}\"]\nrole = \"supply\"\n");
        let (c, problems) = assigned(capture, &text);
        assert!(problems.is_empty(), "{key}: {problems:?}");
        assert_eq!(
            c.channels[0].role.as_ref().map(|r| r.name()),
            Some("supply"),
            "{key}"
        );
    }
    let capture = table("Time [s];Input 1 [V]", |i| {
        format!("{:.2};12.5", f64::from(i) * 0.01)
    });
    let (_, problems) = assigned(
        capture,
        "[capture.channels.\"Input 9\"]\nrole = \"supply\"\n",
    );
    assert!(
        problems[0].message.contains("it has Input 1"),
        "{problems:?}"
    );
}

#[test]
fn two_channels_for_one_role() {
    let capture = table("Time [s];Input 1 [V];Input 2 [V]", |i| {
        format!("{:.2};12.5;12.4", f64::from(i) * 0.01)
    });
    let text = "[capture.channels.\"Input 1\"]\nrole = \"supply\"\n[capture.channels.\"Input 2\"]\nrole = \"supply\"\n";
    let (c, problems) = assigned(capture, text);
    assert!(c.channels[0].role.is_some() && c.channels[1].role.is_none());
    assert!(
        problems[0].message.contains("already taken for supply"),
        "{problems:?}"
    );
}

#[test]
fn a_preset_with_more_leads_than_were_connected() {
    let text = "name = \"usual\"\n[channels.\"Input 1\"]\nrole = \"supply\"\n[channels.\"Input 4\"]\nrole = \"pulses\"\n";
    let preset = read_preset(text, "usual.toml", &KnownNames::default()).value;
    let mut job = job("[[capture]]\nfile = \"a.csv\"\npreset = \"usual\"\n");
    apply_presets(&mut job, std::slice::from_ref(&preset));
    let row = |i: u32| format!("{:.2};12.5", f64::from(i) * 0.01);
    let mut problems = Vec::new();
    let mut capture = table("Time [s];Input 1 [V]", row);
    assign(
        &mut capture,
        Some(&job),
        std::slice::from_ref(&preset),
        &roles(),
        &mut problems,
    );
    assert!(problems.is_empty(), "{problems:?}");
    // None of them is another recorder.
    let mut capture = table("Time [s];Probe [V]", row);
    assign(&mut capture, Some(&job), &[preset], &roles(), &mut problems);
    assert_eq!(problems.len(), 2, "{problems:?}");
}
