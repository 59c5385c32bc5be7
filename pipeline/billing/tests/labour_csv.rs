//! labour.csv, read back by the csv crate.

mod common;

use baybrief_billing::{Bill, BillingError, Export, labour_csv};
use common::{Visit, bill, clutch_2_drag, shop, three_operations};
use model::ShopFile;
use model::labour::OrderTexts;
use std::path::Path;

fn csv(bill: &Bill, shop: &ShopFile) -> Vec<u8> {
    common::csv(bill, &shop.labour_csv).unwrap()
}

fn map(name: &str) -> ShopFile {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../examples/labour-maps")
        .join(name);
    shop(&std::fs::read_to_string(path).unwrap())
}

/// Rows as a reader sees them.
fn rows(text: &str, delimiter: u8) -> Vec<Vec<String>> {
    csv::ReaderBuilder::new()
        .has_headers(false)
        .delimiter(delimiter)
        .from_reader(text.as_bytes())
        .records()
        .map(|r| r.unwrap().iter().map(str::to_string).collect())
        .collect()
}

/// The three operations, done, with texts of the caller's.
fn named(technician: &str, description: &str) -> Bill {
    let mut shop = three_operations("EUR", "129.95", "");
    shop.billing.operations[1].description = description.into();
    let mut visit = Visit::new(&shop, &clutch_2_drag());
    visit.carry_out(&["T", "R", "C"]);
    for line in visit.events.iter_mut().flat_map(|e| &mut e.lines) {
        line.technician = Some(technician.into());
    }
    visit.bill()
}

#[test]
fn the_default_is_rfc_4180_with_twelve_columns() {
    let bill = named("A. Invented", "Clutch");
    let text = String::from_utf8(csv(&bill, &ShopFile::default())).unwrap();
    let ids: Vec<_> = bill.lines.iter().map(|l| &l.line_id).collect();
    let expected = format!(
        "job,line,operation,description,quantity,hours,rate,net_amount,tax_rate,currency,technician,line_id\r\n\
         R-2041,1,T,Open the gearbox,2.3,2.3,129.95,298.89,19,EUR,A. Invented,{}\r\n\
         R-2041,2,R,Clutch,0.7,0.7,129.95,90.97,19,EUR,A. Invented,{}\r\n\
         R-2041,3,C,Close the gearbox,1.1,1.1,129.95,142.95,19,EUR,A. Invented,{}\r\n",
        ids[0], ids[1], ids[2]
    );
    assert_eq!(text, expected);
}

#[test]
fn quotes_are_doubled_as_rfc_4180_says() {
    // RFC 4180, 2.6 and 2.7.
    let text =
        String::from_utf8(csv(&named("x", "He said \"hi\", ok"), &ShopFile::default())).unwrap();
    assert!(text.contains(",\"He said \"\"hi\"\", ok\","), "{text}");
}

#[test]
fn offers_stay_out_and_numbers_keep_their_place() {
    let shop = three_operations("EUR", "129.95", "");
    let none = bill(&shop, &clutch_2_drag(), &[]);
    assert_eq!(none.lines.len(), 3);
    let text = String::from_utf8(csv(&none, &shop)).unwrap();
    assert_eq!(text.lines().count(), 1, "the header alone");
    let some = bill(&shop, &clutch_2_drag(), &["C"]);
    let text = String::from_utf8(csv(&some, &shop)).unwrap();
    assert_eq!(rows(&text, b',')[1][1], "3");
}

#[test]
fn formulas_are_neutralised_in_texts_and_numbers_are_left_alone() {
    let bill = named("=HYPERLINK(\"x\")", "-5 seals");
    let text = String::from_utf8(csv(&bill, &ShopFile::default())).unwrap();
    let row = &rows(&text, b',')[2];
    assert_eq!(
        (row[3].as_str(), row[10].as_str()),
        ("'-5 seals", "'=HYPERLINK(\"x\")")
    );
    let mut credit = bill;
    let amount = &mut credit.account[0].line.net_amount;
    *amount = -*amount;
    let text = String::from_utf8(csv(&credit, &ShopFile::default())).unwrap();
    assert_eq!(rows(&text, b',')[1][7], "-298.89");
}

#[test]
fn semicolons_decimal_commas_and_windows_1252() {
    let bytes = csv(&named("x", "Kupplung prüfen; Öl"), &map("semicolons.toml"));
    assert!(
        bytes.windows(2).any(|w| w == b"r\xFC"),
        "u umlaut is FC in Windows-1252"
    );
    let text = encoding_rs::WINDOWS_1252.decode(&bytes).0.into_owned();
    let rows = rows(&text, b';');
    assert_eq!(
        rows[0].join(";"),
        "Auftrag;Datum;Pos;Art;Nummer;Bezeichnung;Stunden;Satz;Netto;Steuer %;Kennung"
    );
    assert_eq!(
        rows[2][..10],
        [
            "R-2041",
            "02.03.2026",
            "2",
            "Lohn",
            "R",
            "Kupplung prüfen; Öl",
            "0,70",
            "129,95",
            "90,97",
            "19"
        ]
    );
}

