//! Sealed evidence: a shop's key, signatures in an open format, and archives that show what was changed.
//!
//! Keys are Ed25519 (RFC 8032), kept as PKCS #8 in PEM (RFC 8410); signatures are JSON Web Signatures in their compact
//! form (RFC 7515, RFC 8037); an archive is a ZIP file that any system opens. A key is told by its thumbprint
//! (RFC 7638, SHA-256).

mod archive;
mod error;
mod jws;
mod key;
mod verify;

pub use archive::{Content, Entry, ManifestFile, Sealing, write};
pub use error::SealError;
pub use jws::{Signed, sign, verify};
pub use key::{PublicKey, ShopKey};
pub use verify::{Archive, Fault};

/// Name of the manifest in an archive.
pub const MANIFEST: &str = "manifest.json";

/// Name of the signature over the manifest.
pub const SIGNATURE: &str = "manifest.jws";

/// Name of the format, in every manifest.
pub const SCHEMA: &str = "baybrief.sealed/1";
