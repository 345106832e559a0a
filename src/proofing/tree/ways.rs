//! The trees of a handbook drawn as one map: every question and outcome a step, every answer a lead to the next one.
//!
//! Takes a handbook, gives what can be reached, what is asked on every way to a step, and the shortest way that leaves
//! something out. Says nothing about what is right: the findings beside this file do.
//!
//! A technician comes from outside to a tree that stands alone, at its start. An answer may lead into another tree, at
//! its start too, and not back again; so a way is a run of steps from one of the starts, through as many trees as it
//! crosses.

use super::lead::{self, Lead};
use crate::handbook::{Handbook, Outcome, Question, Tree};
use petgraph::Direction;
use petgraph::algo::dominators::{self, Dominators};
use petgraph::algo::tarjan_scc;
use petgraph::graph::{DiGraph, NodeIndex};
use petgraph::visit::EdgeRef;
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// A question or an outcome, and the tree it stands in.
#[derive(Clone, Copy, Debug)]
pub(super) enum Step<'a> {
    /// Where the technician stands before any tree is begun.
    Outside,
    /// A question.
    Question(&'a Tree, &'a Question),
    /// An outcome.
    Outcome(&'a Tree, &'a Outcome),
}

/// A step of the map.
pub(super) type StepId = NodeIndex;

/// A run of steps from a start; with each question, the number of the answer that was given.
pub(super) type Way = Vec<(StepId, Option<usize>)>;

/// The map.
#[derive(Debug)]
pub(super) struct Ways<'a> {
    /// Steps, and between them the numbers of the answers, from 0; none on a lead from outside.
    graph: DiGraph<Step<'a>, Option<usize>>,
    outside: StepId,
    by_name: BTreeMap<(&'a str, &'a str), StepId>,
    starts: BTreeMap<&'a str, StepId>,
    /// Questions that an answer of theirs leads out of the map, or that have no answer: what lies behind is not known.
    open: BTreeSet<StepId>,
    dominators: Dominators<StepId>,
    /// By tree, the names of its questions and of those of every tree that leads into it.
    asked_before: BTreeMap<&'a str, BTreeSet<&'a str>>,
}

impl<'a> Step<'a> {
    /// The tree it stands in.
    pub(super) fn tree(self) -> Option<&'a Tree> {
        match self {
            Step::Outside => None,
            Step::Question(tree, _) | Step::Outcome(tree, _) => Some(tree),
        }
    }

    /// Its name.
    pub(super) fn name(self) -> &'a str {
        match self {
            Step::Outside => "",
            Step::Question(_, question) => &question.name.value,
            Step::Outcome(_, outcome) => &outcome.name.value,
        }
    }

    /// It, where it is a question.
    pub(super) fn question(self) -> Option<&'a Question> {
        match self {
            Step::Question(_, question) => Some(question),
            _ => None,
        }
    }
}

