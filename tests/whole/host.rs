//! `coldpress host` as a reader's machine meets it, and as one meets it that means no good.

use coldpress::binding::{PageFiles, bind};
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::path::Path;
use std::process::{Child, Command, Output, Stdio};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::thread;
use std::time::{Duration, Instant};

/// An edition in which every file says its number, so that a mixture would show.
fn edition(number: usize) -> PageFiles {
    let page =
        |name: &str| format!("<!doctype html><title>{name}</title>{}", format!("<p>edition {number}</p>").repeat(400));
    let mut pages = PageFiles::new();
    for name in ["index.html", "lesson/bulb.html", "tree/high superheat.html"] {
        pages.insert(name.to_owned(), page(name).into_bytes());
    }
    pages.insert("kit/style.css".to_owned(), b"p { color: black }\n".repeat(100));
    pages
}

fn put(number: usize, bound: &Path) {
    bind(&edition(number), &format!("Cold notes\nLarkmoor\nedition {number}\n"), bound).unwrap();
}

struct Hosting {
    child: Child,
    address: SocketAddr,
    said: BufReader<std::process::ChildStdout>,
    bound: std::path::PathBuf,
    _dir: tempfile::TempDir,
}

impl Hosting {
    fn begin(more: &[&str]) -> Self {
        let dir = tempfile::tempdir().unwrap();
        let bound = dir.path().join("bound");
        put(1, &bound);
        fs::write(dir.path().join("secret.txt"), "outside").unwrap();
        fs::write(bound.join(".hidden"), "hidden").unwrap();
        #[cfg(unix)]
        std::os::unix::fs::symlink(dir.path(), bound.join("up")).unwrap();
        let mut child = Command::new(env!("CARGO_BIN_EXE_coldpress"))
            .args(["host", bound.to_str().unwrap(), "--listen", "127.0.0.1:0"])
            .args(more)
            .stdout(Stdio::piped())
            .stderr(Stdio::inherit())
            .spawn()
            .unwrap();
        let mut said = BufReader::new(child.stdout.take().unwrap());
        let address = loop {
            let mut line = String::new();
            assert!(said.read_line(&mut line).unwrap() > 0, "the host ended before it was open");
            if let Some(address) = line.trim().strip_prefix("Open http://").and_then(|rest| rest.strip_suffix('/')) {
                break address.parse().unwrap();
            }
        };
        Self { child, address, said, bound, _dir: dir }
    }

    /// Everything that comes back for `sent`.
    fn raw(&self, sent: &str) -> String {
        let mut stream = client(self.address);
        stream.write_all(sent.as_bytes()).unwrap();
        let mut bytes = Vec::new();
        stream.read_to_end(&mut bytes).unwrap();
        String::from_utf8_lossy(&bytes).into_owned()
    }

    fn get(&self, target: &str, headers: &str) -> String {
        self.raw(&format!("GET {target} HTTP/1.1\r\nHost: a\r\nConnection: close\r\n{headers}\r\n"))
    }

    #[cfg(unix)]
    fn signal(&self, name: &str) {
        assert!(Command::new("kill").args([name, &self.child.id().to_string()]).status().unwrap().success());
    }

    /// Waits for it to end; gives its status and how long that took.
    fn ended(&mut self) -> (Option<i32>, Duration) {
        let begun = Instant::now();
        let status = self.child.wait().unwrap();
        (status.code(), begun.elapsed())
    }
}

impl Drop for Hosting {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn client(address: SocketAddr) -> TcpStream {
    let stream = TcpStream::connect(address).unwrap();
    stream.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
    stream
}

fn status(answer: &str) -> u16 {
    answer.get(9..12).and_then(|digits| digits.parse().ok()).unwrap_or_else(|| panic!("no status in {answer:?}"))
}

fn header<'a>(answer: &'a str, name: &str) -> &'a str {
    answer.lines().find_map(|line| line.strip_prefix(name)?.strip_prefix(": ")).unwrap_or("")
}

