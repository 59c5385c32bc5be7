//! The store of results that the arguments name.

use crate::arguments::{StoreArguments, Usage};
use anyhow::Result;
use intake::{ResultStore, Store};

/// Opens the folder of results, else the store of many shops.
///
/// # Errors
/// When there is none, or it cannot be used.
pub fn open(arguments: &StoreArguments) -> Result<Box<dyn Store>> {
    match &arguments.out {
        Some(out) => Ok(Box::new(ResultStore::open(out, false)?)),
        None => open_shared(arguments),
    }
}

#[cfg(feature = "fleet")]
fn open_shared(arguments: &StoreArguments) -> Result<Box<dyn Store>> {
    let (Some(store), Some(objects), Some(tenant)) =
        (&arguments.store, &arguments.objects, &arguments.tenant)
    else {
        return Err(Usage(
            "name the folder of results with --out, or the store of many shops with --store, --objects and --tenant".into(),
        )
        .into());
    };
    Ok(Box::new(fleet::ShopStore::open(
        store,
        objects,
        std::env::vars(),
        tenant,
    )?))
}

#[cfg(not(feature = "fleet"))]
fn open_shared(_: &StoreArguments) -> Result<Box<dyn Store>> {
    Err(Usage("name the folder of results with --out".into()).into())
}
