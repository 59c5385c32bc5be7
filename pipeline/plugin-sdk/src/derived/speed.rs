//! Speed over time of one channel, as a picture shows it.

use super::train::{TOOTH_RATE, TOOTH_SEGMENTS, TOOTH_TRAIN, read_positions, read_segments};
use crate::{Grid, Series};
use signal::teeth::{self, SegmentKind};

/// Speed of a channel on an even grid of time.
#[derive(Debug, Clone, PartialEq)]
pub struct SpeedTrack {
    /// Grid of the values.
    pub grid: Grid,
    /// True for rpm; false for teeth per second, where the positions per turn are neither stated nor found.
    pub is_rpm: bool,
    /// Speeds; zero where rest is proven, NaN where nothing proves a speed.
    pub values: Vec<f64>,
}

/// Speed of a channel from the series of a recording; `None` where no tooth train was derived from it.
pub fn speed_track(series: &[Series], channel: u32) -> Option<SpeedTrack> {
    let of_channel = |name: &str| {
        let is_it = |s: &&Series| s.name == name && s.channel == Some(channel);
        series.iter().find(is_it)
    };
    let positions = read_positions(of_channel(TOOTH_TRAIN.name)?)?;
    let segments = read_segments(of_channel(TOOTH_SEGMENTS.name)?)?;
    let rate = of_channel(TOOTH_RATE.name)?;
    let grid = rate.grid?;
    let mut values = vec![f64::NAN; rate.rows()];
    for segment in segments {
        let index = |t: f64| ((t - grid.start_s) / grid.step_s).max(0.0);
        let first = (index(segment.start_s).ceil() as usize).min(values.len());
        let end = (index(segment.end_s).floor() as usize + 1).clamp(first, values.len());
        let rates = &rate.numbers("rate")?[first..end];
        match segment.kind {
            SegmentKind::AtRest => values[first..end].fill(0.0),
            SegmentKind::Turning => {
                for (value, hz) in values[first..end].iter_mut().zip(rates) {
                    *value = positions.map_or(*hz, |n| teeth::rpm(*hz, n));
                }
            }
            SegmentKind::Silent | SegmentKind::Unreadable(_) | SegmentKind::TooShort => {}
        }
    }
    Some(SpeedTrack {
        grid,
        is_rpm: positions.is_some(),
        values,
    })
}
