//! Job files as people write them, with what is wrong in them.

use super::*;
use proptest::prelude::*;

fn known() -> KnownNames {
    let names = |names: &[&str]| names.iter().map(|n| n.to_string()).collect();
    KnownNames {
        units: names(&["sample-unit", "other-unit"]),
        systems: names(&["sample-system", "other-system"]),
        roles: names(&["feed-current", "feed-voltage", "pump-voltage"]),
        presets: names(&["usual"]),
    }
}

fn job(text: &str) -> Parsed<JobFile> {
    read_job_file(text, "job.toml", &known())
}

/// Places and messages of the errors of a text.
fn errors(text: &str) -> Vec<(String, String)> {
    let errors = job(text).errors.into_iter();
    errors
        .map(|e| (e.place.unwrap_or_default(), e.message))
        .collect()
}

#[track_caller]
fn one_error(text: &str, place: &str, says: &[&str]) -> JobFile {
    let parsed = job(text);
    let [error] = &parsed.errors[..] else {
        panic!("{:?}\n{text}", parsed.errors)
    };
    assert_eq!(error.place.as_deref(), Some(place), "{text}\n{error:?}");
    for what in says {
        assert!(
            error.message.contains(what),
            "{what}: {}\n{text}",
            error.message
        );
    }
    for internal in [
        "f64",
        "u16",
        "u32",
        "struct",
        "datetime",
        "invalid type",
        "boolean",
        "sequence",
        "TOML",
    ] {
        assert!(!error.message.contains(internal), "{}", error.message);
    }
    parsed.value
}

#[test]
fn a_whole_job_file() {
    let text = "[job]\nnumber = \"R-1\"\nopened = 2026-03-02\n[vehicle]\nvin = \"ZZZEG000000000012\"\n\
                unit = \"sample-unit\"\nsystems = [\"other-system\"]\n[unit]\ncylinders = 4\n\
                [[capture]]\nfile = \"a.csv\"\nselector = \"P\"\ntime_unit = \"ms\"\nstate = \"key-off\"\npreset = \"usual\"\n\
                [capture.channels.\"Input 1\"]\nrole = \"feed-current\"\namps_per_volt = 100.0\n";
    let parsed = job(text);
    assert!(parsed.errors.is_empty(), "{:?}", parsed.errors);
    assert!(parsed.doubts.is_empty());
    let channel = &parsed.value.captures[0].channels["Input 1"];
    assert_eq!(channel.role.as_deref(), Some("feed-current"));
    assert!(job("").errors.is_empty());
    assert!(job("\u{feff}[job]\nnumber = \"1\"\n").errors.is_empty());
}

#[test]
fn wrong_lines_are_put_behind_a_remark_sign() {
    let text = "\u{feff}[job]\nnumber = \"R-1\"\nopened = 9.3.2026\n[job]\ntechnician = \"A\"\n[vehicle] # ours\n  year: 2019\n[concern] text\n";
    let sound = comment_out(text);
    let expected = "[job]\nnumber = \"R-1\"\n# opened = 9.3.2026\n# [job]\n# technician = \"A\"\n[vehicle] # ours\n# year: 2019\n\
                    [concern]     # [concern] text\n";
    assert_eq!(sound, expected);
    assert!(job(&sound).errors.is_empty());
    assert_eq!(comment_out(&sound), sound);
    let many = "x y\n".repeat(200);
    assert_eq!(comment_out(&many), "# x y\n".repeat(200));
}

