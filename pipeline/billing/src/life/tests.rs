//! Any events in any order: nothing is billed twice, nothing unauthorised, undone or beyond a limit.

use super::*;
use crate::hand_over::{HandOver, account, hand_over};
use chrono::{NaiveDate, NaiveDateTime, TimeDelta};
use model::labour::{ConsentMethod, HandedRow, LineKind, LineTax, SumBasis, WorkStep};
use model::shop_file::{Corrections, MoneyRounding};
use proptest::prelude::*;
use rust_decimal::Decimal;

const MONEY: Money = Money {
    digits: 2,
    rounding: MoneyRounding::HalfUp,
};

/// Identifier, step, cents, tax percent; the last one is a part of the repair.
const LINES: [(&str, WorkStep, i64, i64); 5] = [
    ("first", WorkStep::FirstStep, 8_005, 19),
    ("open", WorkStep::Teardown, 70_000, 19),
    ("mend", WorkStep::Repair, 30_010, 7),
    ("part", WorkStep::Repair, 12_345, 19),
    ("close", WorkStep::Reassembly, 50_000, 19),
];

fn line(index: usize, percent_of_price: i64) -> LabourLine {
    let (id, step, cents, rate) = LINES[index];
    LabourLine {
        line_id: id.into(),
        operation: id.into(),
        step,
        net_amount: Decimal::new(cents * percent_of_price / 100, 2),
        currency: "EUR".into(),
        tax: Some(LineTax {
            category: "S".into(),
            rate: rate.into(),
        }),
        kind: if id == "part" {
            LineKind::Part
        } else {
            LineKind::Labour
        },
        parent_id: (id == "part").then(|| "mend".into()),
        ..LabourLine::default()
    }
}

/// Kind, lines by the bits of a mask, limit in cents, whether the limit is gross, price of done work in percent.
type Raw = (u8, u8, i64, bool, i64);

fn at(index: usize) -> NaiveDateTime {
    NaiveDateTime::default() + TimeDelta::minutes(index as i64)
}

fn events(raw: &[Raw]) -> Vec<WorkEvent> {
    let event = |(index, (kind, mask, cents, is_gross, percent)): (usize, &Raw)| {
        let how = ConsentMethod::Telephone;
        let basis = if *is_gross {
            SumBasis::Gross
        } else {
            SumBasis::Net
        };
        let action = match kind % 5 {
            0 => WorkAction::Offered,
            1 => WorkAction::Authorised {
                how,
                limit: SumLimit {
                    sum: Decimal::new(*cents, 2),
                    basis,
                },
            },
            2 => WorkAction::Declined { how },
            3 => WorkAction::Done,
            _ => WorkAction::Reopened,
        };
        let price = if action == WorkAction::Done {
            *percent
        } else {
            100
        };
        WorkEvent {
            at: at(index),
            by: Some("A. Invented".into()),
            action,
            recorded_by: None,
            note: None,
            lines: (0..LINES.len())
                .filter(|i| mask >> i & 1 == 1)
                .map(|i| line(i, price))
                .collect(),
        }
    };
    raw.iter().enumerate().map(event).collect()
}

fn settled(events: &[WorkEvent], billed_at: BilledAt) -> Vec<Settled> {
    let tracks = track(events);
    let candidates = (0..LINES.len()).map(|i| {
        let line = line(i, 100);
        let terms = tracks.get(line.line_id.as_str()).and_then(Track::terms);
        Candidate {
            line: terms.cloned().unwrap_or(line),
            called: None,
        }
    });
    let rules = Rules {
        billed_at,
        money: MONEY,
    };
    settle(candidates.collect(), &tracks, rules)
}

fn due(settled: &[Settled]) -> Vec<&LabourLine> {
    settled
        .iter()
        .filter(|s| s.is_due)
        .map(|s| &s.line)
        .collect()
}

/// Index of the last event about a line that passes.
fn last(events: &[WorkEvent], id: &str, is: impl Fn(WorkAction) -> bool) -> Option<usize> {
    events
        .iter()
        .rposition(|e| is(e.action) && e.lines.iter().any(|l| l.line_id == id))
}

fn is_authorisation(action: WorkAction) -> bool {
    matches!(action, WorkAction::Authorised { .. })
}

