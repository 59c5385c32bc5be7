//! Phase of the camshaft: the angle of the crankshaft from the mark of its ring to the camshaft's edges.
//!
//! A chain that has stretched or a belt that has jumped moves it. Where it should lie only the maker or a known-good engine of
//! the same kind can say: without a sheet that names `cam-phase` it is measured and not judged.

use crate::LIMITS;
use crate::sensors::{self, Sensor};
use plugin_sdk::signal::stats;
use plugin_sdk::signal::teeth::Edge;
use plugin_sdk::{Analyzer, Declaration, Grade, Input, Observation, Output, Side};

/// The analyzer.
pub struct CamPhase;

/// Whole turns of the crankshaft that must be seen.
const LEAST_TURNS: usize = 4;
/// Angle within which edges of several turns are the same one, degrees: a tooth of 60 is 6 degrees wide.
const SAME: f64 = 6.0;
/// Share of every second turn in which an edge must come.
const LASTING: f64 = 0.7;

impl Analyzer for CamPhase {
    const DECLARATION: Declaration = Declaration {
        id: "cam-phase",
        name: "Phase of the camshaft",
        needs: &["crank-sensor", "cam-sensor"],
        uses: &[sensors::ENGINE],
        inputs: crate::TRAINS,
        kinds: &[("cam-phase", "deg")],
        messages: &[("cam-phase", PHASE), ("cam-phase-off", PHASE)],
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let all = sensors::read(input);
        let of = |role: &str| all.iter().find(|s| s.role() == role);
        let Some((crank, cam)) = of("crank-sensor").zip(of("cam-sensor")) else {
            return Ok(());
        };
        let turns = turns(crank);
        if turns.len() < LEAST_TURNS {
            return Ok(());
        }
        let phases = phases(cam, crank.train.signal.step_s, &turns);
        let limit = LIMITS.with(&input.settings).limit("cam-phase");
        // Of several edges the one that the sheet means is the nearest to what it says.
        let wanted = limit
            .low
            .zip(limit.high)
            .map_or(0.0, |(l, h)| (l + h) / 2.0);
        let distance = |p: &Phase| apart(p.degrees, wanted).abs();
        let nearest = phases.iter().min_by(|a, b| match limit.low {
            Some(_) => distance(a).total_cmp(&distance(b)),
            None => a.degrees.total_cmp(&b.degrees),
        });
        let Some(phase) = nearest else {
            return Ok(());
        };
        let value = match limit.low {
            Some(_) => wanted + apart(phase.degrees, wanted),
            None => phase.degrees,
        };
        let off = Side::of(value, phase.uncertainty, &limit) != Side::Within;
        let (message, grade) = match off {
            true => ("cam-phase-off", Grade::Abnormal),
            false => ("cam-phase", Grade::Normal),
        };
        let listed: Vec<String> = phases.iter().map(|p| format!("{:.1}", p.degrees)).collect();
        let (from_s, to_s) = (turns[0][0].0, turns[turns.len() - 1][0].0);
        out.add(
            Observation::new("cam-phase", message)
                .about(cam.role())
                .span(from_s, to_s)
                .value(value, phase.uncertainty, "deg")
                .limit(limit)
                .grade(grade)
                .arg("turns", turns.len())
                .arg("scatter", (100.0 * phase.scatter).round() / 100.0)
                .arg("all", listed.join(", ").as_str()),
        );
        Ok(())
    }
}

const PHASE: &[&str] = &["turns", "scatter", "all"];

/// Instants, s, and angles, degrees from the mark, of the teeth of one turn.
type Turn = Vec<(f64, f64)>;

