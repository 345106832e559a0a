//! Pages out of an author's files: the whole handbook, which takes its time, and one lesson of it, which does not.

use super::shelf::{Files, Keep, Shelf};
use super::slips::Slips;
use super::{Load, Loaded, Tell, Told};
use crate::handbook::{Finding, Weight};
use crate::proofing;
use crate::reading;
use crate::serving::edition::Held;
use crate::setting;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Instant;

/// The whole handbook made.
pub(super) struct Made {
    loaded: Loaded,
    files: Files,
    slips: Slips,
}

impl Made {
    /// Loads and sets all of it.
    ///
    /// # Errors
    /// In words, where the files can't be read or a template can't be filled.
    pub(super) fn of(load: &Load) -> Result<Self, String> {
        let loaded = load()?;
        let Loaded { book, proof, theme } = &loaded;
        let slips = Slips::of(book, &proof.findings);
        let pages = setting::set_beside(book, proof, theme, &slips.beside).map_err(|error| error.to_string())?;
        let (offer, html) = setting::set_offer(book, theme, &[]).map_err(|error| error.to_string())?;
        let all = pages.files.into_iter().chain([(offer, html)]);
        let files = all.map(|(path, bytes)| (path.clone(), Arc::new(Held::unpacked(&path, bytes)))).collect();
        Ok(Self { loaded, files, slips })
    }

    /// Which of the pages before stay: a slip takes none away.
    fn keeps(&self) -> Keep {
        let findings = &self.loaded.proof.findings;
        let path = |finding: &Finding| self.loaded.book.files.path(finding.at.file);
        let at_front = |finding: &&Finding| {
            finding.weight == Weight::Error && (finding.name == "no-front" || path(finding) == "handbook.yaml")
        };
        if self.loaded.proof.holds() {
            Keep::None
        } else if findings.iter().find(at_front).is_some() {
            // Without its front a handbook has no parts, and so no lessons in order.
            Keep::All
        } else {
            Keep::Missing
        }
    }
}

/// Where the handbook is worked on.
pub(super) struct Bench {
    folder: PathBuf,
    load: Load,
    loaded: Option<Loaded>,
    shelf: Arc<Shelf>,
}

impl Bench {
    pub(super) fn new(folder: PathBuf, load: Load, shelf: Arc<Shelf>) -> Self {
        Self { folder, load, loaded: None, shelf }
    }

    pub(super) fn load(&self) -> Load {
        Arc::clone(&self.load)
    }

    /// The author's own folder.
    pub(super) fn folder(&self) -> &Path {
        &self.folder
    }

    /// The folders of the handbook and of those it builds on.
    pub(super) fn folders(&self) -> Vec<PathBuf> {
        let mut folders = vec![self.folder.clone()];
        if let Some(loaded) = &self.loaded {
            let others = loaded.book.files.iter().map(|(_, file)| self.folder.join(&file.folder));
            for folder in others {
                if !folders.contains(&folder) && folder != self.folder.join("") {
                    folders.push(folder);
                }
            }
        }
        folders
    }

    /// Takes up the whole handbook as it was made.
    pub(super) fn take(&mut self, made: Result<Made, String>, begun: Instant, tell: &Tell) {
        match made {
            Ok(made) => {
                let keep = made.keeps();
                self.shelf.put_all(made.files, made.slips, keep);
                let Loaded { book, proof, .. } = self.loaded.insert(made.loaded);
                let (files, findings) = (&book.files, proof.findings.as_slice());
                tell(Told::Turned { lessons: &[], files, findings, took: begun.elapsed() });
            }
            Err(unread) => {
                self.shelf.unread(&unread);
                tell(Told::Unread(&unread));
            }
        }
    }

    /// Sets these lessons again. False where only making the whole will do.
    pub(super) fn lessons_again(&mut self, paths: &[String], begun: Instant, tell: &Tell) -> bool {
        let mut changed = Vec::new();
        for path in paths {
            match self.lesson_again(path) {
                Some(true) => changed.push(path.clone()),
                Some(false) => {}
                None => return false,
            }
        }
        if let Some(Loaded { book, proof, .. }) = self.loaded.as_ref().filter(|_| !changed.is_empty()) {
            self.shelf.turn(Slips::of(book, &proof.findings));
            let (files, findings) = (&book.files, proof.findings.as_slice());
            tell(Told::Turned { lessons: &changed, files, findings, took: begun.elapsed() });
        }
        true
    }

    /// Sets a lesson again; gives whether its text is another. None where only making the whole will do.
    fn lesson_again(&mut self, path: &str) -> Option<bool> {
        let Loaded { book, proof, theme } = self.loaded.as_mut()?;
        // A file that can't be read is told of by making the whole.
        let text = reading::read_file(&self.folder.join(path)).ok()?;
        let name = path.rsplit_once('/')?.1.strip_suffix(".md")?.to_owned();
        let before = book.lessons.get(&name)?.clone();
        let file = before.body.file;
        // An editor that empties a file before it writes it is not done yet; one that stays empty is told of with the whole.
        if text.is_empty() || book.files.get(file)?.text == text {
            return Some(false);
        }
        let read = reading::read_lesson_again(book, path, &text)?;
        let again = proofing::proof_lesson(book, proof, &name, read.clone());
        proof.findings.retain(|finding| finding.at.file != file);
        proof.findings.extend(again.as_ref().map_or(read, |again| again.findings.clone()));
        proof.findings.sort();
        match again {
            Some(again) => {
                let slips = Slips::of(book, &proof.findings);
                let page = setting::set_lesson(book, &again, theme, &name, &slips.beside).ok()?;
                if let Some((page, html)) = page {
                    self.shelf.put(&page, html);
                }
            }
            // Nothing of it could be read: its page and its place in the book stay.
            None => {
                book.lessons.insert(name, before);
            }
        }
        Some(true)
    }
}
