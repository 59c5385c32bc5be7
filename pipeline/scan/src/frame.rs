//! A bus frame in a line of text.

use formats::clock;

/// Longest data of a frame, bytes (CAN FD).
const LONGEST_DATA: usize = 64;

/// One frame.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Frame<'a> {
    /// When it was seen, s, where the log says so.
    pub time_s: Option<f64>,
    pub interface: &'a str,
    pub id: u32,
    /// True for an identifier of 29 bits.
    pub extended: bool,
    pub data: Vec<u8>,
    /// True where the line is marked as a frame by its own signs, and not only by its identifier.
    pub marked: bool,
}

/// Reads a line of a log: `(1700000000.1) can0 7E8#0443...`, `can0  7E8   [8]  04 43 ...`, or an identifier with which
/// vehicles answer (ISO 15765-4) before its bytes, `7E8: 04 43 01 ...`.
pub(crate) fn frame(line: &str) -> Option<Frame<'_>> {
    let line = line.trim();
    let (time_s, rest) = stamp(line);
    let words: Vec<&str> = rest.split_whitespace().collect();
    let made = |interface, (id, extended): (u32, bool), data: Vec<u8>, marked| {
        (data.len() <= LONGEST_DATA).then_some(Frame {
            time_s,
            interface,
            id,
            extended,
            data,
            marked,
        })
    };
    if let Some((at, (name, data))) = words
        .iter()
        .enumerate()
        .find_map(|(i, w)| Some((i, w.split_once('#')?)))
    {
        let interface = at.checked_sub(1).map_or("", |i| words[i]);
        // A remote frame asks for data and has none; CAN FD writes two signs and a digit of flags.
        let data = match data {
            remote if remote.starts_with('R') => Vec::new(),
            fd if fd.starts_with('#') => hex(fd.get(2..)?)?,
            "" => Vec::new(),
            plain => hex(&plain.replace('.', ""))?,
        };
        return made(interface, identifier(name)?, data, true);
    }
    if let Some(at) = words
        .iter()
        .position(|w| w.starts_with('[') && w.ends_with(']'))
    {
        let count: usize = words[at].trim_matches(['[', ']']).parse().ok()?;
        let name = words.get(at.checked_sub(1)?)?;
        let bytes = words.get(at + 1..at + 1 + count)?;
        let interface = words.first().filter(|w| *w != name).copied().unwrap_or("");
        let data = if count == 0 {
            Vec::new()
        } else {
            hex(&bytes.concat())?
        };
        return made(interface, identifier(name)?, data, true);
    }
    let (name, bytes) = words.split_first()?;
    let name = name.trim_end_matches(':');
    let whole = (1..=8).contains(&bytes.len()) && bytes.iter().all(|b| b.len() == 2);
    let id = identifier(name).filter(|(id, extended)| whole && is_diagnostic(*id, *extended))?;
    made("", id, hex(&bytes.concat())?, false)
}

/// The time in round brackets before a frame, s, and what follows it.
fn stamp(line: &str) -> (Option<f64>, &str) {
    let Some((inside, rest)) = line.strip_prefix('(').and_then(|l| l.split_once(')')) else {
        return (None, line);
    };
    let inside = inside.trim();
    let number = inside.parse::<f64>().ok().filter(|t| t.is_finite());
    let clock = || {
        let stamp = clock::parse(inside)?;
        let days = stamp
            .day
            .map_or(0, |d| chrono::Datelike::num_days_from_ce(&d));
        Some(f64::from(days) * 86_400.0 + stamp.seconds)
    };
    match number.or_else(clock) {
        Some(time) => (Some(time), rest),
        None => (None, line),
    }
}

/// An identifier of 3 or 8 hexadecimal digits, and whether it has 29 bits.
pub(crate) fn identifier(word: &str) -> Option<(u32, bool)> {
    if !matches!(word.len(), 3 | 8) || !word.bytes().all(|b| b.is_ascii_hexdigit()) {
        return None;
    }
    let id = u32::from_str_radix(word, 16).ok()?;
    let extended = word.len() == 8;
    (id <= if extended { 0x1FFF_FFFF } else { 0x7FF }).then_some((id, extended))
}

/// True for the identifiers that ISO 15765-4 gives to diagnostics.
fn is_diagnostic(id: u32, extended: bool) -> bool {
    match extended {
        false => id == 0x7DF || (0x7E0..=0x7EF).contains(&id),
        true => {
            matches!(id >> 8, 0x0018_DAF1 | 0x0018_DB33) || id >> 16 == 0x18DA && id & 0xFF == 0xF1
        }
    }
}

/// Bytes of hexadecimal digits that are written together.
pub(crate) fn hex(text: &str) -> Option<Vec<u8>> {
    if text.is_empty() || text.len() % 2 == 1 || text.len() > 8192 {
        return None;
    }
    if !text.bytes().all(|b| b.is_ascii_hexdigit()) {
        return None;
    }
    (0..text.len() / 2)
        .map(|i| u8::from_str_radix(text.get(2 * i..2 * i + 2)?, 16).ok())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_of_a_frame() {
        for line in [
            "(1436509052.25) can0 7E8#04410C1AF8000000",
            "(1436509052.25)  can0  7E8   [8]  04 41 0C 1A F8 00 00 00",
            "(1436509052.25)  can0  7E8   [8]  04 41 0C 1A F8 00 00 00   '.A......'",
            "(1436509052.25) can0 7E8##104410C1AF8000000",
            "(1436509052.25)  can0  RX - -  7E8  [08]  04 41 0C 1A F8 00 00 00",
        ] {
            let f = frame(line).unwrap();
            assert_eq!(
                (f.id, f.extended, f.time_s, &f.data[..5]),
                (
                    0x7E8,
                    false,
                    Some(1_436_509_052.25),
                    &[4, 0x41, 0xC, 0x1A, 0xF8][..]
                ),
                "{line}"
            );
            assert_eq!(f.interface, "can0", "{line}");
        }
        assert_eq!(frame("7E9: 03 41 0D 32").unwrap().id, 0x7E9);
        let extended = frame("(1.5) can1 140667CE#092EF734").unwrap();
        assert!(extended.extended && extended.id == 0x1406_67CE && extended.interface == "can1");
        assert_eq!(frame("can0 123#R").map(|f| f.data), Some(vec![]));
        assert_eq!(
            frame("can0 123#11.22.33").map(|f| f.data),
            Some(vec![0x11, 0x22, 0x33])
        );
        let clock = frame("(2026-03-01 10:00:01.5) can0 123#00")
            .unwrap()
            .time_s
            .unwrap();
        let later = frame("(2026-03-01 10:00:02.0) can0 123#00")
            .unwrap()
            .time_s
            .unwrap();
        assert!((later - clock - 0.5).abs() < 1e-6);
        for line in [
            "123 41 0D 32",
            "can0 7E8#4",
            "[8]",
            "#",
            "(1) can0 7E8 [9] 01 02",
            "P0902 13",
            "can0 FFF#00",
            "can0 FFFFFFFF#00",
        ] {
            assert_eq!(frame(line), None, "{line}");
        }
    }
}
