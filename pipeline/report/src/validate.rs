//! A shop's own templates and logo, tried on an invented case before there is a job.

use crate::evidence::{Band, Mark, PlotRow};
use crate::theme::ReportTheme;
use crate::{Advice, Audience, EvidencePlot, ReportError, ReportInput, render};
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
    let input = ReportInput {
        case: &case,
        shop,
        theme,
        advice: advice.as_ref(),
        cautions: &["caution-invented".to_owned()],
        evidence: &evidence,
        totals: case.labour_totals.as_ref(),
        reviewed: None,
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
    EvidencePlot {
        title: "invented".into(),
        file: "invented.csv".into(),
        span: (0.0, 2.0),
        window: Some((0.5, 1.0)),
        rows: vec![PlotRow {
            label: "invented".into(),
            unit: "A".into(),
            range: (0.0, 6.0),
            whole: line.clone(),
            detail: line,
            band: Some(Band {
                low: Some(1.0),
                high: None,
                label: "invented".into(),
            }),
            marks: vec![Mark {
                start_s: 0.5,
                end_s: 1.0,
                label: "invented".into(),
                grade: Grade::Abnormal,
            }],
        }],
        caption: "invented".into(),
        alt: "invented".into(),
    }
}
