//! Clutch actuations among the pulses of a current, and what they command.

use plugin_sdk::signal::current::{CurrentLife, CurrentPulse, CurrentRecord};
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
    /// Windows in which something moved that may have applied the clutch of shaft 1, of shaft 2, in small steps if not at
    /// once: start and end, s. What stalls does not move.
    pub moved: [Vec<(f64, f64)>; 2],
}

impl Commands {
    /// Reads the commands from an input.
    pub fn of(input: &Input<'_>, limits: &Limits<'_>) -> Commands {
        let stated = input.settings.selector.as_ref().map(|s| s.value.as_str());
        let channel = input.channel("supply-current");
        let feed = input.pulses("supply-current");
        let hold_s = limits.number("command-hold");
        let window = |h: &CurrentPulse| (h.start_s - 0.1, h.end_s + hold_s);
        let applied = channel.zip(feed.as_ref()).map(|(channel, record)| {
            let own = actuations(channel, record, limits);
            own.into_iter().map(window).collect()
        });
        // An actuator's own lead tells better than the feed.
        let moved = ["actuator-current-1", "actuator-current-2"].map(|lead| {
            let own = input.pulses(lead);
            let own = own.filter(|record| record.alive != CurrentLife::None);
            let pulses = own.as_ref().or(feed.as_ref()).map(|record| &record.pulses);
            let moves = pulses.into_iter().flatten().filter(|h| !h.stalled);
            moves.map(window).collect()
        });
        Commands {
            selector: match stated {
                Some("P" | "N") => Selector::NoDrive,
                Some("R" | "D" | "S" | "M") => Selector::Drive,
                _ => Selector::Unknown,
            },
            applied: applied.unwrap_or_default(),
            moved,
            feed,
        }
    }
}
