//! What every page is set from: the handbook, its figures, the theme and the register.

use super::SettingError;
use super::figure::Figures;
use super::print::Both;
use super::register::Register;
use super::theme::Theme;
use super::words::fill;
use crate::handbook::{Handbook, SourceKind};
use tera::Context;

/// See the module.
pub(super) struct Press<'a> {
    pub(super) book: &'a Handbook,
    pub(super) figures: Figures,
    pub(super) theme: &'a Theme,
    pub(super) register: Register,
}

impl Press<'_> {
    /// Fills a template with `context`, which is given the words of the interface too.
    pub(super) fn fill(&self, template: &str, mut context: Context) -> Result<String, SettingError> {
        context.insert("words", &self.theme.words);
        self.theme.fill(template, &context).map_err(|error| SettingError::Template {
            template: template.to_owned(),
            says: super::theme::causes(&error),
        })
    }

    /// What marks a standing value as the house's own, where it stands in place of one of the handbook below.
    pub(super) fn own_mark(&self, name: &str) -> Option<Both> {
        let old = self.figures.replaced_values.get(name)?;
        let say = |old: &str| fill(&self.theme.words.own_value, "old", old);
        Some(Both { us: say(&old.us), si: say(&old.si) })
    }

    /// The mark of the standing value that a limit such as `within value:superheat-range` names.
    pub(super) fn own_mark_in(&self, limit: &str) -> Option<Both> {
        let (_, name) = limit.split_once("value:")?;
        self.own_mark(name.trim())
    }

    /// Who set a standing value in place of the one below, and why.
    pub(super) fn own_word(&self, name: &str) -> Option<Both> {
        let mark = self.own_mark(name)?;
        let value = self.book.values.get(name)?;
        let base = self.book.front.base.as_ref().map_or("", |base| base.title.as_str());
        let say = |mark: &str| {
            let by = value.by.as_ref().map_or("", |by| by.value.as_str());
            let because = value.because.as_deref().unwrap_or("");
            let slots = [("mark", mark), ("base", base), ("by", by), ("because", because)];
            slots.iter().fold(self.theme.words.own_value_word.clone(), |text, (slot, with)| fill(&text, slot, with))
        };
        Some(Both { us: say(&mark.us), si: say(&mark.si) })
    }

    /// A source in one line: its title, and that it is from memory where it is.
    pub(super) fn source_line(&self, key: &str) -> String {
        let Some(source) = self.book.sources.get(key) else { return key.to_owned() };
        if source.from_memory && source.kind != SourceKind::CommonPractice {
            format!("{} ({})", source.title, self.theme.words.from_memory)
        } else {
            source.title.clone()
        }
    }
}
