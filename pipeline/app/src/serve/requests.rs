//! Messages of the page to the service, which alone writes the ledger and owns the workers.

use crate::context::AppContext;
use intake::{Signature, Store};
use page::Message;
use std::sync::mpsc::Sender;

/// Something that the page sends to the service.
pub enum Sent {
    /// The added files of a job have changed.
    Changed(String),
    /// Something is to be recorded.
    Request(Request),
    /// A question for whoever measures.
    Question(Question),
}

/// Question that is answered where jobs are measured.
pub type Question = Box<dyn FnOnce(&mut AppContext) + Send>;

/// Answer to a request.
pub type Reply = Sender<Result<(), Message>>;

/// Check and record of a request.
pub type Act = Box<dyn FnOnce(&mut dyn Store) -> Result<Follow, Message> + Send>;

/// Something that a person wants of a job.
pub struct Request {
    /// The job.
    pub job: String,
    /// Checks it and records it, with the service's own store; says what follows.
    pub act: Act,
    /// Channel of the answer, given once all of it is done.
    pub reply: Reply,
}

/// Consequence of a request.
pub enum Follow {
    /// Nothing: it is done.
    Nothing,
    /// The report is made anew.
    Report,
    /// The report is made anew, signed.
    Signed(Signature),
}
