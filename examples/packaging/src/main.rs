//! Writes the man pages and shell completions, made from the arguments themselves, for whoever packages the program:
//! `cargo run -p baybrief-packaging -- FOLDER`.

use clap_complete::Shell;
use std::path::PathBuf;
use std::process::ExitCode;

fn main() -> ExitCode {
    let Some(folder) = std::env::args_os().nth(1).map(PathBuf::from) else {
        eprintln!(
            "usage: baybrief-packaging FOLDER: the folder in which man/ and completions/ are to be made"
        );
        return ExitCode::from(2);
    };
    match write(&folder) {
        Ok(()) => ExitCode::SUCCESS,
        Err(e) => {
            eprintln!("{}: {e}", folder.display());
            ExitCode::FAILURE
        }
    }
}

fn write(folder: &std::path::Path) -> std::io::Result<()> {
    let (man, completions) = (folder.join("man"), folder.join("completions"));
    std::fs::create_dir_all(&man)?;
    std::fs::create_dir_all(&completions)?;
    // One page for the program and one for each of its verbs.
    clap_mangen::generate_to(baybrief::command(), &man)?;
    for shell in [Shell::Bash, Shell::Fish, Shell::Zsh] {
        clap_complete::generate_to(shell, &mut baybrief::command(), "baybrief", &completions)?;
    }
    Ok(())
}
