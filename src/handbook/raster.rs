//! A picture made of dots: a photograph, a scanned sheet.

use std::sync::Arc;

/// A PNG, JPEG or WebP picture as its file was found.
#[derive(Clone, Debug)]
pub struct Raster {
    /// The file's bytes, which go into the handbook as they are; none where no program that shows pages would show them.
    pub bytes: Arc<[u8]>,
    /// Its size in dots, or what is wrong with it.
    pub size: Result<Dots, RasterFault>,
}

/// Width and height in dots, neither of them 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Dots {
    /// From left to right.
    pub width: usize,
    /// From top to bottom.
    pub height: usize,
}

/// Why a picture can't be set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RasterFault {
    /// What is wrong, to stand after the picture's name.
    pub says: String,
    /// What would be right.
    pub instead: String,
}
