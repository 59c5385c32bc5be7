//! Data of the template: sentences, numbers and paths, ready to be typeset.

mod advice;
mod answer;
mod appendix;
mod authorisation;
mod cautions;
mod certainty;
mod cost;
mod explained;
mod figures;
mod plots;

use crate::localizer::{Localizer, args};
use crate::{Audience, ReportError, ReportInput};
pub(crate) use cautions::cautions;
use chrono::NaiveDate;
use model::job_file::VehicleSection;
use model::shop_file::Paper;
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;

/// Characters of the complaint on the first page; the rest stands in the record.
const COMPLAINT_ON_PAGE_ONE: usize = 240;

/// Everything, in the order of the report.
#[derive(Serialize)]
struct Page {
    language: String,
    region: Option<String>,
    paper: &'static str,
    title: String,
    /// The document's own date, which an archivable file must have; the page shows the job's.
    date: String,
    author: Option<String>,
    draft: bool,
    reviewed: Option<String>,
    /// "Page #page of #total": the template puts the numbers in.
    page_of: String,
    /// The words of the report that take no arguments, by key without `report-`.
    w: BTreeMap<String, String>,
    shop: Shop,
    facts: Vec<Fact>,
    complaint: Option<String>,
    answer: answer::Answer,
    evidence: Vec<plots::Plot>,
    compared: Vec<advice::Compared>,
    ruled_out: Vec<advice::Ruled>,
    considered: Vec<advice::Ruled>,
    /// Next recordings, where the first page has no room for all of them.
    next: Vec<String>,
    codes: Vec<advice::Code>,
    cautions: Vec<crate::localizer::Caution>,
    repair: Option<advice::Repair>,
    cost: Option<cost::Cost>,
    authorisation: Option<authorisation::Authorisation>,
    appendix: appendix::Appendix,
    /// Data of the technician's report only.
    technician: Option<explained::Explained>,
}

#[derive(Serialize)]
struct Shop {
    name: String,
    details: Vec<String>,
    /// The logo's format; the picture is the template's file `/logo`.
    logo: Option<&'static str>,
    header: Option<String>,
    footer: Option<String>,
    /// Colours as `#rrggbb`, where the shop has its own.
    rule: Option<String>,
    headings: Option<String>,
}

#[derive(Serialize)]
struct Fact {
    label: String,
    value: String,
}

/// The data of a report.
pub(crate) fn data(
    input: &ReportInput<'_>,
    audience: Audience,
    date: NaiveDate,
) -> Result<Value, ReportError> {
    let (case, localizer) = (input.case, input.theme.localizer());
    let job = || args([("job", case.job.number.clone().into())]);
    let notes = case
        .concern
        .as_deref()
        .map(str::trim)
        .filter(|t| !t.is_empty());
    let cut = notes.map(|t| shorten(t, localizer));
    let page = Page {
        language: localizer.language_alone().to_owned(),
        region: localizer.region(),
        paper: match input.shop.report.paper {
            Paper::A4 => "a4",
            Paper::UsLetter => "us-letter",
        },
        title: match audience {
            Audience::Customer => localizer.message_with("report-title-job", &job()),
            Audience::Technician => localizer.message_with("report-title-technician-job", &job()),
        },
        date: date.to_string(),
        author: input.shop.shop.name.clone(),
        draft: input.reviewed.is_none(),
        reviewed: input.reviewed.map(|r| {
            let at = format!("{}, {}", localizer.day(r.at.date()), r.at.format("%H:%M"));
            let a = args([("name", r.by.clone().into()), ("time", at.into())]);
            localizer.message_with("report-reviewed", &a)
        }),
        page_of: localizer.message_with(
            "report-page",
            &args([("page", "#page".into()), ("pages", "#total".into())]),
        ),
        w: localizer.labels(),
        shop: shop(input),
        facts: facts(input),
        complaint: cut.as_ref().map(|(text, _)| text.clone()),
        answer: answer::answer(input),
        evidence: input
            .evidence
            .iter()
            .map(|p| plots::plot(p, localizer))
            .collect(),
        compared: advice::compared(case, localizer),
        ruled_out: advice::ruled_out(case, localizer),
        considered: advice::considered(case, localizer),
        next: answer::next_in_full(case, localizer),
        codes: advice::codes(case, localizer),
        cautions: cautions(input),
        repair: advice::repair(input),
        cost: cost::cost(input),
        authorisation: authorisation::authorisation(input),
        appendix: appendix::appendix(
            case,
            localizer,
            audience,
            cut.filter(|(_, cut)| *cut).and(notes),
        ),
        technician: (audience == Audience::Technician)
            .then(|| explained::explained(case, localizer)),
    };
    serde_json::to_value(page).map_err(|e| ReportError::Data(e.to_string()))
}

/// A long complaint, cut at a word for the first page; and whether it was cut.
fn shorten(text: &str, localizer: &Localizer) -> (String, bool) {
    let Some((end, _)) = text.char_indices().nth(COMPLAINT_ON_PAGE_ONE) else {
        return (text.to_owned(), false);
    };
    let head = text.get(..end).unwrap_or(text);
    let head = head
        .rfind(char::is_whitespace)
        .and_then(|i| head.get(..i))
        .unwrap_or(head);
    (
        format!("{head} … {}", localizer.message("report-cut-short")),
        true,
    )
}

fn shop(input: &ReportInput<'_>) -> Shop {
    let (s, report) = (&input.shop.shop, &input.shop.report);
    let localizer = input.theme.localizer();
    let registration = s
        .registration
        .as_ref()
        .map(|r| format!("{} {r}", localizer.message("report-registration")));
    let hex = |c: &Option<model::shop_file::Colour>| c.as_ref().map(|c| c.hex().to_owned());
    Shop {
        name: s
            .name
            .clone()
            .unwrap_or_else(|| localizer.message("report-no-shop")),
        details: [s.address.clone(), s.phone.clone(), registration]
            .into_iter()
            .flatten()
            .collect(),
        logo: input.theme.logo.as_ref().map(|l| l.format),
        header: report.header.clone(),
        footer: report.footer.clone(),
        rule: hex(&report.colours.rule),
        headings: hex(&report.colours.headings),
    }
}

fn facts(input: &ReportInput<'_>) -> Vec<Fact> {
    let (case, localizer) = (input.case, input.theme.localizer());
    let v = &case.vehicle;
    [
        ("report-vehicle", vehicle(v)),
        ("report-vin", v.vin.clone()),
        ("report-plate", v.plate.clone()),
        (
            "report-odometer",
            v.odometer_km.map(|km| localizer.distance(km)),
        ),
        ("report-customer", case.customer.name.clone()),
        ("report-job", Some(case.job.number.clone())),
        ("report-date", case.job.opened.map(|d| localizer.day(d))),
        ("report-examined-by", case.job.technician.clone()),
    ]
    .into_iter()
    .filter_map(|(key, value)| {
        let value = value.filter(|v| !v.trim().is_empty())?;
        Some(Fact {
            label: localizer.message(key),
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
