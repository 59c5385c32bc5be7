//! The baybrief executable.
fn main() {}
