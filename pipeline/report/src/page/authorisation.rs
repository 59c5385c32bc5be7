//! Agreements so far, and the form for what waits for an authorisation.

use super::Fact;
use super::work::{self, gross, sum_on};
use crate::ReportInput;
use crate::localizer::{Localizer, args};
use model::labour::{
    Completion, Consent, Hold, LabourLine, LabourTotals, LineState, WorkStage, WorkStep,
};
use model::party::Party;
use serde::Serialize;

/// Agreements and the form.
#[derive(Serialize)]
pub(super) struct Authorisation {
    agreed: Vec<Agreement>,
    form: Option<Form>,
}

/// Something that was agreed, declined or done.
#[derive(Serialize)]
struct Agreement {
    /// "Authorised by A. Invented on 3 March 2026, 10:15, by telephone, up to 1,200.00 USD with tax."
    text: String,
    works: Vec<String>,
    /// Meaning and note of the step.
    notes: Vec<String>,
}

/// The form.
#[derive(Serialize)]
struct Form {
    title: String,
    parties: Vec<Fact>,
    stages: Vec<FormStage>,
    /// Filled-in lines, and lines left to be written by hand.
    lines: Vec<Line>,
    legal: Option<Legal>,
}

/// A stage that is authorised or declined by itself.
#[derive(Serialize)]
struct FormStage {
    title: String,
    works: Vec<String>,
    /// Prices and limit; `None` leaves a line to write on.
    net: Option<String>,
    gross: Option<String>,
    limit: Option<String>,
}

/// The terms of the place, as the shop supplies them.
#[derive(Serialize)]
struct Legal {
    place: String,
    language: String,
    paragraphs: Vec<String>,
    /// Source and date of the prices, with remarks.
    source: String,
    note: Option<String>,
}

#[derive(Serialize)]
struct Line {
    label: String,
    /// `None` leaves a line to write on.
    text: Option<String>,
}

/// `None` where nothing was agreed and nothing is to be.
pub(super) fn authorisation(input: &ReportInput<'_>) -> Option<Authorisation> {
    let (agreed, form) = (agreed(input), form(input));
    (!agreed.is_empty() || form.is_some()).then_some(Authorisation { agreed, form })
}

fn agreed(input: &ReportInput<'_>) -> Vec<Agreement> {
    let Some(totals) = input.totals else {
        return Vec::new();
    };
    let localizer = input.theme.localizer();
    let authorised = grouped(input, |l| l.life.authorised.as_ref());
    let declined = grouped(input, |l| {
        let declined = l.life.declined.as_ref();
        declined.filter(|_| l.state == LineState::Declined)
    });
    let done = grouped(input, |l| l.life.done.as_ref());
    let held = grouped(input, |l| l.life.hold.as_ref());
    let authorised = authorised.iter().map(|(consent, lines)| Agreement {
        text: authorised_text(consent, totals, localizer),
        works: work::works(lines),
        notes: note(consent, localizer).into_iter().collect(),
    });
    let declined = declined.iter().map(|(consent, lines)| Agreement {
        text: localizer.message_with("report-agreed-declined", &word_of(consent, localizer)),
        works: work::works(lines),
        notes: meaning(
            input,
            lines.iter().any(|l| l.step.stage() == WorkStage::Repair),
        )
        .into_iter()
        .chain(note(consent, localizer))
        .collect(),
    });
    let done = done.iter().map(|(completion, lines)| Agreement {
        text: done_text(completion, localizer),
        works: work::works(lines),
        notes: Vec::new(),
    });
    let held = held.iter().map(|(hold, lines)| Agreement {
        text: hold_text(hold, totals, localizer),
        works: work::works(lines),
        notes: Vec::new(),
    });
    authorised.chain(declined).chain(done).chain(held).collect()
}