/// Each wrong line costs itself and nothing else, and its message says what to write.
#[test]
fn a_wrong_line_costs_that_line() {
    let rest = "[vehicle]\nmake = \"Invented make\"\n";
    for (line, place, says) in [
        (
            "opened = 9.3.2026",
            "line 3, key opened",
            &["9.3.2026", "2026-03-09"][..],
        ),
        (
            "opened = \"2026-03-09\"",
            "line 3, key opened",
            &["without quotes", "2026-03-09"],
        ),
        (
            "opened = \"03/25/2026\"",
            "line 3, key opened",
            &["2026-03-25"],
        ),
        (
            "diagnosis_hours = 1,5",
            "line 3, key diagnosis_hours",
            &["1,5", "write 1.5 with a point"],
        ),
        (
            "diagnosis_hours = \"1.5\"",
            "line 3, key diagnosis_hours",
            &["write 1.5 without quotes"],
        ),
        (
            "diagnosis_hours = \"two\"",
            "line 3, key diagnosis_hours",
            &["two", "a number such as 1.5"],
        ),
        (
            "technician = Sample Person",
            "line 3, key technician",
            &["technician = \"Sample Person\""],
        ),
        (
            "technician = \"Sample",
            "line 3, key technician",
            &["close the quotes"],
        ),
        (
            "technician = 5",
            "line 3, key technician",
            &["found 5", "technician = \"5\""],
        ),
        (
            "technican = \"Sample\"",
            "line 3, key technican",
            &["no key technican", "Did you mean technician?"],
        ),
        (
            "authorised = [\"teardown\"]",
            "line 3, key authorised",
            &["command", "authorise"],
        ),
        (
            "technician = “Sample”",
            "line 3, key technician",
            &["straight quotes", "technician = \"Sample\""],
        ),
        (
            "diagnosis_hours = 1 5",
            "line 3, key diagnosis_hours",
            &["a number alone"],
        ),
        ("technician", "line 3", &["key = value"]),
        (
            "concern]",
            "line 3",
            &["write [concern] on a line of its own"],
        ),
        ("technician =", "line 3, key technician", &["write a value"]),
    ] {
        let text = format!("[job]\nnumber = \"R-1\"\n{line}\n{rest}");
        let job = one_error(&text, place, says);
        assert_eq!(job.job.number.as_deref(), Some("R-1"), "{line}");
        assert_eq!(job.vehicle.make.as_deref(), Some("Invented make"), "{line}");
    }
}

#[test]
fn sections_and_values_of_a_capture() {
    let job = one_error(
        "[job] number = \"R-1\"\n[vehicle]\nmake = \"x\"\n",
        "line 1",
        &["write [job] on a line of its own"],
    );
    assert_eq!(job.vehicle.make.as_deref(), Some("x"));
    // The section stays open for the lines below it.
    let job = one_error(
        "[job] number = \"R-1\"\ntechnician = \"Sample\"\n",
        "line 1",
        &["[job]"],
    );
    assert_eq!(job.job.technician.as_deref(), Some("Sample"));
    let capture = |line: &str| format!("[[capture]]\nfile = \"a.csv\"\n{line}\nselector = \"P\"\n");
    for (line, place, says) in [
        (
            "engine = \"runing\"",
            "line 3, key engine",
            &["runing", "Did you mean \"running\"?", "\"cranking\""][..],
        ),
        ("hookup = \"usual\"", "line 3, key hookup", &["preset = "]),
        (
            "preset = \"usul\"",
            "line 3, key preset",
            &["no channel preset \"usul\"", "usual"],
        ),
        ("time_unit = \"sec\"", "line 3, key time_unit", &["\"ms\""]),
        (
            "note = \"C:\\captures\\new\"",
            "line 3, key note",
            &["single quotes", "note = 'C:\\captures\\new'"],
        ),
        (
            "note = C:\\captures\\a.csv",
            "line 3, key note",
            &["single quotes", "note = 'C:\\captures\\a.csv'"],
        ),
    ] {
        let job = one_error(&capture(line), place, says);
        assert_eq!(job.captures.len(), 1, "{line}");
        assert!(job.captures[0].selector.is_some(), "{line}");
    }
    // A capture without a file cannot be matched to anything.
    let job = one_error(
        "[[capture]]\nselector = \"P\"\n[[capture]]\nfile = \"b.csv\"\n",
        "line 1",
        &["file is missing"],
    );
    assert_eq!(job.captures[0].file, "b.csv");
}

#[test]
fn answers_and_numbers_of_the_vehicle() {
    for (line, place, says) in [
        (
            "high_voltage = yes",
            "line 2, key high_voltage",
            &["high_voltage = true"][..],
        ),
        (
            "high_voltage = \"no\"",
            "line 2, key high_voltage",
            &["high_voltage = false"],
        ),
        ("year = 2013.5", "line 2, key year", &["whole number"]),
        ("year = 99999", "line 2, key year", &["smaller number"]),
        ("year = -1", "line 2, key year", &["not negative"]),
        (
            "odometer_km = 126 564",
            "line 2, key odometer_km",
            &["without spaces"],
        ),
        (
            "odometer_km = 126564 km",
            "line 2, key odometer_km",
            &["without a unit"],
        ),
        (
            "systems = \"other-system\"",
            "line 2, key systems",
            &["systems = [\"other-system\"]"],
        ),
    ] {
        let job = one_error(&format!("[vehicle]\n{line}\nmake = \"x\"\n"), place, says);
        assert_eq!(job.vehicle.make.as_deref(), Some("x"), "{line}");
    }
}

