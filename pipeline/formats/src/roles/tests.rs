//! Names, units and shapes that a person would understand. What channels are called is common practice, no source.

use super::*;
use model::{Samples, TimeAxis};

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
            .map(|(name, unit, v)| {
                let samples = Samples::F32(vec![*v; 4].into());
                Channel::recorded(*name, unit.map(String::from), samples)
            })
            .collect(),
        problems: vec![],
        read_as: String::new(),
    }
}

fn one(name: &str, unit: Option<&str>, v: f32) -> Option<(&'static str, f64)> {
    guess(&capture(&[(name, unit, v)]))
        .remove(0)
        .map(|g| (g.role, g.certainty))
}

#[test]
fn plain_names_in_five_languages() {
    for (name, unit, v, role) in [
        ("TCM fuse amps", Some("V"), 0.1, role_names::SUPPLY_CURRENT),
        ("Feed current", Some("mV"), 20.0, role_names::SUPPLY_CURRENT),
        (
            "Versorgungsstrom",
            Some("mV"),
            1.0,
            role_names::SUPPLY_CURRENT,
        ),
        (
            "Corriente de alimentación",
            Some("A"),
            1.0,
            role_names::SUPPLY_CURRENT,
        ),
        (
            "Courant d'alimentation",
            None,
            1.0,
            role_names::SUPPLY_CURRENT,
        ),
        ("Corrente fusibile", None, 1.0, role_names::SUPPLY_CURRENT),
        ("ISS A", Some("mV"), 1.0, role_names::INPUT_SHAFT_1),
        ("ISS2", None, 1.0, role_names::INPUT_SHAFT_2),
        ("Input shaft 1", Some("V"), 1.0, role_names::INPUT_SHAFT_1),
        ("Eingangswelle 2", Some("V"), 1.0, role_names::INPUT_SHAFT_2),
        (
            "Eje de entrada 1",
            Some("V"),
            1.0,
            role_names::INPUT_SHAFT_1,
        ),
        (
            "Arbre d’entrée 2",
            Some("V"),
            1.0,
            role_names::INPUT_SHAFT_2,
        ),
        (
            "Albero d'ingresso 1",
            Some("V"),
            1.0,
            role_names::INPUT_SHAFT_1,
        ),
        ("OSS", None, 1.0, role_names::OUTPUT_SHAFT),
        ("Abtriebswelle", None, 1.0, role_names::OUTPUT_SHAFT),
        (
            "Engine rpm sensor",
            Some("V"),
            4.9,
            role_names::ENGINE_SPEED,
        ),
        ("Motordrehzahl", None, 4.9, role_names::ENGINE_SPEED),
        ("Régimen motor", None, 4.9, role_names::ENGINE_SPEED),
        ("B+ at fuse", Some("V"), 12.5, role_names::SUPPLY_VOLTAGE),
        (
            "Supply voltage",
            Some("V"),
            13.9,
            role_names::SUPPLY_VOLTAGE,
        ),
        ("Bordspannung", Some("V"), 13.9, role_names::SUPPLY_VOLTAGE),
        (
            "Tensión de alimentación",
            Some("V"),
            13.9,
            role_names::SUPPLY_VOLTAGE,
        ),
        ("Ground drop", Some("mV"), 250.0, role_names::GROUND_VOLTAGE),
        (
            "clutch motor 1 amps",
            None,
            0.1,
            role_names::ACTUATOR_CURRENT_1,
        ),
        (
            "Kupplungssteller 2 Strom",
            Some("A"),
            0.1,
            role_names::ACTUATOR_CURRENT_2,
        ),
        (
            "gear motor 2",
            Some("A"),
            0.1,
            role_names::GEAR_MOTOR_CURRENT_2,
        ),
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
        Some((role_names::SUPPLY_CURRENT, 0.5))
    );
    let twice = guess(&capture(&[("ISS 1", None, 1.0), ("ISS A", None, 1.0)]));
    assert!(twice.iter().flatten().all(|g| g.certainty <= 0.4));
}

