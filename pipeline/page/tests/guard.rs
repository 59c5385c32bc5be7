//! Attacks on the page over its own socket: foreign names, other pages, replays, forms of others, uploads that are cut,
//! hostile names. Expected answers by RFC 9110 (statuses), the Fetch standard (Origin, Sec-Fetch-Site) and RFC 6265
//! (cookies).

use baybrief_page::{
    Answers, Discovery, Job, JobRow, LineChange, Message, Options, Page, Person, Progress,
    Recording, Seen, Who, Workshop, WrongLine, addresses,
};
use model::Case;
use proptest::prelude::*;
use std::io::{Read, Write};
use std::net::{Shutdown, TcpStream};
use std::path::PathBuf;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, LazyLock, Mutex};

/// A program with one job, that notes what it was asked to do.
struct Stub {
    added: PathBuf,
    done: Mutex<Vec<String>>,
    /// Says that a job is read, and waits until it may go on.
    gate: Mutex<Option<(Sender<()>, Receiver<()>)>>,
}

impl Stub {
    fn note(&self, what: String) -> Result<(), Message> {
        self.done.lock().unwrap().push(what);
        Ok(())
    }
}

const JOB: &str = "R-1 <b>";

impl Workshop for Stub {
    fn language(&self) -> String {
        "en".into()
    }
    fn persons(&self) -> Vec<Person> {
        Vec::new()
    }
    fn jobs(&self) -> Result<Vec<JobRow>, Message> {
        Ok(vec![JobRow {
            name: JOB.into(),
            group: "drafts",
            ..JobRow::default()
        }])
    }
    fn job(&self, name: &str) -> Result<Option<Job>, Message> {
        let gate = self.gate.lock().unwrap().take();
        if let Some((begun, go_on)) = gate {
            begun.send(()).unwrap();
            go_on.recv().unwrap();
        }
        Ok(Some(Job {
            row: JobRow {
                name: name.into(),
                verdict: Some(Message::Words("<script>alert(1)</script>".into())),
                ..JobRow::default()
            },
            seen: Some(Seen {
                revision: 1,
                digest: "d".into(),
            }),
            case: Some(CASE.clone()),
            documents: vec!["report.pdf".into()],
            ..Job::default()
        }))
    }
    fn answers(&self, _: &str) -> Result<Answers, Message> {
        Ok(Answers::default())
    }
    fn check_answers(&self, text: &str) -> Vec<WrongLine> {
        let wrong = text.lines().position(|l| l.contains("<wrong>"));
        let line = |at| WrongLine {
            line: at + 1,
            key: "unit".into(),
            message: String::new(),
        };
        wrong.map(line).into_iter().collect()
    }
    fn answer(&self, name: &str, text: &str) -> Result<(), Message> {
        self.note(format!("answer {name} {text}"))
    }
    fn drop_folder(&self, name: &str) -> Result<PathBuf, Message> {
        let folder = self.added.join(name.replace(['<', '>', ' '], "_"));
        std::fs::create_dir_all(&folder).map_err(|e| e.to_string())?;
        Ok(folder)
    }
    fn added(&self, name: &str) {
        let _ = self.note(format!("added {name}"));
    }
    fn check_name(&self, name: &str) -> Result<(), Message> {
        match name.contains('/') {
            true => Err(Message::Words("no such name".into())),
            false => Ok(()),
        }
    }
    fn sign(&self, name: &str, seen: &Seen, by: &Who, _: Option<&str>) -> Result<(), Message> {
        let Seen { revision, digest } = seen;
        self.note(format!("sign {name} {revision} {digest} {}", by.name))
    }
    fn record(&self, name: &str, _: &[String], by: &Who, _: LineChange) -> Result<(), Message> {
        self.note(format!("record {name} {}", by.name))
    }
    fn record_outcome(&self, name: &str, by: &Who, found: &Discovery) -> Result<(), Message> {
        self.note(format!("outcome {name} {} {}", found.found, by.name))
    }
    fn recording(&self, _: &str, _: usize) -> Result<Option<Arc<Recording>>, Message> {
        Err(Message::Words("none".into()))
    }
    fn document(&self, _: &str, number: usize) -> Result<Option<(String, Vec<u8>)>, Message> {
        Ok((number == 0).then(|| ("report.pdf".into(), b"%PDF".to_vec())))
    }
    fn photo(&self, _: &str, file: usize) -> Result<Option<Vec<u8>>, Message> {
        Ok(match file {
            0 => Some(b"\xff\xd8\xff\xe0".to_vec()),
            1 => Some(b"<svg onload=alert(1)>".to_vec()),
            _ => None,
        })
    }
    fn send(&self, _: &str, _: usize) -> Result<Message, Message> {
        Ok(Message::new("sent-handed"))
    }
}

