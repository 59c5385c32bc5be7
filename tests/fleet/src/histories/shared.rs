//! Histories on PostgreSQL and an S3-compatible store, and what both kinds of store have in common.

use super::{Draft, End, Expected, Job, JobId, Kind, Model, State, Step, shop_of};
use crate::stub::{self, write_batch};
use chrono::{NaiveDateTime, TimeDelta, Utc};
use fleet::{Again, Claim, Database, FleetError, Metrics, Objects, ShopStore};
use intake::{IntakeError, Output, PendingRow, Revision, RevisionCommit, Signature, Store};
use model::labour::{WorkAction, WorkEvent};
use object_store::ObjectStore;
use object_store::path::Path;
use proptest_state_machine::{ReferenceStateMachine, StateMachineTest};
use sqlx::PgPool;
use std::cell::Cell;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use std::sync::atomic::{AtomicU32, Ordering};
use std::time::Duration;
use tokio::runtime::Runtime;

/// Name of a job.
pub fn job_name(job: JobId) -> String {
    format!("J-{job}")
}

/// Names that occur once.
///
/// # Panics
/// When one occurs twice.
pub fn names_of<'n>(names: impl Iterator<Item = &'n str>) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for name in names {
        assert!(all.insert(name.to_owned()), "{name} for the second time");
    }
    all
}

/// Content of a file of a report.
pub fn output(publication: &str, name: &str) -> String {
    format!("{name} of {publication}")
}

fn outputs(draft: &Draft) -> [Output; 2] {
    ["report.txt", "case.json"]
        .map(|name| Output::new(name, output(&draft.publication, name).into_bytes()))
}

/// An event of no line.
pub fn event() -> WorkEvent {
    WorkEvent {
        at: NaiveDateTime::default(),
        by: None,
        action: WorkAction::Done,
        recorded_by: None,
        note: None,
        lines: Vec::new(),
    }
}

/// Publishes what was made of a draft.
///
/// # Errors
/// Those of the store.
pub fn publish(store: &mut dyn Store, draft: &Draft) -> Result<bool, IntakeError> {
    let report = draft.report();
    let signature = report.signature.as_ref().map(|by| Signature {
        by: by.clone(),
        at: NaiveDateTime::default(),
        note: None,
    });
    let revision = Revision {
        token: report.publication,
        signature,
        ..stub::revision(
            &job_name(draft.job),
            report.number,
            &content(report.content),
        )
    };
    let rows: Vec<_> = draft.new_rows();
    let rows: Vec<_> = rows
        .into_iter()
        .map(|row_id| model::labour::HandedRow {
            row_id,
            ..stub::row(&revision.job, revision.number)
        })
        .collect();
    let commit = RevisionCommit {
        rows: &rows,
        base: draft.base.as_ref().map(|b| b.publication.as_str()),
        events_known: draft.events,
        ..stub::commit(&revision)
    };
    store.publish_revision(&commit, &outputs(draft))
}

fn content(content: u8) -> String {
    format!("content {content}")
}

/// Checks what a store tells of a job.
///
/// # Panics
/// When it is not as the model has it.
pub fn check(store: &mut dyn Store, id: JobId, job: &Job) {
    let name = job_name(id);
    let latest = store.ledger().latest(&name).expect("read");
    let seen = latest.map(|r| super::Report {
        number: r.number,
        publication: r.token,
        content: r.sentence.bytes().last().unwrap_or(b'0') - b'0',
        signature: r.signature.map(|s| s.by),
    });
    assert_eq!(seen, job.report, "{name}");
    let events = store.ledger().work_events(&name).expect("read");
    assert_eq!(events.len(), job.events, "{name}");
    let rows = store.ledger().handed_rows(&name).expect("read");
    let rows = names_of(rows.iter().map(|r| r.row_id.as_str()));
    assert_eq!(rows, job.rows, "{name}");
    let signature = store.ledger().last_signature(&name).expect("read");
    assert_eq!(signature.map(|s| s.by), job.signature, "{name}");
    if let Some(report) = &job.report {
        let files = store.results(&name, report.number).expect("read");
        assert_eq!(files, ["case.json", "report.txt"], "{name}");
        for file in &files {
            let place = store.result(&name, report.number, file).expect("there");
            let text = std::fs::read_to_string(place).expect("read");
            assert_eq!(text, output(&report.publication, file), "{name}");
        }
    }
}

