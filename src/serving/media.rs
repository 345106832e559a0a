//! What a file is, by the ending of its name.

/// Media type of a file, and whether packing it is worth while.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Media {
    /// As `Content-Type` has it.
    pub(super) kind: &'static str,
    /// Text, which packs well; pictures and archives are packed already.
    pub(super) packs: bool,
}

/// The media type of the file at `path`. A type not known is plain bytes, which no browser runs or shows.
pub(super) fn media(path: &str) -> Media {
    let name = path.rsplit_once('/').map_or(path, |(_, name)| name);
    let ending = name.rsplit_once('.').map_or("", |(_, ending)| ending).to_ascii_lowercase();
    let (kind, packs) = match ending.as_str() {
        "html" => ("text/html; charset=utf-8", true),
        "css" => ("text/css; charset=utf-8", true),
        "js" => ("text/javascript; charset=utf-8", true),
        "json" => ("application/json", true),
        "webmanifest" => ("application/manifest+json", true),
        "svg" => ("image/svg+xml", true),
        "txt" => ("text/plain; charset=utf-8", true),
        "xml" => ("application/xml", true),
        "png" => ("image/png", false),
        "jpg" | "jpeg" => ("image/jpeg", false),
        "webp" => ("image/webp", false),
        "ico" => ("image/vnd.microsoft.icon", false),
        "woff2" => ("font/woff2", false),
        "zip" => ("application/zip", false),
        "epub" => ("application/epub+zip", false),
        "pdf" => ("application/pdf", false),
        _ => ("application/octet-stream", false),
    };
    Media { kind, packs }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ending_decides() {
        assert_eq!(media("lesson/bulb.html").kind, "text/html; charset=utf-8");
        assert_eq!(media("pictures/A.PNG").kind, "image/png");
        assert_eq!(media("kit.html/unknown").kind, "application/octet-stream");
        assert_eq!(media("edition").kind, "application/octet-stream");
    }
}
