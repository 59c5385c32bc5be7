//! Requests that were refused or failed: what happened, and what to open or do instead.

use super::frame::bare;
use crate::lock::{Hosts, Refusal};
use crate::words::Words;
use maud::{Markup, html};

/// Page for a refused request.
pub(crate) fn refused(words: &Words, refusal: Refusal, hosts: &Hosts) -> Markup {
    let key = match refusal {
        Refusal::Host => "refused-host",
        Refusal::Origin => "refused-origin",
        Refusal::Session => "refused-session",
        Refusal::Token => "refused-token",
    };
    let address = hosts.address();
    let body = html! {
        p { (words.say_with(key, &[("address", &address)])) }
        @if refusal != Refusal::Session { p { a href=(address) { (address) } } }
    };
    bare(words, &words.say("refused"), body)
}

/// Page for a request that came to nothing.
pub(crate) fn failed(words: &Words, message: &str) -> Markup {
    let body = html! {
        p.error role="alert" { (message) }
        p { (words.say("failed-back")) }
    };
    bare(words, &words.say("failed"), body)
}
