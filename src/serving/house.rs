//! Lets clients in, and sees them out when it is time to close.
//!
//! A thread a client, because a handbook's readers are a class or a crew and not the world. There is a limit to how many
//! are in; past it whoever has been waited for the longest makes room, so that clients who hold on and say nothing never
//! keep out one who asks. Closing lets every request that has arrived be answered.

use super::answer::Answer;
use super::connection::{self, Keeper, Told};
use super::request::Request;
use std::collections::BTreeMap;
use std::io;
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, Shutdown, SocketAddr, TcpListener, TcpStream};
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

/// So many clients are in at once, where the system lets a program open that many sockets.
const MOST_CLIENTS: usize = 2000;
/// Sockets and files that are not clients.
const OTHER_FILES: usize = 40;
/// A client's thread needs little: its buffers are on the heap.
const STACK: usize = 192 * 1024;
/// How long closing waits for answers on their way.
const CLOSING_TIME: Duration = Duration::from_secs(10);

/// Answers requests: a bound handbook, or an author's desk.
pub(super) trait Answers: Send + Sync + 'static {
    /// What is sent for `request`. May take its time: other clients are answered meanwhile.
    fn answer(&self, request: &Request) -> Answer;
    /// The house closes: an answer that waits for something must wait no more.
    fn closing(&self) {}
}

/// A request and what became of it, for an access line.
#[derive(Clone, Debug)]
pub struct Access {
    /// Who asked.
    pub from: IpAddr,
    /// Method and target as they were sent; a dash where the head could not be read.
    pub asked: String,
    /// Status of the answer.
    pub status: u16,
    /// Bytes of the body that was sent.
    pub sent: usize,
    /// From the whole request to the whole answer.
    pub took: Duration,
}

/// Called with each request after its answer.
pub type Log = Box<dyn Fn(&Access) + Send + Sync>;

/// Closes a house from elsewhere: from the thread that hears signals.
#[derive(Clone, Debug)]
pub struct Stopper {
    asked: Arc<AtomicBool>,
    door: SocketAddr,
}

impl Stopper {
    /// Asks for the house to be closed. Clients being answered get their answers.
    pub fn stop(&self) {
        if !self.asked.swap(true, Ordering::SeqCst) {
            // Whoever stands at the door is waiting for a client: be one. If it can't be reached it is no longer waiting.
            let _ = TcpStream::connect_timeout(&self.door, Duration::from_secs(1));
        }
    }

    /// Whether that was asked.
    pub fn asked(&self) -> bool {
        self.asked.load(Ordering::SeqCst)
    }
}

/// A door that is open, and no one let in yet.
pub(super) struct House {
    listener: TcpListener,
    stopper: Stopper,
}

impl House {
    /// Opens the door at `address`; port 0 takes one that is free.
    pub(super) fn open(address: SocketAddr) -> io::Result<Self> {
        let listener = TcpListener::bind(address)?;
        let mut door = listener.local_addr()?;
        if door.ip().is_unspecified() {
            let loopback = if door.is_ipv4() { Ipv4Addr::LOCALHOST.into() } else { Ipv6Addr::LOCALHOST.into() };
            door.set_ip(loopback);
        }
        Ok(Self { listener, stopper: Stopper { asked: Arc::new(AtomicBool::new(false)), door } })
    }

    pub(super) fn address(&self) -> io::Result<SocketAddr> {
        self.listener.local_addr()
    }

    pub(super) fn stopper(&self) -> Stopper {
        self.stopper.clone()
    }

    /// Lets clients in until it is stopped, and comes back when the last answer is out.
    pub(super) fn keep_open(self, answers: Arc<dyn Answers>, log: Option<Log>) {
        let rooms = Arc::new(Rooms {
            answers,
            log,
            stopper: self.stopper.clone(),
            opened: Instant::now(),
            clients: Mutex::new(BTreeMap::new()),
            left: Condvar::new(),
            most: most_clients(),
        });
        let mut number = 0_u64;
        while !self.stopper.asked() {
            match self.listener.accept() {
                Ok((stream, address)) => {
                    number += 1;
                    rooms.let_in(number, stream, address.ip());
                }
                // No more sockets, or a client that was gone before it was let in. Neither ends the house.
                Err(_) => {
                    rooms.make_room();
                    thread::sleep(Duration::from_millis(5));
                }
            }
        }
        // Whoever had reached the door before it closed is still let in.
        if self.listener.set_nonblocking(true).is_ok() {
            while let Ok((stream, address)) = self.listener.accept() {
                if stream.set_nonblocking(false).is_ok() {
                    number += 1;
                    rooms.let_in(number, stream, address.ip());
                }
            }
        }
        drop(self.listener);
        rooms.close();
    }
}

