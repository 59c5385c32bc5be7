//! Whatever is asked of the page in a session: an answer that is no error of its own, with the headers that keep others
//! out. The first byte chooses the address, the second the method; parts of the address, the query and the body follow,
//! each up to a zero byte.
#![no_main]

use baybrief_fuzz::session::Session;
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static SESSION: LazyLock<Session> = LazyLock::new(Session::begin);

fuzz_target!(|data: &[u8]| {
    let [address, method, rest @ ..] = data else {
        return;
    };
    let addresses = baybrief_page::addresses();
    let address = addresses[usize::from(*address) % addresses.len()];
    let method = ["GET", "POST", "HEAD"][usize::from(*method) % 3];
    let mut parts = rest.split(|&b| b == 0);
    let mut next = || parts.next().unwrap_or_default();
    let path: Vec<String> = address
        .split('/')
        .map(|part| match part {
            "{id}" => SESSION.job.clone(),
            part if part.starts_with('{') => encoded(next()),
            part => part.into(),
        })
        .collect();
    let query: Vec<String> = next().split(|&b| b == b'&').map(pair).collect();
    let fields: Vec<String> = next().split(|&b| b == b'&').map(pair).collect();
    let path = format!("{}?{}", path.join("/"), query.join("&"));
    let answer = SESSION.ask(method, &path, &fields.join("&"));
    let head = answer.to_lowercase();
    let status = head.get(9..12).unwrap_or_default();
    assert!(
        ("200".."500").contains(&status),
        "{method} {path}: {answer}"
    );
    assert!(
        head.contains("content-security-policy: default-src 'none'"),
        "{path}"
    );
});

/// A field `name=value`, both encoded.
fn pair(field: &[u8]) -> String {
    let (name, value) = field.split_at(field.iter().position(|&b| b == b'=').unwrap_or(0));
    format!("{}={}", encoded(name), encoded(value))
}

fn encoded(bytes: &[u8]) -> String {
    let one = |b: &u8| match b.is_ascii_alphanumeric() || b"-.".contains(b) {
        true => (*b as char).to_string(),
        false => format!("%{b:02X}"),
    };
    bytes.iter().map(one).collect()
}
