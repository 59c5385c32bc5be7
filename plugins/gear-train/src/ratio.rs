//! Gear ratios: input shaft turns per output shaft turn, while they stay constant.

use plugin_sdk::measure::tracks::{SpeedTracks, constant_stretches, quotient};
use plugin_sdk::{Input, Observation, Output};

/// Least length of a stretch of constant ratio, grid points (0.5 s).
const LEAST: usize = 25;

pub fn observe(input: &Input<'_>, tracks: &SpeedTracks, out: &mut Output) {
    let Some(output) = &tracks.output else { return };
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
            if let Some(gear) = named(input, shaft as u8 + 1, ratio) {
                o = o.arg("gear", gear);
                o.message = "gear-ratio-named".into();
            }
            out.add(o);
        }
    }
}

/// The gear of the spec sheet that this shaft carries and whose ratio lies within 3 %.
fn named(input: &Input<'_>, shaft: u8, ratio: f64) -> Option<String> {
    input
        .settings
        .gears
        .iter()
        .filter(|(_, g)| g.shaft == shaft)
        .map(|(name, g)| (name, (ratio / g.ratio - 1.0).abs()))
        .filter(|(_, off)| *off < 0.03)
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .map(|(name, _)| name.clone())
}