/// Case of the report template's sample.
static CASE: LazyLock<Arc<Case>> = LazyLock::new(|| {
    let text = include_str!("../../../report-templates/customer/sample/case.json");
    Arc::new(serde_json::from_str(text).unwrap())
});

struct Bench {
    page: Page,
    stub: Arc<Stub>,
    host: String,
    folder: tempfile::TempDir,
}

struct Answer {
    status: u16,
    head: String,
    body: String,
}

impl Bench {
    fn new() -> Bench {
        let folder = tempfile::tempdir().unwrap();
        let stub = Arc::new(Stub {
            added: folder.path().join("added"),
            done: Mutex::default(),
            gate: Mutex::default(),
        });
        let page = Page::start(stub.clone(), &Options::default()).unwrap();
        let host = page.address();
        let host = host.trim_start_matches("http://").trim_end_matches('/');
        Bench {
            host: host.into(),
            page,
            stub,
            folder,
        }
    }

    /// Sends bytes as they are, and reads the whole answer; `is_cut`: nothing more comes.
    fn send(&self, request: &[u8], is_cut: bool) -> Answer {
        let mut stream = TcpStream::connect(&self.host).unwrap();
        stream.write_all(request).unwrap();
        if is_cut {
            stream.shutdown(Shutdown::Write).unwrap();
        }
        let mut bytes = Vec::new();
        let mut part = [0; 1 << 16];
        while let Ok(n) = stream.read(&mut part)
            && n > 0
        {
            bytes.extend_from_slice(&part[..n]);
            // Events come without an end: the first one is enough.
            let is_event = [&b"event-stream"[..], b"data: "].map(|part| contains(&bytes, part));
            if bytes.starts_with(b"HTTP/1.1 200") && is_event == [true, true] {
                break;
            }
        }
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let (head, body) = text.split_once("\r\n\r\n").unwrap_or((&text, ""));
        Answer {
            status: head.get(9..12).and_then(|s| s.parse().ok()).unwrap_or(0),
            head: head.to_lowercase(),
            body: body.into(),
        }
    }

    /// Sends a request with headers and a body.
    fn ask(&self, method: &str, path: &str, headers: &[(&str, &str)], body: &str) -> Answer {
        let mut request = format!("{method} {path} HTTP/1.1\r\nConnection: close\r\n");
        if !headers.iter().any(|(name, _)| *name == "Host") {
            request += &format!("Host: {}\r\n", self.host);
        }
        for (name, value) in headers {
            request += &format!("{name}: {value}\r\n");
        }
        if method == "POST" {
            request += &format!(
                "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n",
                body.len()
            );
        }
        self.send(format!("{request}\r\n{body}").as_bytes(), false)
    }

    fn secret(&self) -> String {
        let path = self.folder.path().join("open.html");
        self.page.write_entry_file(&path).unwrap();
        let text = std::fs::read_to_string(&path).unwrap();
        let (_, rest) = text.split_once("name=\"secret\" value=\"").unwrap();
        rest[..64].into()
    }

