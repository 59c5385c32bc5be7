//! Lines of live data, and lines that are none.

use super::*;
use LiveQuantity::*;

#[test]
fn layouts_and_languages() {
    for (line, quantity, text, value, unit) in [
        (
            "Engine speed: 683 rpm",
            EngineSpeed,
            "683 rpm",
            Some(683.0),
            Some("rpm"),
        ),
        (
            "Engine speed;683 rpm;;;",
            EngineSpeed,
            "683 rpm",
            Some(683.0),
            Some("rpm"),
        ),
        (
            "  Engine speed = 0 rpm",
            EngineSpeed,
            "0 rpm",
            Some(0.0),
            Some("rpm"),
        ),
        (
            "Engine speed                 761 rpm",
            EngineSpeed,
            "761 rpm",
            Some(761.0),
            Some("rpm"),
        ),
        (
            "Engine speed read 776 rpm.",
            EngineSpeed,
            "776 rpm",
            Some(776.0),
            Some("rpm"),
        ),
        (
            "live.engine_speed: 701 rpm",
            EngineSpeed,
            "701 rpm",
            Some(701.0),
            Some("rpm"),
        ),
        (
            "Engine speed | 683 | rpm",
            EngineSpeed,
            "683 | rpm",
            Some(683.0),
            Some("rpm"),
        ),
        (
            "Motordrehzahl: 761 1/min",
            EngineSpeed,
            "761 1/min",
            Some(761.0),
            Some("1/min"),
        ),
        (
            "Régimen motor: 662 rpm",
            EngineSpeed,
            "662 rpm",
            Some(662.0),
            Some("rpm"),
        ),
        (
            "Régime moteur : 662 tr/min",
            EngineSpeed,
            "662 tr/min",
            Some(662.0),
            Some("tr/min"),
        ),
        (
            "Spannung Steuergerät: 14,4 V",
            ModuleVoltage,
            "14,4 V",
            Some(14.4),
            Some("V"),
        ),
        (
            "Tensión: 13.9 V",
            ModuleVoltage,
            "13.9 V",
            Some(13.9),
            Some("V"),
        ),
        (
            "Tensione centralina = 12,5 V",
            ModuleVoltage,
            "12,5 V",
            Some(12.5),
            Some("V"),
        ),
        (
            "Selector position read P.",
            SelectorPosition,
            "P",
            None,
            None,
        ),
        ("Wählhebel: D", SelectorPosition, "D", None, None),
        ("Posición selector: P", SelectorPosition, "P", None, None),
        (
            "live.selector_position: D",
            SelectorPosition,
            "D",
            None,
            None,
        ),
        (
            "Selector position            N",
            SelectorPosition,
            "N",
            None,
            None,
        ),
        (
            "Vehicle speed: 50 km/h",
            VehicleSpeed,
            "50 km/h",
            Some(50.0),
            Some("km/h"),
        ),
    ] {
        let found = items(line);
        assert_eq!(found.len(), 1, "{line}: {found:?}");
        let i = &found[0];
        assert_eq!(i.quantity, Some(quantity), "{line}");
        assert_eq!(
            (i.text.as_str(), i.value, i.unit.as_deref()),
            (text, value, unit),
            "{line}"
        );
    }
}

#[test]
fn several_in_a_line() {
    for line in [
        "Gear selector: N; Engine speed: 812 1/min; Module voltage: 13.9 V",
        "Wählhebelstellung N / Motordrehzahl 812 1/min / Batteriespannung 13,9 V",
        "El selector está en N, el régimen del motor es de 812 rpm y la tensión es de 13,9 V.",
        "live;engine_speed=812 rpm;selector=N;supply_voltage=13.9 V",
    ] {
        let found = items(line);
        let of = |q| {
            found
                .iter()
                .find(|i| i.quantity == Some(q))
                .map(|i| (i.text.clone(), i.value))
        };
        assert_eq!(of(EngineSpeed).and_then(|i| i.1), Some(812.0), "{line}");
        assert_eq!(of(ModuleVoltage).and_then(|i| i.1), Some(13.9), "{line}");
        assert_eq!(
            of(SelectorPosition).map(|i| i.0).as_deref(),
            Some("N"),
            "{line}"
        );
    }
}

#[test]
fn what_is_no_live_data() {
    for line in [
        "Adaptation: failed",
        "Visit of 2025-03-27",
        "Engine speed sensor circuit",
        "rpm",
        "a: 5",
    ] {
        assert!(items(line).is_empty(), "{line}: {:?}", items(line));
    }
}

/// A speed of something else is kept by its name and is not the engine's.
#[test]
fn another_speed_is_not_the_engines() {
    for line in [
        "Turbine speed 2: 1200 rpm",
        "Fan rpm = 1200 rpm",
        "Drehzahl Pumpe: 1200 1/min",
    ] {
        let found = items(line);
        assert_eq!(found.len(), 1, "{line}: {found:?}");
        assert_eq!(
            (found[0].quantity, found[0].value),
            (None, Some(1200.0)),
            "{line}"
        );
    }
    assert_eq!(items("rpm: 812 rpm")[0].quantity, Some(EngineSpeed));
}
