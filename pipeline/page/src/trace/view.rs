//! Part of a pyramid that a view shows.

use super::pyramid::{Bucket, FACTOR, Pyramid};

/// Buckets of equal width from some sample on.
#[derive(Debug, Clone, PartialEq)]
pub struct View {
    /// First sample of the first bucket.
    pub first: usize,
    /// Samples of each bucket: a power of two.
    pub width: usize,
    /// The buckets.
    pub buckets: Vec<Bucket>,
}

/// Returns the samples `from..to` in at most about `2 * pixels` buckets. Bucket widths are powers of two and begin at
/// multiples of themselves, so that a view that was panned asks for the same buckets again.
pub fn view(pyramid: &Pyramid, from: usize, to: usize, pixels: usize) -> View {
    let to = to.min(pyramid.len());
    let from = from.min(to);
    let wanted = (to - from) / (2 * pixels.max(1));
    let width = wanted.max(1).next_power_of_two();
    let first = from / width * width;
    let count = (to - first).div_ceil(width);
    let buckets = (0..count)
        .map(|i| bucket(pyramid, first + i * width, first + (i + 1) * width))
        .collect();
    View {
        first,
        width,
        buckets,
    }
}

/// Bucket of the samples `from..to`, from the highest level whose buckets are not wider.
fn bucket(pyramid: &Pyramid, from: usize, to: usize) -> Bucket {
    let width = to - from;
    let (mut level, mut step) = (0, 1);
    while step * FACTOR <= width {
        step *= FACTOR;
        level += 1;
    }
    let range = from / step..to.min(pyramid.len()).div_ceil(step);
    let merge = |buckets: &mut dyn Iterator<Item = Bucket>| {
        let first = buckets.next().expect("a view has no empty bucket");
        buckets.fold(first, Bucket::and)
    };
    match level {
        0 => merge(
            &mut pyramid.samples()[range]
                .iter()
                .map(|&s| Bucket { min: s, max: s }),
        ),
        level => {
            let pairs = pyramid.level(level)[range].iter();
            merge(&mut pairs.map(|&[min, max]| Bucket { min, max }))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::build;
    use super::*;
    use proptest::prelude::*;

    fn pyramid(samples: &[f32]) -> (tempfile::TempDir, Pyramid) {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("channel");
        build(&mut samples.iter().copied(), &path).unwrap();
        let pyramid = Pyramid::open(&path, samples.len()).unwrap();
        (folder, pyramid)
    }

    #[test]
    fn one_sample_stands_out_at_every_zoom() {
        let mut samples = vec![0.0; 100_000];
        samples[54_321] = 7.0;
        let (_folder, pyramid) = pyramid(&samples);
        for pixels in [1, 10, 300, 1_000, 100_000] {
            let view = view(&pyramid, 0, samples.len(), pixels);
            assert!(view.buckets.iter().any(|b| b.max == 7.0), "{pixels} pixels");
            assert!(view.buckets.len() <= 2 * pixels + 1);
        }
    }

    #[test]
    fn a_missing_value_breaks_the_line_and_nothing_else() {
        let mut samples = vec![1.0; 1_000];
        samples[500] = f32::INFINITY;
        let (_folder, pyramid) = pyramid(&samples);
        let view = view(&pyramid, 0, 1_000, 100);
        let broken: Vec<usize> = (0..view.buckets.len())
            .filter(|&i| view.buckets[i].min.is_nan())
            .collect();
        assert_eq!(broken, [500 / view.width]);
    }

    proptest! {
        /// Against the smallest and largest of the samples themselves.
        #[test]
        fn buckets_hold_what_their_samples_hold(
            samples in proptest::collection::vec(-1e6f32..1e6, 0..3_000),
            from in 0usize..3_000,
            length in 0usize..3_000,
            pixels in 0usize..500,
        ) {
            let (_folder, pyramid) = pyramid(&samples);
            let view = view(&pyramid, from, from + length, pixels);
            for (i, bucket) in view.buckets.iter().enumerate() {
                let start = view.first + i * view.width;
                let part = &samples[start..(start + view.width).min(samples.len())];
                let min = part.iter().copied().fold(f32::INFINITY, f32::min);
                let max = part.iter().copied().fold(f32::NEG_INFINITY, f32::max);
                prop_assert_eq!(*bucket, Bucket { min, max });
            }
        }
    }
}
