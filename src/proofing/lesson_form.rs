//! The form of a lesson: `too-many-notices`, more than two signal words beside its text; `heading-level`, a heading
//! that is not a section's.
//!
//! A notice that stands among many is not read. A lesson's title is in its head, so its text begins at `##`.
//!
//! Trips: `# Mounting the bulb` in the text. Mended: `title: Mounting the bulb` in the head, `## Sections` in the text.

use crate::handbook::{Finding, Handbook, Weight};

/// Notices with a signal word that a lesson can hold before readers stop seeing them (ANSI Z535.6 asks for few and
/// near their step; the number is ours).
const NOTICES: usize = 2;

/// Examines every lesson.
pub(super) fn examine(book: &Handbook, findings: &mut Vec<Finding>) {
    for lesson in book.lessons.values() {
        let signals: Vec<_> = lesson.notices.iter().filter(|n| n.signal.is_some()).collect();
        if let Some(beyond) = signals.get(NOTICES) {
            findings.push(
                Finding::warning(
                    "too-many-notices",
                    beyond.at,
                    format!(
                        "`{}` has {} notices in its text; past {NOTICES} they are read past",
                        lesson.name,
                        signals.len()
                    ),
                )
                .instead("put the lesser ones into the text, or hazards of the whole job into `hazards:`"),
            );
        }
        for heading in lesson.headings.iter().filter(|h| h.level == 1 || h.level > 3) {
            let finding = Finding::error(
                "heading-level",
                heading.at,
                format!("`{}` stands at level {}", heading.text, heading.level),
            )
            .instead("the title is in the head; sections are `##`, parts of a section `###`");
            findings
                .push(Finding { weight: if heading.level == 1 { Weight::Error } else { Weight::Warning }, ..finding });
        }
    }
}
