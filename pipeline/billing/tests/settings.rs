//! Errors in shop.toml are named with their line and key.

mod common;

use baybrief_billing::{check, check_names};
use common::shop;
use model::ShopFile;
use std::path::Path;

const PRICED: &str = "[billing]\ncurrency = \"EUR\"\nrates = { m = 100 }\n";
const TWO_RATES: &str = "[billing]\ncurrency = \"EUR\"\nrates = { m = 100, d = 120 }\n";
/// Four lines; a fifth belongs to it.
const TEARDOWN: &str =
    "[[billing.operation]]\ncode = \"T\"\nstep = \"teardown\"\ndescription = \"Open\"\n";
const DIAGNOSIS: &str =
    "[[billing.operation]]\ncode = \"D\"\nstep = \"diagnosis\"\ndescription = \"d\"\n";

/// Settings, the place that is named, and words of the message.
type Wrong = (String, &'static str, &'static str);

fn refused(settings: &[Wrong]) {
    for (toml, place, words) in settings {
        let error = check(&shop(toml)).expect_err(toml);
        let problem = error.in_file("my-shop.toml", toml);
        assert_eq!(problem.file, "my-shop.toml");
        assert_eq!(
            problem.place.as_deref(),
            Some(*place),
            "{toml}\n{problem:?}"
        );
        assert!(
            problem.message.contains(words),
            "{toml}\n{problem:?}\nexpected {words}"
        );
        assert!(error.to_string().starts_with("shop.toml, "), "{error}");
    }
}

fn wrong(toml: impl Into<String>, place: &'static str, words: &'static str) -> Wrong {
    (toml.into(), place, words)
}

#[test]
fn a_currency_that_is_none_is_refused_even_without_a_price() {
    refused(&[
        wrong(
            "[shop]\nname = \"x\"\n[billing]\ncurrency = \"EURO\"",
            "line 4, key currency",
            "ISO 4217",
        ),
        wrong(
            "[billing]\ncurrency = \"eur\"\nrates = { m = 1 }",
            "line 2, key currency",
            "in capitals",
        ),
        wrong(
            "[billing]\ncurrency = \"XAU\"",
            "line 2, key currency",
            "no minor unit",
        ),
        wrong(
            "[billing]\nrates = { m = 1 }",
            "line 1, key currency",
            "is missing",
        ),
    ]);
}

#[test]
fn rates_and_taxes_are_checked() {
    refused(&[
        wrong(
            format!("[billing]\n{TEARDOWN}hours = 1"),
            "line 1, key rates",
            "\"T\" has no price",
        ),
        wrong(
            "[billing]\ncurrency = \"EUR\"\n[billing.rates]\nm = \"0.1234567\"",
            "line 4, key m",
            "6 decimals",
        ),
        wrong(
            "[billing]\ncurrency = \"EUR\"\nrates = { m = \"-1\" }",
            "line 3, key m",
            "not usable",
        ),
        wrong(
            format!("{PRICED}default_rate = \"x\""),
            "line 4, key default_rate",
            "there are: m",
        ),
        wrong(
            format!("{PRICED}default_tax = \"x\""),
            "line 4, key default_tax",
            "there are none",
        ),
        wrong(
            format!("{PRICED}[billing.taxes.s]\ncategory = \"S\"\nrate = 101"),
            "line 6, key rate",
            "0 to 100",
        ),
        wrong(
            format!("{PRICED}[billing.taxes.s]\ncategory = \"\"\nrate = 1"),
            "line 5, key category",
            "there are: S, Z, E",
        ),
        wrong(
            format!("{PRICED}[billing.taxes.s]\ncategory = \"S\"\nrate = 0"),
            "line 6, key rate",
            "above zero",
        ),
        wrong(
            format!("{PRICED}[billing.taxes.s]\ncategory = \"AE\"\nrate = 19"),
            "line 6, key rate",
            "rate = 0",
        ),
    ]);
}

#[test]
fn the_catalogue_is_checked() {
    let other = DIAGNOSIS.replace("\"D\"", "\"E\"");
    refused(&[
        wrong(
            format!("{PRICED}{TEARDOWN}"),
            "line 4, key hours",
            "\"T\" has no hours",
        ),
        wrong(
            format!("{PRICED}{TEARDOWN}hours = 0"),
            "line 8, key hours",
            "\"T\" has no hours",
        ),
        wrong(
            format!("{PRICED}{TEARDOWN}hours = -1"),
            "line 8, key hours",
            "0 to 1000",
        ),
        wrong(
            format!("{PRICED}{TEARDOWN}hours = 1\nrate = \"x\""),
            "line 9, key rate",
            "there are: m",
        ),
        wrong(
            format!("{PRICED}{TEARDOWN}hours = 1\ntax = \"x\""),
            "line 9, key tax",
            "there are none",
        ),
        wrong(
            format!("{TWO_RATES}{TEARDOWN}hours = 1"),
            "line 4, key rate",
            "there are: d, m",
        ),
        wrong(
            format!("{PRICED}{TEARDOWN}hours = 1\n{TEARDOWN}hours = 2"),
            "line 10, key code",
            "stands twice",
        ),
        wrong(
            format!("{PRICED}{DIAGNOSIS}{other}"),
            "line 10, key step",
            "second diagnosis beside \"D\"",
        ),
        wrong(
            format!("{PRICED}{DIAGNOSIS}causes = [\"supply-weak\"]"),
            "line 6, key step",
            "whatever is found",
        ),
        wrong(
            format!("{PRICED}{DIAGNOSIS}next = [\"next-x\"]"),
            "line 4, key hours",
            "no hours",
        ),
        wrong(
            format!("{PRICED}{TEARDOWN}hours = 1\nnext = [\"next-x\"]"),
            "line 9, key next",
            "only step = \"diagnosis\"",
        ),
        wrong(
            format!("{PRICED}{}hours = 1", TEARDOWN.replace("Open", " ")),
            "line 7, key description",
            "is empty",
        ),
    ]);
}

