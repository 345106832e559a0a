//! Problems: `practice` blocks, and the sets in `practice/*.yaml`.

use super::link;
use super::supply::{self, RawSupply};
use super::yaml::{self, Named, Places, Text};
use crate::handbook::{FileId, Finding, Handbook, Problem, ProblemSet, ProblemStep, Span};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawProblem {
    name: Text,
    title: Text,
    from: Named<RawSupply>,
    ask: Text,
    #[serde(default)]
    find: Option<Text>,
    #[serde(default)]
    of: Named<Text>,
    #[serde(default)]
    steps: Vec<RawStep>,
    #[serde(default)]
    keep: Option<Text>,
    #[serde(default)]
    within: Option<Text>,
    #[serde(default)]
    say: Option<Text>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawStep {
    find: Text,
    #[serde(default)]
    of: Named<Text>,
    #[serde(default, rename = "as")]
    named: Option<Text>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSet {
    title: Text,
    #[serde(default)]
    lesson: Option<Text>,
    #[serde(default)]
    say: Option<Text>,
    problems: Vec<RawProblem>,
}

/// Reads a `practice` block.
pub(super) fn read_block(inner: &str, at: Span) -> Result<Problem, Box<Finding>> {
    let (raw, places) = yaml::read::<RawProblem>(inner, at)?;
    problem(&raw, &places, &[], inner, at)
}

/// Reads `practice/<set>.yaml`.
pub(super) fn read_set(id: FileId, path: &str, text: &str, book: &mut Handbook, findings: &mut Vec<Finding>) {
    let at = Span { file: id, start: 0, end: text.len() };
    let name = path.rsplit_once('.').map_or(path, |(stem, _)| stem).to_owned();
    let (raw, places) = match yaml::read::<RawSet>(text, at) {
        Ok(read) => read,
        Err(finding) => return findings.push(*finding),
    };
    let mut problems = Vec::with_capacity(raw.problems.len());
    for (i, entry) in raw.problems.iter().enumerate() {
        match problem(entry, &places, &["problems", &i.to_string()], text, at) {
            Ok(problem) => problems.push(problem),
            Err(finding) => findings.push(*finding),
        }
    }
    let (say, say_links) = link::linked(raw.say.as_ref(), &["say"], &places, text, at);
    let set = ProblemSet {
        at,
        title: places.spot(&["title"], &raw.title),
        lesson: raw.lesson.as_ref().map(|lesson| places.spot(&["lesson"], lesson)),
        say,
        say_links,
        problems,
        name: name.clone(),
    };
    book.problem_sets.insert(name, set);
}

/// The problem at `path` of a YAML text `inner`, which stands at `base`.
fn problem(raw: &RawProblem, places: &Places, path: &[&str], inner: &str, base: Span) -> Result<Problem, Box<Finding>> {
    let spot = |key: &'static str, text: &Text| places.spot(&[path, &[key]].concat(), text);
    let steps = match (&raw.find, raw.steps.as_slice()) {
        (Some(find), []) => vec![ProblemStep {
            find: spot("find", find),
            of: supply::renamed(places, &[path, &["of"]].concat(), &raw.of),
            named: None,
        }],
        (None, [_, ..]) => raw
            .steps
            .iter()
            .enumerate()
            .map(|(i, step)| {
                let n = i.to_string();
                let base = [path, &["steps", n.as_str()]].concat();
                ProblemStep {
                    find: places.spot(&[base.as_slice(), &["find"]].concat(), &step.find),
                    of: supply::renamed(places, &[base.as_slice(), &["of"]].concat(), &step.of),
                    named: step.named.as_ref().map(|name| places.spot(&[base.as_slice(), &["as"]].concat(), name)),
                }
            })
            .collect(),
        (Some(_), [_, ..]) | (None, []) => {
            let title = spot("title", &raw.title);
            return Err(Box::new(
                Finding::error("problem-not-read", title.at, format!("`{}` must ask for one thing", title.value))
                    .instead("write `find:` with one computation, or `steps:` of which the last is asked for"),
            ));
        }
    };
    let (say, say_links) = link::linked(raw.say.as_ref(), &[path, &["say"]].concat(), places, inner, base);
    Ok(Problem {
        at: places.at(path),
        name: spot("name", &raw.name),
        title: spot("title", &raw.title),
        from: supply::supplied(places, &[path, &["from"]].concat(), &raw.from),
        ask: crate::handbook::Spot::new(raw.ask.0.clone(), places.at(&[path, &["ask"]].concat())),
        steps,
        keep: raw.keep.as_ref().map(|text| spot("keep", text)),
        within: raw.within.as_ref().map(|text| spot("within", text)),
        say,
        say_links,
    })
}
