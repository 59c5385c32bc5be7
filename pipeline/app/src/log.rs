//! The log: on the error output, with the job and the file that a line is about as fields of their own.

use tracing::Level;

/// Starts it. A service says what it does and when; everything else only what went wrong.
pub fn start(service: bool) {
    let log = tracing_subscriber::fmt()
        .with_writer(std::io::stderr)
        .with_ansi(std::io::IsTerminal::is_terminal(&std::io::stderr()))
        .with_target(false)
        // A log that cannot be written, to a closed pipe for instance, ends nothing.
        .log_internal_errors(false);
    match service {
        true => log.with_max_level(Level::INFO).init(),
        false => log.with_max_level(Level::WARN).without_time().init(),
    }
}
