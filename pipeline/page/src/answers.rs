//! Answers of a form put into the text of a job.toml, which keeps its comments and whatever the form does not ask.

use crate::routes::Fields;
use crate::{AnswerError, Message};
use toml_edit::{DocumentMut, Item, Table, Value};

/// Kind of value that a key has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Kind {
    Text,
    Number,
    Whole,
    Date,
    YesNo,
}

/// Keys that the form asks, as in job.toml.
pub(crate) const KEYS: [(&str, Kind); 18] = [
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
    ("vehicle.year", Kind::Whole),
    ("vehicle.plate", Kind::Text),
    ("vehicle.odometer_km", Kind::Number),
    ("vehicle.high_voltage", Kind::YesNo),
    ("vehicle.unit", Kind::Text),
    ("concern.text", Kind::Text),
];

/// Keys of a recording.
pub(crate) const CAPTURE_KEYS: [(&str, Kind); 6] = [
    ("phase", Kind::Text),
    ("selector", Kind::Text),
    ("engine", Kind::Text),
    ("state", Kind::Text),
    ("time_unit", Kind::Text),
    ("preset", Kind::Text),
];

/// Keys of a channel.
pub(crate) const CHANNEL_KEYS: [(&str, Kind); 6] = [
    ("role", Kind::Text),
    ("amps_per_volt", Kind::Number),
    ("unit", Kind::Text),
    ("sensor", Kind::Text),
    ("teeth", Kind::Whole),
    ("missing_teeth", Kind::Whole),
];

/// Keys of a photo.
const PHOTO_KEYS: [(&str, Kind); 1] = [("caption", Kind::Text)];

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
            let kind = find(&KEYS, path)?;
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
pub(crate) fn edit(text: &str, answers: &[Answer]) -> Result<(String, Vec<AnswerError>), String> {
    let mut document: DocumentMut = text.parse().map_err(|e| format!("job.toml: {e}"))?;
    let mut errors = Vec::new();
    for answer in answers {
        match value(answer) {
            Ok(value) => set(&mut document, answer, value),
            Err(message) => errors.push(AnswerError {
                key: answer.field.clone(),
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
    let wrong = |key| Message::with(key, "text", text);
    let value = match answer.kind {
        Kind::Text => Value::from(text),
        Kind::YesNo => Value::from(text == "true"),
        Kind::Whole => text
            .parse::<i64>()
            .map(Value::from)
            .map_err(|_| wrong("wrong-whole-number"))?,
        // A decimal comma is one.
        Kind::Number => text
            .replace(',', ".")
            .parse::<f64>()
            .ok()
            .filter(|n| n.is_finite())
            .map(Value::from)
            .ok_or_else(|| wrong("wrong-number"))?,
        Kind::Date => text
            .parse::<toml_edit::Datetime>()
            .ok()
            .filter(|d| d.date.is_some() && d.time.is_none())
            .map(Value::from)
            .ok_or_else(|| wrong("wrong-day"))?,
    };
    Ok(Some(value))
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
        Some(other) => other.to_string().trim().to_owned(),
        None => String::new(),
    }
}

/// Field of the form that a key in a line of a job.toml belongs to; `line` counts from 1.
pub fn field_at(text: &str, line: usize, key: &str) -> String {
    let (mut section, mut file) = (String::new(), String::new());
    for text in text.lines().take(line) {
        let text = text.trim();
        if text.starts_with('[') {
            section = text.trim_matches(['[', ']']).into();
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
    fn a_wrong_value_is_named_by_its_field() {
        let answers = form(&[
            ("vehicle.year", "nineteen"),
            ("job.opened", "9 March"),
            ("vehicle.odometer_km", "1,5"),
            ("job.diagnosis_hours", "1,5,2"),
        ]);
        let (text, errors) = edit("", &answers).unwrap();
        assert_eq!(text, "[vehicle]\nodometer_km = 1.5\n");
        let keys: Vec<&str> = errors.iter().map(|e| e.key.as_str()).collect();
        assert_eq!(keys, ["vehicle.year", "job.opened", "job.diagnosis_hours"]);
        assert_eq!(
            errors[2].message,
            Message::with("wrong-number", "text", "1,5,2")
        );
    }
}
