//! JSON Web Signatures in their compact form (RFC 7515) with Ed25519 (RFC 8037); the key travels in the header.

use crate::{PublicKey, SealError, ShopKey};
use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
struct Header {
    alg: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    jwk: Option<Jwk>,
    /// Extensions that a reader must understand: none is known here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    crit: Option<serde_json::Value>,
}

#[derive(Serialize, Deserialize)]
struct Jwk {
    kty: String,
    crv: String,
    x: String,
}

/// A payload whose signature holds, and the key that signed it. Whose key it is, is another question.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signed {
    /// Signed bytes.
    pub payload: Vec<u8>,
    /// Key that signed it.
    pub key: PublicKey,
}

/// Signs a payload. The text is ASCII without blanks.
pub fn sign(payload: &[u8], key: &ShopKey) -> String {
    let jwk = Jwk {
        kty: "OKP".into(),
        crv: "Ed25519".into(),
        x: key.public().x(),
    };
    // Written out, so that the header is the same with every version of the serializer.
    let header = format!(
        r#"{{"alg":"EdDSA","jwk":{{"kty":"{}","crv":"{}","x":"{}"}}}}"#,
        jwk.kty, jwk.crv, jwk.x
    );
    let text = format!(
        "{}.{}",
        URL_SAFE_NO_PAD.encode(header),
        URL_SAFE_NO_PAD.encode(payload)
    );
    let signature = URL_SAFE_NO_PAD.encode(key.sign(text.as_bytes()));
    format!("{text}.{signature}")
}

/// Reads a signed text. `known`: the key where the header carries none.
///
/// # Errors
/// A text that is no such signature, or one that does not hold.
pub fn verify(text: &str, known: Option<PublicKey>) -> Result<Signed, SealError> {
    let wrong = |what: &str| SealError::Signature(what.into());
    let text = text.trim();
    let (message, signature) = text
        .rsplit_once('.')
        .ok_or_else(|| wrong("expected three parts with points between them (RFC 7515)"))?;
    let (header, payload) = message
        .split_once('.')
        .ok_or_else(|| wrong("expected three parts with points between them (RFC 7515)"))?;
    let decode = |part: &str| URL_SAFE_NO_PAD.decode(part).ok();
    let header: Header = decode(header)
        .and_then(|bytes| serde_json::from_slice(&bytes).ok())
        .ok_or_else(|| wrong("its header cannot be read"))?;
    if header.alg != "EdDSA" || header.crit.is_some() {
        return Err(wrong(
            "expected the algorithm EdDSA and no critical extension",
        ));
    }
    let own = header
        .jwk
        .filter(|jwk| jwk.kty == "OKP" && jwk.crv == "Ed25519")
        .and_then(|jwk| decode(&jwk.x)?.try_into().ok())
        .and_then(|bytes: [u8; 32]| PublicKey::from_bytes(&bytes));
    let key = own
        .or(known)
        .ok_or_else(|| wrong("its header has no Ed25519 key"))?;
    let payload = decode(payload).ok_or_else(|| wrong("its payload cannot be read"))?;
    let signature: [u8; 64] = decode(signature)
        .and_then(|bytes| bytes.try_into().ok())
        .ok_or_else(|| wrong("expected a signature of 64 bytes"))?;
    match key.holds(message.as_bytes(), &signature) {
        true => Ok(Signed { payload, key }),
        false => Err(wrong("what was signed is not what is here")),
    }
}
