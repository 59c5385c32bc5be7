//! The view of a file as text for a terminal.

use super::view::{ChannelView, Content, FileView, Recording, Scan};
use std::fmt::Write as _;

/// Everything that is to be said of a file.
pub fn page(view: &FileView) -> String {
    let mut out = String::new();
    if let Some(e) = &view.error {
        // Some messages name the file themselves.
        let named = if e.starts_with(&view.file) {
            String::new()
        } else {
            format!("{}: ", view.file)
        };
        let _ = writeln!(out, "{named}{e}");
    }
    let read_as = view.read_as.as_deref().unwrap_or_default();
    match &view.content {
        Some(Content::Recording(r)) => {
            let _ = writeln!(out, "{}: recording, {read_as}", view.file);
            recording(&mut out, r);
        }
        Some(Content::Scan(s)) => {
            let _ = writeln!(out, "{}: {read_as}", view.file);
            scan(&mut out, s);
        }
        Some(Content::Settings(s)) => {
            let _ = writeln!(out, "{}: {read_as}, {} {}", view.file, s.count, s.of);
        }
        None => {}
    }
    if let Some(surest) = view
        .why
        .first()
        .filter(|o| view.error.is_none() && o.confidence > 0.0)
    {
        let _ = writeln!(
            out,
            "  why so: {} ({:.0} %): {}",
            surest.format,
            100.0 * surest.confidence,
            surest.reason
        );
    }
    for other in view.why.iter().skip(1).filter(|o| o.confidence >= 0.2) {
        let _ = writeln!(
            out,
            "  it might also be {} ({:.0} %): {}",
            other.format,
            100.0 * other.confidence,
            other.reason
        );
    }
    for p in &view.problems {
        let _ = writeln!(out, "  note: {p}");
    }
    out
}

fn recording(out: &mut String, r: &Recording) {
    if let (Some(start), Some(end)) = (r.start_s, r.end_s) {
        let rate = r.rate_hz.map_or("?".into(), |r| trimmed(r, 6));
        let spaced = if r.evenly_spaced {
            "evenly spaced"
        } else {
            "unevenly spaced"
        };
        let _ = writeln!(
            out,
            "  {} samples from {start:.6} s to {end:.6} s, {rate} S/s, {spaced}",
            r.samples
        );
    }
    if let Some(t) = &r.started {
        let _ = writeln!(out, "  started {t}");
    }
    samples(out, r);
    for c in &r.channels {
        channel(out, c);
    }
}

/// The first samples and the last as a small table.
fn samples(out: &mut String, r: &Recording) {
    let cell = |v: &Option<f64>| v.map_or("-".to_string(), |v| trimmed(v, 6));
    let row = |values: &Vec<Option<f64>>| {
        values
            .iter()
            .map(|v| format!("{:>12}", cell(v)))
            .collect::<String>()
    };
    for (words, rows) in [("first", &r.first), ("last", &r.last)] {
        for (i, values) in rows.iter().enumerate() {
            let _ = writeln!(
                out,
                "  {:<5}{}",
                if i == 0 { words } else { "" },
                row(values)
            );
        }
    }
}

fn channel(out: &mut String, c: &ChannelView) {
    let number = |v: Option<f64>| v.map_or("?".into(), |v| format!("{v:.4}"));
    let mut lost = String::new();
    if c.missing > 0 {
        let _ = write!(lost, ", {} missing", c.missing);
    }
    if c.over_range > 0 {
        let _ = write!(lost, ", {} over range", c.over_range);
    }
    let _ = writeln!(
        out,
        "  channel {:?} [{}]: {} to {}, median {}{lost}",
        c.name,
        c.unit.as_deref().unwrap_or("no unit"),
        number(c.least),
        number(c.most),
        number(c.median)
    );
    for line in &c.plot {
        let _ = writeln!(out, "    {line}");
    }
    let _ = match &c.guess {
        Some(g) => writeln!(
            out,
            "    looks like {} ({:.0} %{}): {}",
            g.role,
            100.0 * g.certainty,
            if g.safe {
                ""
            } else {
                ", too little to measure by: say it in job.toml"
            },
            g.reason
        ),
        None => writeln!(
            out,
            "    what it measures is not clear from name, unit and shape"
        ),
    };
    if let Some(text) = &c.pulses {
        let _ = writeln!(out, "    {text}");
    }
}

fn scan(out: &mut String, s: &Scan) {
    if let (Some(vin), Some(line)) = (&s.vin, s.vin_line) {
        let _ = writeln!(out, "  line {line}: vehicle number {vin}");
    }
    if let Some(d) = &s.date {
        let _ = writeln!(out, "  date {d}");
    }
    if let Some(km) = s.odometer_km {
        let _ = writeln!(out, "  odometer {km} km");
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
        let _ = writeln!(
            out,
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
        let _ = writeln!(out, "  line {}: {} = {}", i.line, i.name, i.text);
    }
    for t in &s.tracks {
        let number = |v: Option<f64>| v.map_or("?".into(), |v| trimmed(v, 4));
        let _ = writeln!(
            out,
            "  line {}: {}{} over time, {} values from {} s to {} s: {} to {} {}",
            t.line,
            t.name,
            t.module
                .as_ref()
                .map(|m| format!(" ({m})"))
                .unwrap_or_default(),
            t.values,
            number(t.start_s),
            number(t.end_s),
            number(t.least),
            number(t.most),
            t.unit.as_deref().unwrap_or("")
        );
        for line in &t.plot {
            let _ = writeln!(out, "    {line}");
        }
    }
    if s.codes.is_empty() {
        let _ = writeln!(out, "  no trouble codes");
    }
}

/// A number without noughts behind its last digit.
fn trimmed(v: f64, decimals: usize) -> String {
    let text = format!("{v:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_string()
    } else {
        text
    }
}
