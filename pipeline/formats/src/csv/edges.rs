//! Edge lists: a row whenever a level changes, as logic recorders write them, instead of a row per sample.

use model::TimeAxis;

/// Rows that must be there before they are taken for an edge list.
const LEAST_ROWS: usize = 4;

/// True for a column of nothing but zeros and ones.
pub(super) fn is_level(column: &[f32]) -> bool {
    column.iter().all(|v| *v == 0.0 || *v == 1.0)
}

/// True where the rows are an edge list: hardly a row without a change of a level. Beside levels there may be values where
/// the rows are not `even` in time: a controller's log of edges states the last interval, say.
pub(super) fn is_list(columns: &[Vec<f32>], even: bool) -> bool {
    let rows = columns.first().map_or(0, Vec::len);
    let levels: Vec<&Vec<f32>> = columns.iter().filter(|c| is_level(c)).collect();
    if rows < LEAST_ROWS || levels.is_empty() || (even && levels.len() < columns.len()) {
        return false;
    }
    let changes = (1..rows)
        .filter(|i| levels.iter().any(|c| c[*i] != c[i - 1]))
        .count();
    changes * 10 >= (rows - 1) * 9
}

/// Most samples that the columns of an edge list are written out to, and most of each.
const MOST_SAMPLES: usize = 1 << 23;
const MOST_OF_EACH: usize = 1 << 22;

/// Most that the level after the last edge adds to a recording, as a share of its length.
const LAST: f64 = 0.01;

/// Writes an edge list out as even samples: each level lasts until the next edge. The samples on either side of an
/// edge are set so that a straight line between them crosses the middle at the very instant of the edge, so that no
/// time is lost to the grid. Gives the axis, the columns and how many levels were too short for the grid; `None` where
/// the instants do not make one.
pub(super) fn samples(
    time: &TimeAxis,
    columns: &[Vec<f32>],
) -> Option<(TimeAxis, Vec<Vec<f32>>, usize)> {
    let rows = time.len();
    let start_s = time.at(0);
    let mut intervals: Vec<f64> = (1..rows)
        .map(|i| time.at(i) - time.at(i - 1))
        .filter(|d| *d > 0.0)
        .collect();
    intervals.sort_by(f64::total_cmp);
    let (shortest, usual) = (*intervals.first()?, *intervals.get(intervals.len() / 2)?);
    // Nobody knows how long the last level lasts: it gets enough to be seen, and no more than the recording's length stands.
    // A last row without a change is the end of the recording itself.
    let span = time.at(rows - 1) - start_s;
    let ends = columns.iter().all(|c| c[rows - 1] == c[rows - 2]);
    let duration = span + if ends { 0.0 } else { usual.min(LAST * span) };
    let most = (MOST_SAMPLES / columns.len().max(1)).min(MOST_OF_EACH);
    let step_s = (shortest / 8.0)
        .min(usual / 32.0)
        .max(duration / most as f64);
    if !(step_s > 0.0 && duration.is_finite()) {
        return None;
    }
    let len = (duration / step_s) as usize + 1;
    // Where each row lies on the grid. A pulse of no length, as one who notes its beginning alone writes it, gets two
    // samples.
    let mut places: Vec<f64> = (0..rows).map(|i| (time.at(i) - start_s) / step_s).collect();
    for i in 1..rows {
        if time.at(i) == time.at(i - 1) {
            places[i] = places[i - 1] + 2.0;
        }
    }
    let lost = places.windows(2).filter(|w| w[1] - w[0] < 2.0).count();
    let levels = columns.iter().map(|c| {
        let mut out = vec![c[0]; len];
        for (i, place) in places.iter().enumerate().skip(1) {
            let (before, fraction) = (place.floor() as usize, (place - place.floor()) as f32);
            let end = places
                .get(i + 1)
                .map_or(len, |next| (next.floor() as usize + 1).min(len));
            if let Some(own) = out.get_mut(before + 1..end) {
                own.fill(c[i]);
            }
            let (old, new) = (c[i - 1], c[i]);
            if old != new && before + 1 < len {
                if fraction < 0.5 {
                    out[before] = old + (new - old) * (0.5 - fraction) / (1.0 - fraction);
                } else {
                    out[before + 1] = old + (new - old) * 0.5 / fraction;
                }
            }
        }
        out
    });
    Some((
        TimeAxis::Even {
            start_s,
            step_s,
            len,
        },
        levels.collect(),
        lost,
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn edges_keep_their_instants() {
        let columns = vec![vec![0.0, 1.0, 0.0, 0.0, 1.0], vec![0.0, 0.0, 0.0, 1.0, 1.0]];
        assert!(is_list(&columns, false));
        let instants = [0.0, 0.1, 0.25, 0.3, 0.5];
        let time = TimeAxis::Listed(instants.into());
        let (time, levels, lost) = samples(&time, &columns).unwrap();
        let crossings = |c: &[f32]| -> Vec<f64> {
            let at = |i: usize| (0.5 - f64::from(c[i])) / f64::from(c[i + 1] - c[i]) + i as f64;
            let crosses = |i: &usize| (c[*i] < 0.5) != (c[*i + 1] < 0.5);
            (0..c.len() - 1)
                .filter(crosses)
                .map(|i| time.at(0) + at(i) * (time.at(1) - time.at(0)))
                .collect()
        };
        for (column, want) in [(&levels[0], &[0.1, 0.25, 0.5][..]), (&levels[1], &[0.3])] {
            let got = crossings(column);
            assert_eq!(got.len(), want.len(), "{got:?}");
            assert!(
                got.iter().zip(want).all(|(a, b)| (a - b).abs() < 1e-9),
                "{got:?}"
            );
        }
        assert_eq!(lost, 0);
        // The last level is hardly longer than its edge, and a last row without a change ends the recording.
        let end = |time: &TimeAxis| time.at(time.len() - 1);
        assert!((0.5..=0.505 + 1e-9).contains(&end(&time)), "{}", end(&time));
        let ended = [0.0, 1.0, 0.0, 1.0, 1.0].to_vec();
        let (time, _, _) = samples(&TimeAxis::Listed(instants.into()), &[ended]).unwrap();
        assert!((0.45..=0.5 + 1e-9).contains(&end(&time)), "{}", end(&time));
        // Edges at one instant, and nothing to make a grid of.
        assert!(samples(&TimeAxis::Listed([1.0; 5].into()), &columns).is_none());
        samples(
            &TimeAxis::Listed([0.0, 1e-12, 1.0, 1e9, 1e9].into()),
            &columns,
        )
        .unwrap();
    }

    #[test]
    fn samples_are_no_edge_list() {
        let square: Vec<f32> = (0..40).map(|i| (i / 4 % 2) as f32).collect();
        assert!(!is_list(&[square], true));
        assert!(!is_list(&[vec![0.0, 1.0, 0.0, 5.0, 0.0, 1.0]], false));
        assert!(!is_list(&[vec![0.0, 1.0]], false));
        assert!(!is_list(&[], false));
        // Values beside levels: an edge list only where the rows come at uneven times.
        let beside = [vec![0.0, 1.0, 0.0, 1.0, 0.0], vec![0.7, 1.1, 0.9, 3.0, 0.8]];
        assert!(is_list(&beside, false) && !is_list(&beside, true));
    }
}
