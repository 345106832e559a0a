//! Where something stands in the author's files: a file and a run of its bytes.

use std::sync::Arc;

/// One of the author's files, by its place in [`Files`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(pub u32);

/// A run of bytes in one of the author's files. Line and column are worked out when it is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// First byte.
    pub start: usize,
    /// One past the last byte.
    pub end: usize,
}

/// A value and where the author wrote it.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spot<T> {
    /// The value.
    pub value: T,
    /// Where it was written.
    pub at: Span,
}

/// One file as it was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SourceFile {
    /// Its path below its handbook's folder, with `/` between the parts on every machine.
    pub path: String,
    /// How far below the author's own handbook it lies: 0 for the author's files, 1 for those of the handbook that this one
    /// builds on, and so on.
    pub depth: usize,
    /// The way from the author's folder to its handbook's, `../school/`; empty for the author's own.
    pub folder: String,
    /// Its text.
    pub text: String,
}

/// All files of a handbook, in the order of their paths. A clone shares them until one of the two is changed.
#[derive(Clone, Debug, Default)]
pub struct Files(Arc<Vec<SourceFile>>);

impl Span {
    /// The part of this span's file from `start` to `end`, counted from this span's first byte.
    pub fn within(self, start: usize, end: usize) -> Span {
        Span { file: self.file, start: self.start + start, end: self.start + end }
    }
}

impl<T> Spot<T> {
    /// `value`, written at `at`.
    pub fn new(value: T, at: Span) -> Self {
        Self { value, at }
    }
}

impl SourceFile {
    /// Its path from the author's folder, as people are told of it.
    pub fn shown(&self) -> String {
        format!("{}{}", self.folder, self.path)
    }
}

impl Files {
    /// Adds one of the author's own files and gives it its number.
    pub fn add(&mut self, path: impl Into<String>, text: impl Into<String>) -> FileId {
        self.add_below(0, "", path, text)
    }

    /// Adds a file of the handbook `depth` below the author's own, whose folder is reached by `folder`.
    pub fn add_below(
        &mut self,
        depth: usize,
        folder: impl Into<String>,
        path: impl Into<String>,
        text: impl Into<String>,
    ) -> FileId {
        Arc::make_mut(&mut self.0).push(SourceFile {
            path: path.into(),
            depth,
            folder: folder.into(),
            text: text.into(),
        });
        FileId(u32::try_from(self.0.len() - 1).unwrap_or(u32::MAX))
    }

    /// Puts another text in place of that file's, which keeps its path and number. Nothing where there is no such file.
    pub fn replace(&mut self, id: FileId, text: impl Into<String>) {
        if let Some(file) = Arc::make_mut(&mut self.0).get_mut(id.0 as usize) {
            file.text = text.into();
        }
    }

    /// The file of that number, where there is one.
    pub fn get(&self, id: FileId) -> Option<&SourceFile> {
        self.0.get(id.0 as usize)
    }

    /// The path of that file; empty where there is none.
    pub fn path(&self, id: FileId) -> &str {
        self.get(id).map_or("", |f| f.path.as_str())
    }

    /// How far below the author's own handbook that file lies; 0 where there is no such file.
    pub fn depth(&self, id: FileId) -> usize {
        self.get(id).map_or(0, |f| f.depth)
    }

    /// The text a span covers; empty where it covers none.
    pub fn text(&self, span: Span) -> &str {
        self.get(span.file).and_then(|f| f.text.get(span.start..span.end)).unwrap_or("")
    }

    /// The span of a whole file.
    pub fn whole(&self, file: FileId) -> Span {
        Span { file, start: 0, end: self.get(file).map_or(0, |f| f.text.len()) }
    }

    /// Line and column of a span's first byte, both from 1, columns counted in characters.
    pub fn line_and_column(&self, span: Span) -> (usize, usize) {
        let Some(file) = self.get(span.file) else { return (1, 1) };
        let before = file.text.get(..span.start).unwrap_or(&file.text);
        let line_start = before.rfind('\n').map_or(0, |i| i + 1);
        (before.matches('\n').count() + 1, before[line_start..].chars().count() + 1)
    }

    /// All files in order.
    pub fn iter(&self) -> impl Iterator<Item = (FileId, &SourceFile)> {
        self.0.iter().enumerate().map(|(i, f)| (FileId(u32::try_from(i).unwrap_or(u32::MAX)), f))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn line_and_column_count_characters() {
        let mut files = Files::default();
        let file = files.add("a.md", "one\n°two three");
        let start = files.get(file).unwrap().text.find("three").unwrap();
        assert_eq!(files.line_and_column(Span { file, start, end: start + 5 }), (2, 6));
    }
}
