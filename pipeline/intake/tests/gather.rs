//! Contents of a job folder.

use baybrief_intake::{IntakeError, JobEntry, JobSource, fingerprint, gather};
use std::fs::{self, File};
use std::io;
use std::path::Path;

fn put(folder: &Path, name: &str, content: &[u8]) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, content).unwrap();
}

fn paths(entries: &[JobEntry]) -> Vec<&str> {
    entries.iter().map(|e| e.path.as_str()).collect()
}

#[test]
fn files_come_with_their_digests_in_the_order_of_their_paths() {
    let dir = tempfile::tempdir().unwrap();
    put(dir.path(), "scan.txt", b"abc");
    put(dir.path(), "before/relearn.csv", b"");
    put(dir.path(), "after.csv", b"x");
    let entries = gather(dir.path()).unwrap();
    assert_eq!(
        paths(&entries),
        ["after.csv", "before/relearn.csv", "scan.txt"]
    );
    // The example "abc" of FIPS 180-2, appendix B.1; recomputed with Python 3.11 hashlib.
    let scan = entries[2].content.as_ref().unwrap();
    assert_eq!(
        scan,
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    );
    // SHA-256 of the empty message, computed with Python 3.11 hashlib.
    let empty = entries[1].content.as_ref().unwrap();
    assert_eq!(
        empty,
        "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    );
    assert_eq!(entries[2].stamp.size, 3);
    assert!(entries[2].stamp.modified.is_some());
}

#[test]
fn content_longer_than_the_buffer_is_hashed_whole() {
    let dir = tempfile::tempdir().unwrap();
    put(dir.path(), "million.bin", &vec![b'a'; 1_000_000]);
    let entries = gather(dir.path()).unwrap();
    let digest = entries[0].content.as_ref().unwrap();
    // FIPS 180-2, appendix B.3: one million times "a"; recomputed with Python 3.11 hashlib.
    assert_eq!(
        digest,
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"
    );
}

#[test]
fn a_file_that_changes_or_goes_after_it_was_hashed_is_noticed() {
    let dir = tempfile::tempdir().unwrap();
    put(dir.path(), "a.csv", b"1");
    let entries = gather(dir.path()).unwrap();
    assert!(entries[0].is_unchanged());
    put(dir.path(), "a.csv", b"12");
    assert!(!entries[0].is_unchanged());
    let entries = gather(dir.path()).unwrap();
    fs::remove_file(dir.path().join("a.csv")).unwrap();
    assert!(!entries[0].is_unchanged());
}

#[test]
fn hidden_and_temporary_names_are_no_part_of_the_job() {
    let dir = tempfile::tempdir().unwrap();
    for name in [
        "relearn.csv",
        ".DS_Store",
        "~$relearn.csv",
        "b.csv.part",
        "Thumbs.db",
        ".git/config",
        "x.tmp/in.csv",
    ] {
        put(dir.path(), name, b"1");
    }
    assert_eq!(paths(&gather(dir.path()).unwrap()), ["relearn.csv"]);
}

#[test]
fn the_fingerprint_is_made_of_names_and_contents_alone() {
    let dir = tempfile::tempdir().unwrap();
    let print = || fingerprint(&gather(dir.path()).unwrap());
    put(dir.path(), "a.csv", b"1");
    let first = print();
    put(dir.path(), "a.csv", b"1"); // written again: new times
    assert_eq!(print(), first);
    put(dir.path(), "a.csv", b"2");
    assert_ne!(print(), first);
    put(dir.path(), "a.csv", b"1");
    fs::rename(dir.path().join("a.csv"), dir.path().join("b.csv")).unwrap();
    assert_ne!(print(), first);
}

#[test]
fn a_missing_folder_and_a_file_are_errors_that_name_them() {
    let dir = tempfile::tempdir().unwrap();
    put(dir.path(), "a.csv", b"1");
    let missing = gather(&dir.path().join("R-1")).unwrap_err();
    assert!(matches!(missing, IntakeError::Unreadable { .. }));
    assert!(missing.to_string().contains("R-1"));
    assert!(matches!(
        gather(&dir.path().join("a.csv")).unwrap_err(),
        IntakeError::NotAFolder(_)
    ));
}

#[cfg(unix)]
mod unix {
    use super::*;
    use std::os::unix::fs::symlink;

    fn refusal(entries: &[JobEntry], path: &str) -> String {
        let entry = entries.iter().find(|e| e.path == path).unwrap();
        entry.content.as_ref().unwrap_err().message.clone()
    }

    #[test]
    fn links_out_of_the_folder_are_refused_and_said() {
        let outside = tempfile::tempdir().unwrap();
        put(outside.path(), "secret.csv", b"1");
        let dir = tempfile::tempdir().unwrap();
        put(dir.path(), "relearn.csv", b"1");
        symlink(
            outside.path().join("secret.csv"),
            dir.path().join("file.csv"),
        )
        .unwrap();
        symlink(outside.path(), dir.path().join("folder")).unwrap();
        symlink("nowhere.csv", dir.path().join("dangling.csv")).unwrap();
        symlink(".", dir.path().join("itself")).unwrap();
        symlink("relearn.csv", dir.path().join("same-job.csv")).unwrap();
        let entries = gather(dir.path()).unwrap();
        assert_eq!(
            paths(&entries),
            [
                "dangling.csv",
                "file.csv",
                "folder",
                "itself",
                "relearn.csv",
                "same-job.csv"
            ]
        );
        assert!(refusal(&entries, "file.csv").contains("link out of the job folder"));
        assert!(refusal(&entries, "folder").contains("link out of the job folder"));
        assert!(refusal(&entries, "dangling.csv").contains("leads nowhere"));
        assert!(refusal(&entries, "itself").contains("folder of the same job"));
        assert_eq!(entries[5].content, entries[4].content);
    }

    #[test]
    fn a_pipe_does_not_hold_up_the_job() {
        let dir = tempfile::tempdir().unwrap();
        let made = std::process::Command::new("mkfifo")
            .arg(dir.path().join("pipe.csv"))
            .status();
        assert!(made.unwrap().success());
        let entries = gather(dir.path()).unwrap();
        assert!(refusal(&entries, "pipe.csv").contains("not a regular file"));
    }

    /// Somebody swaps a file for a pipe or a link while jobs are read: no reading ever hangs or leaves the folder.
    #[test]
    fn a_file_that_is_swapped_for_a_pipe_holds_nothing_up() {
        let outside = tempfile::tempdir().unwrap();
        put(outside.path(), "secret.csv", b"secret");
        let dir = tempfile::tempdir().unwrap();
        let (file, spare) = (dir.path().join("a.csv"), dir.path().join(".spare"));
        let begun = std::time::Instant::now();
        let stop = std::sync::atomic::AtomicBool::new(false);
        let ordering = std::sync::atomic::Ordering::Relaxed;
        std::thread::scope(|scope| {
            scope.spawn(|| {
                while !stop.load(ordering) {
                    fs::write(&spare, "1").unwrap();
                    fs::rename(&spare, &file).unwrap();
                    let made = std::process::Command::new("mkfifo").arg(&spare).status();
                    assert!(made.unwrap().success());
                    fs::rename(&spare, &file).unwrap();
                    symlink(outside.path().join("secret.csv"), &spare).unwrap();
                    fs::rename(&spare, &file).unwrap();
                }
            });
            let (mut read, mut refused) = (0, 0);
            while begun.elapsed() < std::time::Duration::from_secs(2) {
                for entry in gather(dir.path()).unwrap() {
                    match entry.content {
                        Ok(digest) => {
                            // SHA-256 of "1", computed with Python 3.11 hashlib.
                            assert!(digest.starts_with("6b86b273ff34fce1"));
                            read += 1;
                        }
                        Err(_) => refused += 1,
                    }
                }
            }
            stop.store(true, ordering);
            assert!(read > 0 && refused > 0, "{read} read, {refused} refused");
        });
    }

    #[test]
    fn a_time_before_1970_is_kept() {
        let dir = tempfile::tempdir().unwrap();
        put(dir.path(), "a.csv", b"1");
        let early = std::time::UNIX_EPOCH - std::time::Duration::from_secs(86_400);
        let file = fs::File::options()
            .write(true)
            .open(dir.path().join("a.csv"))
            .unwrap();
        file.set_modified(early).unwrap();
        // By hand: a day is 86400 s.
        let entries = gather(dir.path()).unwrap();
        assert_eq!(entries[0].stamp.modified, Some(-86_400_000_000_000));
        assert!(entries[0].is_unchanged());
    }

    #[test]
    fn names_that_are_not_utf_8_are_read_all_the_same() {
        use std::os::unix::ffi::OsStrExt;
        let dir = tempfile::tempdir().unwrap();
        let name = std::ffi::OsStr::from_bytes(b"r\xFCck.csv"); // Windows-1252
        fs::write(dir.path().join(name), b"1").unwrap();
        let entries = gather(dir.path()).unwrap();
        assert_eq!(paths(&entries), ["r\u{FFFD}ck.csv"]);
        assert!(entries[0].content.is_ok());
    }
}

#[test]
fn files_are_hashed_while_somebody_looks_at_them() {
    let dir = tempfile::tempdir().unwrap();
    put(dir.path(), "relearn.csv", b"t;a");
    put(dir.path(), "before/scan.txt", b"abc");
    let source = JobSource::Folder(dir.path().to_path_buf());
    let read = |(path, file): (String, io::Result<File>)| {
        (path, io::read_to_string(file.unwrap()).unwrap())
    };
    let (entries, seen) = source
        .gather_while(|files| files.map(read).collect::<Vec<_>>())
        .unwrap();
    assert_eq!(entries, gather(dir.path()).unwrap());
    let expected = [("before/scan.txt", "abc"), ("relearn.csv", "t;a")];
    assert_eq!(
        seen,
        expected.map(|(path, text)| (path.into(), text.into()))
    );
}
