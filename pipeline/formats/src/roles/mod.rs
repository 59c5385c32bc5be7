//! What a channel measures, guessed from its name, its unit and the shape of its signal.

use crate::scan::words::fold;
use model::{Capture, Channel, Role};

/// A guess and how sure it is.
#[derive(Debug, Clone, PartialEq)]
pub struct RoleGuess {
    /// What the channel seems to measure.
    pub role: Role,
    /// From 0 (no idea) to 1 (no doubt); 0.8 and more only when the name is plain.
    pub certainty: f64,
    /// Why, in words.
    pub reason: String,
}

/// Certainty of a name that says the role outright.
const PLAIN: f64 = 0.9;

const INPUT_SHAFT: &[&str] = &[
    "iss",
    "input shaft",
    "input speed",
    "n input",
    "speed input",
    "input sensor",
    "turbine",
    "eingangswelle",
    "eingangsdrehzahl",
    "getriebeeingang",
    "antriebswelle",
    "eje de entrada",
    "eje entrada",
    "eje primario",
    "arbol de entrada",
    "arbol primario",
    "arbre d'entree",
    "arbre entree",
    "arbre primaire",
    "albero d'ingresso",
    "albero di ingresso",
    "albero ingresso",
    "albero primario",
    "primary shaft",
];
const OUTPUT_SHAFT: &[&str] = &[
    "oss",
    "output shaft",
    "output speed",
    "abtriebswelle",
    "abtrieb",
    "ausgangswelle",
    "eje de salida",
    "eje salida",
    "eje secundario",
    "arbol de salida",
    "arbre de sortie",
    "arbre sortie",
    "arbre secondaire",
    "albero d'uscita",
    "albero di uscita",
    "albero uscita",
    "albero secondario",
    "secondary shaft",
];
const ENGINE: &[&str] = &[
    "engine speed",
    "engine rpm",
    "engine",
    "rpm",
    "ckp",
    "crank",
    "crankshaft",
    "motordrehzahl",
    "drehzahl motor",
    "kurbelwelle",
    "regimen motor",
    "regimen del motor",
    "regimen",
    "ciguenal",
    "regime moteur",
    "vilebrequin",
    "giri motore",
    "regime motore",
    "albero motore",
    "giri",
];
const GROUND: &[&str] = &[
    "ground",
    "gnd",
    "earth",
    "masse",
    "masseabfall",
    "massespannung",
    "masa",
    "massa",
    "b-",
];
const CURRENT: &[&str] = &[
    "current",
    "amps",
    "amp",
    "amperes",
    "amperage",
    "strom",
    "stromzange",
    "corriente",
    "intensidad",
    "courant",
    "intensite",
    "corrente",
    "clamp",
];
const VOLTAGE: &[&str] = &[
    "voltage", "volts", "volt", "spannung", "voltaje", "tension", "tensione",
];
const SUPPLY_VOLTAGE: &[&str] = &[
    "b+",
    "supply voltage",
    "battery",
    "vbat",
    "ubat",
    "ubatt",
    "bordspannung",
    "bordnetz",
    "versorgungsspannung",
    "batteriespannung",
    "batterie",
    "bateria",
    "batteria",
    "tension de alimentacion",
    "tension alimentacion",
    "tension d'alimentation",
    "tension alimentation",
    "tensione di alimentazione",
    "tensione alimentazione",
    "kl30",
    "kl. 30",
    "klemme 30",
    "terminal 30",
];
const FEED: &[&str] = &[
    "feed",
    "supply",
    "fuse",
    "tcm",
    "main",
    "total",
    "module",
    "versorgung",
    "versorgungsstrom",
    "sicherung",
    "gesamtstrom",
    "zuleitung",
    "steuergerat",
    "alimentacion",
    "fusible",
    "suministro",
    "alimentation",
    "calculateur",
    "alimentazione",
    "fusibile",
    "centralina",
    "input",
];
const CLUTCH_MOTOR: &[&str] = &[
    "clutch motor",
    "clutch actuator",
    "clutch act",
    "clutch",
    "kupplungssteller",
    "kupplungsmotor",
    "kupplungsaktor",
    "kupplung",
    "embrague",
    "embrayage",
    "frizione",
];
const GEAR_MOTOR: &[&str] = &[
    "gear motor",
    "shift motor",
    "gear actuator",
    "shift actuator",
    "selector motor",
    "gangsteller",
    "gangmotor",
    "schaltmotor",
    "gangaktor",
    "schaltaktor",
    "motor de cambio",
    "motor de marchas",
    "motor de seleccion",
    "motor cambio",
    "moteur de vitesse",
    "moteur de vitesses",
    "moteur de selection",
    "moteur vitesses",
    "moteur de passage",
    "motore marce",
    "motore cambio",
    "motore selezione",
    "motore innesto",
];
const SELECTOR: &[&str] = &[
    "selector",
    "prndl",
    "wahlhebel",
    "palanca",
    "levier",
    "leva",
    "range sensor",
    "selettore",
    "selecteur",
];

