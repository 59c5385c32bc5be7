//! What a plugin is given.

use crate::{ChannelFacts, Settings};
use signal::Time;
use std::borrow::Cow;

/// One recording (or, for [`crate::Scope::Job`], no recording) and everything known about it.
#[derive(Debug)]
pub struct Input<'a> {
    /// The recording's file name; empty for a job.
    pub file: &'a str,
    /// The channels that have a role, in the file's order.
    pub channels: Vec<ChannelView<'a>>,
    /// What is known from job.toml, scan texts and the spec sheet.
    pub settings: Settings,
}

impl Input<'_> {
    /// The first channel of a role, with what is known of it.
    pub fn channel(&self, role: &str) -> Option<&ChannelView<'_>> {
        self.channels.iter().find(|c| c.role == role)
    }
}

/// One channel, borrowed for the time of the call.
#[derive(Debug, Clone)]
pub struct ChannelView<'a> {
    /// What it measures: a role's name.
    pub role: &'a str,
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

/// Samples as recorded. NaN is a missing value, an infinity an over-range mark.
#[derive(Debug, Clone, Copy)]
#[allow(missing_docs)]
pub enum SampleView<'a> {
    F32(&'a [f32]),
    F64(&'a [f64]),
    I16(&'a [i16]),
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

    /// Whether there is no sample.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
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
