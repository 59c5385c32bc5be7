//! Persons who use the page: roles from shop.toml, and PINs as Argon2id digests in a file that only its owner may read.

use anyhow::{Context as _, Result};
use argon2::Argon2;
use argon2::password_hash::phc::PasswordHash;
use argon2::password_hash::{PasswordHasher, PasswordVerifier};
use model::shop_file::{PageSection, Person, PersonRole};
use page::{Duty, Message, Who};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, HashMap};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

/// Digits of a PIN.
pub const PIN_DIGITS: std::ops::RangeInclusive<usize> = 4..=12;
/// Wrong PINs in a row after which a person has to wait, and for how long.
const MAX_WRONG: u32 = 5;
const WAIT: Duration = Duration::from_secs(15 * 60);

/// File of PINs.
#[derive(Debug, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PinFile {
    /// Digests by the names of the persons, PHC strings.
    pin: BTreeMap<String, String>,
}

/// Persons of the shop.
#[derive(Debug)]
pub struct Persons {
    persons: Vec<Person>,
    pins: PathBuf,
    /// Wrong PINs in a row, and when the last one was given.
    wrong: Mutex<HashMap<String, (u32, Instant)>>,
}

impl Persons {
    /// Persons of shop.toml, whose paths count from `base`.
    pub fn new(page: &PageSection, base: &Path) -> Persons {
        Persons {
            persons: page.persons.clone(),
            pins: base.join(&page.pins),
            wrong: Mutex::default(),
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
        self.check_at(who, duty, Instant::now())
    }

    fn check_at(&self, who: &Who, duty: Duty, now: Instant) -> Result<(), Message> {
        if self.persons.is_empty() {
            return Ok(());
        }
        let about = |key| Message::with(key, "name", &who.name);
        let person = self.persons.iter().find(|p| p.name == who.name);
        let person = person.ok_or_else(|| about("person-unknown"))?;
        if !duties(person.role).contains(&duty) {
            return Err(about("person-not-allowed"));
        }
        // Held while the PIN is checked: tries at the same time are counted one after the other.
        let mut wrong = self.wrong.lock().unwrap_or_else(PoisonError::into_inner);
        let (count, last) = wrong.get(&who.name).copied().unwrap_or((0, now));
        let waited = now.duration_since(last);
        if count >= MAX_WRONG && waited < WAIT {
            let minutes = (WAIT - waited).as_secs().div_ceil(60).to_string();
            let name = who.name.clone();
            return Err(Message::Known(
                "pin-locked".into(),
                vec![("name", name), ("minutes", minutes)],
            ));
        }
        let pins = read(&self.pins).map_err(|e| Message::Words(format!("{e:#}")))?;
        let digest = pins
            .pin
            .get(&who.name)
            .and_then(|d| PasswordHash::new(d).ok());
        let digest = digest.ok_or_else(|| about("pin-none"))?;
        match Argon2::default().verify_password(who.pin.as_bytes(), &digest) {
            Ok(()) => {
                wrong.remove(&who.name);
                Ok(())
            }
            Err(_) => {
                // After the wait one more try is free, not five.
                wrong.insert(who.name.clone(), ((count + 1).min(MAX_WRONG), now));
                Err(Message::new("pin-wrong"))
            }
        }
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
        Persons::new(&page, folder)
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
        let folder = tempfile::tempdir().unwrap();
        let persons = shop(folder.path());
        set_pin(
            &folder.path().join("pins.toml"),
            "A. Technician",
            Some("2846"),
        )
        .unwrap();
        let now = Instant::now();
        let given = |pin: &str, at| persons.check_at(&who("A. Technician", pin), Duty::Sign, at);
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
        assert_eq!(given("2846", later + WAIT), Ok(()));
    }

    #[test]
    fn without_persons_a_name_is_enough() {
        let persons = Persons::new(&PageSection::default(), Path::new("."));
        assert_eq!(persons.check(&who("Anybody", ""), Duty::Sign), Ok(()));
    }
}
