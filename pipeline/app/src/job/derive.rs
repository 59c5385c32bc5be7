//! Manipulate: which channel measures what, under which conditions, and which systems are examined.

use super::acquire::Acquired;
use super::conditions::{self, Conditions};
use super::sections;
use crate::context::line;
use model::case::{CaptureRecord, ChannelRecord, FileStatus};
use model::job_file::{ChannelSection, Phase, VehicleSection};
use model::knowledge::{Knowledge, Plan, Recorded};
use model::{Capture, Problem, TimeSource};

/// A job whose channels are known and calibrated.
pub struct Derived<'k> {
    /// The files; their captures have roles and true units.
    pub acquired: Acquired,
    /// Facts that were stated of each capture, in the same order.
    pub stated: Vec<StatedFacts>,
    /// The vehicle, as job.toml and the scan-tool texts have it.
    pub vehicle: VehicleSection,
    /// Systems that are examined.
    pub plan: Plan<'k>,
    /// True where a recording was rejected because the unit of its time is not known.
    pub unknown_times: bool,
}

/// Facts that were stated of a recording.
#[derive(Debug, Clone, Default)]
pub struct StatedFacts {
    /// Conditions under which it was made.
    pub conditions: Conditions,
    /// Probe, wheel and sensor of each channel, in the order of the channels.
    pub channels: Vec<ChannelSection>,
}

impl Derived<'_> {
    /// Returns true where job.toml names a recording of after the repair and none of them could be read.
    pub fn repair_unread(&self) -> bool {
        let after = |phase: Option<Phase>| phase == Some(Phase::After);
        let job = self.acquired.job.iter();
        let named = job.flat_map(|j| &j.captures).any(|c| after(c.phase));
        named && !self.stated.iter().any(|s| after(s.conditions.phase))
    }
}

/// Gives each channel its role and calibration, each recording its conditions, and settles what is examined.
pub fn derive<'k>(
    mut acquired: Acquired,
    presets: &[model::job_file::PresetFile],
    knowledge: &'k Knowledge,
) -> Derived<'k> {
    sections::settle(&mut acquired);
    if let Some(job) = &mut acquired.job {
        channels::apply_presets(job, presets);
    }
    for scan in &mut acquired.scans {
        channels::apply_to_bus_log(scan, acquired.job.as_ref(), &mut acquired.problems);
        // What job.toml answers is no problem any more.
        acquired.problems.extend(scan.problems.iter().cloned());
    }
    let logs = acquired.scans.iter().filter_map(|scan| {
        let log = scan.bus_log.as_ref()?.to_capture(&scan.file)?;
        Some(Capture {
            read_as: scan.read_as.clone(),
            ..log
        })
    });
    acquired.captures.extend(logs.collect::<Vec<_>>());
    let mut facts = Vec::new();
    for capture in &mut acquired.captures {
        let (job, problems) = (acquired.job.as_ref(), &mut acquired.problems);
        let mut own = channels::assign(capture, job, presets, &knowledge.roles, problems);
        if let Some(job) = job {
            channels::apply_unit(&job.unit, &capture.channels, &mut own);
        }
        problems.extend(capture.problems.iter().cloned());
        facts.push(own);
    }
    let unknown_times = reject_unknown_times(&mut acquired, &mut facts);
    say_how_read(&mut acquired);
    let vehicle = vehicle(&mut acquired);
    let plan = knowledge.plan(&vehicle, &recorded(&acquired));
    let captures = acquired.captures.iter().zip(facts);
    let stated = captures.map(|(capture, channels)| StatedFacts {
        conditions: conditions::stated(capture, &acquired),
        channels,
    });
    Derived {
        stated: stated.collect(),
        unknown_times,
        vehicle,
        plan,
        acquired,
    }
}

/// Rejects recordings whose time may be seconds, milliseconds or a counter, with their facts: nothing may be measured
/// over such a time. Returns true where there was one.
fn reject_unknown_times(acquired: &mut Acquired, facts: &mut Vec<Vec<ChannelSection>>) -> bool {
    let is_known: Vec<bool> = (acquired.captures.iter())
        .map(|c| c.time_source != TimeSource::Unknown)
        .collect();
    for (capture, _) in acquired
        .captures
        .iter()
        .zip(&is_known)
        .filter(|(_, k)| !**k)
    {
        acquired.untimed.push(capture.file.clone());
        let asked = capture
            .problems
            .iter()
            .find(|p| p.message.contains("time_unit"));
        for file in acquired.files.iter_mut().filter(|f| f.path == capture.file) {
            file.status = FileStatus::SetAside;
            file.message = Some(asked.map_or_else(|| capture.read_as.clone(), line));
        }
    }
    let mut keep = is_known.iter();
    acquired.captures.retain(|_| keep.next() == Some(&true));
    let mut keep = is_known.iter();
    facts.retain(|_| keep.next() == Some(&true));
    is_known.contains(&false)
}

/// Brings what was assumed of a recording onto its file's line.
fn say_how_read(acquired: &mut Acquired) {
    for capture in &acquired.captures {
        for file in acquired.files.iter_mut().filter(|f| f.path == capture.file) {
            file.message = Some(capture.read_as.clone());
        }
    }
}

fn recorded(acquired: &Acquired) -> Recorded<'_> {
    let channels = acquired.captures.iter().flat_map(|c| &c.channels);
    Recorded {
        roles: channels
            .filter_map(|ch| ch.role.as_ref().map(|r| r.name()))
            .collect(),
        bus_log: acquired.scans.iter().any(|s| s.bus_log.is_some()),
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

impl Derived<'_> {
    /// Records of the captures for the case.
    pub fn capture_records(&self) -> Vec<CaptureRecord> {
        let captures = self.acquired.captures.iter().zip(&self.stated);
        captures.map(|(c, s)| record(c, &s.conditions)).collect()
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
                calibrated: ch.calibrated(),
            })
            .collect(),
    }
}
