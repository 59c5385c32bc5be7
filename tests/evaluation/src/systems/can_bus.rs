//! Lines and logs of a bus.

use super::SystemCase;
use crate::params::Params;
use model::job_file::EngineState;
use simulator::noise::Noise;
use simulator::systems::can_bus::{self, Lines};

pub(super) fn bus(p: &mut Params, lines: Lines, cause: &str) -> SystemCase {
    let mut case = SystemCase::new("can-bus", cause);
    let rate = p.pick("rate", &[2_500_000.0, 5_000_000.0, 10_000_000.0]);
    let noise = 0.01 * p.between("noise", 0.5, 2.0);
    let random: &mut Noise = &mut p.noise("probes");
    let recorded = can_bus::lines(lines, rate, 0.02, noise, random);
    let channels = recorded.channels;
    case.record(
        "lines.csv",
        rate,
        channels,
        Some(EngineState::Running),
        None,
    );
    if matches!(lines, Lines::Whole | Lines::OneTerminator) {
        case.measure("bit-rate", "lines.csv", "kbit/s", 250.0, 2.5);
    }
    case
}

pub(super) fn bus_log(p: &mut Params, silent: bool) -> SystemCase {
    let mut case = SystemCase::new("can-bus", if silent { "node-silent" } else { "" });
    let seconds = p.between("length", 8.0, 20.0);
    let from = p.between("from", 0.2, 0.5) * seconds;
    let to = from + p.between("for", 0.1, 0.4) * seconds;
    let node = p.index("which", 4);
    let log = can_bus::log(seconds, silent.then_some((node, from, to)));
    case.folder.files.insert("bus.log".into(), log.into_bytes());
    case
}
