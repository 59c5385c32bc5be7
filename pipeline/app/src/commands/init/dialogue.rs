//! Questions on a terminal, one a line, each until its answer is right.

use crate::arguments::{Usage, decimal};
use anyhow::Result;
use rust_decimal::Decimal;
use std::io::{BufRead, ErrorKind, Write};

/// Highest price of an hour that is no typing error.
const MAX_PRICE: Decimal = Decimal::from_parts(1_000_000, 0, 0, false, 0);

/// Questions and answers.
pub(super) struct Dialogue<R, W> {
    answers: R,
    terminal: W,
}

impl<R: BufRead, W: Write> Dialogue<R, W> {
    pub(super) fn new(answers: R, terminal: W) -> Dialogue<R, W> {
        Dialogue { answers, terminal }
    }

    pub(super) fn say(&mut self, text: &str) -> Result<()> {
        self.show(&format!("{text}\n"))
    }

    /// Asks until there is an answer.
    pub(super) fn required(&mut self, question: &str) -> Result<String> {
        self.checked(question, None, |answer| Ok(answer.into()))
    }

    /// Asks for what may be left out.
    pub(super) fn optional(&mut self, question: &str) -> Result<Option<String>> {
        let answer: String = self.checked(question, Some(""), |answer| Ok(answer.into()))?;
        Ok((!answer.is_empty()).then_some(answer))
    }

    /// Asks for one of a few words; the first is taken where nothing is answered.
    pub(super) fn choice<'w>(&mut self, question: &str, words: &[&'w str]) -> Result<&'w str> {
        let question = format!("{question}: {}", words.join(", "));
        self.checked(&question, words.first().copied(), |answer| {
            let word = words.iter().find(|w| w.eq_ignore_ascii_case(answer));
            word.copied()
                .ok_or_else(|| format!("expected one of {}", words.join(", ")))
        })
    }

    /// Asks for the net price of an hour.
    pub(super) fn price(&mut self, question: &str, default: Option<&str>) -> Result<String> {
        self.checked(question, default, |answer| number(answer, MAX_PRICE))
    }

    /// Asks for a percentage.
    pub(super) fn percent(&mut self, question: &str, default: Option<&str>) -> Result<String> {
        self.checked(question, default, |answer| {
            number(answer, Decimal::ONE_HUNDRED)
        })
    }

    /// Asks for hours that may be left out.
    pub(super) fn hours(&mut self, question: &str) -> Result<Option<String>> {
        let question = format!("Hours: {question}");
        let answer = self.checked(&question, Some(""), |answer| match answer.is_empty() {
            true => Ok(String::new()),
            false => number(answer, Decimal::ONE_THOUSAND),
        })?;
        Ok((!answer.is_empty()).then_some(answer))
    }

    /// Asks until an answer is right; without one, the default is taken.
    pub(super) fn checked<T>(
        &mut self,
        question: &str,
        default: Option<&str>,
        check: impl Fn(&str) -> Result<T, String>,
    ) -> Result<T> {
        loop {
            match default {
                Some(default) if !default.is_empty() => {
                    self.show(&format!("{question} [{default}]: "))?;
                }
                _ => self.show(&format!("{question}: "))?,
            }
            let mut line = String::new();
            if self.answers.read_line(&mut line)? == 0 {
                let message = "the answers ended before the questions; nothing was written";
                return Err(Usage(message.into()).into());
            }
            let answer = match (line.trim(), default) {
                ("", Some(default)) => default,
                ("", None) => {
                    self.say("  this one is needed")?;
                    continue;
                }
                (answer, _) => answer,
            };
            match check(answer) {
                Ok(value) => return Ok(value),
                Err(message) => self.say(&format!("  {message}"))?,
            }
        }
    }

    /// A terminal that nobody reads any more is no error.
    fn show(&mut self, text: &str) -> Result<()> {
        let shown = self.terminal.write_all(text.as_bytes());
        match shown.and_then(|()| self.terminal.flush()) {
            Err(e) if e.kind() != ErrorKind::BrokenPipe => Err(e.into()),
            _ => Ok(()),
        }
    }
}

fn number(answer: &str, most: Decimal) -> Result<String, String> {
    match (Decimal::ZERO..=most).contains(&decimal(answer)?) {
        true => Ok(answer.into()),
        false => Err(format!("expected 0 or more and at most {most}")),
    }
}
