//! The proofs against a second way of doing them: every way through small random trees walked out, one by one.
//!
//! Nothing here uses the map of ways, its dominators or its floods; only `go:` looked up in the text it was made from.

use super::interval::Figures;
use super::walk::End;
use super::ways::Ways;
use super::{Proved, StepKind, WayCount, examine};
use crate::handbook::{Answer, Case, FileId, Handbook, Outcome, Question, Reading, Span, Spot, Tree};
use crate::quantity::Pressure;
use crate::trade::Surroundings;
use proptest::collection::vec;
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// The proofs with no standing value and no refrigerant.
fn examine_bare(book: &Handbook) -> Proved {
    examine(book, &BTreeMap::new(), &BTreeMap::new(), &Surroundings::default(), Pressure::STANDARD_ATMOSPHERE)
}

/// A step by tree and name.
type Name = (String, String);

/// Two small trees; a lead is a number that wraps round the steps of its tree and the other tree.
#[derive(Clone, Debug)]
struct Sketch {
    trees: Vec<TreeSketch>,
}

#[derive(Clone, Debug)]
struct TreeSketch {
    /// By question, the leads of its answers.
    questions: Vec<Vec<usize>>,
    /// By outcome, the questions it is only after; those past the tree's own are the other tree's.
    outcomes: Vec<Vec<usize>>,
    leads_across: bool,
    stands_alone: bool,
}

fn sketch() -> impl Strategy<Value = Sketch> {
    let tree = (vec(vec(0..100usize, 1..4), 1..6), vec(vec(0..8usize, 0..3), 1..4), any::<bool>(), any::<bool>())
        .prop_map(|(questions, outcomes, leads_across, stands_alone)| TreeSketch {
            questions,
            outcomes,
            leads_across,
            stands_alone,
        });
    (tree.clone(), tree).prop_map(|(mut first, second)| {
        first.stands_alone = true;
        Sketch { trees: vec![first, second] }
    })
}

/// Every spot a place of its own, so that findings can be told apart.
struct Places {
    next: usize,
}

impl Places {
    fn spot(&mut self, value: impl Into<String>) -> Spot<String> {
        self.next += 1;
        Spot::new(value.into(), Span { file: FileId(0), start: self.next * 10, end: self.next * 10 + 5 })
    }
}

impl Sketch {
    fn book(&self) -> Handbook {
        let mut places = Places { next: 0 };
        let mut book = Handbook::default();
        for number in 0..self.trees.len() {
            let tree = self.tree(number, &mut places);
            book.trees.insert(tree.name.clone(), tree);
        }
        book
    }

    fn tree(&self, number: usize, places: &mut Places) -> Tree {
        let tree = &self.trees[number];
        let go = |lead: usize| {
            let (questions, outcomes) = (tree.questions.len(), tree.outcomes.len());
            match lead % (questions + outcomes + usize::from(tree.leads_across)) {
                n if n < questions => format!("q{number}-{n}"),
                n if n < questions + outcomes => format!("o{number}-{}", n - questions),
                _ => format!("tree:t{}", 1 - number),
            }
        };
        let mut questions = Vec::new();
        for (n, leads) in tree.questions.iter().enumerate() {
            let words: Vec<String> = (0..leads.len()).map(|n| format!("answer {n}")).collect();
            questions.push(Question {
                name: places.spot(format!("q{number}-{n}")),
                ask: places.spot(format!("Question {n}?")),
                measure: None,
                work_out: None,
                choices: words.iter().map(|word| places.spot(word)).collect(),
                because: None,
                how: None,
                caution: None,
                lesson: None,
                answers: leads
                    .iter()
                    .zip(&words)
                    .map(|(lead, word)| Answer { when: places.spot(word), go: places.spot(go(*lead)) })
                    .collect(),
            });
        }
        let mut outcomes = Vec::new();
        for (n, only_after) in tree.outcomes.iter().enumerate() {
            let check = |n: &usize| match n % (tree.questions.len() + 1) {
                n if n < tree.questions.len() => format!("q{number}-{n}"),
                _ => format!("q{}-0", 1 - number),
            };
            outcomes.push(Outcome {
                name: places.spot(format!("o{number}-{n}")),
                say: places.spot("Do this."),
                record: None,
                caution: None,
                only_after: only_after.iter().map(|n| places.spot(check(n))).collect(),
                condemns: None,
            });
        }
        Tree {
            name: format!("t{number}"),
            at: Span::default(),
            title: places.spot("A symptom"),
            purpose: None,
            stands_alone: tree.stands_alone,
            readings: Vec::new(),
            start: places.spot(format!("q{number}-0")),
            questions,
            outcomes,
            cases: Vec::new(),
            links: BTreeMap::new(),
        }
    }
}

