//! `serve`: the watch, with the page in the browser.

use super::watch::{Attached, watch_with};
use crate::arguments::{Common, ServeArguments, Usage, WatchArguments};
use crate::context::{AppContext, Settings};
use crate::output::say_error;
use crate::serve::{Shop, progress};
use crate::words::phrase;
use anyhow::{Context, Result};
use intake::ResultStore;
use page::{Options, Page};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::sync::mpsc::channel;

/// Watches the inbox and serves the page until it is stopped.
pub fn serve(arguments: &ServeArguments) -> Result<bool> {
    #[cfg(feature = "fleet")]
    if arguments.shared.store.is_some() && arguments.out.is_none() && arguments.inbox.is_none() {
        return super::fleet::serve(arguments);
    }
    let watch = WatchArguments {
        inbox: folder(arguments.inbox.as_deref(), "inbox")?,
        settle: 3.0,
        incomplete_timeout: 60.0,
        rescan: 10.0,
        poll: None,
        parallel: None,
        common: Common {
            out: folder(arguments.out.as_deref(), "results")?,
            shop: arguments.shop.clone(),
            memory: arguments.memory,
            in_process: false,
        },
    };
    watch_with(&watch, |out, context| {
        let private = out.join(".baybrief");
        let added = private.join("added");
        std::fs::create_dir_all(&added).with_context(|| added.display().to_string())?;
        let (sender, sent) = channel();
        let store = Box::new(ResultStore::open(out, false)?);
        let shop = Shop::new(store, &private, context, sender);
        let page = Arc::new(open_page(shop, &private, context, arguments)?);
        let (changed, theme) = (page.clone(), context.theme.clone());
        Ok(Some(Attached {
            additions: added,
            sent,
            note_change: Box::new(move || changed.note_change()),
            note_progress: Box::new(move |jobs| {
                page.note_progress(&progress(jobs, theme.localizer()))
            }),
        }))
    })
}

/// Starts the page of a shop and opens it in the browser. Its way in lies in the folder `private`.
///
/// # Errors
/// When it cannot be started, or shop.toml names a host that is none.
pub fn open_page(
    shop: Shop,
    private: &Path,
    context: &AppContext,
    arguments: &ServeArguments,
) -> Result<Page> {
    let options = Options {
        port: arguments.port,
        proxied_hosts: proxied_hosts(&context.settings)?,
    };
    let page = Page::start(Arc::new(shop), &options)?;
    let entry = private.join("open-page.html");
    page.write_entry_file(&entry)?;
    let (address, file) = (page.address().to_string(), entry.display().to_string());
    say_error!(
        "{}",
        phrase!(context.localizer(), "console-page-at", "address" => address, "file" => file)
    );
    if !arguments.no_browser {
        open_in_browser(&entry);
    }
    Ok(page)
}

/// Names under which the shop's reverse proxy is asked for the page, as the header Host has them.
fn proxied_hosts(settings: &Settings) -> Result<Vec<String>> {
    let hosts = &settings.shop.page.hosts;
    for host in hosts {
        let is_host = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || ".-:[]".contains(c);
        if host.is_empty() || !host.chars().all(is_host) {
            return Err(Usage(format!(
                "shop.toml, [page] hosts: {host:?}: write a name as it stands in the address bar, in lower case and \
                 without https:// and slashes, such as \"bay.example.org\""
            ))
            .into());
        }
    }
    Ok(hosts.clone())
}

/// A folder that was named, else one below the user's documents; made where it is missing.
fn folder(named: Option<&Path>, name: &str) -> Result<PathBuf> {
    let path = match named {
        Some(path) => path.to_path_buf(),
        None => documents()?.join("baybrief").join(name),
    };
    std::fs::create_dir_all(&path)
        .map_err(|e| Usage(format!("{}: cannot be made: {e}", path.display())))?;
    Ok(path)
}

/// The user's folder for documents: what the desktop names (XDG user directories), else `Documents` in the home folder.
fn documents() -> Result<PathBuf> {
    let asked = Command::new("xdg-user-dir").arg("DOCUMENTS").output();
    let named = asked.ok().filter(|o| o.status.success());
    let named = named.and_then(|o| String::from_utf8(o.stdout).ok());
    let home = std::env::var_os("HOME").map(PathBuf::from);
    match named
        .map(|n| PathBuf::from(n.trim()))
        .filter(|p| p.is_absolute())
    {
        // Without a folder for documents the tool names the home folder itself.
        Some(path) if Some(&path) != home.as_ref() => Ok(path),
        _ => home
            .map(|h| h.join("Documents"))
            .ok_or_else(|| Usage("there is no home folder: name INBOX and --out".into()).into()),
    }
}

/// Opens a file in the desktop's browser; without a desktop the person opens it.
fn open_in_browser(file: &Path) {
    let opened = Command::new("xdg-open")
        .arg(file)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn();
    if let Ok(mut child) = opened {
        // Reaped, so that no defunct process stays.
        std::thread::spawn(move || child.wait());
    }
}
