//! `pin`: the PIN with which a person signs at the page.

use crate::arguments::Usage;
use crate::context::Settings;
use crate::output::{say, say_error};
use crate::serve::{PIN_DIGITS, set_pin};
use anyhow::Result;
use std::io::{BufRead, IsTerminal};
use std::path::Path;

/// Asks for the PIN of a person and keeps its digest; or takes it away.
pub fn pin(name: &str, remove: bool, shop: &Path) -> Result<bool> {
    let settings = Settings::read(Some(shop))?;
    let page = &settings.shop.page;
    if !page.persons.iter().any(|p| p.name == name) {
        let names: Vec<&str> = page.persons.iter().map(|p| p.name.as_str()).collect();
        let known = match names.as_slice() {
            [] => "it names no persons yet; add [[page.person]] with name and role".into(),
            names => format!("it names {}", names.join(", ")),
        };
        return Err(Usage(format!(
            "{}: {name:?} is none of its persons: {known}",
            shop.display()
        ))
        .into());
    }
    let pins = settings.base.join(&page.pins);
    if remove {
        set_pin(&pins, name, None)?;
        say!("{name} has no PIN any more, and signs nothing at the page.");
        return Ok(true);
    }
    let pin = ask()?;
    set_pin(&pins, name, Some(&pin))?;
    say!(
        "The PIN of {name} is set; its digest lies in {}.",
        pins.display()
    );
    Ok(true)
}

/// A PIN, typed twice unseen; from a pipe its first line.
fn ask() -> Result<String> {
    if !std::io::stdin().is_terminal() {
        let mut line = String::new();
        std::io::stdin().lock().read_line(&mut line)?;
        return checked(line.trim());
    }
    say_error!(
        "A PIN has {} to {} digits.",
        PIN_DIGITS.start(),
        PIN_DIGITS.end()
    );
    let pin = checked(rpassword::prompt_password("PIN: ")?.trim())?;
    match rpassword::prompt_password("Once more: ")?.trim() == pin {
        true => Ok(pin),
        false => Err(Usage("the two PINs differ; nothing was changed".into()).into()),
    }
}

fn checked(pin: &str) -> Result<String> {
    let is_pin = PIN_DIGITS.contains(&pin.len()) && pin.bytes().all(|b| b.is_ascii_digit());
    match is_pin {
        true => Ok(pin.into()),
        false => Err(Usage(format!(
            "a PIN has {} to {} digits and nothing else; nothing was changed",
            PIN_DIGITS.start(),
            PIN_DIGITS.end()
        ))
        .into()),
    }
}
