//! OUT/index.html: one file without scripts that works from a disk.

use super::Section;
use super::view::{View, count, title};
use chrono::{DateTime, Local};
use intake::JobGroup;
use std::fmt::Write;
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

/// Writes the page.
pub fn page(sections: &[Section], now: SystemTime) -> String {
    let total: u64 = sections.iter().map(|s| s.size).sum();
    let jobs = count(total, "job", "jobs");
    let asking = sections.iter().find(|s| s.group == JobGroup::Asks);
    let title = match asking.map_or(0, |s| s.size) {
        0 => format!("baybrief: {jobs}"),
        asking => format!("baybrief: {jobs}, {asking} asking"),
    };
    let stamp = DateTime::<Local>::from(now).format("%Y-%m-%d %H:%M");
    let mut p = format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n<title>{title}</title>\n<style>\n{STYLE}</style>\n\
         </head>\n<body>\n<a class=\"skip\" href=\"#jobs\">Skip to the jobs</a>\n<header>\n<h1>Jobs</h1>\n\
         <p>As of <time datetime=\"{}\">{stamp}</time>. This page is written anew after each change; reload it to \
         see the newest.</p>\n</header>\n",
        DateTime::<Local>::from(now).format("%Y-%m-%dT%H:%M:%S%:z"),
    );
    if sections.is_empty() {
        p.push_str("<main id=\"jobs\">\n<p>There is no job yet.</p>\n</main>\n");
    } else {
        overview(&mut p, sections);
        p.push_str("<main id=\"jobs\">\n");
        for s in sections {
            section(&mut p, s, now);
        }
        p.push_str("</main>\n");
    }
    p.push_str(
        "<footer><p>A draft is no finding until a person has reviewed and signed it. Local law's own forms come \
         first.</p></footer>\n</body>\n</html>\n",
    );
    p
}

fn overview(p: &mut String, sections: &[Section]) {
    p.push_str("<nav aria-label=\"Kinds of jobs\">\n<ul>\n");
    for s in sections {
        let _ = writeln!(
            p,
            "<li><a href=\"#{0}\"><span class=\"mark {0}\" aria-hidden=\"true\"></span>{1}: {2}</a></li>",
            s.group.name(),
            title(s.group),
            s.size
        );
    }
    p.push_str("</ul>\n</nav>\n");
}

fn section(p: &mut String, section: &Section, now: SystemTime) {
    let (anchor, title) = (section.group.name(), title(section.group));
    let _ = writeln!(
        p,
        "<section>\n<h2 id=\"{anchor}\"><span class=\"mark {anchor}\" \
         aria-hidden=\"true\"></span>{title}</h2>"
    );
    let more = section.size.saturating_sub(section.jobs.len() as u64);
    if more > 0 {
        let _ = writeln!(
            p,
            "<p>{} are not listed here; <code>baybrief status</code> lists all.</p>",
            count(more, "older job", "older jobs")
        );
    }
    let _ = write!(
        p,
        "<div class=\"scroll\" role=\"region\" aria-labelledby=\"{anchor}\" tabindex=\"0\">\n<table role=\"table\" \
         aria-labelledby=\"{anchor}\">\n\
         <thead role=\"rowgroup\"><tr role=\"row\">"
    );
    for column in COLUMNS {
        let _ = write!(p, "<th scope=\"col\" role=\"columnheader\">{column}</th>");
    }
    p.push_str("</tr></thead>\n<tbody role=\"rowgroup\">\n");
    for job in &section.jobs {
        row(p, job, now);
    }
    p.push_str("</tbody>\n</table>\n</div>\n</section>\n");
}

fn row(p: &mut String, job: &View, now: SystemTime) {
    let (name, folder) = (escaped(&job.name), address(&job.name));
    let _ = write!(
        p,
        "<tr role=\"row\"><th scope=\"row\" role=\"rowheader\">{name}</th>"
    );
    cell(p, 1, &escaped(&job.state));
    cell(p, 2, &escaped(job.verdict.as_deref().unwrap_or("none yet")));
    let (age, arrived) = (escaped(&job.age(now)), job.arrived_text());
    cell(p, 3, &format!("{age}<br><small>{arrived}</small>"));
    cell(p, 4, &asks(job));
    cell(p, 5, &results(job, &name, &folder));
    p.push_str("</tr>\n");
}

/// On a narrow screen rows become blocks, and each cell names its column itself. The roles keep the table a table then.
fn cell(p: &mut String, column: usize, content: &str) {
    let label = COLUMNS.get(column).unwrap_or(&"");
    let _ = write!(
        p,
        "<td role=\"cell\" data-column=\"{label}\"><div>{content}</div></td>"
    );
}

fn asks(job: &View) -> String {
    if job.asks.is_empty() {
        return "nothing".into();
    }
    let asks = job
        .asks
        .iter()
        .map(|ask| format!("<li>{}</li>", escaped(ask)));
    format!("<ul>{}</ul>", asks.collect::<String>())
}

fn results(job: &View, name: &str, folder: &str) -> String {
    if job.results.is_empty() {
        return "none yet".into();
    }
    let mut p = String::from("<ul class=\"links\">");
    for file in &job.results {
        // A screen reader reads links out of their row: each says whose it is.
        let _ = write!(
            p,
            "<li><a href=\"{folder}/{file}\">{file}<span class=\"unseen\"> of {name}</span></a></li>"
        );
    }
    for n in &job.earlier {
        let _ = write!(
            p,
            "<li><a href=\"{folder}/rev-{n}/report.pdf\">report {n}<span class=\"unseen\"> of {name}</span></a>, \
             replaced</li>"
        );
    }
    p.push_str("</ul>");
    p
}

/// Text from outside as text of the page.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c if c.is_control() && c != '\n' => out.push('\u{FFFD}'),
            c => out.push(c),
        }
    }
    out
}

/// A folder's name as a relative address: RFC 3986, everything but unreserved characters by percent. The leading dot
/// keeps a name with a colon from being taken for a scheme.
fn address(name: &str) -> String {
    let mut out = String::from("./");
    for byte in name.bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' => {
                out.push(char::from(byte))
            }
            _ => {
                let _ = write!(out, "%{byte:02X}");
            }
        }
    }
    out
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
        let page = page(&sections, SystemTime::UNIX_EPOCH);
        assert!(!page.contains("<script") && !page.contains("<b>"));
        assert!(page.contains("R-1 &lt;script&gt;"));
        // RFC 3986, 2.1: by hand.
        assert!(page.contains(
            "href=\"./R-1%20%3Cscript%3Ealert%28%27x%27%29%3C%2Fscript%3E%20%26%20%22y%22%3F%23%25/report.pdf\""
        ));
    }
}
