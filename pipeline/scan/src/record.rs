//! Goes through the lines and puts together what belongs to each code.

use crate::codes::{self, Mention};
use crate::found::Found;
use crate::live;
use crate::sections::{self, Section};
use crate::table::Table;
use crate::words::{self, Key, inline_failure_type};
use model::{CodeStatus, Problem, TroubleCode};

/// Most codes of one text: no vehicle has as many.
pub(crate) const MOST_CODES: usize = 1000;
/// Most places of one text where codes stand.
const MOST_MENTIONS: usize = 10_000;

/// Lines behind a code that may still speak of it.
const REACH: usize = 8;

/// Lines before and behind a code in which keys of its numbered record are looked for.
const NEAR: usize = 200;

/// State of the reading.
pub(crate) struct Collector<'a> {
    file: &'a str,
    lines: &'a [&'a str],
    codes: Vec<TroubleCode>,
    /// Places where codes stood.
    mentions: usize,
    live: Vec<usize>,
    problems: Vec<Problem>,
    module: Option<String>,
    /// The module that a sentence of this paragraph names.
    spoken: Option<String>,
    heading: Option<Vec<CodeStatus>>,
    /// True where status headings stand above module headings.
    status_first: Option<bool>,
    freeze_frame: bool,
    table: Option<Table>,
    /// True where records name their code before their module; known from the first `Code:` on.
    code_first: Option<bool>,
}

/// `key: value`, `key = value`, `key;value`, `key ..... value` or `key    value` of a line.
fn key_value(line: &str) -> Option<(Key, &str, &str)> {
    let line = line
        .trim()
        .trim_start_matches(|c: char| !c.is_alphanumeric());
    let cut = line
        .find([':', '=', ';', '\t', '|'])
        .or_else(|| line.find("..."))
        .or_else(|| line.find("  "))?;
    let (name, value) = (&line[..cut], &line[cut + 1..]);
    let value =
        value.trim_matches(|c: char| matches!(c, ';' | '|' | '"' | ' ' | '.' | ',' | ':' | '='));
    words::key(name).map(|k| (k, name.trim(), value))
}

/// The part of a key that numbers its record: `dtc.1` of `dtc.1.code`.
fn record_prefix(name: &str) -> Option<&str> {
    let (prefix, _) = name.rsplit_once(['.', ']', '_', ' '])?;
    prefix
        .contains(|c: char| c.is_ascii_digit())
        .then_some(prefix)
}