#[test]
fn a_character_that_the_encoding_lacks_is_an_error_and_not_a_question_mark() {
    let map = map("semicolons.toml").labour_csv;
    let error = common::csv(&named("x", "Łódź"), &map).unwrap_err();
    assert!(matches!(
        error,
        BillingError::Character {
            line: 2,
            character: 'Ł',
            ..
        }
    ));
    assert!(error.to_string().contains("\"Bezeichnung\""), "{error}");
    assert!(error.to_string().contains("U+0141"), "{error}");
}

#[test]
fn minutes_bars_and_no_header() {
    let bill = named("x", "y");
    let text = String::from_utf8(csv(&bill, &map("minutes.toml"))).unwrap();
    let id = &bill.lines[0].line_id;
    let first = format!("{id}|1|R-2041|T|138|MIN|298.89|EUR|{id}-1\n");
    assert!(text.starts_with(&first), "{text}");
    assert!(!text.contains('\r'));
}

#[test]
fn tabs_and_utf_16() {
    let bytes = csv(&named("Ł. Invented", "tab\there"), &map("tabs.toml"));
    assert_eq!(
        bytes[..2],
        [0xFF, 0xFE],
        "byte order mark, little-endian (Unicode 15, 23.8)"
    );
    let text = encoding_rs::UTF_16LE
        .decode_with_bom_removal(&bytes)
        .0
        .into_owned();
    let rows = rows(&text, b'\t');
    assert_eq!(rows[0][1..3], ["Step", "What was done"]);
    assert_eq!(
        rows[2][..11],
        [
            "R-2041",
            "repair",
            "tab\there",
            "Ł. Invented",
            "0.7",
            "HUR",
            "90.97",
            "S",
            "No relearn",
            "Clutch 2",
            "Opened"
        ]
    );
}

#[test]
fn the_same_bill_gives_the_same_bytes() {
    let bytes = || csv(&named("x", "y"), &ShopFile::default());
    assert_eq!(bytes(), bytes());
}

#[test]
fn columns_have_the_forms_that_the_map_gives_them() {
    let map = shop(
        r#"
        [labour_csv]
        decimal_separator = ","
        delimiter = ";"
        column = [
            { name = "day", field = "opened", date = "%d.%m.%Y" },
            { name = "iso", field = "billed" },
            { name = "hours", field = "hours", decimals = 2 },
            { name = "net", field = "net_amount", decimals = 4 },
            { name = "tax", field = "tax_rate", decimals = 0 },
            { name = "what", field = "description", max_length = 6 },
            { name = "quantity", field = "quantity" },
            { name = "unit", field = "unit" },
            { name = "kind", field = "kind" },
            { name = "complaint", field = "complaint", max_length = 8 },
            { name = "cause", field = "cause" },
            { name = "correction", field = "correction" },
            { name = "row", field = "row_id" },
        ]
        "#,
    );
    let bill = named("x", "Überholung");
    let texts = OrderTexts {
        complaint: "=SUM(1) and more".into(),
        cause: "Clutch 2; drags".into(),
        correction: "Opened".into(),
    };
    let export = Export {
        texts: Some(&texts),
        rows: &bill.account.iter().collect::<Vec<_>>(),
    };
    let text = String::from_utf8(labour_csv(&export, &map).unwrap()).unwrap();
    let row = &rows(&text, b';')[2];
    let row_id = format!("{}-1", bill.lines[1].line_id);
    assert_eq!(
        *row,
        [
            "02.03.2026",
            "2026-03-02",
            "0,70",
            "90,9700",
            "19",
            "Überho",
            "0,7",
            "HUR",
            "labour",
            "'=SUM(1) ",
            "Clutch 2; drags",
            "Opened",
            &row_id
        ]
    );
}

#[test]
fn hours_of_minutes_may_be_shortened_and_amounts_never_are() {
    // 50 min at 120.03/h, as rounding.rs has it by hand: 0.833333 h, 100.03.
    let map = shop(
        "[labour_csv]\ncolumn = [{ name = \"h\", field = \"hours\", decimals = 2 }, \
         { name = \"m\", field = \"minutes\" }, { name = \"a\", field = \"net_amount\", decimals = 2 }]",
    )
    .labour_csv;
    let mut shop = three_operations("EUR", "120.03", "hours_unit = \"minutes\"");
    shop.billing.operations[0].hours = Some(model::Exact("0.8333".parse().unwrap()));
    let bill = bill(&shop, &clutch_2_drag(), &["T"]);
    let text = String::from_utf8(common::csv(&bill, &map).unwrap()).unwrap();
    assert_eq!(text, "h,m,a\r\n0.83,50,100.03\r\n");
}
