//! A shop's own templates and logo, tried on an invented case before there is a job.

use crate::evidence::{Band, Mark, Panel, Part, PlotRow, Trace};
use crate::theme::ReportTheme;
use crate::{Advice, Audience, EvidencePlot, Photo, ReportError, ReportInput, render};
use model::job_file::ClientSection;
use model::party::Parties;
use model::{Case, Grade, ShopFile};

const CASE: &str = include_str!("../../../report-templates/customer/sample/case.json");

/// Sets both reports of an invented case that has something to say in every section.
pub(crate) fn validate(theme: &ReportTheme, shop: &ShopFile) -> Result<(), ReportError> {
    let case: Case = serde_json::from_str(CASE).map_err(|e| ReportError::Data(e.to_string()))?;
    let advice: Option<Advice> = case
        .verdict
        .cause
        .as_deref()
        .map(|cause| theme.localizer().advice(cause, case.verdict.teardown));
    let evidence = [picture()];
    let photos = [Photo::blank("Invented photo").map_err(|e| ReportError::Data(e.to_string()))?];
    let parties = Parties::new(&shop.shop, &ClientSection::default(), &case.customer);
    let input = ReportInput {
        case: &case,
        shop,
        theme,
        advice: advice.as_ref(),
        cautions: &["caution-invented".to_owned()],
        driver: &["driver-invented".to_owned()],
        parties: &parties,
        evidence: &evidence,
        photos: &photos,
        totals: case.labour_totals.as_ref(),
        reviewed: None,
        earlier_review: None,
    };
    render(&input, Audience::Customer)?;
    if shop.report.technician {
        render(&input, Audience::Technician)?;
    }
    Ok(())
}

/// A picture with everything that a picture can have.
fn picture() -> EvidencePlot {
    let line = vec![vec![(0.0, 0.0), (1.0, 5.0), (2.0, 0.0)]];
    let panel = |part, span| Panel {
        part,
        file: "invented.csv".into(),
        span,
    };
    let mark = Mark {
        start_s: 0.5,
        end_s: 1.0,
        label: "invented".into(),
        grade: Grade::Abnormal,
    };
    let band = Band {
        low: Some(1.0),
        high: None,
        start_s: 0.5,
        end_s: 1.0,
        vehicles: None,
    };
    EvidencePlot {
        title: "invented".into(),
        panels: vec![
            panel(Part::Whole, (0.0, 2.0)),
            panel(Part::Detail, (0.5, 1.0)),
        ],
        rows: vec![PlotRow {
            label: "invented".into(),
            unit: "A".into(),
            range: (0.0, 6.0),
            traces: vec![Trace {
                label: "invented".into(),
                runs: vec![line.clone(), line],
                marks: vec![vec![mark.clone()], vec![mark]],
            }],
            bands: vec![vec![band.clone()], vec![band]],
            band_label: Some("invented".into()),
        }],
        caption: "invented".into(),
        alt: "invented".into(),
    }
}
