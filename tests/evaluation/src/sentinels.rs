//! TABLE.md: a large evaluation, and sentinels that show when it is stale.
//!
//! The sentinels are the first cases of every class and the regression cases. Their verdicts stand in TABLE.md one by one;
//! a test evaluates them anew and compares line by line. So a change of the program that changes any of those verdicts,
//! or of the generator that changes any of those cases, makes the test fail until the table is written again.

use crate::case::CaseSpec;
use crate::classes::CLASSES;
use crate::evaluate::{Evaluated, Runner};
use crate::summary;
use crate::table::Table;
use anyhow::Context;
use std::path::{Path, PathBuf};

/// Seed of the sentinels.
const SEED: u64 = 31;
/// Sentinels of each class.
const EACH: usize = 2;
/// Line behind which the sentinels stand in TABLE.md.
const HEADING: &str = "## Sentinels\n\n";

/// Folder of this package.
pub fn package() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Regression cases of a folder, by name.
///
/// # Errors
/// A folder or file that cannot be read.
pub fn regression_cases(folder: &Path) -> anyhow::Result<Vec<CaseSpec>> {
    let listed =
        std::fs::read_dir(folder).with_context(|| format!("cannot list {}", folder.display()))?;
    let mut files: Vec<PathBuf> = listed
        .map(|e| e.map(|e| e.path()))
        .collect::<Result<_, _>>()?;
    files.retain(|f| f.extension().is_some_and(|e| e == "toml"));
    files.sort();
    files.iter().map(|f| CaseSpec::read(f)).collect()
}

/// The sentinels.
///
/// # Errors
/// A regression case that cannot be read.
pub fn specs() -> anyhow::Result<Vec<CaseSpec>> {
    let numbers = 0..EACH * CLASSES.len();
    let mut specs: Vec<CaseSpec> = numbers.map(|n| CaseSpec::numbered(SEED, n, &[])).collect();
    specs.extend(regression_cases(&package().join("regressions"))?);
    Ok(specs)
}

/// Evaluates the sentinels.
///
/// # Errors
/// A regression case that cannot be read.
pub fn evaluate(runner: Runner) -> anyhow::Result<Vec<Evaluated>> {
    Ok(runner.evaluate_all(&specs()?))
}

/// The sentinels' lines: class, seed, files' digest, what was said, outcome.
pub fn lines(sentinels: &[Evaluated]) -> String {
    let mut table = Table::new(&["class", "seed", "case", "said", "outcome"]);
    for e in sentinels {
        let Some(spec) = &e.spec else { continue };
        let overridden = if spec.overrides.is_empty() { "" } else { " *" };
        table.row(vec![
            spec.class.clone(),
            format!("{}{overridden}", spec.seed),
            format!("{:016x}", e.digest),
            e.said
                .as_ref()
                .map_or("nothing readable".into(), |s| s.short()),
            e.outcome.heading().into(),
        ]);
    }
    table.markdown()
}

/// TABLE.md for a large evaluation and the sentinels.
pub fn table_file(seed: u64, all: &[Evaluated], sentinels: &[Evaluated]) -> String {
    format!(
        "# Evaluation\n\nWritten by `cargo run --release -p baybrief-evaluation -- table`; never edited. {} cases of seed \
         {seed}, {} classes. The last section is evaluated anew by `cargo test`, which fails where it differs.\n\n{}\n\
         {HEADING}{}",
        all.len(),
        CLASSES.len(),
        summary::markdown(all),
        lines(sentinels)
    )
}

/// Lines of the sentinels in a TABLE.md; empty where it has none.
pub fn lines_of(table_file: &str) -> &str {
    table_file
        .split_once(HEADING)
        .map_or("", |(_, lines)| lines)
}
