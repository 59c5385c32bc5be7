//! Meaning of a channel's numbers: units, clamp factors, scales, and what is known of them.

use crate::guess::Shape;
use formats::units;
use model::job_file::ChannelSection;
use model::system::Quantity;
use model::{Calibration, Channel};

/// Highest voltage that numbers without a unit are taken for where the role does not say more, V.
const HIGHEST_VOLTS: f64 = 100.0;

/// Applies unit, clamp factor, scale and offset, and notes what the values mean then. `bare` tells that no channel of the
/// file has a unit. The channel's own scale (a WAV's full scale) stays inside.
pub(crate) fn calibrate(channel: &mut Channel, said: Option<&ChannelSection>, bare: bool) {
    let shape = Shape::measure(channel);
    let unit = said
        .and_then(|s| s.unit.clone())
        .or_else(|| channel.unit.clone());
    let base = unit.as_deref().and_then(units::base);
    let wanted = match is_current_loop(channel, said, base) {
        true => "A",
        false => channel.role.as_ref().map_or("V", |r| r.unit()),
    }
    .to_owned();
    let mut scale = |factor: f64| {
        channel.scale *= factor;
        channel.offset *= factor;
    };
    let mut stated = false;
    if let Some((factor, base)) = base {
        scale(factor);
        stated = base == wanted;
    }
    let (clamp, factor, offset) =
        said.map_or((None, None, None), |s| (s.amps_per_volt, s.scale, s.offset));
    // A clamp's factor needs volts: the file's, or those of numbers without a unit; a part of full scale is none.
    let volts = base.map_or(unit.is_none(), |(_, base)| base == "V");
    if let Some(factor) = clamp.filter(|_| volts) {
        scale(factor);
        stated = true;
    }
    if let Some(factor) = factor {
        scale(factor);
        stated = true;
    }
    channel.offset += offset.unwrap_or(0.0);
    channel.calibration = if stated {
        Calibration::Stated
    } else if bare && unit.is_none() && wanted == "V" && plausible_as_volts(channel, shape) {
        Calibration::TakenAsVolts
    } else {
        Calibration::None
    };
    channel.unit = Some(match channel.calibration {
        Calibration::None => base.map_or("", |(_, base)| base).into(),
        _ => wanted,
    });
}

/// True where pulses are recorded as a current: a two-wire sensor signals with what it draws.
fn is_current_loop(
    channel: &Channel,
    said: Option<&ChannelSection>,
    base: Option<(f64, &str)>,
) -> bool {
    let role = channel.role.as_ref();
    let pulses = role.is_some_and(|r| r.declaration().quantity == Quantity::ToothSignal);
    let clamp = said.is_some_and(|s| s.amps_per_volt.is_some());
    pulses && (clamp || base.is_some_and(|(_, base)| base == "A"))
}

