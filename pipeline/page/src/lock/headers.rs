//! Headers of every answer: nothing from elsewhere is loaded, nothing is kept, nobody may frame it.

use axum::http::{HeaderMap, HeaderName, HeaderValue, header};

const POLICY: &str = "default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self'; img-src 'self' blob:; \
                      connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// Adds the headers; those that are there already stay.
pub fn protect(headers: &mut HeaderMap) {
    let all: [(HeaderName, &'static str); 7] = [
        (header::CONTENT_SECURITY_POLICY, POLICY),
        (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
        (header::CACHE_CONTROL, "no-store"),
        // Not "no-referrer": with it, browsers send the page's own forms with the Origin "null" (Fetch, 3.2.1). Other
        // hosts get no referrer either way.
        (header::REFERRER_POLICY, "same-origin"),
        (header::X_FRAME_OPTIONS, "DENY"),
        (
            HeaderName::from_static("cross-origin-opener-policy"),
            "same-origin",
        ),
        (
            HeaderName::from_static("cross-origin-resource-policy"),
            "same-origin",
        ),
    ];
    for (name, value) in all {
        headers
            .entry(name)
            .or_insert(HeaderValue::from_static(value));
    }
}
