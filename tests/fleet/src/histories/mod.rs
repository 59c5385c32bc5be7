//! Random histories of jobs, and one model that both kinds of store are held to: a folder with its SQLite file, and
//! PostgreSQL with an S3-compatible store.
//!
//! The model says, for each step, what may count: a report that was made on top of something older, or under a claim that
//! is not the newest, does not. It knows two differences of the stores: a folder has one process that claims, and so no
//! tokens; and what a publication does before the step that makes it real is another number of steps.

mod folder;
mod shared;

pub use folder::Folder;
pub use shared::{Servers, Shared, event};

use anyhow::{Result, anyhow};
use proptest::prelude::*;
use proptest::test_runner::{Config, TestRunner};
use proptest_state_machine::{ReferenceStateMachine, StateMachineTest};
use std::collections::{BTreeMap, BTreeSet};
use std::marker::PhantomData;

/// A job, by its number; each shop has two.
pub type JobId = usize;

/// Jobs of a history.
pub const JOBS: usize = 4;

/// Attempts after which a job is given up.
const ATTEMPTS: i32 = 5;

/// A store as the model knows it.
pub trait Kind: 'static + std::fmt::Debug + Clone {
    /// True where claims have tokens.
    const HAS_TOKENS: bool;
    /// Number of steps of a publication before it is real.
    const STEPS: u8;
}

/// One step of a history.
#[derive(Debug, Clone)]
pub enum Step {
    /// Files of that content are in the inbox.
    Drop {
        /// The job.
        job: JobId,
        /// The content.
        content: u8,
    },
    /// A worker claims the next job.
    Claim,
    /// A lease is renewed.
    Renew(usize),
    /// The lease of a job runs out.
    Lose(JobId),
    /// A worker gives a claim back, to be tried again or not.
    GiveBack(usize, bool),
    /// A person tries a failed job again.
    Retry(JobId),
    /// Jobs whose workers ended again and again are given up.
    GiveUp,
    /// A person looks at the newest report of a job, to sign it.
    Look(JobId),
    /// A person records a step of the work, having seen all events or not the last one.
    Record {
        /// The job.
        job: JobId,
        /// True where somebody else recorded something first.
        is_late: bool,
    },
    /// A report is published that was made from what a worker or a person saw.
    Publish {
        /// Number of what was seen.
        draft: usize,
        /// End of the publication.
        end: End,
    },
    /// Labour rows are handed over.
    HandOver {
        /// End of the step.
        end: End,
    },
    /// What a crash left is swept up.
    Sweep,
}

/// End of a step.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// It is done.
    Done,
    /// It is done, and asked for once more because the answer was lost.
    Again,
    /// It ends after so many steps, as by a crash.
    Crash(u8),
}

/// State of a job in the queue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// It is to be done.
    Waiting,
    /// It is claimed.
    Running,
    /// It has its report.
    Done,
    /// It is given up.
    Failed,
}

/// A job as it must be.
#[derive(Debug, Clone, Default)]
pub struct Job {
    /// `None` before its first files.
    pub state: Option<State>,
    /// Content of its files; 0 before the first.
    pub content: u8,
    /// Token of its newest claim.
    pub token: i64,
    attempts: i32,
    turn: i64,
    /// Time at which its lease ran out, as a count.
    lost: Option<u32>,
    /// Its newest report.
    pub report: Option<Report>,
    /// Number of events of its lines.
    pub events: usize,
    /// Labour rows.
    pub rows: BTreeSet<String>,
    /// Who signed last.
    pub signature: Option<String>,
}

/// The newest report of a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Report {
    /// Number.
    pub number: u32,
    /// Token of the publication.
    pub publication: String,
    /// Content that it was made from.
    pub content: u8,
    /// Who signed it.
    pub signature: Option<String>,
}

/// What somebody saw of a job, to make a report of it.
#[derive(Debug, Clone)]
pub struct Draft {
    /// The job.
    pub job: JobId,
    /// Token and attempts of the claim; `None` for a person.
    pub claim: Option<(i64, i32)>,
    /// The newest report.
    pub base: Option<Report>,
    /// Number of events.
    pub events: usize,
    /// Labour rows.
    pub rows: BTreeSet<String>,
    /// Content that it is made from.
    pub content: u8,
    /// Name of the publication.
    pub publication: String,
}

