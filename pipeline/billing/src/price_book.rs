//! Prices of operations, parts and fees, checked.

mod lookup;

use crate::currency::minor_digits;
use crate::rounding::{Money, TimeRule};
use crate::{BillingError, KeyPath};
use lookup::Lookup;
use model::labour::{HoursFrom, LineTax, PriceRule, WorkStep};
use model::shop_file::{BillingSection, Operation};
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// More hours than this in one line are a typing error.
pub(crate) const MAX_HOURS: Decimal = Decimal::from_parts(1_000, 0, 0, false, 0);

/// The shop's prices.
#[derive(Debug)]
pub(crate) struct PriceBook {
    pub(crate) currency: String,
    pub(crate) money: Money,
    pub(crate) time: TimeRule,
    /// In the order of the steps, then of the catalogue.
    pub(crate) operations: Vec<PricedOperation>,
    pub(crate) fees: Vec<PricedFee>,
    /// Source of the operations' hours.
    pub(crate) hours_from: HoursFrom,
    /// Steps that the work on each system has.
    steps: BTreeMap<String, BTreeSet<WorkStep>>,
}

/// One operation of the catalogue with its price.
#[derive(Debug)]
pub(crate) struct PricedOperation {
    pub(crate) code: String,
    pub(crate) description: String,
    pub(crate) step: WorkStep,
    pub(crate) hours: Option<Decimal>,
    /// Price of an hour, or of the whole where the rule is a flat fee.
    pub(crate) rate: Decimal,
    pub(crate) rule: PriceRule,
    pub(crate) tax: Option<LineTax>,
    pub(crate) needs_teardown: bool,
    pub(crate) causes: Vec<String>,
    pub(crate) next: Vec<String>,
    pub(crate) parts: Vec<PricedPart>,
}

impl PricedOperation {
    /// Returns whether it is the diagnosis that every job has, as against a further one that a verdict asks for.
    pub(crate) fn is_first_diagnosis(&self) -> bool {
        self.step == WorkStep::Diagnosis && self.next.is_empty()
    }
}

/// A part of an operation with its price.
#[derive(Debug)]
pub(crate) struct PricedPart {
    pub(crate) number: String,
    pub(crate) description: String,
    pub(crate) pieces: Decimal,
    pub(crate) price: Decimal,
    pub(crate) tax: Option<LineTax>,
}

/// A fee with its price.
#[derive(Debug)]
pub(crate) struct PricedFee {
    pub(crate) code: String,
    pub(crate) description: String,
    pub(crate) price: Decimal,
    pub(crate) tax: Option<LineTax>,
    /// Operations that bring it; empty for any.
    pub(crate) operations: Vec<String>,
    /// First step that may bring it.
    pub(crate) step: WorkStep,
}

impl PricedFee {
    /// Returns whether the operation of this code brings it.
    pub(crate) fn is_brought_by(&self, code: &str) -> bool {
        self.operations.is_empty() || self.operations.iter().any(|c| c == code)
    }
}

impl PriceBook {
    /// Checks and reads `[billing]`; `None` when the shop gives no rate.
    pub(crate) fn read(section: &BillingSection) -> Result<Option<PriceBook>, BillingError> {
        let billing = KeyPath::new(["billing"]);
        // A wrong currency is said even where nothing is priced yet.
        let digits = section.currency.as_deref().map(minor_digits).transpose()?;
        if section.rates.is_empty() {
            let unpriced = (section.operations.first().map(|op| &op.code))
                .or(section.fees.first().map(|fee| &fee.code));
            return match unpriced {
                None => Ok(None),
                Some(code) => Err(BillingError::setting(
                    billing.key("rates"),
                    format!(
                        "is missing, so {code:?} has no price: give at least one rate, such as mechanical = \"129.95\""
                    ),
                )),
            };
        }
        let (Some(currency), Some(digits)) = (section.currency.clone(), digits) else {
            return Err(BillingError::setting(
                billing.key("currency"),
                "is missing: say which currency the rates are in, such as currency = \"EUR\"",
            ));
        };
        let money = Money {
            digits,
            rounding: section.money_rounding,
        };
        let (catalogue, hours_from) = if section.operations.is_empty() {
            (example_catalogue(section), HoursFrom::ExampleCatalogue)
        } else {
            (section.operations.clone(), HoursFrom::Catalogue)
        };
        let lookup = Lookup::read(section, money)?;
        let mut operations = catalogue
            .into_iter()
            .enumerate()
            .map(|(i, op)| lookup.operation(op, &billing.key("operation").item(i)))
            .collect::<Result<Vec<_>, _>>()?;
        check_unique(&operations, &billing.key("operation"))?;
        operations.sort_by_key(|op| op.step);
        let mut codes = BTreeSet::new();
        let mut fees = Vec::new();
        for (i, fee) in section.fees.iter().enumerate() {
            let place = billing.key("fee").item(i);
            if !codes.insert(&fee.code) {
                return Err(BillingError::setting(
                    place.key("code"),
                    format!("fee {:?} stands twice", fee.code),
                ));
            }
            fees.push(lookup.fee(fee, &operations, &place)?);
        }
        Ok(Some(PriceBook {
            currency,
            money,
            time: section.into(),
            operations,
            fees,
            hours_from,
            steps: (section.system_work.iter())
                .map(|(system, work)| (system.clone(), work.iter().map(|op| op.step).collect()))
                .collect(),
        }))
    }

    /// Returns whether the work on a system has a step. Every system is repaired and proven; of one that is not known any
    /// step may be.
    pub(crate) fn has_step(&self, system: Option<&str>, step: WorkStep) -> bool {
        let always = matches!(step, WorkStep::Repair | WorkStep::ProofRecording);
        let steps = system.and_then(|name| self.steps.get(name));
        always || steps.is_none_or(|steps| steps.contains(&step))
    }
}

/// Operations of all systems, each once: what several of them share has one code.
fn example_catalogue(section: &BillingSection) -> Vec<Operation> {
    let mut codes = BTreeSet::new();
    let all = section.system_work.values().flatten();
    all.filter(|op| codes.insert(&op.code)).cloned().collect()
}

fn check_unique(operations: &[PricedOperation], list: &KeyPath) -> Result<(), BillingError> {
    let mut seen = BTreeSet::new();
    let mut diagnosis: Option<&str> = None;
    for (i, op) in operations.iter().enumerate() {
        let wrong = |key: &str, what: String| {
            let message = format!("operation {:?} {what}", op.code);
            Err(BillingError::setting(list.item(i).key(key), message))
        };
        if !seen.insert((&op.code, op.step)) {
            return wrong("code", format!("stands twice for the step {}", op.step));
        }
        if op.is_first_diagnosis()
            && let Some(first) = diagnosis.replace(&op.code)
        {
            return wrong(
                "step",
                format!(
                    "is a second diagnosis beside {first:?}, and the hours of job.toml go to one alone: name in `next` \
                     the recordings that it is for"
                ),
            );
        }
        let mut numbers = BTreeSet::new();
        if let Some(twice) = op.parts.iter().find(|p| !numbers.insert(&p.number)) {
            let number = &twice.number;
            return wrong(
                "part",
                format!("has the part {number:?} twice: give its pieces"),
            );
        }
    }
    Ok(())
}