/// Names that a person would understand although they are nobody's usual ones.
#[test]
fn names_of_many_shops() {
    for (name, unit, v, role) in [
        ("Gearbox fuse", Some("A"), 1.4, role_names::SUPPLY_CURRENT),
        ("Gearbox fuse", None, 1.4, role_names::SUPPLY_CURRENT),
        (
            "TCM fuse current",
            Some("V"),
            0.02,
            role_names::SUPPLY_CURRENT,
        ),
        ("TCMFuseCurrent", None, 0.02, role_names::SUPPLY_CURRENT),
        ("I_TCM", Some("A"), 0.6, role_names::SUPPLY_CURRENT),
        ("Fuse F21 amps", None, 0.6, role_names::SUPPLY_CURRENT),
        (
            "Getriebesicherung",
            Some("A"),
            0.6,
            role_names::SUPPLY_CURRENT,
        ),
        (
            "Sicherungsstrom",
            Some("mV"),
            0.6,
            role_names::SUPPLY_CURRENT,
        ),
        (
            "Stromzange Getriebe",
            Some("V"),
            0.6,
            role_names::SUPPLY_CURRENT,
        ),
        (
            "Strom Steuergerät",
            Some("A"),
            0.6,
            role_names::SUPPLY_CURRENT,
        ),
        ("Gesamtstrom", None, 0.6, role_names::SUPPLY_CURRENT),
        (
            "Corriente fusible caja",
            None,
            0.6,
            role_names::SUPPLY_CURRENT,
        ),
        ("Fusible TCM", Some("A"), 0.6, role_names::SUPPLY_CURRENT),
        (
            "Intensidad módulo",
            Some("A"),
            0.6,
            role_names::SUPPLY_CURRENT,
        ),
        (
            "Intensité fusible boîte",
            None,
            0.6,
            role_names::SUPPLY_CURRENT,
        ),
        (
            "Courant calculateur",
            Some("V"),
            0.1,
            role_names::SUPPLY_CURRENT,
        ),
        (
            "Corrente centralina cambio",
            None,
            0.6,
            role_names::SUPPLY_CURRENT,
        ),
        (
            "Assorbimento fusibile",
            Some("A"),
            0.6,
            role_names::SUPPLY_CURRENT,
        ),
        ("InputShaft1", Some("V"), 4.9, role_names::INPUT_SHAFT_1),
        (
            "input_shaft_2_speed",
            Some("V"),
            4.9,
            role_names::INPUT_SHAFT_2,
        ),
        (
            "Input speed sensor B",
            Some("V"),
            4.9,
            role_names::INPUT_SHAFT_2,
        ),
        ("ISS odd", Some("V"), 4.9, role_names::INPUT_SHAFT_1),
        ("Odd input shaft", Some("V"), 4.9, role_names::INPUT_SHAFT_1),
        (
            "Drehzahlgeber Eingangswelle 2",
            Some("V"),
            4.9,
            role_names::INPUT_SHAFT_2,
        ),
        (
            "Eingangswellendrehzahl 1",
            Some("V"),
            4.9,
            role_names::INPUT_SHAFT_1,
        ),
        ("Antriebswelle 2", Some("V"), 4.9, role_names::INPUT_SHAFT_2),
        (
            "Sensor eje primario 1",
            Some("V"),
            4.9,
            role_names::INPUT_SHAFT_1,
        ),
        (
            "Velocidad de entrada 2",
            Some("V"),
            4.9,
            role_names::INPUT_SHAFT_2,
        ),
        (
            "Régime arbre primaire 1",
            Some("V"),
            4.9,
            role_names::INPUT_SHAFT_1,
        ),
        (
            "Capteur vitesse entrée 2",
            Some("V"),
            4.9,
            role_names::INPUT_SHAFT_2,
        ),
        (
            "Sensore albero primario 2",
            Some("V"),
            4.9,
            role_names::INPUT_SHAFT_2,
        ),
        (
            "Giri albero d'ingresso 1",
            Some("V"),
            4.9,
            role_names::INPUT_SHAFT_1,
        ),
        ("Getriebeabtrieb", Some("V"), 4.9, role_names::OUTPUT_SHAFT),
        (
            "Drehzahl Ausgangswelle",
            Some("V"),
            4.9,
            role_names::OUTPUT_SHAFT,
        ),
        (
            "Velocidad eje de salida",
            Some("V"),
            4.9,
            role_names::OUTPUT_SHAFT,
        ),
        (
            "Vitesse de sortie",
            Some("V"),
            4.9,
            role_names::OUTPUT_SHAFT,
        ),
        (
            "Giri albero di uscita",
            Some("V"),
            4.9,
            role_names::OUTPUT_SHAFT,
        ),
        (
            "Kurbelwellensensor",
            Some("V"),
            0.1,
            role_names::ENGINE_SPEED,
        ),
        ("Sensor cigüeñal", Some("V"), 0.1, role_names::ENGINE_SPEED),
        (
            "Capteur vilebrequin",
            Some("V"),
            0.1,
            role_names::ENGINE_SPEED,
        ),
        ("Régime moteur", Some("V"), 0.1, role_names::ENGINE_SPEED),
        (
            "Sensore giri motore",
            Some("V"),
            0.1,
            role_names::ENGINE_SPEED,
        ),
        (
            "Batteriespannung",
            Some("V"),
            12.4,
            role_names::SUPPLY_VOLTAGE,
        ),
        ("Klemme 30", Some("V"), 12.4, role_names::SUPPLY_VOLTAGE),
        ("TCM supply", Some("V"), 12.4, role_names::SUPPLY_VOLTAGE),
        (
            "Tensión batería",
            Some("V"),
            12.4,
            role_names::SUPPLY_VOLTAGE,
        ),
        (
            "Tension d'alimentation",
            Some("V"),
            12.4,
            role_names::SUPPLY_VOLTAGE,
        ),
        (
            "Tensione batteria",
            Some("V"),
            12.4,
            role_names::SUPPLY_VOLTAGE,
        ),
        (
            "Masse Getriebe",
            Some("mV"),
            40.0,
            role_names::GROUND_VOLTAGE,
        ),
        (
            "Caída de masa",
            Some("mV"),
            40.0,
            role_names::GROUND_VOLTAGE,
        ),
        (
            "Chute de masse",
            Some("mV"),
            40.0,
            role_names::GROUND_VOLTAGE,
        ),
        (
            "Caduta di massa",
            Some("mV"),
            40.0,
            role_names::GROUND_VOLTAGE,
        ),
        (
            "Kupplungsmotor K2",
            Some("A"),
            1.0,
            role_names::ACTUATOR_CURRENT_2,
        ),
        (
            "Corriente embrague 1",
            None,
            1.0,
            role_names::ACTUATOR_CURRENT_1,
        ),
        (
            "Courant embrayage 2",
            None,
            1.0,
            role_names::ACTUATOR_CURRENT_2,
        ),
        (
            "Corrente attuatore frizione 1",
            None,
            1.0,
            role_names::ACTUATOR_CURRENT_1,
        ),
        (
            "Gangsteller 1 Strom",
            None,
            1.0,
            role_names::GEAR_MOTOR_CURRENT_1,
        ),
        (
            "Courant moteur de sélection 2",
            None,
            1.0,
            role_names::GEAR_MOTOR_CURRENT_2,
        ),
        ("Fuel pump current", Some("A"), 4.0, role_names::OTHER),
        ("Wheel speed FL", Some("V"), 4.0, role_names::OTHER),
        ("Anlasserstrom", Some("A"), 4.0, role_names::OTHER),
    ] {
        let got = one(name, unit, v);
        assert!(
            got.is_some_and(|(r, c)| r == role && c >= SAFE),
            "{name}: {got:?}"
        );
    }
}

