//! Bus logs: ordinary traffic of a CAN bus, and questions with their answers among it.

use crate::noise::Noise;

/// One frame.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Frame {
    /// Time stamp, microseconds.
    pub at_us: u64,
    /// 11-bit identifier.
    pub id: u16,
    /// Up to eight bytes.
    pub data: Vec<u8>,
}

/// A trouble code as a control unit's answer carries it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DiagnosticCode {
    /// The code's two bytes (SAE J2012).
    pub code: u16,
    /// Failure type byte.
    pub failure_type: u8,
    /// Status byte (ISO 14229-1, annex D).
    pub status: u8,
}

/// Ordinary traffic over `duration_s`: periodic frames with counters, slow signals and constants. Some payloads happen to
/// look like the answer of a control unit that was asked for its codes; nobody asks.
pub fn traffic(duration_s: f64, nodes: usize, noise: &mut Noise) -> Vec<Frame> {
    const PERIODS_MS: [u64; 6] = [10, 10, 20, 50, 100, 200];
    // First bytes of answers of ISO 14229-1 (59 02, 58) and ISO 15031-5 (43, 47, 4A) behind a length, which ordinary
    // signals take on now and then.
    const ALIKE: [[u8; 3]; 6] = [
        [0x06, 0x59, 0x02],
        [0x10, 0x0B, 0x59],
        [0x04, 0x43, 0x01],
        [0x06, 0x58, 0x01],
        [0x04, 0x47, 0x01],
        [0x04, 0x4A, 0x01],
    ];
    let mut frames = Vec::new();
    for _ in 0..nodes {
        // Addresses of diagnostics (7DF, 7E0 to 7EF) are left out, their neighbours are not.
        let id = noise.whole(0x080, 0x7D0) as u16;
        let period = *noise.pick(&PERIODS_MS) * 1000;
        let length = noise.whole(3, 8) as usize;
        let alike = noise.chance(0.25).then(|| *noise.pick(&ALIKE));
        let fixed: Vec<u8> = (0..length).map(|_| noise.whole(0, 255) as u8).collect();
        let (mut at, mut counter, mut slow) = (noise.whole(0, period), 0u8, fixed[length - 1]);
        while (at as f64) < duration_s * 1e6 {
            let mut data = fixed.clone();
            slow = slow.wrapping_add(noise.whole(0, 2) as u8);
            counter = (counter + 1) % 16;
            data[length - 1] = slow;
            data[length - 2] = counter;
            if let Some(first) = alike.filter(|_| counter % 5 == 0 && length >= 5) {
                data[..3].copy_from_slice(&first);
            }
            frames.push(Frame {
                at_us: at,
                id,
                data,
            });
            at += period + noise.whole(0, 400);
        }
    }
    frames.sort_by_key(|f| (f.at_us, f.id));
    frames
}

/// The question for the stored codes and the answer of a control unit (ISO 14229-1 service 19, subfunction 02, in the
/// frames of ISO 15765-2: single frame, or first frame, flow control and consecutive frames).
pub fn code_query(at_us: u64, ask: u16, answer: u16, codes: &[DiagnosticCode]) -> Vec<Frame> {
    let frame = |after: u64, id, mut data: Vec<u8>| {
        data.resize(8, 0xAA);
        Frame {
            at_us: at_us + after,
            id,
            data,
        }
    };
    let mut message = vec![0x59, 0x02, 0xFF];
    for c in codes {
        let [high, low] = c.code.to_be_bytes();
        message.extend([high, low, c.failure_type, c.status]);
    }
    let mut frames = vec![frame(0, ask, vec![0x03, 0x19, 0x02, 0xFF])];
    let length = message.len();
    if length <= 7 {
        let single = [vec![length as u8], message].concat();
        frames.push(frame(4_000, answer, single));
        return frames;
    }
    let first = [
        vec![0x10 | (length >> 8) as u8, length as u8],
        message[..6].to_vec(),
    ];
    frames.push(frame(4_000, answer, first.concat()));
    frames.push(frame(5_000, ask, vec![0x30, 0x00, 0x00]));
    for (i, part) in message[6..].chunks(7).enumerate() {
        let consecutive = [vec![0x20 | ((i as u8 + 1) & 0x0F)], part.to_vec()];
        frames.push(frame(6_000 + 500 * i as u64, answer, consecutive.concat()));
    }
    frames
}

/// The text of a log: time stamp in brackets, interface, identifier and data in hexadecimal.
pub fn write(frames: &[Frame], epoch_s: u64) -> String {
    let mut sorted: Vec<&Frame> = frames.iter().collect();
    sorted.sort_by_key(|f| f.at_us);
    let line = |f: &&Frame| {
        let data: String = f.data.iter().map(|b| format!("{b:02X}")).collect();
        let (s, us) = (f.at_us / 1_000_000, f.at_us % 1_000_000);
        format!("({}.{us:06}) can0 {:03X}#{data}\n", epoch_s + s, f.id)
    };
    sorted.iter().map(line).collect()
}
