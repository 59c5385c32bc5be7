//! Weights of evidence on the published scale.

use crate::localizer::{Localizer, args};
use model::{Case, RankedCause};
use serde::Serialize;

/// Bars on the first page.
const MOST_BARS: usize = 4;

/// The ends of the classes of Kass and Raftery (1995), as likelihood ratios, and the word of each.
const CLASSES: [(f64, &str); 4] = [
    (3.0, "mention"),
    (20.0, "positive"),
    (150.0, "strong"),
    (f64::INFINITY, "very-strong"),
];

/// Below this an explanation is not listed, decibans: half of what the scale calls not worth more than a mention.
pub(super) const WORTH_A_MENTION: f64 = 2.4;

/// The weights of the leading explanations.
#[derive(Serialize)]
pub(super) struct Certainty {
    line: Option<String>,
    explain: String,
    alt: String,
    /// The end of the scale, which begins at zero: what speaks against a cause gets its number and no bar.
    high: f64,
    bands: Vec<Class>,
    bars: Vec<Bar>,
}

#[derive(Serialize)]
struct Class {
    low: f64,
    high: f64,
    label: String,
}

#[derive(Serialize)]
struct Bar {
    label: String,
    weight: f64,
    text: String,
    lead: bool,
}

/// A likelihood ratio in decibans.
fn decibans(ratio: f64) -> f64 {
    10.0 * ratio.log10()
}

/// The word of the class that a weight belongs to.
pub(super) fn class(weight_dban: f64) -> &'static str {
    if weight_dban < 0.0 {
        return "against";
    }
    CLASSES
        .iter()
        .find(|(end, _)| weight_dban < decibans(*end))
        .map_or("very-strong", |c| c.1)
}

/// `None` when no explanation was weighed.
pub(super) fn certainty(case: &Case, localizer: &Localizer) -> Option<Certainty> {
    let lead = case.verdict.cause.as_deref();
    // What outweighs the named cause without being named yields to it: what is left when nothing else is found.
    let most = case
        .causes()
        .iter()
        .find(|c| lead == Some(c.cause.as_str()))
        .map_or(f64::INFINITY, |c| c.weight_dban);
    let shown: Vec<&RankedCause> = case
        .causes()
        .iter()
        .filter(|c| c.weight_dban.is_finite() && c.weight_dban <= most)
        .filter(|c| c.weight_dban.abs() >= WORTH_A_MENTION || lead == Some(c.cause.as_str()))
        .take(MOST_BARS)
        .collect();
    let top = shown.first()?.weight_dban;
    let high = (top.max(26.0) / 5.0).ceil() * 5.0;
    let bars: Vec<Bar> = shown
        .iter()
        .map(|c| Bar {
            label: localizer.cause_title(&c.cause),
            weight: c.weight_dban,
            text: localizer.fixed(c.weight_dban, 0),
            lead: lead == Some(c.cause.as_str()),
        })
        .collect();
    let list: Vec<String> = bars
        .iter()
        .map(|b| {
            let a = args([
                ("cause", b.label.clone().into()),
                ("db", b.text.clone().into()),
            ]);
            localizer.message_with("report-scale-item", &a)
        })
        .collect();
    let mut from = 0.0;
    let bands = CLASSES
        .iter()
        .map(|(end, name)| {
            let to = decibans(*end).min(high);
            let band = Class {
                low: from,
                high: to,
                label: localizer.message(&format!("report-band-{name}")),
            };
            from = to;
            band
        })
        .collect();
    Some(Certainty {
        line: line(case, localizer),
        explain: localizer.message("report-scale"),
        alt: localizer.message_with(
            "report-scale-alt",
            &args([("list", list.join("; ").into())]),
        ),
        high,
        bands,
        bars,
    })
}

/// The weight of the verdict's cause in words and its distance to the next.
fn line(case: &Case, localizer: &Localizer) -> Option<String> {
    let name = case.verdict.cause.as_ref()?;
    let weight = case.causes().iter().find(|c| c.cause == *name)?.weight_dban;
    let class = localizer.message(&format!("report-word-{}", class(weight)));
    let db = localizer.fixed(weight, 0);
    Some(match case.verdict.margin_dban {
        Some(margin) => localizer.message_with(
            "report-how-sure-line",
            &args([
                ("words", class.into()),
                ("db", db.into()),
                ("margin", localizer.fixed(margin, 0).into()),
            ]),
        ),
        None => localizer.message_with(
            "report-how-sure-line-alone",
            &args([("words", class.into()), ("db", db.into())]),
        ),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Kass and Raftery (1995), section 3.2, scale of the Bayes factor: 1 to 3, 3 to 20, 20 to 150, above 150.
    #[test]
    fn classes_are_those_of_the_published_scale() {
        for (ratio, word) in [
            (0.5, "against"),
            (1.0, "mention"),
            (2.9, "mention"),
            (3.1, "positive"),
            (19.0, "positive"),
            (21.0, "strong"),
            (149.0, "strong"),
            (151.0, "very-strong"),
        ] {
            assert_eq!(class(decibans(ratio)), word, "{ratio}");
        }
    }

    /// 10 log10: 20 is 13.010 and 150 is 21.761 decibans (computed with Python 3.11, math.log10).
    #[test]
    fn decibans_of_the_class_ends() {
        assert!((decibans(20.0) - 13.010_299_956_6).abs() < 1e-9);
        assert!((decibans(150.0) - 21.760_912_590_6).abs() < 1e-9);
    }
}
