//! Outcomes, learned limits, and evidence that can be checked years later.

use crate::bench::{Bench, PRICES, Said, call};
use crate::jobs::{Files, drag, evaluation_case, with_job_file};
use baybrief_evaluation::drives;
use std::fs;
use std::path::PathBuf;

const SHOP: &str = r#"
[report]
language = "en"
[sheets]
folders = ["own"]
"#;

const SHEET: &str = r#"
name = "meadow-six"
system = "dual-dry-clutch"
[value.shift-time]
high = 0.7
unit = "s"
source = "invented"
"#;

/// A shop with a job on its books.
fn shop_with_a_job(mut files: Files) -> (Bench, PathBuf) {
    let bench = Bench::new();
    let shop = bench.path("shop.toml");
    fs::write(&shop, format!("{SHOP}{PRICES}")).expect("the settings");
    fs::create_dir_all(bench.path("own/limits")).expect("a folder");
    fs::write(bench.path("own/limits/meadow.toml"), SHEET).expect("a sheet");
    let job = String::from_utf8(files["job.toml"].clone()).expect("text");
    let mut job: toml::Table = toml::from_str(&job).expect("job.toml");
    let vehicle = "diagnosis_hours = 1.0\n[vehicle]\nunit = \"meadow-six\"\nplate = \"SAMPLE 1\"\n";
    let mut words: toml::Table = toml::from_str(vehicle).expect("TOML");
    job.insert(
        "vehicle".into(),
        words.remove("vehicle").expect("a vehicle"),
    );
    job.insert("job".into(), words.into());
    let job = toml::to_string(&job).expect("TOML");
    files.insert("job.toml".into(), job.into_bytes());
    files.insert("photo.png".into(), PNG.to_vec());
    let job = bench.job("R-50", &files);
    let mut arguments = bench.run_arguments(&job, "out");
    arguments[5] = shop.clone();
    call(arguments).ends_with(0);
    (bench, shop)
}

/// One grey pixel.
const PNG: &[u8] = &[
    0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0x00, 0x00, 0x00, 0x0d, 0x49, 0x48, 0x44, 0x52,
    0x00, 0x00, 0x00, 0x01, 0x00, 0x00, 0x00, 0x01, 0x08, 0x00, 0x00, 0x00, 0x00, 0x3a, 0x7e, 0x9b,
    0x55, 0x00, 0x00, 0x00, 0x0a, 0x49, 0x44, 0x41, 0x54, 0x78, 0xda, 0x63, 0x68, 0x00, 0x00, 0x00,
    0x82, 0x00, 0x81, 0xda, 0x45, 0x08, 0x3b, 0x00, 0x00, 0x00, 0x00, 0x49, 0x45, 0x4e, 0x44, 0xae,
    0x42, 0x60, 0x82,
];

impl Bench {
    fn call_out(&self, arguments: &[&str]) -> Said {
        let out = self.path("out").display().to_string();
        call([arguments, &["--out", &out]].concat())
    }

    fn call_shop(&self, arguments: &[&str]) -> Said {
        let shop = self.path("shop.toml").display().to_string();
        self.call_out(&[arguments, &["--shop", &shop]].concat())
    }
}

#[test]
fn an_outcome_is_owed_recorded_and_never_changed() {
    let (bench, _) = shop_with_a_job(with_job_file(&drag(0, 1)));
    bench
        .call_out(&["status"])
        .ends_with(0)
        .says(&["Outcome owed", "1 job", "R-50"]);
    let by = ["--by", "B. Mechanic"];
    let outcome = |more: &[&str]| bench.call_out(&[&["outcome", "R-50"], &by[..], more].concat());
    outcome(&["--found", "other-cause"])
        .ends_with(2)
        .says(&["--cause", "one of", "clutch-1-slip"]);
    outcome(&["--found", "other-cause", "--cause", "clutch-1-drag"])
        .ends_with(2)
        .says(&["--found confirmed"]);
    outcome(&["--found", "confirmed", "--photo", "gone.jpg"])
        .ends_with(2)
        .says(&["gone.jpg", "photo.png"]);
    outcome(&["--found", "confirmed", "--system", "gearbox"])
        .ends_with(2)
        .says(&["gearbox", "dual-dry-clutch"]);
    outcome(&["--found", "not-opened"]).ends_with(0);
    let what = [
        "--found",
        "confirmed",
        "--part",
        "release bearing",
        "--photo",
        "photo.png",
        "--mended",
    ];
    outcome(&what).ends_with(0).says(&[
        "confirmed: Clutch 1 does not release",
        "mended",
        "release bearing",
        "photo.png",
        "B. Mechanic",
        "There is no recording after the repair",
    ]);
    let status = bench.call_out(&["status"]).ends_with(0);
    assert!(!status.out.contains("Outcome owed"), "{}", status.out);
    // Both words are kept; the last one counts.
    bench
        .call_out(&["status", "R-50"])
        .ends_with(0)
        .says(&["not opened", "confirmed: Clutch 1 does not release"]);
    bench
        .call_shop(&["learn", "record"])
        .ends_with(0)
        .says(&["established", "100 % (20.7 % to 100 %)"]);
    bench
        .call_shop(&["learn", "weights"])
        .ends_with(0)
        .says(&["clutch-1-drag/", "29 more"]);
}

