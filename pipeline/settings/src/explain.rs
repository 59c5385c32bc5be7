//! Errors in words that say what was found and what to write.

use crate::document::line;

/// Place of a line: its number, the channel whose section it stands in, and its key.
pub(crate) fn place(text: &str, at: usize) -> String {
    let number = line(text, at);
    let key = text
        .lines()
        .nth(number - 1)
        .filter(|l| !l.trim_start().starts_with('['))
        .and_then(|l| l.split_once('='))
        .map(|(key, _)| key.trim().trim_matches(['"', '\'']).to_string())
        .filter(|key| !key.is_empty());
    let channel = channel_of(text, number);
    [
        Some(format!("line {number}")),
        channel.map(|c| format!("channel \"{c}\"")),
        key.map(|k| format!("key {k}")),
    ]
    .into_iter()
    .flatten()
    .collect::<Vec<_>>()
    .join(", ")
}

/// The channel whose section a line stands in.
fn channel_of(text: &str, number: usize) -> Option<String> {
    let before: Vec<&str> = text.lines().take(number).collect();
    let header = before
        .iter()
        .rev()
        .find(|l| l.trim_start().starts_with('['))?;
    let (_, name) = header.trim().split_once("channels.")?;
    let end = name.rfind(']')?;
    Some(name[..end].trim_matches(['"', '\'']).to_string())
}

/// Message on a line that is no TOML. `message` is the parser's.
pub(crate) fn syntax(line: &str, message: &str) -> String {
    let line = line.trim();
    let (key, value) = line
        .split_once('=')
        .map_or((line, ""), |(k, v)| (k.trim(), v.trim()));
    let bare = value.split('#').next().unwrap_or(value).trim();
    let advice = if line.starts_with('[') && line.contains('=') {
        format!(
            "write {} on a line of its own, and the key below it",
            line.split_inclusive(']').next().unwrap_or("[section]")
        )
    } else if line.starts_with('[') && message.contains("duplicate") {
        format!("{line} was opened before, and its keys here were left out with it; put them there")
    } else if line.starts_with('[') {
        "a section is written [name], or [[capture]] for each recording; its keys were left out with it".into()
    } else if let Some(name) = line.strip_suffix(']').filter(|n| is_bare_key(n)) {
        format!("write [{name}] on a line of its own")
    } else if !line.contains('=') {
        format!("a line is written key = value; put a # before \"{line}\" if it is a remark")
    } else if value.is_empty() {
        format!("write a value behind {key} =, or put a # before the line")
    } else if let Some(number) = with_comma(bare) {
        format!("found {bare}; write {number} with a point")
    } else if let Some(day) = day(bare) {
        format!("found {bare}; write the date as {day}")
    } else if value.starts_with(['“', '”', '„', '‘', '’', '«']) {
        let inside = value.trim_matches(|c| matches!(c, '“' | '”' | '„' | '‘' | '’' | '«' | '»'));
        format!("found {value}; write it in straight quotes: {key} = \"{inside}\"")
    } else if value.starts_with('"') && value.contains('\\') {
        format!(
            "found {value}; write a path in single quotes: {key} = '{}'",
            value.trim_matches('"')
        )
    } else if (value.starts_with('"') || value.starts_with('\'')) && !closed(value) {
        format!("found {value}; close the quotes")
    } else if value.starts_with('[') && !value.contains(']') {
        format!("found {value}; close the list with ]")
    } else if message.contains("duplicate") {
        format!("{key} was written before; keep one of the two lines")
    } else if let Some(answer) = yes_or_no(bare) {
        format!("found {bare}; write {key} = {answer}")
    } else if bare.starts_with(|c: char| c.is_ascii_digit()) {
        format!(
            "found {bare}; write a number alone, without a unit and without spaces, or text in quotes: {key} = \"{bare}\""
        )
    } else if bare.contains('\\') && !bare.contains('\'') {
        // In straight double quotes a backslash begins an escape.
        format!("found {bare}; write a path in single quotes: {key} = '{bare}'")
    } else if bare.chars().all(|c| !matches!(c, '"' | '\'' | '[' | '{')) {
        format!("found {bare}; write text in quotes: {key} = \"{bare}\"")
    } else {
        return format!("found {line}; {}", plain(message));
    };
    format!("this line was left out: {advice}")
}

/// Returns whether a text is a bare key of TOML.
fn is_bare_key(text: &str) -> bool {
    let is_part = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-');
    !text.is_empty() && text.chars().all(is_part)
}

/// `true` or `false` for the words that people write instead.
fn yes_or_no(text: &str) -> Option<bool> {
    match text.to_lowercase().as_str() {
        "yes" | "ja" | "si" | "sí" | "oui" | "true" | "on" => Some(true),
        "no" | "nein" | "non" | "false" | "off" => Some(false),
        _ => None,
    }
}

/// A decimal number that was written with a comma, with a point.
fn with_comma(text: &str) -> Option<String> {
    let (whole, fraction) = text.split_once(',')?;
    let digits = |s: &str| !s.is_empty() && s.bytes().all(|b| b.is_ascii_digit());
    let whole_digits = whole.strip_prefix(['-', '+']).unwrap_or(whole);
    (digits(whole_digits) && digits(fraction)).then(|| format!("{whole}.{fraction}"))
}

