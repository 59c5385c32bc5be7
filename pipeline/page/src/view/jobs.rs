//! List of jobs.

use super::frame::Viewer;
use crate::JobRow;
use crate::routes::{Search, id};
use maud::{Markup, html};

const GROUPS: [&str; 4] = ["asks", "drafts", "work", "signed"];
/// Rows of a group that are shown; a search finds the others.
const MAX_ROWS: usize = 100;

pub(crate) fn jobs(viewer: &Viewer<'_>, rows: &[JobRow], search: &Search) -> Markup {
    let found: Vec<&JobRow> = rows.iter().filter(|r| matches(r, search)).collect();
    let body = html! {
        h1 { (viewer.say("jobs")) }
        div.tools {
            (search_form(viewer, search))
            (new_job(viewer))
        }
        @if found.is_empty() { p { (viewer.say("no-jobs")) } }
        @for group in GROUPS {
            @let of_group: Vec<&&JobRow> = found.iter().filter(|r| r.group == group).collect();
            @if !of_group.is_empty() { (section(viewer, group, &of_group)) }
        }
    };
    viewer.page(&viewer.say("jobs"), body)
}

fn matches(row: &JobRow, search: &Search) -> bool {
    let day = row.arrived.map(|a| a.format("%Y-%m-%d").to_string());
    let in_days = |day: &str| {
        (search.from.is_empty() || day >= &*search.from)
            && (search.to.is_empty() || day <= &*search.to)
    };
    let text = [
        row.name.as_str(),
        row.verdict.as_deref().unwrap_or_default(),
    ]
    .into_iter()
    .chain(row.facts.iter().map(String::as_str))
    .collect::<Vec<_>>()
    .join("\n")
    .to_lowercase();
    let has_words = search
        .q
        .split_whitespace()
        .all(|w| text.contains(&w.to_lowercase()));
    has_words
        && (search.group.is_empty() || row.group == search.group)
        && day.is_none_or(|d| in_days(&d))
}

fn search_form(viewer: &Viewer<'_>, search: &Search) -> Markup {
    html! {
        form.search role="search" action="/" method="get" {
            label for="q" { (viewer.say("search")) }
            input id="q" type="search" name="q" value=(search.q) placeholder=(viewer.say("search-hint"));
            label for="group" { (viewer.say("state")) }
            select id="group" name="group" {
                option value="" { (viewer.say("all")) }
                @for group in GROUPS {
                    option value=(group) selected[search.group == group] { (viewer.say(&format!("group-{group}"))) }
                }
            }
            label for="from" { (viewer.say("from-day")) }
            input id="from" type="date" name="from" value=(search.from);
            label for="to" { (viewer.say("to-day")) }
            input id="to" type="date" name="to" value=(search.to);
            button { (viewer.say("find")) }
        }
    }
}

fn new_job(viewer: &Viewer<'_>) -> Markup {
    html! {
        form.new method="post" action="/new" {
            (viewer.token())
            label for="name" { (viewer.say("new-job")) }
            input id="name" name="name" required maxlength="80" placeholder=(viewer.say("new-job-hint"));
            button { (viewer.say("begin")) }
        }
    }
}

fn section(viewer: &Viewer<'_>, group: &str, rows: &[&&JobRow]) -> Markup {
    let heading = format!("group-{group}");
    html! {
        section aria-labelledby=(heading) {
            h2 id=(heading) { span class={ "mark " (group) } aria-hidden="true" {} (viewer.say(&heading)) " · " (rows.len()) }
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
            span.verdict { (row.verdict.as_deref().unwrap_or(&row.state)) }
            @if let Some(arrived) = row.arrived {
                time datetime=(arrived.format("%Y-%m-%dT%H:%M:%S%:z")) { (arrived.format("%Y-%m-%d %H:%M")) }
            }
            span.facts { (row.facts.join(" · ")) }
        }
        @if !row.asks.is_empty() {
            ul.asks aria-label=(viewer.say("asked-for")) { @for ask in &row.asks { li { (ask) } } }
        }
    }
}
