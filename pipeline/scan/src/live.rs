//! Live data: name, value, unit, in whatever order of signs and words a text has them.

use crate::words::WORDS;
use formats::number::{self, NumberStyle};
use formats::words::fold;
use model::scan::LiveQuantity;

/// One item as it was found in a line.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Item {
    pub name: String,
    pub quantity: Option<LiveQuantity>,
    pub text: String,
    pub value: Option<f64>,
    pub unit: Option<String>,
}

/// The quantity that a name means.
pub(crate) fn quantity(name: &str) -> Option<LiveQuantity> {
    let folded = fold(name);
    let name = folded.trim();
    let whole = |n: &str| {
        name.find(n).is_some_and(|i| {
            let edge = |c: Option<char>| c.is_none_or(|c| !c.is_alphanumeric());
            edge(name[..i].chars().next_back()) && edge(name[i + n.len()..].chars().next())
        })
    };
    let alone = WORDS
        .live_alone
        .iter()
        .find(|(_, names)| names.contains(name));
    if let Some((quantity, _)) = alone {
        return Some(*quantity);
    }
    let names = WORDS
        .live
        .iter()
        .flat_map(|(quantity, names)| names.iter().map(move |n| (n, quantity)));
    names
        .filter(|(n, _)| whole(n))
        .max_by_key(|(n, _)| (n.len(), *n))
        .map(|(_, quantity)| *quantity)
}

/// The items of a line.
pub(crate) fn items(line: &str) -> Vec<Item> {
    for sign in [";", " / ", "|", " and ", " und ", " y ", " et ", " e "] {
        let parts: Vec<&str> = line.split(sign).collect();
        let known = |p: &&&str| items_of_clauses(p).iter().any(|i| i.quantity.is_some());
        if parts.len() > 1 && parts.iter().filter(known).count() >= 2 {
            return parts.into_iter().flat_map(items).collect();
        }
    }
    items_of_clauses(line)
}

fn items_of_clauses(line: &str) -> Vec<Item> {
    clauses(line).into_iter().filter_map(item).collect()
}

/// Sentences and clauses of a line; a decimal sign is followed by a digit and so ends none, nor does an
/// abbreviation before a number (`Kl. 30`).
fn clauses(line: &str) -> Vec<&str> {
    let mut out = Vec::new();
    let mut start = 0;
    for (i, sign) in line.match_indices([',', '.']) {
        let (before, behind) = (&line[start..i], &line[i + 1..]);
        let short = before
            .rsplit(|c: char| !c.is_alphabetic())
            .next()
            .is_some_and(|w| (1..=3).contains(&w.len()));
        let number = behind
            .trim_start()
            .starts_with(|c: char| c.is_ascii_digit());
        if behind.starts_with(' ') && !(sign == "." && short && number) {
            out.push(before);
            start = i + 1;
        }
    }
    out.push(line[start..].trim_end().trim_end_matches('.'));
    out
}

fn item(clause: &str) -> Option<Item> {
    let clause = clause
        .trim()
        .trim_matches(|c: char| matches!(c, '-' | '*' | '•' | '"' | '|'))
        .trim();
    let (name, value) = cut(clause)?;
    let name = name
        .trim()
        .trim_end_matches([':', '=', ';', '|', '.', ' ', '\t', '"']);
    // `live.engine_speed`: the last part is the name.
    let name = if name.contains(' ') {
        name
    } else {
        name.rsplit('.').next().unwrap_or(name)
    };
    let quantity = quantity(name);
    let value = value
        .trim()
        .trim_matches(|c: char| matches!(c, ';' | '"' | '|' | '\t' | ' ' | ':' | '='));
    let (number, unit) = split_value(value);
    if quantity == Some(LiveQuantity::SelectorPosition) {
        let letter = selector(value)?;
        return Some(Item {
            name: name.into(),
            quantity,
            text: letter,
            value: None,
            unit: None,
        });
    }
    let (number, unit) = (number?, unit.filter(|u| !u.is_empty()));
    let known_unit = unit.as_deref().is_some_and(formats::units::is_unit);
    if quantity.is_none() && !known_unit {
        return None;
    }
    // "speed" of the vehicle in km/h is no engine speed, a voltage in rpm no voltage.
    let fits = match (quantity, unit.as_deref().map(fold).as_deref()) {
        (_, None) => true,
        (Some(LiveQuantity::ModuleVoltage), Some(u)) => {
            matches!(u, "v" | "mv" | "volt" | "volts" | "voltios")
        }
        (Some(LiveQuantity::VehicleSpeed), Some(u)) => matches!(u, "km/h" | "mph" | "kmh" | "kph"),
        (Some(LiveQuantity::CoolantTemperature), Some(u)) => u.contains('c') || u.contains('f'),
        (Some(_), Some(u)) => !matches!(u, "v" | "a" | "km/h" | "mph" | "%"),
        (None, _) => true,
    };
    let name = name.to_string();
    if name.is_empty() || name.chars().count() > 60 {
        return None;
    }
    Some(Item {
        name,
        quantity: quantity.filter(|_| fits),
        text: value.into(),
        value: Some(number),
        unit,
    })
}

