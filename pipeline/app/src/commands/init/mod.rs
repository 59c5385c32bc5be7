//! `init`: a first shop.toml, by questions.

mod catalogue;
mod dialogue;

use crate::arguments::Usage;
use crate::output::say;
use anyhow::{Context, Result};
use catalogue::{Language, OPERATIONS};
use dialogue::Dialogue;
use rust_decimal::Decimal;
use std::fmt::Write as _;
use std::fs::File;
use std::io::{BufRead, ErrorKind, Write, stdin, stdout};
use std::path::Path;

/// Asks for the shop's facts and prices, and writes them to a file that is not there yet.
pub fn init(file: &Path) -> Result<bool> {
    let taken = || {
        Usage(format!(
            "{}: is there already and stays as it is; name another file",
            file.display()
        ))
    };
    if file.exists() {
        return Err(taken().into());
    }
    let text = ask(&mut Dialogue::new(stdin().lock(), stdout().lock()))?;
    match File::create_new(file).and_then(|mut f| f.write_all(text.as_bytes())) {
        Err(e) if e.kind() == ErrorKind::AlreadyExists => return Err(taken().into()),
        written => written.with_context(|| file.display().to_string())?,
    }
    say!(
        "\nWritten to {0}. Look through it, then: baybrief run JOB_FOLDER --out OUT --shop {0}",
        file.display()
    );
    Ok(true)
}

/// Asks all questions; returns the text of shop.toml.
fn ask(dialogue: &mut Dialogue<impl BufRead, impl Write>) -> Result<String> {
    dialogue.say(
        "A first shop.toml. Enter takes what stands in brackets, or leaves the question out. All prices are net: \
         without the tax.",
    )?;
    let mut text = String::from(
        "# The shop's settings. Prices are net. Every key that is left out has a default.\n\n[shop]\n",
    );
    let name = dialogue.required("Name of the shop")?;
    let _ = writeln!(text, "name = {}", quoted(&name));
    for (key, question) in [
        ("address", "Postal address"),
        ("phone", "Telephone"),
        (
            "registration",
            "Licence or registration number, where your place asks for one",
        ),
    ] {
        if let Some(answer) = dialogue.optional(question)? {
            let _ = writeln!(text, "{key} = {}", quoted(&answer));
        }
    }
    let code = dialogue.choice("Language of the reports", &["en", "de", "es"])?;
    let language = Language::new(code);
    let paper = dialogue.choice("Paper", &["a4", "us-letter"])?;
    let units = dialogue.choice("Units", &["metric", "us"])?;
    let _ = writeln!(
        text,
        "\n[report]\nlanguage = \"{code}\"\npaper = \"{paper}\"\nunits = \"{units}\"\ntechnician = true"
    );
    let percent = dialogue.percent(
        "Percent above an estimate that is not exceeded without asking",
        Some("10"),
    )?;
    let _ = writeln!(
        text,
        "\n[report.authorisation]\nlimit_percent = \"{percent}\""
    );
    prices(dialogue, &mut text, language)?;
    invoice(dialogue, &mut text)?;
    Ok(text)
}

fn prices(
    dialogue: &mut Dialogue<impl BufRead, impl Write>,
    text: &mut String,
    language: Language,
) -> Result<()> {
    let currency = dialogue.checked("Currency (ISO 4217)", Some("EUR"), |answer| {
        let code = answer.to_uppercase();
        let shop = format!("[billing]\ncurrency = {}\n", quoted(&code));
        billable(&shop).map(|()| code)
    })?;
    let mechanical = dialogue.price("Price of an hour of mechanical work", None)?;
    let diagnostic = dialogue.price("Price of an hour of diagnosis", Some(&mechanical))?;
    let rate = dialogue.percent("Tax on your prices, percent (0 where none is taken)", None)?;
    let is_taxed = !rate.parse::<Decimal>().unwrap_or_default().is_zero();
    let tax = match is_taxed {
        true => format!("category = \"S\"\nrate = \"{rate}\""),
        false => {
            let reason = dialogue.required("Why is no tax taken? It stands on the bill")?;
            format!(
                "category = \"E\"\nrate = \"0\"\nreason = {}",
                quoted(&reason)
            )
        }
    };
    let _ = writeln!(
        text,
        "\n[billing]\ncurrency = \"{currency}\"\ndefault_rate = \"mechanical\"\ndefault_tax = \"standard\"\n\n\
         [billing.rates]\nmechanical = \"{mechanical}\"\ndiagnostic = \"{diagnostic}\"\n\n\
         [billing.taxes.standard]\n{tax}"
    );
    dialogue.say("Hours of your usual operations; Enter leaves one out.")?;
    for operation in OPERATIONS {
        let description = operation.description(language);
        let mut keys = match operation.is_by_the_clock() {
            true => String::new(),
            false => match dialogue.hours(description)? {
                Some(hours) => format!("hours = \"{hours}\"\n"),
                None => continue,
            },
        };
        if operation.is_diagnostic() {
            keys.push_str("rate = \"diagnostic\"\n");
        }
        let _ = write!(
            text,
            "\n[[billing.operation]]\ncode = \"{}\"\nstep = \"{}\"\ndescription = {}\n{keys}",
            operation.code,
            operation.step,
            quoted(description)
        );
    }
    Ok(())
}