/// A client that is in.
struct Client {
    stream: TcpStream,
    from: IpAddr,
    /// Milliseconds from the opening, plus one, at which waiting for this client began; 0 while it is answered.
    waited_for_since: AtomicU64,
}

struct Rooms {
    answers: Arc<dyn Answers>,
    log: Option<Log>,
    stopper: Stopper,
    opened: Instant,
    clients: Mutex<BTreeMap<u64, Arc<Client>>>,
    left: Condvar,
    most: usize,
}

impl Rooms {
    fn clients(&self) -> MutexGuard<'_, BTreeMap<u64, Arc<Client>>> {
        // The map is whole whenever the lock is let go, even by a thread that ends badly.
        self.clients.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn let_in(self: &Arc<Self>, number: u64, stream: TcpStream, from: IpAddr) {
        let client = Arc::new(Client { stream, from, waited_for_since: AtomicU64::new(self.now()) });
        let full = {
            let mut clients = self.clients();
            clients.insert(number, Arc::clone(&client));
            clients.len() > self.most
        };
        if full {
            self.make_room();
        }
        let rooms = Arc::clone(self);
        let kept = thread::Builder::new().name(format!("client {number}")).stack_size(STACK).spawn(move || {
            // Sees the client out whatever happens in between.
            let _leaving = Leaving { rooms: &rooms, number };
            connection::keep(&client.stream, &Place { rooms: &rooms, client: &client });
        });
        if kept.is_err() {
            self.clients().remove(&number);
        }
    }

    /// Milliseconds since the opening, plus one so that it is never 0.
    fn now(&self) -> u64 {
        u64::try_from(self.opened.elapsed().as_millis()).unwrap_or(u64::MAX - 1) + 1
    }

    /// Asks the client that has been waited for the longest to go.
    fn make_room(&self) {
        let clients = self.clients();
        let longest = clients
            .values()
            .map(|client| (client.waited_for_since.load(Ordering::SeqCst), client))
            .filter(|(since, _)| *since > 0)
            .min_by_key(|(since, _)| *since);
        if let Some((_, client)) = longest {
            // What it has sent already is still read and answered; should it be gone, that is as good. It is not asked twice.
            client.waited_for_since.store(0, Ordering::SeqCst);
            let _ = client.stream.shutdown(Shutdown::Read);
        }
    }

    fn close(&self) {
        self.answers.closing();
        let until = Instant::now() + CLOSING_TIME;
        let mut clients = self.clients();
        for client in clients.values() {
            if client.waited_for_since.load(Ordering::SeqCst) > 0 {
                let _ = client.stream.shutdown(Shutdown::Read);
            }
        }
        while !clients.is_empty() {
            let left = until.saturating_duration_since(Instant::now());
            if left.is_zero() {
                return;
            }
            clients = self.left.wait_timeout(clients, left).unwrap_or_else(PoisonError::into_inner).0;
        }
    }
}

struct Leaving<'a> {
    rooms: &'a Rooms,
    number: u64,
}

impl Drop for Leaving<'_> {
    fn drop(&mut self) {
        self.rooms.clients().remove(&self.number);
        self.rooms.left.notify_all();
    }
}

/// A client's place in the house.
struct Place<'a> {
    rooms: &'a Rooms,
    client: &'a Client,
}

impl Keeper for Place<'_> {
    fn answer(&self, request: &Request) -> Answer {
        self.rooms.answers.answer(request)
    }

    fn told(&self, told: &Told<'_>) {
        if let Some(log) = &self.rooms.log {
            let asked = told.request.map_or_else(|| "-".to_owned(), |r| format!("{} {}", r.method, r.target));
            let Told { status, sent, took, .. } = *told;
            log(&Access { from: self.client.from, asked, status, sent, took });
        }
    }

    fn waiting(&self) {
        self.client.waited_for_since.store(self.rooms.now(), Ordering::SeqCst);
        // Said after the store: either this sees that the house closes, or whoever closes it sees that this one waits and
        // ends its waiting. A client let in at the last moment may have a request on its way; that is read first.
        if self.rooms.stopper.asked() {
            let _ = self.client.stream.shutdown(Shutdown::Read);
        }
    }

    fn answering(&self) {
        self.client.waited_for_since.store(0, Ordering::SeqCst);
    }

    fn goes_on(&self) -> bool {
        !self.rooms.stopper.asked()
    }
}

