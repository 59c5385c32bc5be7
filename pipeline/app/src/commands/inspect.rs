//! `inspect`: how a file is read. Changes nothing.

use crate::house::line;
use anyhow::Result;
use formats::Reading;
use formats::roles::RoleGuess;
use model::{Capture, ScanRecord, TimeAxis};
use plugin_sdk::signal::rotation;
use plugin_sdk::signal::{Time, stats};
use std::path::{Path, PathBuf};

/// Says of each file how it is read. Clean when every file could be read.
pub fn inspect(files: &[PathBuf]) -> Result<bool> {
    let mut clean = true;
    for (i, path) in files.iter().enumerate() {
        if i > 0 {
            println!();
        }
        clean &= one(path);
    }
    Ok(clean)
}

fn one(path: &Path) -> bool {
    let name = path.display().to_string();
    if path.file_name().is_some_and(|n| n == "job.toml") {
        return job_file(path, &name);
    }
    if path.is_dir() {
        println!("{name}: a folder; `inspect` takes files, `run` takes folders");
        return false;
    }
    match formats::read(path, &name) {
        Ok(Reading::Capture(c)) => capture(&c),
        Ok(Reading::Scan(s)) => scan(&s),
        Err(e) => {
            println!("{e}");
            return false;
        }
    }
    true
}

fn job_file(path: &Path, name: &str) -> bool {
    let text = match std::fs::read_to_string(path) {
        Ok(t) => t,
        Err(e) => {
            println!("{name}: cannot be read as UTF-8 text: {e}");
            return false;
        }
    };
    match formats::settings::read_job_file(&text, name) {
        Ok(job) => {
            println!(
                "{name}: job file, {} recording(s) described",
                job.captures.len()
            );
            for p in formats::settings::job_file_doubts(&job, &text, name) {
                println!("  note: {}", line(&p));
            }
            true
        }
        Err(problems) => {
            problems.iter().for_each(|p| println!("{}", line(p)));
            false
        }
    }
}

fn capture(c: &Capture) {
    println!("{}: recording, {}", c.file, c.read_as);
    let n = c.time.len();
    let even = matches!(c.time, TimeAxis::Even { .. });
    if n > 0 {
        println!(
            "  {n} samples from {:.6} s to {:.6} s, {} S/s, {}",
            c.time.at(0),
            c.time.at(n - 1),
            c.time.rate_hz().map_or("?".into(), |r| format!("{r:.6}")
                .trim_end_matches('0')
                .trim_end_matches('.')
                .to_string()),
            if even {
                "evenly spaced"
            } else {
                "unevenly spaced"
            }
        );
    }
    if let Some(t) = c.started {
        println!("  started {t}");
    }
    let guesses = formats::roles::guess(c);
    for (i, ch) in c.channels.iter().enumerate() {
        let x: Vec<f32> = (0..n.min(ch.samples.len()))
            .map(|k| ch.value(k) as f32)
            .collect();
        let finite: Vec<f64> = x
            .iter()
            .map(|&v| v as f64)
            .filter(|v| v.is_finite())
            .collect();
        let lo = finite.iter().copied().fold(f64::INFINITY, f64::min);
        let hi = finite.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let mid = stats::median(&finite).unwrap_or(f64::NAN);
        println!(
            "  channel {:?} [{}]: {lo:.4} to {hi:.4}, median {mid:.4}{}",
            ch.name,
            ch.unit.as_deref().unwrap_or("no unit"),
            missing(&x)
        );
        println!("    {}", role_line(guesses.get(i).and_then(|g| g.as_ref())));
        if let Some(text) = tooth_line(&x, &c.time) {
            println!("    {text}");
        }
    }
    c.problems
        .iter()
        .for_each(|p| println!("  note: {}", line(p)));
}

fn missing(x: &[f32]) -> String {
    let (holes, over) = (
        x.iter().filter(|v| v.is_nan()).count(),
        x.iter().filter(|v| v.is_infinite()).count(),
    );
    let mut text = String::new();
    if holes > 0 {
        text.push_str(&format!(", {holes} missing"));
    }
    if over > 0 {
        text.push_str(&format!(", {over} over range"));
    }
    text
}

