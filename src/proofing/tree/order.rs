//! The order in which the questions and outcomes of a tree are set, and how many ways lead through it.

use super::ways::{Step, StepId, Ways};
use crate::handbook::Tree;
use std::collections::{BTreeMap, BTreeSet};

/// How many ways lead from a tree's start to an outcome, or out of it into another tree.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WayCount {
    /// So many, each answer counted, no question asked twice.
    Exactly(u64),
    /// More than it is worth counting: at least so many.
    AtLeast(u64),
}

/// Where counting the ways through a tree with circles stops.
const COUNTED_AT_MOST: u64 = 100_000;

/// The steps of a tree that can be reached from its start, so that every lead goes forward, but for those that close a
/// circle; and what lies behind a question's first answer comes before what lies behind its second.
pub(super) fn reading_order(ways: &Ways, tree: &Tree) -> Vec<StepId> {
    let Some(start) = ways.start(tree) else { return Vec::new() };
    // Depth first, last answer first, each step noted when all behind it are; the notes turned round.
    let mut noted: Vec<StepId> = Vec::new();
    let mut seen = BTreeSet::from([start]);
    let mut open: Vec<(StepId, Vec<StepId>)> = vec![(start, own_leads(ways, tree, start))];
    while let Some((step, leads)) = open.last_mut() {
        match leads.pop() {
            Some(next) => {
                if seen.insert(next) {
                    open.push((next, own_leads(ways, tree, next)));
                }
            }
            None => {
                noted.push(*step);
                open.pop();
            }
        }
    }
    noted.reverse();
    noted
}

/// Counts the ways through a tree.
pub(super) fn count(ways: &Ways, tree: &Tree) -> WayCount {
    let order = reading_order(ways, tree);
    let place: BTreeMap<StepId, usize> = order.iter().enumerate().map(|(at, step)| (*step, at)).collect();
    let goes_back = |step: &StepId, at: usize| {
        own_leads(ways, tree, *step).iter().any(|next| place.get(next).is_some_and(|next| *next <= at))
    };
    if order.iter().enumerate().any(|(at, step)| goes_back(step, at)) {
        return count_one_by_one(ways, tree);
    }
    // No circles: the ways from a step are those from where its answers lead, taken together.
    let mut from: BTreeMap<StepId, u64> = BTreeMap::new();
    for step in order.iter().rev() {
        let leads = ways.leads(*step);
        let sum = leads.iter().map(|(_, next)| match from.get(next) {
            Some(ways) => *ways,
            // Into another tree.
            None => 1,
        });
        let sum = sum.fold(0u64, u64::saturating_add);
        from.insert(*step, if matches!(ways.at(*step), Step::Outcome(..)) { 1 } else { sum });
    }
    match order.first().and_then(|start| from.get(start)) {
        Some(&u64::MAX) => WayCount::AtLeast(u64::MAX),
        Some(ways) => WayCount::Exactly(*ways),
        None => WayCount::Exactly(0),
    }
}

fn count_one_by_one(ways: &Ways, tree: &Tree) -> WayCount {
    let Some(start) = ways.start(tree) else { return WayCount::Exactly(0) };
    let (mut found, mut steps) = (0u64, 0u64);
    let mut walked: Vec<(StepId, Vec<StepId>)> = vec![(start, all_leads(ways, start))];
    let mut on_the_way = BTreeSet::from([start]);
    while let Some((step, leads)) = walked.last_mut() {
        let step = *step;
        let Some(next) = leads.pop() else {
            on_the_way.remove(&step);
            walked.pop();
            continue;
        };
        steps += 1;
        if found >= COUNTED_AT_MOST || steps >= 10 * COUNTED_AT_MOST {
            return WayCount::AtLeast(found);
        }
        let at = ways.at(next);
        if matches!(at, Step::Outcome(..)) || at.tree().is_some_and(|other| other.name != tree.name) {
            found += 1;
        } else if on_the_way.insert(next) {
            walked.push((next, all_leads(ways, next)));
        }
    }
    WayCount::Exactly(found)
}

fn all_leads(ways: &Ways, step: StepId) -> Vec<StepId> {
    ways.leads(step).into_iter().map(|(_, next)| next).collect()
}

/// Where the answers of a step lead within its tree. The beginning of the tree itself may be come to from within.
fn own_leads(ways: &Ways, tree: &Tree, step: StepId) -> Vec<StepId> {
    let own = |next: &StepId| ways.at(*next).tree().is_some_and(|other| other.name == tree.name);
    all_leads(ways, step).into_iter().filter(own).collect()
}