/// A guess for every channel, in the capture's order; `None` where nothing tells.
pub fn guess(capture: &Capture) -> Vec<Option<RoleGuess>> {
    let mut guesses: Vec<Option<RoleGuess>> = capture.channels.iter().map(of_channel).collect();
    if guesses
        .iter()
        .flatten()
        .all(|g| g.role != Role::SupplyCurrent)
    {
        only_current(capture, &mut guesses);
    }
    for i in 0..guesses.len() {
        let Some(role) = guesses[i].as_ref().map(|g| g.role) else {
            continue;
        };
        let rivals = guesses.iter().flatten().filter(|g| g.role == role).count();
        if let Some(g) = guesses[i].as_mut().filter(|_| rivals > 1) {
            g.certainty = g.certainty.min(0.4);
            g.reason
                .push_str("; another channel looks like the same thing");
        }
    }
    guesses
}

fn of_channel(channel: &Channel) -> Option<RoleGuess> {
    let (role, certainty, reason) = by_name(&channel.name, unit_kind(channel))?;
    let mut guess = RoleGuess {
        role,
        certainty,
        reason,
    };
    check_unit(&mut guess, channel);
    check_shape(&mut guess, channel);
    (guess.certainty > 0.0).then_some(guess)
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum UnitKind {
    Ampere,
    Volt,
    Other,
    Unknown,
}

fn unit_kind(channel: &Channel) -> UnitKind {
    let Some(unit) = channel.unit.as_deref() else {
        return UnitKind::Unknown;
    };
    match fold(unit).trim_start_matches(['m', 'k', 'µ', 'μ', 'u']) {
        "a" | "amp" | "amps" | "ampere" | "adc" => UnitKind::Ampere,
        "v" | "volt" | "volts" | "vdc" => UnitKind::Volt,
        _ => UnitKind::Other,
    }
}

/// The role that a name says.
fn by_name(name: &str, unit: UnitKind) -> Option<(Role, f64, String)> {
    let name = fold(name);
    let has = |words: &[&'static str]| words.iter().find(|w| contains_word(&name, w)).copied();
    let said = |role: Role, certainty: f64, word: &str| {
        Some((role, certainty, format!("the name says \"{word}\"")))
    };
    let current = has(CURRENT).is_some() || name.contains("strom") || unit == UnitKind::Ampere;
    let numbered = |first: Role, second: Role, word: &str| match shaft_number(&name, word) {
        Some(1) => said(first, PLAIN, word),
        Some(_) => said(second, PLAIN, word),
        None => Some((
            first,
            0.4,
            format!("the name says \"{word}\" without a number"),
        )),
    };
    if let Some(w) = has(GEAR_MOTOR).filter(|_| current) {
        return numbered(Role::GearMotorCurrent1, Role::GearMotorCurrent2, w);
    }
    if let Some(w) = has(CLUTCH_MOTOR).filter(|_| current) {
        return numbered(Role::ActuatorCurrent1, Role::ActuatorCurrent2, w);
    }
    if !current || has(CURRENT).is_none() {
        if let Some(w) = has(INPUT_SHAFT) {
            return numbered(Role::InputShaft1, Role::InputShaft2, w);
        }
        if let Some(w) = has(OUTPUT_SHAFT) {
            return said(Role::OutputShaft, PLAIN, w);
        }
    }
    let volt_word = has(VOLTAGE);
    if let Some(w) = has(GROUND).filter(|_| !current) {
        return said(Role::GroundVoltage, PLAIN, w);
    }
    if let Some(w) = has(SUPPLY_VOLTAGE).filter(|_| !current || volt_word.is_some()) {
        return said(Role::SupplyVoltage, PLAIN, w);
    }
    if current && volt_word.is_none() {
        return match (has(FEED), has(CURRENT)) {
            (Some(w), Some(c)) => said(Role::SupplyCurrent, PLAIN, &format!("{w} ... {c}")),
            (Some(w), None) => said(
                Role::SupplyCurrent,
                if name.contains("strom") { PLAIN } else { 0.7 },
                w,
            ),
            (None, Some(c)) => Some((
                Role::SupplyCurrent,
                0.6,
                format!("the name says only \"{c}\""),
            )),
            (None, None) => None,
        };
    }
    if let Some(w) = has(ENGINE) {
        return said(Role::EngineSpeed, PLAIN, w);
    }
    if let Some(w) = has(SELECTOR) {
        return said(Role::Selector, 0.8, w);
    }
    if let (Some(feed), Some(w)) = (has(FEED), volt_word) {
        return said(Role::SupplyVoltage, 0.8, &format!("{feed} ... {w}"));
    }
    None
}

/// Whether the word stands in the name and does not merely occur inside another word. A digit behind it
/// is its number: `iss1`.
fn contains_word(name: &str, word: &str) -> bool {
    name.match_indices(word).any(|(i, w)| {
        let before = name[..i].chars().next_back();
        let mut behind = name[i + w.len()..].chars();
        let next = behind.next();
        let number = match next {
            Some(c) if c.is_ascii_digit() => true,
            Some('a' | 'b') => !behind.next().is_some_and(char::is_alphanumeric),
            _ => false,
        };
        !before.is_some_and(char::is_alphanumeric)
            && (number || !next.is_some_and(char::is_alphanumeric))
    })
}

/// Which of two the name means: 1 or 2. What stands nearest behind the word counts first.
fn shaft_number(name: &str, word: &str) -> Option<u8> {
    let at = name.find(word)?;
    let (before, behind) = (&name[..at], &name[at + word.len()..]);
    let number = |w: &str| match w {
        "1" | "a" | "i" | "odd" | "ungerade" | "impar" | "impares" | "impair" | "impairs"
        | "dispari" | "one" | "eins" | "erste" | "first" | "outer" | "k1" | "c1" => Some(1),
        "2" | "b" | "ii" | "even" | "gerade" | "par" | "pares" | "pair" | "pairs" | "pari"
        | "two" | "zwei" | "zweite" | "second" | "k2" | "c2" => Some(2),
        _ => None,
    };
    fn words(s: &str) -> Vec<&str> {
        s.split(|c: char| !c.is_alphanumeric())
            .filter(|w| !w.is_empty())
            .collect()
    }
    words(behind).into_iter().find_map(number).or_else(|| {
        words(before)
            .into_iter()
            .rev()
            .filter(|w| *w != "a")
            .find_map(number)
    })
}

fn check_unit(guess: &mut RoleGuess, channel: &Channel) {
    let doubt = match (guess.role.is_current(), unit_kind(channel)) {
        // A clamp records volts; an ampere unit on a voltage is a contradiction.
        (false, UnitKind::Ampere) => "the unit is that of a current",
        (_, UnitKind::Other) if guess.role != Role::Other => "the unit is neither volt nor ampere",
        _ => return,
    };
    guess.certainty = guess.certainty.min(0.5);
    guess.reason.push_str("; but ");
    guess.reason.push_str(doubt);
}

/// What a quick look at the samples tells.
struct Shape {
    low: f64,
    middle: f64,
    high: f64,
}

/// Low, median and high of at most 4,001 samples spread over the recording, in volts or amperes where
/// the unit has a prefix.
fn shape(channel: &Channel) -> Option<Shape> {
    let n = channel.samples.len();
    let step = (n / 4000).max(1);
    let prefix = match channel.unit.as_deref().map(str::trim) {
        Some(u) if u.len() > 1 && u.starts_with('m') => 1e-3,
        Some(u) if u.len() > 1 && u.starts_with('k') => 1e3,
        _ => 1.0,
    };
    let mut values: Vec<f64> = (0..n)
        .step_by(step)
        .map(|i| channel.value(i) * prefix)
        .filter(|v| v.is_finite())
        .collect();
    values.sort_by(f64::total_cmp);
    let at = |share: f64| {
        values
            .get(((values.len().checked_sub(1)?) as f64 * share) as usize)
            .copied()
    };
    Some(Shape {
        low: at(0.01)?,
        middle: at(0.5)?,
        high: at(0.99)?,
    })
}

/// Holds a guess against the signal: a supply voltage that is none, a ground drop of many volts.
fn check_shape(guess: &mut RoleGuess, channel: &Channel) {
    // Without a unit (WAV, bare columns) the size of the values means nothing yet.
    let (Some(shape), UnitKind::Volt) = (shape(channel), unit_kind(channel)) else {
        return;
    };
    let doubt = match guess.role {
        Role::SupplyVoltage if !(5.0..=32.0).contains(&shape.middle) => {
            "its usual value is no vehicle's supply voltage"
        }
        Role::SupplyVoltage if shape.high - shape.low > 0.6 * shape.high => {
            "it swings like a switched signal"
        }
        Role::GroundVoltage if shape.middle.abs() > 3.0 => {
            "its usual value is too high for a drop to ground"
        }
        _ => return,
    };
    guess.certainty = guess.certainty.min(0.5);
    guess.reason.push_str("; but ");
    guess.reason.push_str(doubt);
}

/// The only channel in amperes is most likely the feed, when no name says otherwise.
fn only_current(capture: &Capture, guesses: &mut [Option<RoleGuess>]) {
    let mut amperes =
        (0..guesses.len()).filter(|i| unit_kind(&capture.channels[*i]) == UnitKind::Ampere);
    if let (Some(i), None) = (amperes.next(), amperes.next())
        && guesses[i].is_none()
    {
        guesses[i] = Some(RoleGuess {
            role: Role::SupplyCurrent,
            certainty: 0.5,
            reason: "it is the only channel in amperes".into(),
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::{RoleSource, Samples, TimeAxis};

    fn capture(channels: &[(&str, Option<&str>, f32)]) -> Capture {
        Capture {
            file: "a".into(),
            started: None,
            time: TimeAxis::Even {
                start_s: 0.0,
                step_s: 1.0,
                len: 4,
            },
            channels: channels
                .iter()
                .map(|(name, unit, v)| Channel {
                    name: name.to_string(),
                    unit: unit.map(String::from),
                    role: None,
                    role_source: RoleSource::Unknown,
                    scale: 1.0,
                    offset: 0.0,
                    calibrated: false,
                    samples: Samples::F32(vec![*v; 4].into()),
                })
                .collect(),
            problems: vec![],
            read_as: String::new(),
        }
    }

    fn one(name: &str, unit: Option<&str>, v: f32) -> Option<(Role, f64)> {
        guess(&capture(&[(name, unit, v)]))
            .remove(0)
            .map(|g| (g.role, g.certainty))
    }

    #[test]
    fn plain_names_in_five_languages() {
        for (name, unit, v, role) in [
            ("TCM fuse amps", Some("V"), 0.1, Role::SupplyCurrent),
            ("Feed current", Some("mV"), 20.0, Role::SupplyCurrent),
            ("Versorgungsstrom", Some("mV"), 1.0, Role::SupplyCurrent),
            (
                "Corriente de alimentación",
                Some("A"),
                1.0,
                Role::SupplyCurrent,
            ),
            ("Courant d'alimentation", None, 1.0, Role::SupplyCurrent),
            ("Corrente fusibile", None, 1.0, Role::SupplyCurrent),
            ("ISS A", Some("mV"), 1.0, Role::InputShaft1),
            ("ISS2", None, 1.0, Role::InputShaft2),
            ("Input shaft 1", Some("V"), 1.0, Role::InputShaft1),
            ("Eingangswelle 2", Some("V"), 1.0, Role::InputShaft2),
            ("Eje de entrada 1", Some("V"), 1.0, Role::InputShaft1),
            ("Arbre d’entrée 2", Some("V"), 1.0, Role::InputShaft2),
            ("Albero d'ingresso 1", Some("V"), 1.0, Role::InputShaft1),
            ("OSS", None, 1.0, Role::OutputShaft),
            ("Abtriebswelle", None, 1.0, Role::OutputShaft),
            ("Engine rpm sensor", Some("V"), 4.9, Role::EngineSpeed),
            ("Motordrehzahl", None, 4.9, Role::EngineSpeed),
            ("Régimen motor", None, 4.9, Role::EngineSpeed),
            ("B+ at fuse", Some("V"), 12.5, Role::SupplyVoltage),
            ("Supply voltage", Some("V"), 13.9, Role::SupplyVoltage),
            ("Bordspannung", Some("V"), 13.9, Role::SupplyVoltage),
            (
                "Tensión de alimentación",
                Some("V"),
                13.9,
                Role::SupplyVoltage,
            ),
            ("Ground drop", Some("mV"), 250.0, Role::GroundVoltage),
            ("clutch motor 1 amps", None, 0.1, Role::ActuatorCurrent1),
            (
                "Kupplungssteller 2 Strom",
                Some("A"),
                0.1,
                Role::ActuatorCurrent2,
            ),
            ("gear motor 2", Some("A"), 0.1, Role::GearMotorCurrent2),
        ] {
            let got = one(name, unit, v);
            assert!(
                got.is_some_and(|(r, c)| r == role && c >= 0.8),
                "{name}: {got:?}"
            );
        }
    }

    #[test]
    fn names_that_say_nothing() {
        for name in ["Channel A", "CH1", "1", "Column 2", "A", "D1"] {
            assert_eq!(one(name, Some("V"), 0.2), None, "{name}");
        }
    }

    #[test]
    fn doubts_lower_the_certainty() {
        assert!(one("Supply voltage", Some("V"), 0.2).unwrap().1 <= 0.5);
        assert!(one("ISS A", Some("rpm"), 0.2).unwrap().1 <= 0.5);
        assert!(one("Input shaft", None, 0.2).unwrap().1 <= 0.5);
        assert_eq!(
            one("Channel A", Some("A"), 1.0),
            Some((Role::SupplyCurrent, 0.5))
        );
        let twice = guess(&capture(&[("ISS 1", None, 1.0), ("ISS A", None, 1.0)]));
        assert!(twice.iter().flatten().all(|g| g.certainty <= 0.4));
    }
}
