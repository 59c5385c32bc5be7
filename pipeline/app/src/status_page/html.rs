//! OUT/index.html: one file without scripts that works from a disk.

use super::Section;
use super::view::{View, count, title};
use chrono::{DateTime, Local};
use intake::JobGroup;
use maud::{DOCTYPE, Markup, PreEscaped, html};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use std::time::SystemTime;

const STYLE: &str = include_str!("style.css");

const COLUMNS: [&str; 6] = [
    "Job",
    "State",
    "Verdict",
    "Newest file",
    "Asked for",
    "Results",
];

/// Heading above the entries of the inbox that belong to no job.
pub const REFUSED: &str = "In the inbox, and part of no job";

/// Writes the page. `refusals` are entries of the inbox that belong to no job.
pub fn page(sections: &[Section], refusals: &[String], now: SystemTime) -> String {
    let total: u64 = sections.iter().map(|s| s.size).sum();
    let jobs = count(total, "job", "jobs");
    let asking = sections.iter().find(|s| s.group == JobGroup::Asks);
    let asking = asking.map_or(0, |s| s.size);
    let stamp = DateTime::<Local>::from(now);
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { "baybrief: " (jobs) @if asking > 0 { ", " (asking) " asking" } }
                style { (PreEscaped(STYLE)) }
            }
            body {
                a.skip href="#jobs" { "Skip to the jobs" }
                header {
                    h1 { "Jobs" }
                    p {
                        "As of "
                        time datetime=(stamp.format("%Y-%m-%dT%H:%M:%S%:z")) { (stamp.format("%Y-%m-%d %H:%M")) }
                        ". This page is written anew after each change; reload it to see the newest."
                    }
                }
                @if !sections.is_empty() { (overview(sections)) }
                main #jobs {
                    @if sections.is_empty() { p { "There is no job yet." } }
                    @if !refusals.is_empty() {
                        section {
                            h2 { (REFUSED) }
                            ul { @for text in refusals { li { (visible(text)) } } }
                        }
                    }
                    @for s in sections { (section(s, now)) }
                }
                footer {
                    p {
                        "A draft is no finding until a person has reviewed and signed it. Local law's own forms come \
                         first."
                    }
                }
            }
        }
    };
    page.into_string()
}

fn overview(sections: &[Section]) -> Markup {
    html! {
        nav aria-label="Kinds of jobs" {
            ul {
                @for s in sections {
                    li { a href={ "#" (s.group.name()) } { (mark(s.group)) (title(s.group)) ": " (s.size) } }
                }
            }
        }
    }
}

fn mark(group: JobGroup) -> Markup {
    html! { span class={ "mark " (group.name()) } aria-hidden="true" {} }
}

/// The roles keep a table a table on a narrow screen, where its rows become blocks.
fn section(section: &Section, now: SystemTime) -> Markup {
    let anchor = section.group.name();
    let more = section.size.saturating_sub(section.jobs.len() as u64);
    html! {
        section {
            h2 id=(anchor) { (mark(section.group)) (title(section.group)) }
            @if more > 0 {
                p {
                    (count(more, "older job", "older jobs")) " are not listed here; "
                    code { "baybrief status" } " lists all."
                }
            }
            div.scroll role="region" aria-labelledby=(anchor) tabindex="0" {
                table role="table" aria-labelledby=(anchor) {
                    thead role="rowgroup" {
                        tr role="row" {
                            @for column in COLUMNS { th scope="col" role="columnheader" { (column) } }
                        }
                    }
                    tbody role="rowgroup" {
                        @for job in &section.jobs { (row(job, now)) }
                    }
                }
            }
        }
    }
}

fn row(job: &View, now: SystemTime) -> Markup {
    let cells = [
        html! { (visible(&job.state)) },
        html! { (visible(job.verdict.as_deref().unwrap_or("none yet"))) },
        html! { (job.age(now)) br; small { (job.arrived_text()) } },
        asks(job),
        results(job),
    ];
    html! {
        tr role="row" {
            th scope="row" role="rowheader" { (visible(&job.name)) }
            // On a narrow screen each cell names its column itself.
            @for (column, cell) in COLUMNS[1..].iter().zip(cells) {
                td role="cell" data-column=(column) { div { (cell) } }
            }
        }
    }
}

fn asks(job: &View) -> Markup {
    if job.asks.is_empty() {
        return html! { "nothing" };
    }
    html! { ul { @for ask in &job.asks { li { (visible(ask)) } } } }
}

fn results(job: &View) -> Markup {
    if job.results.is_empty() {
        return html! { "none yet" };
    }
    let folder = address(&job.name);
    // A screen reader reads links out of their row: each says whose it is.
    let of_job = html! { span.unseen { " of " (visible(&job.name)) } };
    html! {
        ul.links {
            @for file in &job.results {
                li { a href={ (folder) "/" (file) } { (file) (of_job) } }
            }
            @for n in &job.earlier {
                li { a href={ (folder) "/rev-" (n) "/report.pdf" } { "report " (n) (of_job) } ", replaced" }
            }
        }
    }
}

/// Text from outside without characters that control a terminal or a page.
fn visible(text: &str) -> String {
    let shown = |c: char| match c {
        '\n' => '\n',
        c if c.is_control() => '\u{FFFD}',
        c => c,
    };
    text.chars().map(shown).collect()
}

/// All but the unreserved characters of RFC 3986, 2.3.
const RESERVED: &AsciiSet = &NON_ALPHANUMERIC
    .remove(b'-')
    .remove(b'.')
    .remove(b'_')
    .remove(b'~');

/// Relative address of a job's folder. The leading dot keeps a name with a colon from being taken for a scheme.
fn address(name: &str) -> String {
    format!("./{}", utf8_percent_encode(name, RESERVED))
}

#[cfg(test)]
mod tests {
    use super::*;
    use intake::{JobState, JobView};

    #[test]
    fn names_from_outside_stay_text() {
        let job = JobView {
            name: "R-1 <script>alert('x')</script> & \"y\"?#%".into(),
            arrived: SystemTime::UNIX_EPOCH,
            state: JobState::Failed("<b>no</b>".into()),
            revision: None,
        };
        let sections = [Section {
            group: JobGroup::Asks,
            size: 1,
            jobs: vec![View::of(job, &|_, file| file == "report.pdf")],
        }];
        let page = page(&sections, &["<i>in</i>".into()], SystemTime::UNIX_EPOCH);
        assert!(!page.contains("<script") && !page.contains("<b>") && !page.contains("<i>"));
        assert!(page.contains("R-1 &lt;script&gt;"));
        // RFC 3986, 2.1: by hand.
        assert!(page.contains(
            "href=\"./R-1%20%3Cscript%3Ealert%28%27x%27%29%3C%2Fscript%3E%20%26%20%22y%22%3F%23%25/report.pdf\""
        ));
    }
}
