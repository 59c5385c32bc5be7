//! The authorisation: of a teardown where one is advised, of the repair where there is an estimate.

use super::Fact;
use crate::ReportInput;
use model::labour::{LineState, StageTotals, WorkStage, WorkStep};
use rust_decimal::Decimal;
use serde::Serialize;

/// The authorisation block.
#[derive(Serialize)]
pub(super) struct Authorisation {
    title: String,
    parties: Vec<Fact>,
    /// What is filled in, and what is left to be written by hand.
    lines: Vec<Line>,
    legal: Option<Legal>,
}

/// The terms of the place, as the shop supplies them.
#[derive(Serialize)]
struct Legal {
    place: String,
    language: String,
    paragraphs: Vec<String>,
    /// Where they come from, of when, and what is to be minded.
    source: String,
    note: Option<String>,
}

#[derive(Serialize)]
struct Line {
    label: String,
    /// `None` leaves a line to write on.
    text: Option<String>,
}

/// `None` where there is nothing to authorise.
pub(super) fn authorisation(input: &ReportInput<'_>) -> Option<Authorisation> {
    let (case, localizer) = (input.case, input.theme.localizer());
    let line = |key: &str, text: Option<String>| Line {
        label: localizer.message(key),
        text,
    };
    let said = |key: &str| Some(localizer.message(key));
    let stage = stage(input);
    let total = stage.map(|s| localizer.money(s.offered.gross, currency(input)));
    let opens = input
        .advice
        .and_then(|a| a.opens.as_ref())
        .map(|key| localizer.message(key));

    let (title, mut lines) = if case.verdict.teardown {
        let destroys = input
            .advice
            .and_then(|a| a.destroys.as_ref())
            .map(|key| localizer.message(key));
        let own = &input.shop.report.authorisation;
        let mut lines = vec![
            line("report-auth-why", opens),
            line("report-auth-price-opening", step(input, WorkStep::Teardown)),
            line(
                "report-auth-price-closing",
                step(input, WorkStep::Reassembly),
            ),
        ];
        if let Some(both) = opening_and_closing(input) {
            lines.push(line("report-auth-price-both", Some(both)));
        }
        lines.extend([
            line("report-auth-price-total", total),
            line("report-auth-destroyed", destroys),
            line("report-auth-undo", said("report-auth-undo-text")),
            line("report-auth-time", own.max_reassembly_time.clone()),
            line("report-auth-storage", own.storage.clone()),
            line("report-auth-decline", said("report-auth-decline-text")),
        ]);
        ("report-authorise-teardown", lines)
    } else if let Some(stage) = stage {
        let offered = case.labour.iter().filter(|l| l.state == LineState::Offered);
        let what: Vec<&str> = offered
            .filter(|l| l.step.stage() == stage.stage)
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
    lines.push(line("report-auth-limit", limit(input)));
    Some(Authorisation {
        title: localizer.message(title),
        parties: parties(input),
        lines,
        legal: legal(input),
    })
}

/// The price of one step, without tax.
fn step(input: &ReportInput<'_>, step: WorkStep) -> Option<String> {
    let lines = input
        .case
        .labour
        .iter()
        .filter(|l| l.step == step && l.state == LineState::Offered);
    let (mut net, mut currency) = (Decimal::ZERO, None);
    for line in lines {
        net += line.net_amount;
        currency = Some(&line.currency);
    }
    Some(input.theme.localizer().money(net, currency?))
}

/// The price of opening and closing with its tax; `None` where there is no tax to add.
fn opening_and_closing(input: &ReportInput<'_>) -> Option<String> {
    let sum = &stage(input)?.estimate;
    let localizer = input.theme.localizer();
    (!sum.tax.is_zero()).then(|| localizer.money(sum.gross, currency(input)))
}

/// Stage that waits for an authorisation now: opening the unit before anything behind it.
fn stage<'a>(input: &ReportInput<'a>) -> Option<&'a StageTotals> {
    let offered = |s: &&StageTotals| !s.offered.gross.is_zero();
    let mut stages = input.totals?.stages.iter().filter(offered);
    match input.case.verdict.teardown {
        true => stages.find(|s| s.stage == WorkStage::Teardown),
        false => stages.find(|s| s.stage != WorkStage::Diagnosis),
    }
}

fn currency<'a>(input: &ReportInput<'a>) -> &'a str {
    input.totals.map_or("", |t| &t.currency)
}

/// The sum that is not exceeded without asking, as the shop has it; `None` leaves it to the customer.
fn limit(input: &ReportInput<'_>) -> Option<String> {
    let localizer = input.theme.localizer();
    let limit = stage(input)?.limit?;
    let amount = localizer.money(limit.sum, currency(input));
    let Some(percent) = input.shop.report.authorisation.limit_percent else {
        return Some(amount);
    };
    let a = crate::localizer::args([
        ("amount", amount.into()),
        ("percent", localizer.exact(percent.0.normalize()).into()),
    ]);
    Some(localizer.message_with("report-auth-limit-percent", &a))
}

fn legal(input: &ReportInput<'_>) -> Option<Legal> {
    let legal = input.theme.legal.as_ref()?;
    let localizer = input.theme.localizer();
    let a = crate::localizer::args([
        ("source", legal.source.clone().into()),
        ("day", localizer.day(legal.as_of).into()),
    ]);
    // A text that was broken into lines for the file is set anew.
    let paragraph = |p: &str| p.split_whitespace().collect::<Vec<_>>().join(" ");
    Some(Legal {
        place: legal.place.clone(),
        language: legal.language.chars().take_while(|c| *c != '-').collect(),
        paragraphs: legal
            .text
            .split("\n\n")
            .map(paragraph)
            .filter(|p| !p.is_empty())
            .collect(),
        source: localizer.message_with("report-auth-legal-source", &a),
        note: legal.note.clone(),
    })
}

/// Workshop and customer, each with all that is known of them.
fn parties(input: &ReportInput<'_>) -> Vec<Fact> {
    let (shop, customer) = (&input.shop.shop, &input.case.customer);
    let of = |key: &str, parts: [&Option<String>; 4]| {
        let known: Vec<&str> = parts.into_iter().flatten().map(String::as_str).collect();
        (!known.is_empty()).then(|| Fact {
            label: input.theme.localizer().message(key),
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
