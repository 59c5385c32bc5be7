//! Manipulate: which channel measures what, under which conditions, and which systems are examined.

use super::acquire::Acquired;
use super::conditions::{self, Conditions};
use super::{hookup, sections};
use model::case::{CaptureRecord, ChannelRecord};
use model::job_file::VehicleSection;
use model::knowledge::{Knowledge, Plan, Recorded, UnknownName};
use model::{Capture, Problem};

/// A job whose channels are known and calibrated.
pub struct Derived<'k> {
    /// The files; their captures have roles and true units.
    pub acquired: Acquired,
    /// Conditions of each capture, in the same order.
    pub conditions: Vec<Conditions>,
    /// The vehicle, as job.toml and the scan-tool texts have it.
    pub vehicle: VehicleSection,
    /// Systems that are examined.
    pub plan: Plan<'k>,
}

/// Gives each channel its role and calibration, each recording its conditions, and settles what is examined.
pub fn derive<'k>(
    mut acquired: Acquired,
    presets: &[model::job_file::HookupFile],
    knowledge: &'k Knowledge,
) -> Derived<'k> {
    sections::settle(&mut acquired);
    hookup::fill_in(&mut acquired, presets);
    for capture in &mut acquired.captures {
        hookup::apply(
            capture,
            acquired.job.as_ref(),
            presets,
            &knowledge.roles,
            &mut acquired.problems,
        );
    }
    let vehicle = vehicle(&mut acquired);
    let plan = knowledge.plan(&vehicle, &recorded(&acquired));
    for name in &plan.unknown {
        let problem = unknown_name(name, &acquired);
        acquired.problems.push(problem);
    }
    let conditions = acquired.captures.iter();
    Derived {
        conditions: conditions
            .map(|c| conditions::stated(c, &acquired))
            .collect(),
        vehicle,
        plan,
        acquired,
    }
}

fn recorded(acquired: &Acquired) -> Recorded<'_> {
    let channels = acquired.captures.iter().flat_map(|c| &c.channels);
    Recorded {
        roles: channels
            .filter_map(|ch| ch.role.as_ref().map(|r| r.name()))
            .collect(),
        bus_log: false,
    }
}

/// The vehicle of job.toml; what it leaves out is taken from the scan-tool texts.
fn vehicle(acquired: &mut Acquired) -> VehicleSection {
    let job = acquired.job.as_ref();
    let mut vehicle = job.map_or_else(VehicleSection::default, |j| j.vehicle.clone());
    let scans = &acquired.scans;
    let scanned = scans.iter().find_map(|s| Some((&s.file, s.vin.as_ref()?)));
    match (&vehicle.vin, scanned) {
        (None, Some((_, (vin, _)))) => vehicle.vin = Some(vin.clone()),
        (Some(stated), Some((file, (vin, at)))) if !stated.eq_ignore_ascii_case(vin) => {
            let message = format!(
                "The vehicle number {vin} is not the one in job.toml ({stated}): make sure that the scan text belongs to this vehicle."
            );
            acquired.problems.push(Problem {
                file: file.clone(),
                place: Some(format!("line {at}")),
                message,
            });
        }
        _ => {}
    }
    vehicle.odometer_km = vehicle
        .odometer_km
        .or_else(|| acquired.scans.iter().find_map(|s| s.odometer_km));
    vehicle
}

fn unknown_name(unknown: &UnknownName, acquired: &Acquired) -> Problem {
    let UnknownName { key, name, known } = unknown;
    let names_it = |l: &str| l.trim_start().starts_with(key) && l.contains(name.as_str());
    let line = acquired.job_text.lines().position(names_it);
    let what = match *key {
        "unit" => "limits sheet",
        _ => "system",
    };
    Problem {
        file: acquired.job_file_name().into(),
        place: Some(match line {
            Some(i) => format!("line {}, key {key}", i + 1),
            None => format!("key {key}"),
        }),
        message: format!(
            "There is no {what} {name:?}; there are {}. Name one of them; until then measurements are made, and the \
             verdict stays open.",
            known.join(", ")
        ),
    }
}

impl Derived<'_> {
    /// Records of the captures for the case.
    pub fn capture_records(&self) -> Vec<CaptureRecord> {
        let captures = self.acquired.captures.iter().zip(&self.conditions);
        captures.map(|(c, stated)| record(c, stated)).collect()
    }
}

fn record(c: &Capture, stated: &Conditions) -> CaptureRecord {
    let n = c.time.len();
    CaptureRecord {
        file: c.file.clone(),
        phase: stated.phase,
        selector: stated.selector.clone(),
        engine: stated.engine.clone(),
        rate_hz: c.time.rate_hz(),
        samples: n,
        start_s: if n > 0 { c.time.at(0) } else { 0.0 },
        end_s: if n > 0 { c.time.at(n - 1) } else { 0.0 },
        channels: c
            .channels
            .iter()
            .map(|ch| ChannelRecord {
                name: ch.name.clone(),
                role: ch.role.as_ref().map(|r| r.name().into()),
                role_source: ch.role_source.clone(),
                unit: ch.unit.clone(),
                scale: ch.scale,
                offset: ch.offset,
                calibrated: ch.calibrated,
            })
            .collect(),
    }
}
