//! The author's desk: the handbook on loopback, in step with the files it is made of.
//!
//! `lookout` tells that something changed and `seen` tells what; `made` makes the whole handbook anew, and one lesson of it
//! at once; `slips` are findings as they stand on pages; `shelf` holds the pages and answers requests. Here is the loop that
//! goes from one to the next: a lesson that was saved is on its page at once, and the whole handbook follows when the author
//! pauses, because a lesson can make a link in another go dead.

mod lookout;
mod seen;

mod slips;

mod made;
mod shelf;

use super::house::{House, Stopper};
use crate::handbook::{Files, Finding, Handbook};
use crate::proofing::Proof;
use crate::setting::Theme;
use lookout::Lookout;
use made::{Bench, Made};
use seen::Seen;
use shelf::Shelf;
use std::io;
use std::net::{Ipv4Addr, SocketAddr};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{self, Receiver, RecvTimeoutError, Sender};
use std::thread;
use std::time::{Duration, Instant};

/// Files are looked over this often even if nobody says that they changed: a file share tells of nothing.
const LOOK_AGAIN: Duration = Duration::from_secs(1);
/// A save is several steps; this long after the last of them it is looked at.
const SETTLED: Duration = Duration::from_millis(6);
/// Steps that never end are not waited for longer.
const MOST_SETTLING: Duration = Duration::from_millis(40);
/// The whole handbook is made anew when nothing was saved for this long.
const PAUSE: Duration = Duration::from_millis(400);
/// More lessons than these at once are no pen's work, and the whole is made anew at once.
const MOST_LESSONS: usize = 8;

/// A handbook read and proofed, and the theme it is set in.
pub struct Loaded {
    /// The handbook.
    pub book: Handbook,
    /// Its proof.
    pub proof: Proof,
    /// Its theme.
    pub theme: Theme,
}

/// Loads the handbook from its folder; what stands in the way in words.
pub type Load = Arc<dyn Fn() -> Result<Loaded, String> + Send + Sync>;

/// What is told of the desk's work.
pub enum Told<'a> {
    /// Pages follow the files again.
    Turned {
        /// The lessons that were saved; none where it is the whole handbook.
        lessons: &'a [String],
        /// The files as they are.
        files: &'a Files,
        /// All that is known to be wrong.
        findings: &'a [Finding],
        /// From the first word of the change to the page.
        took: Duration,
    },
    /// The files can't be read; the pages stay as they were.
    Unread(&'a str),
}

