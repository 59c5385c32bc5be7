//! Outputs are whole, and the ledger outlives the process.

use baybrief_intake::{FileLedger, IntakeError, Ledger, MemoryLedger, write_atomic};
use std::fs;

#[test]
fn a_file_is_replaced_whole_and_leaves_no_temporary_behind() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("R-1").join("report.pdf");
    write_atomic(&path, b"first, longer").unwrap();
    write_atomic(&path, b"second").unwrap();
    assert_eq!(fs::read(&path).unwrap(), b"second");
    assert_eq!(fs::read_dir(dir.path().join("R-1")).unwrap().count(), 1);
}

#[test]
fn a_failed_write_leaves_what_was_there_and_names_the_file() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("report.pdf");
    fs::create_dir_all(path.join("in the way")).unwrap();
    let error = write_atomic(&path, b"x").unwrap_err();
    assert!(matches!(error, IntakeError::Unwritable { .. }));
    assert!(error.to_string().contains("report.pdf"));
    assert!(path.join("in the way").is_dir());
    assert_eq!(fs::read_dir(dir.path()).unwrap().count(), 1);
}

#[cfg(unix)]
#[test]
fn outputs_may_be_read_by_whom_the_umask_lets() {
    use std::os::unix::fs::PermissionsExt;
    let dir = tempfile::tempdir().unwrap();
    let mode = |name: &str| {
        fs::metadata(dir.path().join(name))
            .unwrap()
            .permissions()
            .mode()
    };
    write_atomic(&dir.path().join("a"), b"x").unwrap();
    fs::write(dir.path().join("b"), b"x").unwrap();
    assert_eq!(mode("a"), mode("b"));
}

fn knows_the_last_content_only(ledger: &mut dyn Ledger) {
    assert!(!ledger.done("R-1", "a"));
    ledger.mark_done("R-1", "a").unwrap();
    assert!(ledger.done("R-1", "a"));
    assert!(!ledger.done("R-2", "a"));
    ledger.mark_done("R-1", "b").unwrap();
    assert!(ledger.done("R-1", "b"));
    assert!(!ledger.done("R-1", "a"), "its outputs have been replaced");
}

#[test]
fn ledgers_know_the_last_content_of_each_job() {
    let dir = tempfile::tempdir().unwrap();
    knows_the_last_content_only(&mut MemoryLedger::default());
    knows_the_last_content_only(&mut FileLedger::open(dir.path()).unwrap());
    let again = FileLedger::open(dir.path()).unwrap();
    assert!(again.done("R-1", "b"));
}

#[test]
fn a_damaged_ledger_is_an_error_and_is_kept() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join(".baybrief").join("ledger.json");
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    for content in [
        "",
        "{\"done\": 3}",
        "{\"schema\": \"other/1\", \"done\": {}}",
    ] {
        fs::write(&path, content).unwrap();
        let error = FileLedger::open(dir.path()).unwrap_err();
        assert!(
            matches!(error, IntakeError::LedgerDamaged { .. }),
            "{content}"
        );
        assert!(error.to_string().contains("ledger.json"));
        assert_eq!(fs::read_to_string(&path).unwrap(), content);
    }
}
