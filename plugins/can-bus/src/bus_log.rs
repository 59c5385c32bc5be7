//! Findings of a bus log, which comes as a recording with one sample a frame.

use crate::measure::frame::Identifier;
use crate::measure::log::{self, Logged};
use crate::{LIMITS, facts, findings, outputs};
use plugin_sdk::{Analyzer, Declaration, Input, Output, SampleView};

/// Load, periods, gaps, silent and flooding nodes of a log.
pub struct CanLog;

impl Analyzer for CanLog {
    const DECLARATION: Declaration = Declaration {
        id: "can-log",
        name: "CAN log",
        needs: &["frame-identifier"],
        uses: &["frame-length", "frame-data-1", "frame-data-2"],
        kinds: outputs::LOG.kinds,
        messages: outputs::LOG.messages,
        ..Declaration::EMPTY
    };

    fn analyze(input: &Input<'_>, out: &mut Output) -> Result<(), String> {
        let facts = facts(&input.settings);
        if let Some(log) = log::measure(&logged(input), facts.bit_rate, &facts.expected) {
            findings::log(&log, &facts, &LIMITS.with(&input.settings), out);
        }
        Ok(())
    }
}

/// Frames of the recording. Of data, eight bytes are there.
fn logged(input: &Input<'_>) -> Vec<Logged> {
    let Some(ids) = input.channel("frame-identifier") else {
        return Vec::new();
    };
    // Values cross in double precision: 32 bits are exact.
    let number = |role: &str, i: usize| match input.channel(role)?.samples {
        SampleView::F64(values) => values.get(i).map(|v| *v as u32),
        _ => None,
    };
    (0..ids.len())
        .filter_map(|i| {
            let id = number("frame-identifier", i)?;
            let length = number("frame-length", i).unwrap_or(0).min(64) as usize;
            let words = ["frame-data-1", "frame-data-2"].map(|r| number(r, i).unwrap_or(0));
            let mut data: Vec<u8> = words.iter().flat_map(|w| w.to_be_bytes()).collect();
            data.resize(length, 0);
            Some(Logged {
                time_s: ids.time.at(i),
                id: Identifier {
                    number: id & 0x1FFF_FFFF,
                    extended: id >> 31 == 1,
                },
                remote: false,
                fd: None,
                data,
            })
        })
        .collect()
}
