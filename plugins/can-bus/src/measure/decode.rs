//! Frames and errors from a logic signal (ISO 11898-1; the errors as the controller data sheets MCP2510, DS21291F
//! figure 2-4, and CP3BT26 describe them).

use super::clock::Clock;
use super::crc::CRC15;
use super::edges::Logic;
use super::frame::{Fd, Frame, Identifier, STUFF_COUNT, data_length};

/// Recessive bits after which a receiver takes the next dominant edge for a start of frame: eight of a delimiter or
/// an end of frame, and two of the intermission whose third bit may already be one.
const IDLE_BITS: f64 = 9.5;
/// Equal bits that the stuffing rule allows.
const MOST_EQUAL: u8 = 5;

/// A part of a frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Field {
    /// Start of frame, identifier and its flags.
    Arbitration,
    /// Flags, length code.
    Control,
    /// Data bytes.
    Data,
    /// CRC and its delimiter.
    Crc,
    /// Acknowledge slot and delimiter.
    Acknowledge,
    /// Seven recessive bits.
    EndOfFrame,
}

impl Field {
    /// Name as a message's argument.
    pub fn name(self) -> &'static str {
        match self {
            Field::Arbitration => "arbitration",
            Field::Control => "control",
            Field::Data => "data",
            Field::Crc => "crc",
            Field::Acknowledge => "acknowledge",
            Field::EndOfFrame => "end-of-frame",
        }
    }
}

/// Kind of error in a frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ErrorKind {
    /// Six dominant bits where stuffing forbids them: an error flag.
    ErrorFlag,
    /// Six recessive bits where stuffing forbids them: the sender fell silent, or an error-passive node objects.
    Stuff,
    /// The check does not match the content.
    Crc,
    /// A fixed bit has the wrong level.
    Form,
    /// Nobody acknowledged.
    Acknowledge,
}

impl ErrorKind {
    /// Name as a message's argument.
    pub fn name(self) -> &'static str {
        match self {
            ErrorKind::ErrorFlag => "error-flag",
            ErrorKind::Stuff => "stuff",
            ErrorKind::Crc => "crc",
            ErrorKind::Form => "form",
            ErrorKind::Acknowledge => "acknowledge",
        }
    }
}

/// A spoiled frame.
#[derive(Debug, Clone, PartialEq)]
pub struct BusError {
    /// Kind of the error.
    pub kind: ErrorKind,
    /// Field in which the error begins.
    pub field: Field,
    /// Number of the frame's bit with which it begins, stuff bits counted, 0 for start of frame.
    pub bit: usize,
    /// Identifier, where it was complete before.
    pub id: Option<Identifier>,
    /// Start of the frame, in samples.
    pub start: f64,
    /// End of what was taken of it, in samples.
    pub end: f64,
}

/// A frame as it was received.
#[derive(Debug, Clone, PartialEq)]
pub struct Received {
    /// Content.
    pub frame: Frame,
    /// CRC as sent.
    pub crc: u32,
    /// Somebody acknowledged.
    pub acknowledged: bool,
    /// Start of frame, in samples.
    pub start: f64,
    /// End of the bit before the first data bit or the CRC, in samples: from here on one node sends alone.
    pub alone_from: f64,
    /// Start of the CRC delimiter, in samples: until here one node sends alone.
    pub alone_to: f64,
    /// End of the end of frame, in samples; of the acknowledge delimiter where nobody acknowledged.
    pub end: f64,
    /// Stuff bits, the fixed ones of CAN FD not counted.
    pub stuff_bits: usize,
}

/// Everything on the bus.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Traffic {
    /// Frames with the right CRC, in order.
    pub frames: Vec<Received>,
    /// Spoiled frames, in order. A frame with the right CRC that nobody acknowledges stands in both lists.
    pub errors: Vec<BusError>,
    /// Overload frames, in samples.
    pub overloads: Vec<f64>,
    /// Starts of CAN FD frames whose data phase could not be read, in samples.
    pub unread_fd: Vec<f64>,
    /// Time for which the bus was watched while synchronised, in samples.
    pub watched: f64,
}