/// A date that was written in another order, as TOML writes it: `9.3.2026`, `09/03/2026`, `2026/3/9`. Day first, unless the
/// second number is above 12.
fn day(text: &str) -> Option<String> {
    let text = text.trim_matches(['"', '\'']);
    let parts: Vec<u32> = text
        .split(['.', '/', '-'])
        .map(|p| p.trim().parse().ok())
        .collect::<Option<_>>()?;
    let [a, b, c] = parts[..] else { return None };
    let (year, month, day) = match (a > 31, b > 12) {
        (true, _) => (a, b, c),
        (false, true) => (c, a, b),
        (false, false) => (c, b, a),
    };
    let year = if year < 100 { year + 2000 } else { year };
    let calendar =
        (1900..=2200).contains(&year) && (1..=12).contains(&month) && (1..=31).contains(&day);
    calendar.then(|| format!("{year:04}-{month:02}-{day:02}"))
}

fn closed(value: &str) -> bool {
    let quote = value.chars().next();
    quote.is_some_and(|q| value.matches(q).count() >= 2)
}

/// Message on a value of the wrong kind. `found` is the value as it was written, `message` what the reader of the type says.
pub(crate) fn kind(key: &str, found: &str, message: &str) -> String {
    let message = message.trim().replace('\n', " ");
    match key {
        "authorised" => {
            return "an authorisation is an event with a name and a day, and no setting: record it with the command \
                    authorise, then take this line out"
                .into();
        }
        "hookup" => return "a saved connection is called preset: write preset = \"NAME\"".into(),
        _ => {}
    }
    let quoted: Vec<&str> = message.split('`').skip(1).step_by(2).collect();
    if message.starts_with("unknown field") {
        let known = quoted.get(1..).unwrap_or_default();
        let near = nearest(key, known).map(|n| format!(" Did you mean {n}?"));
        return format!(
            "there is no key {key} here.{} The keys are {}",
            near.unwrap_or_default(),
            known.join(", ")
        );
    }
    if message.starts_with("unknown variant") {
        let known = quoted.get(1..).unwrap_or_default();
        let given = quoted.first().copied().unwrap_or(found);
        let near = nearest(given, known).map(|n| format!(" Did you mean \"{n}\"?"));
        return format!(
            "found \"{given}\".{} Write one of {}",
            near.unwrap_or_default(),
            known
                .iter()
                .map(|k| format!("\"{k}\""))
                .collect::<Vec<_>>()
                .join(", ")
        );
    }
    if message.starts_with("missing field") {
        let missing = quoted.first().copied().unwrap_or(key);
        return format!("the key {missing} is missing in this section: write {missing} = ...");
    }
    // Of a whole section its first line is enough.
    let found = found.trim().lines().next().unwrap_or_default();
    let inside = found.trim_matches(['"', '\'']);
    let Some((_, expected)) = message.split_once("expected ") else {
        return format!("found {found}; {}", plain(&message));
    };
    let number = matches!(expected, "f64" | "f32")
        || expected.starts_with(['u', 'i']) && expected.len() <= 5;
    let advice = if expected.contains("datetime") {
        match day(inside) {
            Some(day) => format!("write the date without quotes: {key} = {day}"),
            None => format!("write a date such as {key} = 2026-03-09"),
        }
    } else if number {
        match (with_comma(inside), inside.parse::<f64>()) {
            (Some(n), _) => format!("write {n} with a point and without quotes"),
            (None, Ok(_)) if inside != found => format!("write {inside} without quotes"),
            (None, Ok(n)) if n < 0.0 => "write a number that is not negative".into(),
            (None, Ok(_)) if message.starts_with("invalid value") => {
                "write a smaller number".into()
            }
            (None, Ok(_)) => "write a whole number".into(),
            (None, Err(_)) if matches!(expected, "f64" | "f32") => {
                "write a number such as 1.5".into()
            }
            (None, Err(_)) => "write a whole number such as 30".into(),
        }
    } else if expected.starts_with("a decimal number")
        && let Some(n) = with_comma(inside)
    {
        format!("write {n} with a point")
    } else if expected.contains("boolean") {
        match yes_or_no(inside) {
            Some(answer) => format!("write {key} = {answer}, without quotes"),
            None => "write true or false, without quotes".into(),
        }
    } else if expected.contains("sequence") && key == "capture" {
        "each recording has a section [[capture]] of its own, in two brackets".into()
    } else if expected.contains("sequence") {
        format!("write a list in square brackets: {key} = [{found}]")
    } else if expected.contains("string") && !expected.contains("enum") {
        format!("write it in quotes: {key} = \"{inside}\"")
    } else if expected.contains("struct") || expected.contains("map") || expected.contains("table")
    {
        format!("{key} is a section: write [{key}] on a line of its own, and its keys below it")
    } else {
        plain(&message)
    };
    format!("found {found}; {advice}")
}

/// A message of a parser or of a type without its own names for things.
fn plain(message: &str) -> String {
    let message = message.trim().replace('\n', ", ");
    [
        ("f64", "a number"),
        ("`", ""),
        ("u64", "a whole number"),
        ("u32", "a whole number"),
        ("u16", "a whole number"),
        ("i64", "a whole number"),
    ]
    .iter()
    .fold(message, |m, (internal, word)| m.replace(internal, word))
}

/// The nearest of the words that there are, where one is near: at most one letter in three is another, missing or too
/// many.
pub(crate) fn nearest<'k>(given: &str, known: &[&'k str]) -> Option<&'k str> {
    let given = given.to_lowercase();
    let distance = |word: &str| strsim::damerau_levenshtein(&given, &word.to_lowercase());
    let best = known.iter().min_by_key(|word| distance(word))?;
    let length = given.chars().count().max(best.chars().count());
    (3 * distance(best) <= length).then_some(*best)
}
