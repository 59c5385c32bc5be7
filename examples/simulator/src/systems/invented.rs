//! Parts that the demo jobs share: an invented vehicle and its owner, recorded channels, the job file.

use crate::folder::JobFolder;
use crate::noise::Noise;
use crate::recorder::{Recorded, Recording};
use crate::vin::with_check_digit;
use chrono::NaiveDate;
use model::JobFile;
use model::job_file::{
    ChannelSection, ConcernSection, CustomerSection, JobSection, UnitSection, VehicleSection,
};

/// An invented vehicle on an invented visit.
pub struct Visit {
    /// Number of the job.
    pub number: &'static str,
    /// Owner, said to be invented.
    pub customer: &'static str,
    /// Vehicle number but for its check digit.
    pub vin: &'static str,
    /// Model.
    pub model: &'static str,
    /// Model year.
    pub year: u16,
    /// Odometer, km.
    pub odometer_km: f64,
    /// System that answers the complaint.
    pub system: &'static str,
    /// The complaint.
    pub concern: &'static str,
}

impl Visit {
    /// The job file, without captures.
    pub fn job_file(&self, unit: UnitSection) -> JobFile {
        JobFile {
            job: JobSection {
                number: Some(self.number.into()),
                opened: NaiveDate::from_ymd_opt(2026, 3, 9),
                technician: Some("Sam Example (invented)".into()),
                diagnosis_hours: Some(1.0),
            },
            customer: CustomerSection {
                name: Some(self.customer.into()),
                address: Some("7 Sample Street, Exampleton".into()),
                phone: None,
            },
            vehicle: VehicleSection {
                vin: with_check_digit(self.vin),
                make: Some("Invented make".into()),
                model: Some(self.model.into()),
                year: Some(self.year),
                odometer_km: Some(self.odometer_km),
                high_voltage: Some(false),
                systems: vec![self.system.into()],
                ..Default::default()
            },
            unit,
            concern: ConcernSection {
                text: Some(self.concern.into()),
            },
            ..Default::default()
        }
    }
}

/// A recorded channel in whole units: `values` in `unit`, as a recorder of 12 bits over `range` either side reads them
/// with noise of the standard deviation `noise`.
pub fn channel(
    name: &str,
    role: &'static str,
    unit: &'static str,
    values: &[f64],
    (range, noise): (f64, f64),
    random: &mut Noise,
) -> Recorded {
    let bit = range / 2048.0;
    let read = |v: &f64| {
        let seen = (v + noise * random.normal()).clamp(-range, range);
        (seen / bit).round() * bit
    };
    Recorded {
        name: name.into(),
        unit,
        role,
        values: values.iter().map(read).collect(),
        section: ChannelSection {
            role: Some(role.into()),
            ..Default::default()
        },
    }
}

/// A recording that begins at 0 s.
pub fn recording(rate_hz: f64, channels: Vec<Recorded>) -> Recording {
    Recording {
        rate_hz,
        start_s: 0.0,
        channels,
    }
}

/// The folder with its job file.
pub fn with_job_file(mut folder: JobFolder, job: &JobFile) -> JobFolder {
    if let Ok(text) = toml::to_string(job) {
        folder.files.insert("job.toml".into(), text.into_bytes());
    }
    folder
}
