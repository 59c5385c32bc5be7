//! Complaint, cause and correction.

mod common;

use baybrief_billing::{OrderInput, Phrase, order_file, order_texts};
use common::{bill, clutch_2_drag, three_operations, verdict};
use model::verdict::{NextRecording, RepairProof};
use model::{TroubleCode, Verdict};

/// A phrase as its key and its texts.
fn format_phrase(phrase: Phrase<'_>) -> String {
    let key = phrase.key.trim_start_matches("order-");
    let texts = phrase
        .arguments
        .iter()
        .map(|(name, text)| format!("{name}={text}"));
    format!(
        "[{key}{}{}]",
        if phrase.arguments.is_empty() {
            ""
        } else {
            ": "
        },
        texts.collect::<Vec<_>>().join(", ")
    )
}

fn code(code: &str) -> TroubleCode {
    let text = format!("code = {code:?}\nstatus = [\"confirmed\"]\nfile = \"scan.txt\"\nline = 1");
    toml::from_str(&text).unwrap()
}

#[test]
fn an_established_cause_says_what_proves_it_and_what_was_done() {
    let verdict = clutch_2_drag();
    let bill = bill(&three_operations("EUR", "129.95", ""), &verdict, &["T"]);
    let evidence = ["One.", "Two.", "Three."].map(String::from);
    let input = OrderInput {
        concern: Some("  Refuses\n its relearn "),
        codes: &[code("P0894"), code("P0900"), code("P0894")],
        verdict: &verdict,
        cause: Some("Clutch 2 does not release"),
        evidence: &evidence,
        lines: &bill.lines,
    };
    let texts = order_texts(&input, &format_phrase);
    assert_eq!(
        texts.complaint,
        "[complaint: text=Refuses its relearn] [complaint-codes: codes=P0894, P0900]"
    );
    assert_eq!(
        texts.cause,
        "[cause-established: cause=Clutch 2 does not release] One. Two."
    );
    assert_eq!(
        texts.correction,
        "[correction-done: work=Open the gearbox] \
         [correction-offered: work=Replace the clutch pack; Close the gearbox]"
    );
    assert_eq!(
        order_file(&texts, &format_phrase)
            .lines()
            .step_by(3)
            .collect::<Vec<_>>(),
        [
            "[heading-complaint]",
            "[heading-cause]",
            "[heading-correction]"
        ]
    );
}

#[test]
fn what_is_not_known_is_said_and_not_guessed() {
    let texts = |verdict: &Verdict, cause| {
        let input = OrderInput {
            concern: Some(" \n"),
            codes: &[],
            verdict,
            cause,
            evidence: &["Seen.".to_string()],
            lines: &[],
        };
        order_texts(&input, &format_phrase)
    };
    let mut open = verdict("open", None, false);
    open.next.push(NextRecording {
        step: "next-x".into(),
        text: "Record x.".into(),
    });
    let said = texts(&open, None);
    assert_eq!(said.complaint, "[complaint-unstated]");
    assert_eq!(said.cause, "[cause-open] [cause-next: next=Record x.]");
    assert_eq!(said.correction, "[correction-none]");
    let probable = verdict("probable", Some("c"), false);
    assert_eq!(
        texts(&probable, Some("C")).cause,
        "[cause-probable: cause=C] Seen."
    );
    let mut healthy = verdict("nothing-found", None, false);
    assert_eq!(texts(&healthy, None).cause, "[cause-nothing]");
    for (proven, words) in [
        (true, "[correction-proven]"),
        (false, "[correction-not-proven]"),
    ] {
        healthy.repair = Some(RepairProof {
            proven,
            compared: Vec::new(),
        });
        assert!(texts(&healthy, None).correction.ends_with(words));
    }
}
