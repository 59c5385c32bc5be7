//! Lines, and the cells of one line.

/// One line of the head.
pub(super) struct Line<'a> {
    pub text: &'a str,
    /// Offset of its beginning, bytes of decoded text.
    pub start: usize,
}

/// Splits at CR, LF and CRLF.
pub(super) fn lines(text: &str) -> Vec<Line<'_>> {
    let bytes = text.as_bytes();
    let (mut out, mut start, mut i) = (Vec::new(), 0, 0);
    while i < bytes.len() {
        let step = match bytes[i] {
            b'\r' if bytes.get(i + 1) == Some(&b'\n') => 2,
            b'\r' | b'\n' => 1,
            _ => {
                i += 1;
                continue;
            }
        };
        out.push(Line {
            text: &text[start..i],
            start,
        });
        i += step;
        start = i;
    }
    if start < text.len() {
        out.push(Line {
            text: &text[start..],
            start,
        });
    }
    out
}

/// The cells of one line.
pub(super) fn cells(line: &str, delimiter: u8) -> Vec<String> {
    if delimiter == b' ' {
        // Names may have single spaces inside; columns of names are parted by wider gaps.
        let wide: Vec<&str> = line
            .split("  ")
            .map(str::trim)
            .filter(|c| !c.is_empty())
            .collect();
        let speaks = line.contains(char::is_alphabetic) && wide.len() > 1;
        let cells = if speaks {
            wide
        } else {
            line.split_whitespace().collect()
        };
        return cells.into_iter().map(String::from).collect();
    }
    if !line.contains('"') {
        return line
            .split(char::from(delimiter))
            .map(|c| c.trim().to_string())
            .collect();
    }
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter)
        .has_headers(false)
        .flexible(true)
        .buffer_capacity(line.len().clamp(1, 1 << 16))
        .from_reader(line.as_bytes());
    let mut record = csv::ByteRecord::new();
    match reader.read_byte_record(&mut record) {
        Ok(true) => record
            .iter()
            .map(|c| String::from_utf8_lossy(c).trim().to_string())
            .collect(),
        _ => Vec::new(),
    }
}
