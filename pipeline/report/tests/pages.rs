//! Page images against reference images.
//!
//! `BAYBRIEF_WRITE_PAGES=1 cargo test --workspace --test report pages` writes the references anew; look at each before it
//! is kept. A page that differs is written beside the test's build, with the difference named.

use crate::samples;

use baybrief_report as report;
use samples::Sample;
use std::path::{Path, PathBuf};
use tiny_skia::Pixmap;
use typst_render::RenderOptions;

/// Pixels to a point: an A4 page has 357 by 505.
const RESOLUTION: f64 = 0.6;

/// The greatest difference that passes: of all channels in the mean, of 255. A paragraph that is a line longer comes
/// to about 3, other rounding of the same page to less than 0.1.
const MOST_MEAN: f64 = 0.4;

/// The greatest share of pixels that may differ visibly (by more than 60 of 255 in a channel).
const MOST_SHARE: f64 = 0.004;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pages")
}

/// The pages of a sample that are held against references, by number from 1.
fn check(sample: &Sample, language: &str, numbers: &[usize]) {
    let document = report::pages(&sample.input(), sample.audience)
        .unwrap_or_else(|e| panic!("{}: {e}", sample.name));
    let options = RenderOptions {
        pixel_per_pt: typst::utils::Scalar::new(RESOLUTION),
        ..RenderOptions::default()
    };
    for &number in numbers {
        let page = typst_render::render(&document.pages()[number - 1], &options);
        let name = format!("{}-{language}-{number}.png", sample.name);
        let reference = folder().join(&name);
        if std::env::var_os("BAYBRIEF_WRITE_PAGES").is_some() {
            std::fs::create_dir_all(folder()).unwrap();
            page.save_png(&reference).unwrap();
            continue;
        }
        let wanted = Pixmap::load_png(&reference).unwrap_or_else(|e| panic!("{name}: {e}"));
        if let Err(why) = alike(&page, &wanted) {
            let written = Path::new(env!("CARGO_TARGET_TMPDIR")).join(&name);
            page.save_png(&written).unwrap();
            panic!(
                "{name}: {why}; the page as it is now: {}",
                written.display()
            );
        }
    }
}

/// True where two pages look alike; else in what they differ.
fn alike(page: &Pixmap, wanted: &Pixmap) -> Result<(), String> {
    if (page.width(), page.height()) != (wanted.width(), wanted.height()) {
        return Err("the page has another size".into());
    }
    let (mut sum, mut visible) = (0u64, 0usize);
    for (a, b) in page.data().chunks(4).zip(wanted.data().chunks(4)) {
        let differences = a.iter().zip(b).map(|(a, b)| a.abs_diff(*b));
        sum += differences.clone().map(u64::from).sum::<u64>();
        visible += usize::from(differences.max().unwrap_or(0) > 60);
    }
    let mean = sum as f64 / page.data().len() as f64;
    let share = visible as f64 / (page.data().len() / 4) as f64;
    if mean > MOST_MEAN || share > MOST_SHARE {
        return Err(format!(
            "differs by {mean:.2} of 255 in the mean and visibly in {:.2} % of its pixels",
            100.0 * share
        ));
    }
    Ok(())
}

#[test]
fn established_and_for_the_technician() {
    check(&samples::established(), "en", &[1, 2, 3]);
    check(&samples::technician(), "en", &[1]);
}

#[test]
fn probable_open_and_nothing_found() {
    check(&samples::probable(), "en", &[1]);
    check(&samples::open(), "en", &[1]);
    check(&samples::nothing_found(), "en", &[1]);
}

#[test]
fn mended_and_in_other_languages() {
    check(&samples::mended(), "en", &[1]);
    check(&samples::declined(), "en", &[3]);
    check(&samples::established().in_language("de"), "de", &[1]);
    check(&samples::open().in_language("es"), "es", &[1]);
}

/// The measure itself: a page is like itself, and not like one on which a line is missing.
#[test]
fn a_missing_line_is_seen() {
    let open = samples::open();
    let draw = |sample: &Sample| {
        let document = report::pages(&sample.input(), sample.audience).unwrap();
        typst_render::render(
            &document.pages()[0],
            &RenderOptions {
                pixel_per_pt: typst::utils::Scalar::new(RESOLUTION),
                ..RenderOptions::default()
            },
        )
    };
    let whole = draw(&open);
    assert!(alike(&whole, &whole.clone()).is_ok());
    let mut other = samples::open();
    other.case.verdict.next.truncate(1);
    assert!(alike(&whole, &draw(&other)).is_err());
}
