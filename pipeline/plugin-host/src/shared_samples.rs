//! A recording's samples as a file without a name, written once and mapped by every worker.

use crate::library::sha256;
use crate::mapped::Mapped;
use crate::wire::{ChannelPlan, Format, TimePlan};
use model::system::Quantity;
use model::{Capture, Channel, Role, Samples, TimeAxis};
use plugin_abi::quantity as abi;
use std::fs::File;
use std::io::{self, Write};
use std::os::fd::{AsFd, BorrowedFd};
use std::path::Path;

/// Every array begins at a multiple of this: enough for any sample type and for a cache line.
const ALIGNMENT: u64 = 64;
/// Values that are converted at once.
const BLOCK: usize = 1 << 16;

/// The samples of a recording's channels that have a role, ready to be handed over.
pub(crate) struct SharedSamples {
    file: File,
    len: u64,
}

impl SharedSamples {
    /// Writes out the channels of `capture` that have a role, and says where each lies: into memory, or into a file of
    /// the folder `scratch`. There all measured values are as a plugin reads them, calibrated and in single precision: a
    /// worker has no memory to convert what does not fit into it.
    pub(crate) fn write(
        capture: &Capture,
        scratch: Option<&Path>,
    ) -> io::Result<(SharedSamples, Vec<ChannelPlan>)> {
        let mut out = Writer {
            file: match scratch {
                Some(folder) => tempfile::tempfile_in(folder)?,
                None => memory_file()?,
            },
            len: 0,
        };
        let time = match &capture.time {
            TimeAxis::Even {
                start_s, step_s, ..
            } => TimePlan::Even {
                start_s: *start_s,
                step_s: *step_s,
            },
            TimeAxis::Listed(t) => TimePlan::Listed {
                at: out.append(bytemuck::cast_slice(t))?,
            },
        };
        let mut plans = Vec::new();
        for (channel, role) in with_role(capture) {
            let is_measured = role.declaration().quantity != Quantity::State;
            let is_calibrated = scratch.is_some() && is_measured;
            let (format, at) = match &channel.samples {
                _ if is_calibrated => (Format::F32, out.append_values(channel)?),
                Samples::F32(s) => (Format::F32, out.append(bytemuck::cast_slice(s))?),
                Samples::F64(s) => (Format::F64, out.append(bytemuck::cast_slice(s))?),
                Samples::I16(s) => (Format::I16, out.append(bytemuck::cast_slice(s))?),
            };
            let (scale, offset) = match is_calibrated {
                true => (1.0, 0.0),
                false => (channel.scale, channel.offset),
            };
            plans.push(ChannelPlan {
                role: role.name().into(),
                quantity: quantity(role),
                name: channel.name.clone(),
                unit: channel.unit.clone().unwrap_or_default(),
                format,
                at,
                len: channel.samples.len() as u64,
                scale,
                offset,
                time,
            });
        }
        let file = match scratch {
            Some(_) => read_only(out.file)?,
            None => {
                seal(&out.file)?;
                out.file
            }
        };
        let samples = SharedSamples { file, len: out.len };
        Ok((samples, plans))
    }

    /// SHA-256 of all samples and instants, hexadecimal: by it a recording is known again.
    ///
    /// # Errors
    /// A file that cannot be mapped.
    pub(crate) fn digest(&self) -> io::Result<String> {
        let fd = self.fd().try_clone_to_owned()?;
        let bytes = Mapped::new(Some(fd), self.len)?;
        let bytes = bytes.array::<u8>(0, self.len)?;
        Ok(sha256(bytes))
    }

    /// Bytes in the file.
    pub(crate) fn len(&self) -> u64 {
        self.len
    }

    /// The file, to be sent to a worker.
    pub(crate) fn fd(&self) -> BorrowedFd<'_> {
        self.file.as_fd()
    }
}

/// Number of a role's quantity in the interface.
fn quantity(role: &Role) -> u32 {
    match role.declaration().quantity {
        Quantity::Current => abi::CURRENT,
        Quantity::Voltage => abi::VOLTAGE,
        Quantity::ToothSignal => abi::TOOTH_SIGNAL,
        Quantity::State => abi::STATE,
    }
}

/// The channels that plugins get to see.
pub(crate) fn with_role(capture: &Capture) -> impl Iterator<Item = (&Channel, &Role)> {
    let channels = capture.channels.iter();
    channels.filter_map(|c| Some((c, c.role.as_ref()?)))
}