#[test]
fn sections_that_are_wrong() {
    let job = one_error(
        "[capture]\nfile = \"a.csv\"\n[vehicle]\nmake = \"x\"\n",
        "line 1",
        &["[[capture]]", "two brackets"],
    );
    assert_eq!(job.vehicle.make.as_deref(), Some("x"));
    for header in ["[vehicle", "[job]"] {
        let text =
            format!("[job]\nnumber = \"1\"\n{header}\nmake = \"y\"\n[concern]\ntext = \"z\"\n");
        let job = one_error(&text, "line 3", &["left out with it"]);
        assert_eq!(job.job.number.as_deref(), Some("1"), "{header}");
        assert_eq!(job.concern.text.as_deref(), Some("z"), "{header}");
    }
}

#[test]
fn names_that_do_not_exist_list_those_that_do() {
    let text = "[vehicle]\nunit = \"sample-unt\"\nsystems = [\"other-systm\"]\n[[capture]]\nfile = \"a.csv\"\n\
                [capture.channels.\"Input 1\"]\nrole = \"fed-current\"\nteeth = 30\n";
    let parsed = job(text);
    let said: Vec<_> = parsed
        .errors
        .iter()
        .map(|e| (e.place.as_deref().unwrap(), e.message.as_str()))
        .collect();
    assert_eq!(said.len(), 3, "{said:?}");
    assert_eq!(said[0].0, "line 2, key unit");
    assert!(
        said[0].1.contains("Did you mean \"sample-unit\"?")
            && said[0].1.contains("sample-unit, other-unit")
    );
    assert_eq!(said[1].0, "line 3, key systems");
    assert_eq!(said[2].0, "line 7, channel \"Input 1\", key role");
    assert!(said[2].1.contains("\"feed-current\"?"), "{}", said[2].1);
    // Named and unknown is not the same as never named.
    assert_eq!(parsed.value.vehicle.unit.as_deref(), Some("sample-unt"));
    assert_eq!(parsed.value.vehicle.systems, ["other-systm"]);
    let channel = &parsed.value.captures[0].channels["Input 1"];
    assert_eq!((channel.role.as_deref(), channel.teeth), (None, Some(30)));
}

#[test]
fn all_errors_at_once_in_the_order_of_their_lines() {
    let text = "[job]\nopened = 9.3.2026\nnumbr = \"1\"\n[vehicle]\nyear = \"2013\"\nodometer_km = 12,5\nplate = 5\n\
                [[capture]]\nfile = \"a.csv\"\nengine = \"on\"\n[capture.channels.A]\namps_per_volt = 0.0\nteeth = 0\n";
    let places: Vec<String> = errors(text).into_iter().map(|e| e.0).collect();
    assert_eq!(
        places,
        [
            "line 2, key opened",
            "line 3, key numbr",
            "line 5, key year",
            "line 6, key odometer_km",
            "line 7, key plate",
            "line 10, key engine",
            "line 12, channel \"A\", key amps_per_volt",
            "line 13, channel \"A\", key teeth",
        ]
    );
}

#[test]
fn a_section_that_does_not_exist_costs_itself() {
    let job = one_error(
        "[job]\nnumber = \"1\"\n[custmer]\nname = \"x\"\n[vehicle]\nmake = \"y\"\n",
        "line 3",
        &["no key custmer", "Did you mean customer?"],
    );
    assert_eq!(job.vehicle.make.as_deref(), Some("y"));
}

#[test]
fn a_doubtful_vehicle_number_is_no_error() {
    let doubts = |text: &str| {
        let parsed = job(text);
        assert!(parsed.errors.is_empty());
        parsed.doubts
    };
    let wrong_digit = doubts("[vehicle]\nvin = \"1EXAMPLE100000007\"\n");
    assert_eq!(wrong_digit[0].place.as_deref(), Some("line 2, key vin"));
    assert!(
        doubts("[vehicle]\nvin = \"SHORT\"\n")[0]
            .message
            .contains("17")
    );
}

