//! The work in its stages: what comes first, what it costs, how far it has come.

use crate::ReportInput;
use crate::localizer::{Localizer, args};
use model::labour::{
    LabourLine, LabourTotals, LineState, StageTotals, SumBasis, Totals, WorkStage,
};
use rust_decimal::Decimal;
use serde::Serialize;

/// One stage of the work.
#[derive(Serialize)]
pub(super) struct Stage {
    title: String,
    works: Vec<String>,
    state: String,
    /// `good`, `open` or `fault`: which look the state gets.
    tone: &'static str,
    net: Option<String>,
    /// `None` where the shop states no tax.
    gross: Option<String>,
}

/// The stages that have lines, in the order of the work.
pub(super) fn stages(input: &ReportInput<'_>) -> Vec<Stage> {
    let localizer = input.theme.localizer();
    WorkStage::ALL
        .iter()
        .filter_map(|&stage| {
            let lines = lines_of(input, stage);
            let progress = Progress::of(&lines)?;
            let totals = input.totals;
            let sum = totals.and_then(|t| Some((t, &of_stage(t, stage)?.estimate)));
            Some(Stage {
                title: title(stage, localizer),
                works: works(&lines),
                state: localizer.message(progress.key()),
                tone: progress.tone(),
                net: sum.map(|(t, sum)| localizer.money(sum.net, &t.currency)),
                gross: sum.and_then(|(t, sum)| gross(sum, t, localizer)),
            })
        })
        .collect()
}

/// The price with its tax; `None` where the shop states no tax.
pub(super) fn gross(sum: &Totals, totals: &LabourTotals, localizer: &Localizer) -> Option<String> {
    has_tax(totals).then(|| localizer.money(sum.gross, &totals.currency))
}

/// True where the shop states a tax, be it one of zero percent.
pub(super) fn has_tax(totals: &LabourTotals) -> bool {
    let stages = totals.stages.iter().map(|s| &s.estimate);
    let sums = [&totals.offered, &totals.authorised, &totals.done];
    sums.into_iter().chain(stages).any(|t| !t.by_tax.is_empty())
}

/// A sum that says whether it is net or gross.
pub(super) fn sum_on(
    sum: Decimal,
    basis: SumBasis,
    totals: &LabourTotals,
    localizer: &Localizer,
) -> String {
    let key = match (basis, has_tax(totals)) {
        (SumBasis::Gross, true) => "report-sum-gross",
        // Without a tax both are one.
        _ => "report-sum-net",
    };
    let sum = localizer.money(sum, &totals.currency);
    localizer.message_with(key, &args([("sum", sum.into())]))
}

/// Lines of one stage.
pub(super) fn lines_of<'a>(input: &ReportInput<'a>, stage: WorkStage) -> Vec<&'a LabourLine> {
    let lines = input.case.labour.iter();
    lines.filter(|l| l.step.stage() == stage).collect()
}

/// Sums of a stage; `None` where all of its lines are declined.
pub(super) fn of_stage(totals: &LabourTotals, stage: WorkStage) -> Option<&StageTotals> {
    totals.stages.iter().find(|s| s.stage == stage)
}

/// Descriptions of lines, each once.
pub(super) fn works(lines: &[&LabourLine]) -> Vec<String> {
    let mut works: Vec<String> = Vec::new();
    for line in lines {
        if !works.contains(&line.description) {
            works.push(line.description.clone());
        }
    }
    works
}

/// Name of a stage.
pub(super) fn title(stage: WorkStage, localizer: &Localizer) -> String {
    localizer.message(&format!("report-stage-{stage}"))
}

/// Progress of the lines of a stage.
#[derive(Clone, Copy)]
enum Progress {
    Offered,
    Declined,
    Authorised,
    Begun,
    Held,
    Done,
}

impl Progress {
    /// The least advanced line decides; declined ones only where all are. `None` without lines.
    fn of(lines: &[&LabourLine]) -> Option<Progress> {
        if lines.iter().any(|l| l.life.hold.is_some()) {
            return Some(Progress::Held);
        }
        let left = lines.iter().filter(|l| l.state != LineState::Declined);
        let least = left.clone().map(|l| l.state).min();
        if left.clone().any(|l| l.state >= LineState::Done) && least < Some(LineState::Done) {
            return Some(Progress::Begun);
        }
        match least {
            None => lines.first().map(|_| Progress::Declined),
            Some(LineState::Offered | LineState::Declined) => Some(Progress::Offered),
            Some(LineState::Authorised) => Some(Progress::Authorised),
            Some(LineState::Done | LineState::Billed) => Some(Progress::Done),
        }
    }

    fn key(self) -> &'static str {
        match self {
            Progress::Offered => "line-offered",
            Progress::Declined => "line-declined",
            Progress::Authorised => "line-authorised",
            Progress::Begun => "line-begun",
            Progress::Held => "line-held",
            Progress::Done => "line-done",
        }
    }

    fn tone(self) -> &'static str {
        match self {
            Progress::Done | Progress::Authorised => "good",
            Progress::Offered | Progress::Begun => "open",
            Progress::Declined | Progress::Held => "fault",
        }
    }
}
