//! Answers of a form put into the text of a job.toml, which keeps its comments and whatever the form does not ask.

use crate::routes::Fields;
use crate::{Message, WrongLine};
use std::ops::RangeInclusive;
use toml_edit::{Array, DocumentMut, Item, Table, Value};

/// Kind of value that a key has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    /// Any text.
    Text,
    /// One of some names.
    Choice,
    /// Names, separated by commas.
    List,
    /// Number from 0 on.
    Number,
    /// Number that is not 0.
    Factor,
    /// Whole number from 0 on.
    Count,
    Year,
    Date,
    YesNo,
}

/// Keys that the form asks, as in job.toml.
pub(crate) const KEYS: [(&str, Kind); 19] = [
    ("job.number", Kind::Text),
    ("job.opened", Kind::Date),
    ("job.technician", Kind::Text),
    ("job.diagnosis_hours", Kind::Number),
    ("client.name", Kind::Text),
    ("client.address", Kind::Text),
    ("customer.name", Kind::Text),
    ("customer.address", Kind::Text),
    ("customer.phone", Kind::Text),
    ("vehicle.vin", Kind::Text),
    ("vehicle.make", Kind::Text),
    ("vehicle.model", Kind::Text),
    ("vehicle.year", Kind::Year),
    ("vehicle.plate", Kind::Text),
    ("vehicle.odometer_km", Kind::Number),
    ("vehicle.high_voltage", Kind::YesNo),
    ("vehicle.unit", Kind::Choice),
    ("vehicle.systems", Kind::List),
    ("concern.text", Kind::Text),
];

/// Facts of the unit that no limits sheet may know.
pub(crate) const UNIT_KEYS: [(&str, Kind); 11] = [
    ("unit.battery_ah", Kind::Factor),
    ("unit.battery_cca_a", Kind::Factor),
    ("unit.cylinders", Kind::Count),
    ("unit.alternator_poles", Kind::Count),
    ("unit.pulley_ratio", Kind::Factor),
    ("unit.motor_bars", Kind::Count),
    ("unit.coil_ohm", Kind::Factor),
    ("unit.teeth", Kind::Count),
    ("unit.missing_teeth", Kind::Count),
    ("unit.bit_rate", Kind::Factor),
    ("unit.expected_ids", Kind::List),
];

/// Keys of a recording.
pub(crate) const CAPTURE_KEYS: [(&str, Kind); 6] = [
    ("phase", Kind::Choice),
    ("selector", Kind::Choice),
    ("engine", Kind::Choice),
    ("state", Kind::Choice),
    ("time_unit", Kind::Choice),
    ("preset", Kind::Choice),
];

/// Keys of a channel.
pub(crate) const CHANNEL_KEYS: [(&str, Kind); 6] = [
    ("role", Kind::Choice),
    ("amps_per_volt", Kind::Factor),
    ("unit", Kind::Text),
    ("sensor", Kind::Choice),
    ("teeth", Kind::Count),
    ("missing_teeth", Kind::Count),
];

/// Keys of a photo.
const PHOTO_KEYS: [(&str, Kind); 1] = [("caption", Kind::Text)];

/// An answer that is wrong: the field of the form, and the sentence beside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct FieldError {
    pub(crate) field: String,
    pub(crate) message: Message,
}

/// One answer.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Answer {
    /// Name of the form's field, for errors.
    field: String,
    place: Place,
    key: String,
    kind: Kind,
    value: String,
}

#[derive(Debug, Clone, PartialEq)]
enum Place {
    Section(String),
    Capture(String),
    Channel(String, String),
    Photo(String),
}

/// Separates the parts of a field's name: no file or channel has it in its name.
pub(crate) const SEPARATOR: char = '\u{1f}';

/// Name of the field of a recording's key, or of one of its channels' keys.
pub(crate) fn field_name(file: &str, channel: Option<&str>, key: &str) -> String {
    let channel = channel.unwrap_or_default();
    format!("capture{SEPARATOR}{file}{SEPARATOR}{channel}{SEPARATOR}{key}")
}

/// Name of the field of a photo's caption.
pub(crate) fn caption_name(file: &str) -> String {
    format!("photo{SEPARATOR}{file}{SEPARATOR}{SEPARATOR}caption")
}

/// Answers among the fields of a form.
pub(crate) fn fields_of(fields: &Fields) -> Vec<Answer> {
    fields.iter().filter_map(|(f, v)| answer(f, v)).collect()
}

