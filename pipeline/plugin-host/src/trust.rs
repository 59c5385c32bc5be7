//! Trust in a library: nobody but its owner can have put another in its place.

use std::fs::Metadata;
use std::os::unix::fs::{MetadataExt, PermissionsExt};
use std::path::Path;

/// Others may write.
const OTHERS: u32 = 0o002;
/// The group may write.
const GROUP: u32 = 0o020;
/// In a folder that all may write to, each may remove only what is their own.
const STICKY: u32 = 0o1000;

/// Why a library at this true path must not be loaded; `None` when it may. The file and its folder belong to the
/// caller or to root and neither group nor others may write to them, except for a group that is the owner's alone;
/// nor may others write to a folder above, unless it is sticky.
pub(crate) fn distrust(library: &Path) -> Option<String> {
    let near = [Some(library), library.parent()];
    for path in near.into_iter().flatten() {
        let metadata = path.metadata().ok()?;
        if let Some(owner) = stranger(&metadata) {
            return Some(format!(
                "{} belongs to user {owner}, neither to you nor to root; take it over with chown, or install the \
                 plugin again",
                path.display()
            ));
        }
        if let Some(who) = writers(&metadata) {
            return Some(refusal(path, &metadata, who, "go-w"));
        }
    }
    for folder in library.ancestors().skip(2) {
        let metadata = folder.metadata().ok()?;
        let mode = metadata.permissions().mode();
        if mode & OTHERS != 0 && mode & STICKY == 0 {
            return Some(refusal(folder, &metadata, "others", "o-w"));
        }
    }
    None
}

fn refusal(path: &Path, metadata: &Metadata, who: &str, change: &str) -> String {
    let (path, mode) = (path.display(), metadata.permissions().mode() & 0o7777);
    format!(
        "{who} may write to {path} (mode {mode:04o}), and could have put any program there; when you know that \
         nobody did: chmod {change} {path}"
    )
}

/// The owner, when it is neither the caller nor root.
fn stranger(metadata: &Metadata) -> Option<u32> {
    let owner = metadata.uid();
    let me = rustix::process::geteuid().as_raw();
    (owner != 0 && owner != me).then_some(owner)
}

fn writers(metadata: &Metadata) -> Option<&'static str> {
    let mode = metadata.permissions().mode();
    if mode & OTHERS != 0 {
        return Some("others");
    }
    // Where each user has a group of their own, with the user's number, files are made writable by it (common
    // practice of Linux distributions, from memory).
    let private = metadata.gid() == metadata.uid();
    (mode & GROUP != 0 && !private).then_some("the group")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs::{Permissions, create_dir, set_permissions, write};

    #[test]
    fn what_others_may_write_to_is_refused_and_named() {
        let root = tempfile::tempdir().expect("a folder");
        let root = root.path().canonicalize().expect("its true path");
        let above = root.join("above");
        let folder = above.join("plugins");
        create_dir(&above).expect("a folder");
        create_dir(&folder).expect("a folder");
        let file = folder.join("libone.so");
        write(&file, "x").expect("a file");
        let set = |path: &Path, mode: u32| {
            set_permissions(path, Permissions::from_mode(mode)).expect("a mode");
        };
        for (path, good) in [(&file, 0o755), (&folder, 0o755), (&above, 0o755)] {
            set(path, good);
        }
        assert_eq!(distrust(&file), None);
        for (path, bad) in [(&file, 0o757), (&folder, 0o777), (&above, 0o757)] {
            set(path, bad);
            let said = distrust(&file).expect("refused");
            let named = format!("others may write to {} (mode {bad:04o})", path.display());
            assert!(said.starts_with(&named), "{said}");
            set(path, 0o755);
        }
        set(&above, 0o1777);
        assert_eq!(distrust(&file), None, "sticky");
        // Writable by the group: only where the group is the owner's own, which has the same number.
        set(&file, 0o775);
        let metadata = file.metadata().expect("the file");
        assert_eq!(distrust(&file).is_none(), metadata.uid() == metadata.gid());
        set(&file, 0o755);
        // Only root can give files away.
        if rustix::process::geteuid().is_root() {
            std::os::unix::fs::chown(&file, Some(4321), None).expect("given away");
            let said = distrust(&file).expect("refused");
            assert!(said.contains("belongs to user 4321"), "{said}");
            std::os::unix::fs::chown(&file, Some(0), Some(4321)).expect("taken back");
            set(&file, 0o775);
            let said = distrust(&file).expect("refused");
            assert!(said.starts_with("the group may write"), "{said}");
        }
    }
}
