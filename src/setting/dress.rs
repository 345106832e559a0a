//! The two open families that the theme is drawn for, where they have been installed beside it.
//!
//! The repository and the program hold no font files. Given those of the two packages, the handbook's style names them and
//! they lie in its folder with their licenses; without them the reader's own fonts are used, by the stacks of the style.

use std::collections::BTreeMap;

/// A file of the two packages, and where it lies in a bound handbook.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FontFile {
    /// Path below the folder in which packages are installed, with `/` between the parts.
    pub from: &'static str,
    /// Path in the bound folder.
    pub to: &'static str,
}

/// What the handbook is dressed in: all of it, or nothing.
pub const FONT_FILES: [FontFile; 5] = [
    FontFile { from: "@fontsource-variable/playfair/files/playfair-latin-opsz-normal.woff2", to: "kit/playfair.woff2" },
    FontFile {
        from: "@fontsource-variable/playfair/files/playfair-latin-opsz-italic.woff2",
        to: "kit/playfair-italic.woff2",
    },
    FontFile { from: "@fontsource-variable/playfair/LICENSE", to: "kit/playfair-license.txt" },
    FontFile { from: "@fontsource-variable/archivo/files/archivo-latin-wdth-normal.woff2", to: "kit/archivo.woff2" },
    FontFile { from: "@fontsource-variable/archivo/LICENSE", to: "kit/archivo-license.txt" },
];

/// The faces under the names that the style's stacks begin with: text cut stout at optical size 8, heads at 26, the gothic
/// at four fifths of its width.
const FACES: &str = "\
@font-face{font-family:\"Handbook Text\";src:url(playfair.woff2);font-weight:300 900;font-display:swap;font-variation-settings:\"opsz\" 8}\
@font-face{font-family:\"Handbook Text\";src:url(playfair-italic.woff2);font-weight:300 900;font-style:italic;font-display:swap;font-variation-settings:\"opsz\" 8}\
@font-face{font-family:\"Handbook Head\";src:url(playfair.woff2);font-weight:300 900;font-display:swap;font-variation-settings:\"opsz\" 26}\
@font-face{font-family:\"Handbook Gothic\";src:url(archivo.woff2);font-weight:100 900;font-stretch:80%;font-display:swap}\n";

/// Font files by their path in the bound folder, and what is said of them to the style.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Dress {
    pub(super) files: BTreeMap<String, Vec<u8>>,
}

impl Dress {
    /// Of the files given by their path in the bound folder; none unless all of [`FONT_FILES`] are there.
    pub(super) fn of(files: BTreeMap<String, Vec<u8>>) -> Option<Self> {
        FONT_FILES.iter().all(|file| files.contains_key(file.to)).then_some(Self { files })
    }

    /// What the style begins with.
    pub(super) fn faces(&self) -> &'static str {
        if self.files.is_empty() { "" } else { FACES }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_handbook_is_dressed_whole_or_not_at_all() {
        let mut files: BTreeMap<String, Vec<u8>> =
            FONT_FILES.iter().map(|file| (file.to.to_owned(), vec![0])).collect();
        let dress = Dress::of(files.clone()).unwrap();
        for file in FONT_FILES.iter().filter(|file| file.to.ends_with(".woff2")) {
            let name = file.to.trim_start_matches("kit/");
            assert!(dress.faces().contains(&format!("url({name})")), "{name} is brought and not named");
        }
        files.remove("kit/archivo-license.txt");
        assert_eq!(Dress::of(files), None);
        assert_eq!(Dress::default().faces(), "");
    }
}
