//! The shop's prices, checked: what every operation costs.

use crate::BillingError;
use crate::currency::minor_digits;
use crate::rounding::{Money, TimeRule, with_digits};
use model::labour::{HoursFrom, LineTax, WorkStep};
use model::shop_file::{BillingSection, Operation, Tax};
use rust_decimal::Decimal;
use std::collections::{BTreeMap, BTreeSet};

/// More hours than this in one line are a typing error.
pub(crate) const MAX_HOURS: Decimal = Decimal::from_parts(1_000, 0, 0, false, 0);
/// A dearer hour than this is a typing error in any currency.
const MAX_RATE: Decimal = Decimal::from_parts(1_000_000_000, 0, 0, false, 0);
/// Decimals of a rate, hours or a percentage; with the two limits above no product is ever inexact.
const MAX_DIGITS: u32 = 6;

const EXAMPLE_CATALOGUE: &str = include_str!("../data/example-catalogue.toml");

/// The shop's prices.
#[derive(Debug)]
pub(crate) struct PriceBook {
    pub(crate) currency: String,
    pub(crate) money: Money,
    pub(crate) time: TimeRule,
    /// In the order of the steps, then of the catalogue.
    pub(crate) operations: Vec<PricedOperation>,
    /// Where the operations' hours come from.
    pub(crate) hours_from: HoursFrom,
}

/// One operation of the catalogue with its price.
#[derive(Debug)]
pub(crate) struct PricedOperation {
    pub(crate) code: String,
    pub(crate) description: String,
    pub(crate) step: WorkStep,
    pub(crate) hours: Option<Decimal>,
    pub(crate) rate: Decimal,
    pub(crate) tax: Option<LineTax>,
    pub(crate) needs_teardown: bool,
    pub(crate) causes: Vec<String>,
}

impl PriceBook {
    /// Checks and reads `[billing]`; `None` when the shop gives no rate.
    pub(crate) fn read(section: &BillingSection) -> Result<Option<PriceBook>, BillingError> {
        if section.rates.is_empty() {
            return match section.operations.first() {
                None => Ok(None),
                Some(op) => Err(BillingError::setting(
                    "billing.rates",
                    format!(
                        "operation {:?} has no price: give at least one rate, such as mechanical = \"129.95\"",
                        op.code
                    ),
                )),
            };
        }
        let currency = section.currency.clone().ok_or_else(|| {
            BillingError::setting(
                "billing.currency",
                "is missing: say which currency the rates are in, such as currency = \"EUR\"",
            )
        })?;
        let money = Money {
            digits: minor_digits(&currency)?,
            halves: section.money_rounding,
        };
        let (catalogue, hours_from) = if section.operations.is_empty() {
            (example_catalogue()?, HoursFrom::ExampleCatalogue)
        } else {
            (section.operations.clone(), HoursFrom::Catalogue)
        };
        let lookup = Lookup::read(section, money)?;
        let mut operations = catalogue
            .into_iter()
            .enumerate()
            .map(|(i, op)| lookup.price(i + 1, op))
            .collect::<Result<Vec<_>, _>>()?;
        check_unique(&operations)?;
        operations.sort_by_key(|op| op.step);
        Ok(Some(PriceBook {
            currency,
            money,
            time: TimeRule {
                side: section.hours_rounding,
                unit: section.hours_unit,
            },
            operations,
            hours_from,
        }))
    }
}

fn example_catalogue() -> Result<Vec<Operation>, BillingError> {
    #[derive(serde::Deserialize)]
    struct Catalogue {
        operation: Vec<Operation>,
    }
    toml::from_str::<Catalogue>(EXAMPLE_CATALOGUE)
        .map(|c| c.operation)
        .map_err(|e| BillingError::setting("built-in example catalogue", e.to_string()))
}

fn check_unique(operations: &[PricedOperation]) -> Result<(), BillingError> {
    let mut seen = BTreeSet::new();
    let mut diagnosis: Option<&str> = None;
    for op in operations {
        if !seen.insert((&op.code, op.step)) {
            return Err(operation_error(
                &op.code,
                format!(
                    "stands twice in the catalogue for the step {}",
                    op.step.name()
                ),
            ));
        }
        if op.step == WorkStep::Diagnosis
            && let Some(first) = diagnosis.replace(&op.code)
        {
            return Err(operation_error(
                &op.code,
                format!(
                    "is a second diagnosis beside {first:?}; the hours of job.toml go to one alone"
                ),
            ));
        }
    }
    Ok(())
}

fn operation_error(code: &str, message: impl Into<String>) -> BillingError {
    BillingError::setting(format!("billing.operation {code:?}"), message)
}

