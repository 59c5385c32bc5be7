//! Rates and taxes by name, and the operations, parts and fees that use them.

use super::{MAX_HOURS, PricedFee, PricedOperation, PricedPart};
use crate::rounding::{Money, with_digits};
use crate::{BillingError, KeyPath};
use model::Exact;
use model::labour::{LineTax, PriceRule, WorkStep};
use model::shop_file::{BillingSection, Fee, Operation, Part, Tax};
use rust_decimal::Decimal;
use std::collections::BTreeMap;

/// More pieces than this in one line are a typing error.
const MAX_PIECES: Decimal = Decimal::from_parts(10_000, 0, 0, false, 0);
/// A dearer hour or piece than this is a typing error in any currency.
const MAX_PRICE: Decimal = Decimal::from_parts(1_000_000_000, 0, 0, false, 0);
/// Decimals of a price, hours or a percentage; with the limits above no product is ever inexact.
const MAX_DIGITS: u32 = 6;
/// Categories of UNTDID 5305 that EN 16931 takes (BR-CL-17), from memory, and whether a tax is taken in them
/// (BR-S-05, BR-Z-05, BR-E-05, BR-AE-05, BR-IC-05, BR-G-05, BR-O-05, BR-AF-05, BR-AG-05).
const CATEGORIES: [(&str, Rate); 9] = [
    ("S", Rate::Some),
    ("Z", Rate::None),
    ("E", Rate::None),
    ("AE", Rate::None),
    ("K", Rate::None),
    ("G", Rate::None),
    ("O", Rate::None),
    ("L", Rate::Any),
    ("M", Rate::Any),
];

#[derive(Clone, Copy, PartialEq, Eq)]
enum Rate {
    Some,
    None,
    Any,
}

pub(super) struct Lookup<'a> {
    money: Money,
    rates: BTreeMap<&'a str, Decimal>,
    taxes: BTreeMap<&'a str, LineTax>,
    default_rate: Option<&'a str>,
    default_tax: Option<&'a str>,
}

impl<'a> Lookup<'a> {
    pub(super) fn read(section: &'a BillingSection, money: Money) -> Result<Self, BillingError> {
        let mut rates = BTreeMap::new();
        for (name, rate) in &section.rates {
            let place = KeyPath::new(["billing", "rates", name]);
            rates.insert(name.as_str(), price(*rate, money, &place)?);
        }
        let mut taxes = BTreeMap::new();
        for (name, tax) in &section.taxes {
            let place = KeyPath::new(["billing", "taxes", name]);
            taxes.insert(name.as_str(), read_tax(tax, &place)?);
        }
        let default_rate = section.default_rate.as_deref();
        let default_tax = section.default_tax.as_deref();
        for (name, key, known) in [
            (
                default_rate,
                "default_rate",
                rates.keys().copied().collect(),
            ),
            (
                default_tax,
                "default_tax",
                taxes.keys().copied().collect::<Vec<_>>(),
            ),
        ] {
            if let Some(name) = name.filter(|n| !known.contains(n)) {
                let place = KeyPath::new(["billing", key]);
                return Err(unknown(place, name, &known));
            }
        }
        // A single rate or tax needs no name to be the default.
        Ok(Lookup {
            money,
            default_rate: default_rate.or_else(|| only_name(&rates)),
            default_tax: default_tax.or_else(|| only_name(&taxes)),
            rates,
            taxes,
        })
    }

    /// Prices one operation.
    pub(super) fn operation(
        &self,
        op: Operation,
        place: &KeyPath,
    ) -> Result<PricedOperation, BillingError> {
        named(&op.code, "code", place)?;
        named(&op.description, "description", place)?;
        let wrong = |key: &str, what: &str| {
            let message = format!("operation {:?} {what}", op.code);
            Err(BillingError::setting(place.key(key), message))
        };
        let hours = op
            .hours
            .map(|h| in_range(h, MAX_HOURS, &place.key("hours")))
            .transpose()?;
        let is_diagnosis = op.step == WorkStep::Diagnosis;
        if is_diagnosis && (op.needs_teardown || !op.causes.is_empty()) {
            return wrong(
                "step",
                "is a diagnosis, which is billed whatever is found: leave out needs_teardown and causes",
            );
        }
        if !is_diagnosis && !op.next.is_empty() {
            return wrong(
                "next",
                "names next recordings, which only step = \"diagnosis\" makes",
            );
        }
        let flat_fee = (op.flat_fee)
            .map(|p| price(p, self.money, &place.key("flat_fee")))
            .transpose()?;
        let minimum = (op.minimum_charge)
            .map(|p| price(p, self.money, &place.key("minimum_charge")))
            .transpose()?;
        if flat_fee.is_some() && minimum.is_some() {
            return wrong(
                "minimum_charge",
                "has a flat fee, which is its price: leave out minimum_charge",
            );
        }
        let may_lack_hours = flat_fee.is_some() || (is_diagnosis && op.next.is_empty());
        if !may_lack_hours && hours.is_none_or(|h| h.is_zero()) {
            return wrong(
                "hours",
                "has no hours: say how long it takes, such as hours = \"2.3\", or give it a flat_fee",
            );
        }
        let parts = op
            .parts
            .iter()
            .enumerate()
            .map(|(i, part)| self.part(part, &place.key("part").item(i)))
            .collect::<Result<Vec<_>, _>>()?;
        let (rate, rule) = match (flat_fee, minimum) {
            (Some(fee), _) => (fee, PriceRule::FlatFee),
            (None, minimum) => {
                let name = op.rate.as_deref();
                let rate = *one_of(&self.rates, name, self.default_rate, "rate", place)?;
                let rule = minimum.map_or(PriceRule::PerUnit, |charge| PriceRule::Minimum {
                    charge,
                    hourly_rate: rate,
                });
                (rate, rule)
            }
        };
        Ok(PricedOperation {
            hours,
            rate,
            rule,
            tax: self.tax(op.tax.as_deref(), place)?,
            needs_teardown: op.needs_teardown
                || matches!(op.step, WorkStep::Teardown | WorkStep::Reassembly),
            code: op.code,
            description: op.description,
            step: op.step,
            causes: op.causes,
            next: op.next,
            parts,
        })
    }

