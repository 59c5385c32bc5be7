//! Names, units and shapes that a person would understand. What channels are called is common practice, no source.

use baybrief_channels::{SAFE, guess};
use model::system::{Roles, SystemSheet};
use model::{Capture, Channel, Samples, TimeAxis, TimeSource};
use proptest::prelude::*;

/// Roles that systems of this repository declare, with the shared ones. Of all systems where none is named.
fn roles_of(systems: &[&str]) -> Roles {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../plugins");
    let mut sheets = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path().join("system.toml");
        if let Ok(text) = std::fs::read_to_string(&path) {
            sheets.push(
                toml::from_str::<SystemSheet>(&text).unwrap_or_else(|e| panic!("{path:?}: {e}")),
            );
        }
    }
    sheets.retain(|s| s.shared || systems.is_empty() || systems.contains(&s.name.as_str()));
    assert!(!sheets.is_empty());
    Roles::declared_by(&sheets).unwrap()
}

fn capture(channels: &[(&str, Option<&str>, f32)]) -> Capture {
    Capture {
        file: "a".into(),
        started: None,
        time: TimeAxis::Even {
            start_s: 0.0,
            step_s: 1.0,
            len: 4,
        },
        time_source: TimeSource::File,
        channels: channels
            .iter()
            .map(|(name, unit, v)| {
                let samples = Samples::F32(vec![*v; 4].into());
                Channel::recorded(*name, unit.map(String::from), samples)
            })
            .collect(),
        problems: vec![],
        read_as: String::new(),
    }
}

/// Guess of a gearbox's channel alone; the further systems have tests of their own.
fn one(name: &str, unit: Option<&str>, v: f32) -> Option<(String, f64)> {
    let roles = roles_of(&["dual-dry-clutch"]);
    guess(&capture(&[(name, unit, v)]), &roles)
        .remove(0)
        .map(|g| (g.role.name().to_string(), g.certainty))
}