fn role_line(guess: Option<&RoleGuess>) -> String {
    match guess {
        Some(g) => format!(
            "looks like {} ({:.0} %): {}",
            g.role.name(),
            100.0 * g.certainty,
            g.reason
        ),
        None => "what it measures is not clear from name, unit and shape".into(),
    }
}

/// What a tooth train in the channel would be: its rate, and the wheel where gaps show one.
fn tooth_line(x: &[f32], axis: &TimeAxis) -> Option<String> {
    let time = match axis {
        TimeAxis::Even {
            start_s, step_s, ..
        } => Time::Even {
            start_s: *start_s,
            step_s: *step_s,
        },
        TimeAxis::Listed(t) => Time::Listed(t),
    };
    let options = rotation::Options {
        waveform: None,
        teeth: None,
        least_rpm: 20.0,
        least_hz: 8.0,
        least_swing: 0.0,
        most_acceleration: f64::INFINITY,
    };
    let record = rotation::analyse(x, time, &options)?;
    let long = |s: &&rotation::Span| s.last - s.first >= 20;
    let by_length = |a: &&rotation::Span, b: &&rotation::Span| {
        (a.end_s - a.start_s).total_cmp(&(b.end_s - b.start_s))
    };
    let span = record.spans.iter().filter(long).max_by(by_length)?;
    let wheel = rotation::find_wheel(&record.rises[span.first..=span.last]);
    let speed = wheel.map_or(String::new(), |w| {
        format!(
            "; gaps of a {}-{} wheel: {:.1} rpm",
            w.positions,
            w.missing,
            rotation::rpm(span.hz, w.positions)
        )
    });
    let trust = match span.doubt {
        Some(doubt) => format!("; not to be trusted as a speed: {}", doubt.why()),
        None => String::new(),
    };
    let doubled = match record.glitches {
        0 => String::new(),
        n => format!("; {n} doubled edges were left out, look at the signal before trusting it"),
    };
    let folded = match record.folded {
        0 => String::new(),
        n => format!(
            "; {n} samples beyond the recorder's range came out at its other end, widen the range"
        ),
    };
    let wave = match record.waveform {
        rotation::Waveform::TwoLevel => "two levels",
        rotation::Waveform::Alternating => "alternating",
    };
    Some(format!(
        "pulses ({wave}) from {:.3} s to {:.3} s at {:.2} Hz (scatter {:.2} Hz){speed}{doubled}{folded}{trust}",
        span.start_s, span.end_s, span.hz, span.spread_hz
    ))
}

fn scan(s: &ScanRecord) {
    println!("{}: scan text, {}", s.file, s.read_as);
    if let Some((vin, at)) = &s.vin {
        println!("  line {at}: vehicle number {vin}");
    }
    if let Some(d) = s.date {
        println!("  date {d}");
    }
    if let Some(km) = s.odometer_km {
        println!("  odometer {km} km");
    }
    for c in &s.codes {
        let failure = c
            .failure_type
            .as_ref()
            .map(|f| format!("-{f}"))
            .unwrap_or_default();
        let status: Vec<String> = c
            .status
            .iter()
            .map(|s| format!("{s:?}").to_lowercase())
            .collect();
        println!(
            "  line {}: {}{failure}  {}  {}",
            c.line,
            c.code,
            c.module.as_deref().unwrap_or("module not named"),
            if status.is_empty() {
                "no status".into()
            } else {
                status.join(", ")
            }
        );
    }
    for i in &s.live {
        println!(
            "  line {}: {} = {} {}",
            i.line,
            i.name,
            i.text,
            i.unit.as_deref().unwrap_or("")
        );
    }
    if s.codes.is_empty() {
        println!("  no trouble codes");
    }
    s.problems
        .iter()
        .for_each(|p| println!("  note: {}", line(p)));
}
