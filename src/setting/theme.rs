//! A theme: templates, style, script and the words of the interface.
//!
//! Takes the files of a theme's folder, from inside the program or handed in by whoever read them; gives a theme that can
//! set pages. Never touches a disk.
//!
//! A theme's folder has `templates/**/*.html` and `templates/*.css` (Tera), `style/*.css` and `script/*.js` (put
//! together in the order of their names), `words.yaml`, `kit/*` (icons and the like, put beside the style as they are) and
//! `copies/*` (what the copies that are carried need of their own).

use super::dress::Dress;
use super::lean_style;
use super::own_theme::{self, ThemeFault};
use super::print;
use super::words::Words;
use include_dir::{Dir, include_dir};
use std::collections::{BTreeMap, HashMap};
use tera::{Context, Filter, Tera, Value};
use thiserror::Error;

// Folder by folder, and not the whole: installed font packages may lie in it too, which the program must not hold.
static FOLDERS: [(&str, Dir<'_>); 5] = [
    ("templates", include_dir!("$CARGO_MANIFEST_DIR/themes/pocketbook/templates")),
    ("style", include_dir!("$CARGO_MANIFEST_DIR/themes/pocketbook/style")),
    ("script", include_dir!("$CARGO_MANIFEST_DIR/themes/pocketbook/script")),
    ("kit", include_dir!("$CARGO_MANIFEST_DIR/themes/pocketbook/kit")),
    ("copies", include_dir!("$CARGO_MANIFEST_DIR/themes/pocketbook/copies")),
];
const WORDS: &str = include_str!("../../themes/pocketbook/words.yaml");

/// What is wrong with a theme.
#[derive(Debug, Error)]
pub enum ThemeError {
    /// A file the theme must have is not there.
    #[error("the theme has no `{0}`")]
    Missing(String),
    /// A file is not UTF-8 text.
    #[error("`{0}` in the theme is not UTF-8 text")]
    NotText(String),
    /// `words.yaml` does not hold the words of the interface.
    #[error("`words.yaml` in the theme: {0}")]
    Words(#[from] serde_yaml::Error),
    /// A template can't be read.
    #[error("a template of the theme cannot be read: {}", causes(.0))]
    Template(#[from] tera::Error),
    /// A file of a handbook's own theme is not right.
    #[error(transparent)]
    Own(#[from] ThemeFault),
}

const COPY_SCRIPT: &str = "copies/page.js";
const COPY_STYLE: &str = "copies/epub.css";
const KEEPER: &str = "copies/keeper.js";

/// A theme, ready to set pages.
#[derive(Debug)]
pub struct Theme {
    templates: Tera,
    style: String,
    script: String,
    kit: BTreeMap<String, Vec<u8>>,
    copies: BTreeMap<String, String>,
    dress: Dress,
    pub(super) words: Words,
}

impl Theme {
    /// The theme inside the program, `pocketbook`.
    ///
    /// # Errors
    /// Where the program was built with a broken theme; a test holds that it was not.
    pub fn pocketbook() -> Result<Self, ThemeError> {
        Self::from_files(&ours())
    }

    /// The theme inside the program with a handbook's own themes laid over it in order: the folder each lies in, and its
    /// files by path below that. A file of the same name takes the place of ours; of `words.yaml`, single words.
    ///
    /// # Errors
    /// [`ThemeError::Own`] with the place, where one of the files is not right; the others, where the whole is not.
    pub fn of_handbook(own: &[(String, BTreeMap<String, Vec<u8>>)]) -> Result<Self, ThemeError> {
        let mut files = ours();
        for (folder, own) in own {
            own_theme::lay_over(&mut files, own)
                .map_err(|fault| ThemeFault { path: format!("{folder}/{}", fault.path), ..fault })?;
        }
        Self::from_files(&files)
    }

    /// The theme dressed in the families it is drawn for: the files of [`FONT_FILES`](super::FONT_FILES) by their path in
    /// the bound folder. Stays as it is where any is missing. Whether it is dressed now.
    pub fn dress_in(&mut self, fonts: BTreeMap<String, Vec<u8>>) -> bool {
        let dress = Dress::of(fonts);
        let dressed = dress.is_some();
        self.dress = dress.unwrap_or_default();
        dressed
    }

    /// A theme from its files: path below the theme's folder, with `/` between the parts, and bytes.
    ///
    /// # Errors
    /// Where a file that must be there is missing, is no text, or can't be understood.
    pub fn from_files(files: &BTreeMap<String, Vec<u8>>) -> Result<Self, ThemeError> {
        let mut texts = BTreeMap::new();
        for (path, bytes) in files {
            let kept = ["templates/", "style/", "script/", "copies/", "words.yaml"]
                .iter()
                .any(|start| path.starts_with(start));
            if kept {
                let text = std::str::from_utf8(bytes).map_err(|_| ThemeError::NotText(path.clone()))?;
                texts.insert(path.as_str(), text);
            }
        }
        let words = texts.get("words.yaml").ok_or_else(|| ThemeError::Missing("words.yaml".to_owned()))?;
        let mut templates = Tera::default();
        templates.register_filter("print", Print);
        templates.register_filter("both", BothSystems);
        templates.register_filter("fill", fill);
        templates.register_filter("spoken", spoken);
        templates.register_filter("in_css", in_css);
        templates.autoescape_on(vec![".html"]);
        templates.add_raw_templates(
            texts.iter().filter_map(|(path, text)| path.strip_prefix("templates/").map(|name| (name, *text))),
        )?;
        for needed in super::leaf::TEMPLATES {
            if !templates.get_template_names().any(|name| name == needed) {
                return Err(ThemeError::Missing(format!("templates/{needed}")));
            }
        }
        let mut copies = BTreeMap::new();
        for needed in [COPY_SCRIPT, COPY_STYLE, KEEPER] {
            let text = texts.get(needed).ok_or_else(|| ThemeError::Missing(needed.to_owned()))?;
            copies.insert(needed.to_owned(), (*text).to_owned());
        }
        for icon in super::manifest::ICONS {
            if !files.contains_key(icon) {
                return Err(ThemeError::Missing(icon.to_owned()));
            }
        }
        let kit = files.iter().filter(|(path, _)| path.starts_with("kit/"));
        let together = |folder: &str| -> String {
            let parts = texts.iter().filter(|(path, _)| path.starts_with(folder));
            parts.map(|(_, text)| text.trim_end()).collect::<Vec<_>>().join("\n") + "\n"
        };
        Ok(Self {
            words: serde_yaml::from_str(words)?,
            style: lean_style::lean(&together("style/")),
            script: without_indents(&together("script/")),
            kit: kit.map(|(path, bytes)| (path.clone(), bytes.clone())).collect(),
            copies,
            dress: Dress::default(),
            templates,
        })
    }

    /// The style of the bound handbook, without what belongs to one handbook only.
    pub(super) fn style(&self) -> &str {
        &self.style
    }

    /// The font files that lie beside the style, and what the style says of them.
    pub(super) fn dress(&self) -> &Dress {
        &self.dress
    }

    /// The script of the bound handbook.
    pub(super) fn script(&self) -> &str {
        &self.script
    }

    /// Files that lie beside the style as they are, by their path in the bound folder.
    pub(super) fn kit(&self) -> &BTreeMap<String, Vec<u8>> {
        &self.kit
    }

    /// The language of the interface, as `en-US`.
    pub fn language(&self) -> &str {
        &self.words.language
    }

    /// The script by which a copy in one page shows one leaf at a time.
    pub fn copy_script(&self) -> &str {
        self.copies.get(COPY_SCRIPT).map_or("", String::as_str)
    }

    /// The style of an electronic book.
    pub fn copy_style(&self) -> &str {
        self.copies.get(COPY_STYLE).map_or("", String::as_str)
    }

    /// The script by which a browser keeps the whole handbook, to be headed by what is to be kept.
    pub fn keeper(&self) -> &str {
        self.copies.get(KEEPER).map_or("", String::as_str)
    }

    /// Fills the template `name`.
    pub(super) fn fill(&self, name: &str, context: &Context) -> Result<String, tera::Error> {
        self.templates.render(name, context)
    }
}

/// A Tera error with all that led to it; its own text names the template only.
pub(super) fn causes(error: &tera::Error) -> String {
    let mut text = error.to_string();
    let mut cause = std::error::Error::source(error);
    while let Some(inner) = cause {
        text.push_str(": ");
        text.push_str(&inner.to_string());
        cause = inner.source();
    }
    text
}

/// The files of the theme inside the program.
fn ours() -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    for (folder, dir) in &FOLDERS {
        gather(folder, dir, &mut files);
    }
    files.insert("words.yaml".to_owned(), WORDS.as_bytes().to_vec());
    files
}

fn gather(folder: &str, dir: &Dir<'_>, files: &mut BTreeMap<String, Vec<u8>>) {
    for file in dir.files() {
        let path = file.path().to_string_lossy().replace('\\', "/");
        files.insert(format!("{folder}/{path}"), file.contents().to_vec());
    }
    for inner in dir.dirs() {
        gather(folder, inner, files);
    }
}

/// A script without its indents and the lines that are comments only. Text of several lines may not stand in it.
pub(super) fn without_indents(script: &str) -> String {
    let lines = script.lines().map(str::trim).filter(|line| !line.is_empty() && !line.starts_with("//"));
    let mut out = String::with_capacity(script.len());
    for line in lines {
        out.push_str(line);
        out.push('\n');
    }
    out
}

/// Plain words as HTML, set as a printer would.
struct Print;

impl Filter for Print {
    fn filter(&self, value: &Value, _: &HashMap<String, Value>) -> tera::Result<Value> {
        Ok(Value::String(print::print(text("print", value)?)))
    }

    fn is_safe(&self) -> bool {
        true
    }
}

/// A figure, `{us, si}`, as HTML in both systems of units; `class` goes on its elements.
struct BothSystems;

impl Filter for BothSystems {
    fn filter(&self, value: &Value, arguments: &HashMap<String, Value>) -> tera::Result<Value> {
        let part = |name: &str| {
            let part = value.get(name).and_then(Value::as_str);
            part.ok_or_else(|| tera::Error::msg("`both` is for a figure in both systems, with `us` and `si`"))
        };
        let class = arguments.get("class").and_then(Value::as_str).unwrap_or("");
        let both = print::Both { us: part("us")?.to_owned(), si: part("si")?.to_owned() };
        Ok(Value::String(both.html(class)))
    }

    fn is_safe(&self) -> bool {
        true
    }
}

/// Words with slots, `leaf {leaf}`, with the slots filled from the arguments.
fn fill(value: &Value, arguments: &HashMap<String, Value>) -> tera::Result<Value> {
    let mut names: Vec<&String> = arguments.keys().collect();
    names.sort();
    let mut out = text("fill", value)?.to_owned();
    for name in names {
        let with = match &arguments[name] {
            Value::String(text) => text.clone(),
            other => other.to_string(),
        };
        out = out.replace(&format!("{{{name}}}"), &with);
    }
    Ok(Value::String(out))
}

/// A name written with hyphens, in words.
fn spoken(value: &Value, _: &HashMap<String, Value>) -> tera::Result<Value> {
    Ok(Value::String(print::spoken(text("spoken", value)?)))
}

/// Text as it may stand between the quotes of a CSS string.
fn in_css(value: &Value, _: &HashMap<String, Value>) -> tera::Result<Value> {
    let mut out = String::new();
    for c in text("in_css", value)?.chars() {
        match c {
            '"' | '\\' | '<' | '\n' | '\r' => out.push_str(&format!("\\{:06x}", u32::from(c))),
            other => out.push(other),
        }
    }
    Ok(Value::String(out))
}

fn text<'a>(filter: &str, value: &'a Value) -> tera::Result<&'a str> {
    value.as_str().ok_or_else(|| tera::Error::msg(format!("`{filter}` is for text, and `{value}` is none")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_theme_inside_the_program_is_whole() {
        let theme = Theme::pocketbook().unwrap();
        assert!(theme.style().len() < 40 * 1024);
        assert!(theme.script().len() < 40 * 1024);
        for outside in ["http://", "https://", "@import", "url(//"] {
            assert!(!theme.style().contains(outside) && !theme.script().contains(outside), "{outside}");
        }
    }

    #[test]
    fn a_theme_says_what_it_lacks() {
        let mut files = ours();
        files.remove("templates/lesson.html");
        let error = Theme::from_files(&files).unwrap_err().to_string();
        assert_eq!(error, "the theme has no `templates/lesson.html`");
        files.insert("words.yaml".to_owned(), b"find: Find\n".to_vec());
        let error = Theme::from_files(&files).unwrap_err().to_string();
        assert_eq!(error, "the theme has no `templates/lesson.html`");
    }

    #[test]
    fn what_a_handbook_is_called_cannot_break_out_of_its_style() {
        let set = in_css(&Value::String("a\"}b\\<".into()), &HashMap::new()).unwrap();
        assert_eq!(set, Value::String("a\\000022}b\\00005c\\00003c".into()));
    }
}