/// Rates and taxes by name, checked.
struct Lookup<'a> {
    rates: BTreeMap<&'a str, Decimal>,
    taxes: BTreeMap<&'a str, LineTax>,
    default_rate: Option<&'a str>,
    default_tax: Option<&'a str>,
}

impl<'a> Lookup<'a> {
    fn read(section: &'a BillingSection, money: Money) -> Result<Self, BillingError> {
        let mut rates = BTreeMap::new();
        for (name, rate) in &section.rates {
            let place = format!("billing.rates.{name}");
            let rate = in_range(rate.0, MAX_RATE, &place)?;
            rates.insert(
                name.as_str(),
                with_digits(rate, rate.scale().max(money.digits)),
            );
        }
        let mut taxes = BTreeMap::new();
        for (name, tax) in &section.taxes {
            taxes.insert(name.as_str(), read_tax(name, tax)?);
        }
        // A single rate or tax needs no name to be the default.
        Ok(Lookup {
            default_rate: section
                .default_rate
                .as_deref()
                .or_else(|| only_name(&rates)),
            default_tax: section.default_tax.as_deref().or_else(|| only_name(&taxes)),
            rates,
            taxes,
        })
    }

    /// Puts the price to one operation, the `number`th of the catalogue.
    fn price(&self, number: usize, op: Operation) -> Result<PricedOperation, BillingError> {
        if op.code.trim().is_empty() || op.description.trim().is_empty() {
            return Err(BillingError::setting(
                format!("billing.operation, number {number}"),
                "has an empty code or description: both stand on the customer's bill",
            ));
        }
        let rate = named(
            &self.rates,
            op.rate.as_deref().or(self.default_rate),
            "rate",
            &op.code,
        )?;
        let tax = match self.taxes.is_empty() && op.tax.is_none() && self.default_tax.is_none() {
            true => None,
            false => Some(named(
                &self.taxes,
                op.tax.as_deref().or(self.default_tax),
                "tax",
                &op.code,
            )?),
        };
        let hours = op.hours.map(|h| {
            let place = format!("billing.operation {:?}, hours", op.code);
            in_range(h.0, MAX_HOURS, &place)
        });
        let hours = hours.transpose()?;
        let is_diagnosis = op.step == WorkStep::Diagnosis;
        if is_diagnosis && (op.needs_teardown || !op.causes.is_empty()) {
            return Err(operation_error(
                &op.code,
                "is a diagnosis, which is billed whatever is found: leave out needs_teardown and causes",
            ));
        }
        if !is_diagnosis && hours.is_none_or(|h| h.is_zero()) {
            return Err(operation_error(
                &op.code,
                "has no hours: say how long it takes, such as hours = \"2.3\"",
            ));
        }
        Ok(PricedOperation {
            hours,
            rate: *rate,
            tax: tax.cloned(),
            needs_teardown: op.needs_teardown
                || matches!(op.step, WorkStep::Teardown | WorkStep::Reassembly),
            code: op.code,
            description: op.description,
            step: op.step,
            causes: op.causes,
        })
    }
}

fn read_tax(name: &str, tax: &Tax) -> Result<LineTax, BillingError> {
    if tax.category.trim().is_empty() {
        return Err(BillingError::setting(
            format!("billing.taxes.{name}.category"),
            "is empty: expected a category code such as \"S\"",
        ));
    }
    Ok(LineTax {
        category: tax.category.clone(),
        rate: in_range(
            tax.rate.0,
            Decimal::ONE_HUNDRED,
            &format!("billing.taxes.{name}.rate"),
        )?,
    })
}

fn only_name<'a, T>(map: &BTreeMap<&'a str, T>) -> Option<&'a str> {
    match map.len() {
        1 => map.keys().next().copied(),
        _ => None,
    }
}

fn named<'m, T>(
    map: &'m BTreeMap<&str, T>,
    name: Option<&str>,
    what: &str,
    code: &str,
) -> Result<&'m T, BillingError> {
    let known = || map.keys().copied().collect::<Vec<_>>().join(", ");
    let Some(name) = name else {
        return Err(operation_error(
            code,
            format!(
                "names no {what}: add {what} = \"...\" to it or default_{what} to [billing]; there are: {}",
                known()
            ),
        ));
    };
    map.get(name).ok_or_else(|| {
        operation_error(
            code,
            format!(
                "takes the {what} {name:?}, which [billing] does not price; there are: {}",
                known()
            ),
        )
    })
}

fn in_range(value: Decimal, max: Decimal, place: &str) -> Result<Decimal, BillingError> {
    let value = value.normalize();
    if value < Decimal::ZERO || value > max || value.scale() > MAX_DIGITS {
        return Err(BillingError::setting(
            place,
            format!(
                "{value} is not usable: expected 0 to {max} with at most {MAX_DIGITS} decimals"
            ),
        ));
    }
    Ok(value)
}
