//! Requests of persons at the page: recorded in its store, then measured in its pool like any other job.

use super::pool::Done;
use super::service::Service;
use crate::commands::report::newest;
use crate::publish::Task;
use crate::serve::{Follow, Reply, Request, Sent};
use anyhow::Result;
use intake::Signature;
use page::Message;
use std::time::Instant;

/// A report that somebody waits for.
pub struct Waiting {
    job: String,
    signature: Option<Signature>,
    reply: Reply,
}

impl Service {
    /// Takes in what the page has sent.
    pub(super) fn take_sent(&mut self) {
        let Some(attached) = &self.attached else {
            return;
        };
        let sent: Vec<Sent> = attached.sent.try_iter().collect();
        for sent in sent {
            match sent {
                Sent::Changed(job) => self.watch.announce(&job),
                Sent::Request(request) => self.do_request(request),
                Sent::Question(question) => self.pool.ask(question),
            }
        }
    }

    fn do_request(&mut self, request: Request) {
        let Request { job, act, reply } = request;
        let follow = act(&mut self.store);
        self.page_changed = true;
        let signature = match follow {
            Ok(Follow::Report) => None,
            Ok(Follow::Signed(signature)) => Some(signature),
            Ok(Follow::Nothing) => return answer(&reply, Ok(())),
            Err(message) => return answer(&reply, Err(message)),
        };
        self.waiting.push(Waiting {
            job,
            signature,
            reply,
        });
    }

    /// Begins reports that persons wait for, before any other job.
    pub(super) fn begin_waiting(&mut self) {
        while self.pool.is_free()
            && let Some(waiting) = self.waiting.first()
        {
            let task = self.task_of(&waiting.job.clone());
            let task = match task {
                Ok(task) if self.pool.has_room_for(&task) => Ok(task),
                Ok(_) => return,
                Err(e) => Err(e),
            };
            let Waiting {
                job,
                signature,
                reply,
            } = self.waiting.remove(0);
            match task {
                Ok(task) => {
                    tracing::info!(job, is_signed = signature.is_some(), "made anew as asked");
                    let task = match signature {
                        Some(signature) => task.signed(signature),
                        None => task,
                    };
                    self.pool.give(task, Some(reply));
                }
                Err(e) => answer(&reply, Err(Message::Words(format!("{e:#}")))),
            }
        }
    }

    fn task_of(&mut self, job: &str) -> Result<Task> {
        let latest = newest(&mut self.store, job)?;
        let entries = latest.source.gather()?;
        Ok(Task::new(job, latest.source, entries, &mut self.store)?)
    }

    /// Publishes a report that somebody waits for, and answers.
    pub(super) fn publish_waited_for(&mut self, done: Done) {
        let Done {
            name,
            result,
            reply,
            ..
        } = done;
        let published = result.and_then(|finished| {
            let is_signed = finished.revision().signature.is_some();
            Ok((finished.publish(&mut self.store)?, is_signed))
        });
        let answered = match published {
            Ok((true, _)) => Ok(()),
            // Nobody has seen the report that came in between.
            Ok((false, true)) => Err(Message::new("sign-moved")),
            // What was recorded stands, and the job is done again by itself.
            Ok((false, false)) if self.watch.requeue(&name) => Ok(()),
            Ok((false, false)) => Err(Message::new("recorded-not-made")),
            Err(e) => Err(Message::Words(format!("{e:#}"))),
        };
        if let Err(e) = &answered {
            tracing::warn!(job = name, "what was asked for was not done: {e:?}");
        }
        self.rows_due.get_or_insert_with(Instant::now);
        self.page_changed = true;
        if let Some(reply) = reply {
            answer(&reply, answered);
        }
    }
}

/// Answers a request; the person who asked may have gone.
fn answer(reply: &Reply, answer: Result<(), Message>) {
    let _ = reply.send(answer);
}
