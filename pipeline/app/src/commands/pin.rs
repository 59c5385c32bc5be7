//! `pin`: the PIN with which a person signs at the page.

use crate::arguments::Usage;
use crate::context::Settings;
use crate::output::say_error;
use crate::serve::{PIN_DIGITS, set_pin};
use crate::words::{self, phrase, tell};
use anyhow::Result;
use report::localizer::Localizer;
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
    let theme = words::of_shop(&settings.shop)?;
    let localizer = theme.localizer();
    if remove {
        set_pin(&pins, name, None)?;
        tell!(localizer, "console-pin-removed", "name" => name);
        return Ok(true);
    }
    let pin = ask(localizer)?;
    set_pin(&pins, name, Some(&pin))?;
    tell!(localizer, "console-pin-set", "name" => name, "path" => pins.display().to_string());
    Ok(true)
}

/// A PIN, typed twice unseen; from a pipe its first line.
fn ask(localizer: &Localizer) -> Result<String> {
    if !std::io::stdin().is_terminal() {
        let mut line = String::new();
        std::io::stdin().lock().read_line(&mut line)?;
        return checked(line.trim());
    }
    let (least, most) = (*PIN_DIGITS.start(), *PIN_DIGITS.end());
    say_error!(
        "{}",
        phrase!(localizer, "console-pin-digits", "least" => least, "most" => most)
    );
    let pin = checked(rpassword::prompt_password("PIN: ")?.trim())?;
    let again = format!("{}: ", phrase!(localizer, "console-pin-again"));
    match rpassword::prompt_password(again)?.trim() == pin {
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
