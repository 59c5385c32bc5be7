//! The checks that look at a library without running an analyzer. They run in a worker, which reports each one before
//! it begins the next: when it dies, the host knows during which.

use super::{Check, Outcome, Verdict};
use crate::loader::LibraryHandle;
use crate::session::Session;
use plugin_abi::LibraryDeclaration;
use std::io;

type Report<'a> = &'a mut dyn FnMut(Check, Verdict) -> io::Result<()>;

/// Makes the checks up to [`Check::DeclarationStable`], and stops at the first that the others rest on.
pub(crate) fn inspect(session: &Session, report: Report<'_>) -> io::Result<()> {
    let pass = |s: &str| Verdict::new(Outcome::Pass, s);
    let fail = |s: &str| Verdict::new(Outcome::Fail, sentence(s));
    macro_rules! step {
        ($check:expr, $result:expr, $good:expr) => {
            match $result {
                Ok(value) => {
                    report($check, pass($good))?;
                    value
                }
                Err(e) => return report($check, fail(&e)),
            }
        };
    }
    let loaded = step!(Check::Loads, session.loaded(), "The system loads it.");
    let library = step!(
        Check::ExportsSymbol,
        loaded.handle(),
        "It exports the interface's function."
    );
    step!(
        Check::DeclarationSizes,
        library.analyzers(),
        "Every struct of the declaration is at least as large as version 2.0 asks, and every analyzer has its function."
    );
    let declaration = step!(
        Check::StringsUtf8,
        library.read(),
        "Every string is UTF-8 and not too long."
    );
    step!(
        Check::NamesSane,
        declaration.check(),
        "Names, versions and vendors are well formed and ids differ."
    );
    report(Check::DeclarationStable, stable(&library, &declaration))
}

/// The text as a sentence.
fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters
        .next()
        .map(|c| c.to_uppercase().to_string())
        .unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}

fn stable(library: &LibraryHandle, first: &LibraryDeclaration) -> Verdict {
    if library.address() != library.address() {
        let said = "The function gives another declaration each time.";
        return Verdict::new(Outcome::Fail, said);
    }
    match library.describe() {
        Ok(second) if second == *first => {
            Verdict::new(Outcome::Pass, "The declaration is the same at every call.")
        }
        _ => Verdict::new(
            Outcome::Fail,
            "The declaration's content changes from call to call.",
        ),
    }
}
