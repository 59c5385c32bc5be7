//! Trouble codes in free text, told apart from part numbers and the like.

use crate::words;

/// Something that reads as a trouble code.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Mention {
    /// Five characters.
    pub code: String,
    /// Failure type, where it is written onto the code.
    pub failure_type: Option<String>,
    /// Offset of its beginning in the line, bytes.
    pub start: usize,
    /// Offset of its end, with its failure type, bytes.
    pub end: usize,
}

/// The trouble codes of a line (SAE J2012: a letter of P, C, B, U, a digit 0 to 3, three hexadecimal
/// digits). `in_code_column` also allows the failure type behind a space or right behind the code.
pub(crate) fn find(line: &str, in_code_column: bool) -> Vec<Mention> {
    let mut mentions = Vec::new();
    let mut from = 0;
    while let Some(offset) =
        line[from..].find(|c: char| matches!(c.to_ascii_uppercase(), 'P' | 'C' | 'B' | 'U'))
    {
        let start = from + offset;
        from = start + 1;
        let before = line[..start].chars().next_back();
        if before.is_some_and(|c| c.is_alphanumeric() || c == '-' || c == '+') {
            continue;
        }
        if let Some(mention) = read(line, start, in_code_column)
            && !follows_a_part_word(&line[..start])
        {
            from = mention.end;
            mentions.push(mention);
        }
    }
    mentions
}

/// True where a word is shaped like a code but has a second character that no code has (`P4123`).
pub(crate) fn malformed(word: &str) -> bool {
    let word = word.as_bytes();
    word.len() == 5
        && matches!(word[0], b'P' | b'C' | b'B' | b'U')
        && matches!(word[1], b'4'..=b'9')
        && word[2..]
            .iter()
            .all(|b| b.is_ascii_digit() || (b'A'..=b'F').contains(b))
}

fn read(line: &str, start: usize, in_code_column: bool) -> Option<Mention> {
    let code = line.get(start..start + 5)?;
    let digits = code.as_bytes();
    if !matches!(digits[1], b'0'..=b'3') || !digits[2..].iter().all(u8::is_ascii_hexdigit) {
        return None;
    }
    let mention = |failure_type: Option<&str>, end: usize| {
        Some(Mention {
            code: code.to_ascii_uppercase(),
            failure_type: failure_type.map(str::to_ascii_uppercase),
            start,
            end,
        })
    };
    let end = start + 5;
    let rest = &line[end..];
    // A failure type behind `sep`, or nothing when what follows is no lone byte.
    let byte_behind = |sep: usize| -> Option<&str> {
        let two = rest.get(sep..sep + 2)?;
        let next = rest[sep + 2..].chars().next();
        let lone = !next
            .is_some_and(|c| c.is_alphanumeric() || c == '-' && !rest[sep + 2..].starts_with("- "));
        (two.bytes().all(|b| b.is_ascii_hexdigit()) && lone).then_some(two)
    };
    let mut chars = rest.chars();
    match chars.next() {
        Some('-' | ':' | '/' | '.') => match (byte_behind(1), chars.next()) {
            (Some(two), _) => mention(Some(two), end + 3),
            // `P0482-13A` is a part number; `P0902-Text` and `P0902: text` are not.
            (None, Some(c)) if c.is_ascii_digit() && !rest.starts_with(':') => None,
            (None, Some(c))
                if rest.starts_with('-') && c.is_ascii_uppercase() && is_part_tail(&rest[1..]) =>
            {
                None
            }
            _ => mention(None, end),
        },
        Some(c) if c.is_alphanumeric() || c == '_' => match byte_behind(0) {
            Some(two) if in_code_column => mention(Some(two), end + 2),
            _ => None,
        },
        Some(' ')
            if byte_behind(1).is_some()
                && (in_code_column || begins_a_row(&line[..start], &rest[3..])) =>
        {
            mention(byte_behind(1), end + 3)
        }
        Some(' ') if digit_groups(rest) => None,
        Some(' ') if rest.starts_with(" / ") && byte_behind(3).is_some() => {
            mention(byte_behind(3), end + 5)
        }
        Some(' ' | '(' | '[') => {
            let open = rest.find(|c: char| c != ' ').unwrap_or(0);
            match (
                rest.as_bytes().get(open),
                rest.as_bytes().get(open + 3),
                byte_behind(open + 1),
            ) {
                (Some(b'(' | b'['), Some(b')' | b']'), Some(two)) => {
                    mention(Some(two), end + open + 4)
                }
                _ => mention(None, end),
            }
        }
        _ => mention(None, end),
    }
}

/// True where a code and the byte behind it are the first cells of a list's row: only a bullet or a number
/// before, a wide gap behind.
fn begins_a_row(before: &str, behind: &str) -> bool {
    !before.chars().any(char::is_alphabetic)
        && ["  ", "\t", " [", " ("]
            .iter()
            .any(|gap| behind.starts_with(gap))
}

