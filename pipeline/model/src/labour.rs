//! Lines of work: what each one costs, and how far it has come from offer to bill. Amounts are exact decimals.

mod event;
mod life;
mod line;
mod totals;

pub use event::{HandedRow, RowKind, WorkAction, WorkEvent};
pub use life::{Completion, Consent, ConsentMethod, Hold, LineLife, LineState, SumBasis, SumLimit};
pub use line::{HoursFrom, LabourLine, LineKind, LineTax, PriceRule, WorkStage, WorkStep};
pub use totals::{LabourTotals, OrderTexts, StageTotals, TaxTotal, Totals};