impl<'a> Ways<'a> {
    /// Draws the map. A `go:` with a slip in it is drawn to what was likely meant, so that one slip is reported once.
    pub(super) fn draw(book: &'a Handbook) -> Self {
        let mut graph = DiGraph::new();
        let outside = graph.add_node(Step::Outside);
        let mut by_name = BTreeMap::new();
        for tree in book.trees.values() {
            // Questions first: where a question and an outcome share a name, a lead goes to the question.
            for question in &tree.questions {
                let key = (tree.name.as_str(), question.name.value.as_str());
                by_name.entry(key).or_insert_with(|| graph.add_node(Step::Question(tree, question)));
            }
            for outcome in &tree.outcomes {
                let key = (tree.name.as_str(), outcome.name.value.as_str());
                by_name.entry(key).or_insert_with(|| graph.add_node(Step::Outcome(tree, outcome)));
            }
        }
        let step = |tree: &'a Tree, name: &str| by_name.get(&(tree.name.as_str(), name)).copied();
        let mut starts = BTreeMap::new();
        for tree in book.trees.values() {
            let named = step(tree, &tree.start.value);
            let meant = || lead::meant(book, tree, &tree.start.value).and_then(|name| step(tree, &name));
            if let Some(start) = named.or_else(meant) {
                starts.insert(tree.name.as_str(), start);
            }
        }
        let mut open = BTreeSet::new();
        for tree in book.trees.values() {
            for question in &tree.questions {
                let Some(from) = step(tree, &question.name.value) else { continue };
                if question.answers.is_empty() {
                    open.insert(from);
                }
                for (number, answer) in question.answers.iter().enumerate() {
                    let target = match lead::follow(book, tree, &answer.go.value) {
                        Lead::Nowhere => lead::meant(book, tree, &answer.go.value)
                            .map_or(Lead::Nowhere, |go| lead::follow(book, tree, &go)),
                        found => found,
                    };
                    let target = match target {
                        Lead::Question(question) => step(tree, &question.name.value),
                        Lead::Outcome(outcome) => step(tree, &outcome.name.value),
                        Lead::Tree(other) => starts.get(other.name.as_str()).copied(),
                        Lead::Nowhere => None,
                    };
                    match target {
                        Some(to) => {
                            graph.add_edge(from, to, Some(number));
                        }
                        None => {
                            open.insert(from);
                        }
                    }
                }
            }
        }
        for tree in book.trees.values().filter(|tree| tree.stands_alone) {
            if let Some(start) = starts.get(tree.name.as_str()) {
                graph.add_edge(outside, *start, None);
            }
        }
        let dominators = dominators::simple_fast(&graph, outside);
        let mut ways = Self { graph, outside, by_name, starts, open, dominators, asked_before: BTreeMap::new() };
        for tree in book.trees.values() {
            let leading_in = ways.start(tree).map(|start| ways.flood([start], Direction::Incoming)).unwrap_or_default();
            let others = leading_in.iter().filter_map(|step| ways.at(*step).question());
            let names = others.chain(&tree.questions).map(|question| question.name.value.as_str()).collect();
            ways.asked_before.insert(&tree.name, names);
        }
        ways
    }

