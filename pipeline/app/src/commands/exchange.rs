//! `export` and `import`: known-good values that shops give each other, as files that people carry.

use super::learn::{jobs, samples, standing};
use super::store;
use crate::arguments::{ExportArguments, ImportArguments, Usage};
use crate::context::{AppContext, LearnedFolder, Settings, read_signed};
use crate::output::say;
use crate::words::{self, phrase, tell};
use anyhow::{Context, Result};
use chrono::Local;
use learn::exchange::{self, SharedCurve};
use learn::text::slug;
use seal::ShopKey;
use std::path::PathBuf;

/// Writes the shop's known-good values into a file, signed: no number, name, plate or note, no time finer than a month.
pub fn export(arguments: ExportArguments) -> Result<bool> {
    let ExportArguments {
        known_good,
        to,
        place,
        shop,
    } = arguments;
    if !known_good {
        return Err(Usage("say what to export: --known-good".into()).into());
    }
    let context = AppContext::open(Some(&shop), false)?;
    let mut store = store::open(&place)?;
    let jobs = jobs(&mut *store)?;
    let knowledge = &context.knowledge;
    let samples = samples(&jobs.iter().collect::<Vec<_>>(), knowledge);
    let own = context
        .learned
        .sheets()
        .iter()
        .filter(|s| s.origin.is_none());
    let curves = own.flat_map(|s| {
        s.curves.iter().map(|curve| SharedCurve {
            key: s.key.clone(),
            curve: curve.clone(),
        })
    });
    let month = Local::now().format("%Y-%m").to_string();
    let version = (env!("CARGO_PKG_VERSION"), month.as_str());
    let known = exchange::export(&samples, curves.collect(), version, &standing(knowledge));
    if known.values.is_empty() {
        let message = format!(
            "there is nothing to give away: of no value are {} vehicles proven good",
            exchange::LEAST_SHARED
        );
        return Err(Usage(message).into());
    }
    let key = shop_key(&context)?;
    let localizer = context.localizer();
    let payload = serde_json::to_vec_pretty(&known).context("known-good values")?;
    intake::write_atomic(&to, seal::sign(&payload, &key).as_bytes())?;
    let values = phrase!(localizer, "console-values", "count" => known.values.len());
    say!("{}: {values}", to.display());
    for value in &known.values {
        let recordings = phrase!(localizer, "console-recordings", "count" => value.recordings);
        let vehicles = phrase!(localizer, "console-vehicles", "count" => value.low.len());
        tell!(localizer, "console-exported",
            "unit" => localizer.translate(&value.key.to_string()),
            "limit" => value.limit.as_str(),
            "recordings" => recordings,
            "vehicles" => vehicles,
            "from" => value.months.0.to_string(),
            "to" => value.months.1.to_string(),
        );
    }
    tell!(localizer, "console-signed-with", "key" => key.public().thumbprint());
    Ok(true)
}

/// Takes in the known-good values of another shop. Nothing of them is in force before a person adopts it.
pub fn import(arguments: ImportArguments) -> Result<bool> {
    let ImportArguments { file, from, shop } = arguments;
    let settings = Settings::read(Some(&shop))?;
    let folder = LearnedFolder::of(&settings).context("shop.toml")?;
    let name = slug(&from);
    if name.is_empty() {
        return Err(Usage("--from: give the name of the shop that sent it".into()).into());
    }
    let text =
        std::fs::read_to_string(&file).map_err(|e| Usage(format!("{}: {e}", file.display())))?;
    let imported =
        read_signed(&text, &name).map_err(|e| Usage(format!("{}: {e:#}", file.display())))?;
    for known in folder.imported()? {
        let (same_name, same_key) = (
            known.origin.name == imported.origin.name,
            known.origin.key == imported.origin.key,
        );
        if same_name != same_key {
            let message = format!(
                "{}: the key {} does not go with the name {name}: {} has the key {}; ask that shop before you take it in",
                file.display(),
                imported.origin.key,
                known.origin.name,
                known.origin.key
            );
            return Err(Usage(message).into());
        }
    }
    if let Ok(own) = ShopKey::read(&key_file(&settings)?)
        && own.public().thumbprint() == imported.origin.key
    {
        let message = format!("{}: these are this shop's own values", file.display());
        return Err(Usage(message).into());
    }
    folder.keep_import(&imported.origin, &text)?;
    let theme = words::of_shop(&settings.shop)?;
    let localizer = theme.localizer();
    tell!(localizer, "console-imported",
        "name" => name.as_str(),
        "values" => phrase!(localizer, "console-values", "count" => imported.known.values.len()),
        "key" => imported.origin.key.as_str(),
    );
    tell!(localizer, "console-imported-next");
    Ok(true)
}

/// File of the shop's key.
///
/// # Errors
/// Without a shop.toml.
pub fn key_file(settings: &Settings) -> Result<PathBuf> {
    let missing = || {
        Usage("name the shop's settings with --shop: [learning] key names the shop's key".into())
    };
    settings.file.as_ref().ok_or_else(missing)?;
    Ok(settings.base.join(&settings.shop.learning.key))
}

/// The shop's key, made where there is none yet.
///
/// # Errors
/// When it can neither be read nor made.
pub fn shop_key(context: &AppContext) -> Result<ShopKey> {
    let file = key_file(&context.settings)?;
    let (key, is_new) = ShopKey::read_or_make(&file)?;
    if is_new {
        tell!(context.localizer(), "console-key-made",
            "path" => file.display().to_string(),
            "key" => key.public().thumbprint(),
        );
    }
    Ok(key)
}
