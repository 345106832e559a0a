//! What every page is set from: the handbook, its figures, the theme and the register.

use super::SettingError;
use super::figure::Figures;
use super::register::Register;
use super::theme::Theme;
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
