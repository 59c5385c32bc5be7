//! Table of the outcomes.

use crate::evaluate::Evaluated;
use crate::score::Outcome;
use crate::table::Table;

/// Outcomes by system and by class, in Markdown.
pub fn markdown(all: &[Evaluated]) -> String {
    let system = |e: &Evaluated| {
        e.truth
            .class
            .split(' ')
            .next()
            .unwrap_or_default()
            .to_owned()
    };
    let mut text = String::from("## Verdicts by system\n\n");
    text += &outcomes("system", all, system).markdown();
    text += "\n## Verdicts by class\n\n";
    text += &outcomes("class", all, |e| e.truth.class.clone()).markdown();
    let numbers: Vec<bool> = all
        .iter()
        .flat_map(|e| e.numbers.iter().map(|n| n.within))
        .collect();
    let within = numbers.iter().filter(|w| **w).count();
    text + &format!(
        "\nMeasured values within their tolerance: {within} of {}.\n",
        numbers.len()
    )
}

fn outcomes(first: &str, all: &[Evaluated], key: impl Fn(&Evaluated) -> String) -> Table {
    let headings = Outcome::ALL.map(Outcome::heading);
    let mut table = Table::new(&[&[first, "cases"], &headings[..]].concat());
    let mut names: Vec<String> = all.iter().map(&key).collect();
    names.sort();
    names.dedup();
    for name in names {
        let of: Vec<&Evaluated> = all.iter().filter(|e| key(e) == name).collect();
        let counts = Outcome::ALL.map(|o| of.iter().filter(|e| e.outcome == o).count().to_string());
        table.row(
            [name, of.len().to_string()]
                .into_iter()
                .chain(counts)
                .collect(),
        );
    }
    table
}
