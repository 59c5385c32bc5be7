//! A line from its offer to the bill, as people record it.

mod common;

use baybrief_billing::WorkError;
use common::{Visit, clutch_2_drag, codes, problems, shop};
use model::ShopFile;
use model::labour::{ConsentMethod, Hold, LineState, SumBasis, WorkAction, WorkStage};
use rust_decimal::Decimal;

/// One rate of 100, so that sums are told by the eye; parts and a fee.
fn catalogue() -> ShopFile {
    shop(
        r#"
        [report.authorisation]
        limit_percent = 10
        [billing]
        currency = "EUR"
        rates = { m = "100" }
        taxes = { standard = { category = "S", rate = 19 } }
        [[billing.operation]]
        code = "D"
        step = "diagnosis"
        description = "Diagnosis"
        [[billing.operation]]
        code = "F"
        step = "first-step"
        description = "Relearn once more"
        hours = 0.5
        [[billing.operation]]
        code = "T"
        step = "teardown"
        description = "Open"
        hours = 6
        [[billing.operation.part]]
        number = "P1"
        description = "Seals"
        pieces = 2
        price = 20
        [[billing.operation]]
        code = "K"
        step = "repair"
        description = "Clutch"
        hours = 2
        [[billing.operation]]
        code = "C"
        step = "reassembly"
        description = "Close"
        hours = 5
        [[billing.fee]]
        code = "M"
        description = "Materials"
        price = 10
        operations = ["T"]
        "#,
    )
}

fn visit() -> Visit {
    Visit::new(&catalogue(), &clutch_2_drag())
}

#[test]
fn from_offer_to_bill() {
    let mut visit = visit();
    visit.hours = Some(1.4);
    let first = visit.publish();
    assert_eq!(codes(&first), "D* F T P1 K C M");
    assert_eq!(first.rows.len(), 1, "the diagnosis alone");
    let offered = first.offer.unwrap();
    assert_eq!(
        (offered.action, offered.lines.len()),
        (WorkAction::Offered, 6)
    );
    assert_eq!(
        visit.publish().offer,
        None,
        "the same offer is recorded once"
    );
    // Stages are authorised apart, with what each comes to.
    let several = visit.authorise(&[]).unwrap_err().to_string();
    assert!(
        several.contains(
            "first-step (59.50 EUR gross), teardown (1368.50 EUR gross), repair (238.00 EUR gross)"
        ),
        "{several}"
    );
    visit.carry_out(&["first-step"]);
    assert_eq!(codes(&visit.publish()), "D* F* T P1 K C M");
    visit.authorise(&["teardown"]).unwrap();
    let authorised = visit.publish();
    assert_eq!(codes(&authorised), "D* F* T+ P1+ K C+ M+");
    let consent = authorised.lines[2].life.authorised.clone().unwrap();
    assert_eq!(
        (consent.by.as_str(), consent.how),
        ("C. Invented", ConsentMethod::Telephone)
    );
    let limit = consent.limit.unwrap();
    // By hand: 1150 net, 218.50 tax, 1368.50 gross; 10 % above that are 1505.35.
    assert_eq!(
        (limit.sum.to_string(), limit.basis),
        ("1505.35".into(), SumBasis::Gross)
    );
    assert_eq!(authorised.rows, [], "authorised is not done");
    // Without names: what is authorised.
    visit.complete(&[], None).unwrap();
    let done = visit.publish();
    assert_eq!(codes(&done), "D* F* T* P1* K C* M*");
    assert_eq!(done.rows.len(), 4);
    assert_eq!(done.lines[2].technician.as_deref(), Some("C. Invented"));
    visit.decline(&[]).unwrap();
    let declined = visit.publish();
    assert_eq!(codes(&declined), "D* F* T* P1* K- C* M*");
    assert_eq!(
        declined.lines[4].life.declined.as_ref().unwrap().how,
        ConsentMethod::Message
    );
    assert_eq!(declined.rows, []);
    // By hand: 140 + 50 + 600 + 40 + 500 + 10 = 1340; 19 % are 254.60.
    let done = declined.totals.unwrap().done;
    assert_eq!(
        (done.net.to_string(), done.gross.to_string()),
        ("1340.00".into(), "1594.60".into())
    );
    let billed: Decimal = declined.account.iter().map(|r| r.line.net_amount).sum();
    assert_eq!(billed, done.net);
}

