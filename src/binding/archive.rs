//! The folder as one archive (zip): the same pages give the same bytes on any machine and any day.

use super::PageFiles;
use std::io::{Cursor, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

/// The archive could not be made.
#[derive(Debug, thiserror::Error)]
#[error("could not put `{path}` into the archive: {source}")]
pub struct ArchiveError {
    /// The file that would not go in.
    pub path: String,
    /// Why.
    pub source: zip::result::ZipError,
}

/// All of `pages` below a folder `name`, in the order of their paths, every file dated as the format's first day.
///
/// # Errors
/// [`ArchiveError`] names the file.
pub fn archive(name: &str, pages: &PageFiles) -> Result<Vec<u8>, ArchiveError> {
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (path, bytes) in pages {
        let failed = |source| ArchiveError { path: path.clone(), source };
        zip.start_file(format!("{name}/{path}"), options).map_err(failed)?;
        zip.write_all(bytes).map_err(|e| failed(zip::result::ZipError::Io(e)))?;
    }
    let done = zip.finish().map_err(|source| ArchiveError { path: name.to_owned(), source })?;
    Ok(done.into_inner())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Read;

    #[test]
    fn what_went_in_comes_out_and_twice_is_the_same() {
        let pages =
            PageFiles::from([("a/b.html".to_owned(), b"one".to_vec()), ("index.html".to_owned(), vec![0; 999])]);
        let bytes = archive("notes", &pages).unwrap();
        assert_eq!(bytes, archive("notes", &pages).unwrap());
        let mut zip = zip::ZipArchive::new(Cursor::new(bytes)).unwrap();
        let mut text = String::new();
        zip.by_name("notes/a/b.html").unwrap().read_to_string(&mut text).unwrap();
        assert_eq!(text, "one");
        assert_eq!(zip.len(), 2);
    }
}