/// Steps after which everything is done.
pub fn settle<K: Kind>(model: &Model<K>) -> Vec<Step> {
    let mut steps = Vec::new();
    let with = |state| {
        let jobs = model.jobs.iter().enumerate();
        jobs.filter(move |(_, job)| job.state == Some(state))
            .map(|(id, _)| id)
    };
    steps.extend(with(State::Running).map(Step::Lose));
    steps.push(Step::GiveUp);
    steps.extend((0..super::JOBS).map(Step::Retry));
    let mut at_rest = steps.iter().fold(model.clone(), |m, step| {
        <Model<K> as ReferenceStateMachine>::apply(m, step)
    });
    while at_rest.next_claim().is_some() {
        at_rest = <Model<K> as ReferenceStateMachine>::apply(at_rest, &Step::Claim);
        let draft = at_rest.drafts.len() - 1;
        let publish = Step::Publish {
            draft,
            end: End::Done,
        };
        at_rest = <Model<K> as ReferenceStateMachine>::apply(at_rest, &publish);
        steps.extend([Step::Claim, publish]);
    }
    for job in at_rest.jobs.iter().filter(|j| j.content > 0) {
        let report = job.report.as_ref().map(|r| r.content);
        assert_eq!(report, Some(job.content), "a job is left over: {job:?}");
    }
    steps
}

/// PostgreSQL and an S3-compatible store.
#[derive(Debug, Clone)]
pub struct Shared;

impl Kind for Shared {
    const HAS_TOKENS: bool = true;
    // The first file put, the second one.
    const STEPS: u8 = 3;
}

/// Servers that all histories of a thread share; each has shops and a bucket of its own.
pub struct Servers {
    runtime: Runtime,
    database: Database,
    /// As the superuser, to let leases run out.
    superuser: PgPool,
    bucket: Bucket,
    histories: AtomicU32,
}

/// Makes a bucket for the history of that number.
type Bucket = Box<dyn Fn(u32) -> Arc<dyn ObjectStore> + Send + Sync>;

thread_local! {
    /// Those of a thread's histories; they live as long as the process, as do the tests.
    static SERVERS: Cell<Option<&'static Servers>> = const { Cell::new(None) };
}

impl Servers {
    /// Sets the servers of all histories to come on this thread.
    ///
    /// # Errors
    /// When the database cannot be reached.
    pub fn set(worker: &str, superuser: &str, bucket: Bucket) -> anyhow::Result<()> {
        let mut runtime = tokio::runtime::Builder::new_multi_thread();
        let runtime = runtime.worker_threads(1).enable_all().build()?;
        let database = runtime.block_on(Database::open(worker, 2))?;
        let superuser = runtime.block_on(PgPool::connect(superuser))?;
        let servers = Servers {
            runtime,
            database,
            superuser,
            bucket,
            histories: AtomicU32::new(0),
        };
        SERVERS.set(Some(Box::leak(Box::new(servers))));
        Ok(())
    }

    fn get() -> &'static Servers {
        SERVERS.get().expect("the servers are set before")
    }
}

/// Two shops of a history.
#[derive(Debug)]
pub struct Shops {
    names: [String; 2],
    objects: Objects,
    stores: [ShopStore; 2],
    claims: BTreeMap<String, Claim>,
}

impl Shops {
    fn shop(&self, job: JobId) -> &str {
        &self.names[shop_of(job)]
    }

    fn publish(&mut self, draft: &Draft, end: End, counts: bool) {
        let store = self.stores[shop_of(draft.job)].clone();
        let mut store = match self.claims.get(&draft.publication) {
            Some(claim) => store.under(claim, &Arc::new(Metrics::default())),
            None => store,
        };
        if let End::Crash(steps @ 0..Shared::STEPS) = end {
            let outputs = outputs(draft);
            for output in outputs.iter().take(usize::from(steps)) {
                let number = draft.report().number.to_string();
                let digest = fleet::sha256(&output.bytes);
                let (shop, job) = (self.shop(draft.job), job_name(draft.job));
                let key = Path::from_iter(["results", shop, &job, &number, &digest, &output.name]);
                let put = self.objects.put_once(&key, output.bytes.clone().into());
                wait(put).expect("put");
            }
            return;
        }
        for _ in 0..1 + usize::from(end == End::Again) {
            let done = publish(&mut store, draft).expect("published");
            assert_eq!(done, counts, "{draft:?}");
        }
    }