#[test]
fn the_sum_that_was_said_is_enforced() {
    let mut visit = visit();
    visit.publish();
    visit
        .authorise_up_to(&["T", "C", "K"], "1350", SumBasis::Net)
        .unwrap();
    // By hand: opening, closing, seals and materials 1150, clutch 200: 1350 net.
    assert_eq!(codes(&visit.bill()), "F T+ P1+ K+ C+ M+");
    // Cut back by a cent: the clutch is beyond it.
    visit
        .authorise_up_to(&["T", "C", "K", "M"], "1349.99", SumBasis::Net)
        .unwrap();
    let bill = visit.bill();
    assert_eq!(codes(&bill), "F T+ P1+ K! C+ M+");
    let Some(Hold::BeyondLimit { limit, needed }) = &bill.lines[3].life.hold else {
        panic!("{:?}", bill.lines[3].life);
    };
    assert_eq!(
        (limit.sum.to_string(), needed.to_string()),
        ("1349.99".into(), "1350.00".into())
    );
    let said = problems(&bill);
    assert!(
        said.contains("comes to 1350.00 EUR net") && said.contains("up to 1349.99 EUR net"),
        "{said}"
    );
    // Held work cannot be recorded as done.
    assert!(matches!(
        visit.complete(&["K"], None),
        Err(WorkError::BeyondLimit { .. })
    ));
    // Opening and closing took a little longer than was agreed, within the sum.
    visit.complete(&["T"], Some("6.5")).unwrap();
    visit.complete(&["C"], Some("5.1")).unwrap();
    assert_eq!(codes(&visit.publish()), "F T* P1* K! C* M*");
    // By hand: 650 + 40 + 10 + 800 = 1500, so the closing is held and its row reversed.
    visit.complete(&["C"], Some("8")).unwrap();
    let overrun = visit.publish();
    assert_eq!(codes(&overrun), "F T* P1* K! C*! M*");
    let sum: Decimal = overrun.account.iter().map(|r| r.line.net_amount).sum();
    assert_eq!(sum.to_string(), "700.00");
    // The customer agrees to more, and it is billed.
    visit
        .authorise_up_to(&["C"], "952", SumBasis::Gross)
        .unwrap();
    assert_eq!(codes(&visit.publish()), "F T* P1* K+ C* M*");
    let sum: Decimal = visit.handed.iter().map(|r| r.line.net_amount).sum();
    assert_eq!(sum.to_string(), "1500.00");
}

#[test]
fn opening_is_not_authorised_without_closing() {
    let mut visit = visit();
    // By hand: opening with seals and materials alone would be 650 * 1.19 = 773.50.
    visit
        .authorise_up_to(&["teardown"], "1200", SumBasis::Gross)
        .unwrap();
    assert_eq!(codes(&visit.bill()), "F T! P1! K C! M!");
    assert!(matches!(
        visit.complete(&["T"], None),
        Err(WorkError::BeyondLimit { .. })
    ));
}

#[test]
fn nothing_is_done_without_an_authorisation() {
    let mut visit = visit();
    let refused = visit.complete(&["K"], None).unwrap_err().to_string();
    assert!(
        refused.contains("K is not authorised") && refused.contains("`authorise`"),
        "{refused}"
    );
    visit.authorise(&["K"]).unwrap();
    visit.decline(&["K"]).unwrap();
    assert_eq!(codes(&visit.bill()), "F T P1 K- C M");
    assert!(visit.complete(&["K"], None).is_err(), "withdrawn");
    visit.authorise(&["K"]).unwrap();
    visit.complete(&["K"], None).unwrap();
    assert!(visit.decline(&["K"]).is_err(), "done already");
    visit.publish();
    // A record of completion that was wrong is taken back, and so is the row.
    visit.reopen(&["K"]).unwrap();
    let bill = visit.publish();
    assert_eq!(codes(&bill), "F T P1 K+ C M");
    assert_eq!(bill.rows.len(), 1);
    assert_eq!(bill.rows[0].line.net_amount.to_string(), "-200.00");
}

