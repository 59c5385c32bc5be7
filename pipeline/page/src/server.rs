//! The server: its port, its secret, its guard.

use crate::lock::{Hosts, Refusal, Session, Sessions, check_origin, protect};
use crate::routes;
use crate::view::{failed, refused};
use crate::words::Words;
use crate::{Message, Progress, Workshop};
use axum::extract::{Request, State};
use axum::http::{StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use serde::Serialize;
use std::collections::{BTreeMap, HashMap};
use std::net::Ipv4Addr;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::Instant;
use thiserror::Error;
use tokio::net::TcpListener;
use tokio::sync::watch;

/// Settings of the page.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// Port on 127.0.0.1; 0 for any that is free.
    pub port: u16,
    /// Names under which a reverse proxy with TLS passes requests on.
    pub proxied_hosts: Vec<String>,
}

/// Reason why there is no page.
#[derive(Debug, Error)]
pub enum PageError {
    /// The port cannot be had.
    #[error(
        "port {port} of 127.0.0.1 cannot be used for the page ({why}): name another one with --port, or 0 for any"
    )]
    Port {
        /// The port that was asked for.
        port: u16,
        /// Reason.
        why: std::io::Error,
    },
    /// The file with the secret cannot be written.
    #[error("{path}: the file that opens the page cannot be written: {why}")]
    EntryFile {
        /// The file.
        path: PathBuf,
        /// Reason.
        why: std::io::Error,
    },
    /// No random numbers.
    #[error("the system gives no random numbers for the page's secret: {0}")]
    Random(getrandom::Error),
    /// The runtime cannot be started.
    #[error("the page cannot be started: {0}")]
    Runtime(std::io::Error),
}

/// State that requests share.
pub(crate) struct Shared {
    pub(crate) workshop: Arc<dyn Workshop>,
    pub(crate) words: Words,
    pub(crate) hosts: Hosts,
    sessions: Mutex<Sessions>,
    /// Names of jobs by their identifiers, as far as they were asked for.
    pub(crate) names: Mutex<HashMap<String, String>>,
    /// News of the jobs.
    pub(crate) news: watch::Receiver<News>,
}

/// News of the jobs, for open pages.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub(crate) struct News {
    /// Counts up with each change of the jobs.
    pub(crate) changes: u64,
    /// Jobs that are being done, by their identifiers: the step in words, and the share of it that is done, %.
    pub(crate) progress: BTreeMap<String, (String, Option<u8>)>,
}

impl Shared {
    pub(crate) fn sessions(&self) -> MutexGuard<'_, Sessions> {
        self.sessions.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// The running page.
pub struct Page {
    shared: Arc<Shared>,
    news: watch::Sender<News>,
}

impl Page {
    /// Binds the port and serves on a thread of its own until the process ends.
    ///
    /// # Errors
    /// When the port or random numbers cannot be had.
    pub fn start(workshop: Arc<dyn Workshop>, options: &Options) -> Result<Page, PageError> {
        let port = |why| PageError::Port {
            port: options.port,
            why,
        };
        let listener =
            std::net::TcpListener::bind((Ipv4Addr::LOCALHOST, options.port)).map_err(port)?;
        listener.set_nonblocking(true).map_err(port)?;
        let bound = listener.local_addr().map_err(port)?.port();
        let (news, receiver) = watch::channel(News::default());
        let shared = Arc::new(Shared {
            words: Words::new(&workshop.language()),
            workshop,
            hosts: Hosts::new(bound, &options.proxied_hosts),
            sessions: Mutex::new(Sessions::new().map_err(PageError::Random)?),
            names: Mutex::default(),
            news: receiver,
        });
        let runtime = tokio::runtime::Builder::new_current_thread()
            .enable_all()
            .build()
            .map_err(PageError::Runtime)?;
        let router = routes::router(shared.clone());
        std::thread::Builder::new()
            .name("page".into())
            .spawn(move || {
                runtime.block_on(async move {
                    let served = match TcpListener::from_std(listener) {
                        Ok(listener) => axum::serve(listener, router).await,
                        Err(e) => Err(e),
                    };
                    if let Err(e) = served {
                        tracing::error!("the page ended: {e}");
                    }
                });
            })
            .map_err(PageError::Runtime)?;
        Ok(Page { shared, news })
    }

