//! `authorise`: what a customer agreed to, up to which sum.

use super::work::record;
use crate::arguments::{AuthoriseArguments, BasisArguments};
use anyhow::Result;
use model::labour::{SumBasis, SumLimit};

/// Records an authorisation, and makes the report that states it.
pub fn authorise(arguments: AuthoriseArguments) -> Result<bool> {
    let AuthoriseArguments {
        work,
        how,
        up_to,
        basis: BasisArguments { net, .. },
    } = arguments;
    let basis = if net { SumBasis::Net } else { SumBasis::Gross };
    let limit = up_to.map(|sum| SumLimit { sum, basis });
    record(work, |named, statement| {
        billing::authorise(named, how.into(), limit, statement)
    })
}
