//! The head of a request: the bytes a client sent into a method, a path and headers, or the status that refuses them.
//!
//! Strict where leniency has let requests be read in two ways: lines end in CR LF, names of headers are tokens, nothing is
//! folded, one `Host`, no body.

use std::str::FromStr;
use tiny_http::Method;

/// A head may be this long; a browser's is under 2 KiB.
pub(super) const MOST_HEAD: usize = 8 * 1024;
/// A target may be this long.
const MOST_TARGET: usize = 4 * 1024;
/// A head may have this many headers.
const MOST_HEADERS: usize = 64;

/// What was asked for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Request {
    pub(super) method: Method,
    /// Target as it was sent, for the access line. Printable ASCII.
    pub(super) target: String,
    /// Path below the handbook's folder, decoded and plain: no empty, dotted or hidden part. None where the target leads to
    /// nothing that could be there.
    pub(super) path: Option<String>,
    /// What follows the question mark, as it was sent.
    pub(super) query: String,
    /// Whether the client will ask again on this connection.
    pub(super) stays: bool,
    headers: Vec<(String, String)>,
}

/// Why a head is refused. The connection is closed after the answer, because nobody can tell where the next would begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Refused(pub(super) u16);

impl Request {
    /// The one header `name` (small letters). None where it is not there; several are put together with commas.
    pub(super) fn header(&self, name: &str) -> Option<String> {
        let values: Vec<&str> =
            self.headers.iter().filter(|(known, _)| known == name).map(|(_, value)| value.as_str()).collect();
        if values.is_empty() { None } else { Some(values.join(", ")) }
    }
}

/// Where a head ends in `bytes`: the index after its blank line.
pub(super) fn head_end(bytes: &[u8]) -> Option<usize> {
    bytes.windows(4).position(|four| four == b"\r\n\r\n").map(|at| at + 4)
}

/// Reads a whole head, its blank line included.
///
/// # Errors
/// The status to refuse it with.
pub(super) fn read(head: &[u8]) -> Result<Request, Refused> {
    let head = std::str::from_utf8(head).map_err(|_| Refused(400))?;
    let mut lines = head.split("\r\n");
    let first = lines.next().unwrap_or("");
    let mut words = first.split(' ');
    let (Some(method), Some(target), Some(version), None) = (words.next(), words.next(), words.next(), words.next())
    else {
        return Err(Refused(400));
    };
    if target.len() > MOST_TARGET {
        return Err(Refused(414));
    }
    if !is_token(method) || target.is_empty() || !target.bytes().all(|b| b.is_ascii_graphic()) {
        return Err(Refused(400));
    }
    let newer = match version {
        "HTTP/1.1" => true,
        "HTTP/1.0" => false,
        other if other.starts_with("HTTP/") => return Err(Refused(505)),
        _ => return Err(Refused(400)),
    };
    let mut headers = Vec::new();
    for line in lines.take_while(|line| !line.is_empty()) {
        let (name, value) = line.split_once(':').ok_or(Refused(400))?;
        let value = value.trim_matches([' ', '\t']);
        if !is_token(name) || value.bytes().any(|b| b.is_ascii_control() && b != b'\t') {
            return Err(Refused(400));
        }
        if headers.len() == MOST_HEADERS {
            return Err(Refused(431));
        }
        headers.push((name.to_ascii_lowercase(), value.to_owned()));
    }
    let count = |name: &str| headers.iter().filter(|(known, _)| known == name).count();
    if count("host") > 1 || (newer && count("host") == 0) {
        return Err(Refused(400));
    }
    // Nothing here takes a body, and a length that is read in two ways would let one request hide another.
    if count("transfer-encoding") > 0 {
        return Err(Refused(501));
    }
    if headers.iter().any(|(name, value)| name == "content-length" && value != "0") {
        return Err(Refused(413));
    }
    let connection: Vec<String> = headers
        .iter()
        .filter(|(name, _)| name == "connection")
        .flat_map(|(_, value)| value.split(',').map(|word| word.trim().to_ascii_lowercase()))
        .collect();
    let says = |word: &str| connection.iter().any(|known| known == word);
    let (path, query) = split_target(target);
    Ok(Request {
        method: Method::from_str(method).map_err(|()| Refused(400))?,
        path: plain_path(path),
        query: query.to_owned(),
        target: target.to_owned(),
        stays: if newer { !says("close") } else { says("keep-alive") && !says("close") },
        headers,
    })
}

