//! How a recorder writes its text, as chance has it.

use simulator::csv::{CsvDialect, Encoding, Header, TimeUnit};
use simulator::noise::Noise;
use simulator::recorder::Recording;

/// A way of writing delimited text in which nothing of the recording is lost.
pub fn dialect(dice: &mut Noise, r: &Recording) -> CsvDialect {
    let delimiter = *dice.pick(&[',', ';', ';', '\t', '|']);
    let header = *dice.pick(&[
        Header::Names,
        Header::NamesAndUnits,
        Header::NamesAndUnits,
        Header::NamesSlashUnits,
        Header::UnitLine,
        Header::Preface,
        Header::HashPreface,
    ]);
    // Without units a header means seconds, volts and amperes.
    let plain = r.channels.iter().all(|c| c.unit == "V");
    let header = if header == Header::Names && !plain {
        Header::UnitLine
    } else {
        header
    };
    let tells_rate = matches!(header, Header::Preface | Header::HashPreface);
    let time = match dice.whole(0, 5) {
        0 if tells_rate => None,
        1 if header != Header::Names => Some(TimeUnit::Milliseconds),
        2 if header != Header::Names => Some(TimeUnit::Microseconds),
        _ => Some(TimeUnit::Seconds),
    };
    CsvDialect {
        delimiter,
        decimal_comma: delimiter != ',' && dice.chance(0.45),
        encoding: *dice.pick(&[
            Encoding::Utf8,
            Encoding::Utf8,
            Encoding::Utf8Mark,
            Encoding::Utf16,
            Encoding::Latin1,
        ]),
        crlf: dice.chance(0.5),
        header,
        time,
        digits: dice.whole(4, 6) as usize,
        quoted: dice.chance(0.2),
        scientific: dice.chance(0.12),
        gap: dice.pick::<&str>(&["", "--", "NaN", "n.a."]),
        over_range: dice.pick::<&str>(&["inf", "OL", "over"]),
        trailing: dice.chance(0.15),
        cut: dice.chance(0.2),
    }
}

/// A few values go missing; clipped ones are marked where the dialect has a mark for it.
pub fn spoil(r: &mut Recording, dialect: &CsvDialect, dice: &mut Noise) {
    let holes = if dice.chance(0.25) {
        r.len() / 4000 + 1
    } else {
        0
    };
    for _ in 0..holes {
        let i = dice.whole(0, r.len().saturating_sub(1) as u64) as usize;
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
