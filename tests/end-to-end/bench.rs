//! The bench: runs the executable and looks at what it left.

use serde_json::Value;
use std::collections::BTreeMap;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::sync::LazyLock;
use tempfile::TempDir;

/// The executable under test.
pub const EXECUTABLE: &str = env!("CARGO_BIN_EXE_baybrief");

/// Folders of one test: job folders go in, results come out.
pub struct Bench {
    pub dir: TempDir,
}

/// Output of a call.
#[derive(Debug)]
pub struct Said {
    pub status: i32,
    pub out: String,
    pub err: String,
}

/// A call of the executable that looks for plugins only where it does by itself.
pub fn command<S: AsRef<OsStr>>(arguments: impl IntoIterator<Item = S>) -> Command {
    let mut command = Command::new(EXECUTABLE);
    command.args(arguments).env_remove("BAYBRIEF_PLUGINS");
    // Fixtures crash by design: no record of that may last.
    command.env_remove("XDG_STATE_HOME").env_remove("HOME");
    command
}

/// Calls the executable and waits for its end. A call that a signal ended, or a panic, is never right.
#[track_caller]
pub fn call<S: AsRef<OsStr>>(arguments: impl IntoIterator<Item = S>) -> Said {
    said(command(arguments).output().expect("the executable starts"))
}

/// Output of a call, both streams.
#[track_caller]
pub fn said(output: Output) -> Said {
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("the terminal gets UTF-8");
    let (out, err) = (text(output.stdout), text(output.stderr));
    let status = output.status.code();
    let status = status.unwrap_or_else(|| panic!("ended by a signal:\n{out}\n{err}"));
    assert!(
        !err.contains("panicked at") && status != 101,
        "it panicked:\n{err}"
    );
    Said { status, out, err }
}

impl Said {
    /// Both outputs, for messages.
    pub fn all(&self) -> String {
        format!("status {}\n{}\n{}", self.status, self.out, self.err)
    }

    #[track_caller]
    pub fn ends_with(self, status: i32) -> Said {
        assert_eq!(self.status, status, "{}", self.all());
        self
    }

    #[track_caller]
    pub fn says(self, words: &[&str]) -> Said {
        for w in words {
            assert!(self.all().contains(w), "{w:?} is not said:\n{}", self.all());
        }
        self
    }
}

impl Bench {
    pub fn new() -> Bench {
        Bench {
            dir: tempfile::tempdir().expect("a folder for the test"),
        }
    }

    /// A folder of the test by name.
    pub fn path(&self, name: &str) -> PathBuf {
        self.dir.path().join(name)
    }

    /// Writes a job folder and gives its path.
    pub fn job(&self, name: &str, files: &BTreeMap<String, Vec<u8>>) -> PathBuf {
        let folder = self.path("jobs").join(name);
        std::fs::create_dir_all(&folder).expect("a job folder");
        for (file, bytes) in files {
            std::fs::write(folder.join(file), bytes).expect("a file of the job");
        }
        folder
    }

    /// The arguments of `run` with the example shop's settings.
    pub fn run_arguments(&self, job: &Path, out: &str) -> Vec<PathBuf> {
        let mut arguments: Vec<PathBuf> = vec!["run".into(), job.into()];
        arguments.extend([
            "--out".into(),
            self.path(out),
            "--shop".into(),
            example_shop(),
        ]);
        arguments
    }

    /// `run` on a job folder that has nothing to report on.
    #[track_caller]
    pub fn run_without_report(&self, job: &Path) -> (Said, Results) {
        let said = call(self.run_arguments(job, "out"));
        (said, Results::read_without_report(&self.path("out"), job))
    }

    /// `run` on one job folder, which must leave the folder as it was.
    #[track_caller]
    pub fn run(&self, job: &Path) -> (Said, Results) {
        let before = contents(job);
        let said = call(self.run_arguments(job, "out"));
        assert!(contents(job) == before, "the job folder was changed");
        let results = Results::read(&self.path("out"), job);
        (said, results)
    }
}

/// The shop's settings that the project shows as an example.
pub fn example_shop() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/shop.toml")
}

/// Every file below a folder with its bytes.
pub fn contents(folder: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut all = BTreeMap::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(&folder).expect("a folder that can be listed") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let bytes = std::fs::read(&path).expect("a file that can be read");
                all.insert(path, bytes);
            }
        }
    }
    all
}

/// A price book with one rate and one operation.
pub const PRICES: &str = r#"
[billing]
currency = "EUR"
default_rate = "diagnostic"
[billing.rates]
diagnostic = "100.00"
[[billing.operation]]
code = "D100"
step = "diagnosis"
description = "Diagnosis"
"#;