/// Whether `text` is a token (RFC 9110, section 5.6.2).
fn is_token(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_alphanumeric() || b"!#$%&'*+-.^_`|~".contains(&b))
}

/// Path and query of a target, which may be a whole address (RFC 9112, section 3.2.2) or a path.
fn split_target(target: &str) -> (&str, &str) {
    let after_scheme = ["http://", "https://"].iter().find_map(|scheme| {
        target.get(..scheme.len()).filter(|start| start.eq_ignore_ascii_case(scheme)).map(|_| &target[scheme.len()..])
    });
    let from_path = match after_scheme {
        Some(rest) => rest.find(['/', '?']).map_or("/", |at| &rest[at..]),
        None => target,
    };
    let (path, query) = from_path.split_once('?').unwrap_or((from_path, ""));
    (if path.is_empty() { "/" } else { path }, query)
}

/// The path below the folder that `encoded` asks for; one that ends in a slash asks for that folder's `index.html`.
///
/// Decoded once. None for what no file can be at: a part that is empty, begins with a dot, or holds a slash, backslash,
/// colon or control character once it is decoded; bytes that are not UTF-8; a percent sign that encodes nothing.
fn plain_path(encoded: &str) -> Option<String> {
    let below = encoded.strip_prefix('/')?;
    let mut parts = Vec::new();
    let (folders, name) = below.rsplit_once('/').map_or((None, below), |(folders, name)| (Some(folders), name));
    for part in folders.into_iter().flat_map(|folders| folders.split('/')) {
        parts.push(plain_part(part)?);
    }
    parts.push(if name.is_empty() { "index.html".to_owned() } else { plain_part(name)? });
    Some(parts.join("/"))
}

