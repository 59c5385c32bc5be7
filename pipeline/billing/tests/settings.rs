//! What is wrong in shop.toml is named with its place.

mod common;

use baybrief_billing::check;
use common::shop;
use model::ShopFile;
use std::path::Path;

const OPERATION: &str =
    "[[billing.operation]]\ncode = \"T\"\nstep = \"teardown\"\ndescription = \"Open\"\n";

fn said(toml: &str) -> String {
    check(&shop(toml)).expect_err(toml).to_string()
}

#[test]
fn settings_that_no_price_can_be_made_with_are_refused() {
    let head = "[billing]\ncurrency = \"EUR\"\nrates = { m = 100 }\n";
    let two_rates = "[billing]\ncurrency = \"EUR\"\nrates = { m = 100, d = 120 }\n";
    let diagnosis =
        "[[billing.operation]]\ncode = \"D\"\nstep = \"diagnosis\"\ndescription = \"d\"\n";
    for (toml, place, words) in [
        (
            format!("[billing]\n{OPERATION}hours = 1"),
            "billing.rates",
            "\"T\" has no price",
        ),
        (
            "[billing]\nrates = { m = 1 }".into(),
            "billing.currency",
            "is missing",
        ),
        (
            "[billing]\ncurrency = \"EURO\"\nrates = { m = 1 }".into(),
            "billing.currency",
            "ISO 4217",
        ),
        (
            format!("{head}{OPERATION}"),
            "billing.operation \"T\"",
            "has no hours",
        ),
        (
            format!("{head}{OPERATION}hours = 0"),
            "billing.operation \"T\"",
            "has no hours",
        ),
        (format!("{head}{OPERATION}hours = -1"), "hours", "0 to 1000"),
        (
            format!("{head}{OPERATION}hours = 1\nrate = \"x\""),
            "\"T\"",
            "there are: m",
        ),
        (
            format!("{head}{OPERATION}hours = 1\ntax = \"x\""),
            "\"T\"",
            "the tax \"x\"",
        ),
        (
            format!("{two_rates}{OPERATION}hours = 1"),
            "\"T\"",
            "names no rate",
        ),
        (
            format!("{head}{OPERATION}hours = 1\n{OPERATION}hours = 2"),
            "\"T\"",
            "stands twice",
        ),
        (
            format!("{head}{diagnosis}{}", diagnosis.replace("\"D\"", "\"E\"")),
            "\"E\"",
            "second diagnosis",
        ),
        (
            format!("{head}{diagnosis}causes = [\"supply-weak\"]"),
            "\"D\"",
            "whatever is found",
        ),
        (
            format!("{head}{}hours = 1", OPERATION.replace("Open", " ")),
            "number 1",
            "empty",
        ),
        (
            "[billing]\ncurrency = \"EUR\"\nrates = { m = \"0.1234567\" }".into(),
            "billing.rates.m",
            "6 decimals",
        ),
        (
            "[billing]\ncurrency = \"EUR\"\nrates = { m = \"-1\" }".into(),
            "billing.rates.m",
            "not usable",
        ),
        (
            format!("{head}taxes = {{ s = {{ category = \"S\", rate = 101 }} }}"),
            "billing.taxes.s.rate",
            "0 to 100",
        ),
        (
            format!("{head}taxes = {{ s = {{ category = \"\", rate = 1 }} }}"),
            "billing.taxes.s.category",
            "empty",
        ),
        (
            "[labour_csv]\ndelimiter = \"x\"".into(),
            "labour_csv.delimiter",
            "cannot divide",
        ),
        (
            "[labour_csv]\ndelimiter = \"\\n\"".into(),
            "labour_csv.delimiter",
            "cannot divide",
        ),
        (
            "[labour_csv]\ndelimiter = \"é\"".into(),
            "labour_csv.delimiter",
            "cannot divide",
        ),
        (
            "[labour_csv]\ncolumn = []".into(),
            "labour_csv.column",
            "at least one",
        ),
        (
            "[[labour_csv.column]]\nname = \"a\"".into(),
            "\"a\"",
            "either a field or a constant",
        ),
        (
            "[[labour_csv.column]]\nname = \"a\"\nfield = \"job\"\nconstant = \"x\"".into(),
            "\"a\"",
            "not both",
        ),
    ] {
        let said = said(&toml);
        assert!(said.starts_with("shop.toml, "), "{said}");
        assert!(
            said.contains(place) && said.contains(words),
            "{said}\nexpected {place}: {words}"
        );
    }
}

#[test]
fn typing_errors_are_found_by_the_reader() {
    for toml in [
        "[billing]\ncurency = \"EUR\"",
        "[billing]\nhours_rounding = \"down\"",
        "[labour_csv]\ndelimiter = \",,\"",
        "[labour_csv]\nencoding = \"latin\"",
        "[[labour_csv.column]]\nname = \"a\"\nfield = \"price\"",
    ] {
        assert!(toml::from_str::<ShopFile>(toml).is_err(), "{toml}");
    }
}

#[test]
fn an_empty_shop_file_and_the_examples_can_be_used() {
    check(&ShopFile::default()).unwrap();
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    let read = |path: &Path| shop(&std::fs::read_to_string(path).unwrap());
    let example = read(&examples.join("shop.toml"));
    check(&example).unwrap();
    assert_eq!(
        example.labour_csv,
        ShopFile::default().labour_csv,
        "the example spells out the defaults"
    );
    let maps = std::fs::read_dir(examples.join("labour-maps")).unwrap();
    let maps: Vec<_> = maps.map(|entry| read(&entry.unwrap().path())).collect();
    assert_eq!(maps.len(), 3);
    for map in maps {
        check(&map).unwrap();
        assert_ne!(map.labour_csv, ShopFile::default().labour_csv);
    }
}
