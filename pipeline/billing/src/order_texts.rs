//! Complaint, cause and correction: the three parts of a repair order, from the case.
//!
//! The choice of sentences is made here; the sentences themselves are the caller's, by key (`order-...`).

use model::labour::{LineKind, LineState, OrderTexts};
use model::{LabourLine, TroubleCode, Verdict, VerdictState};

/// Greatest number of sentences that support a cause; more are the report's to tell.
const MAX_EVIDENCE: usize = 2;

/// Input of the texts.
#[derive(Debug, Clone, Copy)]
pub struct OrderInput<'a> {
    /// The customer's words.
    pub concern: Option<&'a str>,
    /// Trouble codes of the scan texts.
    pub codes: &'a [TroubleCode],
    /// The conclusion, with the sentences of what to record next.
    pub verdict: &'a Verdict,
    /// The cause in words, where the verdict names one.
    pub cause: Option<&'a str>,
    /// The findings that speak for it, in sentences, the most telling first.
    pub evidence: &'a [String],
    /// The lines of the bill.
    pub lines: &'a [LabourLine],
}

/// A sentence that the caller knows by its key, and the texts that go into it.
#[derive(Debug, Clone, Copy)]
pub struct Phrase<'a> {
    /// Key of lang/*.ftl: `order-complaint`.
    pub key: &'a str,
    /// Name and text.
    pub arguments: &'a [(&'a str, &'a str)],
}

/// Makes the three texts. `say` gives the sentence of a phrase in the shop's language.
pub fn order_texts(input: &OrderInput<'_>, say: &dyn Fn(Phrase<'_>) -> String) -> OrderTexts {
    let plain = |key: &str| {
        say(Phrase {
            key,
            arguments: &[],
        })
    };
    let with = |key: &str, name: &str, text: &str| {
        let arguments = &[(name, text)];
        say(Phrase { key, arguments })
    };
    OrderTexts {
        complaint: complaint(input, &plain, &with),
        cause: cause(input, &plain, &with),
        correction: correction(input, &plain, &with),
    }
}

/// The three texts as a file of their own, each behind its heading.
pub fn order_file(texts: &OrderTexts, say: &dyn Fn(Phrase<'_>) -> String) -> String {
    let part = |key: &str, text: &str| {
        format!(
            "{}\n{text}\n",
            say(Phrase {
                key,
                arguments: &[]
            })
        )
    };
    [
        part("order-heading-complaint", &texts.complaint),
        part("order-heading-cause", &texts.cause),
        part("order-heading-correction", &texts.correction),
    ]
    .join("\n")
}

type Plain<'s> = &'s dyn Fn(&str) -> String;
type With<'s> = &'s dyn Fn(&str, &str, &str) -> String;

fn complaint(input: &OrderInput<'_>, plain: Plain<'_>, with: With<'_>) -> String {
    // One line: a column of a table has no room for more.
    let words = input.concern.unwrap_or_default();
    let words: Vec<&str> = words.split_whitespace().collect();
    let mut text = vec![match words.is_empty() {
        true => plain("order-complaint-unstated"),
        false => with("order-complaint", "text", &words.join(" ")),
    }];
    let mut codes: Vec<&str> = Vec::new();
    for code in input.codes.iter().map(|c| c.code.as_str()) {
        if !codes.contains(&code) {
            codes.push(code);
        }
    }
    if !codes.is_empty() {
        text.push(with("order-complaint-codes", "codes", &codes.join(", ")));
    }
    text.join(" ")
}

fn cause(input: &OrderInput<'_>, plain: Plain<'_>, with: With<'_>) -> String {
    let verdict = input.verdict;
    let mut text = match (verdict.state, input.cause) {
        (VerdictState::Established, Some(cause)) => {
            vec![with("order-cause-established", "cause", cause)]
        }
        (VerdictState::Probable, Some(cause)) => vec![with("order-cause-probable", "cause", cause)],
        (VerdictState::NothingFound, _) => vec![plain("order-cause-nothing")],
        _ => vec![plain("order-cause-open")],
    };
    if input.cause.is_some() {
        text.extend(input.evidence.iter().take(MAX_EVIDENCE).cloned());
    }
    if let Some(next) = verdict.next.first() {
        text.push(with("order-cause-next", "next", &next.text));
    }
    text.join(" ")
}

fn correction(input: &OrderInput<'_>, plain: Plain<'_>, with: With<'_>) -> String {
    let work = |states: &[LineState]| {
        let is_in = |l: &&LabourLine| states.contains(&l.state) && l.kind == LineKind::Labour;
        let work = input.lines.iter().filter(is_in);
        work.map(|l| l.description.as_str())
            .collect::<Vec<_>>()
            .join("; ")
    };
    let mut text = Vec::new();
    for (key, states) in [
        (
            "order-correction-done",
            &[LineState::Done, LineState::Billed][..],
        ),
        ("order-correction-authorised", &[LineState::Authorised]),
        ("order-correction-offered", &[LineState::Offered]),
        ("order-correction-declined", &[LineState::Declined]),
    ] {
        let work = work(states);
        if !work.is_empty() {
            text.push(with(key, "work", &work));
        }
    }
    if text.is_empty() {
        text.push(plain("order-correction-none"));
    }
    if let Some(repair) = &input.verdict.repair {
        text.push(plain(match repair.proven {
            true => "order-correction-proven",
            false => "order-correction-not-proven",
        }));
    }
    text.join(" ")
}