/// Lines that have the same step of their life in common, in their order.
fn grouped<'a, T: PartialEq>(
    input: &ReportInput<'a>,
    step: impl Fn(&'a LabourLine) -> Option<&'a T>,
) -> Vec<(&'a T, Vec<&'a LabourLine>)> {
    let mut groups: Vec<(&T, Vec<&LabourLine>)> = Vec::new();
    for line in &input.case.labour {
        let Some(step) = step(line) else { continue };
        match groups.iter_mut().find(|(s, _)| *s == step) {
            Some((_, lines)) => lines.push(line),
            None => groups.push((step, vec![line])),
        }
    }
    groups
}

fn word_of(consent: &Consent, localizer: &Localizer) -> fluent_bundle::FluentArgs<'static> {
    args([
        ("by", consent.by.clone().into()),
        ("time", localizer.time(consent.at).into()),
        (
            "how",
            localizer
                .message(&format!("consent-{}", consent.how))
                .into(),
        ),
    ])
}

fn authorised_text(consent: &Consent, totals: &LabourTotals, localizer: &Localizer) -> String {
    let mut a = word_of(consent, localizer);
    match consent.limit {
        Some(limit) => {
            a.set("limit", sum_on(limit.sum, limit.basis, totals, localizer));
            localizer.message_with("report-agreed-authorised", &a)
        }
        None => localizer.message_with("report-agreed-authorised-unlimited", &a),
    }
}

fn note(consent: &Consent, localizer: &Localizer) -> Option<String> {
    let note = consent.note.clone()?;
    Some(localizer.message_with("report-agreed-note", &args([("note", note.into())])))
}

fn done_text(completion: &Completion, localizer: &Localizer) -> String {
    match (&completion.by, completion.at) {
        (Some(by), Some(at)) => {
            let at = localizer.time(at);
            let a = args([("by", by.clone().into()), ("time", at.into())]);
            localizer.message_with("report-agreed-done", &a)
        }
        _ => localizer.message("report-agreed-done-plain"),
    }
}

fn hold_text(hold: &Hold, totals: &LabourTotals, localizer: &Localizer) -> String {
    match hold {
        Hold::BeyondLimit { limit, needed } => {
            let sum = |sum| sum_on(sum, limit.basis, totals, localizer);
            let a = args([
                ("needed", sum(*needed).into()),
                ("limit", sum(limit.sum).into()),
            ]);
            localizer.message_with("report-hold-beyond-limit", &a)
        }
        Hold::NotAuthorised => localizer.message("report-hold-not-authorised"),
        Hold::NumberTaken { jobs } => {
            let a = args([("jobs", jobs.join(", ").into())]);
            localizer.message_with("report-hold-number-taken", &a)
        }
    }
}

/// Returns whether the unit has been opened and not been closed again.
fn is_open(input: &ReportInput<'_>) -> bool {
    let lines = work::lines_of(input, WorkStage::Teardown);
    let is_done = |step| {
        lines
            .iter()
            .any(|l| l.step == step && l.life.done.is_some())
    };
    is_done(WorkStep::Teardown) && !is_done(WorkStep::Reassembly)
}

