//! A shop's own template, logo, colours, terms and promises.

use crate::samples;

use baybrief_report::{Audience, ReportTheme, ThemeError};
use model::ShopFile;
use model::shop_file::Paper;
use pdf_extract::extract_text_from_mem;
use std::path::Path;

const TEMPLATES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../report-templates");

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for entry in std::fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            copy(&entry.path(), &target);
        } else {
            std::fs::copy(entry.path(), target).unwrap();
        }
    }
}

/// A folder with a copy of the customer's template in `ours`, and a shop.toml that names it.
fn copied() -> (tempfile::TempDir, ShopFile) {
    let folder = tempfile::tempdir().unwrap();
    copy(
        &Path::new(TEMPLATES).join("customer"),
        &folder.path().join("ours"),
    );
    (folder, shop("[report]\ntemplate = 'ours'"))
}

fn shop(text: &str) -> ShopFile {
    toml::from_str(text).unwrap_or_else(|e| panic!("{e}"))
}

fn localizer(pdf: &[u8]) -> String {
    let text = extract_text_from_mem(pdf).unwrap();
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Renders the established sample as this shop would.
fn report(shop: ShopFile, base: &Path, audience: Audience) -> Result<String, ThemeError> {
    let theme = ReportTheme::open(&shop, base)?;
    let mut sample = samples::established().on(samples::with_systems(theme));
    sample.shop = shop;
    sample.audience = audience;
    sample.settle();
    Ok(localizer(&sample.render()?))
}

#[test]
fn a_copied_folder_is_used_and_what_is_changed_in_it_shows() {
    let (folder, shop) = copied();
    let file = folder.path().join("ours/template.typ");
    let text = std::fs::read_to_string(&file).unwrap();
    std::fs::write(&file, text.replace("#cost(d)", "= The shop's own page")).unwrap();
    let text = report(shop, folder.path(), Audience::Customer).unwrap();
    assert!(
        text.contains("The shop's own page") || text.contains("The shop’s own page"),
        "{text}"
    );
    assert!(!text.contains("Amount, net"), "{text}");
}

/// What is wrong in a shop's template is said with file and line before there is a job, and nothing built in stands in
/// for it.
#[test]
fn errors_of_a_shops_template_name_file_and_line() {
    let theme = std::fs::read_to_string(Path::new(TEMPLATES).join("customer/components/theme.typ"))
        .unwrap();
    let (folder, shop) = copied();
    let file = folder.path().join("ours/components/theme.typ");
    let with = |text: String| {
        std::fs::write(&file, text).unwrap();
        ReportTheme::open(&shop, folder.path())
            .unwrap_err()
            .to_string()
    };
    let named = file.display().to_string();
    for (text, wanted) in [
        (
            format!("\n#let x = missing\n{theme}"),
            format!("{named}, line 2: unknown variable: missing"),
        ),
        (
            theme.replace("\"Inter\"", "\"No Such Font\""),
            "unknown font family: no such font".into(),
        ),
        (
            format!("#import \"@preview/x:1.0.0\": y\n{theme}"),
            "cannot use packages".into(),
        ),
        (
            format!("#let x = read(\"../../../etc/hostname\")\n{theme}"),
            format!("{named}, line 1"),
        ),
    ] {
        let error = with(text);
        assert!(error.contains(&wanted), "{error}");
    }
    std::fs::write(&file, &theme).unwrap();
    std::fs::remove_file(folder.path().join("ours/components/authorisation.typ")).unwrap();
    let error = ReportTheme::open(&shop, folder.path())
        .unwrap_err()
        .to_string();
    assert!(
        error.contains("template.typ, line") && error.contains("authorisation.typ"),
        "{error}"
    );

    let (folder, shop) = copied();
    std::fs::remove_file(folder.path().join("ours/template.typ")).unwrap();
    let error = ReportTheme::open(&shop, folder.path())
        .unwrap_err()
        .to_string();
    assert!(error.contains("holds no template.typ"), "{error}");
}

#[test]
fn a_technicians_template_is_a_folder_too() {
    let folder = tempfile::tempdir().unwrap();
    copy(
        &Path::new(TEMPLATES).join("technician"),
        &folder.path().join("tech"),
    );
    let file = folder.path().join("tech/components/measurements.typ");
    let text = std::fs::read_to_string(&file).unwrap();
    let settings = "[report]\ntechnician = true\ntechnician_template = 'tech'";
    std::fs::write(
        &file,
        text.replace("w.tech-methods)", "\"How we measure\")"),
    )
    .unwrap();
    let text = report(shop(settings), folder.path(), Audience::Technician).unwrap();
    assert!(text.contains("How we measure"), "{text}");
    std::fs::write(&file, "#let measurements(d) = [").unwrap();
    let error = ReportTheme::open(&shop(settings), folder.path())
        .unwrap_err()
        .to_string();
    assert!(error.contains("measurements.typ, line 1"), "{error}");
}

#[test]
fn logo_colours_and_furniture_are_the_shops() {
    let folder = tempfile::tempdir().unwrap();
    let svg =
        "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 8 4'><path d='M0 4L4 0L8 4z'/></svg>";
    std::fs::write(folder.path().join("logo.svg"), svg).unwrap();
    let settings = "[report]\nlogo = 'logo.svg'\nheader = 'Head #of# a page'\nfooter = 'Foot of a page'\n\
                    [report.colours]\nrule = '#123456'\nheadings = '#654321'";
    let theme = ReportTheme::open(&shop(settings), folder.path()).unwrap();
    let mut sample = samples::open().on(samples::with_systems(theme));
    sample.shop.report = shop(settings).report;
    let pdf = sample.render().unwrap();
    let text = localizer(&pdf);
    assert!(
        text.contains("Head #of# a page") && text.contains("Foot of a page"),
        "{text}"
    );
    // The logo is one more figure, and its alternative text is the shop's name, as PDF/UA asks for one.
    let figures = |pdf: &[u8]| String::from_utf8_lossy(pdf).matches("/S/Figure").count();
    let without = samples::open().render().unwrap();
    assert_eq!(figures(&pdf), figures(&without) + 1);

    for (name, bytes, wrong) in [
        ("logo.gif", &b"GIF89a"[..], "neither SVG, PNG nor JPEG"),
        ("logo.png", b"\x89PNG\r\n\x1a\nbroken", "the logo is"),
        ("big.svg", &[b' '; 400_001], "make it smaller"),
    ] {
        std::fs::write(folder.path().join(name), bytes).unwrap();
        let wanted = format!("[report]\nlogo = '{name}'");
        let error = ReportTheme::open(&shop(&wanted), folder.path())
            .unwrap_err()
            .to_string();
        assert!(error.contains(wrong) && error.contains(name), "{error}");
    }
    let error = ReportTheme::open(&shop("[report]\nlogo = 'none.svg'"), folder.path()).unwrap_err();
    assert!(error.to_string().contains("[report] logo"), "{error}");
}

/// American paper brings American spelling and dates.
#[test]
fn english_on_american_paper_is_american() {
    let settings = shop("[report]\npaper = 'us-letter'");
    let text = report(settings, Path::new(""), Audience::Customer).unwrap();
    for w in ["March 2, 2026", "Authorization", "I authorize this"] {
        assert!(text.contains(w), "`{w}`:\n{text}");
    }
    assert!(!text.contains("uthoris"), "{text}");
}

#[test]
fn settings_that_cannot_be_are_errors_with_their_line() {
    let wrong = |text: &str| toml::from_str::<ShopFile>(text).unwrap_err().to_string();
    assert!(wrong("[report]\npaper = 'papyrus'").contains("line 2"));
    assert!(wrong("[report]\nunits = 'imperial'").contains("`metric` or `us`"));
    assert!(wrong("[report.colours]\nrule = 'red'").contains("#rrggbb"));
    assert!(wrong("[report.colours]\nrule = '#ffffaa'").contains("too pale"));
    assert_eq!(
        shop("[report]\npaper = 'letter'").report.paper,
        Paper::UsLetter
    );
}

/// The terms come from a file that says where they apply, where they are from and of when.
#[test]
fn terms_come_with_their_date_and_source() {
    let examples = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples");
    for (file, wanted) in [
        (
            "legal/california.toml",
            ["16 CCR 3353", "as of 1 July 2025", "To be checked"],
        ),
        (
            "legal/neutral.toml",
            ["Any place", "as of ", "To be checked"],
        ),
    ] {
        let settings = shop(&format!("[report]\nlegal_text = '{file}'"));
        let text = report(settings, &examples, Audience::Customer).unwrap();
        for w in wanted {
            assert!(
                text.contains(w),
                "{file}: `{w}` is not in the report:\n{text}"
            );
        }
    }
    let folder = tempfile::tempdir().unwrap();
    for (text, wrong) in [
        (
            "place = 'X'\nlanguage = 'en'\ntext = 'x'\nas_of = 2026-01-01",
            "missing field `source`",
        ),
        (
            "place = 'X'\nlanguage = 'en'\ntext = 'x'\nsource = 's'",
            "missing field `as_of`",
        ),
        (
            "place = 'X'\nlanguage = 'en'\ntext = 'x'\nsource = 's'\nas_of = 'May'",
            "line 5",
        ),
        (
            "place = 'X'\nlanguage = '?'\ntext = 'x'\nsource = 's'\nas_of = 2026-01-01",
            "language tag",
        ),
    ] {
        std::fs::write(folder.path().join("t.toml"), text).unwrap();
        let error =
            ReportTheme::open(&shop("[report]\nlegal_text = 't.toml'"), folder.path()).unwrap_err();
        assert!(error.to_string().contains(wrong), "{error}");
        assert!(error.to_string().contains("t.toml"), "{error}");
    }
}

/// Opening and closing of the sample come to 584.78 USD + 493.81 USD = 1,078.59 USD, and 10 % more to 1,186.45 USD.
#[test]
fn what_the_shop_promises_is_filled_in() {
    let settings = "[report.authorisation]\nmax_reassembly_time = '10 working days'\nstorage = 'free for 5 days'\n";
    let base = Path::new("");
    let text = report(
        shop(&format!("{settings}limit = '2500.00'")),
        base,
        Audience::Customer,
    )
    .unwrap();
    for w in ["10 working days", "free for 5 days", "2,500.00 USD"] {
        assert!(text.contains(w), "{text}");
    }
    let text = report(
        shop(&format!("{settings}limit_percent = 10")),
        base,
        Audience::Customer,
    )
    .unwrap();
    let wanted = "1,186.45 USD net (the estimate and 10 %)";
    assert!(text.contains(wanted), "{text}");
    for wrong in [
        "limit = '-1'",
        "limit_percent = -5",
        "limit = 1\nlimit_percent = 1",
    ] {
        let error = ReportTheme::open(&shop(&format!("{settings}{wrong}")), base).unwrap_err();
        assert!(
            error.to_string().contains("[report.authorisation]"),
            "{error}"
        );
    }
}
