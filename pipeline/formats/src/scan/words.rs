//! The words of scan texts in English, German, Spanish, French and Italian.

use super::phrases::PHRASES;
use CodeStatus::{Active, Confirmed, History, NotTested, Pending};
use model::CodeStatus;

/// Lower case, without accents and with plain spaces, so that one spelling matches all.
pub(crate) fn fold(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars().flat_map(char::to_lowercase) {
        match c {
            'á' | 'à' | 'â' | 'ä' | 'ã' => out.push('a'),
            'é' | 'è' | 'ê' | 'ë' => out.push('e'),
            'í' | 'ì' | 'î' | 'ï' => out.push('i'),
            'ó' | 'ò' | 'ô' | 'ö' => out.push('o'),
            'ú' | 'ù' | 'û' | 'ü' => out.push('u'),
            'ñ' => out.push('n'),
            'ç' => out.push('c'),
            'ß' => out.push_str("ss"),
            '_' | '\u{a0}' | '\u{202f}' => out.push(' '),
            '’' => out.push('\''),
            c => out.push(c),
        }
    }
    out
}

/// Words that may stand beside a status without a meaning of their own.
const FILLERS: &[&str] = &[
    "status",
    "state",
    "zustand",
    "estado",
    "etat",
    "stato",
    "statut",
    "and",
    "und",
    "y",
    "et",
    "e",
    "is",
    "ist",
    "now",
    "als",
    "as",
    "est",
    "currently",
    "code",
    "fault",
    "fehler",
    "dtc",
    "actuellement",
    "actualmente",
    "attualmente",
    "defaut",
    "error",
    "errore",
    "which",
    "that",
    "right",
    "both",
    "beide",
    "ambos",
    "ambas",
    "entrambi",
    "tous",
    "deux",
    "les",
    "a",
    "an",
    "the",
    "marked",
    "reported",
    "set",
    "shown",
    "flagged",
    "still",
    "noch",
    "derzeit",
    "que",
    "qui",
    "che",
    "it",
    "was",
    "are",
    "been",
    "only",
    "todavia",
    "encore",
    "ancora",
    "momentan",
    "all",
    "alle",
    "beides",
    "son",
    "sono",
    "sont",
    "esta",
    "es",
    "se",
    "encuentra",
    "war",
    "ha",
];

/// Words for trouble codes in headings.
const CODE_NOUNS: &[&str] = &[
    "code",
    "codes",
    "dtc",
    "dtcs",
    "fault",
    "faults",
    "fehler",
    "fehlercodes",
    "fehlercode",
    "fehlereintrage",
    "eintrage",
    "codigos",
    "codigo",
    "averias",
    "averia",
    "fallos",
    "fallo",
    "dtc(s)",
    "defauts",
    "defaut",
    "defaillances",
    "erreurs",
    "codici",
    "codice",
    "guasti",
    "guasto",
    "errori",
    "entries",
    "storungen",
];

/// The statuses that a piece of text says, when it says nothing else.
pub(super) fn statuses(piece: &str) -> Option<Vec<CodeStatus>> {
    read_statuses(piece, &[])
}

/// The status of a heading over a list of codes: "Confirmed codes: 1", "Pending:", "Gespeicherte Fehler".
pub(super) fn heading(line: &str) -> Option<Vec<CodeStatus>> {
    let line = line.trim().trim_matches(|c: char| !c.is_alphanumeric());
    let lead = line
        .split([':', '(', '=', '-'])
        .next()
        .unwrap_or(line)
        .trim();
    let bare_word_line = lead.len() == line.len();
    let folded = fold(lead);
    let has_noun = folded.split_whitespace().any(|w| CODE_NOUNS.contains(&w));
    (has_noun || bare_word_line || line.len() <= lead.len() + 12)
        .then(|| read_statuses(lead, CODE_NOUNS))
        .flatten()
}

fn read_statuses(piece: &str, more_fillers: &[&str]) -> Option<Vec<CodeStatus>> {
    let folded = fold(piece);
    let words: Vec<&str> = folded
        .split(|c: char| {
            c.is_whitespace() || matches!(c, '/' | '+' | '&' | ',' | '.' | '!' | '"' | '*')
        })
        .filter(|w| !w.is_empty())
        .collect();
    if words.len() > 12 {
        return None;
    }
    let mut out = Vec::new();
    let mut i = 0;
    while i < words.len() {
        let longest = (1..=4.min(words.len() - i)).rev().find_map(|n| {
            let phrase = words[i..i + n].join(" ");
            PHRASES
                .iter()
                .find(|(p, _)| *p == phrase)
                .map(|(_, s)| (n, *s))
        });
        match longest {
            Some((n, status)) => {
                if !out.contains(&status) {
                    out.push(status);
                }
                i += n;
            }
            None if FILLERS.contains(&words[i]) || more_fillers.contains(&words[i]) => i += 1,
            None if words[i].bytes().all(|b| b.is_ascii_digit()) && !more_fillers.is_empty() => {
                i += 1
            }
            None => return None,
        }
    }
    out.sort();
    (!out.is_empty()).then_some(out)
}

/// Status byte of ISO 14229-1 D.2.
pub(super) fn status_byte(byte: u8) -> Vec<CodeStatus> {
    let bit = |n: u8| byte >> n & 1 == 1;
    let mut out = Vec::new();
    if bit(0) {
        out.push(Active);
    }
    if bit(2) {
        out.push(Pending);
    }
    if bit(3) {
        out.push(Confirmed);
    }
    if out.is_empty() && bit(5) {
        out.push(History);
    }
    if out.is_empty() && (bit(4) || bit(6)) {
        out.push(NotTested);
    }
    out
}

