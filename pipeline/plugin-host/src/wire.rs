//! Protocol between the host and its worker processes: frames of a length (4 bytes, little endian) and that
//! many bytes of CBOR (RFC 8949, which can say NaN and infinities), over a socket pair. A file descriptor may travel
//! with a request.

use crate::sandbox::Sandbox;
use crate::series_cache::shared;
use crate::validate::{Check, Verdict};
use plugin_abi::call::Outcome;
use plugin_abi::{LibraryDeclaration, Series};
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
use std::sync::Arc;
use std::time::Duration;

/// Request of the host.
#[derive(Debug, Serialize, Deserialize)]
pub(crate) enum Request {
    /// End when the other end of this pipe is closed. Always the first.
    Lifeline,
    /// Say what the library declares.
    Describe,
    /// Validate the library against the interface, one [`Reply::Checked`] after each check.
    Inspect,
    /// Turn to a recording, or to a job. The samples come as a file descriptor.
    Begin(Begin),
    /// Run an analyzer on it.
    Analyze(Call),
    /// Exit in good order.
    End,
}

/// Reply of the worker. `Log`, `Progress` and `Checked` come before the answer proper.
#[derive(Debug, Serialize, Deserialize)]
pub(crate) enum Reply {
    Log {
        severity: i32,
        text: String,
    },
    Progress(f64),
    Checked(Check, Verdict),
    Described(Described),
    Inspected,
    Begun,
    Analyzed(Outcome),
    /// The request could not be served; not the library's fault.
    Failed(String),
}

/// Facts about a loaded library.
#[derive(Debug, Serialize, Deserialize)]
pub(crate) struct Described {
    /// Its declaration, or why it is refused.
    pub library: Result<LibraryDeclaration, String>,
    /// Its confinement; `None` in the host's own process.
    pub sandbox: Option<Sandbox>,
}

/// A recording, or a job without one.
#[derive(Debug, Clone, Default, Serialize, Deserialize)]
pub(crate) struct Begin {
    pub file: String,
    pub settings_json: String,
    pub channels: Vec<ChannelPlan>,
    /// Series that other libraries derived from it.
    #[serde(with = "shared")]
    pub series: Vec<Arc<Series>>,
    /// Bytes in the shared file.
    pub samples_len: u64,
}

/// One run of an analyzer.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
pub(crate) struct Call {
    /// Its place in the library.
    pub analyzer: u32,
    /// After how long `is_cancelled` says so, ms.
    pub cancel_after_ms: u64,
}

