//! Memory: how much there is, and that it is given back.

/// Half of the machine's memory, bytes; 2 GB where the system does not say (Linux does, in /proc/meminfo).
pub fn half_of_machine() -> u64 {
    let text = std::fs::read_to_string("/proc/meminfo").unwrap_or_default();
    let total = text.lines().find_map(|line| {
        let rest = line.strip_prefix("MemTotal:")?;
        rest.trim().strip_suffix(" kB")?.trim().parse::<u64>().ok()
    });
    total.map_or(2_000_000_000, |kib| kib.saturating_mul(1024) / 2)
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
