//! Requests that were refused or failed: what happened, and what to open or do instead.

use super::frame::{Viewer, bare};
use crate::lock::{Hosts, Refusal};
use crate::routes::{ENTER, id};
use crate::words::Words;
use crate::{Job, Message};
use maud::{Markup, html};

/// Page for a refused request to a host. Behind a proxy, where no file of this machine can be opened, it takes a code.
pub(crate) fn refused(words: &Words, refusal: Refusal, hosts: &Hosts, host: &str) -> Markup {
    let takes_code = refusal == Refusal::Session && hosts.is_proxied(host);
    let key = match refusal {
        Refusal::Host => "refused-host",
        Refusal::Origin => "refused-origin",
        Refusal::Session if takes_code => "refused-device",
        Refusal::Session => "refused-session",
        Refusal::Token => "refused-token",
    };
    let address = hosts.address();
    let body = html! {
        p { (words.say_with(key, &[("address", &address)])) }
        @if takes_code {
            form.step method="post" action=(ENTER) {
                label for="code" { (words.say("code")) }
                input #code name="code" required autocomplete="off" autocapitalize="characters" maxlength="20";
                button { (words.say("enter-open")) }
            }
        } @else if refusal != Refusal::Session {
            p { a href=(address) { (address) } }
        }
    };
    bare(words, &words.say("refused"), body)
}

/// Page for a request that came to nothing.
pub(crate) fn failed(words: &Words, message: &Message) -> Markup {
    let body = html! {
        p.error role="alert" { (words.tell(message)) }
        p { (words.say("failed-back")) " " a href="/" { (words.say("enter-go-on")) } }
    };
    bare(words, &words.say("failed"), body)
}

/// Page with the code that another device is to be given.
pub(crate) fn pair(viewer: &Viewer<'_>, code: &str, hosts: &[String]) -> Markup {
    let (first, second) = code.split_at(code.len() / 2);
    let body = html! {
        h1 { (viewer.say("other-device")) }
        p { (viewer.say("pair-how")) }
        ul { @for host in hosts { li { code { "https://" (host) } } } }
        p.code { (first) "-" (second) }
    };
    viewer.answer_page(&viewer.say("other-device"), body)
}

/// Page that says what became of a file that was to be sent.
pub(crate) fn sent(viewer: &Viewer<'_>, job: &Job, message: &Message) -> Markup {
    let name = &job.row.name;
    let body = html! {
        h1 { (viewer.say("send")) }
        p role="status" { (viewer.tell(message)) }
        p { a href={ "/job/" (id(name)) "#documents" } { (viewer.say("back-to")) " " (name) } }
    };
    viewer.answer_page(&viewer.say("send"), body)
}
