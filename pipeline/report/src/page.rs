//! What the template is given: sentences, numbers and paths, ready to be set.

mod advice;
mod answer;
mod authorisation;
mod cost;
mod plots;
mod record;
mod sure;

use crate::words::Words;
use crate::{ReportError, ReportInput};
use chrono::NaiveDate;
use model::job_file::VehicleSection;
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;

/// The words of the template that take no arguments: available to it as `w`, without `report-`.
pub(crate) const FURNITURE: &[&str] = &[
    "after",
    "amount",
    "auth-customer",
    "auth-date",
    "auth-deferral",
    "auth-legal",
    "auth-no",
    "auth-parts",
    "auth-parts-keep",
    "auth-parts-return",
    "auth-shop",
    "auth-signature",
    "auth-yes",
    "before",
    "before-after",
    "cautions",
    "code",
    "code-here",
    "code-module",
    "code-status",
    "codes",
    "codes-note",
    "complaint",
    "considered",
    "cost",
    "decibans",
    "do",
    "draft",
    "draft-short",
    "estimate",
    "estimate-note",
    "evidence",
    "evidence-time",
    "hours",
    "how-sure",
    "known",
    "line-state",
    "next",
    "not",
    "notes",
    "observation",
    "outcome",
    "proof",
    "rate",
    "record",
    "record-calibration",
    "record-cause",
    "record-channel",
    "record-channels",
    "record-check",
    "record-conditions",
    "record-duration",
    "record-engine",
    "record-file",
    "record-files",
    "record-finding",
    "record-findings",
    "record-hash",
    "record-how",
    "record-limit",
    "record-not-run",
    "record-phase",
    "record-place",
    "record-plugins",
    "record-problems",
    "record-rate",
    "record-reason",
    "record-role",
    "record-selector",
    "record-source",
    "record-text",
    "record-text-note",
    "record-use",
    "record-value",
    "record-version",
    "record-weight",
    "record-weights",
    "record-weights-note",
    "repair",
    "ruled-out",
    "steps",
    "title",
    "unknown",
    "work",
];

/// Characters of the complaint on the first page; the rest stands in the record.
const COMPLAINT_ON_PAGE_ONE: usize = 240;

/// Everything, in the order of the report.
#[derive(Serialize)]
struct Page {
    language: String,
    paper: &'static str,
    title: String,
    /// The document's own date, which an archivable file must have; the page shows the job's.
    date: String,
    author: Option<String>,
    draft: bool,
    reviewed: Option<String>,
    /// "Page #page of #total": the template puts the numbers in.
    page_of: String,
    w: BTreeMap<&'static str, String>,
    shop: Shop,
    facts: Vec<Fact>,
    complaint: Option<String>,
    answer: answer::Answer,
    evidence: Vec<plots::Plot>,
    compared: Vec<advice::Compared>,
    ruled_out: Vec<advice::Ruled>,
    considered: Vec<advice::Ruled>,
    /// What to record next, where the first page has no room for all of it.
    next: Vec<String>,
    codes: Vec<advice::Code>,
    cautions: Vec<crate::words::Caution>,
    repair: Option<advice::Repair>,
    cost: Option<cost::Cost>,
    authorisation: Option<authorisation::Authorisation>,
    record: record::Record,
}

#[derive(Serialize)]
struct Shop {
    name: String,
    details: Vec<String>,
}

#[derive(Serialize)]
struct Fact {
    label: String,
    value: String,
}

