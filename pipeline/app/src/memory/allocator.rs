//! Large blocks beyond a bound lie on the disk, so that a recording that is larger than the memory for it is read all
//! the same.

use std::alloc::{GlobalAlloc, Layout, System};
use std::fs::File;
use std::os::fd::AsRawFd;
use std::path::PathBuf;
use std::ptr::null_mut;
use std::sync::atomic::{AtomicUsize, Ordering::Relaxed};
use std::sync::{LazyLock, Mutex, MutexGuard, PoisonError};

/// The system's allocator, but for large blocks beyond the bound: each is a mapped file without a name, whose pages the
/// kernel writes out when memory is short.
///
/// Columns of samples are such blocks, whichever reader fills them, and so are whole files and what archives unfold to;
/// nothing else of this program is as large. Where no such file can be made, the block is in memory after all: a full
/// disk ends no job.
pub struct Allocator;

/// Size from which a block is large, bytes.
const LARGE: usize = 1 << 20;
/// Alignment of mapped files: a page, which is nowhere smaller, bytes.
const PAGE: usize = 4096;

/// Most bytes of large blocks in memory.
static MOST: AtomicUsize = AtomicUsize::new(usize::MAX);
/// Bytes of large blocks in memory.
static HELD: AtomicUsize = AtomicUsize::new(0);
/// Files behind the large blocks that lie on the disk, by address.
static FILES: Mutex<Vec<(usize, File)>> = Mutex::new(Vec::new());
/// Folder of the files.
static FOLDER: LazyLock<PathBuf> = LazyLock::new(|| {
    let named = std::env::var_os("TMPDIR").map(PathBuf::from);
    // Unlike /tmp, which may be memory, it is for large files (file-hierarchy(7)).
    named.unwrap_or_else(|| PathBuf::from("/var/tmp"))
});

/// Folder of the files: `TMPDIR`, else /var/tmp.
pub fn folder() -> PathBuf {
    FOLDER.clone()
}

/// Bytes that are free for them; none where no file can be made.
pub fn free() -> u64 {
    let room = tempfile::tempfile_in(&*FOLDER).and_then(|file| Ok(rustix::fs::fstatvfs(file)?));
    room.map_or(0, |s| s.f_bavail.saturating_mul(s.f_frsize))
}

/// Keeps so many bytes of large blocks in memory at most; what is there already stays.
pub fn keep(bytes: u64) {
    MOST.store(usize::try_from(bytes).unwrap_or(usize::MAX), Relaxed);
}

fn files() -> MutexGuard<'static, Vec<(usize, File)>> {
    FILES.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Counts a block in memory, unless that would be too much.
fn hold(bytes: usize) -> bool {
    let more = |held: usize| held.checked_add(bytes).filter(|h| *h <= MOST.load(Relaxed));
    HELD.fetch_update(Relaxed, Relaxed, more).is_ok()
}

/// Makes room in a file: pages that the disk has no room for would end the process when they are touched.
fn reserve(file: &File, bytes: usize) -> Option<()> {
    let bytes = libc::off_t::try_from(bytes).ok()?;
    // SAFETY: the descriptor is open; no memory is passed.
    let outcome = unsafe { libc::posix_fallocate(file.as_raw_fd(), 0, bytes) };
    (outcome == 0).then_some(())
}

/// Maps a new file of so many bytes, all of them zero.
fn map(bytes: usize) -> Option<*mut u8> {
    let file = tempfile::tempfile_in(&*FOLDER).ok()?;
    reserve(&file, bytes)?;
    let access = libc::PROT_READ | libc::PROT_WRITE;
    // SAFETY: a new mapping touches no memory that is in use.
    let at = unsafe {
        libc::mmap(
            null_mut(),
            bytes,
            access,
            libc::MAP_SHARED,
            file.as_raw_fd(),
            0,
        )
    };
    if at == libc::MAP_FAILED {
        return None;
    }
    files().push((at as usize, file));
    Some(at.cast())
}

/// True where a block lies in a file.
fn is_mapped(at: *mut u8) -> bool {
    files().iter().any(|(place, _)| *place == at as usize)
}

/// Grows or shrinks a mapped file, which may move its block; `None` where there is no room.
///
/// # Safety
/// `at` is a mapped block of `old` bytes.
unsafe fn remap(at: *mut u8, old: usize, new: usize) -> Option<*mut u8> {
    let mut files = files();
    let (place, file) = files.iter_mut().find(|(place, _)| *place == at as usize)?;
    if new > old {
        reserve(file, new)?;
    }
    // SAFETY: the whole mapping of this file, which is the caller's.
    let moved = unsafe { libc::mremap(at.cast(), old, new, libc::MREMAP_MAYMOVE) };
    if moved == libc::MAP_FAILED {
        return None;
    }
    if new < old {
        // At worst the disk is given back later.
        let _ = file.set_len(new as u64);
    }
    *place = moved as usize;
    Some(moved.cast())
}

/// Gives a mapped file back; false where there is none at that address.
///
/// # Safety
/// `at` is a block of `bytes` bytes of this allocator that nobody uses any more.
unsafe fn unmap(at: *mut u8, bytes: usize) -> bool {
    let mut files = files();
    let Some(n) = files.iter().position(|(place, _)| *place == at as usize) else {
        return false;
    };
    files.swap_remove(n);
    // SAFETY: the whole mapping, as the caller promises.
    unsafe { libc::munmap(at.cast(), bytes) };
    true
}

