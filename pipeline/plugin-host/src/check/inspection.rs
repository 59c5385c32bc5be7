//! The checks that look at a library without running a plugin. They run in a worker, which reports each one before
//! it begins the next: when it dies, the host knows during which.

use super::{Check, Outcome, Verdict};
use crate::info::Description;
use crate::library::{Library, describe, sane};
use crate::session::Session;
use plugin_abi::MAX_PLUGINS;
use std::io;

type Report<'a> = &'a mut dyn FnMut(Check, Verdict) -> io::Result<()>;

/// Makes the checks up to [`Check::DescriptorStable`], and stops at the first that the others rest on.
pub(crate) fn inspect(session: &Session, report: Report<'_>) -> io::Result<()> {
    let pass = |s: &str| Verdict::new(Outcome::Pass, s);
    let fail = |s: &str| Verdict::new(Outcome::Fail, sentence(s));
    macro_rules! step {
        ($check:expr, $result:expr, $good:expr) => {
            match $result {
                Ok(value) => {
                    report($check, pass($good))?;
                    value
                }
                Err(e) => return report($check, fail(&e)),
            }
        };
    }
    let loaded = step!(Check::Loads, session.loaded(), "The system loads it.");
    let library = step!(
        Check::ExportsSymbol,
        loaded.getter(),
        "It exports the interface's function."
    );
    let raw = step!(
        Check::DescriptorSizes,
        library.raw(),
        "Every descriptor is at least as large as version 1.0 asks, and has its function."
    );
    let described: Result<Vec<Description>, String> = raw
        .iter()
        .enumerate()
        .map(|(i, d)| describe(d).map_err(|e| format!("plugin {i}: {e}")))
        .collect();
    let described = step!(
        Check::StringsUtf8,
        described,
        "Every string is UTF-8 and not too long."
    );
    step!(
        Check::IdsSane,
        ids(&described),
        "Ids, versions, names and vendors are well formed and ids differ."
    );
    report(
        Check::UnknownIndexIsNull,
        unknown_index(&library, raw.len()),
    )?;
    report(Check::DescriptorStable, stable(&library, &described))
}

/// The text as a sentence.
fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters
        .next()
        .map(|c| c.to_uppercase().to_string())
        .unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}

fn ids(described: &[Description]) -> Result<(), String> {
    for (i, one) in described.iter().enumerate() {
        sane(one).map_err(|e| format!("plugin {i}: {e}"))?;
        if described[..i].iter().any(|d| d.id == one.id) {
            return Err(format!("two plugins have the id {}", one.id));
        }
    }
    Ok(())
}

fn unknown_index(library: &Library, count: usize) -> Verdict {
    let count = count as u32;
    let beyond = [
        count,
        count + 1,
        MAX_PLUGINS,
        MAX_PLUGINS + 1,
        i32::MAX as u32,
        u32::MAX,
    ];
    match beyond
        .into_iter()
        .filter(|&i| i >= count)
        .find(|&i| !library.address(i).is_null())
    {
        Some(i) => Verdict::new(
            Outcome::Fail,
            format!("There are {count} plugins, yet index {i} does not give a null pointer."),
        ),
        None => Verdict::new(
            Outcome::Pass,
            "An index beyond the last plugin gives a null pointer.",
        ),
    }
}

fn stable(library: &Library, first: &[Description]) -> Verdict {
    let addresses = || {
        (0..first.len() as u32)
            .map(|i| library.address(i))
            .collect::<Vec<_>>()
    };
    if addresses() != addresses() {
        return Verdict::new(
            Outcome::Fail,
            "The same index gives another descriptor each time.",
        );
    }
    match library.describe() {
        Ok(second) if second == first => {
            Verdict::new(Outcome::Pass, "Descriptors are the same at every call.")
        }
        _ => Verdict::new(
            Outcome::Fail,
            "A descriptor's content changes from call to call.",
        ),
    }
}