/// Every preset that is shipped can be read, and is named like its file.
#[test]
fn the_examples_can_be_read() {
    let folder = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../plugins/dual-dry-clutch/presets"
    );
    let mut count = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let text = read_text(&path, &name).unwrap();
        let preset = read_preset(&text, &name, &KnownNames::default());
        assert!(preset.errors.is_empty(), "{:?}", preset.errors);
        assert_eq!(format!("{}.toml", preset.value.name), name);
        assert!(preset.value.channels.values().all(|c| c.role.is_some()));
        count += 1;
    }
    assert!(count >= 3);
}

#[test]
fn a_preset_with_a_wrong_key_names_file_line_and_key() {
    let text =
        "name = \"x\"\n[channels.\"Input 1\"]\nrole = \"feed-current\"\namps_pr_volt = 1.0\n";
    let parsed = read_preset(text, "x.toml", &known());
    let e = &parsed.errors[0];
    assert_eq!(
        (e.file.as_str(), e.place.as_deref()),
        (
            "x.toml",
            Some("line 4, channel \"Input 1\", key amps_pr_volt")
        )
    );
    assert!(e.message.contains("Did you mean amps_per_volt?"), "{e:?}");
    assert_eq!(parsed.value.channels.len(), 1);
    let unnamed = read_preset("[channels.A]\nteeth = 30\n", "x.toml", &known());
    assert!(unnamed.errors[0].message.contains("no name"));
}

#[test]
fn the_shops_file_is_read_the_same_way() {
    let parsed = read_shop_file(
        "[shop]\nname = \"Sample Diagnostics\"\nnam = 5\n",
        "shop.toml",
    );
    assert_eq!(parsed.errors[0].place.as_deref(), Some("line 3, key nam"));
    assert_eq!(
        parsed.value.shop.name.as_deref(),
        Some("Sample Diagnostics")
    );
}

#[test]
fn files_that_are_no_settings() {
    let large = "# \n".repeat(LARGEST_FILE);
    assert!(job(&large).errors[0].message.contains("1 MiB"));
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("job.toml");
    std::fs::write(&path, b"[job]\nnumber = \"\xE9\"\n").unwrap();
    let e = read_text(&path, "job.toml").unwrap_err();
    assert_eq!(e.place.as_deref(), Some("line 2"));
    assert!(e.message.contains("UTF-8"));
    std::fs::File::create(&path)
        .unwrap()
        .set_len(1 << 40)
        .unwrap();
    assert!(
        read_text(&path, "job.toml")
            .unwrap_err()
            .message
            .contains("1 MiB")
    );
    // Nesting, and nothing but errors.
    for open in ["[", "{a=", "[[a."] {
        let text = format!("x = {}", open.repeat(100_000));
        assert!(!job(&text).errors.is_empty());
    }
    let wrong = errors(&"a b\n".repeat(1000));
    assert!(wrong.len() <= 102, "{}", wrong.len());
    assert!(wrong.last().unwrap().1.contains("more errors"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]
    /// Whatever the text: a value, and errors that say something.
    #[test]
    fn any_text(text in "[\\[\\]a-z_=\"'0-9.,\\n #\\\\\u{e9}{}-]{0,200}") {
        let parsed = job(&text);
        prop_assert!(parsed.errors.iter().all(|e| !e.message.is_empty()));
    }

    /// A whole file with some characters changed keeps nearly all of its lines.
    #[test]
    fn spoilt_files(changes in prop::collection::vec((any::<prop::sample::Index>(), "[\\x20-\\x7e\\n]"), 1..3)) {
        let mut text: Vec<char> = "[job]\nnumber = \"R-1\"\n[vehicle]\nmake = \"x\"\n[[capture]]\nfile = \"a.csv\"\n[capture.channels.\"Input 1\"]\nteeth = 30\n".chars().collect();
        for (at, new) in changes {
            let i = at.index(text.len());
            text[i] = new.chars().next().unwrap();
        }
        let text: String = text.into_iter().collect();
        let parsed = job(&text);
        prop_assert!(parsed.errors.len() < 12, "{:?}\n{}", parsed.errors, text);
    }
}