#[test]
fn parts_and_fees_are_checked() {
    let part = |more: &str| {
        let part = "[[billing.operation.part]]\nnumber = \"P\"\ndescription = \"Seal\"\n";
        format!("{PRICED}{TEARDOWN}hours = 1\n{part}price = 5\n{more}")
    };
    let fee = |more: &str| {
        let fee = "[[billing.fee]]\ncode = \"F\"\ndescription = \"Materials\"\nprice = 5\n";
        format!("{PRICED}{TEARDOWN}hours = 1\n{fee}{more}")
    };
    check(&shop(&part(""))).unwrap();
    check(&shop(&fee("operations = [\"T\"]"))).unwrap();
    refused(&[
        wrong(part("pieces = 0"), "line 13, key pieces", "no pieces"),
        wrong(part("pieces = 10001"), "line 13, key pieces", "0 to 10000"),
        wrong(part("tax = \"x\""), "line 13, key tax", "there are none"),
        wrong(
            part("[[billing.operation.part]]\nnumber = \"P\"\ndescription = \"x\"\nprice = 1"),
            "line 9, key part",
            "\"P\" twice",
        ),
        wrong(
            fee("operations = [\"X\"]"),
            "line 13, key operations",
            "there are: T",
        ),
        wrong(
            fee("[[billing.fee]]\ncode = \"F\"\ndescription = \"x\"\nprice = 1"),
            "line 14, key code",
            "stands twice",
        ),
    ]);
}

#[test]
fn the_column_map_is_checked() {
    let column = |more: &str| format!("[[labour_csv.column]]\nname = \"a\"\n{more}");
    refused(&[
        wrong(
            "[labour_csv]\ndelimiter = \"x\"",
            "line 2, key delimiter",
            "cannot divide",
        ),
        wrong(
            "[labour_csv]\ndelimiter = \"\\n\"",
            "line 2, key delimiter",
            "cannot divide",
        ),
        wrong(
            "[labour_csv]\ndelimiter = \"é\"",
            "line 2, key delimiter",
            "cannot divide",
        ),
        wrong(
            "[labour_csv]\ncolumn = []",
            "line 2, key column",
            "at least one",
        ),
        wrong(
            "[labour_csv]\nlines = []",
            "line 2, key lines",
            "at least one",
        ),
        wrong(
            "[labour_csv]\nbatch = \"day\"",
            "line 2, key batch",
            "row_id",
        ),
        wrong(
            column(""),
            "line 1, key field",
            "either a field or a constant",
        ),
        wrong(
            column("field = \"job\"\nconstant = \"x\""),
            "line 3, key field",
            "not both",
        ),
        wrong(
            column("field = \"job\"\ndecimals = 2"),
            "line 4, key decimals",
            "no number",
        ),
        wrong(
            column("field = \"hours\"\ndecimals = 7"),
            "line 4, key decimals",
            "0 to 6",
        ),
        wrong(
            column("field = \"line_id\"\nmax_length = 8"),
            "line 4, key max_length",
            "no text",
        ),
        wrong(
            column("field = \"cause\"\nmax_length = 0"),
            "line 4, key max_length",
            "1 or more",
        ),
        wrong(
            column("field = \"cause\"\ndate = \"%d\""),
            "line 4, key date",
            "is no date",
        ),
        wrong(
            column("field = \"opened\"\ndate = \"%H\""),
            "line 4, key date",
            "form of a date",
        ),
        wrong(
            column("field = \"opened\"\ndate = \"%!\""),
            "line 4, key date",
            "form of a date",
        ),
        wrong(
            format!(
                "{}\n{PRICED}",
                column("field = \"net_amount\"\ndecimals = 1")
            ),
            "line 4, key decimals",
            "falsified",
        ),
    ]);
}

#[test]
fn a_cause_or_recording_that_no_sheet_knows_is_refused() {
    let text = format!("{PRICED}{TEARDOWN}hours = 1\ncauses = [\"supply-weak\", \"suply-weak\"]");
    let further = format!("{PRICED}{DIAGNOSIS}hours = 1\nnext = [\"next-x\"]");
    for (text, line) in [
        (&text, "line 9, key causes"),
        (&further, "line 9, key next"),
    ] {
        let settings = shop(text);
        check(&settings).unwrap();
        check_names(&settings, &|_| true, &|_| true).unwrap();
        let error = check_names(&settings, &|c| c == "supply-weak", &|_| false).unwrap_err();
        let problem = error.in_file("shop.toml", text);
        assert_eq!(problem.place.as_deref(), Some(line));
        assert!(problem.message.contains("never be offered"), "{problem:?}");
    }
}

#[test]
fn countries_are_those_of_iso_3166() {
    refused(&[
        wrong(
            "[invoice_draft]\nseller_country = \"UK\"",
            "line 2, key seller_country",
            "ISO 3166-1",
        ),
        wrong(
            "[invoice_draft]\nbuyer_country = \"de\"",
            "line 2, key buyer_country",
            "ISO 3166-1",
        ),
    ]);
    check(&shop(
        "[invoice_draft]\nseller_country = \"GB\"\nbuyer_country = \"DE\"",
    ))
    .unwrap();
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
