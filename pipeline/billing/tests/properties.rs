//! Properties of every bill.

mod common;

use baybrief_billing::Bill;
use common::{Visit, clutch_2_drag};
use model::labour::{LineState, WorkStep};
use model::shop_file::{HoursRounding, MoneyRounding, Operation, Part, Tax};
use model::{Exact, ShopFile};
use proptest::prelude::*;
use rust_decimal::Decimal;

/// Hours in thousandths, tax by number, done or only offered.
type Work = (i64, usize, bool);

const TAXES: [i64; 3] = [0, 7, 19];

fn shop(rate_cents: i64, works: &[Work], halves: MoneyRounding, side: HoursRounding) -> ShopFile {
    let mut shop = ShopFile::default();
    let billing = &mut shop.billing;
    billing.currency = Some("EUR".into());
    billing.money_rounding = halves;
    billing.hours_rounding = side;
    billing
        .rates
        .insert("m".into(), Exact(Decimal::new(rate_cents, 2)));
    for rate in TAXES {
        let tax = Tax {
            category: if rate == 0 { "Z" } else { "S" }.into(),
            rate: Exact(rate.into()),
            reason: None,
        };
        billing.taxes.insert(rate.to_string(), tax);
    }
    billing.operations = works
        .iter()
        .enumerate()
        .map(|(i, (hours, tax, _))| Operation {
            code: format!("OP{i}"),
            description: "work".into(),
            step: WorkStep::Repair,
            hours: Some(Exact(Decimal::new(*hours, 3))),
            flat_fee: None,
            minimum_charge: None,
            rate: None,
            tax: Some(TAXES[*tax].to_string()),
            needs_teardown: false,
            causes: Vec::new(),
            next: Vec::new(),
            parts: Vec::new(),
        })
        .collect();
    shop
}

fn carried_out(works: &[Work]) -> Vec<String> {
    (0..works.len())
        .filter(|i| works[*i].2)
        .map(|i| format!("OP{i}"))
        .collect()
}

fn bill(shop: &ShopFile, done: &[String]) -> Bill {
    let done: Vec<&str> = done.iter().map(String::as_str).collect();
    common::bill(shop, &clutch_2_drag(), &done)
}

/// n / d rounded in integers alone, n and d positive.
fn divide(n: i128, d: i128, halves: MoneyRounding) -> i128 {
    let (quotient, twice_rest) = (n / d, 2 * (n % d));
    let up = match halves {
        MoneyRounding::HalfUp => twice_rest >= d,
        MoneyRounding::HalfEven => twice_rest > d || (twice_rest == d && quotient % 2 == 1),
    };
    quotient + i128::from(up)
}

fn cents(amount: Decimal) -> i128 {
    assert_eq!(
        amount.scale(),
        2,
        "{amount} has the currency's two decimals"
    );
    amount.mantissa()
}

fn halves() -> impl Strategy<Value = MoneyRounding> {
    prop_oneof![Just(MoneyRounding::HalfUp), Just(MoneyRounding::HalfEven)]
}

fn sides() -> impl Strategy<Value = HoursRounding> {
    prop_oneof![Just(HoursRounding::Nearest), Just(HoursRounding::Up)]
}

fn works() -> impl Strategy<Value = Vec<Work>> {
    prop::collection::vec((100..20_000i64, 0..TAXES.len(), any::<bool>()), 1..12)
}