/// Turns of a ring from mark to mark, the tooth after its longest gap; empty where a turn has several such gaps, or none.
fn turns(crank: &Sensor<'_>) -> Vec<Turn> {
    let positions = crank.train.wheel.positions_per_turn();
    let (Some(positions), Some(segment)) = (positions, crank.longest()) else {
        return Vec::new();
    };
    let edges = crank.train.edges_of(segment);
    let missing = crank.train.wheel.pattern.missing;
    let is_mark = |e: &Edge| missing > 0 && e.step == missing + 1;
    let marks: Vec<usize> = (1..edges.len()).filter(|&k| is_mark(&edges[k])).collect();
    let whole = marks.windows(2).filter_map(|w| {
        let own = &edges[w[0]..=w[1]];
        let steps: u32 = own[1..].iter().map(|e| e.step).sum();
        let mut passed = 0;
        let angles = own.iter().enumerate().map(|(k, e)| {
            passed += if k > 0 { e.step } else { 0 };
            (e.at_s, 360.0 * f64::from(passed) / f64::from(positions))
        });
        (steps == positions).then(|| angles.collect())
    });
    whole.collect()
}

/// Angle at which edges of the camshaft come back.
struct Phase {
    /// Median, 0 to 360 degrees.
    degrees: f64,
    /// Standard deviation of one edge, degrees.
    scatter: f64,
    /// Standard uncertainty of the median, degrees.
    uncertainty: f64,
}

fn phases(cam: &Sensor<'_>, crank_step_s: f64, turns: &[Turn]) -> Vec<Phase> {
    let edges = cam.rotation().flat_map(|s| cam.train.edges_of(s));
    let mut angles: Vec<f64> = edges.filter_map(|e| angle_at(turns, e.at_s)).collect();
    angles.sort_by(f64::total_cmp);
    // The circle is opened at its widest space.
    let n = angles.len();
    let space = |k: usize| (angles[(k + 1) % n] - angles[k]).rem_euclid(360.0);
    let Some(widest) = (0..n).max_by(|&a, &b| space(a).total_cmp(&space(b))) else {
        return Vec::new();
    };
    let from = angles[(widest + 1) % n];
    let mut opened: Vec<f64> = angles
        .iter()
        .map(|a| (a - from).rem_euclid(360.0))
        .collect();
    opened.sort_by(f64::total_cmp);
    // A sample of either sensor, evenly distributed, at the mean speed (GUM 4.3.7).
    let span = turns[turns.len() - 1][0].0 - turns[0][0].0;
    let a_second = 360.0 * (turns.len() - 1) as f64 / span.max(1e-9);
    let step = cam.train.signal.step_s.hypot(crank_step_s) * a_second / 12f64.sqrt();
    let groups = opened.chunk_by(|a, b| b - a < SAME);
    let mut found: Vec<Phase> = groups
        .filter(|g| g.len() as f64 >= LASTING * turns.len() as f64 / 2.0)
        .filter_map(|g| {
            let scatter = 1.4826 * stats::median_abs_deviation(g)?;
            Some(Phase {
                degrees: (stats::median(g)? + from).rem_euclid(360.0),
                scatter,
                uncertainty: (1.25 * scatter / (g.len() as f64).sqrt()).hypot(step),
            })
        })
        .collect();
    found.sort_by(|a, b| a.degrees.total_cmp(&b.degrees));
    found
}

/// Angle of the crankshaft at an instant, between the teeth around it.
fn angle_at(turns: &[Turn], t: f64) -> Option<f64> {
    let begun = turns.partition_point(|turn| turn[0].0 <= t);
    let turn = &turns[begun.checked_sub(1)?];
    if t >= turn[turn.len() - 1].0 {
        return None;
    }
    let k = turn.partition_point(|tooth| tooth.0 <= t);
    let (a, b) = (turn[k - 1], turn[k]);
    Some(a.1 + (t - a.0) / (b.0 - a.0) * (b.1 - a.1))
}

/// Difference of two angles, -180 to 180 degrees.
fn apart(a: f64, b: f64) -> f64 {
    (a - b + 180.0).rem_euclid(360.0) - 180.0
}
