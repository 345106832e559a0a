//! The script by which a browser keeps the whole handbook from its first visit on, where it came from a web server.
//!
//! It carries the list of all files with the digest of each, so that what is kept is of one edition, whole and unaltered,
//! and a newer edition takes over from the one before every file that has not changed.

use super::PageFiles;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Map, Value};
use sha2::{Digest, Sha256};

/// Where it lies. A browser lets a script keep only what lies beside or below it.
pub(super) const KEEPER: &str = "keeper.js";

/// The digest of `bytes` as integrity checks and policies of content want it.
pub(super) fn digest(bytes: &[u8]) -> String {
    format!("sha256-{}", STANDARD.encode(Sha256::digest(bytes)))
}

/// The script, `by` headed with what is to be kept.
pub(super) fn keeper(edition: &str, files: &PageFiles, by: &str) -> String {
    let list: Map<String, Value> = files.iter().map(|(path, bytes)| (path.clone(), digest(bytes).into())).collect();
    let list = Value::Object(list).to_string();
    let book = digest(list.as_bytes());
    format!("var edition={};\nvar book={};\nvar files={list};\n{by}", Value::from(edition), Value::from(book))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_list_names_every_file_by_its_content() {
        let files = PageFiles::from([("index.html".to_owned(), b"abc".to_vec())]);
        let script = keeper("2026-11", &files, "rest();\n");
        // The digest of `abc` as FIPS 180-2 prints it, in base 64.
        assert!(
            script.contains("{\"index.html\":\"sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=\"}"),
            "{script}"
        );
        assert!(script.starts_with("var edition=\"2026-11\";\n") && script.ends_with("rest();\n"));
        let other = PageFiles::from([("index.html".to_owned(), b"abd".to_vec())]);
        assert_ne!(keeper("2026-11", &other, ""), keeper("2026-11", &files, ""));
    }
}
