//! Gear ratios: input shaft turns per output shaft turn, while they stay constant.

use crate::speeds::{SpeedTracks, constant_stretches, quotient};
use plugin_sdk::{Grade, Input, Limit, Observation, Output};
use serde::Deserialize;
use std::collections::BTreeMap;

/// Least length of a stretch of constant ratio, grid points (0.5 s).
const LEAST: usize = 25;

/// Tolerance of a gear's ratio, share: the gears of one shaft lie much farther apart.
const NEAR: f64 = 0.03;

/// One gear of the limits sheet.
#[derive(Debug, Clone, Deserialize)]
struct Gear {
    /// The input shaft that carries it: 1 or 2.
    shaft: u8,
    /// Input shaft turns per output shaft turn.
    ratio: f64,
    /// Source of the number.
    source: String,
}

/// Gears of the limits sheet by name: its table `gear`.
fn gears(input: &Input<'_>) -> BTreeMap<String, Gear> {
    let rows = input.settings.tables.get("gear");
    rows.into_iter()
        .flatten()
        .filter_map(|(name, row)| Some((name.clone(), Gear::deserialize(row).ok()?)))
        .collect()
}

pub fn observe(input: &Input<'_>, tracks: &SpeedTracks, out: &mut Output) {
    let Some(output) = &tracks.output else { return };
    let gears = gears(input);
    for (shaft, track) in tracks.input.iter().enumerate() {
        let Some(track) = track else { continue };
        let ratios = quotient(track, output);
        for ((from, to), ratio) in constant_stretches(&ratios, 0.02, LEAST) {
            let spread =
                plugin_sdk::signal::stats::median_abs_deviation(&ratios[from..=to]).unwrap_or(0.0);
            // The ratio of two tooth counts is exact; what remains is reading and the rounding of a period.
            let u = (1.4826 * spread).max(0.001 * ratio);
            let mut o = Observation::new("gear-ratio", "gear-ratio")
                .about(["input-shaft-1", "input-shaft-2"][shaft])
                .span(tracks.at(from), tracks.at(to))
                .value(ratio, u, "1");
            if let Some(gear) = named(&gears, shaft as u8 + 1, ratio) {
                o = o.arg("gear", gear);
                o.message = "gear-ratio-named".into();
            }
            out.add(o);
            if let Some((nearest, gear)) = unlisted(&gears, shaft as u8 + 1, ratio, u) {
                out.add(
                    Observation::new("wrong-gear", "wrong-gear")
                        .about(["input-shaft-1", "input-shaft-2"][shaft])
                        .span(tracks.at(from), tracks.at(to))
                        .value(ratio, u, "1")
                        .limit(Limit {
                            low: Some(gear.ratio * (1.0 - NEAR)),
                            high: Some(gear.ratio * (1.0 + NEAR)),
                            unit: "1".into(),
                            source: gear.source.clone(),
                        })
                        .arg("nearest", nearest.as_str())
                        .grade(Grade::Abnormal),
                );
            }
        }
    }
}

/// The nearest of the gears that the limits sheet gives this shaft, where the ratio is none of them beyond its
/// uncertainty: another gear set or final drive, a wrong tooth count, or the other shaft's sensor on this line.
fn unlisted(
    gears: &BTreeMap<String, Gear>,
    shaft: u8,
    ratio: f64,
    u: f64,
) -> Option<(String, Gear)> {
    let off = |g: &Gear| ((ratio - g.ratio).abs() - 2.0 * u) / g.ratio;
    let (name, nearest) = gears
        .iter()
        .filter(|(_, g)| g.shaft == shaft)
        .min_by(|a, b| off(a.1).total_cmp(&off(b.1)))?;
    (off(nearest) > NEAR).then(|| (name.clone(), nearest.clone()))
}

/// The gear of the limits sheet that this shaft carries and whose ratio is near enough.
fn named(gears: &BTreeMap<String, Gear>, shaft: u8, ratio: f64) -> Option<String> {
    gears
        .iter()
        .filter(|(_, g)| g.shaft == shaft)
        .map(|(name, g)| (name, (ratio / g.ratio - 1.0).abs()))
        .filter(|(_, off)| *off < NEAR)
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(name, _)| name.clone())
}