fn coldpress(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_coldpress")).args(arguments).output().unwrap()
}

#[test]
fn nothing_but_the_handbook_can_be_had() {
    let host = Hosting::begin(&[]);
    for target in [
        "/../secret.txt",
        "/lesson/../../secret.txt",
        "/%2e%2e/secret.txt",
        "/%2e%2e%2fsecret.txt",
        "/..%5csecret.txt",
        "/%252e%252e/secret.txt",
        "/..;/secret.txt",
        "/up/secret.txt",
        "/up/",
        "/.hidden",
        "/%2ehidden",
        "//secret.txt",
        "/etc/passwd",
        "//etc/passwd",
        "/index.html%00.css",
        "/index.html/",
        "/lesson",
        "/lesson/",
        "/.",
        "http://elsewhere/../secret.txt",
        "/c:%5csecret.txt",
        "/%c0%ae%c0%ae/secret.txt",
        "/INDEX.HTML",
    ] {
        let answer = host.get(target, "");
        assert_eq!(status(&answer), 404, "{target}");
        assert!(!answer.contains("outside") && !answer.contains("hidden"), "{target}: {answer}");
    }
    for target in ["file:///etc/passwd", "*", "..", "secret.txt"] {
        assert!(matches!(status(&host.get(target, "")), 400 | 404), "{target}");
    }
    assert_eq!(status(&host.get("/tree/high%20superheat.html", "")), 200);
    assert_eq!(status(&host.get("/", "")), 200);
}

#[test]
fn a_copy_that_is_right_is_not_sent_again_and_parts_are() {
    let host = Hosting::begin(&[]);
    let first = host.get("/lesson/bulb.html", "Accept-Encoding: gzip\r\n");
    assert_eq!((status(&first), header(&first, "Content-Encoding")), (200, "gzip"));
    let mark = header(&first, "ETag");
    let again = host.get("/lesson/bulb.html", &format!("Accept-Encoding: gzip\r\nIf-None-Match: {mark}\r\n"));
    assert_eq!(status(&again), 304);
    assert!(again.ends_with("\r\n\r\n"));
    let part = host.get("/lesson/bulb.html", "Range: bytes=2-8\r\n");
    assert!(status(&part) == 206 && part.ends_with("\r\n\r\ndoctype"), "{part}");
    assert_eq!(status(&host.get("/lesson/bulb.html", "Range: bytes=999999-\r\n")), 416);
    for method in ["POST", "PUT", "DELETE", "OPTIONS"] {
        assert_eq!(status(&host.raw(&format!("{method} / HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n"))), 405);
    }
    let hidden = "POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 30\r\n\r\nGET /lesson/bulb.html HTTP/1.1\r\n";
    let answer = host.raw(hidden);
    assert_eq!((status(&answer), answer.matches("HTTP/1.1").count()), (413, 1), "{answer}");
}

#[test]
fn clients_who_say_nothing_or_little_keep_nobody_out() {
    let host = Hosting::begin(&[]);
    let held: Vec<TcpStream> = (0..300)
        .map(|i| {
            let mut stream = client(host.address);
            if i % 2 == 0 {
                stream.write_all(b"GET / HTTP/1.1\r\nHo").unwrap();
            }
            stream
        })
        .collect();
    for _ in 0..50 {
        assert_eq!(status(&host.get("/", "")), 200);
    }
    drop(held);
    // One byte at a time, never done: refused when a head's time is over.
    let mut slow = client(host.address);
    let begun = Instant::now();
    let dripping = slow.try_clone().unwrap();
    let drip = thread::spawn(move || {
        for byte in "GET / HTTP/1.1\r\nX: ".bytes().chain(std::iter::repeat(b'a')) {
            if (&dripping).write_all(&[byte]).is_err() || begun.elapsed() > Duration::from_secs(30) {
                return;
            }
            thread::sleep(Duration::from_millis(100));
        }
    });
    let mut first = [0; 12];
    slow.read_exact(&mut first).unwrap();
    assert_eq!(&first, b"HTTP/1.1 408");
    drop(slow);
    drip.join().unwrap();
}