impl Draft {
    /// The report: the same content keeps its number and its signature.
    pub fn report(&self) -> Report {
        let same = self.base.as_ref().filter(|b| b.content == self.content);
        let number = self.base.as_ref().map_or(0, |b| b.number);
        Report {
            number: if same.is_some() { number } else { number + 1 },
            publication: self.publication.clone(),
            content: self.content,
            signature: match self.claim {
                None => Some(format!("person {}", self.publication)),
                Some(_) => same.and_then(|b| b.signature.clone()),
            },
        }
    }

    /// Labour rows that it hands over.
    pub fn new_rows(&self) -> Vec<String> {
        let of_content = format!("J-{}-{}", self.job, self.content);
        let signed = self
            .claim
            .is_none()
            .then(|| format!("J-{}-signed", self.job));
        let rows = [Some(of_content), signed].into_iter().flatten();
        rows.filter(|r| !self.rows.contains(r)).collect()
    }
}

/// The model.
#[derive(Debug, Clone)]
pub struct Model<K> {
    /// The jobs.
    pub jobs: [Job; JOBS],
    /// What workers and persons saw and have not made a report of yet.
    pub drafts: Vec<Draft>,
    /// What the last step had to give.
    pub expected: Expected,
    last_turn: BTreeMap<usize, i64>,
    steps: u32,
    kind: PhantomData<K>,
}

/// Answer of a step.
#[derive(Debug, Clone, Default)]
pub enum Expected {
    /// None that is checked.
    #[default]
    Nothing,
    /// True where it counts.
    Counts(bool),
    /// The job that is claimed, and what its worker saw.
    Claimed(Option<Draft>),
    /// A publication: what was published, and whether it counts.
    Published(Draft, bool),
    /// A claim that is given back or renewed.
    Claim(Draft, bool),
}

/// Number of histories: `HISTORIES` of the environment, else as many as the caller has time for.
pub fn number_of_histories(otherwise: u32) -> u32 {
    let set = std::env::var("HISTORIES").ok();
    set.and_then(|n| n.parse().ok()).unwrap_or(otherwise)
}

/// Histories at the same time: each waits for its store for most of its time.
pub const THREADS: u32 = 8;

/// Runs so many random histories of a kind of store, on threads that each begin by `begin` with their number.
///
/// # Errors
/// The shortest history that was found to break the model.
pub fn run_histories<K>(histories: u32, begin: impl Fn(u32) -> Result<()> + Sync) -> Result<()>
where
    K: Kind + StateMachineTest<Reference = Model<K>>,
{
    let one = |number| {
        begin(number)?;
        let config = Config {
            cases: histories.div_ceil(THREADS),
            failure_persistence: None,
            max_shrink_iters: 400,
            ..Config::default()
        };
        let strategy = Model::<K>::sequential_strategy(1..40);
        let run = TestRunner::new(config.clone()).run(&strategy, |(model, steps, seen)| {
            K::test_sequential(config.clone(), model, steps, seen);
            Ok(())
        });
        run.map_err(|e| anyhow!("{e}"))
    };
    std::thread::scope(|scope| {
        let threads: Vec<_> = (0..THREADS)
            .map(|number| scope.spawn(move || one(number)))
            .collect();
        let ended = threads.into_iter().map(|thread| {
            let ended = thread.join();
            ended.map_err(|_| anyhow!("a thread of histories panicked"))?
        });
        ended.collect()
    })
}

/// Shop of a job.
pub fn shop_of(job: JobId) -> usize {
    job / 2
}

impl<K: Kind> Model<K> {
    fn next_claim(&self) -> Option<JobId> {
        let open = |state| {
            move |(_, job): &(JobId, &Job)| job.state == Some(state) && job.attempts < ATTEMPTS
        };
        let jobs = || self.jobs.iter().enumerate();
        let lost = jobs()
            .filter(open(State::Running))
            .filter_map(|(id, job)| Some((job.lost?, id)));
        let waiting = jobs()
            .filter(open(State::Waiting))
            .map(|(id, job)| (job.turn, id));
        lost.min().map(|l| l.1).or(waiting.min().map(|w| w.1))
    }