/// A byte as `0x2F`, `2F`, `2Fh` or eight binary digits.
pub(super) fn byte(text: &str) -> Option<u8> {
    let text = text
        .trim()
        .trim_matches(['"', '(', ')', '[', ']', '$', '.']);
    if text.len() == 8 && text.bytes().all(|b| matches!(b, b'0' | b'1')) {
        return u8::from_str_radix(text, 2).ok();
    }
    let hex = text
        .strip_prefix("0x")
        .or_else(|| text.strip_prefix("0X"))
        .or_else(|| text.strip_suffix(['h', 'H']))
        .unwrap_or(text);
    (hex.len() == 2 && hex.bytes().all(|b| b.is_ascii_hexdigit()))
        .then(|| u8::from_str_radix(hex, 16).ok())?
}

/// What the key of a `key: value` line, or a column's heading, is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Key {
    Code,
    Status,
    FailureType,
    Module,
    Text,
}

/// Understands a key or a column heading.
pub(super) fn key(name: &str) -> Option<Key> {
    let folded = fold(name);
    let name = folded
        .trim()
        .trim_matches(|c: char| !c.is_alphanumeric() && c != '°');
    let name = name.rsplit(['.', ']']).next().unwrap_or(name).trim();
    Some(match name {
        "code" | "dtc" | "fault code" | "trouble code" | "fehlercode" | "codigo"
        | "codigo de averia" | "codigo averia" | "code defaut" | "code de defaut" | "defaut"
        | "codice" | "codice guasto" | "codice errore" | "dtc code" | "fehler" | "averia"
        | "guasto" | "fault" | "fehlerkode" | "dtc nr" => Key::Code,
        "status" | "state" | "status byte" | "statusbyte" | "zustand" | "fehlerstatus"
        | "estado" | "etat" | "stato" | "statut" | "dtc status" | "byte de estado"
        | "octet d'etat" | "byte di stato" | "fault state" | "condition" | "byte d'etat"
        | "estado de averia" => Key::Status,
        "failure type"
        | "failuretype"
        | "failure type byte"
        | "ftb"
        | "fault type"
        | "type"
        | "fehlerart"
        | "fehlertyp"
        | "tipo de fallo"
        | "tipo de averia"
        | "type de defaut"
        | "type de defaillance"
        | "tipo di guasto"
        | "tipo guasto"
        | "subtype"
        | "sub type"
        | "sub-type"
        | "symptom"
        | "sintoma"
        | "tipo"
        | "ft" => Key::FailureType,
        "module" | "unit" | "control unit" | "controller" | "ecu" | "steuergerat"
        | "steuergeraet" | "sg" | "modul" | "modulo" | "unidad" | "unidad de control"
        | "centralita" | "calculateur" | "boitier" | "unite" | "centralina" | "unita"
        | "unita di controllo" | "system" | "sistema" | "systeme" | "control module" | "node"
        | "knoten" => Key::Module,
        "text" | "description" | "meaning" | "bedeutung" | "beschreibung" | "fehlertext"
        | "descripcion" | "texto" | "libelle" | "texte" | "designation" | "descrizione"
        | "testo" | "significato" | "significado" => Key::Text,
        _ => return None,
    })
}

/// Whether a word in front of something that looks like a code says that it is something else.
pub(super) fn names_a_part(word: &str) -> bool {
    let folded = fold(word);
    let word = folded.trim_matches(|c: char| !c.is_alphanumeric());
    const STEMS: &[&str] = &[
        "calib",
        "kalib",
        "software",
        "firmware",
        "softwarestand",
        "label",
        "part",
        "teil",
        "ersatzteil",
        "pieza",
        "spare",
        "recambio",
        "repuesto",
        "referenc",
        "hardware",
        "piece",
        "ricambio",
        "etiquet",
        "etichett",
        "serial",
        "serie",
        "seriennummer",
        "version",
        "datensatz",
        "dataset",
        "bootloader",
        "sachnummer",
        "logiciel",
        "programm",
        "artikel",
        "articulo",
        "article",
        "matricola",
        "pezzo",
        "etikett",
        "aufkleber",
        "strategy",
    ];
    matches!(
        word,
        "p/n"
            | "pn"
            | "sw"
            | "hw"
            | "fw"
            | "cal"
            | "ref"
            | "s/n"
            | "sn"
            | "id"
            | "rev"
            | "tnr"
            | "cvn"
    ) || STEMS.iter().any(|s| word.starts_with(s))
}

/// Whether a line says that a module has no codes.
pub(super) fn says_none(line: &str) -> bool {
    let folded = fold(line);
    [
        "none",
        "no codes",
        "no faults",
        "no dtc",
        "keine",
        "kein fehler",
        "ningun",
        "sin averias",
        "aucun",
        "nessun",
        "empty",
        "i.o.",
    ]
    .iter()
    .any(|w| folded.contains(w))
}

/// Whether a heading opens stored surroundings of a fault, whose values are not live data.
pub(super) fn is_freeze_frame(line: &str) -> bool {
    let folded = fold(line);
    [
        "freeze frame",
        "freeze-frame",
        "freezeframe",
        "snapshot",
        "umgebungsdaten",
        "umgebungsbedingungen",
        "standbild",
        "datos congelados",
        "imagen congelada",
        "cuadro congelado",
        "donnees figees",
        "trame figee",
        "image figee",
        "fermo immagine",
        "dati congelati",
        "dati di contesto",
        "ambient data",
        "at first entry",
        "environment data",
        "extended data",
    ]
    .iter()
    .any(|w| folded.contains(w))
}

#[cfg(test)]
mod tests;