/// The data of a report.
pub(crate) fn data(input: &ReportInput<'_>, date: NaiveDate) -> Result<Value, ReportError> {
    let paper = match input.shop.report.paper.as_str() {
        "a4" => "a4",
        "us-letter" | "letter" => "us-letter",
        other => return Err(ReportError::Paper(other.into())),
    };
    let (case, words) = (input.case, input.words);
    let w = FURNITURE
        .iter()
        .map(|key| (*key, words.say(&format!("report-{key}"))))
        .collect();
    let notes = case
        .concern
        .as_deref()
        .map(str::trim)
        .filter(|t| !t.is_empty());
    let cut = notes.map(|t| shorten(t, words));
    let page = Page {
        language: words
            .language()
            .split('-')
            .next()
            .unwrap_or("en")
            .to_owned(),
        paper,
        title: words.say_with(
            "report-title-job",
            &crate::words::args([("job", case.job.number.clone().into())]),
        ),
        date: date.to_string(),
        author: input.shop.shop.name.clone(),
        draft: input.reviewed.is_none(),
        reviewed: input.reviewed.map(|r| {
            let at = r.at.format("%Y-%m-%d %H:%M").to_string();
            let a = crate::words::args([("name", r.by.clone().into()), ("time", at.into())]);
            words.say_with("report-reviewed", &a)
        }),
        page_of: words.say_with(
            "report-page",
            &crate::words::args([("page", "#page".into()), ("pages", "#total".into())]),
        ),
        w,
        shop: shop(input),
        facts: facts(input),
        complaint: cut.as_ref().map(|(text, _)| text.clone()),
        answer: answer::answer(input),
        evidence: input
            .evidence
            .iter()
            .map(|p| plots::plot(p, words))
            .collect(),
        compared: advice::compared(case, words),
        ruled_out: advice::ruled_out(case, words),
        considered: advice::considered(case, words),
        next: answer::next_in_full(case, words),
        codes: advice::codes(case, words),
        cautions: advice::cautions(input),
        repair: advice::repair(input),
        cost: cost::cost(input),
        authorisation: authorisation::authorisation(input),
        record: record::record(case, words, cut.filter(|(_, cut)| *cut).and(notes)),
    };
    serde_json::to_value(page).map_err(|e| ReportError::Data(e.to_string()))
}

/// A long complaint, cut at a word for the first page; and whether it was cut.
fn shorten(text: &str, words: &Words) -> (String, bool) {
    let Some((end, _)) = text.char_indices().nth(COMPLAINT_ON_PAGE_ONE) else {
        return (text.to_owned(), false);
    };
    let head = text.get(..end).unwrap_or(text);
    let head = head
        .rfind(char::is_whitespace)
        .and_then(|i| head.get(..i))
        .unwrap_or(head);
    (format!("{head} … {}", words.say("report-cut-short")), true)
}

fn shop(input: &ReportInput<'_>) -> Shop {
    let s = &input.shop.shop;
    let registration = s
        .registration
        .as_ref()
        .map(|r| format!("{} {r}", input.words.say("report-registration")));
    Shop {
        name: s
            .name
            .clone()
            .unwrap_or_else(|| input.words.say("report-no-shop")),
        details: [s.address.clone(), s.phone.clone(), registration]
            .into_iter()
            .flatten()
            .collect(),
    }
}

fn facts(input: &ReportInput<'_>) -> Vec<Fact> {
    let (case, words) = (input.case, input.words);
    let v = &case.vehicle;
    let kilometres = v.odometer_km.map(|km| {
        let a = crate::words::args([("km", crate::words::number_arg(km.round()))]);
        words.say_with("report-kilometres", &a)
    });
    [
        ("report-vehicle", vehicle(v)),
        ("report-vin", v.vin.clone()),
        ("report-plate", v.plate.clone()),
        ("report-odometer", kilometres),
        ("report-customer", case.customer.name.clone()),
        ("report-job", Some(case.job.number.clone())),
        ("report-date", case.job.opened.map(|d| d.to_string())),
        ("report-examined-by", case.job.technician.clone()),
    ]
    .into_iter()
    .filter_map(|(key, value)| {
        let value = value.filter(|v| !v.trim().is_empty())?;
        Some(Fact {
            label: words.say(key),
            value,
        })
    })
    .collect()
}

fn vehicle(v: &VehicleSection) -> Option<String> {
    let year = v.year.map(|y| y.to_string());
    let parts: Vec<String> = [year, v.make.clone(), v.model.clone()]
        .into_iter()
        .flatten()
        .collect();
    (!parts.is_empty()).then(|| parts.join(" "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_of_the_furniture_is_there() {
        let words = Words::load("en").unwrap();
        for key in FURNITURE {
            assert!(
                words.has(&format!("report-{key}")),
                "report-{key} is missing in en.ftl"
            );
        }
    }
}