fn plain_part(encoded: &str) -> Option<String> {
    let bytes = encoded.as_bytes();
    let mut decoded = Vec::with_capacity(bytes.len());
    let mut at = 0;
    while at < bytes.len() {
        if bytes[at] == b'%' {
            let digits = encoded.get(at + 1..at + 3).filter(|two| two.bytes().all(|b| b.is_ascii_hexdigit()))?;
            decoded.push(u8::from_str_radix(digits, 16).ok()?);
            at += 3;
        } else {
            decoded.push(bytes[at]);
            at += 1;
        }
    }
    let part = String::from_utf8(decoded).ok()?;
    let odd = part.chars().any(|c| c.is_control() || matches!(c, '/' | '\\' | ':'));
    (!part.is_empty() && !part.starts_with('.') && !odd).then_some(part)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn get(target: &str) -> Result<Request, Refused> {
        read(format!("GET {target} HTTP/1.1\r\nHost: a\r\n\r\n").as_bytes())
    }

    fn path(target: &str) -> Option<String> {
        get(target).unwrap().path
    }

    #[test]
    fn a_path_is_decoded_once() {
        assert_eq!(path("/").unwrap(), "index.html");
        assert_eq!(path("/lesson/a%20b.html?x=1/..#").unwrap(), "lesson/a b.html");
        assert_eq!(path("/lesson/%C3%BC.html").unwrap(), "lesson/ü.html");
        assert_eq!(path("/a%252e.html").unwrap(), "a%2e.html");
        assert_eq!(path("http://cold.store:8/lesson/").unwrap(), "lesson/index.html");
        assert_eq!(path("HTTPS://cold.store").unwrap(), "index.html");
        assert_eq!(path("http://cold.store?x").unwrap(), "index.html");
    }

    #[test]
    fn there_is_no_way_out() {
        for target in [
            "/../Cargo.toml",
            "/lesson/../../x",
            "/%2e%2e/x",
            "/%2E%2E%2Fx",
            "/..%2fx",
            "/a/%2e/b",
            "/.git/config",
            "/lesson/.hidden",
            "//etc/passwd",
            "/a//b",
            "/%2Fetc/passwd",
            "/a%5C..%5Cb",
            "/a\\..\\b",
            "/c:/x",
            "/a%00.html",
            "/%",
            "/%2",
            "/%zz",
            "/%+1",
            "/%ff",
            "/%c0%ae%c0%ae/x",
            "*",
            "index.html",
            "a:b",
            "file:///etc/passwd",
        ] {
            assert_eq!(path(target), None, "{target}");
        }
    }

    proptest! {
        #[test]
        fn whatever_is_asked_stays_below(target in "/[ -~&&[^ ]]{0,40}") {
            if let Some(path) = path(&target) {
                prop_assert!(path.split('/').all(|part| !part.is_empty() && !part.starts_with('.')), "{path}");
                prop_assert!(!path.contains(['\\', ':', '\0']), "{path}");
            }
        }

        #[test]
        fn any_bytes_are_read_or_refused(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
            let _ = read(&bytes);
        }
    }

    #[test]
    fn what_could_be_read_in_two_ways_is_refused() {
        let status = |head: &str| read(head.as_bytes()).map(|_| 200).unwrap_or_else(|refused| refused.0);
        for (head, expected) in [
            ("GET / HTTP/1.1\r\nHost: a\r\n\r\n", 200),
            ("GET / HTTP/1.0\r\n\r\n", 200),
            ("GET / HTTP/1.1\r\n\r\n", 400),
            ("GET / HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n", 400),
            ("GET /  HTTP/1.1\r\nHost: a\r\n\r\n", 400),
            ("GET /\r\nHost: a\r\n\r\n", 400),
            ("GET / HTTP/1.1\r\nHost: a\r\n folded: b\r\n\r\n", 400),
            ("GET / HTTP/1.1\r\nHost: a\r\nX : b\r\n\r\n", 400),
            ("GET / HTTP/1.1\nHost: a\n\r\n\r\n", 400),
            ("GET / HTTP/1.1\r\nHost: a\r\nX: a\nY: b\r\n\r\n", 400),
            ("GET / HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: chunked\r\n\r\n", 501),
            ("GET / HTTP/1.1\r\nHost: a\r\nContent-Length: 3\r\n\r\n", 413),
            ("GET / HTTP/1.1\r\nHost: a\r\nContent-Length: 0\r\n\r\n", 200),
            ("PRI * HTTP/2.0\r\n\r\n", 505),
            ("GET /ü HTTP/1.1\r\nHost: a\r\n\r\n", 400),
        ] {
            assert_eq!(status(head), expected, "{head:?}");
        }
        assert_eq!(get(&format!("/{}", "a".repeat(MOST_TARGET))), Err(Refused(414)));
        let many = "a: b\r\n".repeat(MOST_HEADERS + 1);
        assert_eq!(read(format!("GET / HTTP/1.0\r\n{many}\r\n").as_bytes()), Err(Refused(431)));
    }

    #[test]
    fn a_client_says_whether_it_stays() {
        let stays = |head: &str| read(head.as_bytes()).unwrap().stays;
        assert!(stays("GET / HTTP/1.1\r\nHost: a\r\n\r\n"));
        assert!(!stays("GET / HTTP/1.1\r\nHost: a\r\nConnection: x, Close\r\n\r\n"));
        assert!(!stays("GET / HTTP/1.0\r\n\r\n"));
        assert!(stays("GET / HTTP/1.0\r\nConnection: Keep-Alive\r\n\r\n"));
    }
}
