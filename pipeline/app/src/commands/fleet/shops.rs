//! Settings of the shops: shops/SHOP/shop.toml in the store, with the sheets and pictures that it names.

use crate::batch;
use crate::context::AppContext;
use crate::memory::Memory;
use anyhow::{Context, Result, ensure};
use fleet::{FleetError, Objects};
use intake::PendingRow;
use model::ShopFile;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};
use tempfile::TempDir;
use tokio::runtime::Handle;

/// Contexts that are kept for the next job, over all shops: each has worker processes of its own.
const MOST_KEPT: usize = 4;

/// What was made of a shop's settings.
pub struct Opened {
    shop: String,
    version: String,
    /// Context of the shop.
    pub context: AppContext,
    /// Its settings lie here for as long as the context lives.
    _folder: Arc<TempDir>,
}

/// Settings of the shops.
pub struct Shops {
    objects: Objects,
    runtime: Handle,
    memory: Memory,
    /// The settings' place on this machine, by shop and version.
    folders: Mutex<HashMap<(String, String), Arc<TempDir>>>,
    kept: Mutex<Vec<Opened>>,
}

impl Shops {
    /// Shops whose settings lie in the store.
    pub fn new(objects: Objects, runtime: Handle, memory: Memory) -> Shops {
        Shops {
            objects,
            runtime,
            memory,
            folders: Mutex::default(),
            kept: Mutex::default(),
        }
    }

    /// Context of a shop by its present settings. Waits for the store.
    ///
    /// # Errors
    /// Settings that cannot be had or used.
    pub fn open(&self, shop: &str) -> Result<Opened> {
        let (version, folder) = self.runtime.block_on(self.folder(shop))?;
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(i) = kept
            .iter()
            .position(|o| o.shop == shop && o.version == version)
        {
            return Ok(kept.swap_remove(i));
        }
        drop(kept);
        let file = folder.path().join(&version).join(shop).join("shop.toml");
        let file = file.is_file().then_some(file);
        let settings = crate::context::Settings::read(file.as_deref())?;
        // A shop's folder must not bring code onto machines that work for others.
        ensure!(
            settings.shop.plugins.folders.is_empty(),
            "shops/{shop}/shop.toml: [plugins] folders is not for shops of a fleet: its plugins are those of the program"
        );
        Ok(Opened {
            shop: shop.into(),
            version,
            context: AppContext::with_settings(settings, false, self.memory)?,
            _folder: folder,
        })
    }

    /// Keeps a context for the shop's next job.
    pub fn keep(&self, opened: Opened) {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        kept.push(opened);
        if kept.len() > MOST_KEPT {
            kept.remove(0);
        }
    }

    /// Writes a batch by the shop's own column map.
    pub fn write_batch(&self, shop: &str, rows: &[PendingRow]) -> Result<Vec<u8>, FleetError> {
        let other = |e: String| FleetError::Folder(std::io::Error::other(e));
        // Called between two awaits of the runtime's own.
        let file = tokio::task::block_in_place(|| self.runtime.block_on(self.settings(shop)));
        let file = file.map_err(|e| other(format!("{e:#}")))?;
        let rows: Vec<&PendingRow> = rows.iter().collect();
        let bytes = batch::append(None, &rows, &file).map_err(|e| other(e.to_string()))?;
        Ok(bytes.unwrap_or_default())
    }

    async fn settings(&self, shop: &str) -> Result<ShopFile> {
        let (version, folder) = self.folder(shop).await?;
        let file = folder.path().join(version).join(shop).join("shop.toml");
        let file = file.is_file().then_some(file);
        Ok(crate::context::Settings::read(file.as_deref())?.shop)
    }

    /// The shop's settings on this machine, with their version.
    async fn folder(&self, shop: &str) -> Result<(String, Arc<TempDir>)> {
        let files = self.objects.files(&["shops", shop]).await?;
        let version = fleet::listing_digest(&files);
        let key = (shop.to_owned(), version.clone());
        if let Some(folder) = self
            .folders
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .get(&key)
        {
            return Ok((version, Arc::clone(folder)));
        }
        let folder = Arc::new(tempfile::tempdir().context("a temporary folder")?);
        self.objects.mirror(&files, shop, folder.path()).await?;
        let mut folders = self.folders.lock().unwrap_or_else(PoisonError::into_inner);
        // Older versions go with the last context that has them.
        folders.retain(|(of, _), _| of != shop);
        folders.insert(key, Arc::clone(&folder));
        Ok((version, folder))
    }
}
