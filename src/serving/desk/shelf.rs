//! The pages as they are now, and the answers a browser on this machine gets.

use super::slips::Slips;
use crate::serving::answer::{self, Answer};
use crate::serving::edition::Held;
use crate::serving::house::Answers;
use crate::serving::request::Request;
use std::collections::BTreeMap;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;
use tiny_http::Method;

const SCRIPT: &str = include_str!("desk.js");
const STYLE: &str = include_str!("desk.css");
/// A browser that kept a hosted handbook from this address must not go on showing that one.
const KEEP_NOTHING: &str = include_str!("keep-nothing.js");

/// How long a page's question for the next turn is held; it then asks again.
const HELD: Duration = Duration::from_secs(20);

/// Before a page's path: that page as it is once another turn than the one asked with has come.
const NEXT: &str = "desk/next/";

/// Files by their path below the handbook's folder.
pub(super) type Files = BTreeMap<String, Arc<Held>>;

/// Which pages before stay when all are put anew.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Keep {
    /// None.
    None,
    /// Those that there is no newer one of.
    Missing,
    /// All of them.
    All,
}

/// See the module.
#[derive(Default)]
pub(super) struct Shelf {
    now: Mutex<Now>,
    turned: Condvar,
}

#[derive(Default)]
struct Now {
    /// Counts turns.
    turn: u64,
    files: Files,
    slips: Slips,
    closing: bool,
}

impl Shelf {
    fn now(&self) -> MutexGuard<'_, Now> {
        // What is under the lock is whole whenever it is let go.
        self.now.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn turn_with(&self, change: impl FnOnce(&mut Now)) {
        let mut now = self.now();
        change(&mut now);
        now.turn += 1;
        self.turned.notify_all();
    }

    /// Puts all pages anew.
    pub(super) fn put_all(&self, mut files: Files, slips: Slips, keep: Keep) {
        self.turn_with(|now| {
            let before = std::mem::take(&mut now.files);
            match keep {
                Keep::None => {}
                Keep::Missing => before.into_iter().for_each(|(path, file)| {
                    files.entry(path).or_insert(file);
                }),
                Keep::All => files.extend(before),
            }
            now.files = files;
            now.slips = slips;
        });
    }

    /// Puts one page, not to be seen before the next turn is announced.
    pub(super) fn put(&self, path: &str, html: Vec<u8>) {
        self.now().files.insert(path.to_owned(), Arc::new(Held::unpacked(path, html)));
    }

    /// Announces a turn.
    pub(super) fn turn(&self, slips: Slips) {
        self.turn_with(|now| now.slips = slips);
    }

    /// Says that the files can't be read.
    pub(super) fn unread(&self, why: &str) {
        self.turn_with(|now| now.slips.unread = Some(why.to_owned()));
    }

    /// Waits until the turn is another than `known`, for so long at most, and gives the page at `path` as it is then. Nothing of
    /// it where the turn is the same still.
    fn page_after(&self, request: &Request, path: &str, known: &str) -> Answer {
        let same = |now: &mut Now| now.turn.to_string() == known && !now.closing;
        let waited = self.turned.wait_timeout_while(self.now(), HELD, same);
        let now = waited.unwrap_or_else(PoisonError::into_inner).0;
        let turned = now.turn.to_string() != known;
        drop(now);
        if turned { self.page(request, path) } else { Answer::text(200, "text/plain; charset=utf-8", "") }
    }

    fn page(&self, request: &Request, path: &str) -> Answer {
        let now = self.now();
        let Some(held) = now.files.get(path).cloned() else {
            let first = now.turn == 0;
            drop(now);
            return if first { self.waiting() } else { Answer::refusal(404) };
        };
        if !path.ends_with(".html") {
            drop(now);
            return answer::of_file(request, path, &held);
        }
        let html = String::from_utf8_lossy(&held.plain).into_owned();
        Answer::text(200, held.media.kind, dressed(&now, path, &html))
    }

    /// While the handbook is made for the first time.
    fn waiting(&self) -> Answer {
        let page = "<!doctype html>\n<html lang=\"en\" data-desk=\"0\"><head><meta charset=\"utf-8\"><title>Desk</title>\
            <script src=\"/desk/desk.js\" defer></script></head><body><p>The handbook is being made.</p></body></html>\n";
        Answer::text(503, "text/html; charset=utf-8", page)
    }
}

impl Answers for Shelf {
    fn answer(&self, request: &Request) -> Answer {
        if let Some(refusal) = answer::refuse_method(request) {
            return refusal;
        }
        // A page from elsewhere whose name was made to lead here may not read an author's drafts.
        if !request.header("host").is_some_and(|host| is_here(&host)) {
            return Answer::refusal(421);
        }
        const JS: &str = "text/javascript; charset=utf-8";
        let answer = match request.path.as_deref() {
            Some("desk/desk.js") => Answer::text(200, JS, SCRIPT),
            Some("desk/desk.css") => Answer::text(200, "text/css; charset=utf-8", STYLE),
            Some("keeper.js") => Answer::text(200, JS, KEEP_NOTHING),
            Some(path) => match path.strip_prefix(NEXT) {
                Some(path) => self.page_after(request, path, &request.query),
                None => self.page(request, path),
            },
            None => Answer::refusal(404),
        };
        if request.method == Method::Head { answer.head_only() } else { answer }
    }

