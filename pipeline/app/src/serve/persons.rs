//! Persons who use the page: roles from shop.toml, and PINs as Argon2id digests in a file that only its owner may read.

use anyhow::{Context as _, Result};
use argon2::Argon2;
use argon2::password_hash::phc::PasswordHash;
use argon2::password_hash::{PasswordHasher, PasswordVerifier};
use chrono::{DateTime, TimeDelta, Utc};
use model::shop_file::{PageSection, Person, PersonRole};
use page::{Duty, Message, Who};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

/// Digits of a PIN.
pub const PIN_DIGITS: std::ops::RangeInclusive<usize> = 4..=12;
/// Wrong PINs in a row after which a person has to wait, and for how long.
const MAX_WRONG: u32 = 5;
const WAIT: TimeDelta = TimeDelta::minutes(15);

/// File of PINs.
#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PinFile {
    /// Digests by the names of the persons, PHC strings.
    pin: BTreeMap<String, String>,
}

/// Wrong PINs of a person in a row.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
struct WrongPins {
    count: u32,
    last: DateTime<Utc>,
}

/// Persons of the shop.
#[derive(Debug)]
pub struct Persons {
    persons: Vec<Person>,
    pins: PathBuf,
    /// File of wrong PINs by the names of the persons, JSON: a restart of the service frees nobody.
    wrong_pins: PathBuf,
    /// Held while a PIN is checked: tries at the same time are counted one after the other.
    checking: Mutex<()>,
}

impl Persons {
    /// Persons of shop.toml, whose paths count from `base`. Wrong PINs are counted in the file `wrong_pins`.
    pub fn new(page: &PageSection, base: &Path, wrong_pins: PathBuf) -> Persons {
        Persons {
            persons: page.persons.clone(),
            pins: base.join(&page.pins),
            wrong_pins,
            checking: Mutex::default(),
        }
    }

    /// The persons with what each may do.
    pub fn all(&self) -> Vec<page::Person> {
        let person = |p: &Person| page::Person {
            name: p.name.clone(),
            duties: duties(p.role).to_vec(),
        };
        self.persons.iter().map(person).collect()
    }

    /// Checks that somebody is who they say and may do it. Where shop.toml names no persons, a name is enough.
    ///
    /// # Errors
    /// Why it may not be done.
    pub fn check(&self, who: &Who, duty: Duty) -> Result<(), Message> {
        self.check_at(who, duty, Utc::now())
    }

    fn check_at(&self, who: &Who, duty: Duty, now: DateTime<Utc>) -> Result<(), Message> {
        if self.persons.is_empty() {
            return Ok(());
        }
        let about = |key| Message::with(key, "name", &who.name);
        let person = self.persons.iter().find(|p| p.name == who.name);
        let person = person.ok_or_else(|| about("person-unknown"))?;
        if !duties(person.role).contains(&duty) {
            return Err(about("person-not-allowed"));
        }
        let words = |e: anyhow::Error| Message::Words(format!("{e:#}"));
        let pins = read(&self.pins).map_err(words)?;
        let digest = pins
            .pin
            .get(&who.name)
            .and_then(|d| PasswordHash::new(d).ok());
        let digest = digest.ok_or_else(|| about("pin-none"))?;
        let _checking = self.checking.lock().unwrap_or_else(PoisonError::into_inner);
        let mut wrong = self.wrong_pins().map_err(words)?;
        let tried = wrong.entry(who.name.clone()).or_insert(WrongPins {
            count: 0,
            last: now,
        });
        // After a clock was set back the wait begins anew.
        let waited = (now - tried.last).max(TimeDelta::zero());
        if tried.count >= MAX_WRONG && waited < WAIT {
            if now < tried.last {
                tried.last = now;
                self.keep(&wrong).map_err(words)?;
            }
            let minutes = (WAIT - waited).num_seconds().unsigned_abs().div_ceil(60);
            let (name, minutes) = (who.name.clone(), minutes.to_string());
            return Err(Message::Known(
                "pin-locked".into(),
                vec![("name", name), ("minutes", minutes)],
            ));
        }
        // Counted before it is checked, so that an end of the service in between forgets no try. After the wait one more
        // try is free, not five.
        *tried = WrongPins {
            count: (tried.count + 1).min(MAX_WRONG),
            last: now,
        };
        self.keep(&wrong).map_err(words)?;
        match Argon2::default().verify_password(who.pin.as_bytes(), &digest) {
            Ok(()) => {
                wrong.remove(&who.name);
                self.keep(&wrong).map_err(words)
            }
            Err(_) => Err(Message::new("pin-wrong")),
        }
    }

    fn wrong_pins(&self) -> Result<BTreeMap<String, WrongPins>> {
        let path = &self.wrong_pins;
        match std::fs::read(path) {
            Ok(text) => serde_json::from_slice(&text)
                .with_context(|| format!("{}: delete this file to begin anew", path.display())),
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => Ok(BTreeMap::new()),
            Err(e) => Err(e).with_context(|| path.display().to_string()),
        }
    }

    fn keep(&self, wrong: &BTreeMap<String, WrongPins>) -> Result<()> {
        let text = serde_json::to_vec(wrong)?;
        Ok(intake::write_atomic(&self.wrong_pins, &text)?)
    }
}

fn duties(role: PersonRole) -> &'static [Duty] {
    match role {
        PersonRole::Technician => &[Duty::Sign, Duty::Work],
        PersonRole::Adviser => &[Duty::Customer],
        PersonRole::Owner => &[Duty::Sign, Duty::Customer, Duty::Work],
    }
}

