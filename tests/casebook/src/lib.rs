//! Labelled cases with known truth, made from the simulator's physics, and the evaluation of a baybrief
//! executable against them.
//!
//! `cargo run --release -p baybrief-casebook -- evaluate --bin target/release/baybrief`

pub mod calibrate;
pub mod classes;
pub mod dialect;
pub mod draft;
pub mod dress;
pub mod drives;
pub mod jams;
pub mod measures;
pub mod mixtures;
pub mod rig;
pub mod run;
pub mod score;
pub mod standstill;
pub mod stats;
pub mod summary;
pub mod table;
pub mod traps;
pub mod truth;

use anyhow::Context;
use simulator::noise::Noise;
use std::path::Path;

/// One case of a class. The same arguments give the same case.
pub fn make_case(seed: u64, number: usize) -> dress::Case {
    let (class, make) = classes::CLASSES[number % classes::CLASSES.len()];
    let mut dice = Noise::new(seed.wrapping_mul(1_000_003).wrapping_add(number as u64));
    let level = dice.whole(0, 2) as usize;
    let draft = make(&mut dice, level);
    let name = case_name(number);
    dress::dress(&name, class, level, draft, &mut dice)
}

/// Name of a case's folder. It must not tell the class, so the number is scattered.
pub fn case_name(number: usize) -> String {
    format!("C-{:05}", (number * 7919 + 12_345) % 100_000)
}

/// Writes the cases from number `first` on, `count` of them, into `out/cases/NAME/` and their truth into
/// `out/truth/NAME.json`; `only` limits them to a class. Gives the truths.
pub fn generate(
    out: &Path,
    seed: u64,
    first: usize,
    count: usize,
    only: Option<&str>,
) -> anyhow::Result<Vec<truth::Truth>> {
    let truth_folder = out.join("truth");
    std::fs::create_dir_all(&truth_folder)
        .with_context(|| format!("cannot make {}", truth_folder.display()))?;
    let wanted = |number: &usize| {
        only.is_none_or(|class| classes::CLASSES[number % classes::CLASSES.len()].0 == class)
    };
    let mut truths = Vec::new();
    for number in (0..).filter(wanted).skip(first).take(count) {
        let case = make_case(seed, number);
        let folder = out.join("cases").join(&case.name);
        case.folder
            .write(&folder)
            .with_context(|| format!("cannot write {}", folder.display()))?;
        let file = truth_folder.join(format!("{}.json", case.name));
        std::fs::write(&file, serde_json::to_vec_pretty(&case.truth)?)
            .with_context(|| format!("cannot write {}", file.display()))?;
        truths.push(case.truth);
    }
    Ok(truths)
}
