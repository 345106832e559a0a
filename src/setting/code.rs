//! Code, highlighted: kinds of words told apart by weight and slant, since color means something else in a handbook.
//!
//! Takes a language's name and the code, gives HTML with classes; the theme's style says how each class looks.

use super::print::escape;
use std::sync::LazyLock;
use syntect::html::{ClassStyle, ClassedHTMLGenerator};
use syntect::parsing::SyntaxSet;
use syntect::util::LinesWithEndings;

/// Loaded at the first code block: most handbooks have none, and it takes longer than setting a lesson.
static SYNTAXES: LazyLock<SyntaxSet> = LazyLock::new(SyntaxSet::load_defaults_newlines);

/// Sets `text`, which is code in `language`; a language that is not known is set plain.
pub(super) fn set(language: &str, text: &str) -> String {
    let known = (!language.is_empty()).then(|| SYNTAXES.find_syntax_by_token(language)).flatten();
    let inner = known.and_then(|syntax| {
        let style = ClassStyle::SpacedPrefixed { prefix: "c-" };
        let mut generator = ClassedHTMLGenerator::new_with_class_style(syntax, &SYNTAXES, style);
        for line in LinesWithEndings::from(text) {
            generator.parse_html_for_line_which_includes_newline(line).ok()?;
        }
        Some(generator.finalize())
    });
    format!("<pre class=\"code\" tabindex=\"0\"><code>{}</code></pre>\n", inner.unwrap_or_else(|| escape(text)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn code_is_told_apart_by_class() {
        let html = set("yaml", "ask: 1 # why\n");
        assert!(html.contains("c-comment") && html.contains("c-yaml"), "{html}");
    }

    #[test]
    fn an_unknown_language_is_set_plain_and_escaped() {
        assert_eq!(set("gauge", "a < b\n"), "<pre class=\"code\" tabindex=\"0\"><code>a &lt; b\n</code></pre>\n");
    }
}