/// Sets the PIN of a person, or takes it away; it is in force at once.
///
/// # Errors
/// When the file of PINs cannot be read or written.
pub fn set_pin(path: &Path, name: &str, pin: Option<&str>) -> Result<()> {
    let mut pins = read(path)?;
    match pin {
        Some(pin) => {
            let digest = Argon2::default().hash_password(pin.as_bytes());
            let digest = digest.map_err(|e| anyhow::anyhow!("the PIN cannot be kept: {e}"))?;
            pins.pin.insert(name.into(), digest.to_string());
        }
        None => {
            pins.pin.remove(name);
        }
    }
    let text = format!(
        "# Argon2id digests of the PINs of the page, written by `baybrief pin`. For nobody else to read.\n{}",
        toml::to_string(&pins)?
    );
    let wrong = || format!("{}: the PINs cannot be written", path.display());
    // A temporary file is created with mode 0600.
    let folder = path.parent().filter(|p| !p.as_os_str().is_empty());
    let mut file =
        tempfile::NamedTempFile::new_in(folder.unwrap_or(Path::new("."))).with_context(wrong)?;
    file.write_all(text.as_bytes()).with_context(wrong)?;
    file.as_file().sync_all().with_context(wrong)?;
    file.persist(path).with_context(wrong)?;
    Ok(())
}

fn read(path: &Path) -> Result<PinFile> {
    match std::fs::read_to_string(path) {
        Ok(text) => toml::from_str(&text)
            .with_context(|| format!("{}: set the PINs anew with `baybrief pin`", path.display())),
        Err(e) if e.kind() == std::io::ErrorKind::NotFound => Ok(PinFile::default()),
        Err(e) => Err(e).with_context(|| format!("{}: the PINs cannot be read", path.display())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::borrow::Cow;

    fn shop(folder: &Path) -> Persons {
        let page: PageSection = toml::from_str(
            "pins = \"pins.toml\"\nperson = [{ name = \"A. Technician\", role = \"technician\" }, \
             { name = \"B. Adviser\", role = \"adviser\" }]",
        )
        .unwrap();
        Persons::new(&page, folder, folder.join("wrong-pins.json"))
    }

    /// A folder in which the technician has the PIN 2846.
    fn with_pin() -> tempfile::TempDir {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("pins.toml");
        set_pin(&path, "A. Technician", Some("2846")).unwrap();
        folder
    }

    fn who(name: &str, pin: &str) -> Who {
        Who {
            name: name.into(),
            pin: pin.into(),
        }
    }

    fn key(result: Result<(), Message>) -> Option<&'static str> {
        match result {
            Err(Message::Known(Cow::Borrowed(key), _)) => Some(key),
            _ => None,
        }
    }

    #[test]
    fn who_does_something_is_known_by_role_and_pin() {
        let folder = tempfile::tempdir().unwrap();
        let persons = shop(folder.path());
        let technician = |pin: &str| persons.check(&who("A. Technician", pin), Duty::Sign);
        assert_eq!(key(technician("")), Some("pin-none"));
        let path = folder.path().join("pins.toml");
        set_pin(&path, "A. Technician", Some("2846")).unwrap();
        set_pin(&path, "B. Adviser", Some("1357")).unwrap();
        assert_eq!(technician("2846"), Ok(()));
        assert_eq!(key(technician("")), Some("pin-wrong"));
        assert_eq!(key(technician("1357")), Some("pin-wrong"));
        let adviser = |duty| persons.check(&who("B. Adviser", "1357"), duty);
        assert_eq!(adviser(Duty::Customer), Ok(()));
        assert_eq!(key(adviser(Duty::Sign)), Some("person-not-allowed"));
        let stranger = persons.check(&who("C. Else", "2846"), Duty::Sign);
        assert_eq!(key(stranger), Some("person-unknown"));
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(text.contains("$argon2id$") && !text.contains("2846"));
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt;
            assert_eq!(path.metadata().unwrap().permissions().mode() & 0o777, 0o600);
        }
        set_pin(&path, "A. Technician", None).unwrap();
        assert_eq!(key(technician("2846")), Some("pin-none"));
    }

    #[test]
    fn a_pin_cannot_be_guessed() {
        let folder = with_pin();
        let now = Utc::now();
        // Of each try another service: a restart frees nobody.
        let given = |pin: &str, at| {
            shop(folder.path()).check_at(&who("A. Technician", pin), Duty::Sign, at)
        };
        for _ in 0..MAX_WRONG {
            assert_eq!(key(given("0000", now)), Some("pin-wrong"));
        }
        assert_eq!(key(given("2846", now)), Some("pin-locked"));
        let later = now + WAIT;
        assert_eq!(key(given("0000", later)), Some("pin-wrong"));
        assert_eq!(
            key(given("2846", later)),
            Some("pin-locked"),
            "one try, not five"
        );
        // The clock is set back by a day.
        let back = now - TimeDelta::days(1);
        assert_eq!(key(given("2846", back)), Some("pin-locked"));
        assert_eq!(given("2846", back + WAIT), Ok(()));
        assert_eq!(key(given("0000", back + WAIT)), Some("pin-wrong"));
        assert_eq!(given("2846", back + WAIT), Ok(()), "begins anew");
    }

    #[test]
    fn tries_that_cannot_be_counted_are_refused() {
        let folder = with_pin();
        let count = folder.path().join("wrong-pins.json");
        std::fs::write(&count, "no count").unwrap();
        let refused = shop(folder.path()).check(&who("A. Technician", "2846"), Duty::Sign);
        let Err(Message::Words(words)) = refused else {
            panic!("{refused:?}")
        };
        assert!(words.contains("wrong-pins.json"), "{words}");
    }

    #[test]
    fn without_persons_a_name_is_enough() {
        let persons = Persons::new(&PageSection::default(), Path::new("."), PathBuf::new());
        assert_eq!(persons.check(&who("Anybody", ""), Duty::Sign), Ok(()));
    }
}
