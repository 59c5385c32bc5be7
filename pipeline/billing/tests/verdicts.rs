//! Which work becomes a line, and which line may be billed.

mod common;

use baybrief_billing::{Bill, BillingInput, lines};
use common::{bill, clutch_2_drag, input, shop, three_operations, verdict};
use model::labour::{HoursFrom, LineState};
use model::verdict::RepairProof;
use model::{ShopFile, Verdict, VerdictState};

const CATALOGUE: &str = r#"
    [billing]
    currency = "EUR"
    rates = { mechanical = "129.95" }
    [[billing.operation]]
    code = "C"
    step = "reassembly"
    description = "Close"
    hours = 5
    [[billing.operation]]
    code = "T"
    step = "teardown"
    description = "Open"
    hours = 6
    [[billing.operation]]
    code = "K"
    step = "repair"
    description = "Clutch"
    hours = 2
    needs_teardown = true
    causes = ["clutch-1-drag", "clutch-2-drag"]
    [[billing.operation]]
    code = "W"
    step = "repair"
    description = "Wiring"
    hours = 1
    causes = ["supply-weak"]
    [[billing.operation]]
    code = "L"
    step = "relearn"
    description = "Relearn"
    hours = 0.5
    [[billing.operation]]
    code = "D"
    step = "diagnosis"
    description = "Diagnosis"
"#;

/// Codes in order, the billable ones with a star.
fn codes(bill: &Bill) -> String {
    let code = |l: &model::LabourLine| match l.state {
        LineState::Billable => format!("{}*", l.operation),
        LineState::Estimate => l.operation.clone(),
    };
    bill.lines.iter().map(code).collect::<Vec<_>>().join(" ")
}

fn problems(bill: &Bill) -> String {
    bill.problems
        .iter()
        .map(|p| p.message.as_str())
        .collect::<Vec<_>>()
        .join("\n")
}

#[test]
fn an_established_cause_is_offered_in_the_order_of_the_work() {
    assert_eq!(
        codes(&bill(&shop(CATALOGUE), &clutch_2_drag(), &[])),
        "T K C L"
    );
    let weak = verdict(VerdictState::Established, Some("supply-weak"), false);
    assert_eq!(codes(&bill(&shop(CATALOGUE), &weak, &[])), "W L");
}

#[test]
fn nothing_is_offered_on_a_guess() {
    let shop = shop(CATALOGUE);
    for (state, cause) in [
        (VerdictState::Probable, Some("clutch-2-drag")),
        (VerdictState::Open, None),
        (VerdictState::NothingFound, None),
    ] {
        assert_eq!(codes(&bill(&shop, &verdict(state, cause, false), &[])), "");
    }
    // Established, but the verdict carries no teardown: nothing that needs one.
    let closed = verdict(VerdictState::Established, Some("clutch-2-drag"), false);
    assert_eq!(codes(&bill(&shop, &closed, &[])), "L");
}

#[test]
fn authorised_work_stays_on_the_bill_when_the_repair_is_proven() {
    let shop = shop(CATALOGUE);
    let before = bill(&shop, &clutch_2_drag(), &["T", "K", "C"]);
    assert_eq!(codes(&before), "T* K* C* L");
    let mut healthy = verdict(VerdictState::NothingFound, None, false);
    healthy.repair = Some(RepairProof {
        proven: true,
        compared: Vec::new(),
    });
    let after = bill(&shop, &healthy, &["T", "K", "C"]);
    assert_eq!(codes(&after), "T* K* C*");
    assert!(after.problems.is_empty(), "{:?}", after.problems);
    // Nor is more offered where the cause of before still stands in the verdict.
    let cause_kept = Verdict {
        repair: healthy.repair.clone(),
        ..clutch_2_drag()
    };
    assert_eq!(codes(&bill(&shop, &cause_kept, &[])), "");
    // The same ids, so that the billing system does not take the work for new.
    let ids = |b: &Bill| {
        b.lines
            .iter()
            .map(|l| l.line_id.clone())
            .take(3)
            .collect::<Vec<_>>()
    };
    assert_eq!(ids(&before), ids(&after));
}

#[test]
fn an_authorised_teardown_without_a_founded_one_is_billed_and_said() {
    let open = verdict(VerdictState::Open, None, false);
    let bill = bill(&shop(CATALOGUE), &open, &["T"]);
    assert_eq!(codes(&bill), "T*");
    assert!(problems(&bill).contains("verdict carries no teardown"));
}

fn diagnosis(
    shop: &ShopFile,
    hours: Option<f64>,
    span_s: Option<f64>,
    authorised: &[String],
) -> Bill {
    let open = verdict(VerdictState::Open, None, false);
    let input = BillingInput {
        diagnosis_hours: hours,
        recordings_span_s: span_s,
        ..input(&open, authorised)
    };
    lines(&input, shop).unwrap()
}