/// Hears of the desk's work.
pub type Tell = Box<dyn Fn(Told<'_>) + Send>;

/// A desk whose door is open on loopback.
pub struct Desk {
    house: House,
    address: SocketAddr,
    folder: PathBuf,
    load: Load,
}

impl Desk {
    /// Opens the door at `port` of this machine's own address, 0 for one that is free. No other machine can reach it.
    ///
    /// # Errors
    /// Where the port can't be had.
    pub fn open(folder: &Path, port: u16, load: Load) -> io::Result<Self> {
        let house = House::open(SocketAddr::from((Ipv4Addr::LOCALHOST, port)))?;
        let address = house.address()?;
        Ok(Self { house, address, folder: folder.to_owned(), load })
    }

    /// Where it listens.
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// By which it is stopped.
    pub fn stopper(&self) -> Stopper {
        self.house.stopper()
    }

    /// Shows the handbook and follows its files until it is stopped.
    pub fn serve(self, tell: Tell) {
        let shelf = Arc::new(Shelf::default());
        let stopper = self.house.stopper();
        let bench = Bench::new(self.folder, self.load, Arc::clone(&shelf));
        let working = thread::spawn(move || follow(bench, &stopper, &tell));
        self.house.keep_open(shelf, None);
        // It ends by itself at its next look; it has no way to fail that must be told.
        let _ = working.join();
    }
}

/// What the loop hears.
enum Sign {
    /// Something changed.
    Look,
    /// The whole handbook was made, as of that change.
    Made(u64, Box<Result<Made, String>>),
}

/// Where the loop is.
struct Following {
    signs: Sender<Sign>,
    /// Counts changes, so that what was made before one is known to be stale.
    change: u64,
    /// When the whole is to be made.
    due: Option<Instant>,
    /// Whether it is being made.
    making: bool,
    /// Since when pages are behind the files.
    behind: Option<Instant>,
}

fn follow(mut bench: Bench, stopper: &Stopper, tell: &Tell) {
    let (signs, heard) = mpsc::channel();
    let mut lookout = Lookout::over(&bench.folders(), signs.clone());
    let mut seen = Seen::of(&bench.folders(), None);
    let mut now =
        Following { signs, change: 0, due: Some(Instant::now()), making: false, behind: Some(Instant::now()) };
    while !stopper.asked() {
        make_if_due(&bench, &mut now);
        let until = now.due.map_or(LOOK_AGAIN, |due| due.saturating_duration_since(Instant::now())).min(LOOK_AGAIN);
        let mut made = None;
        let mut heard_at = None;
        match heard.recv_timeout(until) {
            Ok(Sign::Look) => {
                heard_at = Some(Instant::now());
                made = settle(&heard);
            }
            Ok(Sign::Made(change, result)) => made = Some((change, result)),
            Err(RecvTimeoutError::Timeout) => {}
            Err(RecvTimeoutError::Disconnected) => return,
        }
        let looked = Seen::of(&bench.folders(), Some(&seen));
        let changes = looked.since(&seen);
        seen = looked;
        if !changes.is_empty() {
            let begun = *now.behind.get_or_insert(heard_at.unwrap_or_else(Instant::now));
            now.change += 1;
            let lessons = changes.lessons(bench.folder()).filter(|lessons| lessons.len() <= MOST_LESSONS);
            let at_once = lessons.is_some_and(|lessons| bench.lessons_again(&lessons, begun, tell));
            if at_once {
                now.behind = None;
            }
            now.due = Some(Instant::now() + if at_once { PAUSE } else { Duration::ZERO });
        }
        if let Some((change, result)) = made {
            now.making = false;
            // What was made before the last change is stale, and is due to be made again.
            if change == now.change {
                let begun = now.behind.take().unwrap_or_else(Instant::now);
                bench.take(*result, begun, tell);
            }
        }
        lookout.keep_up(&bench.folders(), &now.signs);
    }
}

/// Waits until a save is over. A whole that comes in meanwhile is handed on.
fn settle(heard: &Receiver<Sign>) -> Option<(u64, Box<Result<Made, String>>)> {
    let begun = Instant::now();
    let mut made = None;
    while begun.elapsed() < MOST_SETTLING {
        match heard.recv_timeout(SETTLED) {
            Ok(Sign::Look) => {}
            Ok(Sign::Made(change, result)) => made = Some((change, result)),
            Err(_) => break,
        }
    }
    made
}

/// Puts this thread behind all others: a lesson that is saved while the whole is made goes first.
#[cfg(target_os = "linux")]
fn give_way() {
    // Linux takes a process that is not named for the calling thread. Without this the whole is made all the same.
    let _ = rustix::process::setpriority_process(None, 10);
}

/// Elsewhere priorities are those of whole processes.
#[cfg(not(target_os = "linux"))]
fn give_way() {}

/// Begins to make the whole handbook, beside the loop, where that is due.
fn make_if_due(bench: &Bench, now: &mut Following) {
    if now.making || now.due.is_none_or(|due| due > Instant::now()) {
        return;
    }
    now.due = None;
    now.making = true;
    now.behind.get_or_insert_with(Instant::now);
    let (load, signs, change) = (bench.load(), now.signs.clone(), now.change);
    thread::spawn(move || {
        give_way();
        let made = Made::of(&load);
        // A loop that has ended wants it no more.
        let _ = signs.send(Sign::Made(change, Box::new(made)));
    });
}
