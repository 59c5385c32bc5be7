//! Frame of every page.

use crate::lock::Session;
use crate::words::Words;
use crate::{Message, Person};
use maud::{DOCTYPE, Markup, PreEscaped, html};

/// Whoever looks at a page.
pub(crate) struct Viewer<'s> {
    pub(crate) words: &'s Words,
    pub(crate) session: &'s Session,
    /// Persons of the shop; empty where it names none.
    pub(crate) persons: Vec<Person>,
    /// True where the page is also reached through a proxy.
    pub(crate) has_proxy: bool,
    /// Number of changes of the jobs when the page was made.
    pub(crate) changes: u64,
}

impl Viewer<'_> {
    /// Sentence of a key.
    pub(crate) fn say(&self, key: &str) -> String {
        self.words.say(key)
    }

    /// Hidden field that ties a form to the session.
    pub(crate) fn token(&self) -> Markup {
        html! { input type="hidden" name="token" value=(self.session.form_token); }
    }

    /// Sentence of a message.
    pub(crate) fn tell(&self, message: &Message) -> String {
        self.words.tell(message)
    }

    /// A whole page that reloads when jobs have changed.
    pub(crate) fn page(&self, title: &str, body: Markup) -> Markup {
        self.framed(title, body, Some(self.changes))
    }

    /// A whole page that answers a form: to reload it would send the form again.
    pub(crate) fn answer_page(&self, title: &str, body: Markup) -> Markup {
        self.framed(title, body, None)
    }

    fn framed(&self, title: &str, body: Markup, changes: Option<u64>) -> Markup {
        let sentences = serde_json::to_string(&self.words.for_scripts()).unwrap_or_default();
        html! {
            (DOCTYPE)
            html lang=(self.words.language) {
                (head(title, true))
                body data-token=(self.session.form_token) data-sentences=(sentences) data-changes=[changes] {
                    a.skip href="#main" { (self.say("skip")) }
                    header.top {
                        a.brand href="/" { "baybrief" }
                        p #live role="status" aria-live="polite" {}
                        @if self.has_proxy {
                            form method="post" action="/pair" {
                                (self.token())
                                button.quiet { (self.say("other-device")) }
                            }
                        }
                    }
                    main #main { (body) }
                }
            }
        }
    }
}

/// Page without a session.
pub(super) fn bare(words: &Words, title: &str, body: Markup) -> Markup {
    html! {
        (DOCTYPE)
        html lang=(words.language) {
            (head(title, false))
            body {
                header.top { span.brand { "baybrief" } }
                main #main { h1 { (title) } (body) }
            }
        }
    }
}

fn head(title: &str, is_live: bool) -> Markup {
    html! {
        head {
            meta charset="utf-8";
            meta name="viewport" content="width=device-width, initial-scale=1";
            meta name="color-scheme" content="light dark";
            title { (title) " – baybrief" }
            link rel="icon" href="/assets/icon.svg" type="image/svg+xml";
            link rel="stylesheet" href="/assets/page.css";
            @if is_live { script src="/assets/page.js" defer {} }
        }
    }
}

/// Page after the secret was taken: goes on to the jobs by itself.
pub(crate) fn entered(words: &Words) -> Markup {
    html! {
        (DOCTYPE)
        html lang=(words.language) {
            (head("baybrief", false))
            body {
                main #main { p { a #go href="/" { (words.say("enter-go-on")) } } }
                script src="/assets/entered.js" {}
            }
        }
    }
}

/// File on the disk that sends the secret to the page.
pub(crate) fn entry_file(words: &Words, address: &str, secret: &str) -> String {
    let page = html! {
        (DOCTYPE)
        html lang=(words.language) {
            head {
                meta charset="utf-8";
                meta name="referrer" content="no-referrer";
                title { "baybrief" }
            }
            body {
                form #enter method="post" action={ (address) "enter" } {
                    input type="hidden" name="secret" value=(secret);
                    button { (words.say("enter-open")) }
                }
                script { (PreEscaped("document.getElementById('enter').submit();")) }
            }
        }
    };
    page.into_string()
}