    /// Cookie of a new session, and the token of its forms.
    fn enter(&self) -> (String, String) {
        let secret = format!("secret={}", self.secret());
        let entered = self.ask("POST", "/enter", &[("Origin", "null")], &secret);
        assert_eq!(entered.status, 200, "{}", entered.body);
        let (_, rest) = entered.head.split_once("set-cookie: ").unwrap();
        let line = rest.lines().next().unwrap();
        for part in ["; httponly", "; samesite=strict", "; path=/"] {
            assert!(line.contains(part), "{line}");
        }
        let cookie = line.split(';').next().unwrap().to_owned();
        let jobs = self.ask("GET", "/", &[("Cookie", &cookie)], "");
        assert_eq!(jobs.status, 200);
        let (_, rest) = jobs.body.split_once("data-token=\"").unwrap();
        (cookie, rest[..64].into())
    }

    fn job_path(&self, cookie: &str) -> String {
        let jobs = self.ask("GET", "/", &[("Cookie", cookie)], "");
        let (_, rest) = jobs.body.split_once("href=\"/job/").unwrap();
        format!("/job/{}", &rest[..16])
    }

    fn done(&self) -> Vec<String> {
        self.stub.done.lock().unwrap().clone()
    }
}

fn contains(bytes: &[u8], part: &[u8]) -> bool {
    bytes.windows(part.len()).any(|w| w == part)
}

#[test]
fn only_this_page_in_a_session_is_served() {
    let bench = Bench::new();
    let (cookie, token) = bench.enter();
    let own = format!("http://{}", bench.host);
    let with = |extra: &[(&'static str, &str)], method: &str, path: &str| {
        let mut headers = vec![("Cookie", cookie.as_str())];
        headers.extend(extra);
        bench
            .ask(method, path, &headers, &format!("token={token}&name=R-2"))
            .status
    };
    // Names: a rebound one has an Origin equal to its Host and sends no Sec-Fetch-Site.
    assert_eq!(with(&[("Host", "evil.example")], "GET", "/"), 421);
    let rebound = [
        ("Host", "evil.example:80"),
        ("Origin", "http://evil.example:80"),
    ];
    assert_eq!(with(&rebound, "POST", "/new"), 421);
    // Other pages: another port of this machine sends the cookie along.
    let other_port = [
        ("Origin", "http://127.0.0.1:1"),
        ("Sec-Fetch-Site", "same-site"),
    ];
    assert_eq!(with(&other_port, "POST", "/new"), 403);
    assert_eq!(with(&[("Origin", "null")], "POST", "/new"), 403);
    assert_eq!(with(&[], "POST", "/new"), 403);
    let lied = [("Origin", own.as_str()), ("Sec-Fetch-Site", "cross-site")];
    assert_eq!(with(&lied, "POST", "/new"), 403);
    assert_eq!(with(&[("Sec-Fetch-Site", "cross-site")], "GET", "/"), 403);
    // Without a session, or with a form of another one.
    assert_eq!(bench.ask("GET", "/", &[], "").status, 401);
    assert_eq!(bench.ask("GET", "/assets/page.js", &[], "").status, 401);
    let headers = [("Cookie", cookie.as_str()), ("Origin", own.as_str())];
    let foreign = bench.ask("POST", "/new", &headers, "name=R-2&token=0");
    assert_eq!(foreign.status, 403);
    assert!(foreign.body.contains(&own), "says what to open instead");
    assert!(bench.done().is_empty());
    // And the page itself.
    assert_eq!(with(&[("Origin", &own)], "POST", "/new"), 303);
}

#[test]
fn a_secret_that_was_used_or_guessed_opens_nothing() {
    let bench = Bench::new();
    let secret = format!("secret={}", bench.secret());
    let enter = |body: &str| {
        bench
            .ask("POST", "/enter", &[("Origin", "null")], body)
            .status
    };
    assert_eq!(enter("secret=0"), 401);
    assert_eq!(enter(""), 401);
    assert_eq!(enter(&secret), 200);
    assert_eq!(enter(&secret), 401, "replayed");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let path = bench.folder.path().join("open.html");
        let mode = path.metadata().unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
    }
}