    fn hand_over(&self, end: End) {
        let database = &Servers::get().database;
        let hand_over =
            |write: fleet::WriteBatch<'_>| wait(database.hand_over(&self.objects, write));
        let gone = || FleetError::Folder(std::io::Error::other("a crash"));
        if let End::Crash(steps) = end {
            let done = hand_over(&|shop: &str, rows: &[PendingRow]| {
                let bytes = write_batch(shop, rows)?;
                // The batch is closed, and with every other crash it is there as well.
                if steps % 2 == 1 {
                    self.put_batch(shop, bytes);
                }
                Err(gone())
            });
            // Where nothing waits, nothing is written.
            assert!(
                matches!(done, Ok(0) | Err(FleetError::Folder(_))),
                "{done:?}"
            );
        }
        if end == End::Again {
            hand_over(&write_batch).expect("handed over");
        }
        if !matches!(end, End::Crash(_)) {
            hand_over(&write_batch).expect("handed over");
        }
    }

    fn put_batch(&self, shop: &str, bytes: Vec<u8>) {
        let query = "SELECT MIN(number) FROM baybrief.batch WHERE shop = $1 AND NOT put";
        let (superuser, objects) = (&Servers::get().superuser, &self.objects);
        let put = async {
            let number: i64 = sqlx::query_scalar(query)
                .bind(shop)
                .fetch_one(superuser)
                .await?;
            let key = format!("labour/{shop}/{number:08}.csv");
            objects.put_once(&key.as_str().into(), bytes.into()).await?;
            Ok::<(), anyhow::Error>(())
        };
        // Called while the runtime waits for the batch.
        let handle = Servers::get().runtime.handle();
        tokio::task::block_in_place(|| handle.block_on(put)).expect("put");
    }

    fn lines_of(&self, shop: &str) -> Vec<String> {
        let batches = wait(self.objects.list(&Path::from_iter(["labour", shop]))).expect("listed");
        let mut lines = Vec::new();
        for batch in batches {
            let bytes = wait(self.objects.get(&batch.location)).expect("there");
            let text = String::from_utf8_lossy(&bytes).into_owned();
            lines.extend(
                text.lines()
                    .map(|l| l.rsplit(',').next().unwrap_or_default().into()),
            );
        }
        lines
    }

    fn check_states(&self, model: &Model<Shared>) {
        let query = "SELECT shop, name, state, token, inputs FROM baybrief.job WHERE shop = ANY($1) ORDER BY shop, name";
        let rows = sqlx::query_as(query).bind(self.names.to_vec());
        let rows: Vec<(String, String, String, i64, String)> =
            wait(rows.fetch_all(&Servers::get().superuser)).expect("read");
        let jobs = model.jobs.iter().enumerate();
        let wanted: Vec<_> = jobs
            .filter_map(|(id, job)| {
                let state = match job.state? {
                    State::Waiting => "waiting",
                    State::Running => "running",
                    State::Done => "done",
                    State::Failed => "failed",
                };
                let shop = self.shop(id).to_owned();
                Some((
                    shop,
                    job_name(id),
                    state.to_owned(),
                    job.token,
                    content(job.content),
                ))
            })
            .collect();
        assert_eq!(rows, wanted);
    }
}

fn wait<T>(work: impl Future<Output = T>) -> T {
    Servers::get().runtime.block_on(work)
}

/// Longer than any history.
const LEASE: Duration = Duration::from_secs(86_400);

impl StateMachineTest for Shared {
    type SystemUnderTest = Shops;
    type Reference = Model<Shared>;

    fn init_test(_: &Model<Shared>) -> Shops {
        let servers = Servers::get();
        let number = servers.histories.fetch_add(1, Ordering::Relaxed);
        let names = ["a", "b"].map(|shop| format!("h{number}-{shop}"));
        // One that failed has left something in the queue, which is for all.
        let left = "UPDATE baybrief.job SET state = 'done', lease_until = NULL WHERE state IN ('waiting', 'running')";
        wait(sqlx::query(left).execute(&servers.superuser)).expect("nothing is left over");
        let objects = Objects::new((servers.bucket)(number));
        let stores = names.clone().map(|shop| {
            let handle = servers.runtime.handle().clone();
            ShopStore::new(servers.database.clone(), objects.clone(), &shop, handle)
                .expect("a folder for what is fetched")
        });
        Shops {
            names,
            objects,
            stores,
            claims: BTreeMap::new(),
        }
    }

