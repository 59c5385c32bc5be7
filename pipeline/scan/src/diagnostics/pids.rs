//! Values of service 01 (SAE J1979 / ISO 15031-5).

use model::scan::LiveQuantity;

/// One value of an answer.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Value {
    pub name: &'static str,
    pub quantity: Option<LiveQuantity>,
    pub value: f64,
    pub unit: &'static str,
}

/// Encoding of a parameter: name, quantity, data bytes, and value = (first bytes as a number) * factor + offset.
struct Parameter {
    pid: u8,
    bytes: usize,
    name: &'static str,
    quantity: Option<LiveQuantity>,
    factor: f64,
    offset: f64,
    unit: &'static str,
}

const fn parameter(
    pid: u8,
    bytes: usize,
    name: &'static str,
    quantity: Option<LiveQuantity>,
    factor: f64,
    offset: f64,
    unit: &'static str,
) -> Parameter {
    Parameter {
        pid,
        bytes,
        name,
        quantity,
        factor,
        offset,
        unit,
    }
}

/// Formulas of 04 to 0F, 1F and 42 as in the CC0 set OBDex, commit cf008f4252; the others from memory.
const PARAMETERS: &[Parameter] = {
    use LiveQuantity::*;
    &[
        parameter(0x04, 1, "calculated load", None, 100.0 / 255.0, 0.0, "%"),
        parameter(
            0x05,
            1,
            "coolant temperature",
            Some(CoolantTemperature),
            1.0,
            -40.0,
            "°C",
        ),
        parameter(0x0B, 1, "intake manifold pressure", None, 1.0, 0.0, "kPa"),
        parameter(0x0C, 2, "engine speed", Some(EngineSpeed), 0.25, 0.0, "rpm"),
        parameter(
            0x0D,
            1,
            "vehicle speed",
            Some(VehicleSpeed),
            1.0,
            0.0,
            "km/h",
        ),
        parameter(0x0F, 1, "intake air temperature", None, 1.0, -40.0, "°C"),
        parameter(0x10, 2, "mass air flow", None, 0.01, 0.0, "g/s"),
        parameter(0x11, 1, "throttle position", None, 100.0 / 255.0, 0.0, "%"),
        parameter(0x1F, 2, "run time since start", None, 1.0, 0.0, "s"),
        parameter(0x21, 2, "distance with the lamp on", None, 1.0, 0.0, "km"),
        parameter(0x2F, 1, "fuel level", None, 100.0 / 255.0, 0.0, "%"),
        parameter(
            0x31,
            2,
            "distance since codes were cleared",
            None,
            1.0,
            0.0,
            "km",
        ),
        parameter(0x33, 1, "barometric pressure", None, 1.0, 0.0, "kPa"),
        parameter(
            0x42,
            2,
            "module voltage",
            Some(ModuleVoltage),
            0.001,
            0.0,
            "V",
        ),
        parameter(0x46, 1, "ambient temperature", None, 1.0, -40.0, "°C"),
        parameter(0x5C, 1, "oil temperature", None, 1.0, -40.0, "°C"),
        parameter(0xA6, 4, "odometer", None, 0.1, 0.0, "km"),
    ]
};

/// The values of an answer behind its `41`; on CAN up to six parameters follow each other. Stops at the first
/// parameter that is not known, because its length is not known either.
pub(crate) fn values(mut bytes: &[u8]) -> Vec<Value> {
    let mut out = Vec::new();
    while let Some((pid, rest)) = bytes.split_first()
        && let Some(p) = PARAMETERS.iter().find(|p| p.pid == *pid)
        && let Some(data) = rest.get(..p.bytes)
    {
        let raw = data.iter().fold(0u32, |v, b| v << 8 | u32::from(*b));
        // Whole numbers are divided where the factor is a decimal fraction, which no double holds.
        let value = match 1.0 / p.factor {
            n if p.factor < 1.0 && (n - n.round()).abs() < 1e-9 => f64::from(raw) / n.round(),
            _ => f64::from(raw) * p.factor,
        };
        out.push(Value {
            name: p.name,
            quantity: p.quantity,
            value: value + p.offset,
            unit: p.unit,
        });
        bytes = &rest[p.bytes..];
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked values as in the CC0 set OBDex, commit cf008f4252, and computed from its formulas.
    #[test]
    fn worked_values() {
        let all = |bytes: &[u8]| values(bytes).iter().map(|v| v.value).collect::<Vec<_>>();
        for (bytes, want) in [
            (&[0x04, 0x80][..], 12_800.0 / 255.0),
            (&[0x05, 0x7B], 83.0),
            (&[0x0C, 0x1A, 0xF8], 1726.0),
            (&[0x0C, 0x0B, 0xB8], 750.0),
            (&[0x0D, 0x32], 50.0),
            (&[0x0F, 0x41], 25.0),
            (&[0x1F, 0x01, 0x2C], 300.0),
            (&[0x42, 0x37, 0x2B], 14.123),
            (&[0x42, 0x30, 0x39], 12.345),
        ] {
            assert!((all(bytes)[0] - want).abs() < 1e-12, "{bytes:02X?}");
        }
        assert_eq!(all(&[0x0C, 0x1A, 0xF8, 0x0D, 0x32]), [1726.0, 50.0]);
        assert!(
            all(&[0x0C, 0x1A]).is_empty()
                && all(&[0x00, 1, 2, 3, 4]).is_empty()
                && all(&[]).is_empty()
        );
    }
}