/// A new large block: in memory as far as the bound goes, else in a file.
///
/// # Safety
/// As [`GlobalAlloc::alloc`]; `alloc` is the system's, with or without zeroing.
unsafe fn large(layout: Layout, alloc: unsafe fn(&System, Layout) -> *mut u8) -> *mut u8 {
    let bytes = layout.size();
    if !hold(bytes) {
        let mapped = (layout.align() <= PAGE).then(|| map(bytes)).flatten();
        if let Some(at) = mapped {
            return at;
        }
        HELD.fetch_add(bytes, Relaxed);
    }
    // SAFETY: as the caller promises.
    let at = unsafe { alloc(&System, layout) };
    if at.is_null() {
        HELD.fetch_sub(bytes, Relaxed);
    }
    at
}

// SAFETY: blocks come from the system's allocator or from mappings of their own, which are aligned to pages, never
// overlap, and go back to where they came from. Nothing here panics, and what is allocated on the way is small.
unsafe impl GlobalAlloc for Allocator {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        // SAFETY: as the caller promises.
        unsafe {
            match layout.size() < LARGE {
                true => System.alloc(layout),
                false => large(layout, System::alloc),
            }
        }
    }

    unsafe fn alloc_zeroed(&self, layout: Layout) -> *mut u8 {
        // SAFETY: as the caller promises; a new file is zero.
        unsafe {
            match layout.size() < LARGE {
                true => System.alloc_zeroed(layout),
                false => large(layout, System::alloc_zeroed),
            }
        }
    }

    unsafe fn dealloc(&self, at: *mut u8, layout: Layout) {
        if layout.size() >= LARGE {
            // SAFETY: as the caller promises.
            if unsafe { unmap(at, layout.size()) } {
                return;
            }
            HELD.fetch_sub(layout.size(), Relaxed);
        }
        // SAFETY: as the caller promises; it came from there.
        unsafe { System.dealloc(at, layout) }
    }

    unsafe fn realloc(&self, at: *mut u8, layout: Layout, new: usize) -> *mut u8 {
        let old = layout.size();
        // SAFETY: as the caller promises, in each of these calls; a block goes on where it was, or is copied.
        unsafe {
            if old < LARGE && new < LARGE {
                return System.realloc(at, layout, new);
            }
            if old >= LARGE && new >= LARGE {
                let grown = new.saturating_sub(old);
                if is_mapped(at) {
                    if let Some(moved) = remap(at, old, new) {
                        return moved;
                    }
                } else if hold(grown) {
                    let moved = System.realloc(at, layout, new);
                    let given_back = if moved.is_null() {
                        grown
                    } else {
                        old.saturating_sub(new)
                    };
                    HELD.fetch_sub(given_back, Relaxed);
                    return moved;
                }
            }
            let to = self.alloc(Layout::from_size_align_unchecked(new, layout.align()));
            if !to.is_null() {
                at.copy_to_nonoverlapping(to, old.min(new));
                self.dealloc(at, layout);
            }
            to
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// One test at a time moves the bound.
    fn with_bound<T>(most: usize, f: impl FnOnce() -> T) -> T {
        static ALONE: Mutex<()> = Mutex::new(());
        let _alone = ALONE.lock().unwrap_or_else(PoisonError::into_inner);
        let before = MOST.swap(most, Relaxed);
        let got = f();
        MOST.store(before, Relaxed);
        got
    }

    #[derive(Debug, Clone)]
    enum Step {
        Push(usize, u8),
        Truncate(usize),
        Shrink,
        Zeroed(usize),
    }

    fn step() -> impl Strategy<Value = Step> {
        let most = 3 * LARGE;
        prop_oneof![
            (0..most, any::<u8>()).prop_map(|(n, b)| Step::Push(n, b)),
            (0..2 * most).prop_map(Step::Truncate),
            Just(Step::Shrink),
            (0..most).prop_map(Step::Zeroed),
        ]
    }

    /// True where a vector to which the steps were done holds what they put there.
    fn keeps(steps: &[Step]) -> bool {
        let mut got: Vec<u8> = Vec::new();
        // Runs of one value: what it should hold.
        let mut runs: Vec<(usize, u8)> = Vec::new();
        steps.iter().all(|step| {
            match *step {
                Step::Push(n, b) => {
                    got.extend(std::iter::repeat_n(b, n));
                    runs.push((n, b));
                }
                Step::Truncate(n) => {
                    got.truncate(n);
                    let mut left = n;
                    for run in &mut runs {
                        run.0 = run.0.min(left);
                        left -= run.0;
                    }
                }
                Step::Shrink => got.shrink_to_fit(),
                Step::Zeroed(n) => {
                    got = vec![0; n];
                    runs = vec![(n, 0)];
                }
            }
            let mut rest = &got[..];
            let held = runs.iter().all(|(n, b)| {
                let (run, behind) = rest.split_at(*n);
                rest = behind;
                run.iter().all(|v| v == b)
            });
            held && rest.is_empty()
        })
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 64, ..ProptestConfig::default() })]
        #[test]
        fn a_block_keeps_what_is_in_it(
            steps in prop::collection::vec(step(), 1..12),
            most in 0..4 * LARGE,
        ) {
            prop_assert!(with_bound(most, || keeps(&steps)));
        }
    }

    #[test]
    fn beyond_the_bound_blocks_are_files() {
        let block = with_bound(0, || vec![7u8; 5 * LARGE]);
        let at = block.as_ptr().cast_mut();
        assert!(is_mapped(at));
        drop(block);
        assert!(!is_mapped(at), "the file is gone with the block");
    }
}
