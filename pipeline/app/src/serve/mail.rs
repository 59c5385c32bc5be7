//! Files for the desktop's mail program.

use page::Message;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// Longest time that the desktop's helper may take.
const LONGEST: Duration = Duration::from_secs(15);

/// Opens a new message with a file attached (xdg-email of the Portland project); where the desktop cannot, a message
/// without it, and the file's folder.
pub fn send(file: &Path, subject: &str) -> Result<Message, Message> {
    let name = file.file_name().unwrap_or_default().to_string_lossy();
    let about = |key| Message::with(key, "name", &name);
    let mut with_file = Command::new("xdg-email");
    with_file
        .args(["--utf8", "--subject", subject, "--attach"])
        .arg(file);
    if has_worked(with_file) {
        return Ok(about("sent-handed"));
    }
    let open = |what: &Path| {
        let mut command = Command::new("xdg-open");
        command.arg(what);
        has_worked(command)
    };
    let mut draft = Command::new("xdg-email");
    draft.args(["--utf8", "--subject", subject]);
    let has_draft = has_worked(draft);
    match open(file.parent().unwrap_or(Path::new("/"))) || has_draft {
        true => Ok(about("sent-draft")),
        false => Err(Message::with("sent-not", "name", file.display())),
    }
}

fn has_worked(mut command: Command) -> bool {
    let begun = command
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn();
    let Ok(mut child) = begun else { return false };
    let end = Instant::now() + LONGEST;
    while Instant::now() < end {
        match child.try_wait() {
            Ok(Some(status)) => return status.success(),
            Ok(None) => std::thread::sleep(Duration::from_millis(50)),
            Err(_) => return false,
        }
    }
    // Some helpers are the mail program itself, which stays open.
    std::thread::spawn(move || child.wait());
    true
}