/// The steps that the answers of a step lead to.
fn leads(book: &Handbook, (tree, step): &Name) -> Vec<Name> {
    let Some(question) = book.trees[tree].question(step) else { return Vec::new() };
    question
        .answers
        .iter()
        .map(|answer| match answer.go.value.strip_prefix("tree:") {
            Some(other) => (other.to_owned(), book.trees[other].start.value.clone()),
            None => (tree.clone(), answer.go.value.clone()),
        })
        .collect()
}

/// Walks every way on from the last step of `way` that passes no step twice, and shows each to `seen`.
fn walk(book: &Handbook, way: &mut Vec<Name>, seen: &mut impl FnMut(&[Name])) {
    seen(way);
    for next in leads(book, &way[way.len() - 1]) {
        if !way.contains(&next) {
            way.push(next);
            walk(book, way, seen);
            way.pop();
        }
    }
}

fn is_outcome(step: &Name) -> bool {
    step.1.starts_with('o')
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn the_proofs_agree_with_every_way_walked_out(sketch in sketch()) {
        let book = sketch.book();
        let proved = examine_bare(&book);
        let found = |name: &str| proved.findings.iter().filter(|f| f.name == name).collect::<Vec<_>>();

        // What is asked on every way to each step, from whatever tree can be begun with.
        let mut always: BTreeMap<Name, BTreeSet<Name>> = BTreeMap::new();
        let mut skipping: BTreeSet<(Name, String)> = BTreeSet::new();
        for tree in book.trees.values().filter(|tree| tree.stands_alone) {
            let mut way = vec![(tree.name.clone(), tree.start.value.clone())];
            walk(&book, &mut way, &mut |way| {
                let (last, before) = way.split_last().unwrap();
                let asked: BTreeSet<Name> = before.iter().cloned().collect();
                always
                    .entry(last.clone())
                    .and_modify(|always| *always = always.intersection(&asked).cloned().collect())
                    .or_insert_with(|| asked.clone());
                if let Some(outcome) = book.trees[&last.0].outcome(&last.1) {
                    for check in &outcome.only_after {
                        if !asked.iter().any(|(_, name)| *name == check.value) {
                            skipping.insert((last.clone(), check.value.clone()));
                        }
                    }
                }
            });
        }
        for (tree, proof) in &proved.trees {
            for step in &proof.steps {
                let Some(always) = always.get(&(tree.clone(), step.name.clone())) else { continue };
                let proved: BTreeSet<Name> = step.always_asked.iter().map(|name| match name.split_once('/') {
                    Some((tree, name)) => (tree.to_owned(), name.to_owned()),
                    None => (tree.clone(), name.clone()),
                }).collect();
                prop_assert_eq!(&proved, always, "before {} of {}", step.name, tree);
            }
        }

        // Checks that some way leaves out: of those that could be asked at all.
        let unknown: BTreeSet<Span> = found("check-not-known").iter().map(|f| f.at).collect();
        let mut expected: BTreeSet<Span> = BTreeSet::new();
        for ((tree, outcome), check) in &skipping {
            let outcome = book.trees[tree].outcome(outcome).unwrap();
            expected.extend(outcome.only_after.iter().filter(|c| c.value == *check).map(|c| c.at));
        }
        let expected: BTreeSet<Span> = expected.difference(&unknown).copied().collect();
        let skipped: BTreeSet<Span> = found("check-skipped").iter().map(|f| f.at).collect();
        prop_assert_eq!(skipped, expected);

        for tree in book.trees.values() {
            let mut reached: BTreeSet<Name> = BTreeSet::new();
            let (mut ways, mut on_the_way) = (0, Vec::new());
            let start = (tree.name.clone(), tree.start.value.clone());
            on_the_way.push(start.clone());
            walk(&book, &mut on_the_way, &mut |way| { reached.insert(way[way.len() - 1].clone()); });

            // Out of reach, told or named behind what is told.
            let names = tree.questions.iter().map(|q| &q.name).chain(tree.outcomes.iter().map(|o| &o.name));
            let missed: BTreeSet<&str> =
                names.filter(|name| !reached.contains(&(tree.name.clone(), name.value.clone()))).map(|n| n.value.as_str()).collect();
            let number = tree.name.trim_start_matches('t');
            let told: String = found("not-reached").iter().map(|f| format!("{} {} ", f.says, f.found.join(" "))).collect();
            let told: BTreeSet<&str> =
                told.split('`').skip(1).step_by(2).filter(|n| n[1..].starts_with(number)).collect();
            prop_assert_eq!(told, missed);

            // Ways to an outcome, or out of the tree.
            count(&book, &tree.name, &mut vec![start], &mut ways);
            prop_assert_eq!(proved.trees[&tree.name].ways, WayCount::Exactly(ways));

            // In reading order every lead goes forward, unless it closes a circle.
            let order: Vec<&str> = proved.trees[&tree.name].steps.iter().map(|step| step.name.as_str()).collect();
            for (at, step) in order.iter().enumerate() {
                for (_, next) in leads(&book, &(tree.name.clone(), (*step).to_owned())).iter().filter(|(t, _)| *t == tree.name) {
                    let back = order.iter().position(|name| name == next).unwrap();
                    let mut round = false;
                    walk(&book, &mut vec![(tree.name.clone(), next.clone())], &mut |way| {
                        round |= way[way.len() - 1].1 == *step && way.iter().all(|(t, _)| *t == tree.name);
                    });
                    prop_assert!(back > at || round, "{step} leads back to {next}");
                }
            }
            for step in &proved.trees[&tree.name].steps {
                prop_assert_eq!(matches!(step.step, StepKind::Outcome), step.name.starts_with('o'));
            }
        }

        // Somewhere to go in circles for good, if and only if some step in reach has no outcome in reach.
        let mut trapped = false;
        for step in always.keys() {
            let mut ends = false;
            walk(&book, &mut vec![step.clone()], &mut |way| ends |= is_outcome(&way[way.len() - 1]));
            trapped |= !ends;
        }
        prop_assert_eq!(!found("circle-without-way-out").is_empty(), trapped);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// A case that gives the answers of some way is walked along that way, through one tree or two.
    #[test]
    fn a_case_walks_the_way_its_answers_give(sketch in sketch()) {
        let book = sketch.book();
        let ways = Ways::draw(&book);
        let (values, roster, around) = (BTreeMap::new(), BTreeMap::new(), Surroundings::default());
        let air = Pressure::STANDARD_ATMOSPHERE;
        let figures = Figures { book: &book, values: &values, air, roster: &roster, around: &around };
        for tree in book.trees.values() {
            let mut walked: Vec<Vec<Name>> = Vec::new();
            let start = (tree.name.clone(), tree.start.value.clone());
            walk(&book, &mut vec![start], &mut |way| {
                if is_outcome(&way[way.len() - 1]) {
                    walked.push(way.to_vec());
                }
            });
            for way in walked {
                let spot = |text: String| Spot::new(text, Span::default());
                let answers = way.windows(2).map(|pair| {
                    let number = leads(&book, &pair[0]).iter().position(|next| *next == pair[1]).unwrap();
                    (spot(format!("{}/{}", pair[0].0, pair[0].1)), vec![spot(format!("answer {number}"))])
                });
                let case = Case {
                    name: spot("a case".to_owned()),
                    is: None,
                    like: None,
                    readings: Vec::new(),
                    answers: answers.collect(),
                    ends: spot(way[way.len() - 1].1.clone()),
                };
                let went = super::walk::walk(&ways, figures, tree, &case).unwrap();
                let steps: Vec<Name> = went
                    .way
                    .iter()
                    .map(|(step, _)| (ways.at(*step).tree().unwrap().name.clone(), ways.at(*step).name().to_owned()))
                    .collect();
                prop_assert!(matches!(went.end, End::Outcome(_)), "{:?}", went.end);
                prop_assert_eq!(steps, way);
            }
        }
    }
}

/// Counts the ways on that end at an outcome or leave the tree, answer by answer, asking nothing twice.
fn count(book: &Handbook, tree: &str, way: &mut Vec<Name>, ways: &mut u64) {
    for next in leads(book, &way[way.len() - 1]) {
        if next.0 != tree || is_outcome(&next) {
            *ways += 1;
        } else if !way.contains(&next) {
            way.push(next);
            count(book, tree, way, ways);
            way.pop();
        }
    }
}

/// Words that authors write, and others.
fn anything() -> impl Strategy<Value = String> {
    let words = [
        "",
        "q0-0",
        "o0-0",
        "tree:",
        "tree:t0",
        "tree:t1",
        "yes",
        "below",
        "below ",
        "above 3 °F",
        "8 to 18 °F",
        "value:",
        "within value:x",
        "below value:x",
        " to ",
        "value:x to 3 °F",
        "superheat",
        "temperature",
        "pressure",
        "below -5 psia",
        "–",
        "below 99999999999999999999 °F",
        "<",
        "above 0 K",
        "1/0 in to 2 in",
    ];
    prop_oneof![
        4 => proptest::sample::select(words.to_vec()).prop_map(str::to_owned),
        1 => proptest::char::any().prop_map(String::from),
        1 => vec(any::<char>(), 0..12).prop_map(String::from_iter),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn no_tree_whatever_brings_the_proofs_down(
        sketch in sketch(),
        words in vec(anything(), 60),
        keep in vec(any::<bool>(), 60),
    ) {
        let mut book = sketch.book();
        let mut words = words.into_iter().zip(keep).cycle();
        let mut change = |spot: &mut Spot<String>| {
            if let Some((word, false)) = words.next() {
                spot.value = word;
            }
        };
        for tree in book.trees.values_mut() {
            change(&mut tree.start);
            for question in &mut tree.questions {
                change(&mut question.name);
                change(&mut question.ask);
                let mut measure = Spot::default();
                change(&mut measure);
                if !measure.value.is_empty() {
                    question.measure = Some(measure);
                    question.choices.clear();
                }
                question.choices.iter_mut().for_each(&mut change);
                for answer in &mut question.answers {
                    change(&mut answer.when);
                    change(&mut answer.go);
                }
            }
            for outcome in &mut tree.outcomes {
                change(&mut outcome.name);
                outcome.only_after.iter_mut().for_each(&mut change);
                let mut condemns = Spot::default();
                change(&mut condemns);
                outcome.condemns = Some(condemns);
            }
            let mut name = Spot::default();
            change(&mut name);
            tree.readings.push(Reading { name, quantity: None });
        }
        let proved = examine_bare(&book);
        let mut sorted = proved.findings.clone();
        sorted.sort();
        prop_assert_eq!(sorted, proved.findings);
    }
}
