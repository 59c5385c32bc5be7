//! List of jobs.

use super::fields::{FormFields, Refused};
use super::frame::Viewer;
use crate::routes::{Search, id};
use crate::{JobRow, squeezed};
use maud::{Markup, html};
use std::collections::BTreeSet;

const GROUPS: [&str; 4] = ["asks", "drafts", "work", "signed"];
/// Rows of a group that are shown; a search finds the others.
const MAX_ROWS: usize = 100;

/// The list of jobs; `refused`: the form for a new one, where it was refused.
pub(crate) fn jobs(
    viewer: &Viewer<'_>,
    rows: &[JobRow],
    search: &Search,
    refused: Option<&Refused<'_>>,
) -> Markup {
    let found: Vec<&JobRow> = (rows.iter())
        .filter(|r| matches(viewer, r, search))
        .collect();
    let body = html! {
        h1 { (viewer.say("jobs")) }
        (new_job(viewer, refused))
        (search_form(viewer, rows, search))
        @if found.is_empty() { p { (viewer.say("no-jobs")) } }
        @for group in GROUPS {
            @let of_group: Vec<&&JobRow> = found.iter().filter(|r| r.group == group).collect();
            @if !of_group.is_empty() { (section(viewer, group, &of_group)) }
        }
    };
    match refused {
        Some(_) => viewer.answer_page(&viewer.say("jobs"), body),
        None => viewer.page(&viewer.say("jobs"), body),
    }
}

fn matches(viewer: &Viewer<'_>, row: &JobRow, search: &Search) -> bool {
    let day = row.arrived.map(|a| a.format("%Y-%m-%d").to_string());
    let in_days = |day: &str| {
        (search.from.is_empty() || day >= &*search.from)
            && (search.to.is_empty() || day <= &*search.to)
    };
    let verdict = row.verdict.as_ref().map(|v| viewer.tell(v));
    let mut texts = row.facts.all();
    texts.extend([row.name.as_str(), verdict.as_deref().unwrap_or_default()]);
    let has = |word: &str| {
        let (word, plain) = (word.to_lowercase(), squeezed(word));
        let has = |text: &&str| {
            text.to_lowercase().contains(&word)
                || !plain.is_empty() && squeezed(text).contains(&plain)
        };
        texts.iter().any(has)
    };
    let has_words = search.q.split_whitespace().all(has);
    let is = |wanted: &str, fact: Option<&str>| wanted.is_empty() || fact == Some(wanted);
    has_words
        && is(&search.group, Some(row.group))
        && is(&search.customer, row.facts.customer.as_deref())
        && is(&search.technician, row.facts.technician.as_deref())
        && day.is_none_or(|d| in_days(&d))
}

fn search_form(viewer: &Viewer<'_>, rows: &[JobRow], search: &Search) -> Markup {
    let customers = rows.iter().filter_map(|r| r.facts.customer.as_deref());
    let technicians = rows.iter().filter_map(|r| r.facts.technician.as_deref());
    html! {
        form.search role="search" action="/" method="get" {
            div.field {
                label for="q" { (viewer.say("search")) }
                input id="q" type="search" name="q" value=(search.q) placeholder=(viewer.say("search-hint"));
            }
            div.field {
                label for="group" { (viewer.say("state")) }
                select id="group" name="group" {
                    option value="" { (viewer.say("all")) }
                    @for group in GROUPS {
                        option value=(group) selected[search.group == group] { (viewer.say(&format!("group-{group}"))) }
                    }
                }
            }
            (choice(viewer, "customer", customers.collect(), &search.customer))
            (choice(viewer, "technician", technicians.collect(), &search.technician))
            div.field {
                label for="from" { (viewer.say("from-day")) }
                input id="from" type="date" name="from" value=(search.from);
            }
            div.field {
                label for="to" { (viewer.say("to-day")) }
                input id="to" type="date" name="to" value=(search.to);
            }
            div.field.act { button.quiet { (viewer.say("find")) } }
        }
    }
}