fn answer(field: &str, value: &str) -> Option<Answer> {
    let find = |keys: &[(&str, Kind)], key: &str| {
        let found = keys.iter().find(|(k, _)| *k == key);
        found.map(|(_, kind)| *kind)
    };
    let mut parts = field.split(SEPARATOR);
    let (place, key, kind) = match (parts.next(), parts.next(), parts.next(), parts.next()) {
        (Some("capture"), Some(file), Some(""), Some(key)) => {
            (Place::Capture(file.into()), key, find(&CAPTURE_KEYS, key)?)
        }
        (Some("capture"), Some(file), Some(channel), Some(key)) => (
            Place::Channel(file.into(), channel.into()),
            key,
            find(&CHANNEL_KEYS, key)?,
        ),
        (Some("photo"), Some(file), Some(""), Some(key)) => {
            (Place::Photo(file.into()), key, find(&PHOTO_KEYS, key)?)
        }
        (Some(path), None, ..) => {
            let kind = find(&KEYS, path).or_else(|| find(&UNIT_KEYS, path))?;
            let (section, key) = path.split_once('.')?;
            (Place::Section(section.into()), key, kind)
        }
        _ => return None,
    };
    Some(Answer {
        field: field.into(),
        place,
        key: key.into(),
        kind,
        value: value.trim().replace("\r\n", "\n"),
    })
}

/// Puts answers into a job.toml. An empty answer takes its key away. Returns the new text, and the answers that are
/// no value of their key.
///
/// # Errors
/// When the text is no TOML at all.
pub(crate) fn edit(text: &str, answers: &[Answer]) -> Result<(String, Vec<FieldError>), String> {
    let mut document: DocumentMut = text.parse().map_err(|e| format!("job.toml: {e}"))?;
    let mut errors = Vec::new();
    for answer in answers {
        match value(answer) {
            Ok(value) => set(&mut document, answer, value),
            Err(message) => errors.push(FieldError {
                field: answer.field.clone(),
                message,
            }),
        }
    }
    Ok((document.to_string(), errors))
}

fn value(answer: &Answer) -> Result<Option<Value>, Message> {
    let text = answer.value.as_str();
    if text.is_empty() {
        return Ok(None);
    }
    // A decimal comma is one.
    let number = || text.replace(',', ".").parse::<f64>().ok();
    let number = || number().filter(|n| n.is_finite());
    let whole = |range: RangeInclusive<i64>| text.parse().ok().filter(|n| range.contains(n));
    let value = match answer.kind {
        Kind::Text | Kind::Choice => Some(Value::from(text)),
        Kind::List => {
            let names = text.split(',').map(str::trim).filter(|n| !n.is_empty());
            Some(names.collect::<Array>().into())
        }
        Kind::YesNo => Some(Value::from(text == "true")),
        Kind::Count => whole(0..=u32::MAX.into()).map(Value::from),
        Kind::Year => whole(1900..=2100).map(Value::from),
        Kind::Number => number().filter(|n| *n >= 0.0).map(Value::from),
        Kind::Factor => number().filter(|n| *n != 0.0).map(Value::from),
        Kind::Date => text
            .parse::<toml_edit::Datetime>()
            .ok()
            .filter(|d| d.date.is_some() && d.time.is_none())
            .map(Value::from),
    };
    value
        .map(Some)
        .ok_or_else(|| wrong(answer.kind, &answer.key, text))
}

/// Sentence on an answer that is wrong.
fn wrong(kind: Kind, key: &str, text: &str) -> Message {
    let sentence = match (kind, key) {
        (_, "teeth" | "missing_teeth") => "wrong-teeth",
        (_, "amps_per_volt") => "wrong-clamp",
        (Kind::Count, _) => "wrong-whole-number",
        (Kind::Number | Kind::Factor, _) => "wrong-number",
        (Kind::Year, _) => "wrong-year",
        (Kind::Date, _) => "wrong-day",
        (Kind::Text | Kind::Choice | Kind::List | Kind::YesNo, _) => "wrong-choice",
    };
    Message::with(sentence, "text", text)
}

/// Errors of wrong lines of a job.toml: of one that no field is about, the field is empty.
pub(crate) fn errors_of(text: &str, lines: &[WrongLine]) -> Vec<FieldError> {
    let error = |l: &WrongLine| {
        let written = text.lines().nth(l.line.saturating_sub(1));
        let written = written.unwrap_or_default().trim_start_matches(['#', ' ']);
        let field = field_at(text, l.line, &l.key);
        match answer(&field, "") {
            Some(asked) => {
                let value = written.split_once('=').map_or(written, |(_, value)| value);
                FieldError {
                    message: wrong(asked.kind, &asked.key, &unquoted(value)),
                    field,
                }
            }
            None => FieldError {
                message: Message::Known(
                    "wrong-line".into(),
                    vec![("line", l.line.to_string()), ("message", l.message.clone())],
                ),
                field: String::new(),
            },
        }
    };
    lines.iter().map(error).collect()
}

