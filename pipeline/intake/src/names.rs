//! Names that are no part of a job, and names that no job can have.

use chrono::NaiveDate;

/// Beginnings, endings and whole names (in lower case) of what editors, browsers, copy programs and file
/// managers leave about. Common practice, no source.
const BEGINNINGS: [&str; 2] = [".", "~"];
const ENDINGS: [&str; 9] = [
    "~",
    ".tmp",
    ".temp",
    ".part",
    ".partial",
    ".crdownload",
    ".download",
    ".filepart",
    ".swp",
];
const WHOLE: [&str; 3] = ["thumbs.db", "desktop.ini", "$recycle.bin"];

/// Files and folders of the program itself in the folder of results.
const RESERVED: [&str; 2] = [".baybrief", "index.html"];

/// Returns whether a file or folder of this name is hidden, temporary or half-copied, and so no part of a job.
pub fn is_ignored(name: &str) -> bool {
    let name = name.to_lowercase();
    BEGINNINGS.iter().any(|b| name.starts_with(b))
        || ENDINGS.iter().any(|e| name.ends_with(e))
        || WHOLE.contains(&name.as_str())
}

/// Returns whether a file of a job holds its answers: `job.toml` of a folder, `JOB_job.toml` among loose files.
pub fn is_job_file(path: &str) -> bool {
    path == "job.toml" || (path.ends_with("_job.toml") && !path.contains('/'))
}

/// Returns whether the folder of results uses the name for something else than a job: the program's own folder, the
/// status page, the batch files of labour rows. Some file systems do not tell capitals from small letters.
pub fn is_reserved(name: &str) -> bool {
    let name = name.to_lowercase();
    let day = name
        .strip_prefix("labour-")
        .and_then(|n| n.strip_suffix(".csv"));
    RESERVED.contains(&name.as_str())
        || day.is_some_and(|day| day.parse::<NaiveDate>().is_ok())
        || matches!(name.as_str(), "" | "." | "..")
        || name.contains(['/', '\\', '\0'])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn leftovers_are_ignored_and_recordings_are_not() {
        for name in [
            ".DS_Store",
            "~$notes.docx",
            "relearn.csv.part",
            "a.crdownload",
            "Thumbs.db",
            "x.TMP",
            "job.toml~",
        ] {
            assert!(is_ignored(name), "{name}");
        }
        for name in [
            "relearn.csv",
            "job.toml",
            "scan~1.txt",
            "partial.csv",
            "tmp.csv",
            "Müller.csv",
        ] {
            assert!(!is_ignored(name), "{name}");
        }
    }

    #[test]
    fn names_of_the_program_s_own_files_are_reserved() {
        for name in [
            "index.html",
            "INDEX.HTML",
            ".baybrief",
            "labour-2026-03-02.csv",
            "Labour-2026-03-02.CSV",
            "..",
            "a/b",
        ] {
            assert!(is_reserved(name), "{name}");
        }
        for name in [
            "R-2041",
            "index",
            "labour-2026-13-02.csv",
            "labour-2026-03-02.csv.txt",
            "labour",
        ] {
            assert!(!is_reserved(name), "{name}");
        }
    }
}
