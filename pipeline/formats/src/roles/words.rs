//! What the words of a channel's name speak of, in English, German, Spanish, French and Italian.
//! What technicians call their channels is common practice without a source.

use crate::scan::words::fold;

/// Something that a name may speak of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Topic {
    Current,
    Voltage,
    Fuse,
    Feed,
    Gearbox,
    Shaft,
    Input,
    Output,
    Speed,
    Sensor,
    Engine,
    Ground,
    Battery,
    Clutch,
    Motor,
    Shifting,
    Selector,
    /// A part that has nothing to do with the gearbox.
    Foreign,
}

use Topic::*;

/// Whole words and phrases of folded names.
const WORDS: &[(Topic, &[&str])] = &[
    (
        Current,
        &[
            "current",
            "currents",
            "amps",
            "amp",
            "ampere",
            "amperes",
            "amperage",
            "clamp",
            "corriente",
            "intensidad",
            "amperios",
            "pinza",
            "courant",
            "intensite",
            "pince",
            "corrente",
            "assorbimento",
            "amperometrica",
            "consumo",
            "consommation",
            "iabs",
        ],
    ),
    (
        Voltage,
        &[
            "voltage",
            "volts",
            "volt",
            "voltaje",
            "tension",
            "tensione",
            "voltios",
            "potential",
        ],
    ),
    (
        Fuse,
        &[
            "fuse", "fuses", "fusible", "fusibles", "fusibile", "fusibili",
        ],
    ),
    (
        Feed,
        &[
            "feed",
            "supply",
            "power",
            "main",
            "total",
            "pwr",
            "vcc",
            "alimentacion",
            "suministro",
            "alimentation",
            "alimentazione",
            "positivo",
            "linea",
            "kl 30",
            "kl30",
            "klemme 30",
            "terminal 30",
            "borne 30",
            "t30",
        ],
    ),
    (
        Gearbox,
        &[
            "tcm",
            "tcu",
            "gearbox",
            "transmission",
            "trans",
            "module",
            "controller",
            "caja",
            "caja de cambios",
            "transmision",
            "modulo",
            "unidad",
            "boite",
            "bv",
            "calculateur",
            "cambio",
            "trasmissione",
            "centralina",
            "mechatronic",
            "mechatronics",
            "dct",
        ],
    ),
    (
        Shaft,
        &["shaft", "shafts", "eje", "arbol", "arbre", "albero", "axle"],
    ),
    (
        Input,
        &[
            "input", "primary", "turbine", "entrada", "primario", "entree", "primaire", "ingresso",
            "iss", "tss",
        ],
    ),
    (
        Output,
        &[
            "output",
            "secondary",
            "salida",
            "secundario",
            "sortie",
            "secondaire",
            "uscita",
            "secondario",
            "oss",
        ],
    ),
    (
        Speed,
        &[
            "speed",
            "rpm",
            "revs",
            "rev",
            "velocidad",
            "revoluciones",
            "vueltas",
            "regimen",
            "vitesse",
            "regime",
            "tours",
            "velocita",
            "giri",
            "n",
            "iss",
            "oss",
            "tss",
        ],
    ),
    (
        Sensor,
        &[
            "sensor",
            "pickup",
            "hall",
            "captador",
            "capteur",
            "sensore",
            "captatore",
            "signal",
            "senal",
            "segnale",
        ],
    ),
    (
        Engine,
        &[
            "engine",
            "crank",
            "crankshaft",
            "ckp",
            "ciguenal",
            "vilebrequin",
            "albero motore",
            "motor",
            "moteur",
            "motore",
        ],
    ),
    (
        Ground,
        &[
            "ground",
            "gnd",
            "earth",
            "masse",
            "masa",
            "massa",
            "bminus",
            "kl 31",
            "kl31",
            "klemme 31",
            "terminal 31",
            "borne 31",
        ],
    ),
    (
        Battery,
        &[
            "bplus",
            "battery",
            "batt",
            "bat",
            "vbat",
            "vbatt",
            "ubat",
            "ubatt",
            "bateria",
            "batterie",
            "batteria",
            "bord",
            "rete di bordo",
        ],
    ),
    (
        Clutch,
        &["clutch", "clutches", "embrague", "embrayage", "frizione"],
    ),
    (
        Motor,
        &[
            "motor",
            "actuator",
            "act",
            "servo",
            "actuador",
            "moteur",
            "actionneur",
            "motore",
            "attuatore",
            "solenoid",
        ],
    ),
    (
        Shifting,
        &[
            "gear",
            "gears",
            "shift",
            "select",
            "selector",
            "marcha",
            "marchas",
            "cambio",
            "seleccion",
            "vitesse",
            "vitesses",
            "passage",
            "selection",
            "marce",
            "marcia",
            "selezione",
            "innesto",
            "fork",
        ],
    ),
    (
        Selector,
        &[
            "selector",
            "prndl",
            "range sensor",
            "palanca",
            "levier",
            "leva",
            "selettore",
            "selecteur",
            "lever",
        ],
    ),
    (
        Foreign,
        &[
            "pump",
            "starter",
            "alternator",
            "generator",
            "injector",
            "injection",
            "ignition",
            "coil",
            "wheel",
            "abs",
            "brake",
            "pedal",
            "throttle",
            "fan",
            "lamp",
            "pressure",
            "temperature",
            "temp",
            "camshaft",
            "cam",
            "lambda",
            "map",
            "maf",
            "boost",
            "fuel",
            "heater",
            "bomba",
            "arranque",
            "alternador",
            "inyector",
            "rueda",
            "freno",
            "acelerador",
            "ventilador",
            "presion",
            "pompe",
            "demarreur",
            "alternateur",
            "injecteur",
            "roue",
            "frein",
            "pedale",
            "pression",
            "pompa",
            "motorino d avviamento",
            "alternatore",
            "iniettore",
            "ruota",
            "pressione",
            "temperatura",
            "can",
            "can h",
            "can l",
            "lin",
        ],
    ),
];

