//! The shop's key.

use crate::SealError;
use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use ed25519_dalek::pkcs8::spki::der::pem::LineEnding;
use ed25519_dalek::pkcs8::{DecodePrivateKey, EncodePrivateKey};
use ed25519_dalek::{Signer, SigningKey, VerifyingKey};
use sha2::{Digest, Sha256};
use std::fmt;
use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};
use std::path::Path;

/// A shop's private key.
pub struct ShopKey(SigningKey);

impl fmt::Debug for ShopKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "ShopKey({})", self.public().thumbprint())
    }
}

impl ShopKey {
    /// Reads the key of a file.
    ///
    /// # Errors
    /// When the file cannot be read or is no such key.
    pub fn read(path: &Path) -> Result<ShopKey, SealError> {
        let text = std::fs::read_to_string(path).map_err(|why| io(path, why))?;
        let key = SigningKey::from_pkcs8_pem(&text).map_err(|e| SealError::Key {
            path: path.into(),
            why: e.to_string(),
        })?;
        Ok(ShopKey(key))
    }

    /// Reads the key of a file, or makes one there, readable by its owner alone. The flag is true for a new one.
    ///
    /// # Errors
    /// When the file can neither be read nor made, or is no such key.
    pub fn read_or_make(path: &Path) -> Result<(ShopKey, bool), SealError> {
        match ShopKey::read(path) {
            Err(SealError::Io { why, .. }) if why.kind() == ErrorKind::NotFound => {}
            read => return Ok((read?, false)),
        }
        let mut secret = [0; 32];
        getrandom::fill(&mut secret).map_err(SealError::Random)?;
        let key = SigningKey::from_bytes(&secret);
        let pem = key
            .to_pkcs8_pem(LineEnding::LF)
            .map_err(|e| SealError::Key {
                path: path.into(),
                why: e.to_string(),
            })?;
        let mut options = OpenOptions::new();
        options.write(true).create_new(true);
        #[cfg(unix)]
        std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
        let mut file = options.open(path).map_err(|why| io(path, why))?;
        let written = file
            .write_all(pem.as_bytes())
            .and_then(|()| file.sync_all());
        written.map_err(|why| io(path, why))?;
        Ok((ShopKey(key), true))
    }

    /// Key of a secret of 32 bytes (RFC 8032, 5.1.5).
    pub fn from_secret(secret: &[u8; 32]) -> ShopKey {
        ShopKey(SigningKey::from_bytes(secret))
    }

    /// The public half.
    pub fn public(&self) -> PublicKey {
        PublicKey(self.0.verifying_key())
    }

    /// Signature of a message, 64 bytes.
    pub fn sign(&self, message: &[u8]) -> [u8; 64] {
        self.0.sign(message).to_bytes()
    }
}

/// Public half of a key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PublicKey(VerifyingKey);

impl PublicKey {
    /// Key of 32 bytes; `None` for bytes that are no point of the curve, or a weak one.
    pub fn from_bytes(bytes: &[u8; 32]) -> Option<PublicKey> {
        let key = VerifyingKey::from_bytes(bytes).ok()?;
        (!key.is_weak()).then_some(PublicKey(key))
    }

    /// Its 32 bytes.
    pub fn to_bytes(self) -> [u8; 32] {
        self.0.to_bytes()
    }

    /// Coordinate as a JSON Web Key has it (RFC 8037).
    pub fn x(self) -> String {
        URL_SAFE_NO_PAD.encode(self.0.as_bytes())
    }

    /// Thumbprint by which people tell the key (RFC 7638, SHA-256): 43 letters, digits, `-` and `_`.
    pub fn thumbprint(self) -> String {
        let members = format!(r#"{{"crv":"Ed25519","kty":"OKP","x":"{}"}}"#, self.x());
        URL_SAFE_NO_PAD.encode(Sha256::digest(members))
    }

    /// True where the signature is one of this key over the message, by the strict rule.
    pub fn holds(self, message: &[u8], signature: &[u8; 64]) -> bool {
        let signature = ed25519_dalek::Signature::from_bytes(signature);
        self.0.verify_strict(message, &signature).is_ok()
    }
}

pub(crate) fn io(path: &Path, why: std::io::Error) -> SealError {
    SealError::Io {
        path: path.into(),
        why,
    }
}