/// Bit lengths, in samples.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Timing {
    /// Nominal bit.
    pub nominal: f64,
    /// Bit of the data phase, where known.
    pub data_phase: Option<f64>,
}

/// Decodes all frames.
pub fn decode(logic: &Logic, timing: Timing) -> Traffic {
    let mut traffic = Traffic::default();
    let mut index = 0;
    let mut synchronised = false;
    let mut since = logic.samples as f64;
    // Where the last frame ended, and whether an overload frame may follow it.
    let mut ended: Option<f64> = None;
    while let Some(edge) = logic.edges.get(index) {
        let before = match index.checked_sub(1) {
            Some(k) => logic.edges[k].at,
            None => 0.0,
        };
        let quiet = (edge.at - before) / timing.nominal;
        if !edge.dominant {
            index += 1;
            continue;
        }
        let overload = ended.is_some_and(|end| edge.at - end < 2.5 * timing.nominal);
        if overload {
            traffic.overloads.push(edge.at);
            ended = None;
            index += 1;
            continue;
        }
        let follows = ended.take().is_some();
        if !(follows || quiet >= IDLE_BITS || index == 0 && !synchronised) {
            index += 1;
            continue;
        }
        // The first edge of a record may lie within a frame: only a right CRC shows that it does not.
        let sure = synchronised || quiet >= IDLE_BITS + 1.5;
        let outcome = Reader::new(logic, index, timing).read();
        let next = outcome.next_edge.max(index + 1);
        match outcome.result {
            Outcome::Received(received) => {
                if !received.acknowledged {
                    traffic.errors.push(BusError {
                        kind: ErrorKind::Acknowledge,
                        field: Field::Acknowledge,
                        bit: outcome.bit,
                        id: Some(received.frame.id),
                        start: received.start,
                        end: received.end,
                    });
                } else {
                    ended = Some(received.end);
                }
                traffic.frames.push(received);
            }
            Outcome::Spoiled { error, right_crc } if sure => {
                traffic.frames.extend(right_crc);
                traffic.errors.push(error);
            }
            Outcome::UnreadFd if sure => traffic.unread_fd.push(edge.at),
            Outcome::Cut if sure => {}
            _ => {
                index += 1;
                continue;
            }
        }
        if !synchronised {
            since = edge.at.min(since);
            synchronised = true;
        }
        index = next;
    }
    traffic.watched = (logic.samples as f64 - since).max(0.0);
    traffic
}

enum Outcome {
    Received(Received),
    Spoiled {
        error: BusError,
        right_crc: Option<Received>,
    },
    UnreadFd,
    /// The record ends within the frame.
    Cut,
}

struct Read {
    result: Outcome,
    next_edge: usize,
    bit: usize,
}

/// Why reading stopped.
enum Stop {
    Cut,
    Error(ErrorKind, Field, usize),
    UnreadFd,
}

/// Error of too many equal bits: dominant ones are how a node flags an error.
fn stuff_error(bit: bool, field: Field, at: usize) -> Stop {
    let kind = match bit {
        true => ErrorKind::Stuff,
        false => ErrorKind::ErrorFlag,
    };
    Stop::Error(kind, field, at)
}

/// Reads one frame.
struct Reader<'a> {
    clock: Clock<'a>,
    timing: Timing,
    start: f64,
    field: Field,
    /// Bits taken so far, stuff bits counted.
    count: usize,
    run: u8,
    last: bool,
    stuff_bits: usize,
    /// Bits without stuff bits.
    plain: Vec<bool>,
    /// Bits with dynamic stuff bits.
    stuffed: Vec<bool>,
    id: Option<Identifier>,
    crc_right: Option<Received>,
}

