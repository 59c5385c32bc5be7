//! What the host and its worker processes say to each other: frames of a length (4 bytes, little endian) and that
//! many bytes of JSON, over a socket pair. A file descriptor may travel with a request.

use crate::check::{Check, Verdict};
use crate::info::Description;
use crate::tracks::TrackData;
use crate::walls::Walls;
use plugin_abi::Observation;
use rustix::io::Errno;
use rustix::net::{
    RecvAncillaryBuffer, RecvAncillaryMessage, RecvFlags, SendAncillaryBuffer,
    SendAncillaryMessage, SendFlags, recvmsg, sendmsg,
};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use std::io::{self, IoSlice, IoSliceMut, Read, Write};
use std::mem::MaybeUninit;
use std::os::fd::{BorrowedFd, OwnedFd};
use std::os::unix::net::UnixStream;

/// What the host asks.
#[derive(Debug, Serialize, Deserialize)]
pub(crate) enum Request {
    /// Say which plugins the library has.
    Describe,
    /// Prove the library against the interface, one [`Reply::Checked`] after each check.
    Inspect,
    /// Run a plugin. The samples come as a file descriptor.
    Analyze(Call),
    /// Exit in good order.
    End,
}

/// What the worker answers. `Log`, `Progress` and `Checked` come before the answer proper.
#[derive(Debug, Serialize, Deserialize)]
pub(crate) enum Reply {
    Log {
        severity: i32,
        text: String,
    },
    Progress(Bits),
    Checked(Check, Verdict),
    Described(Described),
    Inspected,
    Analyzed(Outcome),
    /// The request could not be served; not the plugin's fault.
    Failed(String),
}

/// What is known of a library once it is loaded.
#[derive(Debug, Serialize, Deserialize)]
pub(crate) struct Described {
    /// Its plugins, or why it is refused.
    pub plugins: Result<Vec<Description>, String>,
    /// What stands around it; `None` in the host's own process.
    pub walls: Option<Walls>,
}

/// One run of a plugin.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(crate) struct Call {
    pub plugin: u32,
    pub file: String,
    pub settings_json: String,
    pub channels: Vec<ChannelPlan>,
    /// Tracks of earlier plugins that this one takes.
    pub tracks: Vec<TrackData>,
    /// Bytes in the shared file.
    pub blob_len: u64,
    /// After how long `is_cancelled` says so, ms.
    pub cancel_after_ms: u64,
    /// Processor time that the run may take, s.
    pub processor_s: u64,
}

/// One channel: its words, and where its samples lie in the shared file.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(crate) struct ChannelPlan {
    pub role: String,
    pub name: String,
    pub unit: String,
    pub format: Format,
    pub at: u64,
    pub len: u64,
    pub scale: Bits,
    pub offset: Bits,
    pub time: TimePlan,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum Format {
    F32,
    F64,
    I16,
}

#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
pub(crate) enum TimePlan {
    Even { start_s: Bits, step_s: Bits },
    Listed { at: u64 },
}

/// A float that may be NaN or infinite, which JSON cannot say, as its bits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub(crate) struct Bits(u64);

impl From<f64> for Bits {
    fn from(value: f64) -> Self {
        Bits(value.to_bits())
    }
}

impl From<Bits> for f64 {
    fn from(bits: Bits) -> Self {
        f64::from_bits(bits.0)
    }
}

/// How a run of a plugin went.
#[derive(Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct Outcome {
    pub status: i32,
    /// The plugin's reason for a status other than OK.
    pub reason: Option<String>,
    /// The first rule of the interface that it broke.
    pub broken: Option<String>,
    pub findings: Vec<Observation>,
    /// Tracks that it hands on.
    pub tracks: Vec<TrackData>,
}

/// A received descriptor is not passed on to what a plugin may start.
#[cfg(target_os = "linux")]
const KEEP_FROM_CHILDREN: RecvFlags = RecvFlags::CMSG_CLOEXEC;
#[cfg(not(target_os = "linux"))]
const KEEP_FROM_CHILDREN: RecvFlags = RecvFlags::empty();

/// Longest frame: far beyond what the interface's own limits let through in practice.
const MAX_FRAME: u32 = 1 << 30;

/// Sends a message, with a file descriptor if there is one.
pub(crate) fn send<T: Serialize>(
    mut socket: &UnixStream,
    message: &T,
    with: Option<BorrowedFd<'_>>,
) -> io::Result<()> {
    let mut frame = vec![0; 4];
    serde_json::to_writer(&mut frame, message)?;
    let len = u32::try_from(frame.len() - 4)
        .ok()
        .filter(|&n| n <= MAX_FRAME);
    let len = len.ok_or_else(|| io::Error::other("the message is too long"))?;
    frame[..4].copy_from_slice(&len.to_le_bytes());
    let Some(fd) = with else {
        return socket.write_all(&frame);
    };
    let fds = [fd];
    let mut space = [MaybeUninit::uninit(); rustix::cmsg_space!(ScmRights(1))];
    let mut extra = SendAncillaryBuffer::new(&mut space);
    extra.push(SendAncillaryMessage::ScmRights(&fds));
    let sent = retry(|| {
        sendmsg(
            socket,
            &[IoSlice::new(&frame)],
            &mut extra,
            SendFlags::empty(),
        )
    })?;
    socket.write_all(&frame[sent..])
}

/// Receives a message, with its file descriptor if one came along. `None` at the end of the stream.
pub(crate) fn receive<T: DeserializeOwned>(
    mut socket: &UnixStream,
) -> io::Result<Option<(T, Option<OwnedFd>)>> {
    let mut len = [0; 4];
    let mut space = [MaybeUninit::uninit(); rustix::cmsg_space!(ScmRights(1))];
    let mut extra = RecvAncillaryBuffer::new(&mut space);
    let got = retry(|| {
        recvmsg(
            socket,
            &mut [IoSliceMut::new(&mut len)],
            &mut extra,
            KEEP_FROM_CHILDREN,
        )
    })?;
    if got.bytes == 0 {
        return Ok(None);
    }
    let fd = extra.drain().find_map(|m| match m {
        RecvAncillaryMessage::ScmRights(mut fds) => fds.next(),
        _ => None,
    });
    socket.read_exact(&mut len[got.bytes..])?;
    let len = u32::from_le_bytes(len);
    if len > MAX_FRAME {
        return Err(io::Error::other("the message is too long"));
    }
    let mut frame = Vec::new();
    if socket.take(len.into()).read_to_end(&mut frame)? < len as usize {
        return Err(io::ErrorKind::UnexpectedEof.into());
    }
    Ok(Some((serde_json::from_slice(&frame)?, fd)))
}

fn retry<T>(mut f: impl FnMut() -> Result<T, Errno>) -> io::Result<T> {
    loop {
        match f() {
            Err(Errno::INTR) => {}
            other => return other.map_err(Into::into),
        }
    }
}