/// True where numbers without a unit may be volts of what the role is.
fn plausible_as_volts(channel: &Channel, shape: Option<Shape>) -> bool {
    let (Some(role), Some(shape)) = (&channel.role, shape) else {
        return false;
    };
    let declaration = role.declaration();
    let in_reach = shape.low > -HIGHEST_VOLTS && shape.high < HIGHEST_VOLTS;
    match (declaration.quantity, declaration.hints.usual) {
        (Quantity::Current, _) => false,
        (_, Some((low, high))) => in_reach && (low..=high).contains(&shape.middle),
        (_, None) => in_reach,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::system::RoleDeclaration;
    use model::{Role, Samples};

    fn role(quantity: Quantity, unit: &str) -> Role {
        let mut role = RoleDeclaration {
            name: "test".into(),
            quantity,
            unit: unit.into(),
            plot_order: 0,
            names: Default::default(),
            hints: Default::default(),
        };
        if quantity == Quantity::Voltage {
            role.hints.usual = Some((5.0, 32.0));
        }
        Role::declared(role)
    }

    fn calibrated(
        unit: Option<&str>,
        role: Role,
        value: f32,
        bare: bool,
        say: impl FnOnce(&mut ChannelSection),
    ) -> Channel {
        let samples = Samples::F32(vec![value].into());
        let mut channel =
            Channel::recorded("Input 1", unit.map(Into::into), samples).with_role(role);
        let mut section = ChannelSection::default();
        say(&mut section);
        calibrate(&mut channel, Some(&section), bare);
        channel
    }

    fn current() -> Role {
        role(Quantity::Current, "A")
    }

    #[test]
    fn a_clamp_in_millivolts() {
        // 100 mV at 100 A/V are 10 A.
        let c = calibrated(Some("mV"), current(), 100.0, false, |s| {
            s.amps_per_volt = Some(100.0)
        });
        assert!((c.value(0) - 10.0).abs() < 1e-9);
        assert_eq!(
            (c.calibration, c.unit.as_deref()),
            (Calibration::Stated, Some("A"))
        );
    }

    /// 1.54 V across 220 ohm are 7 mA.
    #[test]
    fn pulses_of_a_two_wire_sensor_are_a_current() {
        let c = calibrated(
            Some("V"),
            role(Quantity::ToothSignal, "V"),
            1.54,
            false,
            |s| s.amps_per_volt = Some(1.0 / 220.0),
        );
        assert!((c.value(0) - 0.007).abs() < 1e-6 && c.calibrated());
        assert_eq!(c.unit.as_deref(), Some("A"));
    }

    #[test]
    fn amperes_are_not_scaled_again() {
        let c = calibrated(Some("A"), current(), 100.0, false, |s| {
            s.amps_per_volt = Some(100.0)
        });
        assert!((c.value(0) - 100.0).abs() < 1e-9 && c.calibrated());
    }

    #[test]
    fn volts_of_a_clamp_without_its_factor_are_no_amperes() {
        let c = calibrated(Some("V"), current(), 100.0, false, |_| {});
        assert_eq!(
            (c.calibration, c.unit.as_deref()),
            (Calibration::None, Some("V"))
        );
    }

    #[test]
    fn numbers_without_unit_or_factor_are_no_amperes() {
        let c = calibrated(None, current(), 3.6, true, |_| {});
        assert_eq!(
            (c.calibration, c.unit.as_deref()),
            (Calibration::None, Some(""))
        );
        // A factor of one is a statement.
        for say in [
            |s: &mut ChannelSection| s.scale = Some(1.0),
            |s: &mut ChannelSection| s.amps_per_volt = Some(1.0),
        ] {
            let c = calibrated(None, current(), 3.6, true, say);
            assert_eq!(c.calibration, Calibration::Stated);
            assert!((c.value(0) - 3.6).abs() < 1e-6);
        }
    }

    #[test]
    fn voltages_of_a_bare_header_are_volts_where_plausible() {
        let voltage = || role(Quantity::Voltage, "V");
        let of = |value, bare| calibrated(None, voltage(), value, bare, |_| {}).calibration;
        assert_eq!(of(12.6, true), Calibration::TakenAsVolts);
        // Millivolts, and a file in which other channels have a unit.
        assert_eq!(of(12_600.0, true), Calibration::None);
        assert_eq!(of(12.6, false), Calibration::None);
        // The length of a bus frame is none.
        let count = calibrated(None, role(Quantity::State, ""), 8.0, true, |_| {});
        assert_eq!(count.calibration, Calibration::None);
    }

    #[test]
    fn a_part_of_full_scale_is_no_volt() {
        let tooth = || role(Quantity::ToothSignal, "V");
        let full = Some("full scale");
        assert_eq!(
            calibrated(full, tooth(), 0.2, false, |_| {}).calibration,
            Calibration::None
        );
        let c = calibrated(full, tooth(), 0.2, false, |s| s.scale = Some(20.0));
        assert!(c.calibrated() && (c.value(0) - 4.0).abs() < 1e-6);
        let c = calibrated(full, current(), 0.2, false, |s| {
            s.amps_per_volt = Some(20.0)
        });
        assert!(!c.calibrated());
    }
}
