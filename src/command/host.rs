//! `coldpress host BOUND`: a bound handbook for the local network, until it is stopped.

use super::{Failure, Outcome, complain, say};
use crate::serving::{Access, EditionError, Host, HostError, Log, Newer, Stopper};
use signal_hook::consts::{SIGINT, SIGTERM};
use signal_hook::iterator::Signals;
use std::io;
use std::net::SocketAddr;
use std::path::Path;
use std::thread;
use std::time::SystemTime;

/// Serves the bound handbook in `bound` at `listen`, with a line for each request where `log` asks for it.
///
/// # Errors
/// Wrong usage where there is no bound handbook; the machine where it can't be read or the address can't be had.
pub(super) fn host(bound: &Path, listen: SocketAddr, log: bool) -> Result<Outcome, Failure> {
    let host = Host::open(bound, listen).map_err(|error| match error {
        HostError::Edition(EditionError::NotBound(_)) => Failure::usage(format!("{error}; `coldpress bind` makes one")),
        other => Failure::Machine(other.to_string()),
    })?;
    stop_on_signals(host.stopper())?;
    let edition = host.edition();
    let weight = edition.weight() as f64 / 1e6;
    let address = host.address();
    say(&format!("{}: {} files, {weight:.1} MB held.\nOpen http://{address}/", edition.name(), edition.len()));
    if !address.ip().is_loopback() {
        say("Every machine that can reach this one can read it. Ctrl-C stops.");
    }
    host.serve(
        |newer| match newer {
            Newer::Open(edition) => say(&format!("Newer edition open: {}.", edition.name())),
            Newer::Unread(error) => complain(&format!("coldpress: the newer edition is left: {error}")),
        },
        log.then(|| -> Log { Box::new(|access| say(&access_text(access))) }),
    );
    Ok(Outcome::Fine)
}

/// Stops a host or a desk on an interrupt or a request to end. A second one ends the program at once, with the signal's
/// own status.
pub(super) fn stop_on_signals(stopper: Stopper) -> Result<(), Failure> {
    let failed = |error: io::Error| Failure::Machine(format!("could not listen for signals: {error}"));
    let mut signals = Signals::new([SIGINT, SIGTERM]).map_err(failed)?;
    thread::spawn(move || {
        for signal in signals.forever() {
            if stopper.asked() {
                // It can only fail for signals that have no such default.
                let _ = signal_hook::low_level::emulate_default_handler(signal);
            }
            stopper.stop();
        }
    });
    Ok(())
}

fn access_text(access: &Access) -> String {
    let Access { from, asked, status, sent, took } = access;
    let time = httpdate::fmt_http_date(SystemTime::now());
    format!("{time} {from} {asked} {status} {sent} {:.1} ms", took.as_secs_f64() * 1e3)
}