    fn see(&self, job: JobId, claim: Option<(i64, i32)>) -> Draft {
        let seen = &self.jobs[job];
        Draft {
            job,
            claim,
            base: seen.report.clone(),
            events: seen.events,
            rows: seen.rows.clone(),
            content: match claim {
                Some(_) => seen.content,
                None => seen.report.as_ref().map_or(0, |r| r.content),
            },
            publication: format!("p{}", self.steps),
        }
    }

    /// The draft that a number stands for.
    fn draft(&self, number: usize) -> &Draft {
        &self.drafts[number % self.drafts.len()]
    }

    /// Jobs that the last step may have changed for a person.
    pub fn touched(&self, step: &Step) -> Vec<JobId> {
        match (step, &self.expected) {
            (Step::Record { job, .. }, _) => vec![*job],
            (_, Expected::Published(draft, _)) => vec![draft.job],
            _ => Vec::new(),
        }
    }

    /// Rows of all jobs of a shop.
    pub fn rows_of(&self, shop: usize) -> BTreeSet<String> {
        let jobs = self.jobs.iter().enumerate();
        let own = jobs.filter(|(id, _)| shop_of(*id) == shop);
        own.flat_map(|(_, job)| job.rows.clone()).collect()
    }

    /// True while a draft is of the newest claim of its job.
    fn holds(&self, draft: &Draft) -> bool {
        let job = &self.jobs[draft.job];
        let is_newest = draft.claim.is_some_and(|(token, _)| token == job.token);
        is_newest && job.state == Some(State::Running)
    }

    fn may_publish(&self, draft: &Draft) -> bool {
        let job = &self.jobs[draft.job];
        let is_fenced = K::HAS_TOKENS && draft.claim.is_some() && !self.holds(draft);
        let is_moved = job.report != draft.base || job.events != draft.events;
        !is_fenced && !is_moved
    }

    fn publish(&mut self, draft: &Draft) {
        let (report, holds) = (draft.report(), self.holds(draft));
        let job = &mut self.jobs[draft.job];
        job.rows.extend(draft.new_rows());
        if report.signature.is_some() {
            job.signature.clone_from(&report.signature);
        }
        job.report = Some(report);
        if holds {
            job.state = Some(match job.content == draft.content {
                true => State::Done,
                false => State::Waiting,
            });
            job.attempts = 0;
            job.lost = None;
        }
    }

    fn enqueue(&mut self, id: JobId, content: u8) -> bool {
        let waiting = self.jobs.iter().filter(|j| j.state == Some(State::Waiting));
        let next = waiting.map(|j| j.turn).min().unwrap_or(0);
        let job = &mut self.jobs[id];
        if job.content == content {
            return false;
        }
        let last = self.last_turn.entry(shop_of(id)).or_default();
        *last = (*last).max(next) + 1;
        job.turn = *last;
        job.content = content;
        job.attempts = 0;
        if job.state != Some(State::Running) {
            job.state = Some(State::Waiting);
        }
        true
    }
}

impl<K: Kind> ReferenceStateMachine for Model<K> {
    type State = Model<K>;
    type Transition = Step;

    fn init_state() -> BoxedStrategy<Model<K>> {
        Just(Model {
            jobs: Default::default(),
            drafts: Vec::new(),
            expected: Expected::Nothing,
            last_turn: BTreeMap::new(),
            steps: 0,
            kind: PhantomData,
        })
        .boxed()
    }

    fn transitions(_: &Model<K>) -> BoxedStrategy<Step> {
        let end = || {
            prop_oneof![
                4 => Just(End::Done),
                1 => Just(End::Again),
                3 => (0_u8..14).prop_map(End::Crash),
            ]
        };
        let job = 0..JOBS;
        prop_oneof![
            6 => (job.clone(), 1_u8..4).prop_map(|(job, content)| Step::Drop { job, content }),
            8 => Just(Step::Claim),
            2 => (0..64_usize).prop_map(Step::Renew),
            3 => job.clone().prop_map(Step::Lose),
            2 => (0..64_usize, any::<bool>()).prop_map(|(d, again)| Step::GiveBack(d, again)),
            2 => job.clone().prop_map(Step::Retry),
            1 => Just(Step::GiveUp),
            3 => job.clone().prop_map(Step::Look),
            3 => (job, any::<bool>()).prop_map(|(job, is_late)| Step::Record { job, is_late }),
            10 => (0..64_usize, end()).prop_map(|(draft, end)| Step::Publish { draft, end }),
            2 => end().prop_map(|end| Step::HandOver { end }),
            1 => Just(Step::Sweep),
        ]
        .boxed()
    }

