//! Characters that no font has: each becomes a visible mark, and the report says where.

use super::world::Fonts;
use serde_json::Value;
use std::collections::BTreeSet;

/// Replacements of characters without a glyph.
const MARK: char = '□';

/// Replaces every character that no font covers, in every text of the data, and lists the places in
/// `replaced` as `{place, codes}`. Line ends and tabs become spaces or stay, as Typst takes them.
pub(super) fn replace_uncovered(data: &mut Value, fonts: &Fonts) {
    let mut replaced = Vec::new();
    walk(data, &mut String::new(), fonts, &mut replaced);
    if replaced.is_empty() {
        return;
    }
    if let Some(data) = data.as_object_mut() {
        data.insert("replaced".into(), replaced.into());
    }
}

fn walk(value: &mut Value, place: &mut String, fonts: &Fonts, replaced: &mut Vec<Value>) {
    let length = place.len();
    match value {
        Value::String(text) => {
            let codes = clean(text, fonts);
            if !codes.is_empty() {
                replaced.push(serde_json::json!({"place": &*place, "codes": codes.join(" ")}));
            }
        }
        Value::Array(items) => {
            for (i, item) in items.iter_mut().enumerate() {
                place.push_str(&format!(" {}", i + 1));
                walk(item, place, fonts, replaced);
                place.truncate(length);
            }
        }
        Value::Object(fields) => {
            for (name, item) in fields.iter_mut() {
                if !place.is_empty() {
                    place.push(' ');
                }
                place.push_str(name);
                walk(item, place, fonts, replaced);
                place.truncate(length);
            }
        }
        _ => {}
    }
}

/// Cleans one text; returns the first few characters that were replaced, as code points.
fn clean(text: &mut String, fonts: &Fonts) -> Vec<String> {
    // Plain ASCII first: it is most of the text, and looking a glyph up takes time.
    let printable = |c: char| matches!(c, ' '..='~' | '\n') || (!c.is_control() && fonts.cover(c));
    if text.chars().all(printable) {
        return Vec::new();
    }
    let mut lost = BTreeSet::new();
    *text = text
        .chars()
        .map(|c| match c {
            '\t' | '\r' => ' ',
            c if printable(c) => c,
            c => {
                lost.insert(c);
                MARK
            }
        })
        .collect();
    lost.into_iter()
        .take(12)
        .map(|c| format!("U+{:04X}", c as u32))
        .collect()
}