#[test]
fn stated_diagnosis_hours_are_billed_and_a_recording_s_length_is_only_offered() {
    let shop = shop(CATALOGUE);
    let stated = diagnosis(&shop, Some(2.3), Some(600.0), &[]);
    assert_eq!(
        (codes(&stated).as_str(), stated.lines[0].hours_from),
        ("D*", HoursFrom::JobFile)
    );
    assert_eq!(stated.lines[0].amount.to_string(), "298.89");
    // Authorised or not: nobody stated the time.
    let offered = diagnosis(&shop, None, Some(600.0), &["D".to_string()]);
    assert_eq!(
        (codes(&offered).as_str(), offered.lines[0].hours_from),
        ("D", HoursFrom::Recordings)
    );
    assert_eq!(codes(&diagnosis(&shop, None, None, &[])), "");
}

#[test]
fn a_flat_diagnosis_is_an_estimate_until_authorised() {
    let flat = shop(&format!("{CATALOGUE}\n    hours = 1.5"));
    assert_eq!(codes(&diagnosis(&flat, None, None, &[])), "D");
    assert_eq!(
        codes(&diagnosis(&flat, None, None, &["D".to_string()])),
        "D*"
    );
    let stated = diagnosis(&flat, Some(2.0), None, &[]);
    assert_eq!(stated.lines[0].hours.to_string(), "2.0");
}

#[test]
fn hours_that_cannot_be_meant_are_said_and_not_billed() {
    let shop = shop(CATALOGUE);
    for bad in [f64::NAN, f64::INFINITY, -1.0, 1e9, 1e300] {
        let bill = diagnosis(&shop, Some(bad), Some(600.0), &[]);
        assert_eq!(codes(&bill), "");
        assert!(
            problems(&bill).contains("0 to 1000 hours"),
            "{bad}: {}",
            problems(&bill)
        );
    }
    let bill = diagnosis(&shop, Some(0.01), None, &[]);
    assert!(bill.lines.is_empty() && problems(&bill).contains("rounds to nothing"));
    for bad in [f64::NAN, f64::INFINITY, -1.0, 0.0, 1e300] {
        assert!(diagnosis(&shop, None, Some(bad), &[]).lines.is_empty());
    }
}

#[test]
fn nothing_of_job_toml_is_dropped_without_a_word() {
    let bill = bill(
        &three_operations("EUR", "129.95", ""),
        &clutch_2_drag(),
        &["X9"],
    );
    assert!(problems(&bill).contains("\"X9\" is not billed"));
    assert!(problems(&bill).contains("it has: T, R, C"));
    let undiagnosed = diagnosis(&three_operations("EUR", "129.95", ""), Some(1.0), None, &[]);
    assert!(problems(&undiagnosed).contains("no operation with step = \"diagnosis\""));
}

#[test]
fn without_a_rate_there_is_no_line_and_without_a_catalogue_an_example() {
    let none = diagnosis(&ShopFile::default(), Some(1.0), None, &[]);
    assert!(none.lines.is_empty() && none.totals.is_none());
    assert!(problems(&none).contains("no rate"));
    let unpriced = diagnosis(&ShopFile::default(), None, Some(600.0), &[]);
    assert!(unpriced.lines.is_empty() && unpriced.problems.is_empty());

    let rate_only = shop("[billing]\ncurrency = \"EUR\"\nrates = { mechanical = \"129.95\" }");
    let example = bill(&rate_only, &clutch_2_drag(), &[]);
    assert_eq!(
        codes(&example),
        "EXAMPLE-TEARDOWN EXAMPLE-CLUTCH EXAMPLE-REASSEMBLY EXAMPLE-RELEARN EXAMPLE-PROOF"
    );
    assert!(
        example
            .lines
            .iter()
            .all(|l| l.hours_from == HoursFrom::ExampleCatalogue)
    );
    assert!(problems(&example).contains("invented"));
    // Hours that were worked need no catalogue.
    let diagnosed = diagnosis(&rate_only, Some(1.0), None, &[]);
    assert_eq!(codes(&diagnosed), "EXAMPLE-DIAGNOSIS*");
    assert!(diagnosed.problems.is_empty());
}

#[test]
fn ids_are_stable_and_belong_to_job_operation_and_step() {
    let shop = three_operations("EUR", "129.95", "");
    let verdict = clutch_2_drag();
    let ids = |job: &str| {
        let input = BillingInput {
            job,
            ..input(&verdict, &[])
        };
        let bill = lines(&input, &shop).unwrap();
        bill.lines
            .into_iter()
            .map(|l| l.line_id)
            .collect::<Vec<_>>()
    };
    let first = ids("R-2041");
    assert_eq!(first, ids("R-2041"));
    // One code may stand for opening and closing.
    let mut shared = shop.clone();
    shared.billing.operations[2].code = "T".into();
    let shared = bill(&shared, &verdict, &[]);
    assert_eq!(shared.lines[0].operation, shared.lines[2].operation);
    assert_ne!(shared.lines[0].line_id, shared.lines[2].line_id);
    let mut all = [first, ids("R-2042")].concat();
    assert!(
        all.iter()
            .all(|id| id.len() == 16 && id.bytes().all(|b| b.is_ascii_hexdigit()))
    );
    all.sort();
    all.dedup();
    assert_eq!(all.len(), 6);
}