#[test]
fn a_fee_stays_while_other_authorised_work_brings_it() {
    let mut visit = visit();
    visit.shop.billing.fees[0].operations.push("K".into());
    visit.authorise(&["teardown"]).unwrap();
    visit.publish();
    visit.authorise(&["repair"]).unwrap();
    assert_eq!(codes(&visit.publish()), "F T+ P1+ K+ C+ M+");
    visit.decline(&["repair"]).unwrap();
    assert_eq!(codes(&visit.publish()), "F T+ P1+ K- C+ M+");
    visit.decline(&["teardown"]).unwrap();
    assert_eq!(codes(&visit.publish()), "F T- P1- K- C- M-");
}

#[test]
fn a_fee_is_taken_back_with_the_last_work_that_brings_it() {
    let mut visit = visit();
    visit.shop.billing.fees[0].operations.push("K".into());
    visit.carry_out(&["teardown"]);
    visit.carry_out(&["repair"]);
    assert_eq!(codes(&visit.publish()), "F T* P1* K* C* M*");
    visit.reopen(&["repair"]).unwrap();
    assert_eq!(codes(&visit.publish()), "F T* P1* K+ C* M*");
    visit.reopen(&["teardown"]).unwrap();
    let bill = visit.publish();
    assert_eq!(codes(&bill), "F T+ P1+ K+ C+ M+");
    let sum: Decimal = bill.rows.iter().map(|r| r.line.net_amount).sum();
    assert_eq!(sum.to_string(), "-1150.00", "work, parts and the fee");
}

#[test]
fn the_diagnosis_is_completed_with_its_hours() {
    let mut visit = visit();
    assert!(matches!(
        visit.complete(&["diagnosis"], None),
        Err(WorkError::UnknownLine { .. }) | Err(WorkError::MissingHours { .. })
    ));
    visit.complete(&["D"], Some("1.4")).unwrap();
    let bill = visit.publish();
    assert_eq!(codes(&bill), "D* F T P1 K C M");
    assert_eq!(bill.rows[0].line.net_amount.to_string(), "140.00");
    assert!(!bill.lacks_diagnosis_hours);
}

#[test]
fn a_shop_may_bill_what_is_authorised() {
    let mut visit = visit();
    visit.shop.billing.billed_at = model::shop_file::BilledAt::Authorised;
    visit.authorise(&["repair"]).unwrap();
    let bill = visit.publish();
    assert_eq!(
        (bill.lines[3].state, bill.lines[3].life.done.is_some()),
        (LineState::Billed, false)
    );
    // It takes less: a reversal and a new row; withdrawn work is reversed.
    visit.complete(&["K"], Some("1.5")).unwrap();
    let amounts: Vec<String> = visit
        .publish()
        .rows
        .iter()
        .map(|r| r.line.net_amount.to_string())
        .collect();
    assert_eq!(amounts, ["-200.00", "150.00"]);
    visit.authorise(&["F"]).unwrap();
    visit.publish();
    visit.decline(&["F"]).unwrap();
    assert_eq!(
        visit.publish().rows[0].line.net_amount.to_string(),
        "-50.00"
    );
}

#[test]
fn two_jobs_with_one_number_hand_nothing_over() {
    let mut visit = visit();
    visit.hours = Some(1.0);
    visit.publish();
    visit.number_taken_by = vec!["R-2041 again".into()];
    visit.hours = Some(2.0);
    visit.carry_out(&["F"]);
    let held = visit.publish();
    assert_eq!(held.rows, []);
    assert_eq!(held.account.len(), 1, "what was handed over stays");
    let said = problems(&held);
    assert!(
        said.contains("R-2041 and R-2041 again") && said.contains("[job] number"),
        "{said}"
    );
    assert!(
        matches!(&held.lines[1].life.hold, Some(Hold::NumberTaken { jobs }) if jobs == &["R-2041 again"])
    );
    // With a number of its own, what was handed over under the other one is reversed under that.
    visit.number_taken_by.clear();
    visit.number = "R-2042".into();
    let rows = visit.publish().rows;
    let rows: Vec<_> = rows
        .iter()
        .map(|r| (r.job.as_str(), r.line.net_amount.to_string()))
        .collect();
    assert_eq!(
        rows,
        [
            ("R-2041", "-100.00".to_string()),
            ("R-2042", "200.00".into()),
            ("R-2042", "50.00".into())
        ]
    );
}

