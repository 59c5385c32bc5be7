//! Amounts held against worked examples. Where no other source is named, they were computed with Python
//! 3.11's `decimal` module.

mod common;

use common::{bill, clutch_2_drag, three_operations};
use model::labour::Totals;

const ALL: [&str; 3] = ["T", "R", "C"];

fn amounts(currency: &str, rate: &str, rules: &str) -> (Vec<String>, Totals) {
    let bill = bill(
        &three_operations(currency, rate, rules),
        &clutch_2_drag(),
        &ALL,
    );
    let amounts = bill
        .lines
        .iter()
        .map(|l| l.net_amount.to_string())
        .collect();
    (amounts, bill.totals.unwrap().done)
}

#[test]
fn lines_are_rounded_before_they_are_summed() {
    // EN 16931 BR-CO-10: the net total is the sum of the line totals, which have two decimals each.
    // The rounded sum of the unrounded lines would be 532.80.
    let (lines, totals) = amounts("EUR", "129.95", "");
    assert_eq!(lines, ["298.89", "90.97", "142.95"]);
    assert_eq!(totals.net.to_string(), "532.81");
    // BR-CO-17: 19 % of 532.81 = 101.2339.
    assert_eq!(totals.tax.to_string(), "101.23");
    assert_eq!(totals.gross.to_string(), "634.04");
    assert_eq!(totals.by_tax.len(), 1);
    assert_eq!(totals.by_tax[0].base, totals.net);
}

#[test]
fn half_even_is_another_bill() {
    // 298.885 and 90.965 and 142.945 all lie halfway.
    let (lines, totals) = amounts("EUR", "129.95", "money_rounding = \"half-even\"");
    assert_eq!(lines, ["298.88", "90.96", "142.94"]);
    assert_eq!(totals.net.to_string(), "532.78");
}

#[test]
fn yen_have_no_decimals_and_dinars_have_three() {
    let (lines, totals) = amounts("JPY", "12345", "");
    assert_eq!(lines, ["28394", "8642", "13580"]); // 28393.5, 8641.5, 13579.5
    assert_eq!(
        (totals.net.to_string(), totals.tax.to_string()),
        ("50616".into(), "9617".into())
    );
    let (lines, totals) = amounts("KWD", "38.935", "");
    assert_eq!(lines, ["89.551", "27.255", "42.829"]); // 89.5505, 27.2545, 42.8285
    assert_eq!(
        (totals.net.to_string(), totals.tax.to_string()),
        ("159.635".into(), "30.331".into())
    );
}

#[test]
fn the_rule_for_hours_changes_the_bill_and_so_is_stated() {
    // 14 min = 0.2333 h.
    let hours = |rules: &str| {
        let shop = common::shop(&format!(
            r#"
            [billing]
            currency = "USD"
            {rules}
            rates = {{ m = 100 }}
            [[billing.operation]]
            code = "D"
            step = "diagnosis"
            description = "Diagnosis"
            "#
        ));
        let mut visit = common::Visit::new(&shop, &clutch_2_drag());
        visit.complete(&["D"], Some("0.2333")).unwrap();
        let bill = visit.bill();
        (
            bill.lines[0].hours.to_string(),
            bill.lines[0].net_amount.to_string(),
        )
    };
    assert_eq!(hours(""), ("0.2".into(), "20.00".into()));
    assert_eq!(
        hours("hours_rounding = \"up\""),
        ("0.3".into(), "30.00".into())
    );
    assert_eq!(
        hours("hours_unit = \"minutes\""),
        ("0.233333".into(), "23.33".into())
    );
}

#[test]
fn two_taxes_are_taken_apart() {
    let shop = common::shop(
        r#"
        [billing]
        currency = "EUR"
        rates = { m = "129.95" }
        default_tax = "standard"
        [billing.taxes]
        standard = { category = "S", rate = "19" }
        reduced = { category = "S", rate = "7" }
        exempt = { category = "E", rate = 0 }
        [[billing.operation]]
        code = "T"
        step = "teardown"
        description = "a"
        hours = 2.3
        [[billing.operation]]
        code = "R"
        step = "repair"
        description = "b"
        hours = 0.7
        tax = "reduced"
        [[billing.operation]]
        code = "C"
        step = "reassembly"
        description = "c"
        hours = 1.1
        tax = "exempt"
        "#,
    );
    let totals = bill(&shop, &clutch_2_drag(), &ALL).totals.unwrap().done;
    let by_tax: Vec<_> = totals
        .by_tax
        .iter()
        .map(|t| {
            format!(
                "{} {}: {} -> {}",
                t.tax.category, t.tax.rate, t.base, t.amount
            )
        })
        .collect();
    // 90.97 * 7 % = 6.3679; 298.89 * 19 % = 56.7891.
    assert_eq!(
        by_tax,
        [
            "E 0: 142.95 -> 0.00",
            "S 7: 90.97 -> 6.37",
            "S 19: 298.89 -> 56.79"
        ]
    );
    assert_eq!(totals.gross.to_string(), "595.97");
}
