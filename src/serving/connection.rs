//! One client: heads are read from it and answers written to it, and for everything it may take its time over there is an
//! end.
//!
//! A head must be whole within [`HEAD_TIME`] of its first byte. A client that is sent something must take
//! [`LEAST_TAKEN`] bytes a second once [`GRACE`] is over. A client that says nothing is let go after [`IDLE_TIME`], and
//! sooner where its place is wanted.

use super::answer::Answer;
use super::request::{self, MOST_HEAD, Refused, Request};
use std::io::{self, Read, Write};
use std::net::{Shutdown, TcpStream};
use std::time::{Duration, Instant};

/// How long a client may say nothing between two requests.
const IDLE_TIME: Duration = Duration::from_secs(30);
/// How long a head may take from its first byte to its last.
const HEAD_TIME: Duration = Duration::from_secs(10);
/// How long a client may take nothing of what it is sent.
const GRACE: Duration = Duration::from_secs(10);
/// Bytes a second that a client must take at the least: a 20 MB copy then has three hours.
const LEAST_TAKEN: u64 = 2 * 1024;
/// Up to this many bytes go out together with the head.
const TOGETHER: usize = 64 * 1024;

/// What became of a request.
pub(super) struct Told<'a> {
    /// The request; none where its head was refused.
    pub(super) request: Option<&'a Request>,
    pub(super) status: u16,
    pub(super) sent: usize,
    pub(super) took: Duration,
}

/// What a connection asks of the house it is in.
pub(super) trait Keeper {
    /// What is sent for a request.
    fn answer(&self, request: &Request) -> Answer;
    /// A request was answered, or refused.
    fn told(&self, told: &Told<'_>);
    /// From now on the client is waited for.
    fn waiting(&self);
    /// The client has asked for something, and is waited for no more.
    fn answering(&self);
    /// Whether a further request will be answered after this one.
    fn goes_on(&self) -> bool;
}

/// Answers what comes over `stream` until either side has had enough.
pub(super) fn keep(stream: &TcpStream, keeper: &impl Keeper) {
    // Without these a client could hold its place for ever, so a socket that refuses them is not kept.
    let ready = stream
        .set_nodelay(true)
        .and_then(|()| stream.set_read_timeout(Some(IDLE_TIME)))
        .and_then(|()| stream.set_write_timeout(Some(GRACE)));
    if ready.is_err() {
        return;
    }
    let mut heads = Heads { stream, read: Vec::with_capacity(1024), hurried: false };
    loop {
        keeper.waiting();
        let Some(head) = heads.next() else { return };
        keeper.answering();
        let begun = Instant::now();
        let (answer, request) = match head.and_then(|bytes| request::read(&bytes)) {
            Ok(request) => (keeper.answer(&request), Ok(request)),
            Err(refused) => (Answer::refusal(refused.0), Err(refused)),
        };
        let stays = keeper.goes_on() && request.as_ref().is_ok_and(|request| request.stays);
        let sent = send(stream, &answer, stays);
        keeper.told(&Told {
            request: request.as_ref().ok(),
            status: answer.status,
            sent: *sent.as_ref().unwrap_or(&0),
            took: begun.elapsed(),
        });
        if sent.is_err() {
            return;
        }
        if !stays {
            return part(stream);
        }
    }
}

/// Heads as they come from a client, the bytes after one kept for the next.
struct Heads<'a> {
    stream: &'a TcpStream,
    read: Vec<u8>,
    /// Whether the socket's patience is a head's and not an idle client's.
    hurried: bool,
}

impl Heads<'_> {
    /// The next head, or why it is refused. None where there will be none.
    fn next(&mut self) -> Option<Result<Vec<u8>, Refused>> {
        let mut until: Option<Instant> = None;
        let mut looked = 0;
        loop {
            // Empty lines before a request are passed over (RFC 9112, section 2.2).
            while looked == 0 && self.read.starts_with(b"\r\n") {
                self.read.drain(..2);
            }
            let from = looked.min(self.read.len());
            if let Some(end) = request::head_end(&self.read[from..]) {
                let rest = self.read.split_off(from + end);
                return Some(Ok(std::mem::replace(&mut self.read, rest)));
            }
            if self.read.len() >= MOST_HEAD {
                return Some(Err(Refused(431)));
            }
            looked = self.read.len().saturating_sub(3);
            if !self.read.is_empty() || until.is_some() {
                let until = *until.get_or_insert_with(|| Instant::now() + HEAD_TIME);
                let left = until.saturating_duration_since(Instant::now());
                if left.is_zero() {
                    return Some(Err(Refused(408)));
                }
                self.stream.set_read_timeout(Some(left)).ok()?;
                self.hurried = true;
            } else if self.hurried {
                self.stream.set_read_timeout(Some(IDLE_TIME)).ok()?;
                self.hurried = false;
            }
            let mut bytes = [0; 2048];
            let room = bytes.len().min(MOST_HEAD - self.read.len());
            match (&mut &*self.stream).read(&mut bytes[..room]) {
                Ok(0) => return None,
                Ok(count) => self.read.extend_from_slice(&bytes[..count]),
                Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                Err(error) if late(&error) && !self.read.is_empty() => return Some(Err(Refused(408))),
                Err(_) => return None,
            }
        }
    }
}

fn late(error: &io::Error) -> bool {
    matches!(error.kind(), io::ErrorKind::WouldBlock | io::ErrorKind::TimedOut)
}

/// Sends an answer; gives how many bytes of its body.
fn send(stream: &TcpStream, answer: &Answer, stays: bool) -> io::Result<usize> {
    let mut head = answer.head(stays);
    let body = answer.body();
    let begun = Instant::now();
    if body.len() <= TOGETHER {
        head.extend_from_slice(body);
        push(stream, &head, begun, 0)?;
    } else {
        push(stream, &head, begun, 0)?;
        push(stream, body, begun, head.len() as u64)?;
    }
    Ok(body.len())
}

/// Pushes `bytes` out, after `before` others since `begun`, as long as the client takes enough of them.
fn push(mut stream: &TcpStream, bytes: &[u8], begun: Instant, before: u64) -> io::Result<()> {
    let mut rest = bytes;
    while !rest.is_empty() {
        let count = match stream.write(&rest[..rest.len().min(TOGETHER)]) {
            Ok(0) => return Err(io::ErrorKind::WriteZero.into()),
            Ok(count) => count,
            Err(error) if error.kind() == io::ErrorKind::Interrupted => 0,
            Err(error) => return Err(error),
        };
        rest = &rest[count..];
        let gone = before + (bytes.len() - rest.len()) as u64;
        if begun.elapsed() > GRACE + Duration::from_secs(gone / LEAST_TAKEN) {
            return Err(io::ErrorKind::TimedOut.into());
        }
    }
    Ok(())
}

/// Ends a connection so that the last answer arrives: what the client still sends is read away for a moment, because
/// closing on it would tear down what is on its way.
fn part(mut stream: &TcpStream) {
    const MOMENT: Duration = Duration::from_millis(500);
    const MOST: usize = 64 * 1024;
    if stream.shutdown(Shutdown::Write).is_err() || stream.set_read_timeout(Some(MOMENT)).is_err() {
        return;
    }
    let until = Instant::now() + MOMENT;
    let mut bytes = [0; 4096];
    let mut gone = 0;
    while gone < MOST && Instant::now() < until {
        match stream.read(&mut bytes) {
            Ok(0) | Err(_) => return,
            Ok(count) => gone += count,
        }
    }
}
