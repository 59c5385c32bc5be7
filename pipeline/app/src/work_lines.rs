//! Lines of work and their events, a line of text each, for the terminal and the page.

use crate::words::{fluent_args, phrase};
use billing::WorkError;
use chrono::NaiveDateTime;
use fluent_bundle::FluentArgs;
use model::LabourLine;
use model::labour::{
    Consent, Hold, LabourTotals, LineKind, LineState, SumBasis, Totals, WorkAction, WorkEvent,
};
use report::localizer::Localizer;
use rust_decimal::Decimal;

/// Describes a line: number, operation, description, net amount, state, and what holds it.
pub fn describe_line(line: &LabourLine, localizer: &Localizer) -> String {
    let quantity = match line.pieces {
        None => phrase!(localizer, "console-line-hours", "hours" => localizer.exact(line.hours)),
        Some(pieces) => {
            phrase!(localizer, "console-line-pieces", "pieces" => localizer.exact(pieces))
        }
    };
    let currency = line.currency.as_str();
    let text = phrase!(localizer, "console-line",
        "number" => line.line,
        "operation" => line.operation.as_str(),
        "description" => line.description.as_str(),
        "quantity" => quantity,
        "rate" => localizer.exact(line.rate),
        "amount" => sum(line.net_amount, currency, SumBasis::Net, localizer),
    );
    let life = &line.life;
    let authorised = life.authorised.as_ref().map(|consent| {
        let mut arguments = word_of(consent, localizer);
        let Some(limit) = consent.limit else {
            return localizer.message_with("console-line-authorised", &arguments);
        };
        arguments.set("sum", sum(limit.sum, currency, limit.basis, localizer));
        localizer.message_with("console-line-authorised-up-to", &arguments)
    });
    let declined = life.declined.as_ref();
    let declined = declined.map(|consent| {
        localizer.message_with("console-line-declined", &word_of(consent, localizer))
    });
    let held = life.hold.as_ref().map(|h| hold(h, currency, localizer));
    // Whose word it is says the state as well.
    let is_said = match line.state {
        LineState::Authorised => authorised.is_some(),
        LineState::Declined => declined.is_some(),
        LineState::Offered | LineState::Done | LineState::Billed => false,
    };
    let state = localizer.message(&format!("line-{}", line.state));
    let state = (!is_said).then_some(state);
    let parts = [Some(text), state, authorised, declined, held];
    parts.into_iter().flatten().collect::<Vec<_>>().join("; ")
}

fn hold(hold: &Hold, currency: &str, localizer: &Localizer) -> String {
    match hold {
        Hold::BeyondLimit { limit, needed } => {
            phrase!(localizer, "console-line-beyond-limit",
                "needed" => sum(*needed, currency, limit.basis, localizer),
                "limit" => sum(limit.sum, currency, limit.basis, localizer),
            )
        }
        Hold::NotAuthorised => localizer.message("console-line-not-authorised"),
        Hold::NumberTaken { jobs } => {
            phrase!(localizer, "console-line-number-taken", "jobs" => jobs.join(", "))
        }
    }
}

/// Describes what the lines of each state come to: net, taxes with their rates, gross.
pub fn describe_sums(totals: &LabourTotals, localizer: &Localizer) -> Vec<String> {
    let states = [
        ("line-offered", &totals.offered),
        ("line-authorised", &totals.authorised),
        ("line-done", &totals.done),
        ("line-held", &totals.held),
    ];
    let described = states.into_iter().filter(|(_, sum)| !sum.net.is_zero());
    let currency = totals.currency.as_str();
    let describe = |(state, all): (&str, &Totals)| {
        let mut parts = vec![sum(all.net, currency, SumBasis::Net, localizer)];
        parts.extend(all.by_tax.iter().map(|tax| {
            phrase!(localizer, "console-sum-tax",
                "sum" => money(tax.amount, currency, localizer),
                "rate" => localizer.exact(tax.tax.rate.normalize()),
            )
        }));
        let gross = sum(all.gross, currency, SumBasis::Gross, localizer);
        let state = localizer.message(state);
        format!("{state}: {} = {gross}", parts.join(" + "))
    };
    described.map(describe).collect()
}

/// Describes an event: time, step, lines, sum, person, way.
pub fn describe_event(event: &WorkEvent, localizer: &Localizer) -> String {
    let work = event.lines.iter().filter(|l| l.kind != LineKind::Part);
    let work: Vec<&str> = work.map(|l| l.operation.as_str()).collect();
    let by = event.by.as_deref();
    let mut arguments = fluent_args![
        "at" => minute(event.at),
        "lines" => work.join(", "),
        "by" => by.unwrap_or_default(),
    ];
    let key = match event.action {
        WorkAction::Authorised { how, limit } => {
            let currency = event.lines.first().map_or("", |l| l.currency.as_str());
            arguments.set("sum", sum(limit.sum, currency, limit.basis, localizer));
            arguments.set("how", localizer.message(&format!("consent-{how}")));
            "console-event-authorised"
        }
        WorkAction::Declined { how } => {
            arguments.set("how", localizer.message(&format!("consent-{how}")));
            "console-event-declined"
        }
        WorkAction::Offered if work.is_empty() => "console-event-offered-nothing",
        WorkAction::Offered if by.is_none() => "console-event-offered",
        WorkAction::Offered => "console-event-offered-by",
        WorkAction::Done => "console-event-done",
        WorkAction::Reopened => "console-event-reopened",
    };
    let text = localizer.message_with(key, &arguments);
    match &event.note {
        Some(note) => format!("{text}: {note}"),
        None => text,
    }
}

