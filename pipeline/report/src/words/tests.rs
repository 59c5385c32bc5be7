use super::*;
use crate::words::number;
use model::{Finding, Limit};
use rust_decimal::Decimal;

/// The causes of the first cause sheet.
const CAUSES: [&str; 15] = [
    "clutch-1-drag",
    "clutch-2-drag",
    "clutch-1-slip",
    "clutch-2-slip",
    "clutch-actuator-jam",
    "clutch-actuator-1-jam",
    "clutch-actuator-2-jam",
    "gear-actuator-jam",
    "actuation-jam",
    "actuator-open-circuit",
    "supply-weak",
    "shaft-sensor-1-fault",
    "shaft-sensor-2-fault",
    "double-engagement",
    "relearn-not-completed",
];

const CAUTIONS: [(&str, SignalWord); 14] = [
    ("caution-rolling", SignalWord::Warning),
    ("caution-running-engine", SignalWord::Danger),
    ("caution-rotating-parts", SignalWord::Warning),
    ("caution-actuator-movement", SignalWord::Warning),
    ("caution-spring-force", SignalWord::Warning),
    ("caution-lifting", SignalWord::Warning),
    ("caution-jumper-lead", SignalWord::Warning),
    ("caution-high-voltage", SignalWord::Danger),
    ("caution-airbag", SignalWord::Warning),
    ("caution-hot-parts", SignalWord::Caution),
    ("caution-clutch-dust", SignalWord::Warning),
    ("caution-battery", SignalWord::Warning),
    ("caution-scope-ground", SignalWord::Caution),
    ("caution-road-test", SignalWord::Warning),
];

fn words() -> Words {
    Words::load("en").unwrap()
}

fn turning() -> Finding {
    Finding {
        kind: "shaft-turning-at-rest".into(),
        subject: Some("input-shaft-2".into()),
        value: Some(412.63),
        unit: Some("rpm".into()),
        limit: Some(Limit {
            low: None,
            high: Some(30.0),
            unit: "rpm".into(),
            source: "s".into(),
        }),
        message: "of-another-plugin".into(),
        ..Finding::default()
    }
}

#[test]
fn every_cause_has_its_sentences() {
    let words = words();
    for cause in CAUSES {
        for key in [
            format!("cause-{cause}"),
            format!("cause-{cause}-plain"),
            format!("cause-{cause}-ruled-out"),
            format!("repair-{cause}-1"),
            format!("proof-{cause}"),
        ] {
            assert!(words.has(&key), "{key} is missing in en.ftl");
        }
        let advice = words.advice(cause, true, &[]);
        assert_eq!(advice.opens.is_some(), advice.destroys.is_some(), "{cause}");
    }
}

#[test]
fn every_caution_has_its_signal_word() {
    let words = words();
    for (key, level) in CAUTIONS {
        let caution = words.caution(key);
        assert!(words.has(key), "{key} is missing in en.ftl");
        assert_eq!(caution.level, level, "{key}");
        assert!(!caution.title.is_empty(), "{key} has no title");
    }
    assert_eq!(words.caution("caution-rolling").word, "WARNING");
}

/// A caution that nobody has worded is still printed, and as a warning.
#[test]
fn an_unknown_caution_warns() {
    let caution = words().caution("caution-hot-coolant");
    assert_eq!(caution.level, SignalWord::Warning);
    assert_eq!(caution.text, "Caution hot coolant");
}

#[test]
fn an_unknown_message_reads_as_a_neutral_sentence() {
    let text = words().finding(&turning());
    assert_eq!(
        text,
        "Shaft turning where it must stand still on second input shaft: 413\u{a0}rpm, expected at most 30\u{a0}rpm."
    );
    let strange = Finding {
        kind: "belt-squeal".into(),
        ..Finding::default()
    };
    assert_eq!(
        words().finding(&strange),
        "Belt squeal on the whole recording."
    );
}

#[test]
fn a_sentence_that_lacks_an_argument_is_not_printed_with_a_hole() {
    let finding = Finding {
        message: "turning-at-rest".into(),
        value: None,
        ..turning()
    };
    assert_eq!(
        words().finding(&finding),
        "Shaft turning where it must stand still on second input shaft."
    );
}

