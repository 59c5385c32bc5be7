//! A frame and the bits in which it is sent.

use super::crc::{CRC15, CRC17, CRC21, Crc};
use std::fmt;

/// An identifier: 11 bits, or 29 bits for an extended one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Identifier {
    /// The number.
    pub number: u32,
    /// True for 29 bits.
    pub extended: bool,
}

impl Identifier {
    /// Reads 3 (11 bits) or 8 (29 bits) hexadecimal digits. `None` for anything else.
    pub fn parse(text: &str) -> Option<Identifier> {
        let number = u32::from_str_radix(text, 16).ok()?;
        let extended = match text.len() {
            3 => false,
            8 => true,
            _ => return None,
        };
        let most = if extended { 0x1FFF_FFFF } else { 0x7FF };
        (number <= most && !text.starts_with('+')).then_some(Identifier { number, extended })
    }
}

/// 3 or 8 hexadecimal digits, as bus logs write them.
impl fmt::Display for Identifier {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.extended {
            true => write!(f, "{:08X}", self.number),
            false => write!(f, "{:03X}", self.number),
        }
    }
}

/// The flags of a CAN FD frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Fd {
    /// The data phase has its own bit rate.
    pub switches_rate: bool,
    /// The sender is error passive.
    pub error_passive: bool,
}

/// A frame's content.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Frame {
    /// Identifier.
    pub id: Identifier,
    /// Remote frame: asks for data and carries none.
    pub remote: bool,
    /// Data length code, 0 to 15.
    pub dlc: u8,
    /// Data: 0 to 8 bytes, up to 64 for CAN FD.
    pub data: Vec<u8>,
    /// `None` for a classic frame.
    pub fd: Option<Fd>,
}

/// Data bytes that a length code stands for.
pub fn data_length(dlc: u8, fd: bool) -> usize {
    match (dlc, fd) {
        (0..=8, _) => usize::from(dlc),
        (_, false) => 8,
        (9..=12, true) => 12 + 4 * (usize::from(dlc) - 9),
        (13, true) => 32,
        (14, true) => 48,
        (_, true) => 64,
    }
}

/// The length code for a number of data bytes. `None` where no code stands for it.
pub fn length_code(bytes: usize, fd: bool) -> Option<u8> {
    (0..16).find(|&dlc| data_length(dlc, fd) == bytes)
}

/// Number of bits of a frame, from start of frame to the last bit of end of frame, stuff bits included.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BitCount {
    /// Bits at the nominal rate.
    pub nominal: usize,
    /// Bits at the rate of the data phase.
    pub data_phase: usize,
}

/// Bits of the intermission between two frames (ISO 11898-1).
pub const INTERMISSION: usize = 3;

/// CRC delimiter, acknowledge slot and delimiter, end of frame: bits that follow the CRC unstuffed.
pub const TAIL: usize = 1 + 2 + 7;

/// Code of the number of dynamic stuff bits modulo 8: three bits of Gray code and even parity (ISO 11898-1:2015).
pub const STUFF_COUNT: [u8; 8] = [0x0, 0x3, 0x6, 0x5, 0xC, 0xF, 0xA, 0x9];

impl Frame {
    /// The check that this frame carries.
    pub fn crc(&self) -> Crc {
        match (self.fd, self.data.len()) {
            (None, _) => CRC15,
            (Some(_), 0..=16) => CRC17,
            (Some(_), _) => CRC21,
        }
    }

    /// Bits as sent, from start of frame to the last bit of the CRC with its stuff bit; true is recessive.
    pub fn bits(&self) -> Vec<bool> {
        let mut sent = self.head();
        if let Some(fd) = self.fd {
            sent.bit(fd.error_passive);
        }
        sent.field(u32::from(self.dlc), 4);
        for &byte in &self.data {
            sent.field(u32::from(byte), 8);
        }
        if self.fd.is_some() {
            sent.fd_check(self.crc());
        } else {
            let crc = CRC15.of(sent.plain.iter().copied());
            sent.field(crc, 15);
            sent.stuff();
        }
        sent.sent
    }

    /// Counts the bits sent, end of frame included, intermission not.
    pub fn bit_count(&self) -> BitCount {
        let stuffed = self.bits().len();
        // The rate switches within the bits BRS and CRC delimiter; each counts as nominal.
        let data_phase = match self.fd {
            Some(fd) if fd.switches_rate => stuffed - self.head().sent.len(),
            _ => 0,
        };
        BitCount {
            nominal: stuffed + TAIL - data_phase,
            data_phase,
        }
    }

    /// Start of frame to the last reserved bit of a classic frame, to BRS of a CAN FD frame.
    fn head(&self) -> Stuffer {
        let mut sent = Stuffer::default();
        sent.bit(false);
        if self.id.extended {
            sent.field(self.id.number >> 18, 11);
            sent.field(0b11, 2);
            sent.field(self.id.number & 0x3_FFFF, 18);
        } else {
            sent.field(self.id.number, 11);
        }
        sent.bit(self.remote && self.fd.is_none());
        match self.fd {
            None => sent.field(0b00, 2),
            Some(fd) => {
                if !self.id.extended {
                    sent.bit(false);
                }
                sent.field(0b10, 2);
                sent.bit(fd.switches_rate);
            }
        }
        sent
    }
}

/// Bits with a complementary one after each five equal ones.
#[derive(Default)]
struct Stuffer {
    sent: Vec<bool>,
    plain: Vec<bool>,
    run: u8,
    stuffed: usize,
}

impl Stuffer {
    fn field(&mut self, value: u32, bits: u32) {
        (0..bits).rev().for_each(|k| self.bit(value >> k & 1 == 1));
    }

    fn bit(&mut self, bit: bool) {
        self.stuff();
        self.push(bit);
        self.plain.push(bit);
    }

    /// The stuff bit that is due, if one is.
    fn stuff(&mut self) {
        if self.run == 5 {
            let last = self.sent[self.sent.len() - 1];
            self.push(!last);
            self.stuffed += 1;
        }
    }

    fn push(&mut self, bit: bool) {
        self.run = if self.sent.last() == Some(&bit) {
            self.run + 1
        } else {
            1
        };
        self.sent.push(bit);
    }

    /// Stuff count and CRC of a CAN FD frame with their fixed stuff bits: one first, and one after each four bits. A
    /// dynamic stuff bit that would be due after the last data bit is replaced by the first fixed one.
    fn fd_check(&mut self, crc: Crc) {
        let count = STUFF_COUNT[self.stuffed % 8];
        let counted: Vec<bool> = (0..4).rev().map(|k| count >> k & 1 == 1).collect();
        let value = crc.of(self.sent.iter().chain(&counted).copied());
        let check = (0..crc.width).rev().map(|k| value >> k & 1 == 1);
        for (k, bit) in counted.iter().copied().chain(check).enumerate() {
            if k % 4 == 0 {
                let last = self.sent[self.sent.len() - 1];
                self.sent.push(!last);
            }
            self.sent.push(bit);
        }
    }
}
