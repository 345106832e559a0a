//! Handbooks over the network: the host of a bound handbook, and its author's desk.
//!
//! The road of a request, in the order of the modules: `request` reads its head and makes a plain path of its target;
//! `edition` holds a bound folder in memory; `answer` works out what is sent, without touching a socket;
//! `connection` keeps one client, with a deadline for everything the client may take its time over; `house` lets
//! clients in and sees them out; `host` puts these together for a bound folder and turns to the newer edition when
//! there is one.
//!
//! `tiny_http` brings the methods and the phrases of statuses. Its own server is not used: it waits without end for a
//! client that sends nothing, reads heads of any length and can't be closed without losing what is on its way, so clients
//! are kept here.

mod request;

mod edition;
mod media;

mod answer;

mod connection;
mod house;

mod host;

pub use edition::{Edition, EditionError};
pub use host::{Host, HostError, Newer};
pub use house::{Access, Log, Stopper};
