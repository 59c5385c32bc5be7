//! Names under which the page may be asked for. A name that was bound to this machine's address by somebody else is
//! none of them.

/// Exact values of the header Host that are served.
#[derive(Debug, Clone)]
pub struct Hosts {
    /// On this machine, by HTTP.
    local: Vec<String>,
    /// Through a reverse proxy that ends TLS, by HTTPS.
    proxied: Vec<String>,
}

impl Hosts {
    /// Names for a port of this machine, and those of the shop's proxies (`bay.example.org`).
    pub fn new(port: u16, proxied: &[String]) -> Hosts {
        Hosts {
            local: vec![format!("127.0.0.1:{port}"), format!("localhost:{port}")],
            proxied: proxied.to_vec(),
        }
    }

    /// Address to open on this machine.
    pub fn address(&self) -> String {
        format!("http://{}/", self.local[0])
    }

    /// True for a Host that is served.
    pub fn is_host(&self, host: &str) -> bool {
        self.local.iter().chain(&self.proxied).any(|h| h == host)
    }

    /// True where an Origin is the page's own under that Host.
    pub fn is_origin(&self, origin: &str, host: &str) -> bool {
        let is = |scheme: &str| origin.strip_prefix(scheme) == Some(host);
        (self.local.iter().any(|h| h == host) && is("http://"))
            || (self.proxied.iter().any(|h| h == host) && is("https://"))
    }

    /// Names of the shop's proxies.
    pub fn proxied(&self) -> &[String] {
        &self.proxied
    }

    /// True for a Host behind TLS, where cookies are marked as secure.
    pub fn is_proxied(&self, host: &str) -> bool {
        self.proxied.iter().any(|h| h == host)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_exact_names_count() {
        let hosts = Hosts::new(4080, &["bay.example.org".into()]);
        for (host, served) in [
            ("127.0.0.1:4080", true),
            ("localhost:4080", true),
            ("bay.example.org", true),
            ("127.0.0.1", false),
            ("127.0.0.1:4081", false),
            ("LOCALHOST:4080", false),
            ("127.0.0.1:4080.example.org", false),
            ("example.org", false),
            ("", false),
        ] {
            assert_eq!(hosts.is_host(host), served, "{host}");
        }
        for (origin, host, own) in [
            ("http://127.0.0.1:4080", "127.0.0.1:4080", true),
            ("http://localhost:4080", "127.0.0.1:4080", false),
            ("http://127.0.0.1:4081", "127.0.0.1:4080", false),
            ("https://bay.example.org", "bay.example.org", true),
            ("http://bay.example.org", "bay.example.org", false),
            ("null", "127.0.0.1:4080", false),
            ("", "", false),
        ] {
            assert_eq!(hosts.is_origin(origin, host), own, "{origin} {host}");
        }
    }
}
