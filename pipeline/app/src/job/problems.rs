//! problems.txt: what could not be used and what was odd, in plain words.

use crate::context::line;
use model::Case;
use model::case::FileStatus;

const HEAD: &str = "Nothing in the inbox was moved, changed or deleted.\n";

/// The text; `None` when there is nothing to say.
pub fn of(case: &Case) -> Option<String> {
    let aside: Vec<String> = case
        .files
        .iter()
        .filter(|f| f.status == FileStatus::SetAside)
        // The message names its file.
        .map(|f| f.message.clone().unwrap_or_else(|| f.path.clone()))
        .collect();
    let not_run: Vec<String> = case
        .not_run
        .iter()
        .map(|n| match &n.file {
            Some(file) => format!("{} on {file}: {}", n.plugin, n.reason),
            None => format!("{}: {}", n.plugin, n.reason),
        })
        .collect();
    let odd: Vec<String> = case.problems.iter().map(line).collect();
    let parts = [
        (
            "These files were set aside, and the report was made without them:",
            aside,
        ),
        ("These checks did not run:", not_run),
        ("This was odd in files that were read:", odd),
    ];
    let parts: Vec<String> = parts
        .into_iter()
        .filter(|(_, lines)| !lines.is_empty())
        .map(|(title, lines)| list(title, &lines))
        .collect();
    (!parts.is_empty()).then(|| format!("{HEAD}\n{}", parts.join("\n")))
}

/// The text for a job that got no report at all.
pub fn alone(reason: &str) -> String {
    let reasons = [reason.to_string()];
    format!(
        "{HEAD}\n{}",
        list(
            "There is no report of the job's present files, and it will be tried again, because:",
            &reasons
        )
    )
}

fn list(title: &str, lines: &[String]) -> String {
    let mut text = format!("{title}\n");
    for line in lines {
        text.push_str(&format!("- {}\n", line.replace('\n', "\n  ")));
    }
    text
}
