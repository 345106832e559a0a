//! What goes into one step of a working: what it names under `of:`, and what is known above by the inputs' own names.
//! `step-lacks-input`: it needs something that is neither given nor found.

use super::figure::{ALTITUDE, input, not_an_input, wanted};
use super::inputs::Bench;
use crate::handbook::{Finding, Spot};
use crate::quantity::{nearest, plain_words};
use crate::trade::{Computation, Given};
use std::collections::BTreeMap;

/// What is known so far, by plain name.
pub(super) type Known = BTreeMap<String, Given>;

/// A step's inputs, or what it lacks.
pub(super) enum Gathered {
    /// Everything, by plain name of the input.
    Ready(Known),
    /// The input and the name it was to come from.
    Lacks { input: Spot<String>, from: Spot<String> },
    /// A refrigerant that could not be built, which has been told.
    Told,
}

/// Gathers the inputs of a step that asks for `c` at `find`.
pub(super) fn gather(
    bench: Bench<'_>,
    c: &'static Computation,
    find: &Spot<String>,
    of: &[(Spot<String>, Spot<String>)],
    known: &Known,
) -> Result<Gathered, Box<Finding>> {
    let mut inputs = Known::new();
    for (name, from) in of {
        if wanted(c, &name.value).is_none() {
            return Err(Box::new(not_an_input(c, name)));
        }
        match known.get(&plain_words(&from.value)) {
            Some(value) => inputs.insert(plain_words(&name.value), value.clone()),
            // A figure may be written straight into the step.
            None => match input(c, name, from, bench.book, bench.roster) {
                Ok(Some(value)) => inputs.insert(plain_words(&name.value), value),
                Ok(None) => return Ok(Gathered::Told),
                Err(_) => return Ok(Gathered::Lacks { input: name.clone(), from: from.clone() }),
            },
        };
    }
    if let Some(altitude) = known.get(ALTITUDE) {
        inputs.entry(ALTITUDE.to_owned()).or_insert_with(|| altitude.clone());
    }
    for input in c.inputs() {
        let name = plain_words(input.name);
        if inputs.contains_key(&name) {
            continue;
        }
        if let Some(value) = known.get(&name) {
            inputs.insert(name, value.clone());
        } else if input.required() {
            let missing = Spot::new(input.name.to_owned(), find.at);
            return Ok(Gathered::Lacks { input: missing.clone(), from: missing });
        }
    }
    Ok(Gathered::Ready(inputs))
}

/// The finding that a step lacks `from` for its `input`.
pub(super) fn lacking(find: &Spot<String>, input: &Spot<String>, from: &Spot<String>, known: &Known) -> Finding {
    let finding = Finding::error(
        "step-lacks-input",
        from.at,
        format!("`{}` needs `{}`, which is neither given nor found above", find.value, from.value),
    );
    match nearest(&from.value, known.keys().map(String::as_str)) {
        Some(near) => finding.instead(format!("the nearest is `{near}`; write `of: {{{}: {near}}}`", input.value)),
        None => finding.instead(format!("give it above: `{}: …`", from.value)),
    }
}
