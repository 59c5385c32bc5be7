//! WAV in every sample format. Layout as in Microsoft's and IBM's RIFF WAVE description (from memory).

use baybrief_formats::{ErrorKind, READERS, Reading, read_bytes};
use model::{Capture, Samples};

/// A WAV file with a format chunk, an odd chunk in between, and data.
fn wav(tag: u16, channels: u16, bits: u16, data: &[u8], declared: Option<u32>) -> Vec<u8> {
    let mut format = Vec::new();
    let align = channels.wrapping_mul(bits.div_ceil(8));
    let written = if tag & 0xFF00 == 0xFE00 { 0xFFFE } else { tag };
    format.extend(u16::to_le_bytes(written));
    format.extend(channels.to_le_bytes());
    format.extend(8000u32.to_le_bytes());
    format.extend((8000u32.wrapping_mul(u32::from(align))).to_le_bytes());
    format.extend(align.to_le_bytes());
    format.extend(bits.to_le_bytes());
    if written == 0xFFFE {
        format.extend(22u16.to_le_bytes());
        format.extend(bits.to_le_bytes());
        format.extend(0u32.to_le_bytes());
        format.extend((tag & 0xFF).to_le_bytes());
        format.extend([0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xAA, 0, 0x38, 0x9B, 0x71]);
    }
    let mut out = b"RIFF\xFF\xFF\xFF\xFFWAVEfmt ".to_vec();
    out.extend((format.len() as u32).to_le_bytes());
    out.extend(format);
    out.extend(b"note\x03\0\0\0abc\0data");
    out.extend(declared.unwrap_or(data.len() as u32).to_le_bytes());
    out.extend(data);
    out
}

fn read(bytes: &[u8]) -> Capture {
    match read_bytes(bytes, "a.wav", &READERS) {
        Ok(Reading::Capture(c)) => c,
        other => panic!("{other:?}"),
    }
}

fn values(c: &Capture, channel: usize) -> Vec<f64> {
    (0..c.time.len())
        .map(|i| c.channels[channel].value(i))
        .collect()
}

#[test]
fn sixteen_bits_stay_integers_with_a_scale() {
    let data: Vec<u8> = [0i16, 16384, -32768, 32767]
        .iter()
        .flat_map(|v| v.to_le_bytes())
        .collect();
    let c = read(&wav(1, 2, 16, &data, None));
    assert!(matches!(c.channels[0].samples, Samples::I16(_)));
    assert_eq!(c.channels[0].scale, 1.0 / 32768.0);
    assert_eq!(
        (c.channels[0].name.as_str(), c.channels[1].name.as_str()),
        ("1", "2")
    );
    assert_eq!(values(&c, 0), [0.0, -1.0]);
    assert_eq!(values(&c, 1), [0.5, 32767.0 / 32768.0]);
    assert_eq!(c.time.rate_hz(), Some(8000.0));
    assert!(c.problems.is_empty());
}

#[test]
fn every_other_sample_format() {
    assert_eq!(
        values(&read(&wav(1, 1, 8, &[0, 128, 192], None)), 0),
        [-1.0, 0.0, 0.5]
    );
    assert_eq!(
        values(&read(&wav(1, 1, 24, &[0, 0, 0x40, 0, 0, 0x80], None)), 0),
        [0.5, -1.0]
    );
    let i32s: Vec<u8> = [1i32 << 30, i32::MIN]
        .iter()
        .flat_map(|v| v.to_le_bytes())
        .collect();
    assert_eq!(values(&read(&wav(1, 1, 32, &i32s, None)), 0), [0.5, -1.0]);
    let f32s: Vec<u8> = [0.25f32, -1.5]
        .iter()
        .flat_map(|v| v.to_le_bytes())
        .collect();
    assert_eq!(values(&read(&wav(3, 1, 32, &f32s, None)), 0), [0.25, -1.5]);
    let f64s: Vec<u8> = [0.25f64, -1.5]
        .iter()
        .flat_map(|v| v.to_le_bytes())
        .collect();
    assert_eq!(values(&read(&wav(3, 1, 64, &f64s, None)), 0), [0.25, -1.5]);
    // WAVE_FORMAT_EXTENSIBLE around PCM and float.
    assert_eq!(
        values(&read(&wav(0xFE01, 1, 24, &[0, 0, 0x40], None)), 0),
        [0.5]
    );
    assert_eq!(
        values(&read(&wav(0xFE03, 1, 32, &f32s, None)), 0),
        [0.25, -1.5]
    );
}

#[test]
fn a_cut_file_gives_its_whole_frames_and_says_so() {
    let c = read(&wav(1, 2, 16, &[1, 0, 2, 0, 3, 0], Some(400)));
    assert_eq!(c.time.len(), 1);
    assert!(
        c.problems[0]
            .message
            .contains("promises 100 samples, the file holds 1"),
        "{:?}",
        c.problems
    );
    // A length that was never filled in: data to the end.
    for unknown in [0, 0xFFFF_FFFF] {
        let c = read(&wav(1, 1, 16, &[1, 0, 2, 0], Some(unknown)));
        assert_eq!(c.time.len(), 2);
        assert!(c.problems.is_empty());
    }
}

#[test]
fn headers_that_lie() {
    let kind = |b: &[u8]| read_bytes(b, "a.wav", &READERS).unwrap_err().kind;
    assert_eq!(kind(&wav(1, 0, 16, &[0; 8], None)), ErrorKind::Damaged);
    assert_eq!(kind(&wav(1, 65535, 16, &[0; 8], None)), ErrorKind::TooLarge);
    assert_eq!(kind(&wav(2, 1, 4, &[0; 8], None)), ErrorKind::Unsupported);
    assert_eq!(kind(b"RIFF\x04\0\0\0WAVE"), ErrorKind::Truncated);
    assert_eq!(
        kind(b"RIFF\x04\0\0\0WAVEdata\x04\0\0\0abcd"),
        ErrorKind::Damaged
    );
}

/// RF64 as EBU Tech 3306 lays it out (from memory): lengths of more than four bytes stand in a chunk of their own.
fn rf64_header(frames: u64, channels: u16) -> Vec<u8> {
    let bytes = frames * u64::from(channels) * 2;
    let mut out = b"RF64\xFF\xFF\xFF\xFFWAVEds64\x1C\0\0\0".to_vec();
    out.extend((bytes + 72).to_le_bytes());
    out.extend(bytes.to_le_bytes());
    out.extend(frames.to_le_bytes());
    out.extend(0u32.to_le_bytes());
    out.extend(b"fmt \x10\0\0\0\x01\0");
    out.extend(channels.to_le_bytes());
    out.extend(48_000u32.to_le_bytes());
    out.extend((48_000 * u32::from(channels) * 2).to_le_bytes());
    out.extend((channels * 2).to_le_bytes());
    out.extend(b"\x10\0data\xFF\xFF\xFF\xFF");
    out
}

#[test]
fn rf64_gives_its_length_and_leaves_what_follows_alone() {
    let mut bytes = rf64_header(2, 1);
    bytes.extend([1, 0, 2, 0]);
    bytes.extend(b"note\x04\0\0\0abcd");
    let c = read(&bytes);
    assert_eq!(values(&c, 0), [1.0 / 32768.0, 2.0 / 32768.0]);
    assert!(c.problems.is_empty(), "{:?}", c.problems);
}
