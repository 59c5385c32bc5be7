//! Time of one report.

fn main() {
    divan::main();
}
