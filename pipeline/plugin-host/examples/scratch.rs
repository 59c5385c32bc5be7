//! Scratch.
use std::process::ExitCode;
fn main() -> ExitCode {
    if let Some(code) = baybrief_plugin_host::worker_entry() { return code; }
    for f in std::env::args().skip(1) {
        let seed = 1;
        let t = std::time::Instant::now();
        let r = baybrief_plugin_host::check(f.as_ref(), seed);
        let bad: Vec<_> = r.iter().filter(|r| r.outcome != baybrief_plugin_host::Outcome::Pass).collect();
        println!("{} {} pass, {:?} in {:?}", f.rsplit('/').next().unwrap(), r.len() - bad.len(), bad, t.elapsed());
    }
    ExitCode::SUCCESS
}