/// A wrong safe guess costs more than a question.
#[test]
fn what_a_name_leaves_open_is_never_safe() {
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
        assert!(
            got.is_none_or(|(r, c)| r == role_names::OTHER || c < SAFE),
            "{name}: {got:?}"
        );
    }
}

#[test]
fn a_pair_of_shafts_is_safe_and_a_pair_of_speeds_only_beside_an_output() {
    let roles = |names: &[&str]| -> Vec<(&'static str, bool)> {
        let channels: Vec<_> = names.iter().map(|n| (*n, Some("V"), 4.9)).collect();
        guess(&capture(&channels))
            .into_iter()
            .flatten()
            .map(|g| (g.role, g.certainty >= SAFE))
            .collect()
    };
    let inputs = |safe| {
        vec![
            (role_names::INPUT_SHAFT_1, safe),
            (role_names::INPUT_SHAFT_2, safe),
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
        (role_names::INPUT_SHAFT_1, true)
    );
}

#[test]
fn the_signal_alone_gives_a_hint_and_no_more() {
    let mut c = capture(&[
        ("Channel A", Some("V"), 12.4),
        ("Channel B", Some("V"), 0.0),
    ]);
    let square: Vec<f32> = (0..400)
        .map(|i| if i % 8 < 4 { 0.2 } else { 4.8 })
        .collect();
    c.channels[1].samples = Samples::F32(square.into());
    let guesses = guess(&c);
    let of = |i: usize| guesses[i].as_ref().map(|g| (g.role, g.certainty < SAFE));
    assert_eq!(of(0), Some((role_names::SUPPLY_VOLTAGE, true)));
    assert_eq!(of(1), Some((role_names::INPUT_SHAFT_1, true)));
}
