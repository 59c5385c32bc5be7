//! Text dialects of recorders.

use crate::draft::FileKind;
use crate::params::Params;
use simulator::csv::{CsvDialect, Encoding, Header, TimeStyle, TimeUnit};
use simulator::recorder::Recording;

/// A way of writing delimited text. For [`FileKind::Any`] nothing of the recording is lost in it.
pub fn dialect(p: &mut Params, r: &Recording, kind: &FileKind) -> CsvDialect {
    let delimiter = p.pick("delimiter", &[',', ';', ';', '\t', '|']);
    let headers = [
        Header::Names,
        Header::NamesAndUnits,
        Header::NamesAndUnits,
        Header::NamesSlashUnits,
        Header::NamesUnderscoreUnits,
        Header::UnitLine,
        Header::UnitsAbove,
        Header::Preface,
        Header::HashPreface,
    ];
    let header = p.pick("header", &headers);
    // Without units a header means seconds, volts and amperes.
    let plain = r.channels.iter().all(|c| c.unit == "V");
    let header = match (kind, header) {
        (FileKind::Unitless, _) => Header::Names,
        (_, Header::Names) if !plain => Header::UnitLine,
        (_, header) => header,
    };
    let tells_rate = matches!(header, Header::Preface | Header::HashPreface);
    let time = match p.whole("time column", 0, 5) {
        0 if tells_rate => None,
        1 if header != Header::Names => Some(TimeUnit::Milliseconds),
        2 if header != Header::Names => Some(TimeUnit::Microseconds),
        _ => Some(TimeUnit::Seconds),
    };
    let (time, time_style, tells_rate) = match kind {
        FileKind::Time(style, is) => (Some(is.unit), *style, false),
        _ => (time, TimeStyle::Labelled, true),
    };
    CsvDialect {
        delimiter,
        decimal_comma: delimiter != ',' && p.chance("decimal comma", 0.45),
        encoding: p.pick(
            "encoding",
            &[
                Encoding::Utf8,
                Encoding::Utf8,
                Encoding::Utf8Mark,
                Encoding::Utf16,
                Encoding::Latin1,
            ],
        ),
        crlf: p.chance("CR LF", 0.5),
        // A preface that tells the sample rate would answer the question for the unit of time.
        header: match header {
            Header::Preface | Header::HashPreface if !tells_rate => Header::NamesAndUnits,
            header => header,
        },
        time,
        time_style,
        digits: p.whole("digits", 4, 6) as usize,
        quoted: p.chance("quoted", 0.2),
        scientific: time_style == TimeStyle::Labelled && p.chance("scientific", 0.12),
        gap: p.pick("gap", &["", "--", "NaN", "n.a."]),
        over_range: p.pick("over range", &["inf", "OL", "over"]),
        trailing: p.chance("trailing delimiter", 0.15),
        cut: p.chance("cut", 0.2),
    }
}

/// A few values go missing; clipped ones are marked where the dialect has a mark for it.
pub fn spoil(r: &mut Recording, dialect: &CsvDialect, p: &mut Params) {
    let holes = if p.chance("missing values", 0.25) {
        r.len() / 4000 + 1
    } else {
        0
    };
    let mut noise = p.noise("missing values");
    for _ in 0..holes {
        let i = noise.whole(0, r.len().saturating_sub(1) as u64) as usize;
        if let Some(v) = r.channels.last_mut().and_then(|c| c.values.get_mut(i)) {
            *v = f64::NAN;
        }
    }
    if dialect.over_range == "inf" {
        return;
    }
    let few = r.len() / 200;
    for c in r.channels.iter_mut().filter(|c| c.role.contains("current")) {
        let most = c.values.iter().fold(0.0_f64, |m, v| m.max(v.abs()));
        let at_most = c.values.iter().filter(|v| v.abs() == most).count();
        if at_most > few {
            c.values
                .iter_mut()
                .filter(|v| v.abs() == most)
                .for_each(|v| *v = v.signum() * f64::INFINITY);
        }
    }
}
