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
    for text in ["clutch active", "", "status", "12"] {
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
        (0x28, vec![Confirmed]),
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
