//! Recordings as WAVE files (RIFF, little end first): 16 and 24-bit integers or 32-bit floats.

use crate::recorder::Recording;

/// Storage format of the samples.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WavSamples {
    /// 16-bit integers, full scale 32768.
    Int16,
    /// 24-bit integers, full scale 8388608.
    Int24,
    /// 32-bit floats, full scale 1.
    Float32,
}

/// Format tags of the WAVE format chunk.
const PCM: u16 = 1;
const IEEE_FLOAT: u16 = 3;

/// The file's bytes. `full_scale` gives each channel's value at full scale, in its unit; what lies beyond is
/// clipped.
pub fn write_wav(r: &Recording, samples: WavSamples, full_scale: &[f64]) -> Vec<u8> {
    let (tag, bytes) = match samples {
        WavSamples::Int16 => (PCM, 2usize),
        WavSamples::Int24 => (PCM, 3),
        WavSamples::Float32 => (IEEE_FLOAT, 4),
    };
    let rate = r.rate_hz.round() as u32;
    let channels = r.channels.len();
    let block = channels * bytes;
    let mut data = Vec::with_capacity(r.len() * block);
    for i in 0..r.len() {
        for (c, scale) in r.channels.iter().zip(full_scale) {
            let x = (c.values[i] / scale).clamp(-1.0, 1.0);
            let whole = |full: f64| (x * full).round().min(full - 1.0) as i32;
            match samples {
                WavSamples::Int16 => data.extend((whole(32768.0) as i16).to_le_bytes()),
                WavSamples::Int24 => data.extend(&whole(8_388_608.0).to_le_bytes()[..3]),
                WavSamples::Float32 => data.extend((x as f32).to_le_bytes()),
            }
        }
    }
    let mut format = Vec::new();
    format.extend(tag.to_le_bytes());
    format.extend((channels as u16).to_le_bytes());
    format.extend(rate.to_le_bytes());
    format.extend((rate * block as u32).to_le_bytes());
    format.extend((block as u16).to_le_bytes());
    format.extend((bytes as u16 * 8).to_le_bytes());
    let mut body = b"WAVE".to_vec();
    if tag == IEEE_FLOAT {
        format.extend(0u16.to_le_bytes());
    }
    chunk(&mut body, b"fmt ", &format);
    if tag == IEEE_FLOAT {
        chunk(&mut body, b"fact", &(r.len() as u32).to_le_bytes());
    }
    chunk(&mut body, b"data", &data);
    let mut file = Vec::new();
    chunk(&mut file, b"RIFF", &body);
    file
}

fn chunk(to: &mut Vec<u8>, name: &[u8; 4], content: &[u8]) {
    to.extend(name);
    to.extend((content.len() as u32).to_le_bytes());
    to.extend(content);
    if content.len() % 2 == 1 {
        to.push(0);
    }
}
