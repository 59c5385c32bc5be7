//! Input of an analyzer: the channels, and everything known about them.

use crate::derived;
use crate::{ChannelFacts, Conditions, Series, Settings, abi, host};
use abi::quantity;
pub use abi::read::Samples as SampleView;
use signal::Time;
use signal::current::CurrentRecord;
use signal::teeth::ToothTrain;
use std::borrow::Cow;

/// One recording (or, for [`crate::Scope::Job`], no recording) and everything known about it.
#[derive(Debug)]
pub struct Input<'a> {
    /// The recording's file name; empty for a job.
    pub file: &'a str,
    /// The channels that have a role, in the file's order; a channel's place here is what derived series call it by.
    pub channels: Vec<ChannelView<'a>>,
    /// Facts from job.toml, scan texts and the limits sheet.
    pub settings: Settings,
}

impl Input<'_> {
    /// The first channel of a role, with what is known of it.
    pub fn channel(&self, role: &str) -> Option<&ChannelView<'_>> {
        self.channels.iter().find(|c| c.role == role)
    }

    /// A derived series of a channel of [`Input::channels`], or of the whole recording. `None` when it is not among
    /// [`Declaration::inputs`](crate::Declaration::inputs), nothing was derived, or who should have failed.
    pub fn series(&self, name: &str, channel: Option<usize>) -> Option<Series> {
        host::series(name, channel)
    }

    /// Current pulses of the first channel of a role, as `recording` derived them. `None` when it was not recorded or
    /// is too short to say. Needs [`derived::PULSES`] among the inputs.
    pub fn pulses(&self, role: &str) -> Option<CurrentRecord> {
        let channel = Some(self.position(role)?);
        derived::read_pulses(&|series| self.series(series, channel))
    }

    /// Tooth train of the first channel of a role, as `recording` derived it. `None` when it was not recorded or is too
    /// short to say. Needs [`derived::TRAIN`] among the inputs.
    pub fn train(&self, role: &str) -> Option<ToothTrain> {
        let channel = Some(self.position(role)?);
        derived::read_train(&|series| self.series(series, channel))
    }

    /// Tooth rate of the first channel of a role, Hz, on a grid that all channels of the recording share; NaN where
    /// nothing turns. Needs [`derived::TOOTH_RATE`] among the inputs.
    pub fn tooth_rate(&self, role: &str) -> Option<Series> {
        self.series(derived::TOOTH_RATE.name, Some(self.position(role)?))
    }

    /// State levels of the first channel of a role, in its calibrated unit. Needs [`derived::LEVELS`] among the inputs.
    pub fn levels(&self, role: &str) -> Option<derived::StateLevels> {
        let series = self.series(derived::LEVELS.name, Some(self.position(role)?))?;
        derived::read_levels(&series)
    }

    /// Conditions under which the recording was made; unknown throughout where nothing was derived. Needs
    /// [`derived::ENGINE_STATE`] among the inputs.
    pub fn conditions(&self) -> Conditions {
        let series = self.series(derived::ENGINE_STATE.name, None);
        series.map(|s| Conditions::of(&s)).unwrap_or_default()
    }

    /// First and last instant of the channel with the most samples, s; `None` without any sample.
    pub fn span(&self) -> Option<(f64, f64)> {
        let longest = self.channels.iter().max_by_key(|c| c.len())?;
        longest.span()
    }

    fn position(&self, role: &str) -> Option<usize> {
        self.channels.iter().position(|c| c.role == role)
    }
}

/// Physical quantity of a channel, from the declaration of its role.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub enum Quantity {
    /// None of these, or not known.
    #[default]
    Other,
    /// A current.
    Current,
    /// A voltage.
    Voltage,
    /// Pulses of a speed sensor, whatever it signals with.
    ToothSignal,
    /// A position or a state.
    State,
}

impl Quantity {
    const ALL: [(Quantity, u32); 5] = [
        (Quantity::Other, quantity::OTHER),
        (Quantity::Current, quantity::CURRENT),
        (Quantity::Voltage, quantity::VOLTAGE),
        (Quantity::ToothSignal, quantity::TOOTH_SIGNAL),
        (Quantity::State, quantity::STATE),
    ];

