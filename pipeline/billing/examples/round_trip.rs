//! Writes the files that `tests/read_back.py` reads back with other programs: a bill with awkward texts by the
//! default map and by each example map, a day's batch, drafts in UBL.
//!
//!     cargo run -p baybrief-billing --example round_trip -- FOLDER

use baybrief_billing::{
    Bill, BillingInput, DraftInput, Export, NamedLines, Statement, append_batch, authorise,
    complete, invoice_draft, labour_csv, make_bill,
};
use chrono::{NaiveDate, NaiveDateTime};
use model::job_file::{ClientSection, CustomerSection};
use model::labour::{ConsentMethod, HandedRow, OrderTexts, WorkEvent};
use model::shop_file::Batch;
use model::{LabourLine, Parties, ShopFile, Verdict};
use std::error::Error;
use std::path::{Path, PathBuf};

/// Texts that a table may break on; the invented shop does odd work.
const SHOP: &str = r#"
    [shop]
    name = "Sample Gearbox Diagnostics (invented)"
    address = "1 Sample Yard, Exampleton"
    phone = "+1 555 0100"
    registration = "EX-0000"
    [invoice_draft]
    seller_country = "DE"
    seller_tax_id = "DE000000000"
    buyer_country = "AT"
    [billing]
    default_tax = "standard"
    [billing.taxes]
    standard = { category = "S", rate = 19 }
    reduced = { category = "S", rate = 7 }
    exempt = { category = "E", rate = 0, reason = "Invented reason" }
    [[billing.operation]]
    code = "T"
    step = "teardown"
    description = 'He said "hi", ok; 1|2'
    hours = 2.3
    [[billing.operation.part]]
    number = "K-1"
    description = "=SUM(A1:A9) seals"
    pieces = 3
    price = "12.345"
    tax = "reduced"
    [[billing.operation]]
    code = "R"
    step = "repair"
    description = "Kupplung prüfen\nund ersetzen"
    hours = "0.7"
    [[billing.operation]]
    code = "C"
    step = "reassembly"
    description = "-5 bolts, @home +1"
    hours = 1.1
    tax = "exempt"
"#;

fn main() -> Result<(), Box<dyn Error>> {
    let out = PathBuf::from(std::env::args().nth(1).ok_or("expected a folder")?);
    std::fs::create_dir_all(&out)?;
    let maps = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/labour-maps");
    for (currency, rate) in [("EUR", "129.95"), ("JPY", "12345"), ("KWD", "38.935")] {
        let billing =
            format!("[billing]\ncurrency = \"{currency}\"\nrates = {{ m = \"{rate}\" }}\n");
        let mut shop: ShopFile = toml::from_str(&SHOP.replacen("[billing]\n", &billing, 1))?;
        let bill = bill(&shop)?;
        let write = |name: &str, bytes: &[u8]| {
            std::fs::write(out.join(format!("{currency}-{name}")), bytes)
        };
        write("default.csv", &csv(&bill, &shop)?)?;
        let draft = draft(&bill, &shop)?;
        write("invoice_draft.xml", &draft.ok_or("nothing is billed")?)?;
        for name in ["semicolons", "minutes", "tabs"] {
            let text = std::fs::read_to_string(maps.join(format!("{name}.toml")))?;
            shop.labour_csv = toml::from_str::<ShopFile>(&text)?.labour_csv;
            write(&format!("{name}.csv"), &csv(&bill, &shop)?)?;
            if shop.labour_csv.batch != Batch::None {
                write("batch.csv", &batch(&bill, &shop)?)?;
            }
        }
    }
    Ok(())
}

/// An invented day.
fn now() -> NaiveDateTime {
    let day = NaiveDate::from_ymd_opt(2026, 3, 2).unwrap_or_default();
    day.and_hms_opt(9, 0, 0).unwrap_or_default()
}

/// The bill of work that was authorised and done.
fn bill(shop: &ShopFile) -> Result<Bill, Box<dyn Error>> {
    let mut events = Vec::new();
    let names = ["T", "R", "C"].map(String::from);
    let statement = Statement {
        by: "=cmd|' /C calc'!A0",
        at: now(),
        recorded_by: None,
        note: None,
    };
    let lines = make(shop, &events)?.lines;
    let named = |lines| NamedLines {
        job: "R-2041",
        lines,
        names: &names,
        shop,
    };
    events.push(authorise(
        named(&lines),
        ConsentMethod::Signed,
        None,
        statement,
    )?);
    let lines: Vec<LabourLine> = make(shop, &events)?.lines;
    events.push(complete(named(&lines), None, statement)?);
    make(shop, &events)
}

fn make(shop: &ShopFile, events: &[WorkEvent]) -> Result<Bill, Box<dyn Error>> {
    let verdict: Verdict = toml::from_str(
        "state = \"established\"\ncause = \"clutch-2-drag\"\nteardown = true\nnext = []",
    )?;
    let input = BillingInput {
        job: "R-2041",
        number: "R-2041",
        opened: Some(now().date()),
        technician: None,
        verdicts: &[&verdict],
        diagnosis_hours: None,
        is_reported: true,
        is_job_file_sound: true,
        events,
        handed: &[],
        number_taken_by: &[],
        now: now(),
    };
    Ok(make_bill(&input, shop)?)
}

fn draft(bill: &Bill, shop: &ShopFile) -> Result<Option<Vec<u8>>, Box<dyn Error>> {
    let customer = CustomerSection {
        name: Some("B. Invented & Sons".into()),
        ..CustomerSection::default()
    };
    Ok(invoice_draft(&DraftInput {
        bill,
        shop,
        parties: &Parties::new(&shop.shop, &ClientSection::default(), &customer),
        note: "DRAFT",
        texts: Some(&texts()),
    })?)
}

fn texts() -> OrderTexts {
    OrderTexts {
        complaint: "Refuses its relearn; \"again\"".into(),
        cause: "Clutch 2 does not release: established by measurement.".into(),
        correction: "+ Opened, replaced, closed.".into(),
    }
}

fn csv(bill: &Bill, shop: &ShopFile) -> Result<Vec<u8>, Box<dyn Error>> {
    let rows: Vec<&HandedRow> = bill.account.iter().collect();
    Ok(labour_csv(&export(&rows, &texts()), shop)?)
}

/// Row after row, as jobs come in; the last one twice, as after a crash.
fn batch(bill: &Bill, shop: &ShopFile) -> Result<Vec<u8>, Box<dyn Error>> {
    let mut file = Vec::new();
    for row in bill.rows.iter().chain(bill.rows.last()) {
        if let Some(grown) = append_batch(Some(&file), &export(&[row], &texts()), shop)? {
            file = grown;
        }
    }
    Ok(file)
}

fn export<'a>(rows: &'a [&'a HandedRow], texts: &'a OrderTexts) -> Export<'a> {
    Export {
        texts: Some(texts),
        rows,
    }
}