/// Outcome of a job.
pub struct Results {
    pub folder: PathBuf,
    pub pdf: Vec<u8>,
    pub technician: Vec<u8>,
    pub labour: Vec<u8>,
    pub case: Value,
}

impl Results {
    /// Reads and checks the three results of a job.
    #[track_caller]
    pub fn read(out: &Path, job: &Path) -> Results {
        let folder = out.join(job.file_name().expect("a job's name"));
        let read = |name: &str| {
            std::fs::read(folder.join(name)).unwrap_or_else(|e| panic!("{name} was not made: {e}"))
        };
        let case: Value = serde_json::from_slice(&read("case.json")).expect("case.json is JSON");
        let results = Results {
            pdf: read("report.pdf"),
            technician: read("technician.pdf"),
            labour: read("labour.csv"),
            case,
            folder,
        };
        assert!(results.pdf.starts_with(b"%PDF-"), "report.pdf is no PDF");
        results.check();
        results
    }

    /// Reads and checks the results of a job that has nothing to report on: there is no report.
    #[track_caller]
    pub fn read_without_report(out: &Path, job: &Path) -> Results {
        let folder = out.join(job.file_name().expect("a job's name"));
        for name in ["report.pdf", "technician.pdf"] {
            assert!(!folder.join(name).exists(), "{name} was made of nothing");
        }
        let read = |name: &str| {
            std::fs::read(folder.join(name)).unwrap_or_else(|e| panic!("{name} was not made: {e}"))
        };
        let results = Results {
            pdf: Vec::new(),
            technician: Vec::new(),
            labour: read("labour.csv"),
            case: serde_json::from_slice(&read("case.json")).expect("case.json is JSON"),
            folder,
        };
        results.check();
        results
    }

    #[track_caller]
    fn check(&self) {
        let errors: Vec<String> = SCHEMA
            .iter_errors(&self.case)
            .map(|e| e.to_string())
            .collect();
        assert!(
            errors.is_empty(),
            "case.json is not as the schema says: {errors:#?}"
        );
        for line in self.labour_rows() {
            assert_eq!(
                line.len(),
                12,
                "a labour line has the twelve columns: {line:?}"
            );
        }
    }

    /// Words of the customer's report, whatever its lines and pages.
    pub fn words(&self) -> String {
        words_of(&self.pdf)
    }

    /// Words of the technician's report.
    pub fn technician_words(&self) -> String {
        words_of(&self.technician)
    }

    /// labour.csv with its header.
    pub fn labour_rows(&self) -> Vec<csv::StringRecord> {
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(&*self.labour);
        reader
            .records()
            .map(|r| r.expect("labour.csv is as RFC 4180 has it"))
            .collect()
    }

    /// A value of case.json by its JSON pointer (RFC 6901).
    #[track_caller]
    pub fn at(&self, pointer: &str) -> &Value {
        self.case
            .pointer(pointer)
            .unwrap_or_else(|| panic!("case.json has no {pointer}"))
    }

    /// A list of case.json.
    #[track_caller]
    pub fn list(&self, pointer: &str) -> &[Value] {
        self.at(pointer)
            .as_array()
            .unwrap_or_else(|| panic!("{pointer} is no list"))
    }

    /// State, cause and teardown in one line: `established clutch-1-drag teardown`.
    pub fn verdict(&self) -> String {
        let v = self.at("/verdict");
        let mut words = vec![v["state"].as_str().expect("a state")];
        words.extend(v["cause"].as_str());
        words.extend(
            v["teardown"]
                .as_bool()
                .expect("a yes or no")
                .then_some("teardown"),
        );
        words.join(" ")
    }

    /// The steps that are named next.
    pub fn next(&self) -> Vec<&str> {
        self.list("/verdict/next")
            .iter()
            .filter_map(|n| n["step"].as_str())
            .collect()
    }

    /// The record of one file.
    #[track_caller]
    pub fn file(&self, path: &str) -> &Value {
        let found = self.list("/files").iter().find(|f| f["path"] == path);
        found.unwrap_or_else(|| panic!("{path} is not in files: {:#}", self.at("/files")))
    }
}

/// The schema that `baybrief schema` prints.
static SCHEMA: LazyLock<jsonschema::Validator> = LazyLock::new(|| {
    let said = call(["schema"]).ends_with(0);
    let schema: Value = serde_json::from_str(&said.out).expect("the schema is JSON");
    jsonschema::meta::validate(&schema).expect("the schema is a JSON Schema");
    jsonschema::validator_for(&schema).expect("the schema can be used")
});

fn words_of(pdf: &[u8]) -> String {
    let text = pdf_extract::extract_text_from_mem(pdf).expect("the report's text");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
