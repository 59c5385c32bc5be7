use super::*;
use crate::theme::ReportTheme;
use model::shop_file::Units;
use model::{Finding, Limit, Observation};
use rust_decimal::Decimal;

const CAUTIONS: [(&str, SignalWord); 19] = [
    ("caution-rolling", SignalWord::Warning),
    ("caution-running-engine", SignalWord::Danger),
    ("caution-rotating-parts", SignalWord::Warning),
    ("caution-actuator-movement", SignalWord::Warning),
    ("caution-spring-force", SignalWord::Warning),
    ("caution-lifting", SignalWord::Warning),
    ("caution-jumper-lead", SignalWord::Warning),
    ("caution-high-voltage", SignalWord::Danger),
    ("caution-high-voltage-unknown", SignalWord::Danger),
    ("caution-airbag", SignalWord::Warning),
    ("caution-hot-parts", SignalWord::Caution),
    ("caution-clutch-dust", SignalWord::Warning),
    ("caution-battery", SignalWord::Warning),
    ("caution-scope-ground", SignalWord::Warning),
    ("caution-self-start", SignalWord::Warning),
    ("caution-under-vehicle", SignalWord::Warning),
    ("caution-stored-pressure", SignalWord::Warning),
    ("caution-protection", SignalWord::Caution),
    ("caution-road-test", SignalWord::Warning),
];

/// The built-in sentences with those of the systems, as they lie in the tree.
fn of_language(language: &str) -> Localizer {
    let mut localizer = Localizer::load(language).unwrap();
    for system in ["recording", "dual-dry-clutch"] {
        for tag in [language, "en"] {
            let root = env!("CARGO_MANIFEST_DIR");
            let path = format!("{root}/../../plugins/{system}/lang/{tag}.ftl");
            let text = std::fs::read_to_string(&path).unwrap();
            localizer.add(tag, &path, &text).unwrap();
        }
    }
    localizer
}

fn localizer() -> Localizer {
    of_language("en")
}

fn turning() -> Finding {
    observed(Observation {
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
        ..Observation::default()
    })
}

fn observed(observation: Observation) -> Finding {
    Finding {
        observation,
        ..Finding::default()
    }
}

/// One sentence for several of a kind, with the number in it; a key of its own stands before that.
#[test]
fn a_key_with_a_number_falls_back_on_one_with_n() {
    let mut localizer = Localizer::load("en").unwrap();
    let text = "cause-lamp-n-dark = Lamp { $n } is dark\ncause-lamp-3-dark = The last lamp is dark\n\
                repair-lamp-n-dark-2 = Fit lamp { $n }.\n";
    localizer.add("en", "lamp.ftl", text).unwrap();
    assert_eq!(localizer.cause_title("lamp-12-dark"), "Lamp 12 is dark");
    assert_eq!(
        localizer.cause_title("lamp-3-dark"),
        "The last lamp is dark"
    );
    assert_eq!(localizer.message("repair-lamp-1-dark-2"), "Fit lamp 1.");
    assert!(!localizer.has("repair-lamp-1-dark-3") && !localizer.has("cause-lamp-dark"));
}

#[test]
fn every_caution_has_its_signal_word() {
    let localizer = localizer();
    for (key, level) in CAUTIONS {
        let caution = localizer.caution(key);
        assert!(localizer.has(key), "{key} is missing in en.ftl");
        assert_eq!(caution.level, level, "{key}");
        assert!(!caution.title.is_empty(), "{key} has no title");
        assert!(!caution.source.is_empty(), "{key} has no source");
    }
    assert_eq!(localizer.caution("caution-rolling").word, "WARNING");
}

/// A caution that nobody has worded is still printed, and as a warning.
#[test]
fn an_unknown_caution_warns() {
    let caution = localizer().caution("caution-hot-coolant");
    assert_eq!(caution.level, SignalWord::Warning);
    assert_eq!(caution.text, "Caution hot coolant");
}

