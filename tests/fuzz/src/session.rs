//! A session of the page, and a program behind it that has one job and refuses every change.

use baybrief_page::{
    Answers, Discovery, Job, JobRow, LineChange, Message, Options, Page, Person, Recording, Seen,
    Who, Workshop, WrongLine,
};
use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::PathBuf;
use std::sync::Arc;

/// An open session.
pub struct Session {
    /// Identifier of the job in addresses.
    pub job: String,
    host: String,
    cookie: String,
    token: String,
    _page: Page,
}

impl Session {
    /// Starts the page and opens it as its owner does.
    pub fn begin() -> Session {
        let folder = tempfile::tempdir().expect("a folder");
        let page = Page::start(Arc::new(Shop), &Options::default()).expect("a page");
        let entry = folder.path().join("open.html");
        page.write_entry_file(&entry).expect("its entry");
        let entry = std::fs::read_to_string(entry).expect("its entry");
        let mut session = Session {
            job: String::new(),
            host: page
                .address()
                .trim_start_matches("http://")
                .trim_end_matches('/')
                .into(),
            cookie: String::new(),
            token: String::new(),
            _page: page,
        };
        let secret = format!(
            "secret={}",
            between(&entry, "name=\"secret\" value=\"", "\"")
        );
        let entered = session.send("POST", "/enter", "null", &secret);
        session.cookie = between(&entered, "set-cookie: ", ";").into();
        let jobs = session.send("GET", "/", "null", "");
        session.token = between(&jobs, "data-token=\"", "\"").into();
        session.job = between(&jobs, "href=\"/job/", "\"").into();
        session
    }

    /// Answer to a request in the session, head and body.
    pub fn ask(&self, method: &str, path: &str, fields: &str) -> String {
        let origin = format!("http://{}", self.host);
        self.send(
            method,
            path,
            &origin,
            &format!("token={}&{fields}", self.token),
        )
    }

    fn send(&self, method: &str, path: &str, origin: &str, body: &str) -> String {
        let mut stream = TcpStream::connect(&self.host).expect("the page listens");
        let request = format!(
            "{method} {path} HTTP/1.1\r\nConnection: close\r\nHost: {}\r\nCookie: {}\r\nOrigin: {origin}\r\n\
             X-Form-Token: {}\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\r\n{body}",
            self.host,
            self.cookie,
            self.token,
            body.len()
        );
        stream
            .write_all(request.as_bytes())
            .expect("the page reads");
        let mut answer = Vec::new();
        let mut part = [0; 1 << 14];
        while let Ok(n) = stream.read(&mut part)
            && n > 0
        {
            answer.extend_from_slice(&part[..n]);
            // Events come without an end.
            if answer.windows(12).any(|w| w == b"event-stream") {
                break;
            }
        }
        String::from_utf8_lossy(&answer).into_owned()
    }
}

fn between<'a>(text: &'a str, before: &str, after: &str) -> &'a str {
    let (_, rest) = text
        .split_once(before)
        .unwrap_or_else(|| panic!("no {before} in {text}"));
    rest.split_once(after).expect("an end").0
}

struct Shop;

fn refused<T>() -> Result<T, Message> {
    Err(Message::Words("refused".into()))
}

impl Workshop for Shop {
    fn language(&self) -> String {
        "en".into()
    }
    fn persons(&self) -> Vec<Person> {
        Vec::new()
    }
    fn jobs(&self) -> Result<Vec<JobRow>, Message> {
        let row = JobRow {
            name: "R-1".into(),
            group: "drafts",
            ..JobRow::default()
        };
        Ok(vec![row])
    }
    fn job(&self, name: &str) -> Result<Option<Job>, Message> {
        let row = JobRow {
            name: name.into(),
            ..JobRow::default()
        };
        Ok(Some(Job {
            row,
            ..Job::default()
        }))
    }
    fn answers(&self, _: &str) -> Result<Answers, Message> {
        Ok(Answers::default())
    }
    fn check_answers(&self, _: &str) -> Vec<WrongLine> {
        Vec::new()
    }
    fn answer(&self, _: &str, _: &str) -> Result<(), Message> {
        refused()
    }
    fn drop_folder(&self, _: &str) -> Result<PathBuf, Message> {
        refused()
    }
    fn added(&self, _: &str) {}
    fn check_name(&self, _: &str) -> Result<(), Message> {
        Ok(())
    }
    fn sign(&self, _: &str, _: &Seen, _: &Who, _: Option<&str>) -> Result<(), Message> {
        refused()
    }
    fn record(&self, _: &str, _: &[String], _: &Who, _: LineChange) -> Result<(), Message> {
        refused()
    }
    fn record_outcome(&self, _: &str, _: &Who, _: &Discovery) -> Result<(), Message> {
        refused()
    }
    fn recording(&self, _: &str, _: usize) -> Result<Option<Arc<Recording>>, Message> {
        refused()
    }
    fn document(&self, _: &str, _: usize) -> Result<Option<(String, Vec<u8>)>, Message> {
        Ok(Some(("report.pdf".into(), b"%PDF".to_vec())))
    }
    fn photo(&self, _: &str, _: usize) -> Result<Option<Vec<u8>>, Message> {
        Ok(None)
    }
    fn send(&self, _: &str, _: usize) -> Result<Message, Message> {
        refused()
    }
}