proptest! {
    #[test]
    fn every_amount_is_what_integer_arithmetic_gives(
        rate in 1..100_000i64, works in works(), halves in halves(), side in sides(),
    ) {
        let bill = bill(&shop(rate, &works, halves, side), &carried_out(&works));
        prop_assert_eq!(bill.lines.len(), works.len());
        for (line, (hours, ..)) in bill.lines.iter().zip(&works) {
            let tenths = match side {
                HoursRounding::Nearest => divide(i128::from(*hours), 100, MoneyRounding::HalfUp),
                HoursRounding::Up => (i128::from(*hours) + 99) / 100,
            };
            prop_assert_eq!(line.hours.mantissa(), tenths);
            prop_assert_eq!(cents(line.net_amount), divide(tenths * i128::from(rate), 10, halves));
        }
        let totals = bill.totals.unwrap();
        for totals in [totals.done, totals.offered] {
            for group in &totals.by_tax {
                let expected = divide(cents(group.base) * group.tax.rate.mantissa(), 100, halves);
                prop_assert_eq!(cents(group.amount), expected);
            }
            let bases: i128 = totals.by_tax.iter().map(|t| cents(t.base)).sum();
            prop_assert_eq!(bases, cents(totals.net));
            prop_assert_eq!(cents(totals.net) + cents(totals.tax), cents(totals.gross));
        }
    }

    #[test]
    fn parts_in_any_currency_are_what_integer_arithmetic_gives(
        currency in prop_oneof![Just(("JPY", 0u32)), Just(("EUR", 2)), Just(("KWD", 3))],
        price in 0..10_000_000i64, pieces in 1..10_000i64, halves in halves(),
    ) {
        let (code, digits) = currency;
        let mut shop = shop(100, &[(1_000, 0, true)], halves, HoursRounding::Nearest);
        shop.billing.currency = Some(code.into());
        shop.billing.operations[0].parts = vec![Part {
            number: "P".into(),
            description: "part".into(),
            pieces: Some(Exact(Decimal::new(pieces, 1))),
            price: Exact(Decimal::new(price, 4)),
            tax: Some("19".into()),
        }];
        let bill = bill(&shop, &["OP0".to_string()]);
        let part = &bill.lines[1];
        prop_assert_eq!(part.net_amount.scale(), digits);
        // pieces and price have five decimals between them.
        let exact = i128::from(pieces) * i128::from(price);
        prop_assert_eq!(part.net_amount.mantissa(), divide(exact, 10i128.pow(5 - digits), halves));
        prop_assert_eq!(bill.totals.unwrap().done.net, bill.lines[0].net_amount + part.net_amount);
    }

    #[test]
    fn the_order_of_the_catalogue_changes_no_sum_and_no_id(
        rate in 1..100_000i64, works in works(), halves in halves(), seed in any::<prop::sample::Index>(),
    ) {
        let mut shop = shop(rate, &works, halves, HoursRounding::Nearest);
        let done = carried_out(&works);
        let before = bill(&shop, &done);
        let turn = seed.index(works.len());
        shop.billing.operations.rotate_left(turn);
        shop.billing.operations.reverse();
        let after = bill(&shop, &done);
        prop_assert_eq!(&before.totals, &after.totals);
        let ids = |bill: &Bill| {
            let mut ids: Vec<_> = bill.lines.iter().map(|l| (l.line_id.clone(), l.net_amount)).collect();
            ids.sort();
            ids
        };
        prop_assert_eq!(ids(&before), ids(&after));
    }

    #[test]
    fn a_bill_split_by_authorisation_loses_nothing(
        rate in 1..100_000i64, works in works(), halves in halves(),
    ) {
        let shop = shop(rate, &works, halves, HoursRounding::Nearest);
        let split = bill(&shop, &carried_out(&works)).totals.unwrap();
        let all: Vec<String> = (0..works.len()).map(|i| format!("OP{i}")).collect();
        let whole = bill(&shop, &all).totals.unwrap().done;
        prop_assert_eq!(split.done.net + split.offered.net, whole.net);
        // Each tax is rounded once on either side: one cent a tax at most.
        let apart = (split.done.tax + split.offered.tax - whole.tax).abs();
        prop_assert!(apart <= Decimal::new(whole.by_tax.len() as i64, 2));
    }

    #[test]
    fn any_text_comes_back_from_the_csv(technician in "\\PC*|[=+@\t\r\n\",;-]{0,8}", job in any::<String>()) {
        let works = [(700, 0, true)];
        let shop = shop(12_995, &works, MoneyRounding::HalfUp, HoursRounding::Nearest);
        let mut visit = Visit::new(&shop, &clutch_2_drag());
        visit.number = job.clone();
        visit.carry_out(&["OP0"]);
        for line in visit.events.iter_mut().flat_map(|e| &mut e.lines) {
            line.technician = Some(technician.clone());
        }
        let bill = visit.bill();
        let out = common::csv(&bill, &shop.labour_csv).unwrap();
        let mut reader = csv::Reader::from_reader(out.as_slice());
        let row = reader.records().next().unwrap().unwrap();
        for (cell, text) in [(&row[0], &job), (&row[10], &technician)] {
            prop_assert!(cell == text || cell.strip_prefix('\'') == Some(text.as_str()));
            prop_assert!(!cell.starts_with(['=', '+', '-', '@', '\t', '\r', '\n', '＝', '＋', '－', '＠']));
        }
        prop_assert_eq!(&row[7], "90.97");
        prop_assert_eq!(bill.lines[0].state, LineState::Billed);
    }
}