struct Writer {
    file: File,
    len: u64,
}

impl Writer {
    /// Appends an array at the next aligned place and returns that place.
    fn append(&mut self, bytes: &[u8]) -> io::Result<u64> {
        let at = self.len.next_multiple_of(ALIGNMENT);
        let gap = [0; ALIGNMENT as usize];
        self.file.write_all(&gap[..(at - self.len) as usize])?;
        self.file.write_all(bytes)?;
        self.len = at + bytes.len() as u64;
        Ok(at)
    }

    /// Appends the calibrated values of a channel, a block at a time, and returns their place.
    fn append_values(&mut self, channel: &Channel) -> io::Result<u64> {
        let at = self.append(&[])?;
        let mut block = Vec::with_capacity(BLOCK);
        for from in (0..channel.samples.len()).step_by(BLOCK) {
            let to = channel.samples.len().min(from + BLOCK);
            block.clear();
            block.extend((from..to).map(|i| channel.value(i) as f32));
            self.file.write_all(bytemuck::cast_slice(&block))?;
        }
        self.len += size_of::<f32>() as u64 * channel.samples.len() as u64;
        Ok(at)
    }
}

#[cfg(target_os = "linux")]
fn memory_file() -> io::Result<File> {
    use rustix::fs::{MemfdFlags, memfd_create};
    let flags = MemfdFlags::CLOEXEC | MemfdFlags::ALLOW_SEALING;
    Ok(memfd_create("baybrief-samples", flags)?.into())
}

/// After this nobody, whatever descriptor they hold, can change or shorten the file.
#[cfg(target_os = "linux")]
fn seal(file: &File) -> io::Result<()> {
    use rustix::fs::{SealFlags, fcntl_add_seals};
    Ok(fcntl_add_seals(
        file,
        SealFlags::WRITE | SealFlags::SHRINK | SealFlags::GROW | SealFlags::SEAL,
    )?)
}

/// The same file, not to be written to: a worker gets no other way to it.
#[cfg(target_os = "linux")]
fn read_only(file: File) -> io::Result<File> {
    use std::os::fd::AsRawFd;
    File::open(format!("/proc/self/fd/{}", file.as_raw_fd()))
}

#[cfg(not(target_os = "linux"))]
fn read_only(file: File) -> io::Result<File> {
    Ok(file)
}

/// Elsewhere: a file without a name. A worker maps it read-only, but nothing seals it.
#[cfg(not(target_os = "linux"))]
fn memory_file() -> io::Result<File> {
    tempfile::tempfile()
}

