//! `trees/*.yaml`: questions, answers and outcomes.

use super::link;
use super::yaml::{self, Named, Places, Text};
use crate::handbook::{
    Answer, Case, FileId, Finding, Handbook, Link, Outcome, Query, Question, Reading, Scheme, Span, Spot, Tree, WorkOut,
};
use serde::Deserialize;
use std::collections::BTreeMap;

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawTree {
    title: Text,
    #[serde(default)]
    purpose: Option<Text>,
    #[serde(default)]
    stands_alone: Option<bool>,
    #[serde(default)]
    readings: Vec<RawReading>,
    start: Text,
    questions: Named<RawQuestion>,
    outcomes: Named<RawOutcome>,
    #[serde(default)]
    cases: Named<RawCase>,
}

/// `suction pressure`, or `condensing over ambient: temperature difference` where the name does not tell the quantity.
#[derive(Deserialize)]
#[serde(untagged, expecting = "a reading's name, or a name with its quantity after a colon")]
enum RawReading {
    Name(Text),
    Quantity(Named<Text>),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawQuestion {
    ask: Text,
    #[serde(default)]
    measure: Option<Text>,
    #[serde(default)]
    work_out: Option<Text>,
    #[serde(default)]
    of: Named<Text>,
    #[serde(default)]
    choices: Vec<Text>,
    #[serde(default)]
    because: Option<Text>,
    #[serde(default)]
    how: Option<Text>,
    #[serde(default)]
    caution: Option<Text>,
    #[serde(default)]
    lesson: Option<Text>,
    answers: Vec<RawAnswer>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawAnswer {
    when: Text,
    go: Text,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawOutcome {
    say: Text,
    #[serde(default)]
    record: Option<Text>,
    #[serde(default)]
    caution: Option<Text>,
    #[serde(default)]
    only_after: Vec<Text>,
    #[serde(default)]
    condemns: Option<Text>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawCase {
    #[serde(default)]
    is: Option<Text>,
    #[serde(default)]
    like: Option<Text>,
    #[serde(default)]
    readings: Named<Text>,
    #[serde(default)]
    answers: Named<OneOrMore>,
    ends: Text,
}

/// An answer, or the answers to a question that is come to more than once.
#[derive(Deserialize)]
#[serde(untagged, expecting = "an answer, or a list of the answers given one time after another")]
enum OneOrMore {
    One(Text),
    More(Vec<Text>),
}

pub(super) fn read(id: FileId, path: &str, text: &str, book: &mut Handbook, findings: &mut Vec<Finding>) {
    let at = Span { file: id, start: 0, end: text.len() };
    let name = path.rsplit('/').next().unwrap_or(path);
    let name = name.rsplit_once('.').map_or(name, |(stem, _)| stem).to_owned();
    let (raw, places) = match yaml::read::<RawTree>(text, at) {
        Ok(read) => read,
        Err(finding) => return findings.push(*finding),
    };
    let mut links = BTreeMap::new();
    let mut texts = Texts { places: &places, text, links: &mut links };
    let questions = raw.questions.0.iter().map(|(name, question)| texts.question(name, question)).collect();
    let outcomes = raw.outcomes.0.iter().map(|(name, outcome)| texts.outcome(name, outcome)).collect();
    let cases = raw.cases.0.iter().map(|(name, raw)| case(&places, name, raw)).collect();
    let tree = Tree {
        at,
        title: places.spot(&["title"], &raw.title),
        purpose: raw.purpose.map(|t| t.0),
        stands_alone: raw.stands_alone.unwrap_or(true),
        readings: raw.readings.iter().enumerate().flat_map(|(i, r)| readings(&places, i, r)).collect(),
        start: places.spot(&["start"], &raw.start),
        questions,
        outcomes,
        cases,
        links,
        name: name.clone(),
    };
    book.trees.insert(name, tree);
}

/// Entry `i` of `readings:`; an entry with quantities may hold several.
fn readings(places: &Places, i: usize, raw: &RawReading) -> Vec<Reading> {
    let i = i.to_string();
    match raw {
        RawReading::Name(name) => vec![Reading { name: places.spot(&["readings", &i], name), quantity: None }],
        RawReading::Quantity(entries) => entries
            .0
            .iter()
            .map(|(name, quantity)| Reading {
                name: places.key_spot(&["readings", &i, name]),
                quantity: Some(places.spot(&["readings", &i, name], quantity)),
            })
            .collect(),
    }
}

fn case(places: &Places, name: &str, raw: &RawCase) -> Case {
    let spot = |key: &str, text: &Text| places.spot(&["cases", name, key], text);
    let readings = raw.readings.0.iter().map(|(reading, text)| {
        let path = ["cases", name, "readings", reading];
        (places.key_spot(&path), places.spot(&path, text))
    });
    let answers = raw.answers.0.iter().map(|(question, texts)| {
        let path = ["cases", name, "answers", question];
        let texts = match texts {
            OneOrMore::One(text) => vec![places.spot(&path, text)],
            OneOrMore::More(texts) => texts
                .iter()
                .enumerate()
                .map(|(i, text)| places.spot(&["cases", name, "answers", question, &i.to_string()], text))
                .collect(),
        };
        (places.key_spot(&path), texts)
    });
    Case {
        name: places.key_spot(&["cases", name]),
        is: raw.is.as_ref().map(|text| Spot::new(text.0.clone(), places.at(&["cases", name, "is"]))),
        like: raw.like.as_ref().map(|text| spot("like", text)),
        readings: readings.collect(),
        answers: answers.collect(),
        ends: spot("ends", &raw.ends),
    }
}

/// Reads texts and keeps the links in them.
struct Texts<'a> {
    places: &'a Places,
    text: &'a str,
    links: &'a mut BTreeMap<Span, Vec<Link>>,
}

impl Texts<'_> {
    fn question(&mut self, name: &str, raw: &RawQuestion) -> Question {
        let base = ["questions", name];
        let answers = raw
            .answers
            .iter()
            .enumerate()
            .map(|(i, answer)| {
                let n = i.to_string();
                let spot = |key, text| self.places.spot(&["questions", name, "answers", &n, key], text);
                Answer { when: spot("when", &answer.when), go: spot("go", &answer.go) }
            })
            .collect();
        let choices = raw
            .choices
            .iter()
            .enumerate()
            .map(|(i, choice)| self.places.spot(&["questions", name, "choices", &i.to_string()], choice))
            .collect();
        Question {
            name: self.places.key_spot(&base),
            ask: self.linked(&["questions", name, "ask"], &raw.ask),
            measure: raw.measure.as_ref().map(|t| self.places.spot(&["questions", name, "measure"], t)),
            work_out: raw.work_out.as_ref().map(|computation| self.work_out(name, computation, &raw.of)),
            choices,
            because: raw.because.as_ref().map(|t| self.linked(&["questions", name, "because"], t)),
            how: raw.how.as_ref().map(|t| self.linked(&["questions", name, "how"], t)),
            caution: raw.caution.as_ref().map(|t| self.linked(&["questions", name, "caution"], t)),
            lesson: raw.lesson.as_ref().map(|t| self.lesson(&["questions", name, "lesson"], t)),
            answers,
        }
    }

    fn work_out(&self, question: &str, computation: &Text, of: &Named<Text>) -> WorkOut {
        let of = of.0.iter().map(|(input, reading)| {
            let path = ["questions", question, "of", input];
            (self.places.key_spot(&path), self.places.spot(&path, reading))
        });
        WorkOut { computation: self.places.spot(&["questions", question, "work-out"], computation), of: of.collect() }
    }

    fn outcome(&mut self, name: &str, raw: &RawOutcome) -> Outcome {
        Outcome {
            name: self.places.key_spot(&["outcomes", name]),
            say: self.linked(&["outcomes", name, "say"], &raw.say),
            record: raw.record.as_ref().map(|t| self.linked(&["outcomes", name, "record"], t)),
            caution: raw.caution.as_ref().map(|t| self.linked(&["outcomes", name, "caution"], t)),
            only_after: raw
                .only_after
                .iter()
                .enumerate()
                .map(|(i, check)| self.places.spot(&["outcomes", name, "only-after", &i.to_string()], check))
                .collect(),
            condemns: raw.condemns.as_ref().map(|t| self.places.spot(&["outcomes", name, "condemns"], t)),
        }
    }

    /// A lesson named by itself is a link like those in texts: it is followed at proofing, and the tree stands on it.
    fn lesson(&mut self, path: &[&str], name: &Text) -> Spot<String> {
        let spot = self.places.spot(path, name);
        let link = Link {
            at: spot.at,
            scheme: Scheme::Lesson,
            to: spot.clone(),
            query: Query::new(),
            text: Spot::new(String::new(), spot.at),
        };
        self.links.insert(spot.at, vec![link]);
        spot
    }

    fn linked(&mut self, path: &[&str], text: &Text) -> Spot<String> {
        let at = self.places.at(path);
        let links = link::links_of_scalar(&text.0, &self.text[at.start..at.end], at);
        if !links.is_empty() {
            self.links.insert(at, links);
        }
        Spot::new(text.0.clone(), at)
    }
}
