//! The pages as HTML. Text from outside is data in all of them.

mod answers;
mod fields;
mod frame;
mod job;
mod jobs;
mod lines;
mod outcome;
mod refused;
mod trace;

pub(crate) use answers::{answers, answers_again};
pub(crate) use fields::Refused;
pub(crate) use frame::{Viewer, entered, entry_file};
pub(crate) use job::job;
pub(crate) use jobs::jobs;
pub(crate) use refused::{failed, pair, refused, sent};
pub(crate) use trace::trace;