    fn part(&self, part: &Part, place: &KeyPath) -> Result<PricedPart, BillingError> {
        named(&part.number, "number", place)?;
        named(&part.description, "description", place)?;
        let pieces = match part.pieces {
            None => Decimal::ONE,
            Some(pieces) => in_range(pieces, MAX_PIECES, &place.key("pieces"))?,
        };
        if pieces.is_zero() {
            let message = format!(
                "part {:?} has no pieces: leave it out or count it",
                part.number
            );
            return Err(BillingError::setting(place.key("pieces"), message));
        }
        Ok(PricedPart {
            number: part.number.clone(),
            description: part.description.clone(),
            pieces,
            price: price(part.price, self.money, &place.key("price"))?,
            tax: self.tax(part.tax.as_deref(), place)?,
        })
    }

    /// Prices a fee that some of the operations bring.
    pub(super) fn fee(
        &self,
        fee: &Fee,
        operations: &[PricedOperation],
        place: &KeyPath,
    ) -> Result<PricedFee, BillingError> {
        named(&fee.code, "code", place)?;
        named(&fee.description, "description", place)?;
        let known: Vec<&str> = operations.iter().map(|op| op.code.as_str()).collect();
        if let Some(name) = fee.operations.iter().find(|c| !known.contains(&c.as_str())) {
            return Err(unknown(place.key("operations"), name, &known));
        }
        let brings = |op: &&PricedOperation| fee.operations.contains(&op.code);
        Ok(PricedFee {
            code: fee.code.clone(),
            description: fee.description.clone(),
            price: price(fee.price, self.money, &place.key("price"))?,
            tax: self.tax(fee.tax.as_deref(), place)?,
            step: (operations.iter().filter(brings).map(|op| op.step).min()).unwrap_or_default(),
            operations: fee.operations.clone(),
        })
    }

    fn tax(&self, name: Option<&str>, place: &KeyPath) -> Result<Option<LineTax>, BillingError> {
        if self.taxes.is_empty() && name.is_none() {
            return Ok(None);
        }
        one_of(&self.taxes, name, self.default_tax, "tax", place).map(|tax| Some(tax.clone()))
    }
}

fn read_tax(tax: &Tax, place: &KeyPath) -> Result<LineTax, BillingError> {
    let known = CATEGORIES.iter().find(|(code, _)| *code == tax.category);
    let Some((category, taken)) = known else {
        let codes = CATEGORIES.map(|(code, _)| code);
        return Err(unknown(place.key("category"), &tax.category, &codes));
    };
    let rate = in_range(tax.rate, Decimal::ONE_HUNDRED, &place.key("rate"))?;
    let wrong = match taken {
        Rate::Some if rate.is_zero() => "a rate above zero; category \"Z\" is zero-rated",
        Rate::None if !rate.is_zero() => "rate = 0, because no tax is taken in it",
        _ => {
            return Ok(LineTax {
                category: tax.category.clone(),
                rate,
            });
        }
    };
    Err(BillingError::setting(
        place.key("rate"),
        format!("{rate} cannot be in category {category:?}: expected {wrong}"),
    ))
}

fn unknown(place: KeyPath, name: &str, known: &[&str]) -> BillingError {
    let known = match known {
        [] => "there are none".into(),
        _ => format!("there are: {}", known.join(", ")),
    };
    BillingError::setting(place, format!("{name:?} is not known; {known}"))
}

fn named(text: &str, key: &str, place: &KeyPath) -> Result<(), BillingError> {
    match text.trim().is_empty() {
        false => Ok(()),
        true => Err(BillingError::setting(
            place.key(key),
            "is empty, but stands on the customer's bill",
        )),
    }
}

fn only_name<'a, T>(map: &BTreeMap<&'a str, T>) -> Option<&'a str> {
    match map.len() {
        1 => map.keys().next().copied(),
        _ => None,
    }
}

fn one_of<'m, T>(
    map: &'m BTreeMap<&str, T>,
    name: Option<&str>,
    default: Option<&str>,
    what: &str,
    place: &KeyPath,
) -> Result<&'m T, BillingError> {
    let known: Vec<&str> = map.keys().copied().collect();
    let Some(name) = name.or(default) else {
        return Err(BillingError::setting(
            place.key(what),
            format!(
                "is missing: add {what} = \"...\" here or default_{what} to [billing]; there are: {}",
                known.join(", ")
            ),
        ));
    };
    map.get(name)
        .ok_or_else(|| unknown(place.key(what), name, &known))
}

/// A price with at least the currency's decimals.
fn price(value: Exact, money: Money, place: &KeyPath) -> Result<Decimal, BillingError> {
    let value = in_range(value, MAX_PRICE, place)?;
    Ok(with_digits(value, value.scale().max(money.digits)))
}

fn in_range(value: Exact, max: Decimal, place: &KeyPath) -> Result<Decimal, BillingError> {
    let value = value.0.normalize();
    if value < Decimal::ZERO || value > max || value.scale() > MAX_DIGITS {
        return Err(BillingError::setting(
            place.clone(),
            format!(
                "{value} is not usable: expected 0 to {max} with at most {MAX_DIGITS} decimals"
            ),
        ));
    }
    Ok(value)
}
