//! The order in which plugins run.

use crate::info::PluginInfo;

/// Orders plugins so that each runs after those that give the tracks it takes, and by id where that leaves a choice.
/// Plugins that wait for each other run by id: one of them does without the other's tracks.
pub(crate) fn in_order<T>(mut plugins: Vec<(PluginInfo, T)>) -> Vec<(PluginInfo, T)> {
    plugins.sort_by(|a, b| a.0.id.cmp(&b.0.id));
    let mut ordered: Vec<(PluginInfo, T)> = Vec::with_capacity(plugins.len());
    while !plugins.is_empty() {
        let waits = |one: &PluginInfo| {
            plugins.iter().any(|(other, _)| {
                other.id != one.id && other.gives.iter().any(|g| one.takes.contains(g))
            })
        };
        let next = plugins.iter().position(|(p, _)| !waits(p)).unwrap_or(0);
        ordered.push(plugins.remove(next));
    }
    ordered
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plugin(id: &str, gives: &[&str], takes: &[&str]) -> (PluginInfo, ()) {
        (PluginInfo::with_tracks(id, gives, takes), ())
    }

    fn ids(plugins: Vec<(PluginInfo, ())>) -> Vec<String> {
        in_order(plugins).into_iter().map(|(p, ())| p.id).collect()
    }

    #[test]
    fn givers_run_before_takers_and_the_rest_by_id() {
        let all = vec![
            plugin("a", &[], &["slip"]),
            plugin("d", &["rpm"], &[]),
            plugin("c", &[], &[]),
            plugin("b", &["slip"], &["rpm"]),
        ];
        assert_eq!(ids(all), ["c", "d", "b", "a"]);
    }

    #[test]
    fn those_that_wait_for_each_other_run_by_id() {
        let all = vec![
            plugin("b", &["x"], &["y"]),
            plugin("a", &["y"], &["x"]),
            plugin("own", &["z"], &["z"]),
        ];
        assert_eq!(ids(all), ["own", "a", "b"]);
    }
}
