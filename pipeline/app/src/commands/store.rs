//! The store of results that the arguments name.

#[cfg(feature = "fleet")]
use crate::arguments::SharedArguments;
use crate::arguments::{StoreArguments, Usage};
use anyhow::Result;
use intake::{ResultStore, Store};

/// Opens the folder of results, else the store of many shops.
///
/// # Errors
/// When there is none, or it cannot be used.
pub fn open(arguments: &StoreArguments) -> Result<Box<dyn Store>> {
    if let Some(out) = &arguments.out {
        return Ok(Box::new(ResultStore::open(out, false)?));
    }
    #[cfg(feature = "fleet")]
    return Ok(Box::new(open_shared(&arguments.shared)?));
    #[cfg(not(feature = "fleet"))]
    Err(Usage("name the folder of results with --out".into()).into())
}

/// Opens the store of many shops for one of them.
///
/// # Errors
/// When it is not named, or cannot be used.
#[cfg(feature = "fleet")]
pub fn open_shared(arguments: &SharedArguments) -> Result<fleet::ShopStore> {
    let SharedArguments {
        store,
        objects,
        tenant,
    } = arguments;
    let (Some(store), Some(objects), Some(tenant)) = (store, objects, tenant) else {
        let message = "name the folder of results with --out, or the store of many shops with --store, --objects and \
                       --tenant";
        return Err(Usage(message.into()).into());
    };
    let settings = std::env::vars();
    Ok(fleet::ShopStore::open(store, objects, settings, tenant)?)
}
