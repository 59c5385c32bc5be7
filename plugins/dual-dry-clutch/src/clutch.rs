//! Clutch actuations among the pulses of a current, and what they command.

use plugin_sdk::signal::current::{CurrentPulse, CurrentRecord};
use plugin_sdk::{ChannelView, Input, Limits};

/// True where a pulse is as large as a clutch actuator's (a gear motor's is smaller). Without a calibration the pulses
/// themselves are the yardstick.
pub fn is_clutch_actuation(
    pulse: &CurrentPulse,
    all: &[CurrentPulse],
    calibrated: bool,
    limits: &Limits<'_>,
) -> bool {
    let least = match calibrated {
        true => limits.low("clutch-actuation-peak"),
        false => least_clutch_rise(all),
    };
    pulse.rise() >= least
}

/// Least rise of a clutch actuator's pulse, in the recorder's own unit: that above the widest gap between pulses that
/// are no stall, by ratio, or 0.6 of the largest, whichever takes more of them in.
fn least_clutch_rise(all: &[CurrentPulse]) -> f64 {
    let mut rises: Vec<f64> = all
        .iter()
        .filter(|h| !h.stalled)
        .map(|h| h.rise())
        .collect();
    rises.sort_by(f64::total_cmp);
    let share = 0.6 * rises.last().copied().unwrap_or(0.0);
    rises
        .windows(2)
        .filter(|w| w[1] > 1.4 * w[0])
        .max_by(|a, b| (a[1] / a[0]).total_cmp(&(b[1] / b[0])))
        .map_or(share, |w| share.min(w[1]))
}

/// The pulses of the feed current that are clutch actuations and no stalls.
pub fn actuations<'a>(
    feed: &ChannelView<'_>,
    record: &'a CurrentRecord,
    limits: &Limits<'_>,
) -> Vec<&'a CurrentPulse> {
    let is_it = |h: &&CurrentPulse| {
        !h.stalled && is_clutch_actuation(h, &record.pulses, feed.facts.calibrated, limits)
    };
    record.pulses.iter().filter(is_it).collect()
}

/// Selector position as far as it matters here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Selector {
    /// P or N: no gear is meant to drive.
    NoDrive,
    /// R, D, S or M: a clutch may drive its shaft.
    Drive,
    /// Nobody says.
    Unknown,
}

/// Commands to the gearbox.
#[derive(Debug, Clone)]
pub struct Commands {
    /// Selector position. Nothing that is recorded tells P from D at a standstill, so it is only ever stated.
    pub selector: Selector,
    /// Pulses of the feed current; `None` when it was not recorded.
    pub feed: Option<CurrentRecord>,
    /// Windows in which a clutch may be applied by command: start and end, s.
    pub applied: Vec<(f64, f64)>,
}

impl Commands {
    /// Reads the commands from an input.
    pub fn of(input: &Input<'_>, limits: &Limits<'_>) -> Commands {
        let stated = input.settings.selector.as_ref().map(|s| s.value.as_str());
        let channel = input.channel("supply-current");
        let feed = input.pulses("supply-current");
        let applied = channel.zip(feed.as_ref()).map(|(channel, record)| {
            let hold_s = limits.number("command-hold");
            actuations(channel, record, limits)
                .iter()
                .map(|h| (h.start_s - 0.1, h.end_s + hold_s))
                .collect()
        });
        Commands {
            selector: match stated {
                Some("P" | "N") => Selector::NoDrive,
                Some("R" | "D" | "S" | "M") => Selector::Drive,
                _ => Selector::Unknown,
            },
            applied: applied.unwrap_or_default(),
            feed,
        }
    }
}