/// Choice among the values that jobs have.
fn choice(viewer: &Viewer<'_>, name: &str, values: BTreeSet<&str>, chosen: &str) -> Markup {
    html! {
        div.field {
            label for=(name) { (viewer.say(name)) }
            select id=(name) name=(name) {
                option value="" { (viewer.say("all")) }
                @for value in values { option value=(value) selected[value == chosen] { (value) } }
            }
        }
    }
}

/// Files that are dropped here begin a job, under the name in the field or one that their own names give.
fn new_job(viewer: &Viewer<'_>, refused: Option<&Refused<'_>>) -> Markup {
    let fields = FormFields::new(viewer, "new", refused);
    let error = refused.map(|r| viewer.tell(r.message));
    html! {
        section.add.new data-new="/new" aria-labelledby="new-job" {
            h2 #new-job { (viewer.say("new-job")) }
            p { (viewer.say("new-job-how")) }
            form.step method="post" action="/new" {
                (viewer.token())
                label for="name" { (viewer.say("new-job-name")) }
                input id="name" name="name" value=(fields.typed("name")) required maxlength="80"
                    placeholder=(viewer.say("new-job-hint")) aria-invalid=[error.as_ref().map(|_| "true")]
                    aria-describedby=[error.as_ref().map(|_| "name-error")];
                @if let Some(error) = &error { p.error #name-error role="alert" { (error) } }
                button.quiet { (viewer.say("begin")) }
                label.button for="files" { (viewer.say("choose-files")) }
                input #files type="file" multiple;
            }
            ul #added aria-live="polite" {}
        }
    }
}

fn section(viewer: &Viewer<'_>, group: &str, rows: &[&&JobRow]) -> Markup {
    let heading = format!("group-{group}");
    html! {
        section aria-labelledby=(heading) {
            h2 id=(heading) {
                span class={ "mark " (group) } aria-hidden="true" {}
                (viewer.say(&heading)) span.count { (rows.len()) }
            }
            ul.jobs {
                @for row in rows.iter().take(MAX_ROWS) { li { (job(viewer, row)) } }
            }
            @if rows.len() > MAX_ROWS { p { (viewer.say("more-jobs")) } }
        }
    }
}

fn job(viewer: &Viewer<'_>, row: &JobRow) -> Markup {
    html! {
        a.job href={ "/job/" (id(&row.name)) } {
            span.name { (row.name) }
            span.verdict { (viewer.tell(row.verdict.as_ref().unwrap_or(&row.state))) }
            @if let Some(arrived) = row.arrived {
                time datetime=(arrived.format("%Y-%m-%dT%H:%M:%S%:z")) { (arrived.format("%Y-%m-%d %H:%M")) }
            }
            span.facts { (row.facts.all().join(" · ")) }
        }
        p.progress data-progress=(id(&row.name)) {}
        @if !row.asks.is_empty() {
            ul.asks aria-label=(viewer.say("asked-for")) { @for ask in &row.asks { li { (viewer.tell(ask)) } } }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::JobFacts;
    use crate::lock::Session;
    use crate::words::Words;

    #[test]
    fn jobs_are_found_by_what_people_type() {
        let row = JobRow {
            name: "R-2041".into(),
            group: "drafts",
            facts: JobFacts {
                plate: Some("B-AB 123".into()),
                vin: Some("ZZZEG000000000012".into()),
                customer: Some("Ána Example".into()),
                ..JobFacts::default()
            },
            ..JobRow::default()
        };
        let (words, session) = (Words::new("en"), Session::sample());
        let viewer = Viewer {
            words: &words,
            session: &session,
            persons: Vec::new(),
            has_proxy: false,
            changes: 0,
        };
        for (q, found) in [
            ("", true),
            ("bab123", true),
            ("b-ab", true),
            ("2041 example", true),
            ("ÁNA", true),
            ("zzzeg", true),
            ("r-2042", false),
            ("example 124", false),
            ("-", true),
        ] {
            let search = Search {
                q: q.into(),
                ..Search::default()
            };
            assert_eq!(matches(&viewer, &row, &search), found, "{q}");
        }
    }
}
