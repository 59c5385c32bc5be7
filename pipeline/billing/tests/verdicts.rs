//! Offers: which work becomes a line.

mod common;

use common::{
    Visit, bill, clutch_2_drag, codes, problems, proven, shop, three_operations, verdict,
};
use model::labour::{HoursFrom, LineState, PriceRule, WorkStep};
use model::shop_file::Operation;
use model::system::LabourStep;
use model::{ShopFile, Verdict};
use std::collections::BTreeMap;

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
    code = "F"
    step = "first-step"
    description = "Check the feed"
    hours = 0.5
    causes = ["supply-weak", "clutch-2-drag"]
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

fn offers(verdict: &model::Verdict) -> String {
    codes(&Visit::new(&shop(CATALOGUE), verdict).bill())
}

#[test]
fn an_established_cause_is_offered_in_the_order_of_the_work() {
    assert_eq!(offers(&clutch_2_drag()), "F T K C L");
    let weak = verdict("established", Some("supply-weak"), false);
    assert_eq!(offers(&weak), "F W L");
}

#[test]
fn on_a_guess_nothing_but_the_first_step_is_offered() {
    let probable = verdict("probable", Some("clutch-2-drag"), false);
    assert_eq!(offers(&probable), "F");
    for (state, cause) in [
        ("probable", Some("clutch-1-drag")),
        ("open", None),
        ("nothing-found", None),
    ] {
        assert_eq!(offers(&verdict(state, cause, false)), "");
    }
    // Established, but the verdict carries no teardown: nothing that needs one.
    let closed = verdict("established", Some("clutch-2-drag"), false);
    assert_eq!(offers(&closed), "F L");
}

#[test]
fn every_examined_system_offers_its_own() {
    let shop = shop(CATALOGUE);
    let weak = verdict("established", Some("supply-weak"), false);
    let visit = Visit::new(&shop, &weak);
    let verdicts = [&verdict("open", None, false), &clutch_2_drag(), &weak];
    let input = baybrief_billing::BillingInput {
        job: "R-2041",
        number: "R-2041",
        opened: None,
        technician: None,
        verdicts: &verdicts,
        diagnosis_hours: None,
        is_reported: true,
        is_job_file_sound: true,
        events: &visit.events,
        handed: &[],
        number_taken_by: &[],
        now: common::at(0),
    };
    let bill = baybrief_billing::make_bill(&input, &shop).unwrap();
    assert_eq!(codes(&bill), "F T K W C L");
}

#[test]
fn agreed_work_stays_when_verdict_and_catalogue_change() {
    let catalogue = shop(CATALOGUE);
    let mut visit = Visit::new(&catalogue, &clutch_2_drag());
    visit.publish();
    visit.carry_out(&["T", "K", "C"]);
    let before = visit.publish();
    assert_eq!(codes(&before), "F T* K* C* L");
    visit.verdict = proven();
    let after = visit.publish();
    assert_eq!(codes(&after), "T* K* C*");
    assert_eq!(after.rows, [], "the billing system has it all");
    // The shop changes its prices and drops an operation.
    visit
        .shop
        .billing
        .rates
        .insert("mechanical".into(), model::Exact("200".parse().unwrap()));
    visit.shop.billing.operations.retain(|op| op.code != "K");
    let later = visit.publish();
    assert_eq!(codes(&later), "T* K* C*");
    assert_eq!(later.rows, []);
    assert_eq!(later.totals.unwrap().done, before.totals.unwrap().done);
}

#[test]
fn a_teardown_that_no_verdict_carries_any_more_is_warned_of() {
    let mut visit = Visit::new(&shop(CATALOGUE), &clutch_2_drag());
    visit.authorise(&["teardown"]).unwrap();
    assert!(!problems(&visit.bill()).contains("do not open"));
    visit.verdict = verdict("open", None, false);
    let bill = visit.bill();
    assert_eq!(codes(&bill), "T+ C+");
    assert!(problems(&bill).contains("\"T\" is authorised, but no verdict carries a teardown"));
}

fn diagnosis(shop: &ShopFile, hours: Option<f64>) -> Visit {
    let mut visit = Visit::new(shop, &verdict("open", None, false));
    visit.hours = hours;
    visit
}

#[test]
fn the_diagnosis_is_done_with_the_report_and_its_hours() {
    let shop = shop(CATALOGUE);
    let mut visit = diagnosis(&shop, Some(2.3));
    let bill = visit.bill();
    assert_eq!(codes(&bill), "D*");
    let line = &bill.lines[0];
    assert_eq!(
        (line.hours_from, line.state),
        (HoursFrom::JobFile, LineState::Billed)
    );
    assert_eq!(line.net_amount.to_string(), "298.89");
    visit.is_reported = false;
    assert_eq!(
        (codes(&visit.bill()).as_str(), visit.bill().rows.len()),
        ("D", 0)
    );
    // What was billed stays billed, though the files of its report are gone.
    visit.is_reported = true;
    visit.publish();
    visit.is_reported = false;
    assert_eq!(
        (codes(&visit.bill()).as_str(), visit.bill().rows.len()),
        ("D*", 0)
    );
    // Hours that are missing are asked for, and nothing is made up.
    let silent = diagnosis(&shop, None).bill();
    assert!(silent.lines.is_empty() && silent.lacks_diagnosis_hours);
    assert!(
        problems(&silent).contains("diagnosis_hours = 1.4"),
        "{}",
        problems(&silent)
    );
    assert!(!bill.lacks_diagnosis_hours);
}

