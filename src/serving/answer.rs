//! What is sent for a request: status, headers and bytes. Pure: a request and an edition in, an answer out.
//!
//! GET and HEAD only. A file is known by the mark of its content, so a copy that a client has is never sent again while it
//! is right. Addresses do not change with what is behind them, so a client asks each time whether its copy is right;
//! one that names the content (`?v=` and the mark) need never ask again.

use super::edition::{Edition, Held};
use super::request::Request;
use std::ops::Range;
use std::sync::Arc;
use std::time::SystemTime;
use tiny_http::{Method, StatusCode};

/// What pages may do: use what came with them, and ask nobody for anything. Scripts are files of the folder, never text in
/// a page.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; \
    connect-src 'self'; manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; \
    frame-ancestors 'none'";

/// An answer, ready to be sent.
#[derive(Clone, Debug)]
pub(super) struct Answer {
    pub(super) status: u16,
    pub(super) headers: Vec<(&'static str, String)>,
    bytes: Arc<[u8]>,
    part: Range<usize>,
    /// Whether the part is sent, or only its length told.
    sends: bool,
}

impl Answer {
    /// `text` of the media type `kind`.
    pub(super) fn text(status: u16, kind: &str, text: impl Into<Vec<u8>>) -> Self {
        let bytes: Arc<[u8]> = text.into().into();
        let headers = vec![("Content-Type", kind.to_owned()), ("Cache-Control", "no-cache".to_owned())];
        Self { status, headers, part: 0..bytes.len(), bytes, sends: true }
    }

    /// A few words for a person who was refused.
    pub(super) fn refusal(status: u16) -> Self {
        let reason = StatusCode(status).default_reason_phrase();
        Self::text(status, "text/plain; charset=utf-8", format!("{status} {reason}\n"))
    }

    /// Without its bytes, as HEAD wants it.
    pub(super) fn head_only(mut self) -> Self {
        self.sends = false;
        self
    }

    /// The bytes that are sent after the head.
    pub(super) fn body(&self) -> &[u8] {
        if self.sends { self.bytes.get(self.part.clone()).unwrap_or(&[]) } else { &[] }
    }

