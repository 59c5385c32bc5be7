//! A filled-in job.toml beside an open report: everything that is known is filled in, each open question is a line that
//! counts once its `#` is taken away.

use super::acquire::Acquired;
use super::asked::asked;
use crate::words::phrase;
use intake::JobSource;
use model::case::{CaptureRecord, ChannelRecord};
use model::job_file::CaptureSection;
use model::knowledge::Knowledge;
use model::{Case, Role, RoleSource, VerdictState};
use page::Asked;
use report::localizer::Localizer;
use std::fmt::Write as _;
use toml::{Table, Value};

/// Most channels that are asked about by name before the rest is only counted.
const MAX_NAMED: usize = 5;

/// OUT/JOB/job.toml; `None` unless a verdict is open for want of words that a person has, or what a person typed has
/// wrong lines.
pub fn of(
    case: &Case,
    acquired: &Acquired,
    source: &JobSource,
    knowledge: &Knowledge,
    localizer: &Localizer,
) -> Option<String> {
    let draft = Draft {
        case,
        acquired,
        knowledge,
        localizer,
        text: String::new(),
    };
    let questions = draft.first_questions();
    let is_open = case.verdict.state == VerdictState::Open && draft.lacks();
    (is_open || !acquired.job_errors.is_empty()).then(|| draft.write(source, &questions))
}

/// A key with an answer that is valid as it stands, and the question.
type Ask<'q> = (&'q str, &'q str, String);

struct Draft<'a> {
    case: &'a Case,
    acquired: &'a Acquired,
    knowledge: &'a Knowledge,
    localizer: &'a Localizer,
    text: String,
}