/// Describes why an event of lines is not recorded.
pub fn describe_refusal(refusal: &WorkError, localizer: &Localizer) -> String {
    match refusal {
        WorkError::UnknownLine { name, known } => {
            let (name, known) = (name.as_str(), known.as_str());
            phrase!(localizer, "console-refused-unknown-line", "name" => name, "known" => known)
        }
        WorkError::SeveralStages(stages) => {
            phrase!(localizer, "console-refused-stages", "stages" => localizer.translate(stages))
        }
        WorkError::MissingHours { operation } => {
            phrase!(localizer, "console-refused-hours", "operation" => operation.as_str())
        }
        WorkError::NotAuthorised(operation) => {
            phrase!(localizer, "console-refused-not-authorised", "operation" => operation.as_str())
        }
        WorkError::BeyondLimit {
            operation,
            needed,
            limit,
            limit_basis,
            currency,
        } => {
            let on_basis = |value| sum(value, currency, *limit_basis, localizer);
            phrase!(localizer, "console-refused-beyond-limit",
                "operation" => operation.as_str(),
                "needed" => on_basis(*needed),
                "limit" => on_basis(*limit),
            )
        }
        other => localizer.translate(&other.to_string()),
    }
}

fn word_of<'c>(consent: &'c Consent, localizer: &Localizer) -> FluentArgs<'c> {
    let how = format!("consent-{}", consent.how);
    fluent_args![
        "by" => consent.by.as_str(),
        "how" => localizer.message(&how),
        "at" => minute(consent.at),
    ]
}

/// A time to the minute, after ISO 8601 but for the space.
pub fn minute(at: NaiveDateTime) -> String {
    at.format("%Y-%m-%d %H:%M").to_string()
}

/// A sum with its currency, net or gross.
pub fn sum(sum: Decimal, currency: &str, basis: SumBasis, localizer: &Localizer) -> String {
    let key = match basis {
        SumBasis::Net => "console-sum-net",
        SumBasis::Gross => "console-sum-gross",
    };
    phrase!(localizer, key, "sum" => money(sum, currency, localizer))
}

/// Money as the report writes it, but with a plain space, by which a terminal's text can be searched.
fn money(sum: Decimal, currency: &str, localizer: &Localizer) -> String {
    localizer.money(sum, currency).replace('\u{a0}', " ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words;
    use chrono::NaiveDate;
    use model::ShopFile;
    use model::labour::{ConsentMethod, LineTax, SumLimit, TaxTotal};

    fn in_language(language: &str) -> report::ReportTheme {
        let mut shop = ShopFile::default();
        shop.report.language = language.into();
        words::of_shop(&shop).expect("a language that is built in")
    }

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
        // By hand: 19 % of 1100.00 and 7 % of 10.00.
        let done = Totals {
            net: "1110.00".parse().unwrap(),
            tax: "209.70".parse().unwrap(),
            gross: "1319.70".parse().unwrap(),
            by_tax: vec![tax("7", "10.00", "0.70"), tax("19.0", "1100.00", "209.00")],
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
        for (language, wanted) in [
            (
                "en",
                "done: 1,110.00 EUR net + 0.70 EUR tax (7 %) + 209.00 EUR tax (19 %) = 1,319.70 EUR gross",
            ),
            (
                "de",
                "erledigt: 1.110,00 EUR netto + 0,70 EUR Steuer (7 %) + 209,00 EUR Steuer (19 %) = 1.319,70 EUR brutto",
            ),
            (
                "es",
                "hecho: 1.110,00 EUR netos + 0,70 EUR de impuesto (7 %) + 209,00 EUR de impuesto (19 %) = 1.319,70 EUR brutos",
            ),
        ] {
            let theme = in_language(language);
            assert_eq!(describe_sums(&totals, theme.localizer()), [wanted]);
        }
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
            recorded_by: None,
            note: Some("called back".into()),
            lines: vec![line("T", LineKind::Labour), line("P", LineKind::Part)],
        };
        let english = "2026-03-02 14:05 authorised T up to 952.00 EUR gross by C. Invented (by telephone): called back";
        let german = "2026-03-02 14:05 freigegeben: T bis 952,00 EUR brutto, von C. Invented (telefonisch): called back";
        for (language, wanted) in [("en", english), ("de", german)] {
            let theme = in_language(language);
            assert_eq!(describe_event(&event, theme.localizer()), wanted);
        }
    }
}
