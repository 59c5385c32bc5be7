//! Names that are not part of a job.

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

/// Whether a file or folder of this name is hidden, temporary or half-copied, and so no part of a job.
pub fn is_ignored(name: &str) -> bool {
    let name = name.to_lowercase();
    BEGINNINGS.iter().any(|b| name.starts_with(b))
        || ENDINGS.iter().any(|e| name.ends_with(e))
        || WHOLE.contains(&name.as_str())
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
}