#[test]
#[cfg(unix)]
fn a_signal_closes_it_when_the_answers_are_out() {
    for signal in ["-INT", "-TERM"] {
        let mut host = Hosting::begin(&["--log"]);
        let mut idle = client(host.address);
        assert_eq!(status(&host.get("/index.html", "")), 200);
        host.signal(signal);
        let (code, took) = host.ended();
        assert_eq!(code, Some(0));
        assert!(took < Duration::from_secs(10), "{took:?}");
        let mut rest = Vec::new();
        assert_eq!(idle.read_to_end(&mut rest).unwrap_or(0), 0);
        let mut lines = String::new();
        host.said.read_to_string(&mut lines).unwrap();
        assert!(lines.contains(" 127.0.0.1 GET /index.html 200 "), "{lines}");
    }
}

#[test]
#[cfg(target_os = "linux")]
fn a_newer_edition_opens_under_load_and_no_request_fails() {
    let mut host = Hosting::begin(&[]);
    let done = AtomicBool::new(false);
    let (newest_seen, asked) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let newest = 4;
    thread::scope(|scope| {
        for _ in 0..4 {
            scope.spawn(|| {
                let mut stream = BufReader::new(client(host.address));
                let mut last = 0;
                while !done.load(Ordering::SeqCst) {
                    let (code, body) = ask_on(&mut stream, "/lesson/bulb.html");
                    assert_eq!(code, 200);
                    let number = |text: &str| text.chars().next().and_then(|c| c.to_digit(10)).unwrap();
                    let numbers: Vec<u32> = body.split("edition ").skip(1).map(number).collect();
                    assert_eq!(numbers.len(), 400);
                    assert!(numbers.iter().all(|n| *n == numbers[0]), "two editions in one page");
                    assert!(numbers[0] >= last, "an older edition after a newer one");
                    last = numbers[0];
                    newest_seen.fetch_max(last as usize, Ordering::SeqCst);
                    asked.fetch_add(1, Ordering::SeqCst);
                }
            });
        }
        let until = Instant::now() + Duration::from_secs(60);
        for number in 2..=newest {
            put(number, &host.bound);
            while newest_seen.load(Ordering::SeqCst) < number && Instant::now() < until {
                thread::sleep(Duration::from_millis(20));
            }
        }
        done.store(true, Ordering::SeqCst);
    });
    assert_eq!(newest_seen.into_inner(), newest);
    assert!(asked.into_inner() > 100);
    host.signal("-TERM");
    assert_eq!(host.ended().0, Some(0));
}

/// Status and body of one answer on a connection that stays.
fn ask_on(stream: &mut BufReader<TcpStream>, target: &str) -> (u16, String) {
    stream.get_mut().write_all(format!("GET {target} HTTP/1.1\r\nHost: a\r\n\r\n").as_bytes()).unwrap();
    let mut head = String::new();
    while !head.ends_with("\r\n\r\n") {
        assert!(stream.read_line(&mut head).unwrap() > 0, "cut off in {head:?}");
    }
    let mut body = vec![0; header(&head, "Content-Length").parse().unwrap()];
    stream.read_exact(&mut body).unwrap();
    (status(&head), String::from_utf8(body).unwrap())
}

#[test]
fn wrong_use_and_a_machine_that_fails_are_told_apart() {
    let dir = tempfile::tempdir().unwrap();
    let none = coldpress(&["host", dir.path().to_str().unwrap()]);
    assert_eq!(none.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&none.stderr).contains("is not a bound handbook"));
    assert_eq!(coldpress(&["host", "--listen", "nonsense"]).status.code(), Some(2));
    let host = Hosting::begin(&[]);
    let taken = coldpress(&["host", host.bound.to_str().unwrap(), "--listen", &host.address.to_string()]);
    assert_eq!(taken.status.code(), Some(3));
    assert!(String::from_utf8_lossy(&taken.stderr).contains("could not listen at"));
}