#[test]
fn every_answer_carries_the_headers_that_keep_others_out() {
    let bench = Bench::new();
    let (cookie, _) = bench.enter();
    for (path, cookie) in [("/", cookie.as_str()), ("/none", &cookie), ("/", "")] {
        let answer = bench.ask("GET", path, &[("Cookie", cookie)], "");
        for header in [
            "content-security-policy: default-src 'none'",
            "frame-ancestors 'none'",
            "x-content-type-options: nosniff",
            "cache-control: no-store",
            "referrer-policy: same-origin",
        ] {
            assert!(answer.head.contains(header), "{path}: {header}");
        }
        assert!(!answer.head.contains("unsafe"), "{}", answer.head);
    }
}

#[test]
fn text_from_outside_stays_text() {
    let bench = Bench::new();
    let (cookie, _) = bench.enter();
    let path = bench.job_path(&cookie);
    for path in ["/".to_owned(), path] {
        let page = bench.ask("GET", &path, &[("Cookie", &cookie)], "");
        assert_eq!(page.status, 200);
        assert!(!page.body.contains("<b>") && !page.body.contains("<script>alert"));
    }
}

#[test]
fn what_is_signed_is_what_was_seen() {
    let bench = Bench::new();
    let (cookie, token) = bench.enter();
    let path = bench.job_path(&cookie);
    let own = format!("http://{}", bench.host);
    let headers = [("Cookie", cookie.as_str()), ("Origin", own.as_str())];
    let sign = |body: &str| {
        let path = format!("{path}/sign");
        bench
            .ask("POST", &path, &headers, &format!("token={token}&{body}"))
            .status
    };
    assert_eq!(sign("revision=1&digest=d"), 422, "nobody signs");
    assert_eq!(sign("revision=x&digest=d&by=A"), 403);
    assert_eq!(sign("revision=1&digest=d&by=A"), 303);
    assert_eq!(bench.done(), [format!("sign {JOB} 1 d A")]);
}

#[test]
fn a_refused_form_keeps_what_was_typed() {
    let bench = Bench::new();
    let (cookie, token) = bench.enter();
    let path = bench.job_path(&cookie);
    let own = format!("http://{}", bench.host);
    let headers = [("Cookie", cookie.as_str()), ("Origin", own.as_str())];
    let send = |form: &str, body: &str| {
        let body = format!("token={token}&{body}");
        bench.ask("POST", &format!("{path}/{form}"), &headers, &body)
    };
    let signed = send("sign", "revision=1&digest=d&note=a+%3Cb%3E+note");
    assert_eq!(signed.status, 422);
    let (before, after) = signed.body.split_once("id=\"sign-by-error\"").unwrap();
    assert!(before.contains("aria-describedby=\"sign-by-error\""));
    assert!(after.contains("value=\"a &lt;b&gt; note\""), "{after}");
    // A page that answers a form is not loaded again by itself.
    assert!(!signed.body.contains("data-changes"));
    let answered = send("answers", "vehicle.year=19x9&vehicle.plate=B+-+1");
    assert_eq!(answered.status, 422);
    assert!(answered.body.contains("value=\"B - 1\""));
    assert!(answered.body.contains("19x9 is not a model year"));
    // A wrong line that no field asks keeps nobody from answering.
    assert_eq!(send("answers", "customer.name=%3Cwrong%3E").status, 303);
    let unit = send("answers", "vehicle.unit=%3Cwrong%3E");
    assert_eq!(unit.status, 422);
    assert!(unit.body.contains("is none of the choices"));
    let begun = bench.ask(
        "POST",
        "/new",
        &headers,
        &format!("token={token}&name=a%2Fb"),
    );
    assert_eq!(begun.status, 422);
    assert!(
        begun.body.contains("value=\"a/b\"") && begun.body.contains("cannot be the name of a job")
    );
}

#[test]
fn an_address_that_is_none_is_answered_in_words() {
    let bench = Bench::new();
    let (cookie, _) = bench.enter();
    let path = bench.job_path(&cookie);
    for (path, status) in [
        ("/nothing".to_owned(), 404),
        ("/job/0000000000000000".into(), 404),
        (format!("{path}/trace/x"), 400),
        (format!("{path}/sign"), 405),
    ] {
        let answer = bench.ask("GET", &path, &[("Cookie", &cookie)], "");
        assert_eq!(answer.status, status, "{path}");
        assert!(answer.body.contains("There is no such page"), "{path}");
    }
}

