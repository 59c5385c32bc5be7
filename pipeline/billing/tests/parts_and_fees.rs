//! Parts go with their operation, fees with the operations that bring them, further diagnoses with what the verdict
//! asks for.

mod common;

use common::{bill, clutch_2_drag, csv, shop, verdict};
use model::ShopFile;
use model::labour::{LineKind, LineState, WorkStep};
use model::verdict::NextRecording;

const SHOP: &str = r#"
    [billing]
    currency = "EUR"
    rates = { mechanical = "100" }
    [billing.taxes]
    standard = { category = "S", rate = 19 }
    reduced = { category = "S", rate = 7 }
    [[billing.operation]]
    code = "T"
    step = "teardown"
    description = "Open"
    hours = 6
    tax = "standard"
    [[billing.operation.part]]
    number = "K-1"
    description = "Seal kit"
    price = "39.90"
    tax = "standard"
    [[billing.operation]]
    code = "K"
    step = "repair"
    description = "Clutch"
    hours = 2
    tax = "standard"
    causes = ["clutch-2-drag"]
    [[billing.operation.part]]
    number = "K-7"
    description = "Clutch pack"
    pieces = 2
    price = "480.005"
    tax = "reduced"
    [[billing.operation]]
    code = "A"
    step = "diagnosis"
    description = "Clamp each actuator and record again"
    hours = "0.8"
    tax = "standard"
    next = ["next-record-own-actuator-current"]
    [[billing.fee]]
    code = "F"
    description = "Workshop materials"
    price = "12.5"
    operations = ["T", "K"]
    tax = "standard"
"#;

/// Code, kind and amount of each line, the billed ones with a star.
fn describe(shop: &ShopFile, verdict: &model::Verdict, done: &[&str]) -> String {
    let bill = bill(shop, verdict, done);
    let lines = bill.lines.iter().map(|l| {
        let star = if l.state == LineState::Billed {
            "*"
        } else {
            ""
        };
        format!("{}{star} {} {}", l.operation, l.kind, l.net_amount)
    });
    lines.collect::<Vec<_>>().join(", ")
}

#[test]
fn parts_are_offered_done_and_taxed_with_their_operation() {
    let shop = shop(SHOP);
    assert_eq!(
        describe(&shop, &clutch_2_drag(), &[]),
        "T labour 600.00, K-1 part 39.90, K labour 200.00, K-7 part 960.01, F fee 12.50"
    );
    assert_eq!(
        describe(&shop, &clutch_2_drag(), &["K"]),
        "T labour 600.00, K-1 part 39.90, K* labour 200.00, K-7* part 960.01, F* fee 12.50"
    );
    let bill = bill(&shop, &clutch_2_drag(), &["K"]);
    let totals = bill.totals.unwrap();
    // By hand: (200 + 12.50) * 19 % = 40.375, 960.01 * 7 % = 67.2007.
    let taxes: Vec<String> = totals
        .done
        .by_tax
        .iter()
        .map(|t| format!("{} {}", t.base, t.amount))
        .collect();
    assert_eq!(taxes, ["960.01 67.20", "212.50 40.38"]);
    // What opening and closing costs includes the parts that opening destroys, and its fee: 639.90 + 12.50.
    assert_eq!(totals.stages[0].estimate.net.to_string(), "652.40");
    let part = bill.lines.iter().find(|l| l.operation == "K-7").unwrap();
    assert_eq!(
        (part.kind, part.step, part.hours.is_zero()),
        (LineKind::Part, WorkStep::Repair, true)
    );
    assert_eq!(
        (part.quantity().to_string(), part.rate.to_string()),
        ("2".into(), "480.005".into())
    );
}

/// A verdict that asks for a recording.
fn asking() -> model::Verdict {
    let mut open = verdict("open", None, false);
    open.next.push(NextRecording {
        step: "next-record-own-actuator-current".into(),
        text: String::new(),
    });
    open
}

#[test]
fn a_fee_comes_once_and_only_with_its_operations() {
    let only = |codes: &str| shop(&SHOP.replace("operations = [\"T\", \"K\"]", codes));
    let has_fee = |shop: &ShopFile, done: &[&str]| describe(shop, &asking(), done);
    let neither = only("operations = [\"T\", \"K\"]");
    assert_eq!(has_fee(&neither, &[]), "A labour 80.00");
    assert_eq!(
        has_fee(&only("operations = [\"K\"]"), &["A"]),
        "A* labour 80.00"
    );
    assert_eq!(
        has_fee(&only(""), &["A"]),
        "A* labour 80.00, F* fee 12.50",
        "any operation brings it"
    );
}

#[test]
fn a_further_diagnosis_is_offered_for_the_recording_that_the_verdict_asks_for() {
    let shop = shop(SHOP);
    assert_eq!(describe(&shop, &verdict("open", None, false), &[]), "");
    assert_eq!(describe(&shop, &asking(), &[]), "A labour 80.00");
    assert_eq!(describe(&shop, &asking(), &["A"]), "A* labour 80.00");
}

#[test]
fn the_export_may_leave_parts_and_fees_out() {
    let all = shop(SHOP);
    let bill = bill(&all, &clutch_2_drag(), &["T", "K"]);
    let rows = |lines: &str| {
        let map = shop(&format!("[labour_csv]\n{lines}")).labour_csv;
        let text = String::from_utf8(csv(&bill, &map).unwrap()).unwrap();
        let codes = text
            .lines()
            .skip(1)
            .map(|l| l.split(',').nth(2).unwrap().to_string());
        codes.collect::<Vec<_>>().join(" ")
    };
    assert_eq!(
        rows(""),
        "T K-1 K K-7 F",
        "nothing that is billed is left out unasked"
    );
    assert_eq!(rows("lines = [\"labour\"]"), "T K");
    assert_eq!(rows("lines = [\"labour\", \"fee\"]"), "T K F");
}

#[test]
fn every_line_has_an_id_of_its_own() {
    let mut verdict = clutch_2_drag();
    verdict.next = asking().next;
    let bill = bill(&shop(SHOP), &verdict, &["A"]);
    let ids: std::collections::BTreeSet<_> = bill.lines.iter().map(|l| &l.line_id).collect();
    assert_eq!(ids.len(), bill.lines.len());
    assert_eq!(
        bill.lines.iter().map(|l| l.line).collect::<Vec<_>>(),
        [1, 2, 3, 4, 5, 6]
    );
}