    fn preconditions(state: &Model<K>, step: &Step) -> bool {
        let has_report = |job: &JobId| state.jobs[*job].report.is_some();
        match step {
            Step::Renew(_) | Step::Publish { .. } => !state.drafts.is_empty(),
            Step::GiveBack(draft, _) => {
                !state.drafts.is_empty() && state.draft(*draft).claim.is_some()
            }
            Step::Lose(job) => state.jobs[*job].state == Some(State::Running),
            Step::Look(job) => {
                has_report(job)
                    && state.jobs[*job]
                        .report
                        .as_ref()
                        .is_some_and(|r| r.signature.is_none())
            }
            Step::Record { job, is_late } => {
                has_report(job) && (!is_late || state.jobs[*job].events > 0)
            }
            _ => true,
        }
    }

    fn apply(mut state: Model<K>, step: &Step) -> Model<K> {
        state.steps += 1;
        state.expected = match step {
            Step::Drop { job, content } => Expected::Counts(state.enqueue(*job, *content)),
            Step::Claim => {
                let claimed = state.next_claim().map(|id| {
                    let job = &mut state.jobs[id];
                    job.state = Some(State::Running);
                    job.token += 1;
                    job.attempts += 1;
                    job.lost = None;
                    let claim = (job.token, job.attempts);
                    state.see(id, Some(claim))
                });
                state.drafts.extend(claimed.clone());
                Expected::Claimed(claimed)
            }
            Step::Renew(draft) => {
                let draft = state.draft(*draft).clone();
                let holds = state.holds(&draft);
                if holds {
                    state.jobs[draft.job].lost = None;
                }
                Expected::Claim(draft, holds)
            }
            Step::Lose(job) => {
                state.jobs[*job].lost = Some(state.steps);
                Expected::Nothing
            }
            Step::GiveBack(draft, again) => {
                let draft = state.draft(*draft).clone();
                state.drafts.retain(|d| d.publication != draft.publication);
                let holds = state.holds(&draft);
                if holds {
                    let attempts = draft.claim.map_or(0, |c| c.1);
                    let job = &mut state.jobs[draft.job];
                    let is_tried = *again && attempts < ATTEMPTS || job.content != draft.content;
                    job.state = Some(if is_tried {
                        State::Waiting
                    } else {
                        State::Failed
                    });
                    job.lost = None;
                }
                Expected::Claim(draft, holds)
            }
            Step::Retry(job) => {
                let job = &mut state.jobs[*job];
                let is_failed = job.state == Some(State::Failed);
                if is_failed {
                    job.state = Some(State::Waiting);
                    job.attempts = 0;
                }
                Expected::Counts(is_failed)
            }
            Step::GiveUp => {
                for job in &mut state.jobs {
                    let is_over = job.attempts >= ATTEMPTS && job.lost.is_some();
                    if is_over && job.state == Some(State::Running) {
                        job.state = Some(State::Failed);
                        job.lost = None;
                    }
                }
                Expected::Nothing
            }
            Step::Look(job) => {
                let draft = state.see(*job, None);
                state.drafts.push(draft);
                Expected::Nothing
            }
            Step::Record { job, is_late } => {
                state.jobs[*job].events += usize::from(!is_late);
                Expected::Counts(!is_late)
            }
            Step::Publish { draft, end } => {
                let draft = state.draft(*draft).clone();
                state.drafts.retain(|d| d.publication != draft.publication);
                let is_real = !matches!(end, End::Crash(steps) if *steps < K::STEPS);
                let counts = state.may_publish(&draft) && is_real;
                if counts {
                    state.publish(&draft);
                }
                Expected::Published(draft, counts)
            }
            Step::HandOver { .. } | Step::Sweep => Expected::Nothing,
        };
        state
    }
}
