//! Memory over many reports; a process of its own, so that no other test is counted.

mod samples;

/// Typst remembers what it compiled; the report makes it forget. Coarse: 12 small reports may not take 24 MiB; without
/// forgetting each took 4 (measured, debug profile, Typst 0.15.1). `benches/memory.rs` goes on for a thousand.
#[test]
#[cfg(target_os = "linux")]
fn reports_do_not_pile_up() {
    let resident = || -> u64 {
        let statm = std::fs::read_to_string("/proc/self/statm").unwrap();
        statm.split(' ').nth(1).unwrap().parse::<u64>().unwrap() * 4096
    };
    let mut sample = samples::nothing_found();
    sample.evidence.clear();
    let mut once = |i: u32| {
        sample.case.job.number = format!("R-{i}");
        sample.render().unwrap();
    };
    (0..3).for_each(&mut once);
    let before = resident();
    (3..15).for_each(&mut once);
    let grown = resident().saturating_sub(before);
    assert!(grown < 24 << 20, "grew by {} MiB", grown >> 20);
}