/// Name and value of a clause.
fn cut(clause: &str) -> Option<(&str, &str)> {
    for sep in [";", "\t", "|", " = ", "=", ": ", " : ", ":"] {
        if let Some((name, value)) = clause.split_once(sep) {
            return (!name.trim().is_empty() && !value.trim().is_empty()).then_some((name, value));
        }
    }
    if let Some((name, value)) = clause.split_once("  ") {
        return Some((name, value));
    }
    let (folded, places) = fold_with_places(clause);
    let verb = |verb: &str| {
        let at = folded
            .match_indices(verb)
            .map(|(i, _)| i)
            .find(|i| folded[..*i].ends_with(' ') && folded[i + verb.len()..].starts_with(' '))?;
        let name = clause.get(..places[at - 1])?;
        let value = clause.get(places[at + verb.len()]..)?;
        quantity(name).is_some().then_some((name, value))
    };
    // Of "es" and "es de" the longer one.
    let verbs = WORDS.verb.iter().filter_map(|v| Some((v.len(), verb(v)?)));
    if let Some((_, cut)) = verbs.max_by_key(|(length, _)| *length) {
        return Some(cut);
    }
    // `Engine speed 776 rpm`, `Selector P`
    let digit = clause
        .find(|c: char| c.is_ascii_digit() || c == '-')
        .filter(|i| *i > 0);
    let known = |i: usize| quantity(&clause[..i]).is_some();
    if let Some(i) = digit.filter(|i| known(*i)) {
        // The number may be part of the name: "Turbine 2 776 rpm".
        let tail = clause[i..].split_once(' ').filter(|(_, t)| {
            let unit = t
                .split_whitespace()
                .next()
                .is_some_and(formats::units::is_unit);
            t.starts_with(|c: char| c.is_ascii_digit()) && !unit
        });
        let at = tail.map_or(i, |(n, _)| i + n.len());
        return Some(clause.split_at(at));
    }
    let (name, value) = clause.rsplit_once(' ')?;
    (quantity(name) == Some(LiveQuantity::SelectorPosition)).then_some((name, value))
}

/// The folded text and, for each of its bytes, where the character comes from.
fn fold_with_places(text: &str) -> (String, Vec<usize>) {
    let (mut folded, mut places) = (String::new(), Vec::new());
    for (i, c) in text.char_indices() {
        let piece = fold(c.encode_utf8(&mut [0; 4]));
        places.extend(std::iter::repeat_n(i, piece.len()));
        folded.push_str(&piece);
    }
    (folded, places)
}

/// A number in either decimal style and what stands behind it.
fn split_value(value: &str) -> (Option<f64>, Option<String>) {
    let end = value
        .char_indices()
        .find(|(_, c)| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | '\u{2212}')))
        .map_or(value.len(), |(i, _)| i);
    let (number, unit) = value.split_at(end);
    let number = number.trim_end_matches(['.', ',']);
    let style = match (number.rfind('.'), number.rfind(',')) {
        (Some(p), Some(c)) if c > p => NumberStyle::COMMA,
        (None, Some(_)) => NumberStyle::COMMA,
        _ => NumberStyle::POINT,
    };
    let unit = unit
        .trim()
        .trim_matches(|c: char| matches!(c, ';' | '|' | '[' | ']' | '(' | ')' | '"' | '\t'))
        .trim();
    let unit = unit.split([';', '|', '\t', ' ', ',']).next().unwrap_or("");
    (
        number::plain(number, style).map(|d| d.value),
        Some(unit.to_string()),
    )
}

/// The selector's letter, from a letter or a word.
fn selector(value: &str) -> Option<String> {
    let first = value
        .split(|c: char| !c.is_alphanumeric())
        .find(|w| !w.is_empty())?;
    let folded = fold(first);
    let letters = WORDS.selector.iter();
    let letter = letters.into_iter().find(|(_, words)| {
        words
            .iter()
            .any(|w| w.split_whitespace().next() == Some(folded.as_str()))
    });
    letter.map(|(letter, _)| letter.to_string())
}

#[cfg(test)]
mod tests;
