//! The order lessons are read in: `needs-circle`, lessons that need each other; `part-not-listed`, a lesson in a part
//! that `handbook.yaml` does not name; `lesson-in-other-part`, a part that lists another part's lesson.
//!
//! A student sent round a circle never begins; a lesson in no part is never found.
//!
//! Trips: `superheat` needs `gauges` and `gauges` needs `superheat`. Mended: one of the two goes without.

use crate::handbook::{Finding, Handbook};
use crate::quantity::nearest;

/// Examines needs and parts.
pub(super) fn examine(book: &Handbook, findings: &mut Vec<Finding>) {
    parts(book, findings);
    let mut done: Vec<&str> = Vec::new();
    for name in book.lessons.keys() {
        walk(book, name, &mut Vec::new(), &mut done, findings);
    }
}

/// Depth first through needs. `way` holds the lessons between the start and here, `done` those that lead to no circle
/// or whose circle has been told.
fn walk<'a>(
    book: &'a Handbook,
    name: &'a str,
    way: &mut Vec<&'a str>,
    done: &mut Vec<&'a str>,
    findings: &mut Vec<Finding>,
) {
    if done.contains(&name) {
        return;
    }
    let Some(lesson) = book.lessons.get(name) else { return };
    way.push(name);
    for need in &lesson.needs {
        if let Some(first) = way.iter().position(|&on_way| on_way == need.value) {
            let circle = way[first..].iter().chain(std::iter::once(&need.value.as_str())).copied().collect::<Vec<_>>();
            findings.push(
                Finding::error("needs-circle", need.at, "these lessons need each other, so none can be read first")
                    .found(circle.join(" needs "))
                    .instead("take one of these needs out"),
            );
        } else {
            walk(book, &need.value, way, done, findings);
        }
    }
    way.pop();
    done.push(name);
}

fn parts(book: &Handbook, findings: &mut Vec<Finding>) {
    let names = || book.front.parts.iter().map(|p| p.name.value.as_str());
    // Where the front could not be read nothing is known of its parts, and that is a finding of its own.
    let front_read = !book.front.altitude.value.is_empty();
    for lesson in book.lessons.values().filter(|_| front_read) {
        if !names().any(|part| part == lesson.part) {
            let finding = Finding::error(
                "part-not-listed",
                lesson.title.at,
                format!("`{}` lies in part `{}`, which `handbook.yaml` does not list", lesson.name, lesson.part),
            );
            findings.push(match nearest(&lesson.part, names()) {
                Some(near) => {
                    finding.instead(format!("move it to `lessons/{near}/`, or add `{}` to `parts:`", lesson.part))
                }
                None => finding.instead(format!("add `{}` to `parts:`", lesson.part)),
            });
        }
    }
    for part in &book.front.parts {
        for listed in &part.lessons {
            let elsewhere = book.lessons.get(&listed.value).filter(|lesson| lesson.part != part.name.value);
            if let Some(lesson) = elsewhere {
                findings.push(
                    Finding::error(
                        "lesson-in-other-part",
                        listed.at,
                        format!("`{}` lies in part `{}`, not in `{}`", lesson.name, lesson.part, part.name.value),
                    )
                    .instead(format!(
                        "move the file to `lessons/{}/`, or list it under `{}`",
                        part.name.value, lesson.part
                    )),
                );
            }
        }
    }
}