/// `31A`, `AB12`: letters and digits mixed, as behind a part number's hyphen.
fn is_part_tail(rest: &str) -> bool {
    let word: String = rest.chars().take_while(|c| c.is_alphanumeric()).collect();
    word.chars().any(|c| c.is_ascii_digit())
}

/// ` 488 729`: groups of three digits, as in part numbers.
fn digit_groups(rest: &str) -> bool {
    let mut words = rest.split_whitespace();
    let group = |w: Option<&str>| {
        w.is_some_and(|w| {
            let w = w.trim_end_matches(|c: char| !c.is_alphanumeric());
            w.len() == 3 && w.bytes().all(|b| b.is_ascii_digit())
        })
    };
    group(words.next()) && group(words.next())
}

/// True where the words right in front, in the same cell or clause, name a part, a label or a software.
fn follows_a_part_word(before: &str) -> bool {
    let is_break = |c: char| matches!(c, ';' | '|' | '\t');
    let key = before
        .split_whitespace()
        .rfind(|w| w.ends_with([':', ';', ',', '|']));
    let before = before.trim_end_matches([' ', ':', '=', '"', '\'', '(', '#']);
    let cell = before.trim_end_matches(|c: char| is_break(c) || c == ' ');
    // An empty cell start means: the key stands in the cell before, the line's first.
    let cell = if cell.len() < before.len() && cell.contains(is_break) {
        ""
    } else {
        cell
    };
    let clause = cell.rsplit([';', '|', '\t', ',']).next().unwrap_or("");
    let clause = clause.rsplit(". ").next().unwrap_or(clause);
    let words: Vec<&str> = clause.split_whitespace().rev().take(3).collect();
    // A verb between the part's name and the code makes it a sentence about the code; the value of a key goes on to the
    // next one.
    let in_value = key.is_some_and(|w| w.ends_with(':') && words::names_a_part(w));
    in_value || words.iter().any(|w| words::names_a_part(w))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn codes(line: &str) -> Vec<String> {
        find(line, false)
            .into_iter()
            .map(|h| {
                h.failure_type
                    .map_or(h.code.clone(), |f| format!("{}-{f}", h.code))
            })
            .collect()
    }

    #[test]
    fn codes_and_failure_types() {
        assert_eq!(
            codes("P0902-13 and P0902:1C, U0101 [08]"),
            ["P0902-13", "P0902-1C", "U0101-08"]
        );
        assert_eq!(codes("TCM  P080A  stored"), ["P080A"]);
        assert_eq!(codes("P073E - No entra (B1562/11)"), ["P073E", "B1562-11"]);
        assert_eq!(codes("P0700:00"), ["P0700-00"]);
        assert_eq!(codes("P0902: open circuit"), ["P0902"]);
        assert_eq!(codes("code p0902."), ["P0902"]);
        assert_eq!(codes("P0902 (actuator circuit low)"), ["P0902"]);
    }

    #[test]
    fn failure_type_behind_a_space_only_in_a_code_column() {
        assert_eq!(codes("P0902 13"), ["P0902"]);
        assert_eq!(
            find("P0902 13", true)[0].failure_type.as_deref(),
            Some("13")
        );
        assert_eq!(find("P080A54", true)[0].failure_type.as_deref(), Some("54"));
        assert!(find("P080A54", false).is_empty());
    }

    #[test]
    fn what_only_looks_like_a_code() {
        for line in [
            "Teilenummer: P05 488 729",
            "The unit carries label P0482-13A.",
            "SW P0421-51A",
            "VIN = ZZ0P08784MA340734 / calibration P0462-28A",
            "Softwarestand P0428-40A. Keine weiteren",
            "label P0410-43A",
            "calibration P0462-28",
            "spare part P0641 888 123",
            "Part;P0902-13;;",
            "hardware: P0153",
            "P4123 P8001 PA123",
            "XP0902 P09021 P0902A P0902_1",
            "P0902 488 729",
            "1P0902",
            "Referencia pieza: P0873",
            "HW: 0AM-P0300-X1   SW: 09G B1234567 / C0123.45",
            "numéro de pièce P0312",
        ] {
            assert!(codes(line).is_empty(), "{line}: {:?}", codes(line));
        }
        assert_eq!(
            codes("Software: 09G B1234567 / 12 Fehler: P0700"),
            ["P0700"]
        );
        assert!(malformed("P4123"));
        assert!(!malformed("P0123"));
    }

    #[test]
    fn no_line_makes_it_panic() {
        for line in [
            "P", "P0", "é P090", "P0902-é", "P0902 é", "BÜC0P", "P0902-", "P0902(",
        ] {
            find(line, true);
            find(line, false);
        }
    }
}