    /// The head as it goes over the wire. `stays` where the connection is kept for the next request.
    ///
    /// The length is always told, never left to the end of the connection: half of the clients in a plant room are cut off,
    /// and they must be able to see that they were.
    pub(super) fn head(&self, stays: bool) -> Vec<u8> {
        let date = httpdate::fmt_http_date(SystemTime::now());
        let length = self.part.len().to_string();
        let fixed = [
            ("Date", date.as_str()),
            ("Server", "coldpress"),
            ("Content-Security-Policy", POLICY),
            ("X-Content-Type-Options", "nosniff"),
            ("Referrer-Policy", "no-referrer"),
            ("Cross-Origin-Opener-Policy", "same-origin"),
            ("Cross-Origin-Resource-Policy", "same-origin"),
            ("Connection", if stays { "keep-alive" } else { "close" }),
            ("Content-Length", &length),
        ];
        let own = self.headers.iter().map(|(name, value)| (*name, value.as_str()));
        let mut head = Vec::with_capacity(1024);
        head.extend_from_slice(b"HTTP/1.1 ");
        head.extend_from_slice(self.status.to_string().as_bytes());
        head.push(b' ');
        head.extend_from_slice(StatusCode(self.status).default_reason_phrase().as_bytes());
        for (name, value) in fixed.into_iter().chain(own) {
            head.extend_from_slice(b"\r\n");
            head.extend_from_slice(name.as_bytes());
            head.extend_from_slice(b": ");
            head.extend_from_slice(value.as_bytes());
        }
        head.extend_from_slice(b"\r\n\r\n");
        head
    }
}

/// What is sent for `request` from `edition`.
pub(super) fn answer(request: &Request, edition: &Edition) -> Answer {
    if let Some(refusal) = refuse_method(request) {
        return refusal;
    }
    let file = request.path.as_deref().and_then(|path| edition.file(path).map(|held| (path, held)));
    let answer = match file {
        Some((path, held)) => of_file(request, path, held),
        None => not_there(),
    };
    if request.method == Method::Head { answer.head_only() } else { answer }
}

/// The refusal of a method that changes something, or is not known.
pub(super) fn refuse_method(request: &Request) -> Option<Answer> {
    if matches!(request.method, Method::Get | Method::Head) {
        return None;
    }
    let mut refusal = Answer::refusal(405);
    refusal.headers.push(("Allow", "GET, HEAD".to_owned()));
    Some(refusal)
}

fn not_there() -> Answer {
    const PAGE: &str = "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\
        <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><title>No such leaf</title></head>\
        <body><h1>No leaf at this address</h1><p>It may have been moved in a newer edition. \
        <a href=\"/\">To the first page</a></p></body></html>\n";
    Answer::text(404, "text/html; charset=utf-8", PAGE)
}

/// The answer for a file that is there.
pub(super) fn of_file(request: &Request, path: &str, held: &Held) -> Answer {
    let wanted_range = request.header("range");
    // A part is always one of the plain bytes: the packed ones are made here and may be made otherwise tomorrow.
    let packed = held.packed.as_ref().filter(|_| {
        wanted_range.is_none() && request.header("accept-encoding").is_some_and(|accepted| takes_gzip(&accepted))
    });
    let mark = if packed.is_some() { format!("\"{}-gz\"", held.mark) } else { format!("\"{}\"", held.mark) };
    let bytes = packed.unwrap_or(&held.plain);
    let mut headers = vec![
        ("Content-Type", held.media.kind.to_owned()),
        ("ETag", mark.clone()),
        (
            "Cache-Control",
            if names_content(request, held) { "max-age=31536000, immutable" } else { "no-cache" }.to_owned(),
        ),
    ];
    if held.packed.is_some() {
        headers.push(("Vary", "Accept-Encoding".to_owned()));
    } else {
        headers.push(("Accept-Ranges", "bytes".to_owned()));
    }
    if packed.is_some() {
        headers.push(("Content-Encoding", "gzip".to_owned()));
    }
    if path.starts_with("carry/") {
        // A copy to carry is for keeping, not for opening here, where its own scripts would be refused.
        headers.push(("Content-Disposition", "attachment".to_owned()));
    }
    let mut answer = Answer { status: 200, headers, bytes: Arc::clone(bytes), part: 0..bytes.len(), sends: true };
    if request.header("if-match").is_some_and(|listed| !lists(&listed, &mark, Comparison::Strong)) {
        return Answer::refusal(412);
    }
    if request.header("if-none-match").is_some_and(|listed| lists(&listed, &mark, Comparison::Weak)) {
        answer.status = 304;
        return answer.head_only();
    }
    let unchanged = request.header("if-range").is_none_or(|known| known == mark);
    let Some(range) = wanted_range.filter(|_| unchanged) else { return answer };
    let whole = held.plain.len();
    match range_of(&range, whole) {
        Wanted::Part(part) => {
            answer.status = 206;
            answer.headers.push(("Content-Range", format!("bytes {}-{}/{whole}", part.start, part.end - 1)));
            answer.part = part;
        }
        Wanted::Outside => {
            answer = Answer::refusal(416);
            answer.headers.push(("Content-Range", format!("bytes */{whole}")));
        }
        Wanted::Whole => {}
    }
    answer
}

/// Whether the address names what it leads to, so that it can never lead to anything else.
fn names_content(request: &Request, held: &Held) -> bool {
    request.query.strip_prefix("v=").is_some_and(|mark| mark == held.mark)
}

/// Whether `Accept-Encoding` lets gzip through: named, or meant by `*`, and not with a weight of nothing.
fn takes_gzip(accepted: &str) -> bool {
    let weight = |name: &str| {
        accepted.split(',').find_map(|entry| {
            let mut parts = entry.split(';').map(str::trim);
            if !parts.next()?.eq_ignore_ascii_case(name) {
                return None;
            }
            let q = parts.find_map(|part| part.strip_prefix("q=").or_else(|| part.strip_prefix("Q=")));
            // A weight that can't be read is no permission.
            Some(q.map_or(1.0, |q| q.parse::<f64>().unwrap_or(0.0)))
        })
    };
    weight("gzip").or_else(|| weight("x-gzip")).or_else(|| weight("*")).is_some_and(|q| q > 0.0)
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Comparison {
    Strong,
    Weak,
}

/// Whether a list of marks has `mark` in it.
fn lists(listed: &str, mark: &str, comparison: Comparison) -> bool {
    listed.trim() == "*"
        || listed.split(',').map(str::trim).any(|known| match (comparison, known.strip_prefix("W/")) {
            (Comparison::Weak, Some(weak)) => weak == mark,
            _ => known == mark,
        })
}

#[derive(Debug, PartialEq, Eq)]
enum Wanted {
    Part(Range<usize>),
    Outside,
    /// What is asked for is not understood, or is several parts: the whole is sent, as is allowed.
    Whole,
}

fn range_of(range: &str, whole: usize) -> Wanted {
    let digits = |text: &str| {
        let all = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
        // More digits than a length can have is past any end.
        all.then(|| text.parse::<usize>().unwrap_or(usize::MAX))
    };
    let Some((first, last)) = range.trim().strip_prefix("bytes=").and_then(|spec| spec.trim().split_once('-')) else {
        return Wanted::Whole;
    };
    let part = match (digits(first), digits(last)) {
        (Some(first), Some(last)) if first <= last => first..last.saturating_add(1).min(whole),
        (Some(first), None) if last.is_empty() => first..whole,
        (None, Some(last)) if first.is_empty() => whole.saturating_sub(last)..whole,
        _ => return Wanted::Whole,
    };
    if part.is_empty() { Wanted::Outside } else { Wanted::Part(part) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::serving::request;

    /// What comes back for a GET of `/kit/style.css`, 2,000 letters of which every tenth is new, with `headers`.
    fn ask(line: &str, headers: &str) -> (u16, String, Vec<u8>) {
        let style = "0123456789".repeat(200);
        let edition = Edition::of_files(&[
            ("index.html", "front"),
            ("kit/style.css", &style),
            ("edition.txt", "A\nB\nedition 1\n"),
            ("carry/page.html", "all"),
        ]);
        let head = format!("{line} HTTP/1.1\r\nHost: a\r\n{headers}\r\n");
        let answer = answer(&request::read(head.as_bytes()).unwrap(), &edition);
        (answer.status, String::from_utf8(answer.head(true)).unwrap(), answer.body().to_vec())
    }

    fn header<'a>(head: &'a str, name: &str) -> Option<&'a str> {
        head.lines().find_map(|line| line.strip_prefix(name)?.strip_prefix(": "))
    }

    const STYLE: &str = "GET /kit/style.css";

    #[test]
    fn every_answer_says_what_it_is_and_what_it_may_do() {
        for line in ["GET /", "HEAD /", "GET /nothing", "POST /", "GET /../x"] {
            let (_, head, _) = ask(line, "");
            assert!(header(&head, "Content-Type").is_some(), "{line}");
            assert_eq!(header(&head, "X-Content-Type-Options"), Some("nosniff"), "{line}");
            assert_eq!(header(&head, "Referrer-Policy"), Some("no-referrer"), "{line}");
            let policy = header(&head, "Content-Security-Policy").unwrap();
            assert!(policy.contains("frame-ancestors 'none'") && !policy.contains("unsafe"), "{policy}");
            assert_eq!(head.matches("Content-Length").count(), 1, "{head}");
            assert!(!head.contains("Transfer-Encoding"), "{head}");
        }
    }

    #[test]
    fn only_reading_is_answered() {
        for method in ["POST", "PUT", "DELETE", "OPTIONS", "TRACE", "CONNECT", "PATCH", "BREW", "get"] {
            let (status, head, _) = ask(&format!("{method} /"), "");
            assert_eq!((status, header(&head, "Allow")), (405, Some("GET, HEAD")), "{method}");
        }
        assert_eq!(ask("GET /", "").2, b"front");
        let (status, head, body) = ask("HEAD /", "");
        assert_eq!((status, header(&head, "Content-Length"), body.len()), (200, Some("5"), 0));
        assert_eq!(ask("GET /lesson", "").0, 404);
    }

    #[test]
    fn what_a_client_has_is_not_sent_again() {
        let (_, head, body) = ask(STYLE, "");
        assert_eq!((header(&head, "Cache-Control"), body.len()), (Some("no-cache"), 2000));
        let mark = header(&head, "ETag").unwrap().to_owned();
        for listed in [mark.clone(), format!("\"x\", {mark}"), format!("W/{mark}"), "*".to_owned()] {
            let (status, head, body) = ask(STYLE, &format!("If-None-Match: {listed}\r\n"));
            assert_eq!((status, body.len(), header(&head, "ETag")), (304, 0, Some(mark.as_str())), "{listed}");
        }
        assert_eq!(ask(STYLE, "If-None-Match: \"x\"\r\n").0, 200);
        assert_eq!(ask(STYLE, &format!("If-Match: W/{mark}\r\n")).0, 412);
        assert_eq!(ask(STYLE, &format!("If-Match: {mark}\r\n")).0, 200);
        let named = format!("{STYLE}?v={}", mark.trim_matches('"'));
        let (_, head, _) = ask(&named, "");
        assert_eq!(header(&head, "Cache-Control"), Some("max-age=31536000, immutable"));
        assert_eq!(header(&ask("GET /kit/style.css?v=old", "").1, "Cache-Control"), Some("no-cache"));
    }

    #[test]
    fn a_packed_copy_goes_to_those_who_take_it() {
        for (accepted, packed) in [
            ("gzip", true),
            ("br, GZIP;q=0.5", true),
            ("*", true),
            ("gzip;q=0", false),
            ("gzip;q=0, *", false),
            ("br", false),
            ("identity", false),
            ("gzip;q=x", false),
            ("", false),
        ] {
            let (status, head, body) = ask(STYLE, &format!("Accept-Encoding: {accepted}\r\n"));
            assert_eq!(status, 200);
            assert_eq!(header(&head, "Content-Encoding"), packed.then_some("gzip"), "{accepted}");
            assert_eq!(header(&head, "Vary"), Some("Accept-Encoding"));
            assert_eq!(body.starts_with(&[0x1f, 0x8b]), packed);
        }
        let (_, head, _) = ask(STYLE, "Accept-Encoding: gzip\r\n");
        let mark = header(&head, "ETag").unwrap();
        let again = format!("Accept-Encoding: gzip\r\nIf-None-Match: {mark}\r\n");
        assert_eq!(ask(STYLE, &again).0, 304);
        assert_eq!(ask(STYLE, &format!("If-None-Match: {mark}\r\n")).0, 200, "the packed mark is not the plain one");
    }

    #[test]
    fn parts_are_sent() {
        for (range, part) in [
            ("bytes=0-9", "0-9"),
            ("bytes=1995-", "1995-1999"),
            ("bytes=-3", "1997-1999"),
            ("bytes=-5000", "0-1999"),
            ("bytes=1990-99999999999999999999999", "1990-1999"),
        ] {
            let (status, head, body) = ask(STYLE, &format!("Range: {range}\r\nAccept-Encoding: gzip\r\n"));
            assert_eq!(status, 206, "{range}");
            assert_eq!(header(&head, "Content-Range"), Some(format!("bytes {part}/2000").as_str()));
            assert_eq!(header(&head, "Content-Length").unwrap(), body.len().to_string());
            assert_eq!(header(&head, "Content-Encoding"), None);
        }
        assert_eq!(ask(STYLE, "Range: bytes=12-14\r\n").2, b"234");
        for range in ["bytes=2000-", "bytes=-0", "bytes=99999999999999999999999-"] {
            let (status, head, _) = ask(STYLE, &format!("Range: {range}\r\n"));
            assert_eq!((status, header(&head, "Content-Range")), (416, Some("bytes */2000")), "{range}");
        }
        for range in ["lines=1-2", "bytes=5-2", "bytes=0-1,3-4", "bytes=a-b", "bytes=", "bytes=-", "bytes=+1-2"] {
            assert_eq!(ask(STYLE, &format!("Range: {range}\r\n")).0, 200, "{range}");
        }
        assert_eq!(ask(STYLE, "Range: bytes=0-1\r\nIf-Range: \"old\"\r\n").0, 200);
    }

    #[test]
    fn copies_to_carry_are_kept_not_opened() {
        assert_eq!(header(&ask("GET /carry/page.html", "").1, "Content-Disposition"), Some("attachment"));
        assert_eq!(header(&ask("GET /", "").1, "Content-Disposition"), None);
    }
}
