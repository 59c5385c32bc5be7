//! Whole frames, bit by bit, against strings that others made.

use baybrief_plugin_can_bus::measure::decode::{Timing, decode};
use baybrief_plugin_can_bus::measure::edges::{Edge, Logic};
use baybrief_plugin_can_bus::measure::frame::{Fd, Frame, Identifier, length_code};

/// Identifier, remote, data, CRC, stuff bits, bits.
type Row = (&'static str, bool, &'static [u8], u32, usize, &'static str);

/// Start of frame to end of frame, acknowledged; 0 is dominant. The first is a frame measured on a bus (repository
/// dominic-meads/CAN_2.0, commit ae3161e, README: identifier 0x0C1, CRC 0x5B40). The others were made with canframe.py
/// and canfdframe.py of kentindell/canhack (commit e0c3a3d, MIT) and by long division.
const CLASSIC: &[Row] = &[
    (
        "0C1",
        false,
        &[0x40, 0x01, 0x08, 0x75, 0, 0, 0, 0],
        0x5B40,
        10,
        "0000110000011000100001000001000001000100001000011101010000010000010000010000010000010000010010110110100000101011111111",
    ),
    (
        "123",
        false,
        &[0xDE, 0xAD, 0xBE, 0xEF],
        0x4E6B,
        2,
        "000100100011000010011011110101011011011111001110111110001110011010111011111111",
    ),
    (
        "123",
        true,
        &[],
        0x1B9D,
        1,
        "000100100011100000100011011100111011011111111",
    ),
    (
        "101",
        false,
        &[0x04],
        0x2B9F,
        4,
        "00010000010010000010100000110001010111001111101011111111",
    ),
    (
        "2AA",
        false,
        &[],
        0x4063,
        2,
        "0010101010100000100010000010011000111011111111",
    ),
    (
        "000",
        false,
        &[],
        0x0000,
        6,
        "00000100000100000100000100000100000100001011111111",
    ),
    (
        "078",
        false,
        &[0x3C; 8],
        0x1921,
        20,
        "00000111110000010010000011111000001111100000111110000011111000001111100000111110000011111000001111100000111001001000011011111111",
    ),
    (
        "18DAF110",
        false,
        &[0x02, 0x11, 0x22, 0x33, 0x44, 0x55, 0x66, 0x77],
        0x00AE,
        3,
        "01100011011011101111000100010000010010000010000100001000100100010001100110100010001010101011001100111011100000100101011101011111111",
    ),
];

const FD: &str =
    "00010010001100101001001101111010101101101111100111011110001101111000110101100111001011111111";

fn frame(id: &str, remote: bool, data: &[u8], fd: Option<Fd>) -> Frame {
    Frame {
        id: Identifier::parse(id).unwrap(),
        remote,
        dlc: length_code(data.len(), fd.is_some()).unwrap(),
        data: data.to_vec(),
        fd,
    }
}

/// A logic signal of bits with their lengths, idle before and after.
fn logic(bits: impl Iterator<Item = (bool, f64)>) -> Logic {
    let mut logic = Logic::default();
    let (mut at, mut last) = (600.0, true);
    for (bit, length) in bits {
        if bit != last {
            logic.edges.push(Edge { at, dominant: !bit });
        }
        last = bit;
        at += length;
    }
    logic.samples = at as usize + 600;
    logic
}

fn recessive(string: &str) -> Vec<bool> {
    string.chars().map(|c| c == '1').collect()
}

#[test]
fn classic_frames_are_read_bit_by_bit() {
    for &(id, remote, data, crc, stuff_bits, string) in CLASSIC {
        let bits = recessive(string);
        for length in [3.0, 4.0, 8.0, 20.4] {
            let logic = logic(bits.iter().map(|&b| (b, length)));
            let timing = Timing {
                nominal: length,
                data_phase: None,
            };
            let traffic = decode(&logic, timing);
            assert_eq!(traffic.errors, [], "{id}");
            assert_eq!(traffic.frames.len(), 1, "{id}");
            let received = &traffic.frames[0];
            assert_eq!(received.frame, frame(id, remote, data, None));
            assert_eq!(
                (received.crc, received.stuff_bits),
                (crc, stuff_bits),
                "{id}"
            );
            assert!(received.acknowledged);
        }
    }
}

#[test]
fn classic_frames_are_as_long_as_sent() {
    for &(id, remote, data, _, _, string) in CLASSIC {
        let frame = frame(id, remote, data, None);
        let bits = recessive(string);
        assert_eq!(frame.bit_count().nominal, bits.len(), "{id}");
        assert_eq!(frame.bits(), bits[..bits.len() - 10], "{id}");
    }
}

#[test]
fn a_flipped_bit_is_no_frame() {
    for &(id, .., string) in CLASSIC {
        let bits = recessive(string);
        for flipped in 1..bits.len() - 8 {
            let sent = bits
                .iter()
                .enumerate()
                .map(|(k, &b)| (b != (k == flipped), 8.0));
            let timing = Timing {
                nominal: 8.0,
                data_phase: None,
            };
            let traffic = decode(&logic(sent), timing);
            let right = traffic.frames.iter().filter(|f| f.acknowledged).count();
            // The delimiters and the slot are not covered by the check.
            let covered = flipped < bits.len() - 10;
            assert!(!covered || right == 0, "{id} bit {flipped}: {traffic:?}");
            assert!(
                !traffic.errors.is_empty() || !traffic.unread_fd.is_empty(),
                "{id} bit {flipped}"
            );
        }
    }
}

#[test]
fn a_can_fd_frame_is_read_in_both_phases() {
    let fd = Some(Fd {
        switches_rate: true,
        error_passive: false,
    });
    let sent = frame("123", false, &[0xDE, 0xAD, 0xBE, 0xEF], fd);
    let bits = recessive(FD);
    assert_eq!(sent.bits(), bits[..bits.len() - 10]);
    let count = sent.bit_count();
    let head = bits.len() - 10 - count.data_phase;
    for (nominal, data) in [(40.0, 10.0), (20.0, 8.0), (25.0, 6.25)] {
        // BRS and CRC delimiter are half one, half the other: they switch at 80 %.
        let length = |k: usize| match k {
            k if k + 1 < head => nominal,
            k if k + 1 == head => 0.8 * nominal + 0.2 * data,
            k if k < bits.len() - 10 => data,
            k if k == bits.len() - 10 => 0.8 * data + 0.2 * nominal,
            _ => nominal,
        };
        let logic = logic(bits.iter().enumerate().map(|(k, &b)| (b, length(k))));
        let timing = Timing {
            nominal,
            data_phase: Some(data),
        };
        let traffic = decode(&logic, timing);
        assert_eq!(traffic.errors, []);
        assert_eq!(traffic.frames[0].frame, sent);
        assert_eq!(traffic.frames[0].crc, 0x1E76E);
        let unknown = decode(
            &logic,
            Timing {
                nominal,
                data_phase: None,
            },
        );
        assert_eq!((unknown.frames.len(), unknown.unread_fd.len()), (0, 1));
    }
}

/// Worst-case lengths with three bits of intermission: 55 + 10 n for 11 bits, 80 + 10 n for 29 (Davis, Burns, Bril and
/// Lukkien 2007, "Controller Area Network schedulability analysis", from memory).
#[test]
fn no_frame_is_longer_than_the_worst_case() {
    let mut seed = 1u32;
    for _ in 0..20_000 {
        let mut byte = || {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            // Runs of equal bits are what stuffing makes long.
            [0x00, 0xFF, 0x0F, 0xF0, 0x3C, 0x83, 0x1F, (seed >> 16) as u8][(seed >> 29) as usize]
        };
        let n = usize::from(byte()) % 9;
        let data: Vec<u8> = (0..n).map(|_| byte()).collect();
        let number = u32::from_be_bytes([byte() & 0x1F, byte(), byte(), byte()]);
        for (id, most) in [
            (
                Identifier {
                    number,
                    extended: true,
                },
                80 + 10 * n,
            ),
            (
                Identifier {
                    number: number & 0x7FF,
                    extended: false,
                },
                55 + 10 * n,
            ),
        ] {
            let frame = Frame {
                id,
                remote: false,
                dlc: n as u8,
                data: data.clone(),
                fd: None,
            };
            assert!(frame.bit_count().nominal + 3 <= most, "{frame:?}");
        }
    }
}

/// 60 random classic frames with long runs of equal bits, made with canframe.py of kentindell/canhack (commit 0ab9d9d, MIT),
/// and 30 CAN FD frames by a bit-serial division in Python after ISO 11898-1:2015. A line holds identifier, kind (D data, R
/// remote, F CAN FD) with length code, data, CRC, bits, and for CAN FD the bits BRS and ESI.
const FRAMES: &str = include_str!("data/frames.txt");

#[test]
fn random_frames_are_built_and_read_as_elsewhere() {
    for line in FRAMES.lines() {
        let part: Vec<&str> = line.split(' ').collect();
        let hex = part[2].trim_matches('-');
        let data: Vec<u8> = (0..hex.len() / 2)
            .map(|k| u8::from_str_radix(&hex[2 * k..2 * k + 2], 16).unwrap())
            .collect();
        let fd = part.get(5).map(|flags| Fd {
            switches_rate: flags.starts_with('1'),
            error_passive: flags.ends_with('1'),
        });
        let sent = Frame {
            id: Identifier::parse(part[0]).unwrap(),
            remote: part[1].starts_with('R'),
            dlc: part[1][1..].parse().unwrap(),
            data,
            fd,
        };
        let bits = recessive(part[4]);
        assert_eq!(sent.bits(), bits[..bits.len() - 10], "{line}");
        assert_eq!(
            sent.bit_count().nominal + sent.bit_count().data_phase,
            bits.len()
        );
        // All bits of one length: the rates of both phases may be equal.
        let logic = logic(bits.iter().map(|&b| (b, 10.0)));
        let timing = Timing {
            nominal: 10.0,
            data_phase: Some(10.0),
        };
        let traffic = decode(&logic, timing);
        assert_eq!(traffic.errors, [], "{line}");
        assert_eq!(traffic.frames[0].frame, sent, "{line}");
        assert_eq!(
            traffic.frames[0].crc,
            u32::from_str_radix(part[3], 16).unwrap()
        );
    }
}
