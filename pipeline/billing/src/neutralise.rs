//! Neutralisation of text that a spreadsheet would run as a formula.

use std::borrow::Cow;

/// Puts an apostrophe before text that a spreadsheet would take for a formula: text whose first visible
/// character is `=`, `+`, `-` or `@` (full-width and small forms too), or that begins with a tabulator
/// or a line end. Rule as OWASP gives it for CSV injection. For text only: numbers are never touched.
pub(crate) fn neutralise(text: &str) -> Cow<'_, str> {
    let runs = text
        .chars()
        .find(|c| !is_invisible(*c))
        .is_some_and(starts_formula);
    if runs {
        Cow::Owned(format!("'{text}"))
    } else {
        Cow::Borrowed(text)
    }
}

fn starts_formula(c: char) -> bool {
    matches!(
        c,
        '=' | '+' | '-' | '@' | '\t' | '\r' | '\n'
        // full-width forms, small forms, minus sign
        | '\u{FF1D}' | '\u{FF0B}' | '\u{FF0D}' | '\u{FF20}'
        | '\u{FE66}' | '\u{FE62}' | '\u{FE63}' | '\u{FE6B}'
        | '\u{2212}'
    )
}

/// Returns whether an importer may trim the character away before it looks at the first one.
fn is_invisible(c: char) -> bool {
    let line_or_tab = matches!(c, '\t' | '\r' | '\n');
    let zero_width = matches!(c, '\u{200B}'..='\u{200F}' | '\u{2060}' | '\u{FEFF}');
    !line_or_tab && (c.is_whitespace() || c.is_control() || zero_width)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_become_text() {
        // The characters that OWASP's page on CSV injection names, from memory.
        for text in [
            "=1+1",
            "+1",
            "-1",
            "@SUM(A1)",
            "\t=1",
            "\r=1",
            "\n=1",
            "＝1",
            "＋1",
            "－1",
            "＠A",
            "  =1",
            "\u{FEFF}=1",
        ] {
            assert_eq!(neutralise(text), format!("'{text}"));
        }
    }

    #[test]
    fn other_text_stays_as_it_is() {
        for text in [
            "",
            " ",
            "R-2041",
            "clutch 2 = K2",
            "'=1",
            "Müller",
            "5-speed",
        ] {
            assert_eq!(neutralise(text), text);
        }
    }
}
