//! Recordings as ASAM MDF 4: a subset, read-only.
//!
//! Read are sorted and unsorted groups of fixed-length records in DT, DL, DZ (deflated, also transposed)
//! and HL blocks, integers of up to 64 bits and floats of 32 and 64 bits in either byte order, the
//! conversions none, linear, rational and table, units and invalidation bits. Block layouts after ASAM
//! MDF 4.1 (from memory), checked against files that asammdf wrote.

mod block;
mod channel;
mod convert;
mod data;
mod group;
mod join;

use crate::input::Input;
use crate::source::{self, MOST_CHANNELS};
use crate::time_axis;
use crate::{ErrorKind, FormatError, FormatReader, Incomplete, Probe, Reading, Source};
use block::{Block, File};
use channel::{ChannelBlock, Kind};
use chrono::{DateTime, NaiveDateTime, TimeDelta};
use group::Group;
use join::{Recording, Time};
use model::{Capture, Channel, Problem, Samples, TimeSource};

/// Reads ASAM MDF 4 files.
pub struct MdfReader;

impl FormatReader for MdfReader {
    fn name(&self) -> &'static str {
        "ASAM MDF 4"
    }

    fn probe(&self, source: &Source) -> Probe {
        let id = source.head().get(..8);
        if id == Some(b"MDF     ") || id == Some(b"UnFinMF ") {
            Probe::new(1.0, "an MDF identification block")
        } else {
            Probe::new(0.0, "no MDF identification block")
        }
    }

    fn read(&self, source: &Source) -> Result<Reading, FormatError> {
        read(source).map(Reading::Capture)
    }

    fn incomplete(&self, source: &Source) -> Option<Incomplete> {
        let reason = match source.head().get(..8)? {
            b"UnFinMF " => Some("its recorder has not finished it".into()),
            b"MDF     " => beyond_the_end(source.input),
            _ => None,
        };
        reason.map(Incomplete::Rest)
    }
}

/// Reason why a file ends before its blocks do: blocks follow the 64 bytes of the identification, each with its length, on
/// addresses divisible by 8.
fn beyond_the_end(input: Input<'_>) -> Option<String> {
    let mut at = 64u64;
    let mut header = [0; 16];
    while input.fill_at(at, &mut header).ok()? == header.len() && header.starts_with(b"##") {
        let length = u64::from_le_bytes(header.get(8..)?.try_into().ok()?);
        let end = at.checked_add(length)?;
        if end > input.len() {
            return Some(source::short(end, input.len()));
        }
        if length < 24 {
            return None;
        }
        at = end.checked_next_multiple_of(8)?;
    }
    None
}

fn read(source: &Source) -> Result<Capture, FormatError> {
    let name = source.name;
    let file = File::new(name, source.bytes()?);
    let mut left = source.most_unfolded();
    let version = file.u16(28).unwrap_or(0);
    if version < 400 {
        return Err(FormatError::new(
            ErrorKind::Unsupported,
            name,
            Some("byte 28".into()),
            &format!(
                "MDF version {}.{:02}; version 4 was expected",
                version / 100,
                version % 100
            ),
            "export it as MDF 4 or as CSV",
        ));
    }
    let head = file.block(64, b"##HD")?;
    let mut groups = groups(&file, &head)?;
    // The group with the most samples gives the time; the sort keeps the file's order among equals.
    groups.sort_by_key(|g| std::cmp::Reverse(g.cycles));
    if groups.is_empty() {
        return Err(FormatError::new(
            ErrorKind::Truncated,
            name,
            None,
            "the file has no channel group with data",
            "export the recording again",
        ));
    }
    let mut problems = Vec::new();
    let mut failure = None;
    let mut base: Option<Recording> = None;
    for group in &groups {
        match (read_group(group, &mut left, &mut problems), &mut base) {
            (Ok(read), None) => base = Some(read),
            (Ok(read), Some(base)) => base.join(read, name, &mut problems),
            (Err(e), _) => {
                problems.push(e.clone().into());
                failure = failure.or(Some(e));
            }
        }
    }
    let Some(Recording { time, channels }) = base else {
        return Err(
            failure.unwrap_or_else(|| FormatError::damaged(name, 64, "no readable channel group"))
        );
    };
    let even = time_axis::is_even(&time.stamps, time.resolution);
    let time = time_axis::axis(time.stamps, even);
    if let Some(message) = time_axis::gaps(&time) {
        problems.push(Problem {
            file: name.into(),
            place: None,
            message,
        });
    }
    let unfinished = if file.unfinished {
        ", not finalised"
    } else {
        ""
    };
    Ok(Capture {
        file: name.into(),
        started: started(&head),
        time,
        time_source: TimeSource::File,
        read_as: format!(
            "ASAM MDF {}.{:02}{unfinished}",
            version / 100,
            version % 100
        ),
        channels,
        problems,
    })
}

fn started(head: &Block) -> Option<NaiveDateTime> {
    let ns = head.u64(0)?;
    if ns == 0 {
        return None;
    }
    let utc = DateTime::from_timestamp_nanos(i64::try_from(ns).ok()?).naive_utc();
    // Bit 0: the time is local already. Bit 1: the offsets to local time, in minutes, are valid.
    let flags = head.u8(12)?;
    let minutes = if flags & 0b11 == 0b10 {
        i64::from(head.i16(8)?) + i64::from(head.i16(10)?)
    } else {
        0
    };
    utc.checked_add_signed(TimeDelta::minutes(minutes))
}