impl<'a> Reader<'a> {
    fn new(logic: &'a Logic, index: usize, timing: Timing) -> Self {
        Reader {
            clock: Clock::at_edge(logic, index, timing.nominal),
            timing,
            start: logic.edges[index].at,
            field: Field::Arbitration,
            count: 0,
            run: 0,
            last: true,
            stuff_bits: 0,
            plain: Vec::with_capacity(128),
            stuffed: Vec::with_capacity(160),
            id: None,
            crc_right: None,
        }
    }

    fn read(mut self) -> Read {
        let result = match self.frame() {
            Ok(received) => Outcome::Received(received),
            Err(Stop::Cut) => Outcome::Cut,
            Err(Stop::UnreadFd) => Outcome::UnreadFd,
            Err(Stop::Error(kind, field, bit)) => Outcome::Spoiled {
                error: BusError {
                    kind,
                    field,
                    bit,
                    id: self.id,
                    start: self.start,
                    end: self.clock.position(),
                },
                right_crc: self.crc_right.take(),
            },
        };
        Read {
            result,
            next_edge: self.clock.next_edge(),
            bit: self.count,
        }
    }

    /// A bit that is not stuffed.
    fn raw(&mut self) -> Result<bool, Stop> {
        let bit = self.clock.bit().ok_or(Stop::Cut)?;
        self.count += 1;
        self.run = if bit == self.last {
            self.run.saturating_add(1)
        } else {
            1
        };
        self.last = bit;
        Ok(bit)
    }

    /// A bit under the stuffing rule, after the stuff bit that may be due.
    fn bit(&mut self) -> Result<bool, Stop> {
        self.stuff()?;
        let bit = self.raw()?;
        self.plain.push(bit);
        self.stuffed.push(bit);
        Ok(bit)
    }

    fn stuff(&mut self) -> Result<(), Stop> {
        if self.run != MOST_EQUAL {
            return Ok(());
        }
        let before = self.last;
        let field = self.field;
        let bit = self.raw()?;
        if bit == before {
            return Err(stuff_error(
                bit,
                field,
                self.count - usize::from(MOST_EQUAL) - 1,
            ));
        }
        self.stuff_bits += 1;
        self.stuffed.push(bit);
        Ok(())
    }

    fn number(&mut self, bits: usize) -> Result<u32, Stop> {
        let mut value = 0;
        for _ in 0..bits {
            value = value << 1 | u32::from(self.bit()?);
        }
        Ok(value)
    }

    fn frame(&mut self) -> Result<Received, Stop> {
        if self.bit()? {
            // Too short to be a bit: a glitch.
            return Err(Stop::Error(ErrorKind::Form, Field::Arbitration, 0));
        }
        let base = self.number(11)?;
        let rtr_or_srr = self.bit()?;
        let extended = self.bit()?;
        let (number, remote) = if extended {
            let rest = self.number(18)?;
            (base << 18 | rest, self.bit()?)
        } else {
            (base, rtr_or_srr)
        };
        let id = Identifier { number, extended };
        self.id = Some(id);
        self.field = Field::Control;
        if self.bit()? {
            return self.fd_frame(id);
        }
        if extended {
            self.bit()?;
        }
        let dlc = self.number(4)? as u8;
        let alone_from = self.clock.position();
        self.field = Field::Data;
        let length = if remote { 0 } else { data_length(dlc, false) };
        let data = self.bytes(length)?;
        self.field = Field::Crc;
        let expected = CRC15.of(self.plain.iter().copied());
        let crc = self.number(15)?;
        self.stuff()?;
        let frame = Frame {
            id,
            remote,
            dlc,
            data,
            fd: None,
        };
        self.tail(frame, crc, crc == expected, alone_from)
    }

    fn bytes(&mut self, length: usize) -> Result<Vec<u8>, Stop> {
        (0..length)
            .map(|_| self.number(8).map(|b| b as u8))
            .collect()
    }