/// Sum in whole cents by integers alone, each tax rounded once, halves up.
fn cents(lines: &[&LabourLine], basis: SumBasis) -> i128 {
    let net = |rate: i64| -> i128 {
        let of_rate = |l: &&&LabourLine| l.tax.as_ref().is_some_and(|t| t.rate == rate.into());
        let amounts = lines
            .iter()
            .filter(of_rate)
            .map(|l| l.net_amount.mantissa());
        amounts.sum()
    };
    let tax = |rate: i64| (net(rate) * i128::from(rate) + 50) / 100;
    match basis {
        SumBasis::Net => net(7) + net(19),
        SumBasis::Gross => net(7) + net(19) + tax(7) + tax(19),
    }
}

fn raw() -> impl Strategy<Value = Vec<Raw>> {
    let one = (0..5u8, 1..32u8, 1..250_000i64, any::<bool>(), 50..200i64);
    prop::collection::vec(one, 0..14)
}

fn rule() -> impl Strategy<Value = BilledAt> {
    prop_oneof![Just(BilledAt::Done), Just(BilledAt::Authorised)]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    #[test]
    fn nothing_is_due_that_is_not_authorised_and_done(raw in raw(), billed_at in rule()) {
        let events = events(&raw);
        for line in due(&settled(&events, billed_at)) {
            let id = line.line_id.as_str();
            let authorised = last(&events, id, is_authorisation);
            prop_assert!(authorised.is_some(), "{} was never authorised", id);
            let declined = last(&events, id, |a| matches!(a, WorkAction::Declined { .. }));
            let done = last(&events, id, |a| matches!(a, WorkAction::Done | WorkAction::Reopened))
                .filter(|i| events[*i].action == WorkAction::Done);
            if billed_at == BilledAt::Done {
                prop_assert!(done.is_some(), "{} was not done", id);
            }
            // A refusal after the authorisation counts unless the work was done when it came, and still is.
            if declined > authorised {
                let standing = last(&events[..declined.unwrap_or(0)], id, |a| {
                    matches!(a, WorkAction::Done | WorkAction::Reopened)
                });
                let was_done = standing.is_some_and(|i| events[i].action == WorkAction::Done);
                let reopened = last(&events, id, |a| a == WorkAction::Reopened);
                prop_assert!(was_done && reopened < declined, "{} was declined", id);
            }
        }
    }

    #[test]
    fn no_authorisation_is_exceeded(raw in raw(), billed_at in rule()) {
        let events = events(&raw);
        let settled = settled(&events, billed_at);
        let due = due(&settled);
        for (index, event) in events.iter().enumerate() {
            let WorkAction::Authorised { limit, .. } = event.action else { continue };
            let under: Vec<&LabourLine> = due.iter().copied()
                .filter(|l| last(&events, &l.line_id, is_authorisation) == Some(index))
                .collect();
            prop_assert!(cents(&under, limit.basis) <= limit.sum.mantissa());
        }
    }

    #[test]
    fn the_billing_system_has_each_due_line_once_after_every_event(
        raw in raw(), billed_at in rule(), is_pair in any::<bool>(),
    ) {
        let events = events(&raw);
        let corrections = if is_pair { Corrections::Pair } else { Corrections::Revision };
        let mut handed: Vec<HandedRow> = Vec::new();
        for count in 0..=events.len() {
            let settled = settled(&events[..count], billed_at);
            let due = due(&settled);
            let out = HandOver { number: "R-1", opened: None, day: NaiveDate::default(), corrections };
            let rows = hand_over(&handed, &due, out);
            handed.extend(rows);
            prop_assert_eq!(hand_over(&handed, &due, out), vec![], "nothing goes out twice");
            let mut billed: BTreeMap<&str, Decimal> = BTreeMap::new();
            for row in account(&handed) {
                *billed.entry(row.line.line_id.as_str()).or_default() += row.line.net_amount;
            }
            billed.retain(|_, sum| !sum.is_zero());
            let expected: BTreeMap<&str, Decimal> =
                due.iter().map(|l| (l.line_id.as_str(), l.net_amount)).collect();
            prop_assert_eq!(billed, expected);
        }
    }

    /// Work that is done and due stays so, whatever else is done afterwards.
    #[test]
    fn what_is_done_later_takes_nothing_from_what_was_done_before(
        raw in raw(), index in 0..LINES.len(), percent in 50..400i64,
    ) {
        let mut events = events(&raw);
        let before: Vec<String> = due(&settled(&events, BilledAt::Done))
            .iter().map(|l| l.line_id.clone()).collect();
        let done = WorkEvent {
            at: at(99), by: None, action: WorkAction::Done, recorded_by: None, note: None, lines: vec![line(index, percent)],
        };
        events.push(done);
        let settled = settled(&events, BilledAt::Done);
        let after: Vec<&str> = due(&settled).iter().map(|l| l.line_id.as_str()).collect();
        for id in before.iter().filter(|id| *id != LINES[index].0) {
            prop_assert!(after.contains(&id.as_str()), "{} was taken off by {}", id, LINES[index].0);
        }
    }

    #[test]
    fn events_about_other_lines_change_nothing(raw in raw(), billed_at in rule()) {
        // Without the limits, which lines share.
        let free: Vec<Raw> = raw.iter().map(|r| (r.0, r.1, 100_000_000, r.3, r.4)).collect();
        let events = events(&free);
        let all = settled(&events, billed_at);
        for (index, (id, ..)) in LINES.iter().enumerate() {
            let own: Vec<WorkEvent> = events.iter()
                .map(|e| WorkEvent {
                    lines: e.lines.iter().filter(|l| l.line_id == *id).cloned().collect(), ..e.clone()
                })
                .collect();
            prop_assert_eq!(&settled(&own, billed_at)[index].line, &all[index].line);
        }
    }
}

