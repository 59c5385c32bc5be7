//! Lines and events in one line of text each, for the terminal.

use model::LabourLine;
use model::labour::{Hold, LabourTotals, LineKind, Totals, WorkAction, WorkEvent};

/// Describes a line: number, operation, description, net amount, state.
pub fn describe_line(line: &LabourLine) -> String {
    let quantity = match line.pieces {
        None => format!("{} h", line.hours),
        Some(pieces) => format!("{pieces} x"),
    };
    let mut text = format!(
        "{}. {} {}: {quantity} at {}, {} {} net; {}",
        line.line,
        line.operation,
        line.description,
        line.rate,
        line.net_amount,
        line.currency,
        line.state.name()
    );
    if let Some(consent) = &line.life.authorised {
        let how = consent.how.name();
        text += &format!(
            "; authorised by {} ({how}, {})",
            consent.by,
            consent.at.format("%Y-%m-%d %H:%M")
        );
        if let Some(limit) = consent.limit {
            text += &format!(
                " up to {} {} {}",
                limit.sum,
                line.currency,
                limit.basis.name()
            );
        }
    }
    if let Some(consent) = &line.life.declined {
        let how = consent.how.name();
        text += &format!(
            "; declined by {} ({how}, {})",
            consent.by,
            consent.at.format("%Y-%m-%d %H:%M")
        );
    }
    match &line.life.hold {
        Some(Hold::BeyondLimit { limit, needed }) => {
            let basis = limit.basis.name();
            text += &format!(
                "; held: {needed} {basis} with it, and {} were authorised",
                limit.sum
            );
        }
        Some(Hold::NotAuthorised) => text += "; held: done without an authorisation",
        Some(Hold::NumberTaken { jobs }) => {
            text += &format!("; held: {} has the same number", jobs.join(", "));
        }
        None => {}
    }
    text
}

/// Describes what the lines of each state come to: net, taxes with their rates, gross.
pub fn describe_sums(totals: &LabourTotals) -> Vec<String> {
    let states = [
        ("offered", &totals.offered),
        ("authorised", &totals.authorised),
        ("done", &totals.done),
        ("held", &totals.held),
    ];
    let described = states.into_iter().filter(|(_, sum)| !sum.net.is_zero());
    let describe = |(state, sum): (&str, &Totals)| {
        let currency = &totals.currency;
        let mut text = format!("{state}: {} {currency} net", sum.net);
        for tax in &sum.by_tax {
            text += &format!(" + {} tax ({} %)", tax.amount, tax.tax.rate.normalize());
        }
        format!("{text} = {} {currency} gross", sum.gross)
    };
    described.map(describe).collect()
}

/// Describes an event: time, step, lines, sum, person, way.
pub fn describe_event(event: &WorkEvent) -> String {
    let work = event.lines.iter().filter(|l| l.kind != LineKind::Part);
    let work: Vec<&str> = work.map(|l| l.operation.as_str()).collect();
    let mut text = format!(
        "{} {} {}",
        event.at.format("%Y-%m-%d %H:%M"),
        event.action.name(),
        work.join(", ")
    );
    let how = match event.action {
        WorkAction::Authorised { how, limit } => {
            let currency = event.lines.first().map_or("", |l| l.currency.as_str());
            text += &format!(" up to {} {currency} {}", limit.sum, limit.basis.name());
            Some(how)
        }
        WorkAction::Declined { how } => Some(how),
        WorkAction::Offered | WorkAction::Done | WorkAction::Reopened => None,
    };
    if let Some(by) = &event.by {
        text += &format!(" by {by}");
    }
    if let Some(how) = how {
        text += &format!(" ({})", how.name());
    }
    if let Some(recorded_by) = &event.recorded_by {
        text += &format!(", recorded by {recorded_by}");
    }
    if let Some(note) = &event.note {
        text += &format!(": {note}");
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use chrono::NaiveDate;
    use model::labour::{ConsentMethod, LineTax, SumBasis, SumLimit, TaxTotal};

    #[test]
    fn sums_say_net_gross_and_rate() {
        let tax = |rate: &str, base: &str, amount: &str| TaxTotal {
            tax: LineTax {
                category: "S".into(),
                rate: rate.parse().unwrap(),
            },
            base: base.parse().unwrap(),
            amount: amount.parse().unwrap(),
        };
        // By hand: 19 % of 100.00 and 7 % of 10.00.
        let done = Totals {
            net: "110.00".parse().unwrap(),
            tax: "19.70".parse().unwrap(),
            gross: "129.70".parse().unwrap(),
            by_tax: vec![tax("7", "10.00", "0.70"), tax("19.0", "100.00", "19.00")],
        };
        let totals = LabourTotals {
            currency: "EUR".into(),
            offered: Totals::default(),
            authorised: Totals::default(),
            done,
            held: Totals::default(),
            stages: Vec::new(),
            diagnosis_rate: None,
        };
        let wanted = "done: 110.00 EUR net + 0.70 tax (7 %) + 19.00 tax (19 %) = 129.70 EUR gross";
        assert_eq!(describe_sums(&totals), [wanted]);
    }

    #[test]
    fn an_event_says_who_what_how_and_up_to_what() {
        let day = NaiveDate::from_ymd_opt(2026, 3, 2);
        let at = day.and_then(|d| d.and_hms_opt(14, 5, 0));
        let line = |code: &str, kind| LabourLine {
            operation: code.into(),
            currency: "EUR".into(),
            kind,
            ..LabourLine::default()
        };
        let event = WorkEvent {
            at: at.unwrap_or_default(),
            by: Some("C. Invented".into()),
            action: WorkAction::Authorised {
                how: ConsentMethod::Telephone,
                limit: SumLimit {
                    sum: "952.00".parse().unwrap(),
                    basis: SumBasis::Gross,
                },
            },
            recorded_by: Some("A. Invented".into()),
            note: Some("called back".into()),
            lines: vec![line("T", LineKind::Labour), line("P", LineKind::Part)],
        };
        assert_eq!(
            describe_event(&event),
            "2026-03-02 14:05 authorised T up to 952.00 EUR gross by C. Invented (telephone), recorded by \
             A. Invented: called back"
        );
    }
}
