//! Findings as people read them: each with the author's own line, what was found and what would be right.

use crate::handbook::{Files, Finding, Span, Weight};
use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};

/// Lines wider than this are cut around the marked place.
const WIDTH: usize = 120;

/// All findings, one after another, each ending in a blank line. `colored` for a terminal that shows color.
pub fn findings_text(files: &Files, findings: &[Finding], colored: bool) -> String {
    let renderer = if colored { Renderer::styled() } else { Renderer::plain() };
    let renderer = renderer.decor_style(DecorStyle::Ascii).term_width(WIDTH);
    let mut text = String::new();
    for finding in findings {
        text.push_str(&renderer.render(&[group(files, finding)]));
        text.push_str("\n\n");
    }
    text
}

/// How many errors and warnings there are, in words: `2 errors, 1 warning`.
pub fn count_text(findings: &[Finding]) -> String {
    let errors = findings.iter().filter(|f| f.weight == Weight::Error).count();
    let warnings = findings.len() - errors;
    let counted = |n: usize, word: &str| format!("{n} {word}{}", if n == 1 { "" } else { "s" });
    match (errors, warnings) {
        (0, 0) => "no findings".to_owned(),
        (0, w) => counted(w, "warning"),
        (e, 0) => counted(e, "error"),
        (e, w) => format!("{}, {}", counted(e, "error"), counted(w, "warning")),
    }
}

fn group<'a>(files: &'a Files, finding: &'a Finding) -> Group<'a> {
    let level = match finding.weight {
        Weight::Error => Level::ERROR,
        Weight::Warning => Level::WARNING,
    };
    let title = level.primary_title(finding.says.as_str()).id(finding.name);
    let mut group = Group::with_title(title);
    let mut places = vec![finding.at.file];
    for seen in &finding.seen {
        if !places.contains(&seen.at.file) {
            places.push(seen.at.file);
        }
    }
    for file in places {
        let Some(source) = files.get(file) else { continue };
        let mut snippet = Snippet::source(source.text.as_str()).path(source.shown()).fold(true);
        if file == finding.at.file {
            let primary = AnnotationKind::Primary.span(shown(&source.text, finding.at));
            let label = Some(finding.label.as_str()).filter(|l| !l.is_empty());
            snippet = snippet.annotation(primary.label(label));
        }
        for seen in finding.seen.iter().filter(|s| s.at.file == file) {
            let context = AnnotationKind::Context.span(shown(&source.text, seen.at));
            snippet = snippet.annotation(context.label(seen.says.as_str()));
        }
        group = group.element(snippet);
    }
    for found in &finding.found {
        group = group.element(Level::NOTE.with_name("found").message(found.as_str()));
    }
    if let Some(instead) = &finding.instead {
        group = group.element(Level::HELP.message(instead.as_str()));
    }
    group
}

/// The part of a span to mark: its first line, when it has several.
fn shown(text: &str, at: Span) -> std::ops::Range<usize> {
    let start = at.start.min(text.len());
    let end = at.end.clamp(start, text.len());
    let first_line = text[start..end].find('\n').map_or(end, |i| start + i);
    start..first_line.max(start)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_finding_shows_the_line_the_sum_and_the_remedy() {
        let mut files = Files::default();
        let text = "title: a\nanswer: 28.9 °F\n";
        let file = files.add("lessons/diagnosing/starved-coil.md", text);
        let start = text.find("28.9").unwrap_or(0);
        let finding = Finding::error(
            "figure-disagrees",
            Span { file, start, end: start + "28.9 °F".len() },
            "this superheat comes to 29.8 °F",
        )
        .label("written here")
        .found("70 °F − 40.2 °F = 29.8 °F")
        .instead("two digits may have changed places: write `29.8 °F`");
        let expected = "\
error[figure-disagrees]: this superheat comes to 29.8 °F
 --> lessons/diagnosing/starved-coil.md:2:9
  |
2 | answer: 28.9 °F
  |         ^^^^^^^ written here
  |
  = found: 70 °F − 40.2 °F = 29.8 °F
  = help: two digits may have changed places: write `29.8 °F`

";
        assert_eq!(findings_text(&files, &[finding], false), expected);
    }
}
