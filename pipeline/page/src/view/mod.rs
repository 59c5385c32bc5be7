//! The pages as HTML. Text from outside is data in all of them.

mod answers;
mod frame;
mod job;
mod jobs;
mod lines;
mod outcome;
mod refused;
mod trace;

pub(crate) use answers::{answers, answers_again};
pub(crate) use frame::{Viewer, entered, entry_file};
pub(crate) use job::job;
pub(crate) use jobs::jobs;
pub(crate) use refused::{failed, pair, refused, sent};
pub(crate) use trace::trace;