/// Every channel group that holds fixed-length records.
fn groups<'a>(file: &'a File<'a>, head: &Block) -> Result<Vec<Group<'a>>, FormatError> {
    let mut out = Vec::new();
    for data_group in file.chain(head.link(0), b"##DG")? {
        let record_id_size = usize::from(data_group.u8(0).unwrap_or(0));
        let channel_groups = file.chain(data_group.link(1), b"##CG")?;
        let siblings: Vec<(u64, Option<usize>)> = channel_groups
            .iter()
            .map(|g| {
                let length = g.u32(24).unwrap_or(0) as usize + g.u32(28).unwrap_or(0) as usize;
                (
                    g.u64(0).unwrap_or(0),
                    (g.u16(16).unwrap_or(0) & 1 == 0).then_some(length),
                )
            })
            .collect();
        for group in channel_groups {
            let variable_length = group.u16(16).unwrap_or(0) & 1 == 1;
            let data_bytes = group.u32(24).unwrap_or(0) as usize;
            if variable_length || data_bytes == 0 {
                continue;
            }
            let mut cycles = group.u64(8).unwrap_or(0);
            if cycles == 0 && file.unfinished {
                cycles = data::stored_length(file, data_group.link(2))
                    / (data_bytes + record_id_size) as u64;
            }
            if cycles == 0 {
                continue;
            }
            out.push(Group {
                data: data_group.link(2),
                record_id_size,
                id: group.u64(0).unwrap_or(0),
                cycles,
                data_bytes,
                invalidation_bytes: group.u32(28).unwrap_or(0) as usize,
                first_channel: group.link(1),
                name: file.text(group.link(2)),
                siblings: siblings.clone(),
                file,
            });
        }
    }
    Ok(out)
}

/// Time and channels of one group.
fn read_group(
    group: &Group,
    left: &mut u64,
    problems: &mut Vec<Problem>,
) -> Result<Recording, FormatError> {
    let file = group.file;
    let mut master = None;
    let mut channels = Vec::new();
    for block in file.chain(group.first_channel, b"##CN")? {
        match ChannelBlock::read(file, &block) {
            Ok(c) if c.kind == Kind::Time => master = master.or(Some(c)),
            Ok(c) if c.kind == Kind::Values => channels.push(c),
            Ok(_) => {}
            Err((name, why)) => problems.push(Problem {
                file: file.name.into(),
                place: Some(format!("channel \"{name}\"")),
                message: format!("{why}; the channel was left out"),
            }),
        }
    }
    let master = master.ok_or_else(|| {
        FormatError::new(
            ErrorKind::Unsupported,
            file.name,
            Some(format!(
                "channel group {}",
                group.name.as_deref().unwrap_or("without a name")
            )),
            "the group has no time channel that can be read",
            "export the recording with a time channel",
        )
    })?;
    // What is promised need not be there: reserved is what costs nothing.
    let reserve = group.cycles.min(1 << 12) as usize;
    let mut time: Vec<f64> = Vec::with_capacity(reserve);
    let mut columns: Vec<Vec<f32>> = channels
        .iter()
        .map(|_| Vec::with_capacity(reserve))
        .collect();
    if channels.len() > MOST_CHANNELS {
        return Err(FormatError::new(
            ErrorKind::TooLarge,
            file.name,
            None,
            &format!(
                "a group has {} channels, and at most {MOST_CHANNELS} are read",
                channels.len()
            ),
            "export the channels that matter",
        ));
    }
    let record_bytes = 4 * channels.len() as u64 + 8;
    let most = *left / record_bytes;
    let (mut count, mut backwards) = (0u64, 0u64);
    let outcome = data::records(group, &mut |record| {
        if count == group.cycles && !file.unfinished || count == most {
            return false;
        }
        let t = master.value(record, group.data_bytes, count);
        count += 1;
        if !t.is_finite() || time.last().is_some_and(|last| t < *last) {
            backwards += 1;
            return true;
        }
        time.push(t);
        for (channel, column) in channels.iter().zip(&mut columns) {
            column.push(channel.value(record, group.data_bytes, count - 1) as f32);
        }
        true
    });
    *left -= (time.len() as u64 * record_bytes).min(*left);
    let mut say = |message: String| {
        problems.push(Problem {
            file: file.name.into(),
            place: None,
            message,
        })
    };
    match outcome {
        Err(e) if time.is_empty() => return Err(e),
        Err(e) => say(format!(
            "the data end early ({}); {} samples were read",
            e.expected,
            time.len()
        )),
        Ok(()) => {}
    }
    if time.is_empty() {
        return Err(FormatError::new(
            ErrorKind::Truncated,
            file.name,
            None,
            "the channel group holds not one whole record",
            "export the recording again",
        ));
    }
    if count == most {
        say(format!(
            "more than {most} samples; the rest was left out. Export the part that matters"
        ));
    } else if count < group.cycles {
        say(format!(
            "the file promises {} samples, {count} are there; they were read",
            group.cycles
        ));
    }
    if backwards > 0 {
        say(format!(
            "{backwards} sample(s) go back in time or have none and were left out"
        ));
    }
    let channels = channels
        .into_iter()
        .zip(columns)
        .map(|(c, samples)| Channel::recorded(c.name, c.unit, Samples::F32(samples.into())));
    let channels = channels.collect();
    let time = Time {
        resolution: master.resolution(&time),
        stamps: time,
    };
    Ok(Recording { time, channels })
}
