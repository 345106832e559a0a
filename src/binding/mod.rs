//! Pages onto a disk, all or nothing, and the copies to carry.
//!
//! Takes pages as paths and bytes, puts them in a folder. A bound folder is complete or it is the previous one, whatever
//! interrupts. Copies are put together from the pages as they were set: the folder in an archive, everything in one page,
//! an electronic book; and the script by which a browser keeps the whole. Computes no figure.

mod archive;
mod folder;

mod markup;

mod keeper;

mod epub;
mod page;

mod copies;

pub use archive::{ArchiveError, archive};
pub use copies::{CopyError, with_copies};
pub use folder::{BindError, bind};
pub use markup::MarkupError;

use std::collections::BTreeMap;

/// Files of a bound handbook: path below its folder, with `/` between the parts, and bytes. In the order of their paths.
pub type PageFiles = BTreeMap<String, Vec<u8>>;
