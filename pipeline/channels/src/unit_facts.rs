//! Facts of the unit that channels do not state themselves: the teeth of `[unit]`.

use model::Channel;
use model::job_file::{ChannelSection, UnitSection};
use model::system::Quantity;

/// Gives the teeth of `[unit]` to the channels that they are meant for; what a channel says of itself wins.
///
/// A count that a channel states as well is that channel's alone. Else it is that of the channels without one, where they
/// are of one kind (the wheels of a vehicle): a camshaft has another than its crankshaft.
pub fn apply_unit(unit: &UnitSection, channels: &[Channel], sections: &mut [ChannelSection]) {
    let pulses = |c: &Channel| {
        let role = c.role.as_ref();
        role.filter(|r| r.declaration().quantity == Quantity::ToothSignal)
            .map(|r| kind(r.name()).to_owned())
    };
    let kinds: Vec<Option<String>> = channels.iter().map(pulses).collect();
    let own = |s: &&mut ChannelSection| s.teeth.is_some();
    if let Some(teeth) = unit.teeth {
        let is_taken = sections.iter().any(|s| s.teeth == Some(teeth));
        let mut without: Vec<(&String, &mut ChannelSection)> = kinds
            .iter()
            .zip(sections.iter_mut())
            .filter(|(_, s)| !own(s))
            .filter_map(|(kind, s)| Some((kind.as_ref()?, s)))
            .collect();
        let alike = without.windows(2).all(|w| w[0].0 == w[1].0);
        if alike && !is_taken {
            without.iter_mut().for_each(|(_, s)| s.teeth = Some(teeth));
        }
    }
    let meant = |s: &&mut ChannelSection| {
        s.teeth.is_some() && unit.teeth.is_none_or(|n| s.teeth == Some(n))
    };
    for section in sections.iter_mut().filter(meant) {
        section.missing_teeth = section.missing_teeth.or(unit.missing_teeth);
    }
}

/// Name of a role without the number at its end.
fn kind(role: &str) -> &str {
    role.trim_end_matches(|c: char| c.is_ascii_digit() || c == '-')
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::system::RoleDeclaration;
    use model::{Role, Samples};

    /// Teeth and missing teeth that channels of these roles and counts end up with.
    fn applied(
        unit: UnitSection,
        stated: &[(&str, Option<u32>)],
    ) -> Vec<(Option<u32>, Option<u32>)> {
        let channel = |name: &str| {
            let role = Role::declared(RoleDeclaration {
                name: name.into(),
                quantity: Quantity::ToothSignal,
                unit: "V".into(),
                plot_order: 0,
                names: Default::default(),
                hints: Default::default(),
            });
            Channel::recorded(name, None, Samples::F32(vec![0.0].into())).with_role(role)
        };
        let channels: Vec<Channel> = stated.iter().map(|(name, _)| channel(name)).collect();
        let section = |teeth: Option<u32>| ChannelSection {
            teeth,
            ..Default::default()
        };
        let mut sections: Vec<ChannelSection> = stated.iter().map(|s| section(s.1)).collect();
        apply_unit(&unit, &channels, &mut sections);
        sections
            .iter()
            .map(|s| (s.teeth, s.missing_teeth))
            .collect()
    }

    fn unit(teeth: Option<u32>, missing: Option<u32>) -> UnitSection {
        UnitSection {
            teeth,
            missing_teeth: missing,
            ..Default::default()
        }
    }

    #[test]
    fn a_count_is_that_of_the_channel_that_states_it() {
        let found = applied(
            unit(Some(36), Some(1)),
            &[("crank", Some(36)), ("cam", None)],
        );
        assert_eq!(found, [(Some(36), Some(1)), (None, None)]);
    }

    #[test]
    fn a_count_is_that_of_all_channels_of_one_kind() {
        let found = applied(
            unit(Some(48), None),
            &[("wheel-1", None), ("wheel-2", None), ("engine", Some(6))],
        );
        assert_eq!(found, [(Some(48), None), (Some(48), None), (Some(6), None)]);
        let found = applied(unit(Some(48), None), &[("crank", None), ("cam", None)]);
        assert_eq!(found, [(None, None), (None, None)]);
    }
}
