//! The host: a bound folder for readers on the local network, and the newer edition as soon as it is bound.

use super::answer::{self, Answer};
use super::edition::{Edition, EditionError, Stamp};
use super::house::{Answers, House, Log, Stopper};
use super::request::Request;
use std::io;
use std::net::SocketAddr;
use std::path::{Path, PathBuf};
use std::sync::{Arc, PoisonError, RwLock};
use std::thread;
use std::time::Duration;

/// How often the folder is looked at for a newer edition. Looked at, not watched: a file share tells nobody of changes.
const LOOK_AGAIN: Duration = Duration::from_secs(1);

/// The host could not begin.
#[derive(Debug, thiserror::Error)]
pub enum HostError {
    /// The folder holds no edition that could be read.
    #[error(transparent)]
    Edition(#[from] EditionError),
    /// The address can't be listened at.
    #[error("could not listen at {address}: {source}")]
    Listen {
        /// Where.
        address: SocketAddr,
        /// Why.
        source: io::Error,
    },
}

/// What became of a newer edition.
#[derive(Debug)]
pub enum Newer {
    /// It is what readers get from now on.
    Open(Arc<Edition>),
    /// It could not be read; readers go on getting the one before.
    Unread(EditionError),
}

/// A host whose door is open, with an edition in memory.
pub struct Host {
    house: House,
    address: SocketAddr,
    folder: PathBuf,
    open: Arc<Open>,
}

/// The edition that is open now.
struct Open(RwLock<Arc<Edition>>);

impl Open {
    fn edition(&self) -> Arc<Edition> {
        // What is under the lock is one pointer, right at all times.
        Arc::clone(&self.0.read().unwrap_or_else(PoisonError::into_inner))
    }

    fn turn_to(&self, edition: Arc<Edition>) {
        *self.0.write().unwrap_or_else(PoisonError::into_inner) = edition;
    }
}

impl Answers for Open {
    fn answer(&self, request: &Request) -> Answer {
        answer::answer(request, &self.edition())
    }
}

impl Host {
    /// Reads the bound handbook in `folder` and opens the door at `address`; port 0 takes one that is free.
    ///
    /// # Errors
    /// [`HostError`]: no bound handbook there, or the address is taken or not this machine's.
    pub fn open(folder: &Path, address: SocketAddr) -> Result<Self, HostError> {
        let edition = Arc::new(Edition::read(folder)?);
        let listen = |source| HostError::Listen { address, source };
        let house = House::open(address).map_err(listen)?;
        let address = house.address().map_err(listen)?;
        Ok(Self { house, address, folder: folder.to_owned(), open: Arc::new(Open(RwLock::new(edition))) })
    }

    /// Where it listens.
    pub fn address(&self) -> SocketAddr {
        self.address
    }

    /// The edition that is open.
    pub fn edition(&self) -> Arc<Edition> {
        self.open.edition()
    }

    /// By which it is stopped.
    pub fn stopper(&self) -> Stopper {
        self.house.stopper()
    }

    /// Answers until it is stopped. `newer` hears of newer editions, `log` of every request after its answer.
    pub fn serve(self, newer: impl Fn(Newer) + Send + 'static, log: Option<Log>) {
        let (folder, open, stopper) = (self.folder, Arc::clone(&self.open), self.house.stopper());
        let looking = thread::spawn(move || look_out(&folder, &open, &stopper, &newer));
        self.house.keep_open(self.open, log);
        // It ends by itself within a look; it has no way to fail that must be told.
        let _ = looking.join();
    }
}

/// Turns to each newer edition once it has stood still for a look.
fn look_out(folder: &Path, open: &Open, stopper: &Stopper, newer: &dyn Fn(Newer)) {
    const STEP: Duration = Duration::from_millis(50);
    let mut seen: Option<Stamp> = None;
    let mut unread: Option<Stamp> = None;
    loop {
        let mut slept = Duration::ZERO;
        while slept < LOOK_AGAIN {
            if stopper.asked() {
                return;
            }
            thread::sleep(STEP);
            slept += STEP;
        }
        // No folder, or none that is whole: somebody is copying one there, or has taken it away. What is open stays open.
        let Ok(now) = Stamp::of(folder) else { continue };
        if now == *open.edition().stamp() || unread.as_ref() == Some(&now) {
            continue;
        }
        if seen.replace(now.clone()).as_ref() != Some(&now) {
            // An exchange is whole at once, but a folder may also be copied over file by file.
            continue;
        }
        match Edition::read(folder) {
            Ok(edition) => {
                let edition = Arc::new(edition);
                open.turn_to(Arc::clone(&edition));
                newer(Newer::Open(edition));
            }
            Err(error) => {
                unread = Some(now);
                newer(Newer::Unread(error));
            }
        }
    }
}