#[cfg(not(target_os = "linux"))]
fn seal(_: &File) -> io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::RoleSource;
    use model::system::RoleDeclaration;

    fn channel(samples: Samples) -> Channel {
        Channel {
            role: Some(Role::declared(RoleDeclaration {
                name: "other".into(),
                quantity: Quantity::State,
                unit: "V".into(),
                plot_order: 0,
                names: Default::default(),
                hints: Default::default(),
            })),
            role_source: RoleSource::JobFile,
            calibration: model::Calibration::Stated,
            ..Channel::recorded("A", None, samples)
        }
    }

    fn capture(channels: Vec<Channel>) -> Capture {
        Capture {
            file: "a.csv".into(),
            started: None,
            time_source: model::TimeSource::File,
            time: TimeAxis::Listed(vec![0.0, 0.5, 2.0].into()),
            channels,
            problems: vec![],
            read_as: String::new(),
        }
    }

    #[test]
    fn what_is_written_is_mapped_again_bit_for_bit() {
        let odd = f32::from_bits(0x7fc0_1234);
        let mut unnamed = channel(Samples::F32(vec![9.0; 3].into()));
        unnamed.role = None;
        let capture = capture(vec![
            channel(Samples::I16(vec![-32768, 0, 32767].into())),
            unnamed,
            channel(Samples::F32(vec![odd, f32::INFINITY, -0.0].into())),
            channel(Samples::F64(vec![1e-300, f64::NEG_INFINITY, 0.1].into())),
        ]);
        for scratch in [None, Some(&*std::env::temp_dir())] {
            mapped_again(&capture, scratch, odd);
        }
    }

    fn mapped_again(capture: &Capture, scratch: Option<&Path>, odd: f32) {
        let (samples, plan) = SharedSamples::write(capture, scratch).expect("written");
        assert_eq!(
            plan.iter().map(|p| p.format).collect::<Vec<_>>(),
            [Format::I16, Format::F32, Format::F64]
        );
        let fd = samples
            .fd()
            .try_clone_to_owned()
            .expect("a second descriptor");
        let mapped = Mapped::new(Some(fd), samples.len()).expect("mapped");
        assert_eq!(
            mapped.array::<i16>(plan[0].at, 3).expect("i16"),
            [-32768, 0, 32767]
        );
        let floats = mapped.array::<f32>(plan[1].at, 3).expect("f32");
        assert_eq!(floats[0].to_bits(), odd.to_bits());
        assert_eq!(
            (floats[1], floats[2].to_bits()),
            (f32::INFINITY, (-0.0f32).to_bits())
        );
        assert_eq!(
            mapped.array::<f64>(plan[2].at, 3).expect("f64"),
            [1e-300, f64::NEG_INFINITY, 0.1]
        );
        let TimePlan::Listed { at } = plan[0].time else {
            panic!("listed times")
        };
        assert_eq!(mapped.array::<f64>(at, 3).expect("times"), [0.0, 0.5, 2.0]);
        assert!(mapped.array::<f64>(samples.len() - 8, 2).is_err());
        assert!(mapped.array::<f64>(u64::MAX, 2).is_err());
        assert!(mapped.array::<f64>(4, 1).is_err(), "misaligned");
        assert!(
            mapped
                .array::<f64>(samples.len(), 0)
                .expect("nothing")
                .is_empty()
        );
    }

    /// The values as a plugin reads them of what was recorded: `(v * scale + offset) as f32`, and bit for bit where there is
    /// nothing to calibrate.
    #[test]
    fn on_the_disk_measured_values_are_calibrated() {
        let measured = |samples: Samples, scale: f64| {
            let mut channel = channel(samples);
            let mut role = channel.role.expect("one").declaration().clone();
            role.quantity = Quantity::Voltage;
            channel.role = Some(Role::declared(role));
            Channel { scale, ..channel }
        };
        let (raw, nan) = (vec![-32768, 3, 32767], f32::from_bits(0x7fc0_1234));
        let capture = capture(vec![
            measured(Samples::I16(raw.clone().into()), 5.0 / 32768.0),
            measured(Samples::F32(vec![nan, f32::INFINITY, 0.1].into()), 1.0),
        ]);
        let folder = std::env::temp_dir();
        let (samples, plan) = SharedSamples::write(&capture, Some(&folder)).expect("written");
        let fd = samples.fd().try_clone_to_owned().expect("a descriptor");
        let mapped = Mapped::new(Some(fd), samples.len()).expect("mapped");
        let values = |n: usize| mapped.array::<f32>(plan[n].at, 3).expect("f32");
        let want: Vec<f32> = (raw.iter())
            .map(|v| (f64::from(*v) * (5.0 / 32768.0)) as f32)
            .collect();
        assert_eq!((values(0), plan[0].scale), (&want[..], 1.0));
        assert!(values(1)[0].is_nan());
        assert_eq!(values(1)[1..], [f32::INFINITY, 0.1]);
    }

    #[test]
    fn a_recording_without_samples_is_handed_over() {
        let mut empty = capture(vec![channel(Samples::F64(Vec::new().into()))]);
        empty.time = TimeAxis::Listed(Vec::new().into());
        let (samples, plan) = SharedSamples::write(&empty, None).expect("written");
        assert_eq!((samples.len(), plan[0].len), (0, 0));
        let mapped = Mapped::new(None, 0).expect("mapped");
        assert!(mapped.array::<f64>(0, 0).expect("nothing").is_empty());
        assert!(mapped.array::<f64>(0, 1).is_err());
    }

    #[cfg(target_os = "linux")]
    #[test]
    fn the_file_cannot_be_changed_any_more() {
        let capture = capture(vec![channel(Samples::I16(vec![1, 2, 3].into()))]);
        for scratch in [None, Some(&*std::env::temp_dir())] {
            let (samples, _) = SharedSamples::write(&capture, scratch).expect("written");
            assert!((&samples.file).write_all(b"x").is_err());
            assert!(samples.file.set_len(0).is_err());
        }
    }
}
