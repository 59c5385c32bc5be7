//! Sessions: begun by a secret that works once and for a minute, kept by a cookie.

use sha2::{Digest, Sha256};
use std::collections::HashMap;
use std::time::{Duration, Instant};
use subtle::ConstantTimeEq;

/// Time for which a secret works.
const ENTRY_LIFE: Duration = Duration::from_secs(60);
/// Time after which an unused session ends.
const SESSION_LIFE: Duration = Duration::from_secs(12 * 3600);
/// Time for which a code for another device works, and wrong tries after which it does not.
const CODE_LIFE: Duration = Duration::from_secs(180);
const CODE_TRIES: u32 = 5;
/// Characters of a code, without those that are taken for each other (Crockford's Base32).
const CODE_ALPHABET: &[u8; 32] = b"0123456789ABCDEFGHJKMNPQRSTVWXYZ";
/// Length of a code: 50 random bits.
const CODE_LENGTH: usize = 10;
/// Sessions at the same time; the one that was used least recently gives way.
const MAX_SESSIONS: usize = 25;

/// A secret that begins one session.
#[derive(Debug)]
pub struct Entry {
    /// 64 hexadecimal digits; in one file of mode 0600 and nowhere else.
    pub secret: String,
}

/// One session.
#[derive(Debug, Clone)]
pub struct Session {
    /// Token that each form of the session carries.
    pub form_token: String,
    used: Instant,
}

/// Code that begins one session on another device.
#[derive(Debug)]
struct Code {
    digest: [u8; 32],
    until: Instant,
    tries: u32,
}

/// Sessions and secrets of the running page. Secrets are kept as digests only.
#[derive(Debug)]
pub struct Sessions {
    /// Name of the cookie: another instance on this machine has another.
    pub cookie: String,
    entry: Option<([u8; 32], Instant)>,
    code: Option<Code>,
    sessions: HashMap<[u8; 32], Session>,
}

impl Sessions {
    /// No session yet.
    ///
    /// # Errors
    /// When the system gives no random numbers.
    pub fn new() -> Result<Sessions, getrandom::Error> {
        Ok(Sessions {
            cookie: format!("baybrief-{}", &random()?[..8]),
            entry: None,
            code: None,
            sessions: HashMap::new(),
        })
    }

    /// A new secret; the one before works no more.
    ///
    /// # Errors
    /// When the system gives no random numbers.
    pub fn invite(&mut self, now: Instant) -> Result<Entry, getrandom::Error> {
        let secret = random()?;
        self.entry = Some((digest(&secret), now + ENTRY_LIFE));
        Ok(Entry { secret })
    }

    /// Begins a session with a secret, which is used up; returns the value of its cookie. `None` for a secret that is
    /// wrong, old or used.
    ///
    /// # Errors
    /// When the system gives no random numbers.
    pub fn enter(
        &mut self,
        secret: &str,
        now: Instant,
    ) -> Result<Option<String>, getrandom::Error> {
        let Some((expected, until)) = self.entry else {
            return Ok(None);
        };
        if now > until {
            self.entry = None;
            return Ok(None);
        }
        if !bool::from(digest(secret).ct_eq(&expected)) {
            return Ok(None);
        }
        self.entry = None;
        self.begin(now).map(Some)
    }

    /// A new code for another device; the one before works no more.
    ///
    /// # Errors
    /// When the system gives no random numbers.
    pub fn invite_device(&mut self, now: Instant) -> Result<String, getrandom::Error> {
        let mut bytes = [0; CODE_LENGTH];
        getrandom::fill(&mut bytes)?;
        let letter = |b: &u8| char::from(CODE_ALPHABET[usize::from(b & 31)]);
        let code: String = bytes.iter().map(letter).collect();
        self.code = Some(Code {
            digest: digest(&code),
            until: now + CODE_LIFE,
            tries: CODE_TRIES,
        });
        Ok(code)
    }

    /// Begins a session with a code, which is used up; returns the value of its cookie. `None` for one that is wrong, old
    /// or used; a code works no more after some wrong tries.
    ///
    /// # Errors
    /// When the system gives no random numbers.
    pub fn enter_by_code(
        &mut self,
        given: &str,
        now: Instant,
    ) -> Result<Option<String>, getrandom::Error> {
        let Some(code) = self.code.as_mut().filter(|c| now <= c.until && c.tries > 0) else {
            return Ok(None);
        };
        let letters = given.chars().filter(char::is_ascii_alphanumeric);
        let given: String = letters.map(|c| c.to_ascii_uppercase()).collect();
        if !bool::from(digest(&given).ct_eq(&code.digest)) {
            code.tries -= 1;
            return Ok(None);
        }
        self.code = None;
        self.begin(now).map(Some)
    }

