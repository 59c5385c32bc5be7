//! The authorisation: of a teardown where one is advised, of the repair where there is an estimate.

use super::Fact;
use crate::ReportInput;
use model::labour::LineState;
use serde::Serialize;

/// The authorisation block.
#[derive(Serialize)]
pub(super) struct Authorisation {
    title: String,
    parties: Vec<Fact>,
    /// What is filled in, and what is left to be written by hand.
    lines: Vec<Line>,
    legal: Vec<String>,
}

#[derive(Serialize)]
struct Line {
    label: String,
    /// `None` leaves a line to write on.
    text: Option<String>,
}

/// `None` where there is nothing to authorise.
pub(super) fn authorisation(input: &ReportInput<'_>) -> Option<Authorisation> {
    let (case, words) = (input.case, input.words);
    let line = |key: &str, text: Option<String>| Line {
        label: words.say(key),
        text,
    };
    let said = |key: &str| Some(words.say(key));
    let estimated = case.labour.iter().any(|l| l.state == LineState::Estimate);
    let total = input
        .totals
        .filter(|t| !t.estimate.gross.is_zero())
        .map(|t| words.money(t.estimate.gross, &t.currency));
    let opens = input
        .advice
        .and_then(|a| a.opens.as_ref())
        .map(|key| words.say(key));

    let (title, mut lines) = if case.verdict.teardown {
        let destroys = input
            .advice
            .and_then(|a| a.destroys.as_ref())
            .map(|key| words.say(key));
        let opening = input
            .totals
            .filter(|t| !t.teardown_estimate.gross.is_zero())
            .map(|t| words.money(t.teardown_estimate.gross, &t.currency));
        let lines = vec![
            line("report-auth-why", opens),
            line("report-auth-price-teardown", opening),
            line("report-auth-price-total", total),
            line("report-auth-destroyed", destroys),
            line("report-auth-undo", said("report-auth-undo-text")),
            line("report-auth-time", None),
            line("report-auth-decline", said("report-auth-decline-text")),
        ];
        ("report-authorise-teardown", lines)
    } else if estimated {
        let what: Vec<&str> = case
            .labour
            .iter()
            .filter(|l| l.state == LineState::Estimate)
            .map(|l| l.description.as_str())
            .collect();
        let lines = vec![
            line("report-auth-what", Some(what.join("; "))),
            line("report-auth-price-total", total),
            line(
                "report-auth-decline",
                said("report-auth-decline-repair-text"),
            ),
        ];
        ("report-authorise-repair", lines)
    } else {
        return None;
    };
    lines.push(line("report-auth-limit", None));
    let legal = input
        .legal_text
        .unwrap_or_default()
        .split("\n\n")
        .map(|p| p.trim().to_owned())
        .filter(|p| !p.is_empty())
        .collect();
    Some(Authorisation {
        title: words.say(title),
        parties: parties(input),
        lines,
        legal,
    })
}

/// Workshop and customer, each with all that is known of them.
fn parties(input: &ReportInput<'_>) -> Vec<Fact> {
    let (shop, customer) = (&input.shop.shop, &input.case.customer);
    let of = |key: &str, parts: [&Option<String>; 4]| {
        let known: Vec<&str> = parts.into_iter().flatten().map(String::as_str).collect();
        (!known.is_empty()).then(|| Fact {
            label: input.words.say(key),
            value: known.join("\n"),
        })
    };
    [
        of(
            "report-workshop",
            [&shop.name, &shop.address, &shop.phone, &shop.registration],
        ),
        of(
            "report-customer",
            [&customer.name, &customer.address, &customer.phone, &None],
        ),
    ]
    .into_iter()
    .flatten()
    .collect()
}
