//! A gearbox with two dry clutches: an invented delivery van whose code accuses a speed sensor while the recordings show a clutch.
//!
//! The van crawls against the brake at traffic lights. Its code (P0716, input speed sensor A range or
//! performance) got it a new sensor, then a second one. The recordings show that the sensor is right: with the
//! engine running and the selector in P or N the first input shaft truly turns and follows the engine's speed,
//! and the actuator that should part the first clutch cannot move.

use crate::actuator::ActuatorFault;
use crate::bench::Bench;
use crate::csv::{CsvDialect, TimeUnit};
use crate::engine::EngineRun;
use crate::folder::JobFolder;
use crate::noise::Noise;
use crate::recorder::{ChannelPlan, Clamp, Probe, Recording, record};
use crate::scan_text::{ScanCode, ScanLayout, ScanReport};
use crate::scan_words::{CodeState, Language};
use crate::sensor::SpeedSensor;
use crate::traces::Mechanism::{Clutch1, Clutch2, Gear1, Gear2};
use crate::vin::with_check_digit;
use chrono::NaiveDate;
use model::JobFile;
use model::job_file::{
    ConcernSection, CustomerSection, EngineState, JobSection, Selector, VehicleSection,
};

/// Number of the job.
const NUMBER: &str = "D-0107";
/// Idle speed of the van, rpm.
const IDLE: f64 = 815.0;
/// Share of the engine's speed to which the first clutch drags its shaft.
const DRAGGED: f64 = 0.63;
/// Pitch positions of the input shafts' tooth wheels.
const TEETH: u32 = 27;

/// The van at standstill with its first clutch's actuator jammed and the clutch dragging.
fn van(duration_s: f64) -> Bench {
    let mut bench = Bench::new(5000.0, duration_s);
    bench.shafts[0].drag = bench.shafts[0].drag_for(DRAGGED, IDLE);
    bench.actuators[0].fault = ActuatorFault::Jammed;
    bench.position[0] = 0.5;
    bench
}

/// In P: the engine is started, the controller tries clutch 2 (moves) and then clutch 1 (twice, does not).
fn standstill() -> Recording {
    let mut bench = van(10.4);
    bench.engine = EngineRun::started(0.9, 0.75, IDLE);
    bench.order(3.1, Gear2, 1.0);
    bench.order(3.65, Gear1, 1.0);
    bench.order(4.2, Clutch2, 0.5);
    bench.order(4.8, Clutch2, 0.0);
    bench.order(5.5, Clutch1, 0.0);
    bench.order(7.9, Clutch1, 0.0);
    let clamp = Clamp {
        amps_per_volt: 10.0,
        range: 60.0,
        ..Default::default()
    };
    let plan = [
        ChannelPlan::new("Gearbox fuse", Probe::Feed(clamp)),
        ChannelPlan::new("Shaft 1 sensor", Probe::Input(0, SpeedSensor::hall(TEETH))),
        ChannelPlan::new("Shaft 2 sensor", Probe::Input(1, SpeedSensor::hall(TEETH))),
        ChannelPlan::new("Gearbox supply", Probe::Supply(0.012)),
    ];
    record(&bench.run(), &plan, &mut Noise::new(20_260_107))
}

/// In N: a stab at the accelerator, then two attempts, with a second clamp around the first actuator's own lead.
fn second_attempt() -> Recording {
    let mut bench = van(10.2);
    bench.engine = EngineRun::idle(IDLE).with_blip(1.6, 1640.0, 2.4);
    bench.spinning[0] = DRAGGED * IDLE;
    bench.order(5.2, Clutch1, 0.0);
    bench.order(7.6, Clutch1, 0.0);
    let clamp = Clamp {
        range: 60.0,
        ..Default::default()
    };
    let plan = [
        ChannelPlan::new("Gearbox fuse", Probe::Feed(clamp.clone())),
        ChannelPlan::new("Clutch 1 motor", Probe::Own(Clutch1, clamp)),
        ChannelPlan::new("Shaft 1 sensor", Probe::Input(0, SpeedSensor::hall(TEETH))),
        ChannelPlan::new("Shaft 2 sensor", Probe::Input(1, SpeedSensor::hall(TEETH))),
        ChannelPlan::new("Engine speed", Probe::Engine(SpeedSensor::hall(12))),
    ];
    record(&bench.run(), &plan, &mut Noise::new(20_260_108))
}

fn scan_text(vin: &str) -> String {
    let code = |module, code, state| ScanCode {
        module,
        code,
        failure_type: None,
        state,
    };
    let report = ScanReport {
        vin: vin.into(),
        date: "2026-03-09".into(),
        odometer_km: 143_870,
        codes: vec![
            code("TCM", "P0716", CodeState::Active),
            code("ECM", "P0700", CodeState::Confirmed),
            code("ABS", "C0040", CodeState::History),
        ],
        engine_rpm: Some(IDLE),
        selector: Some('P'),
        voltage: Some(14.1),
    };
    ScanLayout::Bars.write(&report, Language::English)
}

/// The demo job's files.
pub fn folder() -> JobFolder {
    let mut folder = JobFolder::default();
    let dialect = CsvDialect {
        time: Some(TimeUnit::Milliseconds),
        ..Default::default()
    };
    let mut first = folder.add_csv("standstill in P.csv", &standstill(), &dialect);
    first.selector = Some(Selector::P);
    first.engine = Some(EngineState::Running);
    let wav = crate::wav::WavSamples::Int16;
    let mut second = folder.add_wav("second attempt in N.wav", &second_attempt(), wav);
    second.selector = Some(Selector::N);
    second.engine = Some(EngineState::Running);
    let vin = with_check_digit("EXAMPLE00K0VAN042");
    folder.files.insert(
        "scan.txt".into(),
        scan_text(vin.as_deref().unwrap_or("-")).into(),
    );
    let job = JobFile {
        job: JobSection {
            number: Some(NUMBER.into()),
            opened: NaiveDate::from_ymd_opt(2026, 3, 9),
            technician: Some("Sam Example (invented)".into()),
            diagnosis_hours: Some(1.5),
        },
        customer: CustomerSection {
            name: Some("Example Parcel Service (invented)".into()),
            address: Some("7 Sample Street, Exampleton".into()),
            phone: None,
        },
        vehicle: VehicleSection {
            vin,
            make: Some("Invented make".into()),
            model: Some("Box van 300".into()),
            year: Some(2019),
            plate: Some("EX-AM 42".into()),
            odometer_km: Some(143_870.0),
            high_voltage: Some(false),
            unit: Some("dual-dry-clutch".into()),
            ..Default::default()
        },
        concern: ConcernSection {
            text: Some(
                "Pushes forward against the brake at traffic lights and shakes when it sets off. \
                 The speed sensor of input shaft 1 was replaced twice; the fault remains."
                    .into(),
            ),
        },
        captures: vec![first, second],
        ..Default::default()
    };
    if let Ok(text) = toml::to_string(&job) {
        folder.files.insert("job.toml".into(), text.into_bytes());
    }
    folder
}