fn invoice(dialogue: &mut Dialogue<impl BufRead, impl Write>, text: &mut String) -> Result<()> {
    let country = dialogue.checked(
        "Country of the shop (ISO 3166-1, two letters)",
        Some(""),
        |answer| {
            let code = answer.to_uppercase();
            let shop = format!("[invoice_draft]\nseller_country = {}\n", quoted(&code));
            match code.is_empty() {
                true => Ok(code),
                false => billable(&shop).map(|()| code),
            }
        },
    )?;
    let tax_number = dialogue.optional("Tax number with the prefix of its country")?;
    let keys = [
        ("seller_country", Some(country).filter(|c| !c.is_empty())),
        ("seller_tax_id", tax_number),
    ];
    text.push_str("\n[invoice_draft]\n");
    for (key, value) in keys {
        if let Some(value) = value {
            let _ = writeln!(text, "{key} = {}", quoted(&value));
        }
    }
    Ok(())
}

/// Checks settings by the rules that shop.toml is read by.
fn billable(text: &str) -> Result<(), String> {
    let parsed = settings::read_shop_file(text, "shop.toml");
    match parsed.errors.first() {
        Some(error) => Err(error.message.clone()),
        None => billing::check(&parsed.value).map_err(|e| match e {
            billing::BillingError::Setting { message, .. } => message,
            other => other.to_string(),
        }),
    }
}

fn quoted(text: &str) -> String {
    toml::Value::String(text.into()).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::ShopFile;

    fn answer(lines: &str) -> (Result<String>, String) {
        let mut shown = Vec::new();
        let text = ask(&mut Dialogue::new(lines.as_bytes(), &mut shown));
        (text, String::from_utf8(shown).unwrap())
    }

    /// The file's values; it must be right by the rules that shop.toml is read by.
    fn shop(text: &str) -> ShopFile {
        let parsed = settings::read_shop_file(text, "shop.toml");
        assert!(parsed.errors.is_empty(), "{:#?}\n{text}", parsed.errors);
        billing::check(&parsed.value).unwrap();
        parsed.value
    }

    #[test]
    fn answers_become_settings_that_are_right() {
        let lines = "Mill \"Garage\" \\ Söhne\n1 Yard\n\nEX-1\nde\n\n\n\n\n120,50\n129.95\n\n19\n0.6\n6.4\n\n5.1\n0.7\n\
                     0.4\nde\nDE000\n";
        let (text, shown) = answer(lines);
        let shop = shop(&text.unwrap());
        assert_eq!(shop.shop.name.as_deref(), Some("Mill \"Garage\" \\ Söhne"));
        assert_eq!(shop.shop.phone, None);
        // A decimal comma is no number: asked again, with what to write.
        assert!(shown.contains("write 120.50"), "{shown}");
        assert_eq!(shop.billing.rates["diagnostic"].0.to_string(), "129.95");
        let codes = shop.billing.operations.iter().map(|o| o.code.as_str());
        let wanted = ["D100", "A100", "A200", "A400", "A500", "D900"];
        assert_eq!(codes.collect::<Vec<_>>(), wanted);
        assert!(shop.billing.operations[1].description.contains("prüfen"));
        assert_eq!(shop.invoice_draft.seller_country.as_deref(), Some("DE"));
    }

    #[test]
    fn wrong_answers_are_asked_again_and_what_is_left_out_stays_out() {
        let lines = "\n\nShop\n\n\n\nfr\nes\nletter\nus-letter\nus\n-1\n10\nEURO\nusd\nfree\n100\n\n101\n0\n\nAbroad\n\n\n\n\n\n\n\
                     Spain\n\n\n";
        let (text, shown) = answer(lines);
        let shop = shop(&text.unwrap());
        for hint in [
            "en, de, es",
            "a4, us-letter",
            "ISO 4217",
            "at most 100",
            "ISO 3166-1",
        ] {
            assert!(shown.contains(hint), "{hint:?} is not said: {shown}");
        }
        assert_eq!(shop.billing.currency.as_deref(), Some("USD"));
        assert_eq!(shop.billing.taxes["standard"].category, "E");
        assert_eq!(shop.billing.operations.len(), 1);
        assert_eq!(shop.invoice_draft.seller_country, None);
    }

    #[test]
    fn answers_that_end_early_write_nothing() {
        let error = answer("Shop\n").0.unwrap_err();
        assert!(error.downcast_ref::<Usage>().is_some(), "{error}");
        assert!(error.to_string().contains("nothing was written"));
    }
}
