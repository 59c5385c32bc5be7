//! Files that are no recordings, told by their first bytes: photos, which are kept, and kinds that are refused by name.

use crate::{ErrorKind, FormatError, FormatReader, Probe, Reading, Source};

/// Recognises photos.
pub struct PhotoReader;

/// Name of a photo's format by its first bytes.
fn photo(head: &[u8]) -> Option<&'static str> {
    let at = |from: usize, to: usize| head.get(from..to);
    Some(match head {
        [0xFF, 0xD8, 0xFF, ..] => "JPEG",
        [0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1A, b'\n', ..] => "PNG",
        [b'G', b'I', b'F', b'8', b'7' | b'9', b'a', ..] => "GIF",
        [b'I', b'I', b'*', 0, ..] | [b'M', b'M', 0, b'*', ..] => "TIFF",
        [b'R', b'I', b'F', b'F', ..] if at(8, 12) == Some(b"WEBP") => "WebP",
        // Length and pixel offset of the header: "BM" alone begins many a text.
        [b'B', b'M', ..] if at(6, 10) == Some(&[0; 4]) => "BMP",
        _ if at(4, 8) == Some(b"ftyp") => match at(8, 12)? {
            b"heic" | b"heix" | b"heim" | b"mif1" | b"msf1" => "HEIC",
            b"avif" => "AVIF",
            _ => return None,
        },
        _ => return None,
    })
}

impl FormatReader for PhotoReader {
    fn name(&self) -> &'static str {
        "photo"
    }

    fn probe(&self, source: &Source) -> Probe {
        match photo(source.head()) {
            Some(name) => Probe::new(1.0, format!("the first bytes of a {name} image")),
            None => Probe::new(0.0, "no image"),
        }
    }

    fn read(&self, source: &Source) -> Result<Reading, FormatError> {
        match photo(source.head()) {
            Some(name) => Ok(Reading::Photo {
                read_as: format!("{name} photo"),
            }),
            None => Err(FormatError::new(
                ErrorKind::Unknown,
                source.name,
                None,
                "the content is no image",
                "save the photo as JPEG or PNG",
            )),
        }
    }
}

/// Kinds of files that are known and not read: first bytes, what they are, what to do instead.
const REFUSED: &[(&[u8], &str, &str)] = &[
    (
        b"%PDF-",
        "this is a PDF, whose text is not read",
        "export the readout from the scan tool as text",
    ),
    (
        b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1",
        "this is a document of an office program (doc, xls)",
        "save it as CSV or as plain text",
    ),
    (
        b"7z\xBC\xAF\x27\x1C",
        "this is a 7z archive",
        "unpack it and add the files that are inside",
    ),
    (
        b"Rar!",
        "this is a RAR archive",
        "unpack it and add the files that are inside",
    ),
    (
        b"\x1F\x8B",
        "this is a gzip archive",
        "unpack it and add the file that is inside",
    ),
    (
        b"{\\rtf",
        "this is a rich-text document",
        "save it as plain text",
    ),
    (b"\x7FELF", "this is a program", "add the recording itself"),
    (b"MZ\x90\0", "this is a program", "add the recording itself"),
    (
        b"SQLite format 3\0",
        "this is a database",
        "export the recording as CSV",
    ),
];

/// Error for a file whose first bytes are of a kind that is known and not read; `None` for any other.
pub(crate) fn refused(source: &Source) -> Option<FormatError> {
    let head = source.head();
    let unsupported = |what: &str, remedy: &str| {
        FormatError::new(ErrorKind::Unsupported, source.name, None, what, remedy)
    };
    if let Some((_, what, remedy)) = REFUSED.iter().find(|(magic, ..)| head.starts_with(magic)) {
        return Some(unsupported(what, remedy));
    }
    if head.get(4..8) == Some(b"ftyp") && photo(head).is_none() {
        return Some(unsupported(
            "this is a video",
            "add the recording itself, or a photo",
        ));
    }
    if !head.starts_with(b"PK\x03\x04") && !head.starts_with(b"PK\x05\x06") {
        return None;
    }
    // The names of the first entries tell what an archive is; the longest of them stand in its first kilobytes.
    let inside = |name: &[u8]| head.windows(name.len()).take(1 << 16).any(|w| w == name);
    let first_name = head
        .get(26..28)
        .map_or(0, |b| usize::from(u16::from_le_bytes([b[0], b[1]])));
    let first = head.get(30..30 + first_name).unwrap_or_default();
    if first.ends_with(b".npy") {
        return None;
    }
    Some(if inside(b"xl/") {
        unsupported(
            "this is a spreadsheet (xlsx)",
            "save the sheet as CSV: one row a sample, the names in the first row",
        )
    } else if inside(b"word/") {
        unsupported("this is a text document (docx)", "save it as plain text")
    } else if inside(b"opendocument") {
        unsupported(
            "this is a document of an office program (ods, odt)",
            "save it as CSV or as plain text",
        )
    } else {
        unsupported(
            "this is a zip archive",
            "unpack it and add the files that are inside",
        )
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::read_bytes;

    #[test]
    fn photos_are_photos() {
        for (bytes, name) in [
            (&b"\xFF\xD8\xFF\xE0\0\x10JFIF\0"[..], "JPEG photo"),
            (b"\x89PNG\r\n\x1A\n\0\0\0\x0DIHDR", "PNG photo"),
            (b"\0\0\0\x18ftypheic\0\0\0\0", "HEIC photo"),
            (b"RIFF\x10\0\0\0WEBPVP8 ", "WebP photo"),
            (b"BM\x36\0\0\0\0\0\0\0\x36\0\0\0", "BMP photo"),
        ] {
            let reading = read_bytes(bytes, "a.csv", &crate::READERS).unwrap();
            assert_eq!((reading.kind(), reading.read_as()), ("photo", name));
        }
    }

    #[test]
    fn kinds_that_are_not_read_are_named() {
        let zip = |name: &[u8]| {
            let mut bytes = b"PK\x03\x04\x14\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0\0".to_vec();
            bytes.extend((name.len() as u16).to_le_bytes());
            bytes.extend([0, 0]);
            bytes.extend(name);
            bytes
        };
        for (bytes, says) in [
            (b"%PDF-1.7\nP0902 confirmed\n".to_vec(), "a PDF"),
            (zip(b"xl/workbook.xml"), "spreadsheet (xlsx)"),
            (zip(b"a.csv"), "zip archive"),
            (b"\x1F\x8B\x08\0".to_vec(), "gzip"),
            (b"\0\0\0\x18ftypisom".to_vec(), "video"),
        ] {
            let e = read_bytes(&bytes, "a", &crate::READERS).unwrap_err();
            assert_eq!(e.kind, ErrorKind::Unsupported);
            assert!(e.to_string().contains(says), "{e}");
        }
    }
}
