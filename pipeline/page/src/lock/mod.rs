//! Who may ask the page for something: one person at this machine, from this page.

mod headers;
mod host;
mod session;

pub use headers::protect;
pub use host::Hosts;
pub use session::{Session, Sessions, is_token};

use axum::http::{HeaderMap, Method};

/// Reason for which a request is refused, for the person who sent it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// The name of the host is not that of this page.
    Host,
    /// The request comes from another page.
    Origin,
    /// There is no session.
    Session,
    /// The form is not one of this session.
    Token,
}

/// Checks that a request that may change something was sent by this page itself. A cookie does not tell: a page on
/// another port of the same machine sends it along.
///
/// # Errors
/// [`Refusal::Origin`].
pub fn check_origin(method: &Method, headers: &HeaderMap, hosts: &Hosts) -> Result<(), Refusal> {
    let text = |name: &str| headers.get(name).and_then(|v| v.to_str().ok());
    let site = text("sec-fetch-site");
    if method == Method::GET || method == Method::HEAD {
        // "none": typed, or opened from the desktop.
        let own = matches!(site, None | Some("same-origin" | "none"));
        return if own { Ok(()) } else { Err(Refusal::Origin) };
    }
    let host = text("host").unwrap_or_default();
    let origin = text("origin").unwrap_or_default();
    let own_site = matches!(site, None | Some("same-origin"));
    match own_site && hosts.is_origin(origin, host) {
        true => Ok(()),
        false => Err(Refusal::Origin),
    }
}