#[test]
fn hours_of_the_catalogue_are_an_estimate_and_a_flat_fee_is_a_price() {
    let estimated = shop(&format!("{CATALOGUE}\n    hours = 1.5"));
    let bill = diagnosis(&estimated, None).bill();
    assert_eq!(
        (codes(&bill).as_str(), bill.lacks_diagnosis_hours),
        ("D", true)
    );
    let mut stated = diagnosis(&estimated, Some(2.0));
    assert_eq!(stated.bill().lines[0].hours.to_string(), "2.0");
    // What was recorded with `complete` counts more than job.toml.
    stated.complete(&["D"], Some("1.2")).unwrap();
    assert_eq!(stated.bill().lines[0].hours.to_string(), "1.2");
    assert!(problems(&stated.bill()).contains("the latter count"));

    let flat = shop(&format!("{CATALOGUE}\n    flat_fee = 180"));
    let bill = diagnosis(&flat, None).bill();
    assert_eq!(
        (codes(&bill).as_str(), bill.lacks_diagnosis_hours),
        ("D*", false)
    );
    let line = &bill.lines[0];
    assert_eq!(
        (line.quantity().to_string(), line.net_amount.to_string()),
        ("1".into(), "180.00".into())
    );
    assert_eq!(line.price_rule, PriceRule::FlatFee);

    let minimum = shop(&format!("{CATALOGUE}\n    minimum_charge = 95"));
    let net = |hours| {
        diagnosis(&minimum, hours).bill().lines[0]
            .net_amount
            .to_string()
    };
    // By hand: 0.5 h * 129.95 = 64.975 is below the charge, 1.0 h is above it.
    assert_eq!(
        (net(Some(0.5)), net(Some(1.0))),
        ("95.00".into(), "129.95".into())
    );
    let asked = diagnosis(&minimum, None).bill();
    assert_eq!(
        (codes(&asked).as_str(), asked.lacks_diagnosis_hours),
        ("D", true)
    );
}

#[test]
fn hours_that_cannot_be_meant_are_said_and_not_billed() {
    let shop = shop(CATALOGUE);
    for bad in [f64::NAN, f64::INFINITY, -1.0, 1e9, 1e300] {
        let bill = diagnosis(&shop, Some(bad)).bill();
        assert_eq!(codes(&bill), "");
        let problems = problems(&bill);
        assert!(problems.contains("0 to 1000 hours"), "{bad}: {problems}");
    }
    for nothing in [0.0, 0.01] {
        let bill = diagnosis(&shop, Some(nothing)).bill();
        assert!(bill.lines.is_empty() && problems(&bill).contains("rounds to nothing"));
    }
}

#[test]
fn a_billed_diagnosis_is_taken_back_by_zero_and_not_by_silence() {
    let mut visit = diagnosis(&shop(CATALOGUE), Some(2.3));
    visit.publish();
    // The line of job.toml is gone, cannot be read, or the shop's rate has changed.
    visit.hours = None;
    assert_eq!(visit.publish().rows, []);
    visit.hours = Some(f64::NAN);
    assert_eq!(visit.publish().rows, []);
    visit.hours = Some(2.3);
    visit
        .shop
        .billing
        .rates
        .insert("mechanical".into(), model::Exact("200".parse().unwrap()));
    assert_eq!(visit.publish().rows, []);
    visit.hours = Some(0.0);
    visit.is_job_file_sound = false;
    assert_eq!(
        visit.publish().rows,
        [],
        "nothing is taken back by a file with errors"
    );
    visit.is_job_file_sound = true;
    let rows = visit.publish().rows;
    assert_eq!(rows.len(), 1);
    assert_eq!(rows[0].line.net_amount.to_string(), "-298.89");
    // Stated again, it has the price of today.
    visit.hours = Some(2.3);
    assert_eq!(
        visit.publish().rows[0].line.net_amount.to_string(),
        "460.00"
    );
}

#[test]
fn nothing_of_job_toml_is_dropped_without_a_word() {
    let undiagnosed = diagnosis(&three_operations("EUR", "129.95", ""), Some(1.0)).bill();
    assert!(problems(&undiagnosed).contains("no operation with step = \"diagnosis\""));
}