    pub(crate) fn of_number(number: u32) -> Quantity {
        let known = Quantity::ALL.into_iter().find(|(_, n)| *n == number);
        known.map_or(Quantity::Other, |(q, _)| q)
    }

    pub(crate) fn number(self) -> u32 {
        let known = Quantity::ALL.into_iter().find(|(q, _)| *q == self);
        known.map_or(quantity::OTHER, |(_, n)| n)
    }
}

/// One channel, borrowed for the time of the call.
#[derive(Debug, Clone)]
pub struct ChannelView<'a> {
    /// Name of its role.
    pub role: &'a str,
    /// Its physical quantity.
    pub quantity: Quantity,
    /// Its name in the file.
    pub name: &'a str,
    /// Unit of the calibrated values: `A`, `V`.
    pub unit: &'a str,
    /// The samples as recorded.
    pub samples: SampleView<'a>,
    /// Calibrated value = recorded * scale + offset.
    pub scale: f64,
    /// Calibrated value = recorded * scale + offset.
    pub offset: f64,
    /// When each sample was taken.
    pub time: Time<'a>,
    /// Sensor, teeth, accuracy.
    pub facts: ChannelFacts,
}

impl ChannelView<'_> {
    /// Number of samples.
    pub fn len(&self) -> usize {
        match self.samples {
            SampleView::F32(s) => s.len(),
            SampleView::F64(s) => s.len(),
            SampleView::I16(s) => s.len(),
        }
    }

    /// True without any sample.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Instants of the first and last sample, s; `None` without any.
    pub fn span(&self) -> Option<(f64, f64)> {
        let last = self.len().checked_sub(1)?;
        Some((self.time.at(0), self.time.at(last)))
    }

    /// True where both channels were sampled at the same instants: as many samples, the first within half a step, steps
    /// that agree within one in a million.
    pub fn is_sampled_with(&self, other: &ChannelView<'_>) -> bool {
        let step = |c: &ChannelView<'_>| c.time.mean_step(c.len()).unwrap_or(f64::NAN);
        self.len() == other.len()
            && !self.is_empty()
            && (self.time.at(0) - other.time.at(0)).abs() < 0.5 * step(self)
            && (step(self) / step(other) - 1.0).abs() < 1e-6
    }

    /// Samples that a tooth would have at a speed, rpm; `None` without a tooth count or a time axis. Below two, a
    /// tooth rate beyond half the sample rate looks like a slower one, and no speed may be claimed from the channel
    /// (sampling theorem, Shannon 1949).
    pub fn samples_per_tooth_at(&self, rpm: f64) -> Option<f64> {
        let teeth = self.facts.teeth.filter(|&n| n > 0)?;
        let step = self.time.mean_step(self.len()).filter(|s| *s > 0.0)?;
        Some(60.0 / (rpm * f64::from(teeth) * step))
    }

    /// Standard uncertainty of a reading of a current: noise of one sample over the root of `samples`, together with
    /// the probe's accuracy, or `accuracy_percent` where it is not known (GUM, independent contributions added in
    /// squares).
    pub fn uncertainty(
        &self,
        accuracy_percent: f64,
        reading: f64,
        noise: f64,
        samples: f64,
    ) -> f64 {
        let accuracy = self.facts.accuracy_percent.unwrap_or(accuracy_percent);
        (accuracy / 100.0 * reading).hypot(noise / samples.max(1.0).sqrt())
    }

    /// All calibrated values. NaN for missing values, infinities for over-range marks.
    pub fn values(&self) -> Cow<'_, [f32]> {
        self.part(0..self.len())
    }

    /// The calibrated values of some of the samples; as many of them as there are. Borrowed where they are what was
    /// recorded.
    pub fn part(&self, range: std::ops::Range<usize>) -> Cow<'_, [f32]> {
        let range = range.start.min(self.len())..range.end.min(self.len());
        let value = |v: f64| (v * self.scale + self.offset) as f32;
        match self.samples {
            SampleView::F32(s) if self.scale == 1.0 && self.offset == 0.0 => s[range].into(),
            SampleView::F32(s) => s[range].iter().map(|&v| value(f64::from(v))).collect(),
            SampleView::F64(s) => s[range].iter().map(|&v| value(v)).collect(),
            SampleView::I16(s) => s[range].iter().map(|&v| value(f64::from(v))).collect(),
        }
    }
}