    fn apply(mut shops: Shops, model: &Model<Shared>, step: Step) -> Shops {
        let servers = Servers::get();
        let database = &servers.database;
        match (&step, &model.expected) {
            (Step::Drop { job, content: c }, Expected::Counts(counts)) => {
                let (shop, name) = (shops.shop(*job), job_name(*job));
                let added = wait(database.enqueue(shop, &name, &content(*c))).expect("queued");
                assert_eq!(added, *counts);
            }
            (Step::Claim, Expected::Claimed(draft)) => {
                let mut claims = wait(database.claim("w", LEASE, 1)).expect("claimed");
                let claim = claims.pop();
                let seen = claim
                    .as_ref()
                    .map(|c| (c.shop.as_str(), c.job.clone(), c.token, c.attempts));
                let wanted = draft.as_ref().and_then(|d| {
                    let (token, attempts) = d.claim?;
                    Some((shops.shop(d.job), job_name(d.job), token, attempts))
                });
                assert_eq!(seen, wanted);
                if let (Some(claim), Some(draft)) = (claim, draft) {
                    shops.claims.insert(draft.publication.clone(), claim);
                }
            }
            (Step::Renew(_), Expected::Claim(draft, holds)) => {
                if let Some(claim) = shops.claims.get(&draft.publication) {
                    let renewed = wait(database.renew(claim, LEASE)).expect("renewed");
                    assert_eq!(renewed, *holds, "{draft:?}");
                }
            }
            (Step::Lose(job), _) => {
                let at = NaiveDateTime::default() + TimeDelta::seconds(i64::from(model.steps));
                let query =
                    "UPDATE baybrief.job SET lease_until = $3 WHERE shop = $1 AND name = $2";
                let change = sqlx::query(query)
                    .bind(shops.shop(*job))
                    .bind(job_name(*job));
                let change = change.bind(at.and_utc());
                wait(change.execute(&servers.superuser)).expect("its lease is over");
            }
            (Step::GiveBack(_, again), Expected::Claim(draft, holds)) => {
                let claim = &shops.claims[&draft.publication];
                let again = match again {
                    true => Again::After(Duration::ZERO),
                    false => Again::Never,
                };
                let given =
                    wait(database.give_back(claim, "given back", again)).expect("given back");
                assert_eq!(given, *holds, "{draft:?}");
            }
            (Step::Retry(job), Expected::Counts(counts)) => {
                let tried = wait(database.retry(shops.shop(*job), &job_name(*job)));
                assert_eq!(tried.expect("tried again"), *counts);
            }
            (Step::GiveUp, _) => {
                wait(database.give_up()).expect("given up");
            }
            (Step::Record { job, is_late }, Expected::Counts(counts)) => {
                let seen = model.jobs[*job].events - 1;
                let ledger = shops.stores[shop_of(*job)].ledger();
                let recorded = ledger.record(&job_name(*job), &event(), seen);
                assert_eq!(recorded.expect("recorded"), *counts, "late: {is_late}");
            }
            (Step::Publish { end, .. }, Expected::Published(draft, counts)) => {
                shops.publish(draft, *end, *counts);
            }
            (Step::HandOver { end }, _) => shops.hand_over(*end),
            (Step::Sweep, _) => shops.sweep(),
            _ => {}
        }
        shops.check_states(model);
        for id in model.touched(&step) {
            check(&mut shops.stores[shop_of(id)], id, &model.jobs[id]);
        }
        shops
    }

    fn teardown(mut shops: Shops, mut model: Model<Shared>) {
        for step in settle(&model) {
            model = <Model<Shared> as ReferenceStateMachine>::apply(model, &step);
            shops = Shared::apply(shops, &model, step);
        }
        shops.hand_over(End::Done);
        for (id, job) in model.jobs.iter().enumerate() {
            check(&mut shops.stores[shop_of(id)], id, job);
        }
        for (shop, name) in shops.names.iter().enumerate() {
            let lines = shops.lines_of(name);
            let rows = names_of(lines.iter().map(String::as_str));
            assert_eq!(rows, model.rows_of(shop), "each row once");
        }
        shops.sweep();
        let query = "SELECT count(*) FROM (SELECT DISTINCT job, revision, sha256, name FROM baybrief.object \
                     WHERE shop = ANY($1)) o";
        let named = sqlx::query_scalar(query).bind(shops.names.to_vec());
        let named: i64 = wait(named.fetch_one(&Servers::get().superuser)).expect("read");
        let there = wait(shops.objects.list(&"results".into())).expect("listed");
        assert_eq!(
            i64::try_from(there.len()).ok(),
            Some(named),
            "nothing is left over"
        );
    }
}

impl Shops {
    /// Removes what no row names, however young.
    fn sweep(&self) {
        let later = Utc::now() + TimeDelta::days(2);
        let swept = self
            .objects
            .sweep(&Servers::get().database, later, TimeDelta::days(1));
        wait(swept).expect("swept");
    }
}