/// Stems that German puts into longer words.
const STEMS: &[(Topic, &[&str])] = &[
    (Current, &["strom"]),
    (Voltage, &["spannung"]),
    (Fuse, &["sicherung"]),
    (
        Feed,
        &[
            "versorgung",
            "zuleitung",
            "speisung",
            "gesamt",
            "hauptstrom",
        ],
    ),
    (
        Gearbox,
        &["getriebe", "steuergerat", "steuergeraet", "mechatronik"],
    ),
    (Shaft, &["welle"]),
    (Input, &["eingang", "antriebswelle", "teilgetriebe"]),
    (Output, &["abtrieb", "ausgang"]),
    (Speed, &["drehzahl"]),
    (Sensor, &["geber", "sensor", "fuhler"]),
    (Engine, &["kurbel", "motordrehzahl", "verbrennungsmotor"]),
    (Ground, &["masse"]),
    (Battery, &["bordnetz", "bordspannung", "batterie"]),
    (Clutch, &["kupplung"]),
    (Motor, &["steller", "aktor", "motor"]),
    (
        Shifting,
        &[
            "gangst",
            "gangm",
            "gangakt",
            "schalt",
            "wahlmotor",
            "wahlst",
        ],
    ),
    (Selector, &["wahlhebel"]),
    (
        Foreign,
        &[
            "pumpe",
            "anlasser",
            "lichtmaschine",
            "einspritz",
            "zundung",
            "bremse",
            "drossel",
            "lufter",
            "druck",
            "temperatur",
            "nockenwelle",
            "raddrehzahl",
        ],
    ),
];

/// A name taken apart.
#[derive(Debug)]
pub(super) struct Name {
    /// Its words, folded, each with one space before and behind.
    padded: String,
}

