//! Problems: a question, its answer with the working, and others like it. In a lesson and in a set of its own.

use super::SettingError;
use super::address;
use super::block::PageLink;
use super::figure::{SetDraw, SetFigure, SetInput};
use super::leaf::{Frame, Heading};
use super::markdown::set_line;
use super::press::Press;
use super::print::{Both, anchor, print};
use super::register::Target;
use super::working::{Working, Workings};
use crate::handbook::{BlockKind, Keys, Problem, ProblemSet};
use serde::Serialize;
use std::collections::BTreeSet;
use tera::Context;

/// The key to a problem, for the end of a printed page or a page of keys.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Key {
    anchor: String,
    title: String,
    steps: Vec<SetInput>,
    answer: Both,
    /// What is said beside the answer, as on the page.
    say: String,
}

/// Sets one problem on the page of `workings`, and its key among `keys`.
pub(super) fn set(
    press: &Press<'_>,
    workings: &mut Workings<'_>,
    level: u8,
    problem: &Problem,
    keys: &mut Vec<Key>,
) -> Result<String, SettingError> {
    let page = workings.page();
    let Some(set) = press.figures.problems.get(&problem.name.value) else { return Ok(String::new()) };
    let Some(first) = set.draws.first() else { return Ok(String::new()) };
    let mut working = Working::default();
    // The formula is taught where it is first met; a key shows the numbers put in.
    for step in &first.steps {
        working.figure(&SetFigure { equation: Vec::new(), ..step.figure.clone() });
    }
    let say = said(press, page, problem, &mut working)?;
    let draws = tera::to_value(&set.draws).map(|draws| draws.to_string()).map_err(|error| SettingError::Template {
        template: "block/problem.html".to_owned(),
        says: error.to_string(),
    })?;
    let key = key_to(problem, first, say);
    let mut context = Context::new();
    context.insert("level", &level);
    context.insert("anchor", &key.anchor);
    context.insert("kind", &set.kind);
    context.insert("apart", &(press.book.front.keys == Keys::Apart));
    context.insert("say", &key.say);
    keys.push(key);
    context.insert("title", &problem.title.value);
    context.insert("ask", &Both { us: print(&first.ask.us), si: print(&first.ask.si) });
    context.insert("answer", &first.answer);
    context.insert("unit", &set.unit);
    // Only what this problem may have to say: a page has several, and each says it anew.
    let slips: BTreeSet<&str> = set.draws.iter().flat_map(|draw| &draw.slips).map(|(name, _)| *name).collect();
    context.insert("slips", &slips);
    context.insert("others", &(set.draws.len() > 1));
    context.insert("draws", &in_single_quotes(&draws));
    context.insert("working", &workings.set(press, &working)?);
    press.fill("block/problem.html", context)
}

/// What is said beside a problem's answer, with its figures in `working`.
fn said(press: &Press<'_>, page: &str, problem: &Problem, working: &mut Working) -> Result<String, SettingError> {
    match &problem.say {
        Some(say) => set_line(press, page, &say.value, &problem.say_links, working),
        None => Ok(String::new()),
    }
}

fn key_to(problem: &Problem, draw: &SetDraw, say: String) -> Key {
    let on_the_way = draw.steps.split_last().map_or(&[][..], |(_, before)| before);
    Key {
        anchor: format!("problem-{}", anchor(&problem.name.value)),
        title: problem.title.value.clone(),
        steps: on_the_way.iter().map(|step| SetInput { name: step.name.clone(), value: step.answer.clone() }).collect(),
        answer: draw.answer.clone(),
        say,
    }
}

/// Sets the keys that a printed page has at its end; nothing where there are none or they stand apart.
pub(super) fn keys(press: &Press<'_>, level: u8, keys: &[Key]) -> Result<String, SettingError> {
    if keys.is_empty() || press.book.front.keys == Keys::Apart {
        return Ok(String::new());
    }
    let mut context = Context::new();
    context.insert("level", &level);
    context.insert("keys", keys);
    press.fill("block/keys.html", context)
}

/// A page's keys on the page of keys.
#[derive(Serialize)]
struct KeysOf<'a> {
    title: &'a str,
    label: String,
    keys: Vec<Key>,
}

/// Sets the page of all keys, where they stand apart.
pub(super) fn keys_page(press: &Press<'_>) -> Result<Option<String>, SettingError> {
    if press.book.front.keys != Keys::Apart {
        return Ok(None);
    }
    // What a figure of a remark stands on is shown where the problem is.
    let key = |problem: &Problem| -> Option<Result<Key, SettingError>> {
        let draw = press.figures.problems.get(&problem.name.value).and_then(|set| set.draws.first())?;
        Some(said(press, address::KEYS, problem, &mut Working::default()).map(|say| key_to(problem, draw, say)))
    };
    let mut pages = Vec::new();
    for leaf in press.book.in_order() {
        let problems = leaf.lesson.blocks.iter().filter_map(|block| match &block.kind {
            BlockKind::Practice(problem) => Some(problem),
            _ => None,
        });
        let keys = problems.filter_map(key).collect::<Result<_, _>>()?;
        pages.push(KeysOf { title: &leaf.lesson.title.value, label: leaf.label(), keys });
    }
    for set in press.book.problem_sets.values() {
        let keys = set.problems.iter().filter_map(key).collect::<Result<_, _>>()?;
        pages.push(KeysOf { title: &set.title.value, label: String::new(), keys });
    }
    pages.retain(|page| !page.keys.is_empty());
    let heading = Heading {
        path: address::KEYS,
        title: &press.theme.words.keys,
        label: "",
        guide: String::new(),
        home: None,
        kind: "back",
    };
    let mut context = Context::new();
    context.insert("pages", &pages);
    Frame::of(press, heading).fill(press, "keys.html", context).map(Some)
}

/// Sets the page of a problem set.
pub(super) fn page(press: &Press<'_>, set: &ProblemSet) -> Result<String, SettingError> {
    let path = address::problem_set(&set.name);
    let mut workings = Workings::on(&path);
    let mut working = Working::default();
    let say = match &set.say {
        Some(say) => set_line(press, &path, &say.value, &set.say_links, &mut working)?,
        None => String::new(),
    };
    let (mut problems, mut keys) = (String::new(), Vec::new());
    for problem in &set.problems {
        problems.push_str(&self::set(press, &mut workings, 2, problem, &mut keys)?);
    }
    problems.push_str(&self::keys(press, 2, &keys)?);
    let place = set.lesson.as_ref().and_then(|lesson| press.register.lessons.get(&lesson.value));
    let heading = Heading {
        path: &path,
        title: &set.title.value,
        label: "",
        guide: String::new(),
        home: place.map(|place| place.part),
        kind: "",
    };
    let frame = Frame::of(press, heading);
    let mut context = Context::new();
    context.insert("say", &say);
    context.insert("lesson", &place.map(|place| PageLink::of(&place.page, &path)));
    context.insert("problems", &problems);
    context.insert("reckons", &true);
    frame.tie(press, &mut context, &Target::Practice(set.name.clone()), &[]);
    frame.fill(press, "practice.html", context)
}

/// Text as an attribute between single quotes: JSON is full of double ones, which would each take six letters.
fn in_single_quotes(text: &str) -> String {
    text.replace('&', "&amp;").replace('\'', "&#39;").replace('<', "&lt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_attribute_can_not_be_left() {
        assert_eq!(in_single_quotes("'><b>&\""), "&#39;>&lt;b>&amp;\"");
    }
}