impl<'a> Collector<'a> {
    pub fn new(file: &'a str, lines: &'a [&'a str]) -> Self {
        Collector {
            file,
            lines,
            codes: Vec::new(),
            mentions: 0,
            live: Vec::new(),
            problems: Vec::new(),
            module: None,
            spoken: None,
            heading: None,
            status_first: None,
            freeze_frame: false,
            table: None,
            code_first: None,
        }
    }

    /// The codes, the lines that may hold live data, and what was odd.
    pub fn finish(self) -> (Vec<TroubleCode>, Vec<usize>, Vec<Problem>) {
        (self.codes, self.live, self.problems)
    }

    /// Takes line `i`; false when there are more codes than can be.
    pub fn line(&mut self, i: usize) -> bool {
        if self.codes.len() >= MOST_CODES || self.mentions >= MOST_MENTIONS {
            return false;
        }
        self.read_line(i);
        true
    }

    fn read_line(&mut self, i: usize) {
        let line = self.lines[i];
        if line.trim().is_empty() {
            self.spoken = None;
            // A blank line ends the stored surroundings, unless their heading stands right above it.
            let heading = i
                .checked_sub(1)
                .is_some_and(|j| words::is_freeze_frame(self.lines[j]));
            self.freeze_frame &= heading;
            return;
        }
        let codes_here = self.codes_here(line);
        self.mentions += codes_here.len();
        if codes_here.is_empty() {
            self.plain_line(i, line);
            return;
        }
        if sections::section(line) == Some(Section::FreezeFrame) || words::is_freeze_frame(line) {
            // The code is named to say whose surroundings follow.
            self.freeze_frame = true;
        }
        if self.freeze_frame
            && codes_here
                .iter()
                .all(|h| self.codes.iter().any(|c| c.code == h.code))
        {
            return;
        }
        self.freeze_frame = false;
        if key_value(line).is_some_and(|(k, _, _)| k == Key::Code) {
            self.code_first = self.code_first.or(Some(self.module.is_none()));
        }
        let first = &line[..codes_here[0].start];
        let said_before = sections::mentioned(first.rsplit_once(". ").map_or(first, |(_, s)| s));
        let in_row = self
            .table
            .as_ref()
            .and_then(|t| t.cell(line, Key::Module))
            .map(String::from);
        if in_row.is_none() && said_before.is_some() {
            self.spoken = said_before.clone();
        }
        for (n, mention) in codes_here.iter().enumerate() {
            // Codes in a row share what is said of the last: "P0902, P080A (both confirmed)".
            let rest = |n: usize| {
                &line[codes_here[n].end..codes_here.get(n + 1).map_or(line.len(), |h| h.start)]
            };
            let last = codes_here.len() - 1;
            let m = (n..last).find(|m| !only_joins(rest(*m))).unwrap_or(last);
            let about = About {
                i,
                line,
                mention,
                rest: rest(m),
                last: m == last,
            };
            self.add_mention(&about, first, in_row.as_deref(), said_before.as_deref());
        }
    }

    fn codes_here(&self, line: &str) -> Vec<Mention> {
        let column = self.table.as_ref().and_then(|t| t.cell(line, Key::Code));
        let value = key_value(line)
            .filter(|(k, _, _)| *k == Key::Code)
            .map(|(_, _, v)| v);
        for cell in [column, value].into_iter().flatten() {
            let codes_here = codes::find(cell, true);
            // The cell is part of the line; its place there is that of its text.
            if !codes_here.is_empty()
                && let Some(at) = line.find(cell)
            {
                return codes_here
                    .into_iter()
                    .map(|h| Mention {
                        start: h.start + at,
                        end: h.end + at,
                        ..h
                    })
                    .collect();
            }
        }
        codes::find(line, false)
    }

    fn plain_line(&mut self, i: usize, line: &str) {
        if let Some(word) = line
            .split(|c: char| !c.is_alphanumeric())
            .find(|w| codes::malformed(w))
            && !line
                .split(|c: char| c.is_whitespace() || c == ':')
                .any(words::names_a_part)
        {
            self.problems.push(Problem {
                file: self.file.into(),
                place: Some(format!("line {}", i + 1)),
                message: format!(
                    "{word} looks like a trouble code but is none: its second character is 0 to 3 (SAE J2012). It was \
                     left out; compare with the scan tool"
                ),
            });
        }
        if let Some(table) = Table::heading(line) {
            self.table = Some(table);
            return;
        }
        match sections::section(line) {
            Some(Section::Module(name)) => {
                // A module key that belongs to a record is no heading.
                let of_record = |(k, n, _): (Key, &str, &str)| {
                    record_prefix(n).is_some() || k == Key::Module && self.code_first == Some(true)
                };
                if key_value(line).is_some_and(of_record) {
                    return;
                }
                self.status_first = self.status_first.or(Some(false));
                if self.status_first == Some(false) {
                    self.heading = None;
                }
                self.module = Some(name);
                self.freeze_frame = false;
                self.spoken = None;
                return;
            }
            Some(Section::FreezeFrame) => {
                self.freeze_frame = true;
                return;
            }
            Some(Section::Other) => {
                self.freeze_frame = false;
                self.module = None;
                return;
            }
            None => {}
        }
        let keyed = key_value(line).is_some_and(|(k, _, _)| k != Key::Code);
        if !keyed && let Some(statuses) = words::heading(line) {
            self.status_first = self.status_first.or(Some(true));
            if self.status_first == Some(true) {
                self.module = None;
            }
            self.heading = Some(statuses);
            self.freeze_frame = false;
            return;
        }
        if !keyed && !self.freeze_frame && !words::is_freeze_frame(line) {
            self.live.push(i);
        }
        if words::says_none(line) && !line.contains('=') && self.status_first != Some(true) {
            // What follows without a heading of its own is no longer this module's.
            self.module = None;
            return;
        }
        if let Some(name) = sections::mentioned(line).filter(|_| !keyed) {
            self.spoken = Some(name);
        }
    }

    fn add_mention(
        &mut self,
        about: &About,
        first: &str,
        in_row: Option<&str>,
        said: Option<&str>,
    ) {
        let mut found = Found::default();
        if let Some(table) = &self.table
            && table.cell(about.line, Key::Code).is_some()
        {
            found.explicit(
                Key::Status,
                table.cell(about.line, Key::Status).unwrap_or(""),
            );
            found.explicit(
                Key::FailureType,
                table.cell(about.line, Key::FailureType).unwrap_or(""),
            );
            found.text = table.cell(about.line, Key::Text).map(String::from);
        }
        found.pieces(about.rest);
        if found.status.is_empty() && found.stated.is_none() {
            let sentence = first.rsplit_once(". ").map_or(first, |(_, s)| s);
            found.only_status(sentence.rsplit(';').next().unwrap_or(sentence));
        }
        self.following(about, &mut found);
        if let Some(prefix) = key_value(about.line).and_then(|(_, name, _)| record_prefix(name)) {
            let near = self
                .lines
                .iter()
                .skip(about.i.saturating_sub(NEAR))
                .take(2 * NEAR);
            for line in near {
                if let Some((key, name, value)) = key_value(line)
                    && record_prefix(name) == Some(prefix)
                {
                    found.explicit(key, value);
                }
            }
        } else if found.status.is_empty() && found.stated.is_none() {
            self.preceding(about.i, &mut found);
        }
        let by_bits = found.bits.map(words::status_byte);
        let status = by_bits.or(found.stated).unwrap_or(found.status);
        let status = if status.is_empty() {
            self.heading.clone().unwrap_or_default()
        } else {
            status
        };
        let module = in_row
            .or(said)
            .map(String::from)
            .or(found.module)
            .or_else(|| self.module.clone())
            .or_else(|| self.spoken.clone());
        self.add(TroubleCode {
            code: about.mention.code.clone(),
            failure_type: about.mention.failure_type.clone().or(found.failure_type),
            status,
            module,
            text: found.text.filter(|t| !t.is_empty()),
            file: self.file.into(),
            line: about.i + 1,
        });
    }

    /// Takes what the lines behind the code's line add: more of the same sentence, or keys of the same record.
    fn following(&self, about: &About, found: &mut Found) {
        if !about.last {
            return;
        }
        let mut sentence = String::from(about.rest);
        let row = self
            .table
            .as_ref()
            .is_some_and(|t| t.cell(about.line, Key::Code).is_some());
        for line in self.lines.iter().skip(about.i + 1).take(REACH) {
            let next_code = !codes::find(line, false).is_empty()
                || key_value(line).is_some_and(|(k, _, _)| k == Key::Code);
            if line.trim().is_empty() || next_code || words::is_freeze_frame(line) {
                break;
            }
            if found.add_bits(line) {
                continue;
            }
            match key_value(line) {
                // With a module known, `Module:` opens the next part of the text.
                Some((Key::Module, _, _))
                    if self.code_first != Some(true)
                        && (self.module.is_some() || found.module.is_some()) =>
                {
                    break;
                }
                Some((key, name, value)) => {
                    if let Some((end, _)) = name.split_once(". ") {
                        found.continue_text(about.rest, end);
                    }
                    found.explicit(key, value);
                    continue;
                }
                None => {}
            }
            if sections::section(line).is_some()
                || words::heading(line).is_some() && line.contains(':')
            {
                break;
            }
            if let Some(list) = words::statuses(line).filter(|_| found.status.is_empty()) {
                found.status = list;
            }
            if !row
                && !sentence.trim_end().ends_with(['.', ';'])
                && !line.contains(['=', ':', '|'])
                && live::items(line).is_empty()
            {
                sentence.push(' ');
                sentence.push_str(line.trim());
            }
        }
        if found.status.is_empty() && found.stated.is_none() {
            found.only_status(&sentence);
        }
        if found.failure_type.is_none() {
            found.failure_type = inline_failure_type(&sentence);
        }
    }

    /// A status that stands above the code in the same block, as in `Status: active / Code: P0902`.
    fn preceding(&self, i: usize, found: &mut Found) {
        for line in self.lines[..i].iter().rev().take(REACH) {
            let block_ends = line.trim().is_empty() || !codes::find(line, false).is_empty();
            match key_value(line) {
                _ if block_ends => return,
                Some((Key::Status, _, value)) => {
                    // The status of the record before, if that record's code stands above it unparted.
                    let above = self.lines[..i]
                        .iter()
                        .rev()
                        .take_while(|l| !l.trim().is_empty());
                    if above.take(REACH).all(|l| codes::find(l, false).is_empty()) {
                        found.explicit(Key::Status, value);
                    }
                    return;
                }
                _ => {}
            }
        }
    }

    /// Adds a code, or what is new of it when the module has given it before.
    fn add(&mut self, new: TroubleCode) {
        let same = |a: &Option<String>, b: &Option<String>| a.is_none() || b.is_none() || a == b;
        let known = self.codes.iter_mut().find(|c| {
            c.code == new.code
                && same(&c.module, &new.module)
                && same(&c.failure_type, &new.failure_type)
        });
        match known {
            Some(old) => {
                old.status.extend(new.status);
                old.status.sort();
                old.status.dedup();
                old.failure_type = old.failure_type.take().or(new.failure_type);
                old.module = old.module.take().or(new.module);
                old.text = old.text.take().or(new.text);
            }
            None => self.codes.push(new),
        }
    }
}

/// A code in its line.
struct About<'a> {
    i: usize,
    line: &'a str,
    mention: &'a Mention,
    /// The line from behind the code to the next code.
    rest: &'a str,
    last: bool,
}

/// True where what stands between two codes only joins them.
fn only_joins(between: &str) -> bool {
    formats::words::fold(between)
        .split(|c: char| !c.is_alphanumeric())
        .all(|w| matches!(w, "" | "and" | "und" | "y" | "et" | "e" | "or" | "oder"))
        && !between.contains([';', '|', '\t'])
        && !between.contains("  ")
}
