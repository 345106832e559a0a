//! What may be written after `coldpress`.

use clap::{Args, Parser, Subcommand};
use std::net::SocketAddr;
use std::path::PathBuf;

/// A handbook whose figures are checked when it is made.
#[derive(Debug, Parser)]
#[command(name = "coldpress", version, about, arg_required_else_help = true)]
pub struct Arguments {
    #[command(subcommand)]
    pub(super) verb: Verb,
}

#[derive(Debug, Subcommand)]
pub(super) enum Verb {
    /// Lay out a new handbook folder, small but complete
    Begin {
        /// The folder; made if it is not there, left alone if anything is in it
        dir: PathBuf,
    },
    /// Read everything, reckon every figure again, walk every tree, follow every link; write nothing
    Proof {
        /// The handbook's folder
        #[arg(default_value = "content")]
        dir: PathBuf,
    },
    /// Proof, then write the handbook; nothing is written where proofing finds an error
    Bind {
        /// The handbook's folder
        #[arg(default_value = "content")]
        dir: PathBuf,
        /// Where the bound handbook goes; an earlier edition there is replaced whole
        #[arg(long, value_name = "DIR", default_value = "bound")]
        into: PathBuf,
    },
    /// Serve a bound handbook to a local network; stops on an interrupt
    Host {
        /// The bound handbook's folder, as `bind` makes it
        #[arg(default_value = "bound")]
        bound: PathBuf,
        /// Where to listen; `0.0.0.0:8080` for every machine that can reach this one
        #[arg(long, value_name = "ADDR:PORT", default_value = "127.0.0.1:8080")]
        listen: SocketAddr,
        /// Say a line for every request
        #[arg(long)]
        log: bool,
    },
    /// Do one computation of the catalogue, with its working
    Reckon(Sum),
}

/// What `reckon` is asked for.
#[derive(Args, Debug)]
pub(super) struct Sum {
    /// Name of the computation, as `--list` gives it
    #[arg(required_unless_present = "list")]
    pub(super) name: Option<String>,
    /// Inputs as `name=value`: `refrigerant=R-410A "suction pressure=118 psig"`
    #[arg(value_name = "INPUT=VALUE")]
    pub(super) given: Vec<String>,
    /// Name every computation and what it is for
    #[arg(long)]
    pub(super) list: bool,
    /// Say what the computation takes, its formula and its source, instead of doing it
    #[arg(long)]
    pub(super) explain: bool,
    /// The handbook whose refrigerants may be named, beside those the program brings
    #[arg(long = "with", value_name = "DIR")]
    pub(super) handbook: Option<PathBuf>,
}
