//! problems.txt: what could not be used and what was odd, in plain words.

use crate::words::fluent_args;
use model::Case;
use model::case::FileStatus;
use report::localizer::Localizer;

/// The text; `None` when there is nothing to say.
pub fn of(case: &Case, localizer: &Localizer) -> Option<String> {
    let aside = case.files.iter();
    let aside = aside.filter(|f| f.status == FileStatus::SetAside);
    // The message names its file.
    let aside = aside.map(|f| localizer.translate(f.message.as_deref().unwrap_or(&f.path)));
    let not_run = case.not_run.iter().map(|n| {
        let check = match &n.file {
            Some(file) => {
                let arguments = fluent_args!["check" => n.plugin.as_str(), "file" => file.as_str()];
                localizer.message_with("console-problems-on", &arguments)
            }
            None => n.plugin.clone(),
        };
        format!("{check}: {}", localizer.translate(&n.reason))
    });
    let parts: [(&str, Vec<String>); 3] = [
        ("console-problems-aside", aside.collect()),
        ("console-problems-not-run", not_run.collect()),
        (
            "console-problems-odd",
            case.problems.iter().map(|p| localizer.problem(p)).collect(),
        ),
    ];
    let parts: Vec<String> = parts
        .into_iter()
        .filter(|(_, lines)| !lines.is_empty())
        .map(|(title, lines)| list(&localizer.message(title), &lines))
        .collect();
    (!parts.is_empty()).then(|| under_head(&parts.join("\n"), localizer))
}

/// The text for a job that got no report at all.
pub fn alone(reason: &str, localizer: &Localizer) -> String {
    let title = localizer.message("console-problems-alone");
    under_head(&list(&title, &[localizer.translate(reason)]), localizer)
}

fn under_head(text: &str, localizer: &Localizer) -> String {
    format!("{}\n\n{text}", localizer.message("console-problems-head"))
}

fn list(title: &str, lines: &[String]) -> String {
    let mut text = format!("{title}\n");
    for line in lines {
        text.push_str(&format!("- {}\n", line.replace('\n', "\n  ")));
    }
    text
}