#[test]
fn plain_names_in_five_languages() {
    let mut wrong = Vec::new();
    for (name, unit, v, role) in [
        ("TCM fuse amps", Some("V"), 0.1, "supply-current"),
        ("Feed current", Some("mV"), 20.0, "supply-current"),
        ("Versorgungsstrom", Some("mV"), 1.0, "supply-current"),
        (
            "Corriente de alimentación",
            Some("A"),
            1.0,
            "supply-current",
        ),
        ("Courant d'alimentation", None, 1.0, "supply-current"),
        ("Corrente fusibile", None, 1.0, "supply-current"),
        ("ISS A", Some("mV"), 1.0, "input-shaft-1"),
        ("ISS2", None, 1.0, "input-shaft-2"),
        ("Input shaft 1", Some("V"), 1.0, "input-shaft-1"),
        ("Eingangswelle 2", Some("V"), 1.0, "input-shaft-2"),
        ("Eje de entrada 1", Some("V"), 1.0, "input-shaft-1"),
        ("Arbre d’entrée 2", Some("V"), 1.0, "input-shaft-2"),
        ("Albero d'ingresso 1", Some("V"), 1.0, "input-shaft-1"),
        ("OSS", None, 1.0, "output-shaft"),
        ("Abtriebswelle", None, 1.0, "output-shaft"),
        ("Engine rpm sensor", Some("V"), 4.9, "engine-speed"),
        ("Motordrehzahl", None, 4.9, "engine-speed"),
        ("Régimen motor", None, 4.9, "engine-speed"),
        ("B+ at fuse", Some("V"), 12.5, "supply-voltage"),
        ("Supply voltage", Some("V"), 13.9, "supply-voltage"),
        ("Bordspannung", Some("V"), 13.9, "supply-voltage"),
        ("Tensión de alimentación", Some("V"), 13.9, "supply-voltage"),
        ("Ground drop", Some("mV"), 250.0, "ground-voltage"),
        ("clutch motor 1 amps", None, 0.1, "actuator-current-1"),
        (
            "Kupplungssteller 2 Strom",
            Some("A"),
            0.1,
            "actuator-current-2",
        ),
        ("gear motor 2", Some("A"), 0.1, "gear-motor-current-2"),
    ] {
        let got = one(name, unit, v);
        if got.as_ref().is_none_or(|(r, c)| r != role || *c < SAFE) {
            wrong.push(format!("{name}: {got:?}, not {role}"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn names_that_say_nothing() {
    for name in ["Input 1", "CH1", "1", "Column 2", "A", "D1"] {
        assert_eq!(one(name, Some("V"), 0.2), None, "{name}");
    }
}

#[test]
fn doubts_lower_the_certainty() {
    assert!(one("Supply voltage", Some("V"), 0.2).unwrap().1 <= 0.5);
    assert!(one("ISS A", Some("rpm"), 0.2).unwrap().1 <= 0.5);
    assert!(one("Input shaft", None, 0.2).unwrap().1 <= 0.5);
    assert_eq!(
        one("Input 1", Some("A"), 1.0),
        Some(("supply-current".into(), 0.5))
    );
    let twice = guess(
        &capture(&[("ISS 1", None, 1.0), ("ISS A", None, 1.0)]),
        &roles_of(&["dual-dry-clutch"]),
    );
    assert!(twice.iter().flatten().all(|g| g.certainty <= 0.4));
}

/// Names that a person would understand although they are nobody's usual ones.
#[test]
fn names_of_many_shops() {
    let mut wrong = Vec::new();
    for (name, unit, v, role) in [
        ("Gearbox fuse", Some("A"), 1.4, "supply-current"),
        ("Gearbox fuse", None, 1.4, "supply-current"),
        ("TCM fuse current", Some("V"), 0.02, "supply-current"),
        ("TCMFuseCurrent", None, 0.02, "supply-current"),
        ("I_TCM", Some("A"), 0.6, "supply-current"),
        ("Fuse F21 amps", None, 0.6, "supply-current"),
        ("Getriebesicherung", Some("A"), 0.6, "supply-current"),
        ("Sicherungsstrom", Some("mV"), 0.6, "supply-current"),
        ("Stromzange Getriebe", Some("V"), 0.6, "supply-current"),
        ("Strom Steuergerät", Some("A"), 0.6, "supply-current"),
        ("Gesamtstrom", None, 0.6, "supply-current"),
        ("Corriente fusible caja", None, 0.6, "supply-current"),
        ("Fusible TCM", Some("A"), 0.6, "supply-current"),
        ("Intensidad módulo", Some("A"), 0.6, "supply-current"),
        ("Intensité fusible boîte", None, 0.6, "supply-current"),
        ("Courant calculateur", Some("V"), 0.1, "supply-current"),
        ("Corrente centralina cambio", None, 0.6, "supply-current"),
        ("Assorbimento fusibile", Some("A"), 0.6, "supply-current"),
        ("InputShaft1", Some("V"), 4.9, "input-shaft-1"),
        ("input_shaft_2_speed", Some("V"), 4.9, "input-shaft-2"),
        ("Input speed sensor B", Some("V"), 4.9, "input-shaft-2"),
        ("ISS odd", Some("V"), 4.9, "input-shaft-1"),
        ("Odd input shaft", Some("V"), 4.9, "input-shaft-1"),
        (
            "Drehzahlgeber Eingangswelle 2",
            Some("V"),
            4.9,
            "input-shaft-2",
        ),
        ("Eingangswellendrehzahl 1", Some("V"), 4.9, "input-shaft-1"),
        ("Antriebswelle 2", Some("V"), 4.9, "input-shaft-2"),
        ("Sensor eje primario 1", Some("V"), 4.9, "input-shaft-1"),
        ("Velocidad de entrada 2", Some("V"), 4.9, "input-shaft-2"),
        ("Régime arbre primaire 1", Some("V"), 4.9, "input-shaft-1"),
        ("Capteur vitesse entrée 2", Some("V"), 4.9, "input-shaft-2"),
        ("Sensore albero primario 2", Some("V"), 4.9, "input-shaft-2"),
        ("Giri albero d'ingresso 1", Some("V"), 4.9, "input-shaft-1"),
        ("Getriebeabtrieb", Some("V"), 4.9, "output-shaft"),
        ("Drehzahl Ausgangswelle", Some("V"), 4.9, "output-shaft"),
        ("Velocidad eje de salida", Some("V"), 4.9, "output-shaft"),
        ("Vitesse de sortie", Some("V"), 4.9, "output-shaft"),
        ("Giri albero di uscita", Some("V"), 4.9, "output-shaft"),
        ("Kurbelwellensensor", Some("V"), 0.1, "engine-speed"),
        ("Sensor cigüeñal", Some("V"), 0.1, "engine-speed"),
        ("Capteur vilebrequin", Some("V"), 0.1, "engine-speed"),
        ("Régime moteur", Some("V"), 0.1, "engine-speed"),
        ("Sensore giri motore", Some("V"), 0.1, "engine-speed"),
        ("Batteriespannung", Some("V"), 12.4, "supply-voltage"),
        ("Klemme 30", Some("V"), 12.4, "supply-voltage"),
        ("TCM supply", Some("V"), 12.4, "supply-voltage"),
        ("Tensión batería", Some("V"), 12.4, "supply-voltage"),
        ("Tension d'alimentation", Some("V"), 12.4, "supply-voltage"),
        ("Tensione batteria", Some("V"), 12.4, "supply-voltage"),
        ("Masse Getriebe", Some("mV"), 40.0, "ground-voltage"),
        ("Caída de masa", Some("mV"), 40.0, "ground-voltage"),
        ("Chute de masse", Some("mV"), 40.0, "ground-voltage"),
        ("Caduta di massa", Some("mV"), 40.0, "ground-voltage"),
        ("Kupplungsmotor K2", Some("A"), 1.0, "actuator-current-2"),
        ("Corriente embrague 1", None, 1.0, "actuator-current-1"),
        ("Courant embrayage 2", None, 1.0, "actuator-current-2"),
        (
            "Corrente attuatore frizione 1",
            None,
            1.0,
            "actuator-current-1",
        ),
        ("Gangsteller 1 Strom", None, 1.0, "gear-motor-current-1"),
        (
            "Courant moteur de sélection 2",
            None,
            1.0,
            "gear-motor-current-2",
        ),
        ("Fuel pump current", Some("A"), 4.0, "other"),
        ("Wheel speed FL", Some("V"), 4.0, "other"),
        ("Anlasserstrom", Some("A"), 4.0, "other"),
    ] {
        let got = one(name, unit, v);
        if got.as_ref().is_none_or(|(r, c)| r != role || *c < SAFE) {
            wrong.push(format!("{name}: {got:?}, not {role}"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// A wrong safe guess costs more than a question.
#[test]
fn what_a_name_leaves_open_is_never_safe() {
    let mut wrong = Vec::new();
    for (name, unit, v) in [
        ("Current", Some("A"), 1.0),
        ("Strom", Some("V"), 0.1),
        ("Input 1", Some("V"), 1.0),
        ("Output 2", Some("V"), 1.0),
        ("Input A", Some("V"), 1.0),
        ("N1", Some("V"), 4.9),
        ("Drehzahl 2", Some("V"), 4.9),
        ("Régime 1", Some("V"), 4.9),
        ("Shaft 1 sensor", Some("V"), 4.9),
        ("Welle 2", Some("V"), 4.9),
        ("Shaft 3", Some("V"), 4.9),
        ("Input shaft", Some("V"), 4.9),
        ("Battery current", Some("A"), 4.0),
        ("Gearbox fuse", Some("V"), 12.4),
        ("Feed current", Some("V"), 12.4),
        ("Clutch motor 1", Some("V"), 1.0),
        ("Motor", Some("V"), 1.0),
        ("Sensor ground", Some("V"), 0.1),
        ("Time", Some("V"), 0.1),
        ("", None, 0.1),
        ("µ", None, 0.1),
    ] {
        let got = one(name, unit, v);
        if got
            .as_ref()
            .is_some_and(|(r, c)| r != "other" && *c >= SAFE)
        {
            wrong.push(format!("{name}: {got:?} is safe"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn a_pair_of_shafts_is_safe_and_a_pair_of_speeds_only_beside_an_output() {
    let roles = |names: &[&str]| -> Vec<(String, bool)> {
        let channels: Vec<_> = names.iter().map(|n| (*n, Some("V"), 4.9)).collect();
        guess(&capture(&channels), &roles_of(&["dual-dry-clutch"]))
            .into_iter()
            .flatten()
            .map(|g| (g.role.name().to_string(), g.certainty >= SAFE))
            .collect()
    };
    let inputs = |safe| {
        vec![
            ("input-shaft-1".to_string(), safe),
            ("input-shaft-2".to_string(), safe),
        ]
    };
    for pair in [
        ["Shaft 1 sensor", "Shaft 2 sensor"],
        ["Welle A", "Welle B"],
        ["Eje 1", "Eje 2"],
        ["Arbre 1", "Arbre 2"],
        ["Albero dispari", "Albero pari"],
    ] {
        assert_eq!(roles(&pair), inputs(true), "{pair:?}");
    }
    for pair in [
        ["N1", "N2"],
        ["Drehzahl 1", "Drehzahl 2"],
        ["Giri 1", "Giri 2"],
        ["n_1", "n_2"],
    ] {
        assert_eq!(roles(&pair), inputs(false), "{pair:?}");
    }
    assert_eq!(roles(&["N1", "N2", "Output speed"])[..2], inputs(true));
    assert_eq!(
        roles(&["Shaft 1", "Output shaft"])[0],
        ("input-shaft-1".to_string(), true)
    );
}

#[test]
fn the_signal_alone_gives_a_hint_and_no_more() {
    let mut c = capture(&[("Input 1", Some("V"), 12.4), ("Input 2", Some("V"), 0.0)]);
    let square: Vec<f32> = (0..400)
        .map(|i| if i % 8 < 4 { 0.2 } else { 4.8 })
        .collect();
    c.channels[1].samples = Samples::F32(square.into());
    let guesses = guess(&c, &roles_of(&["dual-dry-clutch"]));
    let of = |i: usize| {
        guesses[i]
            .as_ref()
            .map(|g| (g.role.name(), g.certainty < SAFE))
    };
    assert_eq!(of(0), Some(("supply-voltage", true)));
    assert_eq!(of(1), Some(("input-shaft-1", true)));
}

/// With both systems declared a name goes to the one whose other channels were recorded.
#[test]
fn a_battery_beside_a_starter_is_the_battery_itself() {
    let roles = roles_of(&[]);
    let of = |channels: &[(&str, Option<&str>, f32)]| -> Vec<Option<(String, bool)>> {
        guess(&capture(channels), &roles)
            .into_iter()
            .map(|g| g.map(|g| (g.role.name().to_string(), g.certainty >= SAFE)))
            .collect()
    };
    let safe = |role: &str| Some((role.to_string(), true));
    assert_eq!(
        of(&[
            ("Batteriespannung", Some("V"), 12.4),
            ("Anlasserstrom", Some("A"), 4.0)
        ]),
        [safe("battery-voltage"), safe("starter-current")]
    );
    assert_eq!(
        of(&[
            ("Battery voltage", Some("V"), 12.4),
            ("Input shaft 1", Some("V"), 4.9)
        ]),
        [safe("supply-voltage"), safe("input-shaft-1")]
    );
    assert_eq!(
        of(&[("Battery current", Some("A"), 4.0)]),
        [safe("battery-current")]
    );
    assert_eq!(
        of(&[("Corriente alternador", None, 4.0)]),
        [safe("alternator-current")]
    );
    assert_eq!(
        of(&[
            ("Fuel pump current", Some("A"), 4.0),
            ("Pump voltage", Some("V"), 12.1)
        ]),
        [safe("motor-current"), safe("motor-voltage")]
    );
    // A part of a system's name is no channel of the system: volts alone may be a pressure's.
    assert_eq!(
        of(&[("Fuel pump pressure", Some("V"), 4.0)]),
        [safe("other")]
    );
    assert!(!of(&[("Pump", Some("V"), 0.1)]).contains(&safe("motor-voltage")));
}

static ALL: std::sync::LazyLock<Roles> = std::sync::LazyLock::new(|| roles_of(&[]));

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]
    /// Whatever the names, units and values: a guess for each channel at most, of a certainty between 0 and 1.
    #[test]
    fn any_channels(
        channels in prop::collection::vec(
            ("[a-zA-Z0-9 _+\\-\u{e9}\u{fc}]{0,24}", prop::option::of("[a-zA-Z%]{0,3}"), any::<f32>()),
            0..12,
        ),
    ) {
        let channels: Vec<_> = channels.iter().map(|(n, u, v)| (n.as_str(), u.as_deref(), *v)).collect();
        let guesses = guess(&capture(&channels), &ALL);
        prop_assert_eq!(guesses.len(), channels.len());
        prop_assert!(guesses.iter().flatten().all(|g| (0.0..=1.0).contains(&g.certainty)));
    }
}