#[test]
fn an_unknown_message_reads_as_a_neutral_sentence() {
    let text = localizer().finding(&turning());
    assert_eq!(
        text,
        "Shaft turning where it must stand still on second input shaft: 413\u{a0}rpm, expected at most 30\u{a0}rpm."
    );
    let strange = observed(Observation {
        kind: "belt-squeal".into(),
        ..Observation::default()
    });
    assert_eq!(
        localizer().finding(&strange),
        "Belt squeal on the whole recording."
    );
}

#[test]
fn a_sentence_that_lacks_an_argument_is_not_printed_with_a_hole() {
    let finding = observed(Observation {
        message: "turning-at-rest".into(),
        value: None,
        ..turning().observation
    });
    assert_eq!(
        localizer().finding(&finding),
        "Shaft turning where it must stand still on second input shaft."
    );
}

#[test]
fn a_known_message_takes_its_arguments() {
    let finding = observed(Observation {
        message: "actuation-clutch".into(),
        start_s: Some(3.204),
        end_s: Some(3.61),
        ..turning().observation
    });
    let text = localizer().finding(&finding);
    assert!(
        text.contains("412.6 A at its peak, done after 0.41 s"),
        "{text}"
    );
}

/// Numbers that would make the plural rules fail pass as text.
#[test]
fn no_number_is_too_strange() {
    for value in [f64::NAN, f64::INFINITY, -1e300, 1e-300, -0.0, 1e15] {
        let finding = observed(Observation {
            value: Some(value),
            message: "attempts".into(),
            ..turning().observation
        });
        assert!(!localizer().finding(&finding).is_empty());
        assert!(localizer().measured(value, Some(value), Some("A")).len() < 400);
    }
}

/// At most three significant digits, and the signs of the language; minus is U+2212.
#[test]
fn numbers_read_as_the_language_writes_them() {
    let localizer = localizer();
    for (value, text) in [
        (412.63, "413"),
        (34.812, "34.8"),
        (0.025_14, "0.0251"),
        (0.0, "0"),
        (-2.5, "\u{2212}2.5"),
        (30.0, "30"),
        (20_000.0, "20,000"),
    ] {
        assert_eq!(localizer.number(value), text);
    }
}

/// 143 870 km are 89 396.7 miles of 1.609 344 km (computed with Python 3.11).
#[test]
fn distances_are_in_the_units_of_the_shop() {
    let in_units = |language, units| {
        let localizer = Localizer::of(&Template::default(), language, units).unwrap();
        localizer.distance(143_870.0)
    };
    assert_eq!(in_units("en", Units::Metric), "143,870\u{a0}km");
    assert_eq!(in_units("en", Units::Us), "89,397\u{a0}mi");
    assert_eq!(in_units("de", Units::Metric), "143.870\u{a0}km");
}

#[test]
fn days_are_written_out() {
    let day = chrono::NaiveDate::from_ymd_opt(2026, 3, 2).unwrap();
    for (language, text) in [
        ("en", "2 March 2026"),
        ("de", "2. März 2026"),
        ("es", "2 de marzo de 2026"),
    ] {
        assert_eq!(Localizer::load(language).unwrap().day(day), text);
    }
}

/// JCGM 100:2008 (GUM), 7.2.2 example 2: m = 100.021 47 g with a standard uncertainty of 0.35 mg is given to the
/// uncertainty's second digit (from memory).
#[test]
fn an_uncertainty_sets_the_digits() {
    let localizer = localizer();
    assert_eq!(
        localizer.measured(100.021_47, Some(0.000_35), Some("g")),
        "(100.02147 ± 0.00035)\u{a0}g"
    );
    assert_eq!(
        localizer.measured(412.63, Some(1.14), Some("rpm")),
        "(412.6 ± 1.1)\u{a0}rpm"
    );
    assert_eq!(localizer.measured(3.0, None, Some("count")), "3");
}