/// One channel: its words, and where its samples lie in the shared file.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub(crate) struct ChannelPlan {
    pub role: String,
    /// One of [`plugin_abi::quantity`].
    pub quantity: u32,
    pub name: String,
    pub unit: String,
    pub format: Format,
    pub at: u64,
    pub len: u64,
    pub scale: f64,
    pub offset: f64,
    pub time: TimePlan,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) enum Format {
    F32,
    F64,
    I16,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(crate) enum TimePlan {
    Even { start_s: f64, step_s: f64 },
    Listed { at: u64 },
}

/// A received descriptor is not passed on to what a plugin may start.
#[cfg(target_os = "linux")]
const KEEP_FROM_CHILDREN: RecvFlags = RecvFlags::CMSG_CLOEXEC;
#[cfg(not(target_os = "linux"))]
const KEEP_FROM_CHILDREN: RecvFlags = RecvFlags::empty();

/// Longest frame, bytes: the series of one call ([`plugin_abi::MAX_CALL_VALUES`] of eight bytes) and as much again of
/// words would be an eighth more.
pub(crate) const MAX_FRAME: u32 = 288 << 20;

/// Sends a message, with a file descriptor if there is one.
pub(crate) fn send<T: Serialize>(
    mut socket: &UnixStream,
    message: &T,
    with: Option<BorrowedFd<'_>>,
) -> io::Result<()> {
    let mut frame = vec![0; 4];
    ciborium::into_writer(message, &mut frame).map_err(io::Error::other)?;
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

/// Receives a message of at most so many bytes, with its file descriptor if one came along. `None` at the end of the
/// stream. Before every wait `tick` says how long it may last, or ends it with an error; it is told whether the one
/// before it was in vain.
pub(crate) fn receive<T: DeserializeOwned>(
    socket: &UnixStream,
    longest: u32,
    tick: &mut dyn FnMut(bool) -> io::Result<Duration>,
) -> io::Result<Option<(T, Option<OwnedFd>)>> {
    let mut len = [0; 4];
    let mut fd = None;
    let mut filled = 0;
    while filled < len.len() {
        let mut space = [MaybeUninit::uninit(); rustix::cmsg_space!(ScmRights(1))];
        let mut extra = RecvAncillaryBuffer::new(&mut space);
        let got = wait(socket, tick, &mut || {
            let mut rest = [IoSliceMut::new(&mut len[filled..])];
            let got = recvmsg(socket, &mut rest, &mut extra, KEEP_FROM_CHILDREN)?;
            Ok(got.bytes)
        })?;
        match got {
            0 if filled == 0 => return Ok(None),
            0 => return Err(io::ErrorKind::UnexpectedEof.into()),
            got => filled += got,
        }
        fd = fd.or(extra.drain().find_map(|m| match m {
            RecvAncillaryMessage::ScmRights(mut fds) => fds.next(),
            _ => None,
        }));
    }
    let len = u32::from_le_bytes(len);
    if len > longest {
        return Err(io::Error::other("the message is too long"));
    }
    // Grows with what arrives, not with what was announced.
    let mut frame = Vec::new();
    let mut part = vec![0; PART.min(len as usize)];
    while frame.len() < len as usize {
        let most = PART.min(len as usize - frame.len());
        let got = wait(socket, tick, &mut || {
            (&mut &*socket).read(&mut part[..most])
        })?;
        if got == 0 {
            return Err(io::ErrorKind::UnexpectedEof.into());
        }
        frame.extend_from_slice(&part[..got]);
    }
    let message = ciborium::from_reader(frame.as_slice()).map_err(io::Error::other)?;
    Ok(Some((message, fd)))
}

/// Bytes that are read at a time.
const PART: usize = 256 * 1024;

fn wait(
    socket: &UnixStream,
    tick: &mut dyn FnMut(bool) -> io::Result<Duration>,
    read: &mut dyn FnMut() -> io::Result<usize>,
) -> io::Result<usize> {
    use io::ErrorKind::{Interrupted, TimedOut, WouldBlock};
    let mut in_vain = false;
    loop {
        let longest = tick(in_vain)?;
        if longest < Duration::MAX {
            socket.set_read_timeout(Some(longest))?;
        }
        match read() {
            Err(e) if matches!(e.kind(), TimedOut | WouldBlock) => in_vain = true,
            Err(e) if e.kind() == Interrupted => {}
            other => return other,
        }
    }
}

fn retry<T>(mut f: impl FnMut() -> Result<T, Errno>) -> io::Result<T> {
    loop {
        match f() {
            Err(Errno::INTR) => {}
            other => return other.map_err(Into::into),
        }
    }
}

/// Host's reading of these bytes from a hostile worker.
#[cfg(any(test, feature = "fuzzing"))]
fn heard(bytes: Vec<u8>, longest: u32) -> io::Result<Option<Reply>> {
    let (host, worker) = UnixStream::pair().expect("a socket pair");
    let sending = std::thread::spawn(move || {
        // A host that listens no more is no fault.
        let _ = (&worker).write_all(&bytes);
    });
    let received = receive::<Reply>(&host, longest, &mut |in_vain| match in_vain {
        true => Err(io::ErrorKind::TimedOut.into()),
        false => Ok(Duration::from_millis(500)),
    });
    drop(host);
    sending.join().expect("no panic");
    received.map(|got| got.map(|(reply, _)| reply))
}

/// Reads what a worker sent as the host does, for the fuzz target. Returns true for an answer.
#[cfg(feature = "fuzzing")]
pub fn read_reply(bytes: Vec<u8>) -> bool {
    matches!(heard(bytes, MAX_FRAME), Ok(Some(_)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn frame(reply: &Reply) -> Vec<u8> {
        let mut bytes = vec![0; 4];
        ciborium::into_writer(reply, &mut bytes).expect("a frame");
        let len = (bytes.len() - 4) as u32;
        bytes[..4].copy_from_slice(&len.to_le_bytes());
        bytes
    }

    fn replies() -> Vec<Reply> {
        vec![
            Reply::Log {
                severity: 2,
                text: "a line".into(),
            },
            Reply::Progress(0.5),
            Reply::Begun,
            Reply::Analyzed(Outcome {
                status: 0,
                reason: Some("x".into()),
                ..Outcome::default()
            }),
            Reply::Failed("no".into()),
        ]
    }

    #[test]
    fn a_frame_longer_than_its_sender_may_hold_is_refused_unread() {
        let mut announced = (1u32 << 20).to_le_bytes().to_vec();
        announced.push(0);
        let e = heard(announced, 1000).expect_err("refused");
        assert!(e.to_string().contains("too long"), "{e}");
    }

    proptest! {
        #[test]
        fn whatever_a_worker_sends_is_an_answer_or_an_error(bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
            let _ = heard(bytes, MAX_FRAME);
        }

        #[test]
        fn a_frame_with_changed_bytes_is_an_answer_or_an_error(
            which in 0usize..5,
            changes in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 0..6),
            cut in any::<prop::sample::Index>(),
        ) {
            let mut bytes = frame(&replies()[which]);
            for (at, value) in changes {
                let at = at.index(bytes.len());
                bytes[at] = value;
            }
            bytes.truncate(cut.index(bytes.len()) + 1);
            let _ = heard(bytes, MAX_FRAME);
        }
    }
}
