//! The table of claims, codes.toml.

use plugin_sdk::settings::PriorFinding;
use serde::Deserialize;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Table {
    code: Vec<Claim>,
}

/// Claim of a group of codes.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Claim {
    pub codes: Vec<String>,
    pub claims: String,
    pub source: String,
    /// One of these bears it out.
    pub supported_by: Vec<Evidence>,
    /// All of these together speak against it; none ever does where there are none.
    pub contradicted_by: Vec<Evidence>,
    /// One of these leaves open what `contradicted_by` says.
    #[serde(default)]
    pub unless: Vec<Evidence>,
}

/// A finding that bears on a claim.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Evidence {
    kind: String,
    subject: Option<String>,
    grade: Option<plugin_sdk::Grade>,
    message: Option<String>,
}

impl Evidence {
    /// True where a finding is of this kind and subject (alternatives with `|`), grade and message.
    pub fn matches(&self, f: &PriorFinding) -> bool {
        let o = &f.observation;
        self.kind.split('|').any(|k| k == o.kind)
            && self.grade.is_none_or(|g| g == o.grade)
            && self.message.as_ref().is_none_or(|m| *m == o.message)
            && self.subject.as_ref().is_none_or(|wanted| {
                o.subject
                    .as_ref()
                    .is_some_and(|s| wanted.split('|').any(|w| w == s))
            })
    }
}

/// Reads the table. An error names the line: the table is built in, so one is a mistake in it.
pub fn claims() -> Result<Vec<Claim>, String> {
    toml::from_str::<Table>(include_str!("../../codes.toml"))
        .map(|t| t.code)
        .map_err(|e| format!("codes.toml: {e}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_reads_and_names_each_code_once() {
        let claims = claims().unwrap();
        let mut codes: Vec<&String> = claims.iter().flat_map(|c| &c.codes).collect();
        let n = codes.len();
        codes.sort();
        codes.dedup();
        assert_eq!(codes.len(), n);
        // SAE J2012: P1 and P30 to P33 are the manufacturers'; they have no general meaning.
        assert!(
            codes
                .iter()
                .all(|c| !c.starts_with("P1") && !("P30".."P34").contains(&&c[..3]))
        );
    }
}
