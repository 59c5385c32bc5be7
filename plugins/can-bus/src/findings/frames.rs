//! Bit rate, frames, errors, identifiers and load from the lines.

use super::{Clock, Facts};
use crate::measure::bit_rate::LEAST_SAMPLES_A_BIT;
use crate::measure::decode::{BusError, ErrorKind};
use crate::measure::frame::Identifier;
use crate::measure::waveform::{Reading, Unread, Waveform};
use plugin_sdk::Limits;
use plugin_sdk::{Grade, Observation, Output};
use std::collections::{BTreeMap, BTreeSet};

/// Identifiers whose errors are told apart, at most.
const MOST_LISTED: usize = 5;
/// Bit rate of a data phase over the nominal one, at most: 8 Mbit/s beside 500 kbit/s, 5 beside 500 mostly (transceivers' data
/// sheets; from memory).
const FASTEST_DATA_PHASE: f64 = 10.0;
/// Bit rate of a bus of which none is stated, and the fastest there is without CAN FD, kbit/s (ISO 11898-2).
const USUAL: f64 = 500.0;
const FASTEST: f64 = 1_000.0;
/// Fewest errors that are no chance: one may come from switching something on.
const LEAST_ERRORS: usize = 2;
/// Relative deviation from the stated bit rate that clocks do not explain (0.5 % on either side, ISO 11898-1 users).
const CLOCKS: f64 = 0.015;

/// Adds the findings.
pub fn observe(
    waveform: &Waveform,
    clock: &Clock,
    facts: &Facts,
    spec: &Limits<'_>,
    out: &mut Output,
) {
    let (from, to) = clock.span();
    match &waveform.reading {
        Ok(reading) => {
            let frames = &reading.traffic.frames;
            if frames.is_empty() && reading.traffic.unread_fd.is_empty() {
                // A grid without a frame is no bit rate that anybody could rely on.
                let none = Observation::new("bit-rate", "bit-rate-no-grid");
                out.add(none.span(from, to).grade(Grade::Unusable));
            } else {
                out.add(bit_rate(reading, clock, facts).span(from, to));
                counts(reading, clock, out);
                load(reading, clock, out);
            }
            errors(reading, clock, spec, out);
        }
        Err(why) => {
            let unread = match why {
                // The edges of noise come close at any rate.
                Unread::TooSlow if clock.rate_hz / 1_000.0 > needed(facts, FASTEST) => {
                    Observation::new("bit-rate", "bit-rate-no-grid")
                }
                Unread::TooSlow => Observation::new("bit-rate", "sampling-too-slow")
                    .arg("sample_rate", clock.rate_hz / 1_000.0)
                    .arg("needed", needed(facts, USUAL.max(clock.rate_hz / 1_500.0))),
                Unread::TooFewEdges => Observation::new("bit-rate", "bit-rate-no-traffic"),
                Unread::NoGrid => Observation::new("bit-rate", "bit-rate-no-grid"),
            };
            out.add(unread.span(from, to).grade(Grade::Unusable));
        }
    }
}

/// Sampling rate that carries the stated bit rate, else `usual`; kS/s from kbit/s.
fn needed(facts: &Facts, usual: f64) -> f64 {
    LEAST_SAMPLES_A_BIT * facts.bit_rate.unwrap_or(usual)
}

fn bit_rate(reading: &Reading, clock: &Clock, facts: &Facts) -> Observation {
    let kbit = |samples: f64| clock.rate_hz / samples / 1_000.0;
    let value = kbit(reading.bit.samples);
    // The recorder's own clock: 50 ppm (common practice).
    let relative = (reading.bit.uncertainty / reading.bit.samples).hypot(50e-6);
    let stated = facts.bit_rate.filter(|s| (value / s - 1.0).abs() > CLOCKS);
    let observation = match (reading.data_phase, stated) {
        (Some(data), _) => {
            Observation::new("bit-rate", "bit-rate-fd").arg("data_phase", kbit(data))
        }
        (None, Some(stated)) => {
            Observation::new("bit-rate", "bit-rate-differs").arg("stated", stated)
        }
        (None, None) => Observation::new("bit-rate", "bit-rate"),
    };
    observation
        .value(value, value * relative, "kbit/s")
        .arg("samples_a_bit", reading.bit.samples)
}

fn counts(reading: &Reading, clock: &Clock, out: &mut Output) {
    let (from, to) = clock.span();
    let traffic = &reading.traffic;
    let fd = traffic
        .frames
        .iter()
        .filter(|f| f.frame.fd.is_some())
        .count();
    out.add(
        Observation::new("frames", "frames")
            .span(from, to)
            .value(traffic.frames.len() as f64, 0.0, "count")
            .arg(
                "remote",
                traffic.frames.iter().filter(|f| f.frame.remote).count(),
            )
            .arg("fd", fd + traffic.unread_fd.len())
            .arg("overload", traffic.overloads.len()),
    );
    let ids: BTreeSet<Identifier> = traffic.frames.iter().map(|f| f.frame.id).collect();
    out.add(
        Observation::new("identifiers", "identifiers")
            .span(from, to)
            .value(ids.len() as f64, 0.0, "count"),
    );
}

