//! Memory: how much all processes together may take, how it is shared out, and that it is given back.

#[cfg(target_os = "linux")]
mod allocator;

use formats::Limits;
use std::path::PathBuf;

#[cfg(target_os = "linux")]
#[global_allocator]
static ALLOCATOR: allocator::Allocator = allocator::Allocator;

/// Memory that this process and its workers may take together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Memory {
    bytes: u64,
}

/// Memory before anything is read: the executable, workers at rest, the typesetter at work. Bytes.
const PROGRAM: u64 = 96 << 20;
/// Part of the rest that samples may take as they were read, and again as they are handed to the workers.
const SAMPLES: u64 = 8;
/// Part of what is free on the disk that the samples of a job may take beyond the memory for them; they are there twice.
const DISK: u64 = 4;
/// Part of the rest that one worker may take, and how many work at the same time on one recording.
const WORKER: u64 = 4;
const WORKERS: usize = 2;
/// Memory without which no worker starts, bytes.
const LEAST_WORKER: u64 = 32 << 20;
/// Memory of the smallest job, bytes.
const SMALLEST_JOB: u64 = 24 << 20;

impl Default for Memory {
    /// Half of the machine's; 2 GB where the system does not say (Linux does, in /proc/meminfo).
    fn default() -> Self {
        let text = std::fs::read_to_string("/proc/meminfo").unwrap_or_default();
        let total = text.lines().find_map(|line| {
            let rest = line.strip_prefix("MemTotal:")?;
            rest.trim().strip_suffix(" kB")?.trim().parse::<u64>().ok()
        });
        Memory {
            bytes: total.map_or(2_000_000_000, |kib| kib.saturating_mul(1024) / 2),
        }
    }
}

impl Memory {
    /// So many MB; the default where nothing is said.
    pub fn of_megabytes(megabytes: Option<u64>) -> Memory {
        megabytes.map_or_else(Memory::default, |mb| Memory {
            bytes: mb.saturating_mul(1_000_000),
        })
    }

    /// Memory for all jobs that are done at the same time, bytes.
    pub fn for_jobs(self) -> u64 {
        self.bytes.saturating_sub(PROGRAM).max(self.bytes / 4)
    }

    /// Has samples beyond the memory for them lie on the disk from now on.
    pub fn take_effect(self) {
        #[cfg(target_os = "linux")]
        allocator::keep(self.for_samples());
    }

    /// Bounds of what the recordings of one job may take, in memory and on the disk.
    pub fn limits(self) -> Limits {
        #[cfg(target_os = "linux")]
        let disk = allocator::free() / DISK;
        #[cfg(not(target_os = "linux"))]
        let disk = 0;
        Limits {
            samples: self.for_samples() + disk,
        }
    }

    /// Memory that samples may take as they were read, and again as they are handed to the workers, bytes; more of them
    /// lie in files.
    pub fn for_samples(self) -> u64 {
        self.for_jobs() / SAMPLES
    }

    /// Memory that one worker may take besides its executable and the samples, bytes.
    pub fn of_worker(self) -> u64 {
        (self.for_jobs() / WORKER).max(LEAST_WORKER)
    }

    /// Number of workers that may be at work on one recording.
    pub fn workers(self) -> usize {
        WORKERS
    }

    /// Number of jobs that fit beside each other, where so many are wished for.
    pub fn jobs(self, wished: usize) -> usize {
        let most = usize::try_from(self.for_jobs() / SMALLEST_JOB).unwrap_or(usize::MAX);
        wished.min(most).max(1)
    }

    /// Memory that a job with files of so many bytes may take: its samples twice, and a worker's work on them.
    pub fn of_job(files: u64) -> u64 {
        files.saturating_mul(4).saturating_add(SMALLEST_JOB)
    }
}

/// Folder of files without a name for what exceeds the memory.
pub fn folder() -> PathBuf {
    #[cfg(target_os = "linux")]
    let folder = allocator::folder();
    #[cfg(not(target_os = "linux"))]
    let folder = std::env::temp_dir();
    folder
}

/// Has the allocator give freed memory back to the system, for a process that runs for months.
///
/// glibc raises the size from which a block is mapped by itself whenever a large one is freed, and keeps a heap for
/// each thread: what recordings and pictures leave then lies between small blocks and stays. Naming the threshold,
/// at the value that it starts with, keeps it there (mallopt(3)); two heaps are enough for jobs that mostly compute.
pub fn give_back_what_is_freed() {
    #[cfg(all(target_os = "linux", target_env = "gnu"))]
    // SAFETY: no pointers are passed, and mallopt may be called at any time. A value that it refuses changes nothing.
    unsafe {
        libc::mallopt(libc::M_MMAP_THRESHOLD, 128 * 1024);
        libc::mallopt(libc::M_ARENA_MAX, 2);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_parts_are_no_more_than_the_whole() {
        for mb in [200, 1000, 8000, 64_000] {
            let memory = Memory::of_megabytes(Some(mb));
            let samples = 2 * memory.for_samples();
            let workers = memory.workers() as u64 * memory.of_worker();
            let all = PROGRAM + samples + workers;
            assert!(all <= mb * 1_000_000, "{mb} MB: {all}");
        }
    }

    #[test]
    fn as_many_jobs_as_fit_and_one_at_least() {
        let jobs = |mb| Memory::of_megabytes(Some(mb)).jobs(16);
        assert_eq!((jobs(1), jobs(200), jobs(8000)), (1, 3, 16));
    }
}