    fn begin(&mut self, now: Instant) -> Result<String, getrandom::Error> {
        let value = random()?;
        let session = Session {
            form_token: random()?,
            used: now,
        };
        while self.sessions.len() >= MAX_SESSIONS {
            let oldest = self.sessions.iter().min_by_key(|(_, s)| s.used);
            let Some(oldest) = oldest.map(|(key, _)| *key) else {
                break;
            };
            self.sessions.remove(&oldest);
        }
        self.sessions.insert(digest(&value), session);
        Ok(value)
    }

    /// Session of the cookies of a request.
    pub fn find(&mut self, cookies: &str, now: Instant) -> Option<&mut Session> {
        let own = |c: &str| {
            let (name, value) = c.trim().split_once('=')?;
            (name == self.cookie).then(|| digest(value))
        };
        let key = cookies.split(';').find_map(own)?;
        self.sessions
            .retain(|_, s| now.duration_since(s.used) <= SESSION_LIFE);
        let session = self.sessions.get_mut(&key)?;
        session.used = now;
        Some(session)
    }
}

/// Compares a token in a time that does not depend on where it differs.
pub fn is_token(expected: &str, given: &str) -> bool {
    digest(given).ct_eq(&digest(expected)).into()
}

fn digest(text: &str) -> [u8; 32] {
    Sha256::digest(text).into()
}

/// 256 random bits, hexadecimal.
fn random() -> Result<String, getrandom::Error> {
    let mut bytes = [0; 32];
    getrandom::fill(&mut bytes)?;
    Ok(bytes.iter().map(|b| format!("{b:02x}")).collect())
}

#[cfg(test)]
impl Session {
    /// A session for views.
    pub(crate) fn sample() -> Session {
        Session {
            form_token: "0".into(),
            used: Instant::now(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_secret_works_once_and_for_a_minute() {
        let mut sessions = Sessions::new().unwrap();
        let now = Instant::now();
        let first = sessions.invite(now).unwrap().secret;
        let second = sessions.invite(now).unwrap().secret;
        assert!(sessions.enter(&first, now).unwrap().is_none());
        let cookie = sessions.enter(&second, now).unwrap().unwrap();
        assert!(sessions.enter(&second, now).unwrap().is_none(), "replayed");
        let header = format!("other=1; {}={cookie}", sessions.cookie);
        assert!(sessions.find(&header, now).is_some());
        assert!(sessions.find(&header, now + SESSION_LIFE * 2).is_none());
        let late = sessions.invite(now).unwrap().secret;
        let after = now + ENTRY_LIFE + Duration::from_secs(1);
        assert!(sessions.enter(&late, after).unwrap().is_none(), "too late");
    }

    #[test]
    fn a_code_works_once_for_some_minutes_and_few_wrong_tries() {
        let mut sessions = Sessions::new().unwrap();
        let now = Instant::now();
        assert!(sessions.enter_by_code("", now).unwrap().is_none());
        let code = sessions.invite_device(now).unwrap();
        let typed = format!(" {}-{} ", code[..5].to_lowercase(), &code[5..]);
        assert!(sessions.enter_by_code(&typed, now).unwrap().is_some());
        assert!(
            sessions.enter_by_code(&code, now).unwrap().is_none(),
            "replayed"
        );
        let code = sessions.invite_device(now).unwrap();
        let late = now + CODE_LIFE + Duration::from_secs(1);
        assert!(
            sessions.enter_by_code(&code, late).unwrap().is_none(),
            "too late"
        );
        let code = sessions.invite_device(now).unwrap();
        for _ in 0..CODE_TRIES {
            assert!(sessions.enter_by_code("0", now).unwrap().is_none());
        }
        assert!(
            sessions.enter_by_code(&code, now).unwrap().is_none(),
            "guessed at"
        );
    }

    #[test]
    fn the_least_recently_used_session_gives_way() {
        let mut sessions = Sessions::new().unwrap();
        let start = Instant::now();
        let mut cookies = Vec::new();
        for i in 0..=MAX_SESSIONS {
            let now = start + Duration::from_secs(i as u64);
            let secret = sessions.invite(now).unwrap().secret;
            cookies.push(sessions.enter(&secret, now).unwrap().unwrap());
        }
        let name = sessions.cookie.clone();
        let mut is_alive = |value: &str| {
            sessions
                .find(&format!("{name}={value}"), start + Duration::from_secs(60))
                .is_some()
        };
        assert!(!is_alive(&cookies[0]) && is_alive(&cookies[1]));
    }
}