#[test]
fn without_a_rate_there_is_no_line_and_without_a_catalogue_an_example() {
    let none = diagnosis(&ShopFile::default(), Some(1.0)).bill();
    assert!(none.lines.is_empty() && none.totals.is_none());
    assert!(problems(&none).contains("no rate"));
    let unpriced = diagnosis(&ShopFile::default(), None).bill();
    assert!(unpriced.lines.is_empty() && unpriced.problems.is_empty());

    let mut rate_only = shop("[billing]\ncurrency = \"EUR\"\nrates = { mechanical = \"129.95\" }");
    rate_only.billing.system_work = system_work();
    let example = Visit::new(&rate_only, &clutch_2_drag()).bill();
    assert_eq!(
        codes(&example),
        "EXAMPLE-TEARDOWN EXAMPLE-CLUTCH EXAMPLE-REASSEMBLY EXAMPLE-RELEARN EXAMPLE-PROOF"
    );
    let is_example = |l: &model::LabourLine| l.hours_from == HoursFrom::ExampleCatalogue;
    assert!(example.lines.iter().all(is_example));
    assert!(problems(&example).contains("invented"));
    // Hours that were worked need no catalogue.
    let diagnosed = diagnosis(&rate_only, Some(1.0)).bill();
    assert_eq!(codes(&diagnosed), "EXAMPLE-DIAGNOSIS*");
    assert!(diagnosed.problems.is_empty());
}

/// Work on two systems as their sheets declare it.
fn system_work() -> BTreeMap<String, Vec<Operation>> {
    #[derive(serde::Deserialize)]
    struct Sheet {
        labour: Vec<LabourStep>,
    }
    let shared = r#"
        [[labour]]
        name = "diagnosis"
        description = "Recording and diagnosis"
        step = "diagnosis"
        [[labour]]
        name = "proof"
        description = "Repeat the recording"
        step = "proof-recording"
        hours = "0.4"
    "#;
    let gearbox = r#"
        [[labour]]
        name = "teardown"
        description = "Open the gearbox"
        step = "teardown"
        hours = "6.0"
        [[labour]]
        name = "clutch"
        description = "Replace the clutch pack"
        step = "repair"
        hours = "2.5"
        needs_teardown = true
        causes = ["clutch-2-drag"]
        [[labour]]
        name = "reassembly"
        description = "Close the gearbox"
        step = "reassembly"
        hours = "5.0"
        [[labour]]
        name = "relearn"
        description = "Relearn"
        step = "relearn"
        hours = "0.5"
    "#;
    let battery = r#"
        [[labour]]
        name = "replace-battery"
        description = "Replace the battery"
        step = "repair"
        hours = "0.5"
        causes = ["battery-weak"]
    "#;
    let operations = |own: &str| -> Vec<Operation> {
        let sheet: Sheet = toml::from_str(&format!("{own}{shared}")).unwrap();
        let described = |step: &LabourStep| step.operation(step.description.clone());
        sheet.labour.iter().map(described).collect()
    };
    BTreeMap::from([
        ("dual-dry-clutch".into(), operations(gearbox)),
        ("start-and-charge".into(), operations(battery)),
    ])
}

const RELEARN: &str = r#"
    [[billing.operation]]
    code = "R"
    step = "relearn"
    description = "Relearn"
    hours = 0.5
"#;

/// A relearn that names no cause is work on a gearbox, and none on a battery.
#[test]
fn a_step_is_offered_where_the_work_on_the_system_has_it() {
    let weak = Verdict {
        system: Some("start-and-charge".into()),
        cause: Some("battery-weak".into()),
        ..verdict("established", None, false)
    };
    let mut own = shop(&format!("{CATALOGUE}{RELEARN}"));
    let relearns = |shop: &ShopFile, v: &Verdict| {
        let bill = Visit::new(shop, v).bill();
        bill.lines.iter().any(|l| l.step == WorkStep::Relearn)
    };
    assert!(relearns(&own, &weak), "of a system that nobody described");
    own.billing.system_work = system_work();
    assert!(!relearns(&own, &weak));
    let drag = Verdict {
        system: Some("dual-dry-clutch".into()),
        ..clutch_2_drag()
    };
    assert!(relearns(&own, &drag));
}

#[test]
fn identifiers_belong_to_job_operation_and_step_and_not_to_the_number() {
    let shop = three_operations("EUR", "129.95", "");
    let ids = |job: &str, number: &str| {
        let mut visit = Visit::new(&shop, &clutch_2_drag());
        (visit.job, visit.number) = (job.into(), number.into());
        let lines = visit.bill().lines.into_iter();
        lines.map(|l| l.line_id).collect::<Vec<_>>()
    };
    let first = ids("R-2041", "R-2041");
    assert_eq!(first, ids("R-2041", "another number"));
    // One code may stand for opening and closing.
    let mut shared = shop.clone();
    shared.billing.operations[2].code = "T".into();
    let shared = bill(&shared, &clutch_2_drag(), &[]);
    assert_eq!(shared.lines[0].operation, shared.lines[2].operation);
    assert_ne!(shared.lines[0].line_id, shared.lines[2].line_id);
    let mut all = [first, ids("R-2042", "R-2041")].concat();
    assert!(
        all.iter()
            .all(|id| id.len() == 16 && id.bytes().all(|b| b.is_ascii_hexdigit()))
    );
    all.sort();
    all.dedup();
    assert_eq!(all.len(), 6);
}
