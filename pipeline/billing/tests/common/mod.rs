//! Shops and verdicts for the tests.
#![allow(dead_code)]

pub mod handed;

use baybrief_billing::{
    Bill, BillingError, BillingInput, Export, account, hand_over, labour_csv, lines,
};
use model::labour::{HandedRow, OrderTexts};
use model::shop_file::LabourCsvSection;
use model::{ShopFile, Verdict, VerdictState};

/// Reads a shop.toml.
pub fn shop(toml: &str) -> ShopFile {
    toml::from_str(toml).unwrap()
}

/// A verdict; a teardown only where asked for.
pub fn verdict(state: VerdictState, cause: Option<&str>, teardown: bool) -> Verdict {
    Verdict {
        state,
        cause: cause.map(str::to_string),
        teardown,
        next: Vec::new(),
        margin_db: None,
        reasons: Vec::new(),
        repair: None,
    }
}

/// The typical case: a dragging clutch, proven, behind a teardown.
pub fn clutch_2_drag() -> Verdict {
    verdict(VerdictState::Established, Some("clutch-2-drag"), true)
}

/// The bill of job R-2041 with these operations authorised.
pub fn bill(shop: &ShopFile, verdict: &Verdict, authorised: &[&str]) -> Bill {
    let authorised: Vec<String> = authorised.iter().map(|s| s.to_string()).collect();
    lines(&input(verdict, &authorised), shop).unwrap()
}

/// Job R-2041 without hours of its own.
pub fn input<'a>(verdict: &'a Verdict, authorised: &'a [String]) -> BillingInput<'a> {
    BillingInput {
        job: "R-2041",
        technician: Some("A. Invented"),
        verdict,
        diagnosis_hours: None,
        recordings_span_s: None,
        authorised,
    }
}

/// The rows of a bill that nothing was handed over of yet.
pub fn rows(bill: &Bill) -> Vec<HandedRow> {
    hand_over(&[], &bill.lines, Default::default())
}

/// labour.csv of a bill that nothing was handed over of yet.
pub fn csv(bill: &Bill, map: &LabourCsvSection) -> Result<Vec<u8>, BillingError> {
    let rows = rows(bill);
    let texts = OrderTexts {
        complaint: "No relearn".into(),
        cause: "Clutch 2".into(),
        correction: "Opened".into(),
    };
    let export = Export {
        job: &bill.job,
        opened: chrono::NaiveDate::from_ymd_opt(2026, 3, 2),
        texts: Some(&texts),
        rows: &account(&rows),
    };
    labour_csv(&export, map)
}

/// Three operations of 2.3 h, 0.7 h and 1.1 h at one rate, taxed at 19 %.
pub fn three_operations(currency: &str, rate: &str, rules: &str) -> ShopFile {
    shop(&format!(
        r#"
        [billing]
        currency = "{currency}"
        {rules}
        rates = {{ mechanical = "{rate}" }}
        taxes = {{ standard = {{ category = "S", rate = 19 }} }}
        [[billing.operation]]
        code = "T"
        step = "teardown"
        description = "Open the gearbox"
        hours = 2.3
        [[billing.operation]]
        code = "R"
        step = "repair"
        description = "Replace the clutch pack"
        hours = "0.7"
        needs_teardown = true
        causes = ["clutch-2-drag"]
        [[billing.operation]]
        code = "C"
        step = "reassembly"
        description = "Close the gearbox"
        hours = 1.1
        "#
    ))
}