    fn closing(&self) {
        self.now().closing = true;
        self.turned.notify_all();
    }
}

/// Whether a `Host` names this machine to itself.
fn is_here(host: &str) -> bool {
    let name = match host.strip_prefix('[') {
        Some(rest) => rest.split(']').next().unwrap_or(""),
        None => host.split(':').next().unwrap_or(""),
    };
    name.eq_ignore_ascii_case("localhost") || name.parse::<std::net::IpAddr>().is_ok_and(|ip| ip.is_loopback())
}

/// A page as the desk shows it: what follows the files in its head, slips in their places, the list of all at its end.
fn dressed(now: &Now, path: &str, html: &str) -> String {
    let kit = |path: &str| now.files.get(path).map_or("", |held| held.mark.as_str());
    let up = "../".repeat(path.matches('/').count());
    let list = now.slips.list(&up, |page| now.files.contains_key(page));
    let mut out = html.replacen(
        "<html ",
        &format!("<html data-desk=\"{}\" data-kit=\"{}{}\" ", now.turn, kit("kit/style.css"), kit("kit/script.js")),
        1,
    );
    let head = format!(
        "<link rel=\"stylesheet\" href=\"{up}desk/desk.css\"><script src=\"{up}desk/desk.js\" defer></script>\n</head>"
    );
    out = out.replacen("</head>", &head, 1);
    let slips = now.slips.at_head_of(path, html);
    if let Some(at) = out.find("<main").and_then(|main| Some(main + out[main..].find('>')? + 1)) {
        out.insert_str(at, &slips);
    }
    if let Some(at) = out.rfind("</body>") {
        out.insert_str(at, &list);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::serving::request;
    use std::thread;

    const PAGE: &str = "<!DOCTYPE html>\n<html lang=\"en\">\n<head><title>A</title>\n</head>\n<body><main id=\"text\">text</main></body></html>";

    fn ask(shelf: &Shelf, target: &str, host: &str) -> (u16, String) {
        let head = format!("GET {target} HTTP/1.1\r\nHost: {host}\r\n\r\n");
        let answer = shelf.answer(&request::read(head.as_bytes()).unwrap());
        (answer.status, String::from_utf8(answer.body().to_vec()).unwrap())
    }

    fn files(pages: &[&str]) -> Files {
        let held = |path: &str| (path.to_owned(), Arc::new(Held::unpacked(path, PAGE.into())));
        pages.iter().map(|path| held(path)).collect()
    }

    #[test]
    fn a_page_is_dressed_and_other_names_for_this_machine_are_refused() {
        let shelf = Shelf::default();
        assert_eq!(ask(&shelf, "/", "localhost:1").0, 503);
        shelf.put_all(files(&["index.html", "lesson/a.html"]), Slips::default(), Keep::None);
        let (status, html) = ask(&shelf, "/lesson/a.html", "127.0.0.1:8");
        assert_eq!(status, 200);
        assert!(
            html.contains("<html data-desk=\"1\"") && html.contains("../desk/desk.js") && html.contains("No findings"),
            "{html}"
        );
        assert_eq!(ask(&shelf, "/", "[::1]:8").0, 200);
        for elsewhere in ["handbook.example", "10.0.0.7:8", "127.0.0.1.example"] {
            assert_eq!(ask(&shelf, "/", elsewhere).0, 421, "{elsewhere}");
        }
        assert_eq!(ask(&shelf, "/nothing.html", "localhost").0, 404);
    }

    #[test]
    fn the_next_turn_is_waited_for() {
        let shelf = Arc::new(Shelf::default());
        shelf.put_all(files(&["index.html"]), Slips::default(), Keep::None);
        assert!(ask(&shelf, "/desk/next/?0", "localhost").1.contains("data-desk=\"1\""));
        let waiting = Arc::clone(&shelf);
        let asked = thread::spawn(move || ask(&waiting, "/desk/next/index.html?1", "localhost").1);
        shelf.turn(Slips::default());
        assert!(asked.join().unwrap().contains("data-desk=\"2\""));
        let waiting = Arc::clone(&shelf);
        let asked = thread::spawn(move || ask(&waiting, "/desk/next/index.html?2", "localhost").1);
        shelf.closing();
        assert_eq!(asked.join().unwrap(), "");
    }

    #[test]
    fn the_last_good_pages_stay() {
        let shelf = Shelf::default();
        shelf.put_all(files(&["index.html", "lesson/a.html"]), Slips::default(), Keep::None);
        shelf.put_all(files(&["index.html"]), Slips::default(), Keep::Missing);
        assert_eq!(ask(&shelf, "/lesson/a.html", "localhost").0, 200);
        shelf.unread("could not read `a`");
        assert!(ask(&shelf, "/", "localhost").1.contains("could not read `a`"));
        shelf.put_all(files(&["index.html"]), Slips::default(), Keep::None);
        assert_eq!(ask(&shelf, "/lesson/a.html", "localhost").0, 404);
    }
}