/// Consequences of declining a stage: while the unit is closed, and while it is open.
fn meaning(input: &ReportInput<'_>, is_repair: bool) -> Vec<String> {
    let localizer = input.theme.localizer();
    if !(is_repair && is_open(input)) {
        return vec![localizer.message("report-auth-decline-text")];
    }
    let own = &input.shop.report.authorisation;
    let term = |key: &str, value: &Option<String>| {
        let value = value.clone()?;
        Some(format!("{}: {value}", localizer.message(key)))
    };
    [
        Some(localizer.message("report-declined-open")),
        term("report-auth-time", &own.max_reassembly_time),
        term("report-auth-storage", &own.storage),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// The form; `None` where nothing is offered.
fn form(input: &ReportInput<'_>) -> Option<Form> {
    let localizer = input.theme.localizer();
    let stages = offered(input);
    if stages.is_empty() {
        return None;
    }
    let message = |key: &Option<String>| key.as_ref().map(|key| localizer.message(key));
    let line = |key: &str, text: Option<String>| Line {
        label: localizer.message(key),
        text,
    };
    let own = &input.shop.report.authorisation;
    let mut lines = Vec::new();
    let is_closed = work::lines_of(input, WorkStage::Teardown)
        .iter()
        .all(|l| l.life.done.is_none());
    if is_closed
        && stages
            .iter()
            .any(|(stage, _)| *stage == WorkStage::Teardown)
    {
        let advice = input.advice;
        lines.extend([
            line("report-auth-why", advice.and_then(|a| message(&a.opens))),
            line(
                "report-auth-destroyed",
                advice.and_then(|a| message(&a.destroys)),
            ),
            line(
                "report-auth-undo",
                Some(localizer.message("report-auth-undo-text")),
            ),
            line("report-auth-time", own.max_reassembly_time.clone()),
            line("report-auth-storage", own.storage.clone()),
        ]);
    }
    let is_repair = stages.iter().any(|(s, _)| *s == WorkStage::Repair);
    let declined = meaning(input, is_repair).join("\n");
    lines.push(line("report-auth-decline", Some(declined)));
    Some(Form {
        title: localizer.message("report-authorise"),
        parties: parties(input),
        stages: stages.into_iter().map(|(_, stage)| stage).collect(),
        lines,
        legal: legal(input),
    })
}

/// Stages that wait for an authorisation, each with its price. A teardown that is advised and not priced is one too.
fn offered(input: &ReportInput<'_>) -> Vec<(WorkStage, FormStage)> {
    let localizer = input.theme.localizer();
    let priced = WorkStage::ALL.into_iter().filter_map(|stage| {
        let totals = input.totals?;
        let sums = work::of_stage(totals, stage)?;
        if stage == WorkStage::Diagnosis || sums.offered.net.is_zero() {
            return None;
        }
        let mut lines = work::lines_of(input, stage);
        lines.retain(|l| l.state == LineState::Offered);
        let form = FormStage {
            title: work::title(stage, localizer),
            works: work::works(&lines),
            net: Some(localizer.money(sums.offered.net, &totals.currency)),
            gross: gross(&sums.offered, totals, localizer),
            limit: limit(input, sums.limit, totals),
        };
        Some((stage, form))
    });
    let priced: Vec<_> = priced.collect();
    if priced.is_empty() && input.case.verdict.teardown && input.case.labour.is_empty() {
        let blank = |stage| FormStage {
            title: work::title(stage, localizer),
            works: Vec::new(),
            net: None,
            gross: None,
            limit: None,
        };
        return [WorkStage::Teardown, WorkStage::Repair]
            .map(|stage| (stage, blank(stage)))
            .into();
    }
    priced
}

/// The sum that is not exceeded without asking, as the shop has it; `None` leaves it to the customer.
fn limit(
    input: &ReportInput<'_>,
    limit: Option<model::labour::SumLimit>,
    totals: &LabourTotals,
) -> Option<String> {
    let localizer = input.theme.localizer();
    let limit = limit?;
    let amount = sum_on(limit.sum, limit.basis, totals, localizer);
    let Some(percent) = input.shop.report.authorisation.limit_percent else {
        return Some(amount);
    };
    let a = args([
        ("amount", amount.into()),
        ("percent", localizer.exact(percent.0.normalize()).into()),
    ]);
    Some(localizer.message_with("report-auth-limit-percent", &a))
}

fn legal(input: &ReportInput<'_>) -> Option<Legal> {
    let legal = input.theme.legal.as_ref()?;
    let localizer = input.theme.localizer();
    let a = args([
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

/// Between whom the work is agreed: who offers it and whose vehicle it is, each with all that is known of them.
fn parties(input: &ReportInput<'_>) -> Vec<Fact> {
    let of = |key: &str, party: &Party| {
        let parts = [
            &party.name,
            &party.address,
            &party.phone,
            &party.registration,
        ];
        let known: Vec<&str> = parts.into_iter().flatten().map(String::as_str).collect();
        (!known.is_empty()).then(|| Fact {
            label: input.theme.localizer().message(key),
            value: known.join("\n"),
        })
    };
    [
        of("report-workshop", input.parties.estimate_from()),
        of("report-owner", input.parties.estimate_to()),
    ]
    .into_iter()
    .flatten()
    .collect()
}