fn load(reading: &Reading, clock: &Clock, out: &mut Output) {
    let (from, to) = clock.span();
    let most = longest_pause(reading) / clock.rate_hz;
    // Half a frame at either end of the record may be cut.
    let uncertainty = 100.0 * 60.0 * reading.bit.samples / clock.samples as f64;
    out.add(
        Observation::new("bus-load", "bus-load")
            .span(from, to)
            .value(reading.load(), uncertainty.min(50.0), "%")
            .arg("longest_pause_ms", 1_000.0 * most),
    );
}

fn longest_pause(reading: &Reading) -> f64 {
    let recessive = reading.logic.edges.windows(2).filter(|w| !w[0].dominant);
    recessive.map(|w| w[1].at - w[0].at).fold(0.0, f64::max)
}

fn errors(reading: &Reading, clock: &Clock, spec: &Limits<'_>, out: &mut Output) {
    let (from, to) = clock.span();
    let traffic = &reading.traffic;
    let (all, frames) = (&traffic.errors, traffic.frames.len());
    let count = all.len() as f64;
    let about = |message: &str| Observation::new("frame-errors", message);
    let unread = traffic.unread_fd.len();
    if all.is_empty() && unread > 0 {
        // Frames of CAN FD whose data phase the sampling does not carry may hide any error.
        let samples = reading.bit.samples;
        out.add(
            about("frame-errors-data-phase")
                .span(from, to)
                .grade(Grade::NotTested)
                .arg("unread", unread)
                .arg("sample_rate", clock.rate_hz / 1_000.0)
                .arg(
                    "needed",
                    FASTEST_DATA_PHASE * LEAST_SAMPLES_A_BIT * clock.rate_hz / samples / 1_000.0,
                ),
        );
        return;
    }
    if all.is_empty() {
        if frames > 0 {
            // Poisson: with none seen, up to 3 in as many frames are possible at 95 %.
            let none = about("frame-errors-none")
                .span(from, to)
                .value(0.0, 1.5, "count");
            out.add(none.arg("frames", frames));
        }
        return;
    }
    if !reading.errors_count() {
        let unsure = match reading.noisy {
            true => about("frame-errors-noisy"),
            false => about("frame-errors-coarse").arg("samples_a_bit", reading.bit.samples),
        };
        out.add(
            unsure
                .span(from, to)
                .value(count, count.sqrt(), "count")
                .grade(Grade::Unusable),
        );
        return;
    }
    let unacknowledged = all
        .iter()
        .filter(|e| e.kind == ErrorKind::Acknowledge)
        .count();
    // A frame that nobody acknowledged stands among the frames, too.
    let share = 100.0 * count / (count + (frames - unacknowledged.min(frames)) as f64);
    let many = all.len() >= LEAST_ERRORS && share > spec.high("frame-error-share");
    let grade = if many {
        Grade::Abnormal
    } else {
        Grade::Unusable
    };
    let (worst, of_worst) = most_common(all.iter().filter_map(|e| e.id)).unzip();
    let mostly = 2 * unacknowledged > all.len();
    let mut total = match mostly {
        true => about("frame-errors-unacknowledged"),
        false => {
            let (error, field) = most_common(all.iter().map(|e| (e.kind, e.field)))
                .map_or(("", ""), |((kind, field), _)| (kind.name(), field.name()));
            about("frame-errors")
                .arg("error", error)
                .arg("field", field)
        }
    };
    total = total
        .span(from, to)
        .value(count, count.sqrt(), "count")
        .limit(spec.limit("frame-error-share"))
        .grade(if many {
            Grade::Abnormal
        } else {
            Grade::Unusable
        })
        .arg("share", share)
        .arg(
            "identifier",
            worst.map_or_else(String::new, |id: Identifier| id.to_string()),
        )
        .arg("of_identifier", of_worst.unwrap_or(0));
    out.add(total);
    for (id, errors) in by_identifier(all).into_iter().take(MOST_LISTED) {
        let ((kind, field), _) = match most_common(errors.iter().map(|e| (e.kind, e.field))) {
            Some(most) => most,
            None => continue,
        };
        let bits: Vec<usize> = errors
            .iter()
            .filter(|e| e.field == field)
            .map(|e| e.bit)
            .collect();
        let (first, last) = (errors[0], errors[errors.len() - 1]);
        let id = id.to_string();
        out.add(
            about("frame-errors-of")
                .grade(grade)
                .about(&id)
                .span(clock.at(first.start), clock.at(last.end))
                .value(errors.len() as f64, (errors.len() as f64).sqrt(), "count")
                .arg("identifier", id.as_str())
                .arg("error", kind.name())
                .arg("field", field.name())
                .arg("bit", bits.iter().min().copied().unwrap_or(0)),
        );
    }
}

/// Errors by identifier, the most frequent first.
fn by_identifier(errors: &[BusError]) -> Vec<(Identifier, Vec<&BusError>)> {
    let mut by: BTreeMap<Identifier, Vec<&BusError>> = BTreeMap::new();
    for error in errors {
        if let Some(id) = error.id {
            by.entry(id).or_default().push(error);
        }
    }
    let mut by: Vec<_> = by.into_iter().collect();
    by.sort_by_key(|(_, errors)| std::cmp::Reverse(errors.len()));
    by
}

fn most_common<T: Ord + Copy>(items: impl Iterator<Item = T>) -> Option<(T, usize)> {
    let mut counts: BTreeMap<T, usize> = BTreeMap::new();
    items.for_each(|item| *counts.entry(item).or_default() += 1);
    counts.into_iter().max_by_key(|c| c.1)
}
