//! Where an answer leads: its `go:` looked up among the steps of its tree and the trees of the handbook.

use crate::handbook::{Handbook, Outcome, Question, Tree};
use crate::quantity::nearest;

/// What `go:` begins with where it leads to another tree.
const OTHER_TREE: &str = "tree:";

/// Where an answer leads.
#[derive(Clone, Copy, Debug)]
pub(super) enum Lead<'a> {
    /// To a question of the same tree.
    Question(&'a Question),
    /// To an outcome of the same tree.
    Outcome(&'a Outcome),
    /// To the beginning of another tree, and not back.
    Tree(&'a Tree),
    /// To nothing that there is.
    Nowhere,
}

/// Where `go`, written in `tree`, leads.
pub(super) fn follow<'a>(book: &'a Handbook, tree: &'a Tree, go: &str) -> Lead<'a> {
    if let Some(name) = go.strip_prefix(OTHER_TREE) {
        return book.trees.get(name.trim()).map_or(Lead::Nowhere, Lead::Tree);
    }
    if let Some(question) = tree.question(go) {
        return Lead::Question(question);
    }
    tree.outcome(go).map_or(Lead::Nowhere, Lead::Outcome)
}

/// What the author of a `go` that leads nowhere may have meant, as it would be written.
pub(super) fn meant(book: &Handbook, tree: &Tree, go: &str) -> Option<String> {
    if let Some(name) = go.strip_prefix(OTHER_TREE) {
        return nearest(name.trim(), book.trees.keys().map(String::as_str)).map(|name| format!("{OTHER_TREE}{name}"));
    }
    if book.trees.contains_key(go) && go != tree.name {
        return Some(format!("{OTHER_TREE}{go}"));
    }
    nearest(go, step_names(tree)).map(str::to_owned)
}

/// Names of the questions and then of the outcomes of a tree.
pub(super) fn step_names(tree: &Tree) -> impl Iterator<Item = &str> {
    let questions = tree.questions.iter().map(|question| question.name.value.as_str());
    questions.chain(tree.outcomes.iter().map(|outcome| outcome.name.value.as_str()))
}
