//! Pictures made of dots: which kind a file is, how large, and whether it is there to its end.
//!
//! Takes a file's name and bytes. A picture goes into pages as it is, so nothing of it is read but what a page must know
//! before it has it: width and height, that the text around it does not jump.

use crate::handbook::{Dots, RasterFault};
use imagesize::ImageType;

/// Kinds of pictures by the endings of their names.
const KINDS: [(&str, ImageType, &str); 4] = [
    ("png", ImageType::Png, "PNG"),
    ("jpg", ImageType::Jpeg, "JPEG"),
    ("jpeg", ImageType::Jpeg, "JPEG"),
    ("webp", ImageType::Webp, "WebP"),
];

/// Whether a file of that name is a picture of a kind that pages show.
pub(super) fn is_shown(path: &str) -> bool {
    kind_of(path).is_some()
}

fn kind_of(path: &str) -> Option<(ImageType, &'static str)> {
    let (_, ending) = path.rsplit_once('.')?;
    let known = KINDS.iter().find(|(known, _, _)| known.eq_ignore_ascii_case(ending))?;
    Some((known.1, known.2))
}

/// Width and height of the picture at `path`.
pub(super) fn size(path: &str, bytes: &[u8]) -> Result<Dots, RasterFault> {
    let fault = |says: String, instead: &str| RasterFault { says, instead: instead.to_owned() };
    let Some((kind, called)) = kind_of(path) else {
        return Err(fault(
            "is no picture that every reader's program shows".to_owned(),
            "save it as PNG, JPEG or WebP, or draw it as SVG",
        ));
    };
    let found = imagesize::image_type(bytes).ok();
    if found != Some(kind) {
        let other = KINDS.iter().find(|(_, other, _)| found == Some(*other));
        return Err(match other {
            Some((ending, _, other)) => fault(
                format!("is a {other} picture under the name of a {called} one"),
                &format!("let its name end in `.{ending}`, or save it as {called}"),
            ),
            None => fault(format!("does not begin as a {called} picture does"), &format!("save it anew as {called}")),
        });
    }
    let size = imagesize::blob_size(bytes).ok().filter(|size| size.width > 0 && size.height > 0);
    match size {
        Some(size) if reaches_its_end(kind, bytes) => Ok(Dots { width: size.width, height: size.height }),
        Some(_) => Err(fault("breaks off before its end".to_owned(), "copy it from its camera or program once more")),
        None => Err(fault("does not say how wide and high it is".to_owned(), &format!("save it anew as {called}"))),
    }
}

/// Whether the mark that ends a picture of this kind, or all the bytes that it counts, are there. PNG 1.2 section 4.1.4; JPEG,
/// ITU-T T.81 table B.1; WebP, RFC 9649 section 2.4.
fn reaches_its_end(kind: ImageType, bytes: &[u8]) -> bool {
    match kind {
        ImageType::Png => bytes.windows(4).any(|four| four == b"IEND"),
        ImageType::Jpeg => bytes.windows(2).rev().any(|two| two == [0xFF, 0xD9]),
        _ => bytes
            .get(4..8)
            .and_then(|four| <[u8; 4]>::try_from(four).ok())
            .and_then(|four| usize::try_from(u32::from_le_bytes(four)).ok())
            .is_some_and(|counted| bytes.len() >= counted.saturating_add(8)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use base64::Engine;
    use base64::engine::general_purpose::STANDARD;

    /// Three dots wide and two high, written by another program (Pillow 13.0.0).
    const PNG: &str =
        "iVBORw0KGgoAAAANSUhEUgAAAAMAAAACCAIAAAASFvFNAAAAFUlEQVR4nGPcEqXBwMDAwMDAxAADABaUATqHb32iAAAAAElFTkSuQmCC";
    const JPEG: &str = "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDACgcHiMeGSgjISMtKygwPGRBPDc3PHtYXUlkkYCZlo+AjIqgtObDoKrarYqMyP/L2u71////m8H////6/+b9//j/2wBDASstLTw1PHZBQXb4pYyl+Pj4+Pj4+Pj4+Pj4+Pj4+Pj4+Pj4+Pj4+Pj4+Pj4+Pj4+Pj4+Pj4+Pj4+Pj4+Pj4+Pj/wAARCAACAAMDASIAAhEBAxEB/8QAFQABAQAAAAAAAAAAAAAAAAAAAAL/xAAUEAEAAAAAAAAAAAAAAAAAAAAA/8QAFQEBAQAAAAAAAAAAAAAAAAAAAwT/xAAUEQEAAAAAAAAAAAAAAAAAAAAA/9oADAMBAAIRAxEAPwCAAKX/2Q==";
    const WEBP: &str = "UklGRh4AAABXRUJQVlA4TBEAAAAvAkAAAAdQrdIWpf+BiOh/AAA=";

    fn bytes(text: &str) -> Vec<u8> {
        STANDARD.decode(text).unwrap()
    }

    #[test]
    fn every_kind_tells_its_size() {
        for (path, picture) in [("a.png", PNG), ("b.jpg", JPEG), ("c.JPEG", JPEG), ("pictures/d e.webp", WEBP)] {
            assert_eq!(size(path, &bytes(picture)), Ok(Dots { width: 3, height: 2 }), "{path}");
        }
    }

    #[test]
    fn what_is_no_such_picture_is_told() {
        let says = |path: &str, bytes: &[u8]| size(path, bytes).unwrap_err().says;
        assert_eq!(says("a.jpg", &bytes(PNG)), "is a PNG picture under the name of a JPEG one");
        assert_eq!(says("a.png", b"<svg/>"), "does not begin as a PNG picture does");
        assert_eq!(says("a.webp", b""), "does not begin as a WebP picture does");
        assert_eq!(says("a.heic", &bytes(PNG)), "is no picture that every reader's program shows");
    }

    #[test]
    fn a_picture_cut_short_anywhere_is_told_and_never_taken() {
        for (path, picture) in [("a.png", PNG), ("a.jpg", JPEG), ("a.webp", WEBP)] {
            let whole = bytes(picture);
            // The last bytes of a PNG's end are its check; of a WebP's, the filling of an odd chunk.
            for length in 0..whole.len() - 8 {
                assert!(size(path, &whole[..length]).is_err(), "{path}: {length} bytes of {}", whole.len());
            }
        }
    }
}