#[test]
fn a_change_while_a_page_is_made_is_not_taken_for_seen() {
    let bench = Bench::new();
    let (cookie, _) = bench.enter();
    let path = bench.job_path(&cookie);
    let ask = |path: &str| bench.ask("GET", path, &[("Cookie", &cookie)], "").body;
    let ((begin, begun), (go_on, may_go_on)) = (channel(), channel());
    *bench.stub.gate.lock().unwrap() = Some((begin, may_go_on));
    let page = std::thread::scope(|scope| {
        let page = scope.spawn(|| ask(&path));
        begun.recv().unwrap();
        bench.page.note_change();
        go_on.send(()).unwrap();
        page.join().unwrap()
    });
    assert!(page.contains("data-changes=\"0\""));
    assert_eq!(ask("/news"), r#"{"changes":1,"progress":{}}"#);
}

#[test]
fn progress_is_told_once_and_only_in_a_session() {
    let bench = Bench::new();
    let (cookie, _) = bench.enter();
    let progress = |percent| Progress {
        job: JOB.into(),
        step: Message::with("progress-reading", "file", "<b>.csv"),
        percent,
    };
    let ask = || bench.ask("GET", "/news", &[("Cookie", &cookie)], "").body;
    bench.page.note_progress(&[progress(Some(40))]);
    let path = bench.job_path(&cookie);
    let id = path.trim_start_matches("/job/");
    let told = format!(r#"{{"changes":0,"progress":{{"{id}":["reading <b>.csv",40]}}}}"#);
    assert_eq!(ask(), told);
    bench.page.note_progress(&[]);
    assert_eq!(ask(), r#"{"changes":0,"progress":{}}"#);
    assert_eq!(bench.ask("GET", "/news", &[], "").status, 401);
}

#[test]
fn a_photo_is_a_picture_and_nothing_else() {
    let bench = Bench::new();
    let (cookie, _) = bench.enter();
    let path = bench.job_path(&cookie);
    let photo = |n: u32| {
        bench.ask(
            "GET",
            &format!("{path}/photo/{n}"),
            &[("Cookie", &cookie)],
            "",
        )
    };
    assert_eq!(photo(0).status, 200);
    assert!(photo(0).head.contains("content-type: image/jpeg"));
    assert_eq!(photo(1).status, 404, "what a browser could run");
    assert_eq!(photo(2).status, 404);
}

#[test]
fn an_upload_arrives_whole_or_not_at_all() {
    let bench = Bench::new();
    let (cookie, token) = bench.enter();
    let path = bench.job_path(&cookie);
    let own = format!("http://{}", bench.host);
    let upload = |name: &str, announced: usize, body: &str| {
        let request = format!(
            "POST {path}/add?name={name} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\nCookie: {cookie}\r\nOrigin: {own}\r\n\
             X-Form-Token: {token}\r\nContent-Length: {announced}\r\n\r\n{body}",
            bench.host
        );
        bench
            .send(request.as_bytes(), body.len() < announced)
            .status
    };
    let folder = bench.stub.drop_folder(JOB).unwrap();
    let listed = || -> Vec<String> {
        let entries = std::fs::read_dir(&folder).into_iter().flatten().flatten();
        entries
            .map(|e| e.file_name().to_string_lossy().into_owned())
            .collect()
    };
    assert_ne!(upload("a.csv", 1_000, "only a part"), 200);
    assert!(listed().is_empty(), "{:?}", listed());
    for name in [
        "..%2Fa.csv",
        "%2Fetc%2Fpasswd",
        ".hidden",
        "a%00b",
        "a%0Ab",
        "",
    ] {
        assert_eq!(upload(name, 1, "x"), 422, "{name}");
    }
    assert!(listed().is_empty() && bench.done().is_empty());
    assert_eq!(upload("a.csv", 4, "1,2\n"), 200);
    assert_eq!(listed(), ["a.csv"]);
    assert_eq!(bench.done(), [format!("added {JOB}")]);
    // Answers that are there already are not replaced.
    assert_eq!(upload("job.toml", 1, "x"), 200);
    assert_eq!(upload("job.toml", 1, "y"), 422);
    assert_eq!(std::fs::read(folder.join("job.toml")).unwrap(), b"x");
}

static SHARED: LazyLock<(Bench, (String, String))> = LazyLock::new(|| {
    let bench = Bench::new();
    let session = bench.enter();
    (bench, session)
});

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// No request makes the page fail: it answers every one, never with an error of its own.
    #[test]
    fn any_request_is_answered(
        method in prop::sample::select(vec!["GET", "POST", "PUT", "DELETE", "HEAD", "OPTIONS"]),
        path in "/(job|assets|new|enter|events2|x)?(/[a-z0-9%.]{0,20}){0,4}(\\?[a-z]{1,4}=[a-z0-9%]{0,9})?",
        body in "[ -~]{0,60}",
    ) {
        let (bench, (cookie, token)) = &*SHARED;
        let own = format!("http://{}", bench.host);
        let headers = [("Cookie", cookie.as_str()), ("Origin", own.as_str())];
        let answer = bench.ask(method, &path, &headers, &format!("token={token}&{body}"));
        prop_assert!((200..500).contains(&answer.status), "{} {}: {}", method, path, answer.status);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Every address of the router answers whatever it is given: no error of its own, the headers on it, text from outside
    /// as text; and what is done without the form's token is nothing.
    #[test]
    fn every_address_takes_anything(
        part in prop::sample::select(vec!["0", "1", "99999999999999999999", "-1", "x", "%00", "..%2F..", "page.js"]),
        query in "((from|to|pixels|by|q|group|name)=[-a-zA-Z0-9.%]{0,8}&){0,4}",
        fields in prop::collection::vec((FIELDS, "[ -~]{0,12}"), 0..6),
        has_token in any::<bool>(),
    ) {
        let (bench, (cookie, token)) = &*SHARED;
        let own = format!("http://{}", bench.host);
        let mut headers = vec![("Cookie", cookie.as_str()), ("Origin", own.as_str())];
        let encoded = |v: &str| -> String { v.bytes().map(|b| format!("%{b:02X}")).collect() };
        let mut body: String =
            fields.iter().map(|(n, v)| format!("{}={}&", encoded(n), encoded(v))).collect();
        if has_token {
            body += &format!("token={token}");
            headers.push(("X-Form-Token", token));
        }
        let addresses = addresses();
        prop_assert!(addresses.len() > 10);
        for (address, method) in addresses.iter().flat_map(|a| ["GET", "POST", "HEAD"].map(|m| (a, m))) {
            let path = address.replace("{id}", &JOB_ID);
            let parts = path.split('/').map(|p| if p.starts_with('{') { part } else { p });
            let path = parts.collect::<Vec<_>>().join("/");
            let before = bench.done().len();
            let answer = bench.ask(method, &format!("{path}?{query}"), &headers, &body);
            prop_assert!((200..500).contains(&answer.status), "{} {}: {}", method, path, answer.status);
            prop_assert!(answer.head.contains("content-security-policy: default-src 'none'"), "{}", path);
            prop_assert!(!answer.body.contains("<script>alert") && !answer.body.contains("<svg onload"));
            if method != "POST" || !has_token {
                prop_assert_eq!(bench.done().len(), before, "{} {}", method, path);
            }
        }
    }
}

/// Names of fields of the page's forms.
const FIELDS: &str = "(by|pin|step|found|cause|line|name|code|secret|document|revision|digest|said-by|how|up-to|hours|\
                      vehicle\\.(vin|year|unit|systems)|unit\\.teeth|(capture|photo)\u{1f}a\u{1f}(B)?\u{1f}(teeth|role|caption))";

static JOB_ID: LazyLock<String> = LazyLock::new(|| {
    let (bench, (cookie, _)) = &*SHARED;
    bench.job_path(cookie).trim_start_matches("/job/").into()
});
