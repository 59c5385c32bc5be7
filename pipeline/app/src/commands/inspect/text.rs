//! The view of a file as text for a terminal.

use super::view::{ChannelView, Content, FileView, Recording, Scan};
use crate::words::{fluent_args, phrase};
use model::TroubleCode;
use report::localizer::Localizer;

/// Everything that is to be said of a file.
pub fn page(view: &FileView, localizer: &Localizer) -> String {
    let mut page = Page {
        lines: Vec::new(),
        localizer,
    };
    page.file(view);
    page.lines.join("\n")
}

/// Lines of the view, and their language.
struct Page<'l> {
    lines: Vec<String>,
    localizer: &'l Localizer,
}

impl Page<'_> {
    /// Adds a line below the file's own.
    fn add(&mut self, line: &str) {
        self.lines.push(format!("  {line}"));
    }

    fn add_plot(&mut self, plot: &[String]) {
        self.lines
            .extend(plot.iter().map(|line| format!("    {line}")));
    }

    fn file(&mut self, view: &FileView) {
        let l = self.localizer;
        if let Some(e) = &view.error {
            // Some messages name the file themselves.
            let error = l.translate(e.strip_prefix(&format!("{}: ", view.file)).unwrap_or(e));
            self.lines
                .push(match e.starts_with(&format!("{}, ", view.file)) {
                    true => error,
                    false => format!("{}: {error}", view.file),
                });
        }
        let read_as = l.translate(view.read_as.as_deref().unwrap_or_default());
        let file = view.file.as_str();
        match &view.content {
            Some(Content::Recording(r)) => {
                let line =
                    phrase!(l, "console-inspect-recording", "file" => file, "how" => read_as);
                self.lines.push(line);
                self.recording(r);
            }
            Some(Content::Scan(s)) => {
                self.lines.push(format!("{file}: {read_as}"));
                self.scan(s);
            }
            Some(Content::Settings(s)) => {
                let of = l.message_with(s.of.key(), &fluent_args!["count" => s.count]);
                self.lines.push(format!("{file}: {read_as}, {of}"));
            }
            None => {}
        }
        let is_read = view.error.is_none();
        let surest = view.why.first();
        if let Some(o) = surest.filter(|o| is_read && o.confidence > 0.0) {
            self.opinion("console-inspect-why", o);
        }
        for other in view.why.iter().skip(1).filter(|o| o.confidence >= 0.2) {
            self.opinion("console-inspect-maybe", other);
        }
        for p in &view.problems {
            self.add(&phrase!(l, "console-note", "message" => l.translate(p)));
        }
    }

    fn opinion(&mut self, key: &str, opinion: &formats::Opinion) {
        let l = self.localizer;
        let arguments = fluent_args![
            "format" => l.translate(opinion.format),
            "percent" => format!("{:.0}", 100.0 * opinion.confidence),
            "reason" => l.translate(&opinion.reason),
        ];
        self.add(&l.message_with(key, &arguments));
    }

    fn recording(&mut self, r: &Recording) {
        let l = self.localizer;
        if let (Some(start), Some(end)) = (r.start_s, r.end_s) {
            let spaced = match r.evenly_spaced {
                true => l.message("console-inspect-even"),
                false => l.message("console-inspect-uneven"),
            };
            self.add(&phrase!(l, "console-inspect-samples",
                "count" => r.samples.to_string(),
                "start" => format!("{start:.6}"),
                "end" => format!("{end:.6}"),
                "rate" => r.rate_hz.map_or("?".into(), |r| trimmed(r, 6)),
                "spaced" => spaced,
            ));
        }
        if let Some(t) = &r.started {
            self.add(&phrase!(l, "console-inspect-started", "at" => t.as_str()));
        }
        self.samples(r);
        for c in &r.channels {
            self.channel(c);
        }
    }

    /// The first samples and the last as a small table.
    fn samples(&mut self, r: &Recording) {
        let cell = |v: &Option<f64>| v.map_or("-".to_string(), |v| trimmed(v, 6));
        let row = |values: &Vec<Option<f64>>| -> String {
            let cells = values.iter().map(|v| format!("{:>12}", cell(v)));
            cells.collect()
        };
        let l = self.localizer;
        let titles = [
            l.message("console-inspect-first"),
            l.message("console-inspect-last"),
        ];
        let width = titles.iter().map(|t| t.chars().count()).max().unwrap_or(0);
        for (title, rows) in titles.iter().zip([&r.first, &r.last]) {
            for (i, values) in rows.iter().enumerate() {
                let title = if i == 0 { title } else { "" };
                self.add(&format!("{title:<width$}{}", row(values)));
            }
        }
    }

    fn channel(&mut self, c: &ChannelView) {
        let l = self.localizer;
        let number = |v: Option<f64>| v.map_or("?".into(), |v| format!("{v:.4}"));
        let mut line = phrase!(l, "console-inspect-channel",
            "name" => format!("{:?}", c.name),
            "unit" => c.unit.clone().unwrap_or_else(|| l.message("console-inspect-no-unit")),
            "least" => number(c.least),
            "most" => number(c.most),
            "median" => number(c.median),
        );
        let lost = [
            ("console-inspect-missing", c.missing),
            ("console-inspect-over-range", c.over_range),
        ];
        for (key, count) in lost.into_iter().filter(|(_, count)| *count > 0) {
            let count = fluent_args!["count" => count.to_string()];
            line.push_str(&format!(", {}", l.message_with(key, &count)));
        }
        self.add(&line);
        self.add_plot(&c.plot);
        let meaning = match &c.guess {
            Some(g) => {
                let key = match g.safe {
                    true => "console-inspect-guess",
                    false => "console-inspect-guess-unsafe",
                };
                let arguments = fluent_args![
                    "role" => g.role.as_str(),
                    "percent" => format!("{:.0}", 100.0 * g.certainty),
                    "reason" => l.translate(&g.reason),
                ];
                l.message_with(key, &arguments)
            }
            None => l.message("console-inspect-not-clear"),
        };
        self.add(&format!("  {meaning}"));
        if let Some(text) = &c.pulses {
            self.add(&format!("  {}", l.translate(text)));
        }
    }

    fn scan(&mut self, s: &Scan) {
        let l = self.localizer;
        if let (Some(vin), Some(line)) = (&s.vin, s.vin_line) {
            self.add(&phrase!(l, "console-inspect-vin", "line" => line, "vin" => vin.as_str()));
        }
        if let Some(d) = &s.date {
            self.add(&phrase!(l, "console-inspect-date", "day" => d.as_str()));
        }
        if let Some(km) = s.odometer_km {
            self.add(&phrase!(l, "console-inspect-odometer", "km" => km.to_string()));
        }
        for c in &s.codes {
            self.code(c);
        }
        for i in &s.live {
            let what = format!("{} = {}", i.name, i.text);
            self.add(&phrase!(l, "console-inspect-line", "line" => i.line, "what" => what));
        }
        for t in &s.tracks {
            let number = |v: Option<f64>| v.map_or("?".into(), |v| trimmed(v, 4));
            let module = t.module.as_ref().map(|m| format!(" ({m})"));
            self.add(&phrase!(l, "console-inspect-track",
                "line" => t.line,
                "name" => format!("{}{}", t.name, module.unwrap_or_default()),
                "count" => t.values.to_string(),
                "start" => number(t.start_s),
                "end" => number(t.end_s),
                "least" => number(t.least),
                "most" => number(t.most),
                "unit" => t.unit.as_deref().unwrap_or_default(),
            ));
            self.add_plot(&t.plot);
        }
        if s.codes.is_empty() {
            self.add(&l.message("console-inspect-no-codes"));
        }
    }

    fn code(&mut self, c: &TroubleCode) {
        let l = self.localizer;
        let failure = c.failure_type.as_ref().map(|f| format!("-{f}"));
        let module = c.module.clone();
        let module = module.unwrap_or_else(|| l.message("console-inspect-no-module"));
        let status = l.code_status(&c.status);
        let what = format!(
            "{}{}  {module}  {status}",
            c.code,
            failure.unwrap_or_default()
        );
        self.add(&phrase!(l, "console-inspect-line", "line" => c.line, "what" => what));
    }
}

/// A number without zeros behind its last digit.
fn trimmed(v: f64, decimals: usize) -> String {
    let text = format!("{v:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_string()
    } else {
        text
    }
}