#[test]
fn too_few_jobs_propose_and_are_not_adopted() {
    let (bench, shop) = shop_with_a_job(evaluation_case(drives::healthy, 1).0);
    bench
        .call_out(&["learn"])
        .ends_with(2)
        .says(&["--shop", "[learning]"]);
    bench
        .call_shop(&["learn"])
        .ends_with(0)
        .says(&["No job is proven good yet"]);
    bench
        .call_out(&[
            "outcome",
            "R-50",
            "--found",
            "healthy",
            "--by",
            "B. Mechanic",
        ])
        .ends_with(0);
    bench.call_shop(&["learn"]).ends_with(0).says(&[
        "meadow-six, engine running",
        "1 recording of 1 vehicle",
        "a proposal only",
        "59 vehicles are needed",
    ]);
    bench
        .call_shop(&["learn", "--adopt"])
        .ends_with(2)
        .says(&["--by"]);
    bench
        .call_shop(&["learn", "--adopt", "--by", "B. Mechanic"])
        .ends_with(1)
        .says(&["Nothing was adopted"]);
    bench
        .call_shop(&["export", "--known-good"])
        .ends_with(2)
        .says(&["5 vehicles"]);
    let empty = bench.path("empty.jws");
    fs::write(&empty, "no signature").expect("a file");
    let import = [
        "import",
        &empty.display().to_string(),
        "--from",
        "Hill Road",
        "--shop",
    ];
    call([&import[..], &[&shop.display().to_string()]].concat())
        .ends_with(2)
        .says(&["empty.jws", "RFC 7515"]);
    assert!(!bench.path("learned").exists(), "nothing was written");
}

#[test]
fn sealed_evidence_gives_the_same_case_again_and_shows_what_was_changed() {
    let (bench, shop) = shop_with_a_job(with_job_file(&drag(0, 1)));
    bench
        .call_out(&[
            "outcome",
            "R-50",
            "--found",
            "confirmed",
            "--by",
            "B. Mechanic",
        ])
        .ends_with(0);
    let archive = bench.path("R-50.zip").display().to_string();
    let shop = shop.display().to_string();
    let sealed = bench
        .call_out(&["seal", "R-50", "--to", &archive])
        .ends_with(0)
        .says(&["A key was made", "report 1", "sealed"]);
    let key = sealed
        .out
        .split("with the key ")
        .nth(1)
        .expect("a fingerprint");
    let key = key.split(['.', ' ', '\n']).next().expect("a fingerprint");
    // Whose key it is, somebody has to say.
    call(["verify", &archive]).ends_with(1).says(&[
        "files are as they were sealed",
        "whose it is, is not known here",
    ]);
    call(["verify", &archive, "--key", key, "--again"])
        .ends_with(0)
        .says(&["the expected key", "case.json is the same, byte for byte"]);
    call(["verify", &archive, "--shop", &shop]).ends_with(0);
    call([
        "verify",
        &archive,
        "--key",
        "-PrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k",
    ])
    .ends_with(1)
    .says(&["ANOTHER key"]);
    call(["verify", &shop])
        .ends_with(1)
        .says(&["expected a sealed archive"]);
    call(["verify", "gone.zip"]).ends_with(2);
    // The shop's private key is in no archive.
    let bytes = fs::read(&archive).expect("the archive");
    let mut zip = zip::ZipArchive::new(std::io::Cursor::new(bytes)).expect("a zip file");
    let names: Vec<String> = (0..zip.len())
        .map(|i| zip.by_index(i).expect("an entry").name_raw().to_vec())
        .map(|name| String::from_utf8(name).expect("UTF-8"))
        .collect();
    for wanted in [
        "job/job.toml",
        "job/photo.png",
        "results/case.json",
        "results/report.pdf",
        "settings/shop.toml",
        "settings/sheets/0/limits/meadow.toml",
        "in-force/dual-dry-clutch/causes.json",
        "in-force/dual-dry-clutch/limits.json",
        "events/ledger.json",
        "manifest.jws",
    ] {
        assert!(names.iter().any(|n| n == wanted), "{wanted} in {names:?}");
    }
    assert!(!names.iter().any(|n| n.contains("key")), "{names:?}");
    // A recording that changed is not sealed under a report that never saw it.
    let file = bench.path("jobs/R-50/job.toml");
    let text = fs::read_to_string(&file).expect("job.toml");
    fs::write(&file, format!("{text}\n# later\n")).expect("written");
    bench
        .call_out(&["seal", "R-50", "--to", &archive])
        .ends_with(1)
        .says(&["job/job.toml", "has changed since the report was made"]);
    // The report of a file that broke rests on what was last right in it, and so does the sealed job.
    fs::write(&file, text.replacen("[job]", "[job", 1)).expect("written");
    let folder = bench.path("jobs/R-50");
    let mut arguments = bench.run_arguments(&folder, "out");
    arguments[5] = PathBuf::from(&shop);
    call(arguments).ends_with(1);
    bench
        .call_out(&["seal", "R-50", "--to", &archive])
        .ends_with(0);
    call(["verify", &archive, "--key", key, "--again"])
        .ends_with(0)
        .says(&["case.json is the same, byte for byte"]);
}