    /// Address of the page on this machine.
    pub fn address(&self) -> String {
        self.shared.hosts.address()
    }

    /// Tells open pages that jobs have changed.
    pub fn note_change(&self) {
        self.news.send_modify(|news| news.changes += 1);
    }

    /// Tells open pages how far the jobs are that are being done. The same once more tells nobody anything.
    pub fn note_progress(&self, jobs: &[Progress]) {
        let words = &self.shared.words;
        let told = jobs.iter().map(|p| {
            let told = (words.tell(&p.step), p.percent);
            (routes::id(&p.job), told)
        });
        let told: BTreeMap<_, _> = told.collect();
        self.news.send_if_modified(|news| {
            let is_new = news.progress != told;
            news.progress = told;
            is_new
        });
    }

    /// Writes a file that opens the page in a browser: only its owner can read it, and its secret works once and for
    /// a minute. The secret stands in no argument list, address or log.
    ///
    /// # Errors
    /// When the file cannot be written.
    pub fn write_entry_file(&self, path: &Path) -> Result<(), PageError> {
        let entry = self.shared.sessions().invite(Instant::now());
        let entry = entry.map_err(PageError::Random)?;
        let text = crate::view::entry_file(&self.shared.words, &self.address(), &entry.secret);
        write_private(path, text.as_bytes()).map_err(|why| PageError::EntryFile {
            path: path.to_path_buf(),
            why,
        })
    }
}

/// Writes a file that only its owner may read, in the place of one that was there.
fn write_private(path: &Path, bytes: &[u8]) -> std::io::Result<()> {
    use std::io::Write;
    let folder = path.parent().unwrap_or(Path::new("."));
    // A temporary file is created with mode 0600.
    let mut file = tempfile::NamedTempFile::new_in(folder)?;
    file.write_all(bytes)?;
    file.persist(path).map_err(|e| e.error)?;
    Ok(())
}

/// Lets through what this page itself sent in a session; says to everybody else what to open.
pub(crate) async fn guard(
    State(shared): State<Arc<Shared>>,
    mut request: Request,
    next: Next,
) -> Response {
    let mut response = match admit(&shared, &mut request) {
        Ok(()) => next.run(request).await,
        Err(refusal) => refuse(&shared, refusal, routes::host_of(request.headers())),
    };
    let status = response.status();
    let kind = response.headers().get(header::CONTENT_TYPE);
    if status.is_client_error() && kind.is_none_or(|k| !k.as_bytes().starts_with(b"text/html")) {
        // An address or a form that the framework itself could not take.
        let page = failed(&shared.words, &Message::new("not-found"));
        response = (status, page).into_response();
    }
    protect(response.headers_mut());
    response
}

fn admit(shared: &Shared, request: &mut Request) -> Result<(), Refusal> {
    let headers = request.headers();
    let text = |name: header::HeaderName| {
        let value = headers.get(name).and_then(|v| v.to_str().ok());
        value.unwrap_or_default().to_owned()
    };
    let mut named = headers.get_all(header::HOST).iter();
    let one = named.next().is_some() && named.next().is_none();
    if !one || !shared.hosts.is_host(&text(header::HOST)) {
        return Err(Refusal::Host);
    }
    // The entry file is opened from the disk: its secret speaks for it.
    if request.uri().path() == routes::ENTER {
        return Ok(());
    }
    check_origin(request.method(), headers, &shared.hosts)?;
    let cookies = text(header::COOKIE);
    let session: Session = shared
        .sessions()
        .find(&cookies, Instant::now())
        .cloned()
        .ok_or(Refusal::Session)?;
    request.extensions_mut().insert(session);
    Ok(())
}

fn refuse(shared: &Shared, refusal: Refusal, host: &str) -> Response {
    let status = match refusal {
        Refusal::Host => StatusCode::MISDIRECTED_REQUEST,
        Refusal::Origin | Refusal::Token => StatusCode::FORBIDDEN,
        Refusal::Session => StatusCode::UNAUTHORIZED,
    };
    let page = refused(&shared.words, refusal, &shared.hosts, host);
    (status, page).into_response()
}
