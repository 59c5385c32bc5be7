//! The report as a whole: from a case to bytes that others can read.

use crate::samples;

use baybrief_report as report;
use model::Grade;
use pdf_extract::extract_text_from_mem;
use report::Reviewed;

fn text(pdf: &[u8]) -> String {
    // Line ends depend on the layout: the words count.
    extract_text_from_mem(pdf)
        .unwrap()
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

#[track_caller]
fn contains(text: &str, wanted: &[&str]) {
    for w in wanted {
        assert!(text.contains(w), "`{w}` is not in the report:\n{text}");
    }
}

#[test]
fn every_sample_renders_and_says_what_it_is() {
    for sample in samples::all() {
        let pdf = sample
            .render()
            .unwrap_or_else(|e| panic!("{}: {e}", sample.name));
        // Fonts are subsets, pictures are paths.
        assert!(pdf.len() < 500_000, "{}: {} bytes", sample.name, pdf.len());
        assert!(pdf.starts_with(b"%PDF-1.7"), "{}", sample.name);
        let text = text(&pdf);
        contains(
            &text,
            &[
                "Sampleton Drivetrain",
                "R-2041",
                "DRAFT: no person has checked it yet",
            ],
        );
        let wanted: &[&str] = match sample.name {
            "established" => &[
                "Established",
                "Clutch 2 does not release",
                "For the driver",
                "WARNING",
                "Do not drive",
                "Ruled out: A faulty speed sensor",
                "Still open: Clutch 1 slips; Two gears at once",
                "Open the unit and close it again",
                "1,078.59 USD",
                "413 rpm",
                "Authorisation",
                "An unsigned report authorises nothing",
                "1,494.44 USD",
            ],
            "authorised" => &[
                "Authorised by Alex Invented on 3 March 2026, 09:15, by telephone, up to 1,400.00 USD with tax.",
                "Note: wants the old clutch back",
                "Repair and proof",
                "Tax 19 %",
            ],
            "declined" => &[
                "Declined by Alex Invented on 3 March 2026",
                "The unit is open.",
                "Storage of the opened vehicle: free for 5 days",
                "under way",
            ],
            "work-done" => &[
                "Done by Sam Example, recorded on 5 March 2026, 16:15.",
                "Total done",
            ],
            "probable" => &[
                "Probable",
                "Clutch 2 does not release",
                "What to record next",
                "not yet certain",
            ],
            "open" => &[
                "Not decided",
                "What is known",
                "What is not known",
                "Still possible",
            ],
            "nothing-found" => &["No fault found", "The recordings show no fault"],
            "technician" => &[
                "Technician's report",
                "Every measurement",
                "Very strong evidence: 32 decibans, 24 ahead",
                "a dragging clutch would have turned its shaft",
                "needs output-shaft, which was not recorded",
                "DANGER",
            ],
            "mended" => &[
                "Repair confirmed",
                "Before and after",
                "after.csv",
                "Repaired",
            ],
            other => panic!("no expectation for {other}"),
        };
        contains(&text, wanted);
    }
}

/// ISO 14289-1 (PDF/UA-1) and ISO 19005-2 (PDF/A-2a) ask for these entries of the XMP metadata and the catalogue.
/// The rules themselves are enforced by the exporter; this checks that it was asked to.
#[test]
fn the_file_declares_both_standards() {
    let pdf = samples::established().render().unwrap();
    let raw = String::from_utf8_lossy(&pdf);
    contains(
        &raw,
        &[
            "<pdfuaid:part>1</pdfuaid:part>",
            "<pdfaid:part>2</pdfaid:part>",
            "<pdfaid:conformance>A</pdfaid:conformance>",
            "/MarkInfo",
            "2026-03-02",
        ],
    );
}

#[test]
fn the_same_input_gives_the_same_bytes() {
    let first = samples::established().render().unwrap();
    let other = samples::open().render().unwrap();
    let again = samples::established().render().unwrap();
    assert!(first == again);
    assert!(first != other);
}

/// What waits for an authorisation has a row in the form; what was authorised, declined or done has none any more.
#[test]
fn the_form_holds_what_is_offered() {
    let open_and_close = "Open the unit and close it again";
    let form = |sample: &samples::Sample| {
        let text = text(&sample.render().unwrap());
        let at = text.find("I authorise this")?;
        let from = text[..at].rfind("Not to exceed")?;
        Some(text[from..].to_owned())
    };
    for sample in [
        samples::probable(),
        samples::nothing_found(),
        samples::work_done(),
    ] {
        assert_eq!(form(&sample), None, "{}", sample.name);
    }
    let established = form(&samples::established()).unwrap();
    assert!(established.contains(open_and_close) && established.contains("Repair and proof"));
    let authorised = form(&samples::authorised()).unwrap();
    assert!(!authorised.contains(open_and_close) && authorised.contains("Repair and proof"));
    assert!(!authorised.contains("What is opened"));
    assert_eq!(form(&samples::declined()), None);
}

/// Without prices there is still something to sign where a teardown is advised.
#[test]
fn a_teardown_without_prices_can_be_authorised() {
    let mut sample = samples::established();
    sample.case.labour.clear();
    sample.totals = None;
    contains(
        &text(&sample.render().unwrap()),
        &["Open the unit and close it again", "I authorise this"],
    );
}

/// A specialist who was called: the report names both, and the repair runs between the client and the owner.
#[test]
fn a_client_of_its_own_offers_the_repair() {
    let mut sample = samples::established();
    sample.client.name = Some("Corner Garage, invented".into());
    sample.settle();
    contains(
        &text(&sample.render().unwrap()),
        &[
            "Called by Corner Garage, invented",
            "Workshop Corner Garage, invented",
            "Owner Alex Invented",
        ],
    );
}

#[test]
fn a_reviewed_report_is_no_draft() {
    let mut sample = samples::established();
    let at = chrono::NaiveDate::from_ymd_opt(2026, 3, 3)
        .unwrap()
        .and_hms_opt(14, 5, 0)
        .unwrap();
    sample.reviewed = Some(Reviewed {
        by: "Kim Example".into(),
        at,
        note: Some("looked at with the owner".into()),
    });
    let signed = text(&sample.render().unwrap());
    contains(
        &signed,
        &[
            "Reviewed by Kim Example on 3 March 2026, 14:05",
            "The review covers the finding, the pictures and the prices of this version.",
            "Note: looked at with the owner",
        ],
    );
    assert!(!signed.contains("DRAFT"));
    sample.earlier_review = sample.reviewed.take();
    contains(
        &text(&sample.render().unwrap()),
        &[
            "DRAFT",
            "Kim Example reviewed an earlier version on 3 March 2026, 14:05. It has changed since",
        ],
    );
}

/// Text from outside is data: markup in it is printed, not run.
#[test]
fn hostile_text_is_printed_as_it_is() {
    let mut sample = samples::established();
    let hostile =
        "#panic() *bold* $x$ \"quoted\" <label> @ref \\ `raw` = head [x] {y} // c /* d */";
    sample.case.customer.name = Some(hostile.into());
    sample.case.vehicle.model = Some(hostile.into());
    sample.settle();
    sample.case.job.number = hostile.into();
    sample.case.files[0].path = hostile.into();
    sample.case.findings[2].file = Some(hostile.into());
    sample.shop.shop.name = Some(hostile.into());
    let text = text(&sample.render().unwrap());
    contains(&text, &["#panic() *bold* $x$ \"quoted\" <label> @ref"]);
}

#[test]
fn long_notes_are_cut_on_page_one_and_whole_for_the_technician() {
    let mut sample = samples::established();
    let notes = "It shudders when it sets off, ".repeat(350) + "and the end is here.";
    assert!(notes.len() > 10_000);
    sample.case.concern = Some(notes);
    contains(
        &text(&sample.render().unwrap()),
        &["(in full in the technician's report)"],
    );
    sample.audience = report::Audience::Technician;
    contains(&text(&sample.render().unwrap()), &["and the end is here."]);

    sample.case.concern = Some("x".repeat(10_000));
    sample.render().unwrap();
}

/// Text is extracted in the order in which the report is read: the answer, what carries it, what to do.
#[test]
fn text_comes_in_reading_order() {
    let text = text(&samples::established().render().unwrap());
    let order = [
        "Sampleton Drivetrain",
        "Diagnostic report",
        "Alex Invented",
        "Established",
        "Clutch 2 does not release",
        "For the driver",
        "How we know",
        "How sure",
        "Tested, in order",
        "Not tested",
        "The work, in its order",
        "The pictures",
        "Gearbox feed current",
        "The repair, step by step",
        "Prices",
        "Total offered",
        "Authorisation",
        "I authorise this",
        "This report is technical evidence",
    ];
    let mut from = 0;
    for wanted in order {
        let at = text[from..].find(wanted);
        from +=
            at.unwrap_or_else(|| panic!("`{wanted}` is not behind what comes before it:\n{text}"));
    }
}

/// What the work touches decides what is warned of.
#[test]
fn cautions_follow_the_work() {
    let titles = |sample: &samples::Sample| -> Vec<String> {
        let cautions = report::cautions(&sample.input());
        assert!(cautions.is_sorted_by_key(|c| c.level));
        assert!(cautions.iter().all(|c| !c.source.is_empty()));
        cautions.into_iter().map(|c| c.title).collect()
    };
    let has = |sample: &samples::Sample, title: &str| titles(sample).iter().any(|t| t == title);
    let mut teardown = samples::established();
    for title in [
        "Exhaust gas",
        "Vehicle may roll",
        "Rotating parts",
        "Parts move by themselves",
        "Heavy load",
        "Spring force",
        "Clutch dust",
        "Hot parts",
        "Battery",
        "Hybrid or electric?",
        "Stored pressure",
        "Under the vehicle",
    ] {
        assert!(has(&teardown, title), "{title}");
    }
    assert!(!has(&teardown, "Airbags"));
    teardown.case.vehicle.high_voltage = Some(true);
    teardown.settle();
    assert!(has(&teardown, "High voltage"));
    teardown.case.vehicle.high_voltage = Some(false);
    teardown.settle();
    assert!(
        !titles(&teardown)
            .iter()
            .any(|t| t.starts_with("High voltage") || t.starts_with("Hybrid"))
    );

    // Nothing decided: the next recordings alone are warned of.
    let open = samples::open();
    assert!(has(&open, "Rotating parts") && has(&open, "Instrument ground"));
    assert!(!has(&open, "Heavy load"));
    let mut wiring = samples::open();
    wiring.case.verdict.next[0].step = "next-measure-actuator-resistance".into();
    wiring.settle();
    assert!(has(&wiring, "Airbags") && has(&wiring, "Jumper leads"));
    let mut road = samples::open();
    road.case.verdict.next[0].step = "next-record-engine-speed".into();
    road.settle();
    assert!(has(&road, "Road test"));
    assert!(titles(&samples::mended()).is_empty());
}

/// What is left to be recorded has its price, as far as the shop has one.
#[test]
fn an_open_report_says_what_the_next_recording_costs() {
    contains(
        &text(&samples::open().render().unwrap()),
        &["The next recording costs 129.95 USD an hour, net."],
    );
}

#[test]
fn the_technicians_report_has_every_number() {
    let text = text(&samples::technician().render().unwrap());
    contains(
        &text,
        &[
            "Technician's report, job R-2041",
            "clutch-2-drag",
            "31.5 decibans",
            "Every cause, with what speaks for and against it",
            "(412.6 ± 1.1) rpm",
            "3.204 – 11.871",
            "How it was measured",
            "least-squares slope",
            "Sources of the limits",
            "ruled out",
        ],
    );
    assert!(!text.contains("I authorise this"));
}

#[test]
fn a_cause_without_evidence_has_no_weight() {
    let mut sample = samples::technician();
    samples::change(&mut sample.case, |lead| {
        lead.causes[1].weights.clear();
        lead.causes[1].weight_dban = 0.0;
    });
    let text = text(&sample.render().unwrap());
    contains(
        &text,
        &["Nothing that was measured speaks for or against it"],
    );
    assert!(!text.contains(" 0.0 decibans"), "{text}");
}

#[test]
fn other_languages_are_spoken_throughout() {
    let german = text(&samples::established().in_language("de").render().unwrap());
    contains(
        &german,
        &[
            "Kupplung 2 trennt nicht",
            "Festgestellt",
            "2. März 2026",
            "81.234 km",
            "1.494,44 USD",
            "WARNUNG",
            "drehte sich 8 s lang mit 413 Umdrehungen je Minute",
        ],
    );
    let spanish = text(&samples::open().in_language("es-MX").render().unwrap());
    contains(
        &spanish,
        &[
            "Sin decidir",
            "2 de marzo de 2026",
            "81,234 km",
            "298.89 USD",
            "ADVERTENCIA",
        ],
    );
    let raw = samples::open().in_language("es-MX").render().unwrap();
    contains(&String::from_utf8_lossy(&raw), &["/Lang(es-MX)"]);
}

/// What no font has is replaced by a mark, and the record says where and what.
#[test]
fn characters_without_a_glyph_are_marked() {
    let mut sample = samples::established();
    sample.case.customer.name = Some("Zoë Łuczak Ωμέγα Жук 🚗 محمد \u{7}\u{202e}".into());
    sample.case.concern = Some("漢字\tand\r\nmore".into());
    sample.settle();
    let text = text(&sample.render().unwrap());
    contains(
        &text,
        &[
            "Zoë Łuczak Ωμέγα Жук □",
            "U+1F697",
            "U+6F22",
            "Characters that could not be printed",
        ],
    );
}

#[test]
fn an_empty_case_still_makes_a_report() {
    let mut sample = samples::nothing_found();
    let case = &mut sample.case;
    case.customer = Default::default();
    case.vehicle = Default::default();
    case.job.opened = None;
    case.concern = None;
    case.files.clear();
    case.captures.clear();
    case.codes.clear();
    case.findings.clear();
    samples::change(case, |lead| lead.causes.clear());
    case.labour.clear();
    case.not_run.clear();
    case.plugins.clear();
    case.problems.clear();
    sample.evidence.clear();
    sample.totals = None;
    sample.shop = Default::default();
    sample.render().unwrap();
}

#[test]
fn paper_is_what_the_shop_says() {
    let mut sample = samples::open();
    let a4 = sample.render().unwrap();
    sample.shop.report.paper = model::shop_file::Paper::UsLetter;
    let letter = sample.render().unwrap();
    contains(
        &String::from_utf8_lossy(&a4),
        &["/MediaBox[0 0 595.2756 841.8898]"],
    );
    contains(
        &String::from_utf8_lossy(&letter),
        &["/MediaBox[0 0 612 792]"],
    );
}

/// The pictures keep to what decides: speeds as curves on one scale, ranges over the actuations that they judge.
#[test]
fn pictures_follow_the_verdict() {
    let sample = samples::established();
    let plot = &sample.evidence[0];
    assert_eq!(plot.panels[0].file, "relearn.csv");
    let speeds = plot.rows.iter().find(|r| r.traces.len() == 2).unwrap();
    assert_eq!(speeds.unit, "rpm");
    let labels: Vec<&str> = speeds.traces.iter().map(|t| t.label.as_str()).collect();
    assert_eq!(
        labels,
        [
            "First input shaft: at rest",
            "Second input shaft: 413\u{a0}rpm"
        ]
    );
    // Rest is a line at zero.
    let rest = &speeds.traces[0].runs[0];
    assert!(rest.iter().flatten().all(|p| p.1 == 0.0) && !rest.is_empty());
    let marks = &speeds.traces[1].marks[0];
    assert!(
        marks
            .iter()
            .any(|m| m.grade == Grade::Abnormal && m.start_s == 3.204)
    );
    assert!(
        plot.alt
            .contains("Marked from 3.2 s to 11.9 s: turns, must stand still, 413\u{a0}rpm."),
        "{}",
        plot.alt
    );

    // Known-good ranges: named by the plugin for the current; for the supply, what it fell from less the limit,
    // 13.58 V + 0.32 V - 2 V.
    let band = |label: &str| {
        let row = plot.rows.iter().find(|r| r.label == label).unwrap();
        row.bands[0].clone()
    };
    let current = band("Gearbox feed current");
    assert_eq!((current[0].low, current[0].high), (Some(13.0), Some(18.0)));
    assert_eq!((current[0].start_s, current[0].end_s), (1.5, 1.92));
    let supply = band("Supply voltage");
    assert!((supply[0].low.unwrap() - 11.9).abs() < 1e-9 && supply[0].high.is_none());

    // Before and after in one frame, on the same axes.
    let mended = samples::mended().evidence;
    assert_eq!(mended.len(), 1);
    let spans: Vec<f64> = mended[0]
        .panels
        .iter()
        .map(|p| p.span.1 - p.span.0)
        .collect();
    assert!(spans.len() == 2 && (spans[0] - spans[1]).abs() < 1e-9);
    assert!(
        mended[0]
            .rows
            .iter()
            .all(|r| r.traces.iter().all(|t| t.runs.len() == 2))
    );
    assert_eq!(samples::nothing_found().evidence[0].rows.len(), 3);
}

/// A shaft of which anything is not tested is not called at rest, and its pulses are shown as they are.
#[test]
fn an_untested_shaft_is_not_captioned_at_rest() {
    let mut sample = samples::nothing_found();
    let mut untested = samples::by_id(&sample.case, "f6").clone();
    untested.id = "f20".into();
    untested.file = None;
    untested.kind = "shaft-untested".into();
    untested.grade = Grade::NotTested;
    (untested.value, untested.unit) = (None, None);
    sample.case.findings.push(untested);
    let sample = sample.in_language("en");
    let labels: Vec<&str> = (sample.evidence[0].rows.iter())
        .flat_map(|r| &r.traces)
        .map(|t| t.label.as_str())
        .collect();
    assert!(labels.contains(&"First input shaft"), "{labels:?}");
    assert!(
        !labels
            .iter()
            .any(|l| l.contains("First input shaft: at rest"))
    );
}

/// Limits stand beside values of their own quantity, equal events in one row.
#[test]
fn equal_events_stand_in_one_row() {
    let mut sample = samples::technician();
    let event = samples::by_id(&sample.case, "f3").clone();
    for (i, peak) in [15.2, 15.9, 16.4].into_iter().enumerate() {
        let mut event = event.clone();
        event.id = format!("f{}", 30 + i);
        event.value = Some(peak);
        sample.case.findings.push(event);
    }
    contains(
        &text(&sample.render().unwrap()),
        &["f3 … f32", "5 times, all within 15.2 to 16.4 A"],
    );
}

/// PDF 32000-1, 14.9.3: a figure's alternative text; each photo is an image of its own (8.9.5).
#[test]
fn photos_are_shown_to_the_customer_with_their_captions() {
    let photo = |caption, blue| {
        let mut content = std::io::Cursor::new(Vec::new());
        let pixel = |x, y| image::Rgb([x as u8, y as u8, blue]);
        let picture = image::RgbImage::from_fn(300, 200, pixel);
        picture
            .write_to(&mut content, image::ImageFormat::Png)
            .unwrap();
        report::Photo::new(caption, content.get_ref()).unwrap()
    };
    let mut sample = samples::established();
    let images = |pdf: &[u8]| {
        let is_image = |w: &&[u8]| *w == b"/Subtype/Image" || *w == b"/Subtype /Image";
        pdf.windows(14).filter(is_image).count() + pdf.windows(15).filter(is_image).count()
    };
    let before = images(&sample.render().unwrap());
    sample.photos = vec![
        photo("The plug of the second sensor.", 90),
        photo("Its broken <latch> & #pin.", 200),
    ];
    let pdf = sample.render().unwrap();
    assert_eq!(images(&pdf), before + 2);
    contains(
        &text(&pdf),
        &[
            "The plug of the second sensor.",
            "Its broken <latch> & #pin.",
        ],
    );
    sample.audience = report::Audience::Technician;
    assert!(!text(&sample.render().unwrap()).contains("broken <latch>"));
}
