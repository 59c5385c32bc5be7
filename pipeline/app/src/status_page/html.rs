//! OUT/index.html: one file without scripts that works from a disk.

use super::Section;
use super::view::{View, count, title};
use crate::words::fluent_args;
use chrono::{DateTime, Local};
use intake::JobGroup;
use maud::{DOCTYPE, Markup, PreEscaped, html};
use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
use report::localizer::Localizer;
use std::time::SystemTime;

const STYLE: &str = include_str!("style.css");

/// Columns of the table, the job's own first.
const COLUMNS: [&str; 6] = [
    "console-page-job",
    "console-page-state",
    "console-page-verdict",
    "console-page-newest",
    "console-page-asked",
    "console-page-results",
];

/// Writes the page. `refusals` are entries of the inbox that belong to no job.
pub fn page(
    sections: &[Section],
    refusals: &[String],
    now: SystemTime,
    localizer: &Localizer,
) -> String {
    let text = |key: &str| localizer.message(key);
    let total: u64 = sections.iter().map(|s| s.size).sum();
    let jobs = count("console-jobs", total, localizer);
    let asking = sections.iter().find(|s| s.group == JobGroup::Asks);
    let asking = asking.map(|s| count("console-page-asking", s.size, localizer));
    let stamp = DateTime::<Local>::from(now);
    let page = html! {
        (DOCTYPE)
        html lang=(localizer.language()) {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { "baybrief: " (jobs) @if let Some(asking) = asking { ", " (asking) } }
                style { (PreEscaped(STYLE)) }
            }
            body {
                a.skip href="#jobs" { (text("console-page-skip")) }
                header {
                    h1 { (text("console-page-title")) }
                    p {
                        (text("console-page-as-of")) " "
                        time datetime=(stamp.format("%Y-%m-%dT%H:%M:%S%:z")) { (stamp.format("%Y-%m-%d %H:%M")) }
                        ". " (text("console-page-reload"))
                    }
                }
                @if !sections.is_empty() { (overview(sections, localizer)) }
                main #jobs {
                    @if sections.is_empty() { p { (text("console-jobs-none")) } }
                    @if !refusals.is_empty() {
                        section {
                            h2 { (text("console-refused")) }
                            ul { @for text in refusals { li { (visible(text)) } } }
                        }
                    }
                    @for s in sections { (section(s, now, localizer)) }
                }
                footer { p { (text("console-page-law")) } }
            }
        }
    };
    page.into_string()
}

fn overview(sections: &[Section], localizer: &Localizer) -> Markup {
    html! {
        nav aria-label=(localizer.message("console-page-groups")) {
            ul {
                @for s in sections {
                    li {
                        a href={ "#" (s.group.name()) } {
                            (mark(s.group)) (title(s.group, localizer)) ": " (s.size)
                        }
                    }
                }
            }
        }
    }
}

fn mark(group: JobGroup) -> Markup {
    html! { span class={ "mark " (group.name()) } aria-hidden="true" {} }
}

/// The roles keep a table a table on a narrow screen, where its rows become blocks.
fn section(section: &Section, now: SystemTime, localizer: &Localizer) -> Markup {
    let anchor = section.group.name();
    let more = section.size.saturating_sub(section.jobs.len() as u64);
    let columns = COLUMNS.map(|key| localizer.message(key));
    html! {
        section {
            h2 id=(anchor) { (mark(section.group)) (title(section.group, localizer)) }
            @if more > 0 {
                p {
                    (count("console-jobs-older", more, localizer)) " "
                    code { "baybrief status" } " " (localizer.message("console-jobs-list-all"))
                }
            }
            div.scroll role="region" aria-labelledby=(anchor) tabindex="0" {
                table role="table" aria-labelledby=(anchor) {
                    thead role="rowgroup" {
                        tr role="row" {
                            @for column in &columns { th scope="col" role="columnheader" { (column) } }
                        }
                    }
                    tbody role="rowgroup" {
                        @for job in &section.jobs { (row(job, &columns, now, localizer)) }
                    }
                }
            }
        }
    }
}

fn row(job: &View, columns: &[String], now: SystemTime, localizer: &Localizer) -> Markup {
    let none_yet = localizer.message("console-page-none-yet");
    let cells = [
        html! { (visible(&job.state)) },
        html! { (visible(job.verdict.as_deref().unwrap_or(&none_yet))) },
        html! { (job.age(now, localizer)) br; small { (job.arrived_text()) } },
        asks(job, localizer),
        results(job, localizer),
    ];
    html! {
        tr role="row" {
            th scope="row" role="rowheader" { (visible(&job.name)) }
            // On a narrow screen each cell names its column itself.
            @for (column, cell) in columns[1..].iter().zip(cells) {
                td role="cell" data-column=(column) { div { (cell) } }
            }
        }
    }
}

fn asks(job: &View, localizer: &Localizer) -> Markup {
    if job.asks.is_empty() {
        return html! { (localizer.message("console-page-nothing")) };
    }
    html! { ul { @for ask in &job.asks { li { (visible(ask)) } } } }
}

fn results(job: &View, localizer: &Localizer) -> Markup {
    if job.results.is_empty() {
        return html! { (localizer.message("console-page-none-yet")) };
    }
    let folder = address(&job.name);
    // A screen reader reads links out of their row: each says whose it is.
    let name = fluent_args!["job" => visible(&job.name)];
    let of_job = localizer.message_with("console-page-of-job", &name);
    let of_job = html! { span.unseen { " " (of_job) } };
    let report =
        |n: u32| localizer.message_with("console-page-report", &fluent_args!["report" => n]);
    html! {
        ul.links {
            @for file in &job.results {
                li { a href={ (folder) "/" (file) } { (file) (of_job) } }
            }
            @for n in &job.earlier {
                li {
                    a href={ (folder) "/rev-" (n) "/report.pdf" } { (report(*n)) (of_job) }
                    ", " (localizer.message("console-page-replaced"))
                }
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
    use crate::words;
    use intake::{JobState, JobView};
    use model::ShopFile;

    #[test]
    fn names_from_outside_stay_text() {
        let theme = words::of_shop(&ShopFile::default()).expect("English");
        let job = JobView {
            name: "R-1 <script>alert('x')</script> & \"y\"?#%".into(),
            arrived: SystemTime::UNIX_EPOCH,
            state: JobState::Failed("<b>no</b>".into()),
            revision: None,
        };
        let sections = [Section {
            group: JobGroup::Asks,
            size: 1,
            jobs: vec![View::of(job, &["report.pdf".into()], theme.localizer())],
        }];
        let page = page(
            &sections,
            &["<i>in</i>".into()],
            SystemTime::UNIX_EPOCH,
            theme.localizer(),
        );
        assert!(!page.contains("<script") && !page.contains("<b>") && !page.contains("<i>"));
        assert!(page.contains("R-1 &lt;script&gt;"));
        // RFC 3986, 2.1: by hand.
        assert!(page.contains(
            "href=\"./R-1%20%3Cscript%3Ealert%28%27x%27%29%3C%2Fscript%3E%20%26%20%22y%22%3F%23%25/report.pdf\""
        ));
    }
}
