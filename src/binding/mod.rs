//! Pages onto a disk, all or nothing, and the copies to carry.
//!
//! Takes pages as paths and bytes, puts them in a folder. A bound folder is complete or it is the previous one, whatever
//! interrupts. Computes nothing.

mod archive;
mod folder;

pub use archive::{ArchiveError, archive};
pub use folder::{BindError, bind};

use std::collections::BTreeMap;

/// Files of a bound handbook: path below its folder, with `/` between the parts, and bytes. In the order of their paths.
pub type PageFiles = BTreeMap<String, Vec<u8>>;
