//! A diagnosis as a numbered key: questions in order, answers that lead on, ends. It reads and works without script.

use super::SettingError;
use super::address;
use super::block;
use super::leaf::{Frame, Heading};
use super::markdown::set_line;
use super::press::Press;
use super::print::{Both, anchor, spoken};
use super::register::Target;
use super::tree_drawing;
use super::words::fill;
use super::working::{Working, Workings};
use crate::handbook::{Outcome, Question, Signal, Spot, Tree};
use serde::Serialize;
use tera::Context;

/// An answer and where it leads.
#[derive(Debug, Serialize)]
pub(super) struct Way {
    pub(super) href: String,
    pub(super) when: Both,
    /// That the bound is the house's own, where it is.
    pub(super) own: Option<Both>,
    pub(super) to: String,
}

#[derive(Serialize)]
struct Step {
    number: usize,
    anchor: String,
    gate: String,
    ask: String,
    because: String,
    how: String,
    ways: Vec<Way>,
    working: String,
}

#[derive(Serialize)]
struct Before {
    href: String,
    title: String,
}

#[derive(Serialize)]
struct End {
    anchor: String,
    title: String,
    say: String,
    record: String,
    caution: String,
    condemns: bool,
    only_after: Vec<Before>,
    working: String,
}

/// Questions as they are read and numbered: in proofing's order, in which answers lead forward; where there is none yet,
/// the first to be asked and then the others as the author has them.
pub(super) fn in_order<'a>(press: &Press<'_>, tree: &'a Tree) -> Vec<&'a Question> {
    let order = press.figures.orders.get(&tree.name).map_or(&[][..], Vec::as_slice);
    let mut questions: Vec<&Question> = tree.questions.iter().collect();
    questions.sort_by_key(|question| {
        let name = &question.name.value;
        (order.iter().position(|known| known == name).unwrap_or(usize::MAX), *name != tree.start.value)
    });
    questions
}

fn number_of(press: &Press<'_>, tree: &Tree, name: &str) -> Option<usize> {
    in_order(press, tree).iter().position(|question| question.name.value == name).map(|i| i + 1)
}

pub(super) fn question_anchor(name: &str) -> String {
    format!("q-{}", anchor(name))
}

pub(super) fn end_anchor(name: &str) -> String {
    format!("e-{}", anchor(name))
}

/// The answers of a question, as links from the page `page`.
pub(super) fn ways(press: &Press<'_>, page: &str, tree: &Tree, question: &Question) -> Vec<Way> {
    let there = address::tree(&tree.name);
    question
        .answers
        .iter()
        .map(|answer| {
            let go = &answer.go.value;
            let other = go.strip_prefix("tree:").and_then(|name| press.register.trees.get(name.trim()));
            let (address, to) = match (other, number_of(press, tree, go)) {
                (Some(other), _) => (other.path.clone(), other.title.clone()),
                (None, Some(number)) => {
                    let to = fill(&press.theme.words.go_to, "number", &number.to_string());
                    (format!("{there}#{}", question_anchor(go)), to)
                }
                (None, None) => (format!("{there}#{}", end_anchor(go)), spoken(go)),
            };
            let alike = || Both { us: answer.when.value.clone(), si: answer.when.value.clone() };
            Way {
                href: address::href(page, &address),
                when: press.figures.answers.get(&answer.when.at).cloned().unwrap_or_else(alike),
                own: press.own_mark_in(&answer.when.value),
                to,
            }
        })
        .collect()
}

/// Sets a tree's page.
pub(super) fn page(press: &Press<'_>, tree: &Tree) -> Result<String, SettingError> {
    let path = address::tree(&tree.name);
    let line = |spot: Option<&Spot<String>>, working: &mut Working| match spot {
        Some(spot) => {
            let links = tree.links.get(&spot.at).map_or(&[][..], Vec::as_slice);
            set_line(press, &path, &spot.value, links, working)
        }
        None => Ok(String::new()),
    };
    let mut workings = Workings::on(&path);
    let mut steps = Vec::new();
    for (i, question) in in_order(press, tree).into_iter().enumerate() {
        let mut working = Working::default();
        steps.push(Step {
            number: i + 1,
            anchor: question_anchor(&question.name.value),
            gate: spoken(&question.name.value),
            ask: line(Some(&question.ask), &mut working)?,
            because: line(question.because.as_ref(), &mut working)?,
            how: line(question.how.as_ref(), &mut working)?,
            ways: ways(press, &path, tree, question),
            working: workings.set(press, &working)?,
        });
    }
    let mut ends = Vec::new();
    for outcome in &tree.outcomes {
        let mut working = Working::default();
        ends.push(End {
            anchor: end_anchor(&outcome.name.value),
            title: spoken(&outcome.name.value),
            say: line(Some(&outcome.say), &mut working)?,
            record: line(outcome.record.as_ref(), &mut working)?,
            caution: match &outcome.caution {
                Some(caution) => {
                    let html = line(Some(caution), &mut working)?;
                    block::notice(press, Signal::Caution, &format!("<p>{html}</p>\n"), true)?
                }
                None => String::new(),
            },
            condemns: outcome.condemns.is_some(),
            only_after: only_after(press, tree, outcome),
            working: workings.set(press, &working)?,
        });
    }
    let words = &press.theme.words;
    let gates: Vec<&str> = steps.iter().map(|step| step.gate.as_str()).collect();
    let guide = match gates.as_slice() {
        [first, .., last] => fill(&fill(&words.guide_to, "first", first), "last", last),
        [only] => (*only).to_owned(),
        [] => String::new(),
    };
    let target = Target::Tree(tree.name.clone());
    let frame = Frame::of(
        press,
        Heading {
            path: &path,
            title: &tree.title.value,
            label: "",
            guide,
            home: press.register.home(&target),
            kind: "tree",
        },
    );
    let mut context = Context::new();
    context.insert("purpose", &tree.purpose);
    context.insert("start", &question_anchor(&tree.start.value));
    context.insert("steps", &steps);
    context.insert("ends", &ends);
    context.insert("drawing", &tree_drawing::draw(press, &path, tree));
    let readings: Vec<String> = tree.readings.iter().map(|reading| spoken(&reading.name.value)).collect();
    context.insert("readings", &readings);
    context.insert("blank_rows", &[(); 3]);
    frame.tie(press, &mut context, &target, &stands_on(press, tree));
    frame.fill(press, "tree.html", context)
}

fn only_after(press: &Press<'_>, tree: &Tree, outcome: &Outcome) -> Vec<Before> {
    let before = |name: &Spot<String>| match name.value.split_once('/') {
        // A check of another tree, on the way here.
        Some((other, question)) => Before {
            href: address::href(
                &address::tree(&tree.name),
                &format!("{}#{}", address::tree(other), question_anchor(question)),
            ),
            title: question.replace('-', " "),
        },
        None => Before {
            href: format!("#{}", question_anchor(&name.value)),
            title: match number_of(press, tree, &name.value) {
                Some(number) => format!("{number} {}", name.value.replace('-', " ")),
                None => name.value.replace('-', " "),
            },
        },
    };
    outcome.only_after.iter().map(before).collect()
}

/// The lessons a tree sends to.
fn stands_on(press: &Press<'_>, tree: &Tree) -> Vec<String> {
    let links = tree.links.values().flatten();
    let lessons = links.filter_map(|link| match Target::of(link) {
        Some(Target::Lesson(name)) => press.register.lessons.get(&name).map(|place| (place.page.order, name)),
        _ => None,
    });
    let sorted: std::collections::BTreeSet<_> = lessons.collect();
    sorted.into_iter().map(|(_, name)| name).collect()
}
