//! Histories on folders of results with their SQLite files, one for each shop.

use super::shared::{check, event, job_name, names_of, output, publish, settle};
use super::{Draft, End, Expected, Kind, Model, Step, shop_of};
use intake::{IntakeError, JobNote, JobState, PendingRow, ResultStore, Store, write_atomic};
use proptest_state_machine::{ReferenceStateMachine, StateMachineTest};
use std::fs;
use std::path::Path;
use std::time::SystemTime;
use tempfile::TempDir;

/// Folders of results.
#[derive(Debug, Clone)]
pub struct Folder;

impl Kind for Folder {
    const HAS_TOKENS: bool = false;
    // A folder for the job, two files staged, all of it staged.
    const STEPS: u8 = 4;
}

/// Two shops' folders.
#[derive(Debug)]
pub struct Folders {
    place: TempDir,
    stores: [ResultStore; 2],
}

fn open(place: &Path) -> [ResultStore; 2] {
    [0, 1].map(|shop| {
        let mut store = ResultStore::open(&place.join(shop.to_string()), true).expect("a folder");
        let stuck = store.finish_begun().expect("what was begun is finished");
        assert!(stuck.is_empty(), "{stuck:?}");
        store
    })
}

impl Folders {
    /// Ends the process after some steps: what follows is a new one.
    fn crash<T>(
        &mut self,
        shop: usize,
        steps: u8,
        work: impl FnOnce(&mut ResultStore) -> Result<T, IntakeError>,
    ) -> Option<T> {
        let mut left = steps;
        self.stores[shop].on_step(move |step| match left {
            0 => Err(IntakeError::OutGone(step.into())),
            _ => {
                left -= 1;
                Ok(())
            }
        });
        let done = work(&mut self.stores[shop]);
        self.stores = open(self.place.path());
        done.ok()
    }

    fn publish(&mut self, draft: &Draft, end: End, counts: bool) {
        let shop = shop_of(draft.job);
        match end {
            End::Crash(steps) => {
                let done = self.crash(shop, steps, |store| publish(store, draft));
                assert!(done.is_none_or(|done| done == counts));
            }
            End::Done | End::Again => {
                let times = 1 + usize::from(end == End::Again);
                for _ in 0..times {
                    let done = publish(&mut self.stores[shop], draft).expect("published");
                    assert_eq!(done, counts, "{draft:?}");
                }
            }
        }
    }

    fn hand_over(&mut self, end: End) {
        for shop in 0..2 {
            let done = match end {
                End::Crash(steps) => {
                    self.crash(shop, steps % 3, hand_over);
                    Ok(())
                }
                End::Done | End::Again => hand_over(&mut self.stores[shop]),
            };
            done.expect("handed over");
        }
    }
}

/// Appends rows to a batch file that leaves out those that it has.
fn hand_over(store: &mut ResultStore) -> Result<(), IntakeError> {
    store.hand_over_rows(&mut |out, rows: &[PendingRow]| {
        let path = out.join("batch.txt");
        let mut text = fs::read_to_string(&path).unwrap_or_default();
        for row in rows {
            if !text.lines().any(|l| l == row.row.row_id) {
                text.push_str(&row.row.row_id);
                text.push('\n');
            }
        }
        write_atomic(&path, text.as_bytes())
    })
}

impl StateMachineTest for Folder {
    type SystemUnderTest = Folders;
    type Reference = Model<Folder>;

    fn init_test(_: &Model<Folder>) -> Folders {
        let place = tempfile::tempdir().expect("a folder");
        Folders {
            stores: open(place.path()),
            place,
        }
    }

    fn apply(mut folders: Folders, model: &Model<Folder>, step: Step) -> Folders {
        match (&step, &model.expected) {
            (Step::Claim, Expected::Claimed(Some(draft))) => {
                let name = job_name(draft.job);
                let note = JobNote {
                    source: intake::JobSource::Folder(name.clone().into()),
                    name,
                    arrived: SystemTime::UNIX_EPOCH,
                    state: JobState::Working,
                    fingerprint: None,
                };
                let ledger = folders.stores[shop_of(draft.job)].ledger();
                ledger.note(&[note]).expect("noted");
            }
            (Step::Record { job, is_late }, Expected::Counts(counts)) => {
                let seen = model.jobs[*job].events - 1;
                let ledger = Store::ledger(&mut folders.stores[shop_of(*job)]);
                let recorded = ledger.record(&job_name(*job), &event(), seen);
                assert_eq!(recorded.expect("recorded"), *counts, "late: {is_late}");
            }
            (Step::Publish { end, .. }, Expected::Published(draft, counts)) => {
                folders.publish(draft, *end, *counts);
            }
            (Step::HandOver { end }, _) => folders.hand_over(*end),
            (Step::Sweep, _) => folders.stores = open(folders.place.path()),
            _ => {}
        }
        for id in model.touched(&step) {
            check(&mut folders.stores[shop_of(id)], id, &model.jobs[id]);
        }
        folders
    }

    fn teardown(mut folders: Folders, mut model: Model<Folder>) {
        for step in settle(&model) {
            model = <Model<Folder> as ReferenceStateMachine>::apply(model, &step);
            folders = Folder::apply(folders, &model, step);
        }
        folders.hand_over(End::Done);
        for (id, job) in model.jobs.iter().enumerate() {
            check(&mut folders.stores[shop_of(id)], id, job);
        }
        for shop in 0..2 {
            let out = folders.place.path().join(shop.to_string());
            let rows = fs::read_to_string(out.join("batch.txt")).unwrap_or_default();
            assert_eq!(names_of(rows.lines()), model.rows_of(shop), "each row once");
            let staged = fs::read_dir(out.join(".baybrief/staging"));
            assert_eq!(staged.map_or(0, Iterator::count), 0, "nothing is left over");
            for (id, job) in model.jobs.iter().enumerate() {
                if let Some(report) = &job.report
                    && shop_of(id) == shop
                {
                    let shown = out.join(job_name(id)).join("report.txt");
                    let text = fs::read_to_string(shown).expect("shown");
                    assert_eq!(text, output(&report.publication, "report.txt"));
                }
            }
        }
    }
}
