//! Memory over a thousand reports, each of another job: the resident memory after each hundred, and a failure where it
//! grows.
//!
//! `cargo bench -p baybrief-report --bench memory`

#[path = "../tests/samples/mod.rs"]
mod samples;

const REPORTS: u32 = 1_000;

/// Greatest growth after the first hundred reports, MiB.
const MOST_GROWTH: u64 = 16;

fn resident_mib() -> u64 {
    let statm = std::fs::read_to_string("/proc/self/statm").unwrap_or_default();
    let pages = statm.split(' ').nth(1).and_then(|n| n.parse::<u64>().ok());
    pages.unwrap_or(0) * 4096 / (1 << 20)
}

fn main() {
    let mut first = None;
    for i in 1..=REPORTS {
        if let Err(e) = samples::another(i).render() {
            panic!("report {i}: {e}");
        }
        if i.is_multiple_of(100) {
            let now = resident_mib();
            let grown = now.saturating_sub(*first.get_or_insert(now));
            println!("{i} reports: {now} MiB, {grown} MiB more than after the first hundred");
            assert!(grown <= MOST_GROWTH, "memory grows");
        }
    }
}
