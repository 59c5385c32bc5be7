//! Outputs are whole.

use baybrief_intake::{IntakeError, write_atomic};
use std::fs;

#[test]
fn a_file_is_replaced_whole_and_leaves_no_temporary_behind() {
    let dir = tempfile::tempdir().unwrap();
    let path = dir.path().join("R-1").join("report.pdf");
    // A folder that is not there is not made: it may have gone away with its share.
    assert!(write_atomic(&path, b"early").is_err());
    fs::create_dir(dir.path().join("R-1")).unwrap();
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