fn set(document: &mut DocumentMut, answer: &Answer, value: Option<Value>) {
    if let (Place::Photo(file), None) = (&answer.place, &value) {
        // A photo without a caption is none of the report's.
        let photos = document
            .get_mut("photo")
            .and_then(Item::as_array_of_tables_mut);
        if let Some(photos) = photos {
            photos.retain(|t| t.get("file").and_then(Item::as_str) != Some(file));
        }
        return;
    }
    let table = match &answer.place {
        Place::Section(name) => table(document.as_table_mut(), name, value.is_some()),
        Place::Capture(file) => of_file(document, "capture", file, value.is_some()),
        Place::Photo(file) => of_file(document, "photo", file, value.is_some()),
        Place::Channel(file, channel) => of_file(document, "capture", file, value.is_some())
            .and_then(|c| implicit(c, "channels", value.is_some()))
            .and_then(|c| table(c, channel, value.is_some())),
    };
    let Some(table) = table else { return };
    match value {
        Some(mut new) => {
            if let Some(old) = table.get(&answer.key).and_then(Item::as_value) {
                // The comment behind it stays.
                *new.decor_mut() = old.decor().clone();
            }
            table.insert(&answer.key, Item::Value(new));
        }
        None => {
            table.remove(&answer.key);
        }
    }
}

/// Table below another one, made where it is wanted and missing.
fn table<'t>(parent: &'t mut Table, name: &str, make: bool) -> Option<&'t mut Table> {
    if make && !parent.contains_key(name) {
        parent.insert(name, Item::Table(Table::new()));
    }
    parent.get_mut(name)?.as_table_mut()
}

fn implicit<'t>(parent: &'t mut Table, name: &str, make: bool) -> Option<&'t mut Table> {
    let is_new = !parent.contains_key(name);
    let table = table(parent, name, make)?;
    if is_new {
        table.set_implicit(true);
    }
    Some(table)
}

/// Section of a file: a `[[capture]]` or a `[[photo]]`.
fn of_file<'d>(
    document: &'d mut DocumentMut,
    section: &str,
    file: &str,
    make: bool,
) -> Option<&'d mut Table> {
    let is = |t: &Table| t.get("file").and_then(Item::as_str) == Some(file);
    if make && !document.contains_key(section) {
        let none = toml_edit::ArrayOfTables::new();
        document.insert(section, Item::ArrayOfTables(none));
    }
    let all = document.get_mut(section)?.as_array_of_tables_mut()?;
    if make && !all.iter().any(is) {
        let mut section = Table::new();
        section.insert("file", Item::Value(file.into()));
        all.push(section);
    }
    all.iter_mut().find(|t| is(t))
}

/// Present answer of a field, from the text of a job.toml; empty where there is none.
pub(crate) fn current(document: &DocumentMut, field: &str) -> String {
    let Some(answer) = answer(field, "") else {
        return String::new();
    };
    let find = |section: &str, file: &str| {
        let all = document.get(section)?.as_array_of_tables()?;
        all.iter()
            .find(|t| t.get("file").and_then(Item::as_str) == Some(file))
    };
    let item = match &answer.place {
        Place::Section(name) => document.get(name).and_then(|s| s.get(&answer.key)),
        Place::Capture(file) => find("capture", file).and_then(|c| c.get(&answer.key)),
        Place::Photo(file) => find("photo", file).and_then(|p| p.get(&answer.key)),
        Place::Channel(file, channel) => find("capture", file)
            .and_then(|c| c.get("channels")?.get(channel))
            .and_then(|c| c.get(&answer.key)),
    };
    let value = item.and_then(Item::as_value);
    match value {
        Some(Value::String(s)) => s.value().clone(),
        Some(Value::Float(f)) => f.value().to_string(),
        Some(Value::Array(names)) => {
            let names: Vec<&str> = names.iter().filter_map(Value::as_str).collect();
            names.join(", ")
        }
        Some(other) => other.to_string().trim().to_owned(),
        None => String::new(),
    }
}

/// Field of the form that a key in a line of a job.toml belongs to; `line` counts from 1.
fn field_at(text: &str, line: usize, key: &str) -> String {
    let (mut section, mut file) = (String::new(), String::new());
    for text in text.lines().take(line) {
        let text = text.trim();
        if text.starts_with('[') {
            let end = text.rfind(']').unwrap_or(text.len());
            section = text[..end].trim_matches(['[', ']']).into();
        } else if matches!(section.as_str(), "capture" | "photo")
            && let Some((_, name)) = text.split_once('=').filter(|(k, _)| k.trim() == "file")
        {
            file = unquoted(name);
        }
    }
    match section.strip_prefix("capture.channels.") {
        Some(channel) => field_name(&file, Some(&unquoted(channel)), key),
        None if section == "capture" => field_name(&file, None, key),
        None if section == "photo" => caption_name(&file),
        None => format!("{section}.{key}"),
    }
}