#[test]
fn stages_have_their_prices_and_limits() {
    let mut visit = visit();
    visit.shop.report.authorisation.limit_percent = None;
    let stages = |visit: &Visit| {
        let totals = visit.bill().totals.unwrap();
        let text = totals.stages.iter().map(|s| {
            let limit = s
                .limit
                .map_or("-".into(), |l| format!("{} {}", l.sum, l.basis));
            format!("{} {} {}", s.stage, s.estimate.gross, limit)
        });
        text.collect::<Vec<_>>().join(", ")
    };
    assert_eq!(
        stages(&visit),
        "first-step 59.50 59.50 gross, teardown 1368.50 1368.50 gross, repair 238.00 238.00 gross"
    );
    // One rounding rule everywhere: 59.50 * 1.075 = 63.9625, 1368.50 * 1.075 = 1471.1375, 238 * 1.075 = 255.85.
    visit.shop.report.authorisation.limit_percent = Some(model::Exact("7.5".parse().unwrap()));
    assert_eq!(
        stages(&visit),
        "first-step 59.50 63.96 gross, teardown 1368.50 1471.14 gross, repair 238.00 255.85 gross"
    );
    visit.authorise(&["repair"]).unwrap();
    let repair = visit.bill().totals.unwrap().stages.pop().unwrap();
    assert_eq!((repair.stage, repair.limit), (WorkStage::Repair, None));
}

#[test]
fn a_limit_halfway_between_two_cents_is_rounded_by_the_shop_s_rule() {
    // By hand: 10 % above 59.75 are 65.725.
    let limit = |rule: &str| {
        let mut visit = visit();
        visit.shop.billing.money_rounding =
            toml::from_str::<ShopFile>(&format!("[billing]\nmoney_rounding = {rule:?}"))
                .unwrap()
                .billing
                .money_rounding;
        visit.shop.billing.taxes.clear();
        visit.shop.billing.operations[1].hours = Some(model::Exact("0.5".parse().unwrap()));
        visit
            .shop
            .billing
            .rates
            .insert("m".into(), model::Exact("119.50".parse().unwrap()));
        visit.bill().totals.unwrap().stages[0]
            .limit
            .unwrap()
            .sum
            .to_string()
    };
    assert_eq!(
        (limit("half-up"), limit("half-even")),
        ("65.73".into(), "65.72".into())
    );
}

#[test]
fn names_are_codes_numbers_and_stages() {
    let mut visit = visit();
    visit.authorise(&["3"]).unwrap();
    assert_eq!(
        codes(&visit.bill()),
        "F T+ P1+ K C M+",
        "a part means its work"
    );
    for (name, known) in [
        ("X", "F, T, K, C, M, first-step, teardown, repair"),
        ("99", "F, T"),
    ] {
        let error = visit.authorise(&[name]).unwrap_err().to_string();
        assert!(error.contains(name) && error.contains(known), "{error}");
    }
    for (sum, why) in [
        ("0", "more than 0"),
        ("-5", "more than 0"),
        ("10.005", "2 decimals"),
    ] {
        let error = visit
            .authorise_up_to(&["K"], sum, SumBasis::Net)
            .unwrap_err();
        assert!(error.to_string().contains(why), "{error}");
    }
    for (hours, why) in [
        ("0", "more than 0"),
        ("1001", "1000"),
        ("0.01", "rounds to nothing"),
    ] {
        let error = visit.complete(&["T"], Some(hours)).unwrap_err();
        assert!(error.to_string().contains(why), "{error}");
    }
    visit.authorise(&["K"]).unwrap();
    let error = visit.complete(&["T", "K"], Some("3")).unwrap_err();
    assert!(error.to_string().contains("one line"), "{error}");
    visit.carry_out(&["F"]);
    visit.decline(&[]).unwrap();
    assert!(matches!(
        visit.decline(&[]),
        Err(WorkError::NothingToDo { .. })
    ));
}