    /// What stands at a step.
    pub(super) fn at(&self, step: StepId) -> Step<'a> {
        self.graph.node_weight(step).copied().unwrap_or(Step::Outside)
    }

    /// The step of that name in that tree.
    pub(super) fn step(&self, tree: &Tree, name: &str) -> Option<StepId> {
        self.by_name.get(&(tree.name.as_str(), name)).copied()
    }

    /// The step at which that tree begins, where its `start:` names one.
    pub(super) fn start(&self, tree: &Tree) -> Option<StepId> {
        self.starts.get(tree.name.as_str()).copied()
    }

    /// Whether what lies behind some step of that tree is not known, so that nothing can be said to be out of reach.
    pub(super) fn has_open_end(&self, tree: &Tree) -> bool {
        self.open.iter().any(|step| self.at(*step).tree().is_some_and(|other| other.name == tree.name))
    }

    /// Where the answers of a step lead, in the author's order.
    pub(super) fn leads(&self, step: StepId) -> Vec<(Option<usize>, StepId)> {
        let mut leads: Vec<_> = self.graph.edges(step).map(|edge| (*edge.weight(), edge.target())).collect();
        leads.sort();
        leads
    }

    /// Everything that can be reached from a step, itself included.
    pub(super) fn reached_from(&self, from: StepId) -> BTreeSet<StepId> {
        self.flood([from], Direction::Outgoing)
    }

    /// Everything that can be reached at all.
    pub(super) fn reached_from_outside(&self) -> BTreeSet<StepId> {
        self.reached_from(self.outside)
    }

    /// The names of the questions that may be asked before a step of that tree: its own, and those of the trees that
    /// lead into it.
    pub(super) fn asked_before(&self, tree: &Tree) -> &BTreeSet<&'a str> {
        static NOTHING: BTreeSet<&str> = BTreeSet::new();
        self.asked_before.get(tree.name.as_str()).unwrap_or(&NOTHING)
    }

    /// Whether `check` names a question that may be asked before a step of that tree.
    pub(super) fn is_asked_before(&self, tree: &Tree, check: &str) -> bool {
        self.asked_before(tree).contains(check)
    }

    /// Every step from which an outcome can be reached, or something that is not known.
    pub(super) fn with_an_end(&self) -> BTreeSet<StepId> {
        let outcomes = self.graph.node_indices().filter(|step| matches!(self.at(*step), Step::Outcome(..)));
        self.flood(outcomes.chain(self.open.iter().copied()), Direction::Incoming)
    }

    fn flood(&self, from: impl IntoIterator<Item = StepId>, along: Direction) -> BTreeSet<StepId> {
        let mut waiting: Vec<StepId> = from.into_iter().collect();
        let mut reached: BTreeSet<StepId> = waiting.iter().copied().collect();
        while let Some(step) = waiting.pop() {
            for next in self.graph.neighbors_directed(step, along) {
                if reached.insert(next) {
                    waiting.push(next);
                }
            }
        }
        reached
    }

    /// The questions asked on every way from outside to a step, in the order they are asked. None where no way leads
    /// there.
    ///
    /// # Source
    /// K. D. Cooper, T. J. Harvey and K. Kennedy, "A Simple, Fast Dominance Algorithm" (2001), as petgraph has it.
    pub(super) fn always_asked(&self, step: StepId) -> Option<Vec<StepId>> {
        let mut asked: Vec<StepId> =
            self.dominators.strict_dominators(step)?.filter(|before| *before != self.outside).collect();
        asked.reverse();
        Some(asked)
    }

    /// The shortest way from outside to a step that passes no question named `check`, in whatever tree; none where
    /// every way passes one. Of several equally short, the one whose answers come first.
    pub(super) fn way_without(&self, check: &str, to: StepId) -> Option<Way> {
        self.shortest(self.outside, to, |step| self.at(step).question().is_some_and(|q| q.name.value == check))
    }

    /// The shortest way from a step back to itself, by way of another step where there is one.
    pub(super) fn round(&self, step: StepId) -> Option<Way> {
        let (straight_back, by_another): (Vec<_>, Vec<_>) =
            self.leads(step).into_iter().partition(|(_, next)| *next == step);
        let mut shortest: Option<Way> = None;
        for (answer, next) in by_another {
            let Some(rest) = self.shortest(next, step, |_| false) else { continue };
            if shortest.as_ref().is_none_or(|way| rest.len() + 1 < way.len()) {
                shortest = Some(std::iter::once((step, answer)).chain(rest).collect());
            }
        }
        shortest.or_else(|| straight_back.first().map(|(answer, _)| vec![(step, *answer), (step, None)]))
    }

    fn shortest(&self, from: StepId, to: StepId, closed: impl Fn(StepId) -> bool) -> Option<Way> {
        let mut came: BTreeMap<StepId, (StepId, Option<usize>)> = BTreeMap::new();
        let mut waiting = VecDeque::from([from]);
        let mut seen = BTreeSet::from([from]);
        while let Some(step) = waiting.pop_front() {
            if step == to {
                let mut way = vec![(to, None)];
                let mut at = to;
                while let Some((before, answer)) = came.get(&at) {
                    way.push((*before, *answer));
                    at = *before;
                }
                way.reverse();
                way.retain(|(step, _)| *step != self.outside);
                return Some(way);
            }
            for (answer, next) in self.leads(step) {
                if !closed(next) && seen.insert(next) {
                    came.insert(next, (step, answer));
                    waiting.push_back(next);
                }
            }
        }
        None
    }

    /// Runs of steps that can all be reached from one another: circles, each in no order.
    pub(super) fn circles(&self) -> Vec<Vec<StepId>> {
        let mut circles = tarjan_scc(&self.graph);
        circles.retain(|steps| match steps.as_slice() {
            [one] => self.graph.contains_edge(*one, *one),
            _ => true,
        });
        circles
    }

    /// The steps that lead to a step.
    pub(super) fn before(&self, step: StepId) -> BTreeSet<StepId> {
        self.graph.neighbors_directed(step, Direction::Incoming).filter(|before| *before != self.outside).collect()
    }
}