#[test]
fn a_known_message_takes_its_arguments() {
    let finding = Finding {
        message: "actuation-clutch".into(),
        start_s: Some(3.204),
        end_s: Some(3.61),
        ..turning()
    };
    let text = words().finding(&finding);
    assert!(
        text.contains("412.6 A at its peak, over after 0.41 s"),
        "{text}"
    );
}

/// Numbers that would make the plural rules fail pass as text.
#[test]
fn no_number_is_too_strange() {
    for value in [f64::NAN, f64::INFINITY, -1e300, 1e-300, -0.0, 1e15] {
        let finding = Finding {
            value: Some(value),
            message: "attempts".into(),
            ..turning()
        };
        assert!(!words().finding(&finding).is_empty());
        assert!(words().measured(value, Some(value), Some("A")).len() < 400);
    }
}

/// At most three significant digits, and the sign of the language; minus is U+2212.
#[test]
fn numbers_read_as_the_language_writes_them() {
    let words = words();
    for (value, text) in [
        (412.63, "413"),
        (34.812, "34.8"),
        (0.025_14, "0.0251"),
        (0.0, "0"),
        (-2.5, "\u{2212}2.5"),
        (30.0, "30"),
        (20_000.0, "20000"),
    ] {
        assert_eq!(words.number(value), text);
    }
    assert_eq!(number::fixed(-3.25, 1, ','), "\u{2212}3,2");
    assert_eq!(number::fixed(-0.04, 1, '.'), "0.0");
}

/// JCGM 100:2008 (GUM), 7.2.2 example 2: m = 100.021 47 g with a standard uncertainty of 0.35 mg is given to the
/// uncertainty's second digit (from memory).
#[test]
fn an_uncertainty_sets_the_digits() {
    let words = words();
    assert_eq!(
        words.measured(100.021_47, Some(0.000_35), Some("g")),
        "(100.02147 ± 0.00035)\u{a0}g"
    );
    assert_eq!(
        words.measured(412.63, Some(1.14), Some("rpm")),
        "(412.6 ± 1.1)\u{a0}rpm"
    );
    assert_eq!(words.measured(3.0, None, Some("count")), "3");
}

#[test]
fn money_keeps_its_digits() {
    let words = words();
    assert_eq!(
        words.money(Decimal::new(125_000, 2), "USD"),
        "1\u{202f}250.00\u{a0}USD"
    );
    assert_eq!(
        words.money(Decimal::new(-500, 2), "EUR"),
        "\u{2212}5.00\u{a0}EUR"
    );
    assert_eq!(
        words.money(Decimal::new(1_234_567, 0), "JPY"),
        "1\u{202f}234\u{202f}567\u{a0}JPY"
    );
}

#[test]
fn a_language_that_is_not_there_is_named() {
    assert!(matches!(Words::load("qq"), Err(WordsError::Unknown(l)) if l == "qq"));
    assert!(matches!(Words::load("../en"), Err(WordsError::Tag(_))));
}

/// A translation brings its own decimal sign and plural rules.
#[test]
fn a_translation_is_one_more_file() {
    let folder = std::env::temp_dir().join(format!("baybrief-words-{}", std::process::id()));
    std::fs::create_dir_all(folder.join("lang")).unwrap();
    let file = folder.join("lang/de.ftl");
    std::fs::write(
        &file,
        "attempts = { $value ->\n    [one] ein Versuch\n   *[other] { $value } Versuche\n }\n",
    )
    .unwrap();
    let words = Words::load_from(&folder, "de").unwrap();
    let attempts = |n| {
        words.finding(&Finding {
            value: Some(n),
            message: "attempts".into(),
            ..turning()
        })
    };
    assert_eq!(
        (attempts(1.0), attempts(2.5)),
        ("ein Versuch".into(), "2,5 Versuche".into())
    );

    std::fs::write(&file, "a = b\n\n}broken\n").unwrap();
    let error = Words::load_from(&folder, "de").unwrap_err().to_string();
    assert!(error.starts_with("lang/de.ftl: line 3"), "{error}");
    std::fs::remove_dir_all(&folder).unwrap();
}