    /// CRC delimiter to end of frame.
    fn tail(
        &mut self,
        frame: Frame,
        crc: u32,
        right: bool,
        alone_from: f64,
    ) -> Result<Received, Stop> {
        let alone_to = self.clock.position();
        let delimiter = self.count;
        let fd = frame.fd.is_some();
        if !self.raw()? {
            return Err(Stop::Error(ErrorKind::Form, Field::Crc, delimiter));
        }
        if frame.fd.is_some_and(|fd| fd.switches_rate) {
            self.clock.switch(self.timing.nominal);
        }
        self.field = Field::Acknowledge;
        let slot = self.count;
        let mut acknowledged = !self.raw()?;
        let mut delimiter = self.raw()?;
        if fd && acknowledged && !delimiter {
            // CAN FD allows an acknowledge of two bits.
            delimiter = self.raw()?;
        } else if fd && !acknowledged && !delimiter {
            // A second bit of the CRC delimiter.
            acknowledged = true;
            delimiter = self.raw()?;
        }
        let mut received = Received {
            frame,
            crc,
            acknowledged,
            start: self.start,
            alone_from,
            alone_to,
            end: self.clock.position(),
            stuff_bits: self.stuff_bits,
        };
        if !right {
            return Err(Stop::Error(ErrorKind::Crc, Field::Crc, slot));
        }
        if !acknowledged {
            return Ok(received);
        }
        self.crc_right = Some(received.clone());
        if !delimiter {
            return Err(Stop::Error(
                ErrorKind::Form,
                Field::Acknowledge,
                self.count - 1,
            ));
        }
        self.field = Field::EndOfFrame;
        for k in 0..7 {
            let at = self.count;
            match self.raw() {
                Ok(true) => {}
                // A dominant last bit is an overload condition (ISO 11898-1).
                Ok(false) if k == 6 => {}
                Ok(false) => return Err(Stop::Error(ErrorKind::Form, Field::EndOfFrame, at)),
                // The frame was valid before the record ended.
                Err(stop) => match stop {
                    Stop::Cut => break,
                    other => return Err(other),
                },
            }
        }
        received.end = self.clock.position();
        Ok(received)
    }

    /// A CAN FD frame from the bit after FDF on.
    fn fd_frame(&mut self, id: Identifier) -> Result<Received, Stop> {
        if self.bit()? {
            // Reserved: a protocol that this decoder does not know.
            return Err(Stop::UnreadFd);
        }
        let switches_rate = self.bit()?;
        if switches_rate {
            let bit = self.timing.data_phase.ok_or(Stop::UnreadFd)?;
            self.clock.switch(bit);
        }
        let error_passive = self.bit()?;
        let dlc = self.number(4)? as u8;
        let alone_from = self.clock.position();
        self.field = Field::Data;
        let length = data_length(dlc, true);
        // The stuff bit that would follow the last bit of length code or data gives way to the first fixed one.
        let data = self.bytes(length)?;
        self.field = Field::Crc;
        let frame = Frame {
            id,
            remote: false,
            dlc,
            data,
            fd: Some(Fd {
                switches_rate,
                error_passive,
            }),
        };
        let check = frame.crc();
        let count = STUFF_COUNT[self.stuff_bits % 8];
        let (mut counted, mut crc, mut fixed_right) = (0u8, 0u32, true);
        for k in 0..4 + check.width {
            if k % 4 == 0 {
                let before = self.last;
                fixed_right &= self.raw()? != before;
            }
            let bit = self.raw()?;
            if k < 4 {
                counted = counted << 1 | u8::from(bit);
                self.stuffed.push(bit);
            } else {
                crc = crc << 1 | u32::from(bit);
            }
            if self.run > MOST_EQUAL {
                return Err(stuff_error(
                    bit,
                    Field::Crc,
                    self.count - usize::from(self.run),
                ));
            }
        }
        let expected = check.of(self.stuffed.iter().copied());
        let right = fixed_right && counted == count && crc == expected;
        self.tail(frame, crc, right, alone_from)
    }
}
