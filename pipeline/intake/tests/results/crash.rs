//! A publication that ends at any step, and what the next start makes of it.

use crate::shared::*;
use baybrief_intake::{IntakeError, ResultStore, Revision, stamps};
use model::labour::HandedRow;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::{Arc, Mutex};

/// Ends the publication at one step, as a crash would.
fn crash_at(store: &mut ResultStore, step: usize) {
    let mut left = step;
    store.on_step(move |what| match left {
        0 => Err(IntakeError::OutGone(
            format!("crashed after: {what}").into(),
        )),
        _ => {
            left -= 1;
            Ok(())
        }
    });
}

#[test]
fn a_crash_at_any_step_of_a_first_revision() {
    crash_at_every_step_of(0);
}

#[test]
fn a_crash_at_any_step_of_a_second_revision() {
    crash_at_every_step_of(1);
}

#[test]
fn a_crash_at_any_step_of_a_signature() {
    crash_at_every_step_of(2);
}

/// Two revisions and the signature of the second: nothing is lost and nothing doubled, wherever one of them ends.
fn crash_at_every_step_of(act: usize) {
    let acts: [(Revision, &[&str], Option<HandedRow>); 3] = [
        (revision(1), &NAMES, None),
        (
            revision(2),
            &["case.json", "labour.csv", "report.pdf"],
            None,
        ),
        (
            signed(2),
            &["case.json", "labour.csv", "report.pdf"],
            Some(row("line-1")),
        ),
    ];
    let mut crashes = 0;
    loop {
        let dir = tempfile::tempdir().unwrap();
        let out = dir.path();
        for (revision, names, row) in &acts[..act] {
            let mut store = ResultStore::open(out, true).unwrap();
            publish(&mut store, revision, names, row.clone()).unwrap();
        }
        let (revision, names, row) = &acts[act];
        let mut store = ResultStore::open(out, true).unwrap();
        let before = seen(out);
        crash_at(&mut store, crashes);
        let crashed = publish(&mut store, revision, names, row.clone()).is_err();
        drop(store);
        assert_nothing_half(&seen(out), &before, revision, names);
        // The next start, and the same job found again.
        let mut store = ResultStore::open(out, true).unwrap();
        publish(&mut store, revision, names, row.clone()).unwrap();
        assert_published(out, revision, names, act);
        let latest = store.ledger().latest("R-1").unwrap();
        assert_eq!(latest.as_ref(), Some(revision));
        assert_eq!(
            store.ledger().stamps(&["R-1"]).unwrap()["R-1"],
            stamps(&files())
        );
        let handed = store.ledger().handed_rows("R-1").unwrap();
        assert_eq!(handed.len(), usize::from(act == 2), "after step {crashes}");
        assert!(store.ledger().pending_revisions().unwrap().is_empty());
        assert!(store.ledger().pending_rows().unwrap().is_empty());
        if !crashed {
            break;
        }
        crashes += 1;
    }
    assert!(crashes > 8, "only {crashes} steps were tried");
}

/// What can be seen after a crash is the old content or the new one of each file.
fn assert_nothing_half(
    after: &BTreeMap<String, Vec<u8>>,
    before: &BTreeMap<String, Vec<u8>>,
    revision: &Revision,
    names: &[&str],
) {
    for (path, bytes) in after.iter().filter(|(p, _)| p.starts_with("R-1/")) {
        let name = path.rsplit('/').next().unwrap_or_default();
        let new = names.contains(&name) && *bytes == content(revision, name);
        let old = before.get(path) == Some(bytes);
        assert!(new || old, "{path}: {}", String::from_utf8_lossy(bytes));
    }
}

fn assert_published(out: &Path, revision: &Revision, names: &[&str], act: usize) {
    let mut expected = BTreeMap::new();
    for name in names {
        expected.insert(format!("R-1/{name}"), content(revision, name));
        let kept = format!("R-1/rev-{}/{name}", revision.number);
        expected.insert(kept, content(revision, name));
    }
    if revision.number == 2 {
        for name in NAMES {
            let kept = format!("R-1/rev-1/{name}");
            expected.insert(kept, content(&self::revision(1), name));
        }
    }
    if act == 2 {
        expected.insert("batch.txt".into(), b"line-1\n".to_vec());
    }
    assert_eq!(seen(out), expected);
    let left = fs::read_dir(out.join(".baybrief/staging")).map_or(0, Iterator::count);
    assert_eq!(left, 0, "the program's own folder is tidy");
}

/// The next start ends as well, at any step of finishing what was begun; the one after it finishes.
#[test]
fn a_crash_at_any_step_of_a_recovery() {
    for second in [false, true] {
        let mut crashes = 0;
        loop {
            let dir = tempfile::tempdir().unwrap();
            let out = dir.path();
            let mut store = ResultStore::open(out, true).unwrap();
            publish(&mut store, &revision(2), &NAMES, None).unwrap();
            let made = if second { signed(2) } else { revision(3) };
            let before = seen(out);
            store.on_step(|what| match what {
                "committed" => Err(IntakeError::OutGone(what.into())),
                _ => Ok(()),
            });
            publish(&mut store, &made, &NAMES, Some(row("line-1"))).unwrap_err();
            let mut store = ResultStore::open(out, true).unwrap();
            crash_at(&mut store, crashes);
            let crashed = publish(&mut store, &made, &NAMES, Some(row("line-1"))).is_err();
            assert_nothing_half(&seen(out), &before, &made, &NAMES);
            let mut store = ResultStore::open(out, true).unwrap();
            publish(&mut store, &made, &NAMES, Some(row("line-1"))).unwrap();
            for name in NAMES {
                for folder in ["R-1".into(), format!("R-1/rev-{}", made.number)] {
                    let there = fs::read(out.join(folder).join(name)).unwrap();
                    assert_eq!(there, content(&made, name), "after step {crashes}");
                }
            }
            assert_eq!(store.ledger().latest("R-1").unwrap(), Some(made));
            assert_eq!(store.ledger().handed_rows("R-1").unwrap().len(), 1);
            assert!(store.ledger().pending_revisions().unwrap().is_empty());
            assert_eq!(
                fs::read_to_string(out.join("batch.txt")).unwrap(),
                "line-1\n"
            );
            if !crashed {
                break;
            }
            crashes += 1;
        }
        assert!(crashes > 6, "only {crashes} steps were tried");
    }
}

#[test]
fn each_step_has_its_place() {
    let dir = tempfile::tempdir().unwrap();
    let mut store = ResultStore::open(dir.path(), true).unwrap();
    let steps: Arc<Mutex<RefCell<Vec<String>>>> = Arc::default();
    let noted = steps.clone();
    store.on_step(move |what| {
        noted.lock().unwrap().borrow_mut().push(what.into());
        Ok(())
    });
    publish(
        &mut store,
        &revision(1),
        &["report.pdf"],
        Some(row("line-1")),
    )
    .unwrap();
    let steps = steps.lock().unwrap().borrow().clone();
    let order = [
        "staged",
        "committed",
        "kept",
        "shown a file",
        "published",
        "batch written",
        "batch noted",
    ];
    let at = order.map(|o| steps.iter().position(|s| s == o));
    assert!(
        at.iter().all(Option::is_some) && at.is_sorted(),
        "{steps:?}"
    );
}