/// As many clients as the system has sockets for, the limit raised as far as it may be.
#[cfg(unix)]
fn most_clients() -> usize {
    use rustix::process::{Resource, Rlimit, getrlimit, setrlimit};
    let wanted = (MOST_CLIENTS + OTHER_FILES) as u64;
    let limit = getrlimit(Resource::Nofile);
    let mut current = limit.current.unwrap_or(u64::MAX);
    if current < wanted {
        let raised = limit.maximum.map_or(wanted, |most| most.min(wanted));
        if setrlimit(Resource::Nofile, Rlimit { current: Some(raised), maximum: limit.maximum }).is_ok() {
            current = raised;
        }
    }
    usize::try_from(current).map_or(MOST_CLIENTS, |files| files.saturating_sub(OTHER_FILES).clamp(1, MOST_CLIENTS))
}

/// As many clients as are wanted.
#[cfg(not(unix))]
fn most_clients() -> usize {
    MOST_CLIENTS
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::{Read, Write};

    /// Answers each request with its path, `/slow` after a while.
    struct Echo;

    impl Answers for Echo {
        fn answer(&self, request: &Request) -> Answer {
            let path = request.path.clone().unwrap_or_default();
            if path == "slow" {
                thread::sleep(Duration::from_millis(300));
            }
            Answer::text(200, "text/plain", path)
        }
    }

    fn opened() -> (SocketAddr, Stopper, thread::JoinHandle<()>) {
        let house = House::open("127.0.0.1:0".parse().unwrap()).unwrap();
        let (address, stopper) = (house.address().unwrap(), house.stopper());
        (address, stopper, thread::spawn(move || house.keep_open(Arc::new(Echo), None)))
    }

    fn client(address: SocketAddr) -> TcpStream {
        let stream = TcpStream::connect(address).unwrap();
        stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
        stream
    }

    fn say(stream: &mut TcpStream, path: &str) {
        stream.write_all(format!("GET {path} HTTP/1.1\r\nHost: a\r\n\r\n").as_bytes()).unwrap();
    }

    fn all(stream: &mut TcpStream) -> String {
        let mut text = String::new();
        stream.read_to_string(&mut text).unwrap();
        text
    }

    #[test]
    fn requests_sent_at_once_are_answered_in_order() {
        let (address, stopper, open) = opened();
        let mut stream = client(address);
        let two = "\r\nGET /one HTTP/1.1\r\nHost: a\r\n\r\nGET /two HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n";
        for part in two.as_bytes().chunks(7) {
            stream.write_all(part).unwrap();
        }
        let text = all(&mut stream);
        assert!(text.find("\r\n\r\none").unwrap() < text.find("\r\n\r\ntwo").unwrap(), "{text}");
        stopper.stop();
        open.join().unwrap();
    }

    #[test]
    fn a_head_without_end_is_refused() {
        let (address, stopper, open) = opened();
        let mut stream = client(address);
        let long = format!("GET / HTTP/1.1\r\nHost: a\r\nX: {}", "a".repeat(20_000));
        // It is refused before all of it is taken, so the rest may find nobody.
        let _ = stream.write_all(long.as_bytes());
        let mut first = [0; 12];
        stream.read_exact(&mut first).unwrap();
        assert_eq!(&first, b"HTTP/1.1 431");
        stopper.stop();
        open.join().unwrap();
    }

    #[test]
    fn closing_answers_what_has_arrived_and_lets_the_idle_go() {
        let (address, stopper, open) = opened();
        let mut idle = client(address);
        let mut slow = client(address);
        say(&mut slow, "/slow");
        thread::sleep(Duration::from_millis(100));
        let begun = Instant::now();
        stopper.stop();
        open.join().unwrap();
        assert!(begun.elapsed() < CLOSING_TIME);
        let text = all(&mut slow);
        assert!(text.ends_with("\r\n\r\nslow") && text.contains("Connection: close"), "{text}");
        assert_eq!(all(&mut idle), "");
        assert!(TcpStream::connect_timeout(&address, Duration::from_secs(1)).is_err());
    }

    #[test]
    fn whoever_is_waited_for_longest_makes_room() {
        let house = House::open("127.0.0.1:0".parse().unwrap()).unwrap();
        let address = house.address().unwrap();
        let rooms = Arc::new(Rooms {
            answers: Arc::new(Echo),
            log: None,
            stopper: house.stopper(),
            opened: Instant::now(),
            clients: Mutex::default(),
            left: Condvar::new(),
            most: 2,
        });
        let mut streams = Vec::new();
        for number in 0..3 {
            streams.push(client(address));
            let (stream, from) = house.listener.accept().unwrap();
            rooms.let_in(number, stream, from.ip());
            thread::sleep(Duration::from_millis(20));
        }
        assert_eq!(all(&mut streams[0]), "", "the first is let go");
        for stream in &mut streams[1..] {
            say(stream, "/still-here");
            let mut first = [0; 12];
            stream.read_exact(&mut first).unwrap();
            assert_eq!(&first, b"HTTP/1.1 200");
        }
    }
}