/// A key or a string as TOML writes it.
fn unquoted(text: &str) -> String {
    let value = text.trim().parse::<Value>().ok();
    let string = value.as_ref().and_then(Value::as_str);
    string.unwrap_or(text.trim()).into()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn form(fields: &[(&str, &str)]) -> Vec<Answer> {
        let fields: Fields = fields.iter().map(|&(f, v)| (f.into(), v.into())).collect();
        fields_of(&fields)
    }

    #[test]
    fn answers_are_added_and_comments_stay() {
        let text =
            "# ours\n[job]\nnumber = \"R-1\" # the shop's\n\n[[capture]]\nfile = \"a.csv\"\n";
        let role = field_name("a.csv", Some("Fuse, A"), "role");
        let engine = field_name("b.csv", None, "engine");
        let answers = form(&[
            ("job.number", "R-2"),
            ("vehicle.year", "2019"),
            (&role, "supply-current"),
            (&engine, "running"),
            ("unknown.key", "1"),
        ]);
        let (text, errors) = edit(text, &answers).unwrap();
        assert!(errors.is_empty());
        let expected = "# ours\n[job]\nnumber = \"R-2\" # the shop's\n\n[[capture]]\nfile = \"a.csv\"\n\n\
                        [capture.channels.\"Fuse, A\"]\nrole = \"supply-current\"\n\n[[capture]]\nfile = \"b.csv\"\n\
                        engine = \"running\"\n\n[vehicle]\nyear = 2019\n";
        assert_eq!(text, expected);
        let document: DocumentMut = text.parse().unwrap();
        assert_eq!(current(&document, &role), "supply-current");
        assert_eq!(current(&document, "vehicle.year"), "2019");
        let (text, _) = edit(&text, &form(&[("vehicle.year", "")])).unwrap();
        assert!(!text.contains("2019"));
    }

    #[test]
    fn an_error_is_found_by_its_line() {
        let text = "[vehicle]\nyear = 1\n\n[[capture]]\nfile = \"a.csv\"\nengine = 1\n[capture.channels.\"A 1\"]\nrole = \"x\"\n";
        assert_eq!(field_at(text, 2, "year"), "vehicle.year");
        assert_eq!(
            field_at(text, 6, "engine"),
            field_name("a.csv", None, "engine")
        );
        assert_eq!(
            field_at(text, 8, "role"),
            field_name("a.csv", Some("A 1"), "role")
        );
    }

    #[test]
    fn a_wrong_line_is_told_beside_its_field_or_by_its_number() {
        let text = "[vehicle]\n# year = 20x9\n[capture]\n[[capture]]\nfile = \"a.csv\"\n[capture.channels.A]\n\
                    teeth = 1\nscale = \"x\"\n";
        let line = |line, key: &str| WrongLine {
            line,
            key: key.into(),
            message: "What to write.".into(),
        };
        let lines = [line(2, "year"), line(7, "teeth"), line(8, "scale")];
        let errors = errors_of(text, &lines);
        let expected = [
            (
                "vehicle.year".into(),
                Message::with("wrong-year", "text", "20x9"),
            ),
            (
                field_name("a.csv", Some("A"), "teeth"),
                Message::with("wrong-teeth", "text", "1"),
            ),
            (
                String::new(),
                Message::Known(
                    "wrong-line".into(),
                    vec![("line", "8".into()), ("message", "What to write.".into())],
                ),
            ),
        ];
        let found: Vec<_> = errors.into_iter().map(|e| (e.field, e.message)).collect();
        assert_eq!(found, expected);
    }

    #[test]
    fn a_wrong_value_is_named_by_its_field() {
        let answers = form(&[
            ("vehicle.year", "nineteen"),
            ("job.opened", "9 March"),
            ("vehicle.odometer_km", "1,5"),
            ("job.diagnosis_hours", "1,5,2"),
            ("vehicle.systems", "pump, valve"),
            ("unit.teeth", "-3"),
        ]);
        let (text, errors) = edit("", &answers).unwrap();
        let expected = "[vehicle]\nodometer_km = 1.5\nsystems = [\"pump\", \"valve\"]\n";
        assert_eq!(text, expected);
        let document: DocumentMut = text.parse().unwrap();
        assert_eq!(current(&document, "vehicle.systems"), "pump, valve");
        let keys: Vec<&str> = errors.iter().map(|e| e.field.as_str()).collect();
        let wrong = [
            "vehicle.year",
            "job.opened",
            "job.diagnosis_hours",
            "unit.teeth",
        ];
        assert_eq!(keys, wrong);
        assert_eq!(
            errors[2].message,
            Message::with("wrong-number", "text", "1,5,2")
        );
    }
}