#[test]
fn money_keeps_its_digits() {
    let money = |language: &str, amount, currency| {
        Localizer::load(language).unwrap().money(amount, currency)
    };
    for (language, amount, currency, text) in [
        ("en", Decimal::new(125_000, 2), "USD", "1,250.00\u{a0}USD"),
        ("de", Decimal::new(125_000, 2), "EUR", "1.250,00\u{a0}EUR"),
        (
            "es-MX",
            Decimal::new(125_000, 2),
            "MXN",
            "1,250.00\u{a0}MXN",
        ),
        ("en", Decimal::new(-500, 2), "EUR", "\u{2212}5.00\u{a0}EUR"),
        (
            "en",
            Decimal::new(1_234_567, 0),
            "JPY",
            "1,234,567\u{a0}JPY",
        ),
    ] {
        assert_eq!(money(language, amount, currency), text);
    }
}

#[test]
fn a_language_that_is_not_there_is_named() {
    assert!(
        matches!(Localizer::load("qq"), Err(LocalizerError::Unknown { language, .. }) if language == "qq")
    );
    assert!(matches!(
        Localizer::load("../en"),
        Err(LocalizerError::Tag(_))
    ));
}

/// Plural rules: Unicode CLDR, cardinal numbers; "one" is 1 alone in all three languages (from memory).
#[test]
fn plurals_and_decimals_follow_the_language() {
    let attempts = |language: &str, n| {
        of_language(language).finding(&observed(Observation {
            value: Some(n),
            message: "attempts".into(),
            ..turning().observation
        }))
    };
    assert_eq!(attempts("en", 1.0), "One attempt ends in a stall.");
    assert_eq!(attempts("de", 1.0), "Ein Versuch endet in einer Blockade.");
    assert_eq!(attempts("de", 3.0), "3 Versuche enden in einer Blockade.");
    assert_eq!(attempts("es", 1.0), "Un intento acaba en bloqueo.");
    assert_eq!(attempts("es", 3.0), "3 intentos acaban en bloqueo.");
}

/// A shop's folder with only a language file and a template, to be found fault with.
fn shops_words(language: &str, text: &str) -> Result<Localizer, String> {
    let folder = tempfile::tempdir().unwrap();
    std::fs::create_dir(folder.path().join("lang")).unwrap();
    std::fs::write(folder.path().join(format!("lang/{language}.ftl")), text).unwrap();
    let template = Template::of(Some(folder.path().to_owned()), None);
    Localizer::of(&template, language, Units::Metric).map_err(|e| e.to_string())
}

#[test]
fn a_shop_may_word_a_sentence_otherwise() {
    let localizer = shops_words("en", "report-title = Our report\n").unwrap();
    assert_eq!(localizer.message("report-title"), "Our report");
    assert_eq!(localizer.message("report-job"), "Job");
}

#[test]
fn what_is_wrong_with_a_shops_sentences_is_said_with_its_line() {
    for (language, text, wrong) in [
        ("en", "a = b\n\n}broken\n", "lang/en.ftl: line 3"),
        ("en", "a = b\nc = d\na = e\n", "line 3: `a` is given twice"),
        (
            "en",
            "\nreport-titel = x\n",
            "line 2: the report has no sentence `report-titel`",
        ),
        (
            "en",
            "report-page = Page { $seite }\n",
            "line 1: `report-page` asks for $seite",
        ),
        (
            "fr",
            "report-title = Rapport\n",
            "sentences of lang/en.ftl are missing, among them ",
        ),
    ] {
        let error = shops_words(language, text).unwrap_err();
        assert!(error.contains(wrong), "{error}");
    }
}

#[test]
fn a_reason_of_a_built_in_sheet_is_translated_and_another_is_kept() {
    let localizer = Localizer::load("de").unwrap();
    assert_eq!(localizer.translate("judgement"), "Ermessen");
    assert_eq!(
        localizer.translate("our own experience"),
        "our own experience"
    );
}

#[test]
fn a_shop_without_settings_has_stationery() {
    let shop = model::ShopFile::default();
    let theme = ReportTheme::open(&shop, std::path::Path::new("")).unwrap();
    assert_eq!(theme.localizer().language(), "en");
}