impl Name {
    pub fn new(name: &str) -> Self {
        let mut padded = String::from(" ");
        for word in fold(&parted(name)).split(|c: char| !c.is_alphanumeric()) {
            if !word.is_empty() {
                padded.push_str(word);
                padded.push(' ');
            }
        }
        Name { padded }
    }

    pub fn words(&self) -> impl DoubleEndedIterator<Item = &str> {
        self.padded.split_whitespace()
    }

    /// The word that speaks of a topic; the first one.
    pub fn about(&self, topic: Topic) -> Option<&str> {
        let listed = |lists: &'static [(Topic, &'static [&'static str])]| {
            lists
                .iter()
                .filter(move |(t, _)| *t == topic)
                .flat_map(|(_, words)| words.iter().copied())
        };
        listed(WORDS)
            .filter_map(|w| Some((self.find(w)?, w)))
            .min_by_key(|(at, _)| *at)
            .map(|(_, w)| w)
            .or_else(|| listed(STEMS).find_map(|stem| self.words().find(|w| w.contains(stem))))
    }

    /// Where a whole word or phrase stands.
    fn find(&self, phrase: &str) -> Option<usize> {
        self.padded.match_indices(phrase).map(|(i, _)| i).find(|i| {
            self.padded[..*i].ends_with(' ') && self.padded[i + phrase.len()..].starts_with(' ')
        })
    }

    /// Which of several the name means, from 1. What stands behind the word counts first.
    pub fn number_near(&self, word: &str) -> Option<u8> {
        let at = self.padded.find(word)? + word.len();
        let (before, behind) = self.padded.split_at(at);
        let behind = behind.trim_start_matches(char::is_alphanumeric);
        let article = |w: &&str| !matches!(*w, "a" | "e" | "i");
        behind.split_whitespace().find_map(number).or_else(|| {
            before
                .split_whitespace()
                .rev()
                .filter(article)
                .find_map(number)
        })
    }
}

/// What a word counts as: gearboxes with two clutches call them 1 and 2, A and B, odd and even.
fn number(word: &str) -> Option<u8> {
    match word {
        "1" | "01" | "a" | "i" | "odd" | "ungerade" | "impar" | "impares" | "impair"
        | "impairs" | "dispari" | "one" | "eins" | "erste" | "first" | "uno" | "un" | "primero"
        | "primo" | "outer" | "k1" | "c1" => Some(1),
        "2" | "02" | "b" | "ii" | "even" | "gerade" | "par" | "pares" | "pair" | "pairs"
        | "pari" | "two" | "zwei" | "zweite" | "second" | "dos" | "deux" | "due" | "segundo"
        | "secondo" | "inner" | "k2" | "c2" => Some(2),
        _ => word.parse().ok().filter(|n: &u8| (3..=9).contains(n)),
    }
}

/// Parts words that are written together: `InputShaft1`, `TCMFuse`, `ISS1`; keeps the sign of `B+` and `B-`.
fn parted(name: &str) -> String {
    let chars: Vec<char> = name.chars().collect();
    let at = |i: usize| chars.get(i).copied().unwrap_or(' ');
    let mut out = String::with_capacity(name.len() + 8);
    for (i, &c) in chars.iter().enumerate() {
        let before = if i > 0 { at(i - 1) } else { ' ' };
        if matches!(c, '+' | '-')
            && matches!(before, 'B' | 'b')
            && !(i > 1 && at(i - 2).is_alphanumeric())
            && !at(i + 1).is_alphanumeric()
        {
            out.push_str(if c == '+' { "plus " } else { "minus " });
            continue;
        }
        let hump = before.is_lowercase() && c.is_uppercase();
        let after_capitals = before.is_uppercase()
            && c.is_uppercase()
            && at(i + 1).is_lowercase()
            && at(i + 2).is_lowercase();
        let number = before.is_alphabetic() && c.is_ascii_digit();
        if hump || after_capitals || number {
            out.push(' ');
        }
        out.push(c);
    }
    out
}
