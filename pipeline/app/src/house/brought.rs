//! What plugins bring along: numbers for the spec sheets, causes, sentences. They add; they replace nothing, so that
//! no plugin changes what another, the shop or the house says.

use anyhow::{Result, anyhow};
use model::sheets::{CauseSheet, SpecSheet, SpecValue};
use model::system::{Roles, SystemSheet};
use plugin_host::{Asset, LibraryInfo};
use report::Stationery;
use serde::Deserialize;
use std::collections::BTreeMap;

/// `limits.toml` of a library: values that each sheet has until it names its own.
#[derive(Debug, Default, Deserialize)]
struct Numbers {
    #[serde(default)]
    value: BTreeMap<String, SpecValue>,
}

/// Adds what the plugins bring along, in their order, and returns what could not be used, a sentence each.
pub fn add(
    plugins: &[LibraryInfo],
    specs: &mut [SpecSheet],
    causes: &mut CauseSheet,
    stationery: &mut Stationery,
) -> Vec<String> {
    let mut wrong = Vec::new();
    for plugin in plugins {
        // English last: it stands in for what the report's language lacks.
        let mut texts: Vec<&Asset> = plugin.declaration.assets.iter().collect();
        texts.sort_by_key(|t| t.name == "lang/en.ftl");
        for text in texts {
            let added = match text.name.as_str() {
                "limits.toml" => numbers(text, specs),
                "causes.toml" => more_causes(text, causes),
                name => match name
                    .strip_prefix("lang/")
                    .and_then(|n| n.strip_suffix(".ftl"))
                {
                    Some(language) => stationery
                        .add_words(language, name, &text.body)
                        .map_err(Into::into),
                    None => Ok(()),
                },
            };
            if let Err(e) = added {
                wrong.push(format!(
                    "plugin {}: its {}: {e}",
                    plugin.declaration.system, text.name
                ));
            }
        }
    }
    wrong
}

/// Roles that the systems of all plugins declare.
///
/// # Errors
/// A system.toml that cannot be used, or two that contradict each other.
pub fn roles(plugins: &[LibraryInfo]) -> Result<Roles> {
    let texts = plugins.iter().flat_map(|p| &p.declaration.assets);
    let systems: Vec<SystemSheet> = texts
        .filter(|t| t.name == "system.toml")
        .map(|t| toml::from_str(&t.body).map_err(Into::into))
        .collect::<Result<_>>()?;
    Roles::of(&systems).map_err(|e| anyhow!(e))
}

fn numbers(text: &Asset, specs: &mut [SpecSheet]) -> Result<()> {
    let numbers: Numbers = toml::from_str(&text.body)?;
    for spec in specs {
        for (name, value) in &numbers.value {
            spec.value
                .entry(name.clone())
                .or_insert_with(|| value.clone());
        }
    }
    Ok(())
}

/// All of a sheet's causes or none: half a sheet would weigh wrongly.
fn more_causes(text: &Asset, causes: &mut CauseSheet) -> Result<()> {
    let mut sheet: CauseSheet = toml::from_str(&text.body)?;
    if let Some(known) = sheet
        .causes
        .iter()
        .find(|new| causes.causes.iter().any(|c| c.name == new.name))
    {
        return Err(anyhow!(
            "the cause {} is known already, and a plugin adds causes but replaces none",
            known.name
        ));
    }
    if !sheet.blockers.is_empty() {
        return Err(anyhow!(
            "it has a blocker; only the house and the shop say what keeps a verdict open"
        ));
    }
    // A cause that explains others away would change what is said of them.
    if let Some(greedy) = sheet
        .causes
        .iter()
        .find(|c| !c.includes.is_empty() || c.residual)
    {
        return Err(anyhow!(
            "the cause {} includes others or is what is left; a plugin's cause stands for itself",
            greedy.name
        ));
    }
    causes.causes.append(&mut sheet.causes);
    causes.steps.append(&mut sheet.steps);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plugin(system: &str, assets: &[(&str, &str)]) -> LibraryInfo {
        let assets = assets.iter().map(|(name, body)| Asset {
            name: (*name).into(),
            body: (*body).into(),
        });
        LibraryInfo {
            declaration: plugin_host::LibraryDeclaration {
                system: system.into(),
                assets: assets.collect(),
                ..Default::default()
            },
            path: "".into(),
            blake3: String::new(),
            foreign: true,
        }
    }

    const CAUSE: &str = "[[cause]]\nname = \"belt-worn\"\nteardown = false\n";

    fn added(plugins: &[LibraryInfo]) -> (Vec<SpecSheet>, CauseSheet, Stationery, Vec<String>) {
        let sheet = "name = \"one\"\ndescription = \"\"\n[value.slip]\nhigh = 80.0\nunit = \"rpm\"\nsource = \"sheet\"\n";
        let mut specs: Vec<SpecSheet> = vec![toml::from_str(sheet).expect("a sheet")];
        let mut causes = CauseSheet::default();
        let mut stationery = Stationery::built_in("en").expect("words");
        let wrong = add(plugins, &mut specs, &mut causes, &mut stationery);
        (specs, causes, stationery, wrong)
    }

    #[test]
    fn numbers_causes_and_words_are_added_and_replace_nothing() {
        let spec = "[value.slip]\nhigh = 1.0\nunit = \"rpm\"\nsource = \"plugin\"\n\
                    [value.belt-slip]\nhigh = 2.0\nunit = \"%\"\nsource = \"plugin\"\n";
        let words = "belt-squeal = The belt squeals.\nreport-title = Mine\nkind-slip = Mine\n";
        let bringing = plugin(
            "belt",
            &[
                ("limits.toml", spec),
                ("causes.toml", CAUSE),
                ("lang/en.ftl", words),
                ("notes.txt", "ignored"),
            ],
        );
        let (specs, causes, stationery, wrong) = added(&[bringing]);
        assert_eq!(wrong, Vec::<String>::new());
        assert_eq!(specs[0].value["slip"].source, "sheet");
        assert_eq!(specs[0].value["belt-slip"].high, Some(2.0));
        assert_eq!(causes.causes[0].name, "belt-worn");
        assert_eq!(stationery.words().say("belt-squeal"), "The belt squeals.");
        assert_ne!(stationery.words().say("kind-slip"), "Mine");
    }

    #[test]
    fn what_cannot_be_used_is_named_and_the_rest_counts() {
        let blocker = "[[blocker]]\nname = \"b\"\nwhen = {}\nblocks = \"all\"\nreason = \"r\"\n";
        let greedy = "[[cause]]\nname = \"all\"\nteardown = true\nincludes = [\"belt-worn\"]\n";
        let (_, causes, _, wrong) = added(&[
            plugin("first", &[("causes.toml", CAUSE)]),
            plugin(
                "second",
                &[("causes.toml", CAUSE), ("limits.toml", "value = 1")],
            ),
            plugin(
                "third",
                &[("causes.toml", blocker), ("lang/en.ftl", "no sentence")],
            ),
            plugin("fourth", &[("causes.toml", greedy)]),
        ]);
        assert_eq!(causes.causes.len(), 1);
        for (wrong, said) in wrong.iter().zip([
            "plugin second: its causes.toml: the cause belt-worn is known already",
            "plugin second: its limits.toml: ",
            "plugin third: its causes.toml: it has a blocker",
            "plugin third: its lang/en.ftl: ",
            "plugin fourth: its causes.toml: the cause all includes others",
        ]) {
            assert!(wrong.starts_with(said), "{wrong}");
        }
        assert_eq!(wrong.len(), 5);
    }
}
