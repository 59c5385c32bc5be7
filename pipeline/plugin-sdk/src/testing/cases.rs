//! Runs an analyzer on a folder of cases: recordings with what must be found in them.
//!
//! Each folder in it is a case:
//!
//! | file | holds |
//! | --- | --- |
//! | `capture.csv` | a header `time_s,ROLE UNIT,...` (`time_s,pump-current A,pump-speed V`), then numbers; an empty cell is a missing value. Left out for an analyzer of whole jobs |
//! | `settings.json` | [`Settings`], optional |
//! | `expected.json` | [`Expected`] |

use super::{Bench, quantity};
use crate::{ChannelFacts, ChannelView, Grade, Input, Observation, SampleView, Settings};
use serde::Deserialize;
use serde::de::DeserializeOwned;
use signal::Time;
use std::path::{Path, PathBuf};

/// Expected result of a case.
#[derive(Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Expected {
    /// Each must be among the observations.
    pub observations: Vec<Wanted>,
    /// Kinds of which there must be no observation.
    pub none: Vec<String>,
    /// A part of the analyzer's error, where it must refuse.
    pub refused: Option<String>,
}

/// An observation that must be made. What is left out may be anything.
#[derive(Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Wanted {
    /// Its kind.
    pub kind: String,
    /// The observed subject.
    pub subject: Option<String>,
    /// Its sentence.
    pub message: Option<String>,
    /// Its grade.
    pub grade: Option<Grade>,
    /// Its value.
    pub value: Option<f64>,
    /// Tolerance of the value, in its unit; 0 when left out.
    pub within: f64,
}

impl Wanted {
    fn is(&self, o: &Observation) -> bool {
        let near = |w: f64| o.value.is_some_and(|v| (v - w).abs() <= self.within);
        o.kind == self.kind
            && self
                .subject
                .as_ref()
                .is_none_or(|s| o.subject.as_ref() == Some(s))
            && self.message.as_ref().is_none_or(|m| o.message == *m)
            && self.grade.is_none_or(|g| o.grade == g)
            && self.value.is_none_or(near)
    }
}

impl Bench {
    /// Runs it on every case of the folder, in the order of their names, and returns how many there were.
    ///
    /// # Errors
    /// Every case that cannot be read or comes out otherwise, a line each; also when there is no case at all.
    pub fn run_cases(&self, folder: &Path) -> Result<usize, String> {
        let entries =
            std::fs::read_dir(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
        let mut cases: Vec<PathBuf> = entries
            .flatten()
            .map(|e| e.path())
            .filter(|p| p.is_dir())
            .collect();
        cases.sort();
        if cases.is_empty() {
            return Err(format!("{}: there is no case in it", folder.display()));
        }
        let wrong: Vec<String> = cases
            .iter()
            .filter_map(|case| {
                self.run_case(case)
                    .err()
                    .map(|e| format!("{}: {e}", case.display()))
            })
            .collect();
        if wrong.is_empty() {
            Ok(cases.len())
        } else {
            Err(wrong.join("\n"))
        }
    }

    fn run_case(&self, case: &Path) -> Result<(), String> {
        let expected: Expected =
            json(&case.join("expected.json"))?.ok_or("expected.json is missing")?;
        let settings: Settings = json(&case.join("settings.json"))?.unwrap_or_default();
        let table = match std::fs::read_to_string(case.join("capture.csv")) {
            Ok(text) => Table::read(&text).map_err(|e| format!("capture.csv: {e}"))?,
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => Table::default(),
            Err(e) => return Err(format!("capture.csv: {e}")),
        };
        let input = Input {
            file: if table.columns.is_empty() {
                ""
            } else {
                "capture.csv"
            },
            channels: table.channels(&settings.channels),
            settings,
        };
        let observations = match (self.run(&input), &expected.refused) {
            (Ok(_), Some(reason)) => {
                return Err(format!("it was to refuse with {reason:?}, and did not"));
            }
            (Err(e), Some(reason)) if e.contains(reason) => return Ok(()),
            (Err(e), _) => return Err(format!("it refuses: {e}")),
            (Ok(observations), None) => observations,
        };
        for wanted in &expected.observations {
            if !observations.iter().any(|o| wanted.is(o)) {
                return Err(format!("{wanted:?} is not among {observations:#?}"));
            }
        }
        match observations
            .iter()
            .find(|o| expected.none.contains(&o.kind))
        {
            Some(o) => Err(format!("there was to be no {}: {o:?}", o.kind)),
            None => Ok(()),
        }
    }
}

/// `None` where there is no such file.
fn json<T: DeserializeOwned>(file: &Path) -> Result<Option<T>, String> {
    let text = match std::fs::read_to_string(file) {
        Ok(text) => text,
        Err(e) if e.kind() == std::io::ErrorKind::NotFound => return Ok(None),
        Err(e) => return Err(format!("{}: {e}", file.display())),
    };
    let read = serde_json::from_str(&text);
    read.map(Some)
        .map_err(|e| format!("{}: {e}", file.display()))
}

/// A capture.csv: instants, and columns of a role, a unit and values.
#[derive(Debug, Default)]
struct Table {
    times: Vec<f64>,
    columns: Vec<(String, String, Vec<f64>)>,
}

impl Table {
    fn read(text: &str) -> Result<Table, String> {
        let mut lines = text.lines().enumerate();
        let (_, header) = lines.next().ok_or("it is empty")?;
        let mut names = header.split(',').map(str::trim);
        if names.next() != Some("time_s") {
            return Err("line 1: the first column must be time_s".into());
        }
        let mut table = Table::default();
        for name in names {
            let (role, unit) = name.split_once(' ').unwrap_or((name, ""));
            table.columns.push((role.into(), unit.into(), Vec::new()));
        }
        for (i, line) in lines.filter(|(_, l)| !l.trim().is_empty()) {
            let cells: Vec<&str> = line.split(',').map(str::trim).collect();
            if cells.len() != table.columns.len() + 1 {
                let wanted = table.columns.len() + 1;
                return Err(format!(
                    "line {}: expected {wanted} cells, found {}",
                    i + 1,
                    cells.len()
                ));
            }
            let number = |cell: &str| match cell {
                "" => Ok(f64::NAN),
                _ => cell
                    .parse()
                    .map_err(|_| format!("line {}: {cell:?} is no number", i + 1)),
            };
            table.times.push(number(cells[0])?);
            for (column, cell) in table.columns.iter_mut().zip(&cells[1..]) {
                column.2.push(number(cell)?);
            }
        }
        Ok(table)
    }

    fn channels(&self, facts: &[ChannelFacts]) -> Vec<ChannelView<'_>> {
        let columns = self.columns.iter().enumerate();
        let known = |i: usize| {
            facts.get(i).cloned().unwrap_or(ChannelFacts {
                calibrated: true,
                ..ChannelFacts::default()
            })
        };
        columns
            .map(|(i, (role, unit, values))| ChannelView {
                role,
                quantity: quantity(role),
                name: role,
                unit,
                samples: SampleView::F64(values),
                scale: 1.0,
                offset: 0.0,
                time: Time::Listed(&self.times),
                facts: known(i),
            })
            .collect()
    }
}
