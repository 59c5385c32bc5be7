//! Search paths of plugin libraries, in their order.

use crate::info::RefusedLibrary;
use std::cmp::Reverse;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// Environment variable with a list of folders and library files that are looked at first.
pub(crate) const VARIABLE: &str = "BAYBRIEF_PLUGINS";
/// Marks a library beside the executable among much else that may lie there.
const MARK: &str = "baybrief_plugin_";

/// A file that may be a plugin library.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Candidate {
    pub(crate) path: PathBuf,
    /// Somebody named its folder: then a library that is not used is worth a word.
    pub(crate) named: bool,
    /// It came with the executable.
    pub(crate) built_in: bool,
}

/// The libraries in the order in which they are tried: what the variable lists, the caller's folders, `plugins`
/// beside the executable, the folders of built-in ones, `../lib/baybrief` from the executable, then its own folder
/// together with `deps` beside it. In one place, the newest first. A folder or file that somebody named and that is not
/// there is refused.
pub(crate) fn candidates(
    variable: Option<&OsStr>,
    folders: &[PathBuf],
    built_in: &[PathBuf],
    executable: Option<&Path>,
) -> (Vec<Candidate>, Vec<RefusedLibrary>) {
    let mut found = Vec::new();
    let mut refused = Vec::new();
    let listed = variable
        .map(|v| std::env::split_paths(v).collect::<Vec<_>>())
        .unwrap_or_default();
    let listed = listed.into_iter().filter(|p| !p.as_os_str().is_empty());
    for place in listed.chain(folders.iter().cloned()) {
        let libraries = if place.is_file() {
            Ok(vec![place.clone()])
        } else {
            libraries(&place)
        };
        match libraries {
            Ok(libraries) => add(&mut found, libraries, true, false),
            Err(e) => refused.push(RefusedLibrary {
                reason: format!("this folder for plugins cannot be read: {e}"),
                path: place,
                transient: false,
            }),
        }
    }
    if let Some(beside) = executable.and_then(Path::parent) {
        add(
            &mut found,
            libraries(&beside.join("plugins")).unwrap_or_default(),
            true,
            false,
        );
    }
    for folder in built_in {
        let libraries = libraries(folder).unwrap_or_default();
        add(&mut found, libraries, false, true);
    }
    if let Some(beside) = executable.and_then(Path::parent) {
        // Where a package of the system puts what belongs to an executable in bin/.
        let package = libraries(&beside.join("../lib/baybrief")).unwrap_or_default();
        add(&mut found, package, false, true);
        let mut own = libraries(beside).unwrap_or_default();
        own.extend(libraries(&beside.join("deps")).unwrap_or_default());
        own.retain(|p| {
            p.file_name()
                .is_some_and(|n| n.to_string_lossy().contains(MARK))
        });
        add(&mut found, own, false, true);
    }
    (found, refused)
}

/// The files of a folder that are libraries by their name.
fn libraries(folder: &Path) -> std::io::Result<Vec<PathBuf>> {
    let mut all = Vec::new();
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        let suffix = path.extension() == Some(OsStr::new(&std::env::consts::DLL_EXTENSION));
        let name = path
            .file_name()
            .map(OsStr::to_string_lossy)
            .unwrap_or_default();
        if suffix && name.starts_with(std::env::consts::DLL_PREFIX) && path.is_file() {
            all.push(path);
        }
    }
    Ok(all)
}

/// Adds the files of one place, newest first, each by its true absolute path and only once.
fn add(found: &mut Vec<Candidate>, paths: Vec<PathBuf>, named: bool, built_in: bool) {
    let changed = |p: &Path| {
        p.metadata()
            .and_then(|m| m.modified())
            .unwrap_or(SystemTime::UNIX_EPOCH)
    };
    let mut paths: Vec<_> = paths
        .into_iter()
        .filter_map(|p| p.canonicalize().ok())
        .collect();
    paths.sort_by_cached_key(|p| (Reverse(changed(p)), p.clone()));
    for path in paths {
        if !found.iter().any(|c| c.path == path) {
            found.push(Candidate {
                path,
                named,
                built_in,
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs::{File, create_dir_all};
    use std::time::Duration;

    /// A library file of a given age.
    fn library(folder: &Path, name: &str, age_s: u64) -> PathBuf {
        create_dir_all(folder).expect("folder");
        let name = format!(
            "{}{name}{}",
            std::env::consts::DLL_PREFIX,
            std::env::consts::DLL_SUFFIX
        );
        let path = folder.join(name);
        let file = File::create(&path).expect("file");
        let when = SystemTime::UNIX_EPOCH + Duration::from_secs(1_800_000_000 - age_s);
        file.set_modified(when).expect("age");
        path.canonicalize().expect("its true path")
    }

    #[test]
    fn order_is_variable_folders_plugins_then_own_folder_newest_first() {
        let root = tempfile::tempdir().expect("folder");
        let root = root.path();
        let bin = root.join("bin");
        let old = library(&bin, "baybrief_plugin_a", 90);
        let new = library(&bin.join("deps"), "baybrief_plugin_a", 10);
        library(&bin, "something_else", 1);
        std::fs::write(bin.join("deps").join("libbaybrief_plugin_a.rlib"), "").expect("no library");
        let beside = library(&bin.join("plugins"), "any_name", 500);
        let shop = library(&root.join("shop"), "of_the_shop", 700);
        let variable = library(&root.join("variable"), "of_the_variable", 900);
        let single = library(&root.join("single"), "one_file", 999);
        library(&root.join("single"), "not_listed", 999);
        let listed = std::env::join_paths([root.join("variable"), single.clone()]).expect("a list");
        let (found, refused) = candidates(
            Some(&listed),
            &[root.join("shop")],
            &[],
            Some(&bin.join("baybrief")),
        );
        let paths: Vec<_> = found.iter().map(|c| c.path.clone()).collect();
        assert_eq!(paths, [variable, single, shop, beside, new, old]);
        assert_eq!(
            found.iter().map(|c| c.named).collect::<Vec<_>>(),
            [true, true, true, true, false, false]
        );
        assert_eq!(
            found.iter().map(|c| c.built_in).collect::<Vec<_>>(),
            [false, false, false, false, true, true]
        );
        assert_eq!(refused, []);
    }

    #[test]
    fn a_named_folder_that_is_missing_is_refused_and_an_implied_one_is_not() {
        let root = tempfile::tempdir().expect("folder");
        let missing = root.path().join("missing");
        let executable = root.path().join("bin").join("baybrief");
        let (found, refused) =
            candidates(None, std::slice::from_ref(&missing), &[], Some(&executable));
        assert_eq!(found, []);
        assert_eq!(refused.len(), 1);
        assert_eq!(refused[0].path, missing);
    }
}
