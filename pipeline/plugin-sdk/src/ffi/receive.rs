//! From the C structs to what an analyzer is given.

use crate::{ChannelFacts, ChannelView, Input, Quantity, Settings};
use abi::{axis, raw, read};
use plugin_abi as abi;
use signal::Time;

/// Reads what the host sent. `'a` ends with the call.
///
/// # Safety
/// The rules of `analysis_plugin.h` for the first argument of `analyze`.
pub(super) unsafe fn input<'a>(pointer: *const raw::Input) -> Result<Input<'a>, String> {
    // SAFETY (all below): the caller's promise.
    let raw = unsafe { read::sized(pointer)? };
    let file = unsafe { read::text(raw.file, u64::MAX, "file")? };
    let json = unsafe { read::text(raw.settings_json, u64::MAX, "settings_json")? };
    let settings: Settings =
        serde_json::from_str(json).map_err(|e| format!("settings_json cannot be read: {e}"))?;
    let pointers = unsafe { read::slice(raw.channels, raw.channel_count.into(), "channels")? };
    let mut channels = Vec::with_capacity(pointers.len());
    for (i, &pointer) in pointers.iter().enumerate() {
        let facts = settings.channels.get(i).cloned().unwrap_or_default();
        let view = unsafe { channel(pointer, facts) };
        channels.push(view.map_err(|e| format!("channel {i}: {e}"))?);
    }
    Ok(Input {
        file,
        channels,
        settings,
    })
}

/// # Safety
/// As for [`input`].
unsafe fn channel<'a>(
    pointer: *const raw::Channel,
    facts: ChannelFacts,
) -> Result<ChannelView<'a>, String> {
    // SAFETY (all below): the caller's promise.
    let raw = unsafe { read::sized(pointer)? };
    let len = usize::try_from(raw.length).map_err(|e| e.to_string())?;
    let time = if raw.times_s.is_null() {
        Time::Even {
            start_s: raw.start_s,
            step_s: raw.step_s,
        }
    } else {
        Time::Listed(unsafe { read::slice(raw.times_s, raw.length, "times_s")? })
    };
    match time {
        Time::Even { start_s, step_s } => axis::check_even(start_s, step_s, len)?,
        Time::Listed(instants) => axis::check_listed_ends(instants)?,
    }
    Ok(ChannelView {
        role: unsafe { read::text(raw.role, u64::MAX, "role")? },
        quantity: Quantity::of_number(raw.quantity),
        name: unsafe { read::text(raw.name, u64::MAX, "name")? },
        unit: unsafe { read::text(raw.unit, u64::MAX, "unit")? },
        samples: unsafe { read::samples(&raw)? },
        scale: raw.scale,
        offset: raw.offset,
        time,
        facts,
    })
}
