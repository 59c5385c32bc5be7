//! Levels in words, as logic recorders write them.

/// 1 for a high level or a rising edge, 0 for a low one or a falling edge; `None` for anything else.
pub(super) fn value(cell: &str) -> Option<f64> {
    let cell = cell.trim().trim_matches(['"', '\'']).to_lowercase();
    match cell.as_str() {
        "1" | "h" | "hi" | "high" | "on" | "true" | "rise" | "rising" | "up" | "↑" | "hoch"
        | "ein" | "alto" | "haut" | "steigend" | "subida" | "montant" | "salita" => Some(1.0),
        "0" | "l" | "lo" | "low" | "off" | "false" | "fall" | "falling" | "down" | "↓" | "tief"
        | "aus" | "bajo" | "bas" | "basso" | "niedrig" | "fallend" | "bajada" | "descendant"
        | "discesa" => Some(0.0),
        "" | "x" | "z" | "-" => Some(f64::NAN),
        _ => None,
    }
}

/// Whether all of a column's cells are levels, both occur, and words are among them: a column of noughts and ones is
/// one of numbers.
pub(super) fn is_column<'a>(cells: impl Iterator<Item = &'a str>) -> bool {
    let (mut high, mut low, mut word) = (false, false, false);
    for cell in cells {
        match value(cell) {
            Some(1.0) => high = true,
            Some(0.0) => low = true,
            Some(_) => continue,
            None => return false,
        }
        word |= !matches!(cell.trim(), "0" | "1");
    }
    high && low && word
}