impl Draft<'_> {
    fn write(mut self, source: &JobSource, questions: &[String]) -> String {
        self.head(source, questions);
        self.words();
        self.recordings();
        self.text
    }

    fn say(&self, key: &str) -> String {
        self.localizer.message(key)
    }

    fn line(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    /// A remark: text from outside stays on its line.
    fn remark(&mut self, text: &str) {
        let text: String = text
            .chars()
            .map(|c| if c.is_control() { ' ' } else { c })
            .collect();
        self.line(format!("# {text}").trim_end());
    }

    fn head(&mut self, source: &JobSource, questions: &[String]) {
        let l = self.localizer;
        self.remark(&l.message("console-draft-head"));
        match source {
            JobSource::Folder(folder) => {
                let folder = folder.file_name().unwrap_or_default().to_string_lossy();
                self.remark(&phrase!(l, "console-draft-folder", "folder" => folder.as_ref()));
            }
            JobSource::Files(_) | JobSource::Layered { .. } => {
                self.remark(&l.message("console-draft-files"));
            }
        }
        if !questions.is_empty() {
            self.line("#");
            self.remark(&l.message("console-draft-first"));
            for question in questions {
                self.remark(&format!("  {question}"));
            }
        }
        let typed: Vec<&str> = self.acquired.job_text.lines().collect();
        let errors = &self.acquired.job_errors;
        if !errors.is_empty() {
            self.line("#");
            self.remark(&l.message("console-draft-wrong"));
        }
        for error in errors {
            let line = error.place.as_deref().and_then(line_number);
            if let Some((number, text)) = line.and_then(|n| Some((n, typed.get(n - 1)?))) {
                let line =
                    phrase!(l, "console-inspect-line", "line" => number, "what" => text.trim());
                self.remark(&format!("  {line}"));
            }
            self.remark(&format!("    {}", l.translate(&error.message)));
        }
    }

    /// Everything but the recordings.
    fn words(&mut self) {
        let (case, typed) = (self.case, table(&self.acquired.typed));
        let section = |name: &str| match typed.get(name) {
            Some(Value::Table(section)) => section.clone(),
            _ => Table::new(),
        };
        let mut job = section("job");
        job.insert("number".into(), case.job.number.clone().into());
        if let Some(day) = case.job.opened.and_then(|d| d.to_string().parse().ok()) {
            job.insert("opened".into(), Value::Datetime(day));
        }
        self.section(
            "job",
            job,
            &[
                ("number", "\"R-1\"", self.say("console-draft-number")),
                ("opened", "2026-03-09", self.say("console-draft-day")),
                (
                    "technician",
                    "\"A. Name\"",
                    self.say("console-draft-technician"),
                ),
                ("diagnosis_hours", "1.5", self.say("console-draft-hours")),
            ],
        );
        let party = [
            ("name", "\"B. Name\"", self.say("console-draft-name")),
            (
                "address",
                "\"1 Street, Town\"",
                self.say("console-draft-address"),
            ),
            ("phone", "\"+1 555 0100\"", self.say("console-draft-phone")),
        ];
        let client = section("client");
        if !client.is_empty() {
            self.section("client", client, &party);
        }
        self.section("customer", section("customer"), &party);
        let mut vehicle = table(&case.vehicle);
        for (key, value) in section("vehicle") {
            vehicle.insert(key, value);
        }
        let units = quoted_list(self.knowledge.limits.iter().map(|l| l.name.as_str()));
        // The limits of the system that was examined, so that the example is a likely answer.
        let examined = case.lead().map(|s| s.system.as_str());
        let unit = (self.knowledge.limits.iter())
            .find(|l| Some(l.name.as_str()) == examined)
            .or(self.knowledge.limits.first())
            .map_or("", |l| l.name.as_str());
        let l = self.localizer;
        let units = phrase!(l, "console-draft-one-of", "names" => units);
        let unit = quoted(unit);
        let systems = self.knowledge.systems.iter().map(|s| s.sheet.name.as_str());
        let systems = quoted_list(systems);
        let (system, systems) = (
            format!("[{}]", systems.split(',').next().unwrap_or_default()),
            phrase!(l, "console-draft-systems", "names" => systems),
        );
        let mut asks = vec![("unit", unit.as_str(), units)];
        if self.is_asked("next-state-systems") {
            asks.insert(0, ("systems", &system, systems));
        }
        asks.extend([
            (
                "vin",
                "\"XXXXXXXXXXXXXXXXX\"",
                self.say("console-draft-vin"),
            ),
            ("make", "\"Maker\"", self.say("console-draft-make")),
            ("model", "\"Model\"", self.say("console-draft-model")),
            ("year", "2020", self.say("console-draft-year")),
            ("odometer_km", "120000", self.say("console-draft-odometer")),
            (
                "high_voltage",
                "false",
                self.say("console-draft-high-voltage"),
            ),
        ]);
        self.section("vehicle", vehicle, &asks);
        let unit = section("unit");
        if !unit.is_empty() {
            self.section("unit", unit, &[]);
        }
        let mut concern = section("concern");
        if let Some(text) = &case.concern {
            concern.insert("text".into(), text.clone().into());
        }
        self.section(
            "concern",
            concern,
            &[("text", "\"...\"", self.say("console-draft-concern"))],
        );
    }

    /// A section: what is known of it, and the keys that it lacks as questions.
    fn section(&mut self, name: &str, mut known: Table, asks: &[Ask<'_>]) {
        let _ = writeln!(self.text, "\n[{name}]");
        self.keys(&mut known, asks);
    }

    fn keys(&mut self, known: &mut Table, asks: &[Ask<'_>]) {
        for (key, example, question) in asks {
            match known.remove(*key) {
                Some(value) => _ = writeln!(self.text, "{key} = {value}"),
                None => self.remark(&format!("{key} = {example}   # {question}")),
            }
        }
        for (key, value) in &*known {
            let _ = writeln!(self.text, "{key} = {value}");
        }
    }

    fn recordings(&mut self) {
        let (case, acquired) = (self.case, self.acquired);
        let sections = &acquired.typed.captures;
        let said = |file: &str| sections.iter().find(|s| names(&s.file, file));
        for capture in &case.captures {
            self.recording(&capture.file, said(&capture.file), Some(capture));
        }
        for file in &acquired.untimed {
            self.recording(file, said(file), None);
        }
        // Of recordings that are not there, or cannot be read.
        let is_shown = |s: &CaptureSection| {
            let shown = case.captures.iter().map(|c| &c.file);
            shown
                .chain(&acquired.untimed)
                .any(|file| names(&s.file, file))
        };
        for section in sections.iter().filter(|s| !is_shown(s)) {
            self.recording(&section.file, Some(section), None);
        }
        for photo in &acquired.typed.photos {
            let _ = writeln!(self.text, "\n[[photo]]");
            self.keys(&mut table(photo), &[]);
        }
    }

    /// One recording; `record` is how it was read.
    fn recording(
        &mut self,
        file: &str,
        said: Option<&CaptureSection>,
        record: Option<&CaptureRecord>,
    ) {
        let mut known = said.map_or_else(Table::new, table);
        let channels = match known.remove("channels") {
            Some(Value::Table(channels)) => channels,
            _ => Table::new(),
        };
        known.entry("file").or_insert_with(|| file.into());
        let stated = record.map(|r| {
            let selector = r.selector.as_ref().map(|s| s.value.letter());
            [
                ("selector", selector),
                ("engine", r.engine.as_ref().map(|s| s.value.into())),
            ]
        });
        for (key, value) in stated.into_iter().flatten() {
            if let Some(value) = value {
                known.entry(key).or_insert_with(|| value.into());
            }
        }
        let _ = writeln!(self.text, "\n[[capture]]");
        let mut asks: Vec<Ask<'_>> = vec![("file", "\"\"", String::new())];
        if self.acquired.untimed.iter().any(|f| f == file) {
            asks.push(("time_unit", "\"ms\"", self.say("console-draft-time-unit")));
        }
        if record.is_some() {
            asks.push(("selector", "\"P\"", self.say("console-draft-selector")));
            asks.push(("engine", "\"running\"", self.say("console-draft-engine")));
            asks.push(("phase", "\"before\"", self.say("console-draft-phase")));
        }
        self.keys(&mut known, &asks);
        let recorded = record.map_or(&[][..], |r| &r.channels);
        for channel in recorded {
            let typed = channels.get(&channel.name).and_then(Value::as_table);
            self.channel(channel, typed.cloned().unwrap_or_default());
        }
        let is_shown = |name: &str| recorded.iter().any(|c| c.name == name);
        for (name, typed) in channels.iter().filter(|(name, _)| !is_shown(name)) {
            let _ = writeln!(self.text, "[capture.channels.{}]", quoted(name));
            let mut typed = typed.as_table().cloned().unwrap_or_default();
            self.keys(&mut typed, &[]);
        }
    }

    fn channel(&mut self, channel: &ChannelRecord, mut known: Table) {
        let _ = writeln!(self.text, "[capture.channels.{}]", quoted(&channel.name));
        if let (Some(role), RoleSource::Guess { reason, .. }) =
            (&channel.role, &channel.role_source)
        {
            let reason = self.localizer.translate(reason);
            self.remark(&phrase!(self.localizer, "console-draft-guessed", "reason" => reason));
            known.entry("role").or_insert_with(|| role.clone().into());
        }
        if let Some(role) = &channel.role {
            known.entry("role").or_insert_with(|| role.clone().into());
        }
        let role = self.role(channel);
        let roles = self.roles();
        let first = roles.first().map_or("", String::as_str);
        let (first, roles) = (quoted(first), quoted_list(roles.iter().map(String::as_str)));
        let question = phrase!(self.localizer, "console-draft-role", "names" => roles);
        let mut asks: Vec<Ask<'_>> = vec![("role", &first, question)];
        let is_scaled = known.contains_key("scale") || known.contains_key("offset");
        if !is_scaled && !channel.calibrated && role.is_none_or(Role::is_current) {
            asks.push(("amps_per_volt", "100.0", self.say("console-draft-clamp")));
        }
        if role.is_some_and(Role::is_speed_sensor) {
            asks.push(("sensor", "\"hall\"", self.say("console-draft-sensor")));
            asks.push(("teeth", "30", self.say("console-draft-teeth")));
        }
        self.keys(&mut known, &asks);
    }

    /// Roles that a channel may have: those of the systems examined, else all.
    fn roles(&self) -> Vec<String> {
        let systems = self.case.systems.iter();
        let examined = systems.filter_map(|s| self.knowledge.system(&s.system));
        let roles: Vec<String> = examined
            .flat_map(|s| s.sheet.roles.iter().map(|r| &r.name).chain(&s.sheet.uses))
            .cloned()
            .collect();
        match roles.is_empty() {
            true => self
                .knowledge
                .roles
                .iter()
                .map(|r| r.name().into())
                .collect(),
            false => roles,
        }
    }

    /// The few answers that the verdict needs first, in its order.
    fn first_questions(&self) -> Vec<String> {
        let untimed: Vec<&str> = self.acquired.untimed.iter().map(String::as_str).collect();
        let asked = asked(self.case, &untimed, self.knowledge);
        let same = |a: &Asked, b: &Asked| (&a.file, a.key) == (&b.file, b.key);
        asked.chunk_by(same).map(|a| self.question(a)).collect()
    }

    /// One question for all channels of a recording that lack an answer.
    fn question(&self, asked: &[Asked]) -> String {
        let key = match asked[0].key {
            "amps_per_volt" => "scale",
            "time_unit" => "time-unit",
            key => key,
        };
        let question = self.say(&format!("console-draft-ask-{key}"));
        let names: Vec<&str> = asked.iter().filter_map(|a| a.channel.as_deref()).collect();
        match (&asked[0].file, names.as_slice()) {
            (None, _) => question,
            (Some(file), []) => format!("{file}: {question}"),
            (Some(file), names) => {
                format!("{file}: {question}: {}", named(names, self.localizer))
            }
        }
    }

    /// Returns whether the verdict asks for something to be stated.
    fn is_asked(&self, step: &str) -> bool {
        self.case.verdict.next.iter().any(|next| next.step == step)
    }

    fn role(&self, channel: &ChannelRecord) -> Option<&Role> {
        self.knowledge.roles.get(channel.role.as_deref()?)
    }

    /// Returns whether something is not known that a person may know.
    fn lacks(&self) -> bool {
        let is_incomplete = |c: &ChannelRecord| c.role.is_none() || !c.calibrated;
        !self.acquired.untimed.is_empty()
            || self.case.captures.iter().any(|c| {
                c.selector.is_none() || c.engine.is_none() || c.channels.iter().any(is_incomplete)
            })
    }
}

/// Returns whether a section's file is this one of the job: among loose files, what all names begin with may be left out.
pub fn names(said: &str, file: &str) -> bool {
    file == said
        || file
            .strip_suffix(said)
            .is_some_and(|shared| shared.ends_with('_'))
}

fn named(names: &[&str], localizer: &Localizer) -> String {
    let rest = names.len().saturating_sub(MAX_NAMED);
    let text = names[..names.len() - rest].join(", ");
    match rest {
        0 => text,
        rest => phrase!(localizer, "console-draft-more", "names" => text, "count" => rest),
    }
}

/// Number of the line that a problem's place begins with.
pub fn line_number(place: &str) -> Option<usize> {
    let digits = place.strip_prefix("line ")?;
    let end = digits
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(digits.len());
    digits[..end].parse().ok().filter(|n| *n > 0)
}

fn table(value: &impl serde::Serialize) -> Table {
    Table::try_from(value).unwrap_or_default()
}

fn quoted_list<'n>(names: impl Iterator<Item = &'n str>) -> String {
    names.map(quoted).collect::<Vec<_>>().join(", ")
}

/// A basic string of TOML (1.0, "String"), on one line whatever is in it.
fn quoted(text: &str) -> String {
    let mut quoted = String::from('"');
    for c in text.chars() {
        match c {
            '"' | '\\' => quoted.extend(['\\', c]),
            c if c.is_control() => _ = write!(quoted, "\\u{:04X}", u32::from(c)),
            c => quoted.push(c),
        }
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_from_outside_stays_one_key() {
        for name in ["A", "a\"b\\c", "line\nend", "\u{7f}\t", "[x]\u{85}", "ü"] {
            let text = format!("{} = 1", quoted(name));
            let table: Table = text.parse().unwrap();
            assert_eq!(table.keys().collect::<Vec<_>>(), [name], "{text}");
        }
    }

    #[test]
    fn many_names_are_counted() {
        let theme = crate::words::of_shop(&model::ShopFile::default()).unwrap();
        let named = |names: &[&str]| named(names, theme.localizer());
        assert_eq!(named(&["a", "b"]), "a, b");
        assert_eq!(
            named(&["a", "b", "c", "d", "e", "f", "g"]),
            "a, b, c, d, e and 2 more"
        );
        assert_eq!(line_number("line 12, key x"), Some(12));
        assert_eq!(line_number("key x"), None);
    }
}
