//! Writes the files that `tests/read_back.py` reads back with other programs: a bill with awkward texts by the
//! default map and by each example map, a day's batch, drafts in UBL.
//!
//!     cargo run -p baybrief-billing --example round_trip -- FOLDER

use baybrief_billing::{
    Bill, BillingInput, DraftInput, Export, account, append_batch, hand_over, invoice_draft,
    labour_csv, lines,
};
use model::job_file::CustomerSection;
use model::labour::OrderTexts;
use model::shop_file::LabourCsvSection;
use model::{ShopFile, Verdict, VerdictState};
use std::error::Error;
use std::path::{Path, PathBuf};

/// Texts that a table may break on; the invented shop does odd work.
const SHOP: &str = r#"
    [shop]
    name = "Alder Mill Gearbox Diagnostics (invented)"
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
        let shop: ShopFile = toml::from_str(&SHOP.replacen("[billing]\n", &billing, 1))?;
        let bill = bill(&shop)?;
        let write = |name: &str, bytes: &[u8]| {
            std::fs::write(out.join(format!("{currency}-{name}")), bytes)
        };
        write("default.csv", &csv(&bill, &LabourCsvSection::default())?)?;
        for name in ["semicolons", "minutes", "tabs"] {
            let map: ShopFile =
                toml::from_str(&std::fs::read_to_string(maps.join(format!("{name}.toml")))?)?;
            write(&format!("{name}.csv"), &csv(&bill, &map.labour_csv)?)?;
            if map.labour_csv.daily_batch {
                write("batch.csv", &batch(&bill, &map.labour_csv)?)?;
            }
        }
        let customer = CustomerSection {
            name: Some("B. Invented & Sons".into()),
            ..CustomerSection::default()
        };
        let draft = invoice_draft(&DraftInput {
            bill: &bill,
            opened: chrono::NaiveDate::from_ymd_opt(2026, 3, 2),
            shop: &shop,
            customer: &customer,
            note: "DRAFT",
            texts: Some(&texts()),
        })?;
        write("invoice_draft.xml", &draft.ok_or("nothing is billed")?)?;
    }
    Ok(())
}

fn bill(shop: &ShopFile) -> Result<Bill, Box<dyn Error>> {
    let verdict = Verdict {
        state: VerdictState::Established,
        cause: Some("clutch-2-drag".into()),
        teardown: true,
        next: Vec::new(),
        margin_db: None,
        reasons: Vec::new(),
        repair: None,
    };
    let input = BillingInput {
        job: "R-2041",
        technician: Some("=cmd|' /C calc'!A0"),
        verdict: &verdict,
        diagnosis_hours: None,
        recordings_span_s: None,
        authorised: &["T", "R", "C"].map(String::from),
    };
    Ok(lines(&input, shop)?)
}

fn texts() -> OrderTexts {
    OrderTexts {
        complaint: "Refuses its relearn; \"again\"".into(),
        cause: "Clutch 2 does not release: established by measurement.".into(),
        correction: "+ Opened, replaced, closed.".into(),
    }
}

fn csv(bill: &Bill, map: &LabourCsvSection) -> Result<Vec<u8>, Box<dyn Error>> {
    let rows = hand_over(&[], &bill.lines, map.corrections);
    Ok(labour_csv(&export(bill, &account(&rows), &texts()), map)?)
}

/// Row after row, as jobs come in; the last one twice, as after a crash.
fn batch(bill: &Bill, map: &LabourCsvSection) -> Result<Vec<u8>, Box<dyn Error>> {
    let rows = hand_over(&[], &bill.lines, map.corrections);
    let mut file = Vec::new();
    for row in rows.iter().chain(rows.last()) {
        if let Some(grown) = append_batch(Some(&file), &export(bill, &[row], &texts()), map)? {
            file = grown;
        }
    }
    Ok(file)
}

fn export<'a>(
    bill: &'a Bill,
    rows: &'a [&'a model::labour::HandedRow],
    texts: &'a OrderTexts,
) -> Export<'a> {
    Export {
        job: &bill.job,
        opened: chrono::NaiveDate::from_ymd_opt(2026, 3, 2),
        texts: Some(texts),
        rows,
    }
}
