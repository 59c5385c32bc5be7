//! Status words, headings and bytes.

use super::*;

#[test]
fn status_words_in_five_languages() {
    for (text, want) in [
        ("CONFIRMED", vec![Confirmed]),
        ("aktuell vorhanden", vec![Active]),
        ("bestätigt", vec![Confirmed]),
        ("früher aufgetreten", vec![History]),
        ("pendiente", vec![Pending]),
        ("histórico", vec![History]),
        ("mémorisé", vec![Confirmed]),
        ("en attente", vec![Pending]),
        ("memorizzato, attivo", vec![Active, Confirmed]),
        ("status: not active", vec![]),
        ("nicht mehr vorhanden", vec![History]),
        ("stored / permanent", vec![Confirmed, CodeStatus::Permanent]),
    ] {
        assert_eq!(statuses(text).unwrap_or_default(), want, "{text}");
    }
    for text in ["pump active", "", "status", "12"] {
        assert_eq!(statuses(text), None, "{text}");
    }
}

#[test]
fn headings_over_codes() {
    for (line, want) in [
        ("Confirmed codes: 1", Some(vec![Confirmed])),
        ("Pending codes: none", Some(vec![Pending])),
        ("== Gespeicherte Fehler ==", Some(vec![Confirmed])),
        ("Códigos pendientes (2):", Some(vec![Pending])),
        ("Stored:", Some(vec![Confirmed])),
        ("Selector position: P", None),
        ("No codes were returned by the airbag unit", None),
    ] {
        assert_eq!(heading(line), want, "{line}");
    }
}

/// Masks of ISO 14229-1 D.2 as in the constants of udsoncan 1.26.1.
#[test]
fn status_bytes() {
    for (byte, want) in [
        (0x2F, vec![Active, Pending, Confirmed]),
        (0xAF, vec![Active, Pending, Confirmed]),
        (0x0F, vec![Active, Pending, Confirmed]),
        (0x8B, vec![Active, Confirmed]),
        (0x08, vec![Confirmed]),
        // Failed since the codes were cleared, but neither now nor in this cycle.
        (0x28, vec![Confirmed, History]),
        (0x20, vec![History]),
        (0x24, vec![Pending]),
        (0x50, vec![NotTested]),
        (0x00, vec![]),
    ] {
        assert_eq!(status_byte(byte), want, "{byte:02X}");
    }
}

#[test]
fn bytes_as_text() {
    for (text, want) in [
        ("0x2F", Some(0x2F)),
        ("AF", Some(0xAF)),
        ("8Bh", Some(0x8B)),
        ("00101111", Some(0x2F)),
        ("2", None),
        ("none", None),
    ] {
        assert_eq!(byte(text), want, "{text}");
    }
}

/// Every list has all five languages, and no word twice in one of them.
#[test]
fn lists_have_five_languages() {
    fn walk(name: &str, value: &toml::Value, lists: &mut usize) {
        let table = value.as_table().unwrap();
        if table.contains_key("en") {
            *lists += 1;
            let languages: Vec<&str> = table.keys().map(String::as_str).collect();
            assert_eq!(languages, ["de", "en", "es", "fr", "it"], "{name}");
            for (language, words) in table {
                let words: Vec<String> = words
                    .as_array()
                    .unwrap()
                    .iter()
                    .map(|w| fold(w.as_str().unwrap()))
                    .collect();
                let mut once = words.clone();
                once.sort();
                once.dedup();
                assert_eq!(once.len(), words.len(), "{name}.{language}");
                assert!(!words.is_empty(), "{name}.{language}");
            }
            return;
        }
        for (key, inner) in table {
            walk(&format!("{name}.{key}"), inner, lists);
        }
    }
    let file: toml::Value = toml::from_str(include_str!("../../words.toml")).unwrap();
    let mut lists = 0;
    walk("", &file, &mut lists);
    assert!(lists > 40, "{lists}");
    assert_eq!(WORDS.selector.len(), 6);
}

#[test]
fn bits_by_name() {
    for (text, want) in [
        ("testFailed", Some(0x01)),
        ("testFailed=1, confirmedDTC=1, pendingDTC=0", Some(0x09)),
        ("test failed since last clear", Some(0x20)),
        ("warningIndicatorRequested: true", Some(0x80)),
        ("confirmed", None),
        ("", None),
    ] {
        assert_eq!(named_bits(text), want, "{text}");
    }
}