fn states(raw: &[Raw]) -> String {
    let word = |s: &Settled| match &s.line.life.hold {
        Some(_) => format!("{}!", s.line.state),
        None => s.line.state.to_string(),
    };
    let all = settled(&events(raw), BilledAt::Done);
    all.iter().map(word).collect::<Vec<_>>().join(" ")
}

#[test]
fn a_life_by_hand() {
    const OPEN_AND_CLOSE: u8 = 0b10010;
    let authorise = |mask, cents| (1, mask, cents, true, 100);
    let decline = |mask| (2, mask, 1, true, 100);
    let done = |mask, percent| (3, mask, 1, true, percent);
    for (raw, expected) in [
        (vec![], "offered offered offered offered offered"),
        // By hand: (700 + 500) * 1.19 = 1428.00.
        (
            vec![authorise(OPEN_AND_CLOSE, 142_800)],
            "offered authorised offered offered authorised",
        ),
        // One cent less: opening is not authorised without closing.
        (
            vec![authorise(OPEN_AND_CLOSE, 142_799)],
            "offered offered! offered offered offered!",
        ),
        // Cut back, and withdrawn.
        (
            vec![authorise(OPEN_AND_CLOSE, 142_800), authorise(2, 80_000)],
            "offered offered! offered offered authorised",
        ),
        (
            vec![authorise(OPEN_AND_CLOSE, 142_800), decline(OPEN_AND_CLOSE)],
            "offered declined offered offered declined",
        ),
        // Done work cannot be declined any more; what is left can.
        (
            vec![authorise(18, 142_800), done(2, 100), decline(18)],
            "offered done offered offered declined",
        ),
        // A refusal that came too late counts once the work turns out not to be done.
        (
            vec![
                authorise(18, 142_800),
                done(2, 100),
                decline(18),
                (4, 2, 1, true, 100),
            ],
            "offered declined offered offered declined",
        ),
        // 700 * 1.1 took more than was said; closing has to be asked for.
        (
            vec![authorise(18, 142_800), done(2, 110)],
            "offered done offered offered offered!",
        ),
        // Closing was done first, so it is the overrun of opening that is held.
        (
            vec![authorise(18, 142_800), done(16, 100), done(2, 110)],
            "offered done! offered offered done",
        ),
        (vec![done(1, 100)], "done! offered offered offered offered"),
        (
            vec![done(1, 100), authorise(1, 10_000)],
            "done offered offered offered offered",
        ),
        // The part goes with the repair: 300.10 * 1.07 + 123.45 * 1.19 = 321.11 + 146.91.
        (
            vec![authorise(12, 46_801)],
            "offered offered offered! offered! offered",
        ),
        (
            vec![authorise(12, 46_802)],
            "offered offered authorised authorised offered",
        ),
    ] {
        assert_eq!(states(&raw), expected, "{raw:?}");
    }
}
