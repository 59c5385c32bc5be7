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
mod work;

use crate::localizer::{Localizer, args};
use crate::{Audience, Photo, ReportError, ReportInput, Reviewed};
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
    review: Review,
    /// "Page #page of #total": the template puts the numbers in.
    page_of: String,
    /// The words of the report that take no arguments, by key without `report-`.
    w: BTreeMap<String, String>,
    shop: Shop,
    facts: Vec<Fact>,
    complaint: Option<String>,
    answer: answer::Answer,
    evidence: Vec<plots::Plot>,
    photos: Vec<Picture>,
    compared: Vec<advice::Compared>,
    stages: Vec<work::Stage>,
    /// Next recordings, where the first page has no room for all of them.
    next: Vec<String>,
    codes: Vec<advice::Code>,
    /// For those who do the work. The customer's report has them where no technician's report is made.
    cautions: Vec<crate::localizer::Caution>,
    repair: Option<advice::Repair>,
    cost: Option<cost::Cost>,
    authorisation: Option<authorisation::Authorisation>,
    /// Data of the technician's report only.
    technician: Option<explained::Explained>,
    appendix: Option<appendix::Appendix>,
    /// Characters that no font has: filled when the texts are checked against the fonts.
    replaced: Vec<()>,
}

/// A photo; the picture is the template's file `/photo-N`, from 0 in this order.
#[derive(Serialize)]
struct Picture {
    caption: String,
    /// The same for those who cannot see it.
    alt: String,
}

/// Who looked at the report before it was handed over.
#[derive(Serialize)]
struct Review {
    /// True where nobody has.
    draft: bool,
    /// "Reviewed by Kim Example on 3 March 2026, 14:05", or that this is a draft.
    line: String,
    /// Scope of the review, its note, and the state of an earlier one.
    notes: Vec<String>,
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
    let for_technician = audience == Audience::Technician;
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
        review: review(input),
        page_of: localizer.message_with(
            "report-page",
            &args([("page", "#page".into()), ("pages", "#total".into())]),
        ),
        w: localizer.labels(),
        shop: shop(input),
        facts: facts(input),
        complaint: cut.as_ref().map(|(text, _)| text.clone()),
        answer: answer::answer(input, audience),
        evidence: input
            .evidence
            .iter()
            .map(|p| plots::plot(p, localizer))
            .collect(),
        photos: match audience {
            Audience::Customer => input.photos.iter().map(|p| picture(p, localizer)).collect(),
            Audience::Technician => Vec::new(),
        },
        compared: advice::compared(case, localizer),
        stages: work::stages(input),
        next: answer::next_in_full(case, audience, localizer),
        codes: advice::codes(case, localizer),
        cautions: match audience {
            Audience::Customer if input.shop.report.technician => Vec::new(),
            _ => cautions(input),
        },
        repair: advice::repair(input),
        cost: cost::cost(input),
        authorisation: authorisation::authorisation(input),
        technician: for_technician.then(|| explained::explained(case, localizer)),
        appendix: for_technician.then(|| {
            let notes = cut.filter(|(_, cut)| *cut).and(notes);
            appendix::appendix(case, localizer, notes)
        }),
        replaced: Vec::new(),
    };
    serde_json::to_value(page).map_err(|e| ReportError::Data(e.to_string()))
}

/// Running text of the customer's report, a paragraph each: what a driver reads, without tables, names and terms.
pub(crate) fn prose(input: &ReportInput<'_>) -> Vec<String> {
    let answer = answer::answer(input, Audience::Customer);
    let repair = advice::repair(input);
    let captions = input.evidence.iter().map(|p| p.caption.clone());
    let steps = repair.iter().flat_map(advice::Repair::prose).cloned();
    (answer.prose().cloned())
        .chain(captions)
        .chain(steps)
        .collect()
}

fn picture(photo: &Photo, localizer: &Localizer) -> Picture {
    let caption = args([("caption", photo.caption.clone().into())]);
    Picture {
        alt: localizer.message_with("report-photo-alt", &caption),
        caption: photo.caption.clone(),
    }
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
    let (v, parties) = (&case.vehicle, input.parties);
    let client = parties.client.name.clone();
    let client = client.filter(|_| parties.has_client_of_its_own());
    [
        ("report-vehicle", vehicle(v)),
        ("report-vin", v.vin.clone()),
        ("report-plate", v.plate.clone()),
        (
            "report-odometer",
            v.odometer_km.map(|km| localizer.distance(km)),
        ),
        ("report-owner", parties.owner.name.clone()),
        ("report-client", client),
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

fn review(input: &ReportInput<'_>) -> Review {
    let localizer = input.theme.localizer();
    let named = |key: &str, r: &Reviewed| {
        let a = args([
            ("name", r.by.clone().into()),
            ("time", localizer.time(r.at).into()),
        ]);
        localizer.message_with(key, &a)
    };
    let mut notes = Vec::new();
    let line = match input.reviewed {
        Some(review) => {
            notes.push(localizer.message("report-review-covers"));
            notes.extend(review.note.as_ref().map(|note| {
                let note = args([("note", note.clone().into())]);
                localizer.message_with("report-agreed-note", &note)
            }));
            named("report-reviewed", review)
        }
        None => {
            let earlier = input.earlier_review;
            notes.extend(earlier.map(|r| named("report-review-lost", r)));
            localizer.message("report-draft")
        }
    };
    Review {
        draft: input.reviewed.is_none(),
        line,
        notes,
    }
}

fn vehicle(v: &VehicleSection) -> Option<String> {
    let year = v.year.map(|y| y.to_string());
    let parts: Vec<String> = [year, v.make.clone(), v.model.clone()]
        .into_iter()
        .flatten()
        .collect();
    (!parts.is_empty()).then(|| parts.join(" "))
}
