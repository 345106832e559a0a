//! `coldpress reckon NAME INPUT=VALUE …`: one computation of the catalogue at the shell, with its working.

use super::arguments::Sum;
use super::roster::roster;
use super::rows::rows;
use super::{Failure, Outcome, each, say};
use crate::fluid::Refrigerant;
use crate::quantity::{Kind, System, nearest, plain_words, read};
use crate::trade::{self, Computation, Given, InputKind, Need, Surroundings, Worked};
use std::collections::BTreeMap;
use std::fmt::Write;

/// Does what `reckon` was asked for.
///
/// # Errors
/// Wrong usage where a name or a figure can't be read, or the computation has no answer for these figures; the machine,
/// where the handbook's folder can't be read.
pub(super) fn reckon(sum: &Sum) -> Result<Outcome, Failure> {
    if sum.list {
        say(&list_text());
        return Ok(Outcome::Fine);
    }
    if let Some(file) = &sum.each {
        return each::each(sum, file);
    }
    if let Some(file) = &sum.rows {
        return rows(file, sum.handbook.as_deref());
    }
    let name = sum.name.as_deref().unwrap_or_default();
    let computation = trade::require(name)
        .map_err(|error| Failure::usage(format!("{error}\n`coldpress reckon --list` names all there are")))?;
    if sum.explain {
        say(&at_a_shell(&explain_text(computation)));
        return Ok(Outcome::Fine);
    }
    let roster = roster(sum.handbook.as_deref(), sum.counted_from)?;
    let mut given = BTreeMap::new();
    for pair in &sum.given {
        let (name, value) = input(computation, pair, &roster)?;
        given.insert(name, value);
    }
    let worked = trade::reckon(computation, &given, &Surroundings::default())
        .map_err(|error| Failure::usage(error.to_string()))?;
    say(&at_a_shell(&working_text(&worked)));
    Ok(Outcome::Fine)
}

/// Reads `name=value`.
pub(super) fn input(
    computation: &'static Computation,
    pair: &str,
    roster: &BTreeMap<String, Refrigerant>,
) -> Result<(String, Given), Failure> {
    let (name, value) = pair.split_once('=').ok_or_else(|| {
        Failure::usage(format!(
            "`{pair}` gives no value; write an input as `name=value`, \"suction pressure=118 psig\""
        ))
    })?;
    let wanted = computation.input(name).map(|input| input.kind);
    let given = match wanted {
        Some(InputKind::Refrigerant) => Given::Refrigerant(refrigerant(value.trim(), roster)?),
        Some(InputKind::Quantity(kind)) => Given::Written(figure(name, value, kind)?),
        None if plain_words(name) == "altitude" => Given::Written(figure(name, value, Kind::Length)?),
        None => {
            let names: Vec<&str> = computation.inputs().iter().map(|input| input.name).collect();
            let near = nearest(name, names.iter().copied())
                .map_or_else(String::new, |near| format!("; the nearest is `{near}`"));
            return Err(Failure::usage(format!(
                "{} takes no `{name}`{near}\nit takes {}",
                computation.name,
                names.join(", ")
            )));
        }
    };
    Ok((plain_words(name), given))
}

fn figure(name: &str, value: &str, kind: Kind) -> Result<crate::quantity::Written, Failure> {
    read(value, Some(kind)).map_err(|error| Failure::usage(format!("{}: {error}", plain_words(name))))
}

fn refrigerant(name: &str, roster: &BTreeMap<String, Refrigerant>) -> Result<Refrigerant, Failure> {
    known(name, roster).map_err(|says| {
        Failure::usage(format!(
            "{says}\na handbook's own are known with `--with DIR`; these come with the program: {}",
            roster.keys().cloned().collect::<Vec<_>>().join(", ")
        ))
    })
}

/// The refrigerant of this designation, or that there is none, with the nearest.
pub(super) fn known(name: &str, roster: &BTreeMap<String, Refrigerant>) -> Result<Refrigerant, String> {
    if let Some(found) = roster.get(name) {
        return Ok(found.clone());
    }
    let near = nearest(name, roster.keys().map(String::as_str));
    let near = near.map_or_else(String::new, |near| format!("; the nearest is `{near}`"));
    Err(format!("there is no refrigerant `{name}`{near}"))
}

/// `text` with ordinary spaces for those that hold a number to its unit on a page, so that it can be searched and copied.
pub(super) fn at_a_shell(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

/// The answer in both systems of units, what it came from, and the working.
fn working_text(worked: &Worked) -> String {
    let mut text = String::new();
    let answer = worked.computation.answer.name;
    let _ = writeln!(text, "{answer}: {}   ({})", worked.answer_text(System::Us), worked.answer_text(System::Si));
    for note in &worked.notes {
        let _ = writeln!(text, "note: {note}");
    }
    let _ = writeln!(text, "\ngiven");
    let rows: Vec<(&str, String, String)> = worked
        .inputs
        .iter()
        .map(|input| (input.name, input.text(System::Us, worked.air), input.text(System::Si, worked.air)))
        .collect();
    let names = rows.iter().map(|row| row.0.chars().count()).max().unwrap_or(0);
    let figures = rows.iter().map(|row| row.1.chars().count()).max().unwrap_or(0);
    for (name, us, si) in rows {
        let si = if us == si { String::new() } else { si };
        let _ = writeln!(text, "{}", format!("  {name:names$}   {us:figures$}   {si}").trim_end());
    }
    let _ = writeln!(text, "\nworking");
    for line in worked.lines(System::Us) {
        let _ = writeln!(text, "  {}", line.text);
    }
    let _ = writeln!(text, "\nsource\n  {}", worked.source_text());
    text.trim_end().to_owned()
}

/// Every computation by group: name and title.
fn list_text() -> String {
    let mut text = String::new();
    let mut groups: Vec<trade::Group> = trade::catalogue().iter().map(|c| c.group).collect();
    groups.sort_unstable();
    groups.dedup();
    let width = trade::catalogue().iter().map(|c| c.name.len()).max().unwrap_or(0);
    for group in groups {
        let _ = writeln!(text, "{}", group.title());
        for c in trade::catalogue().iter().filter(|c| c.group == group) {
            let _ = writeln!(text, "  {:width$}   {}", c.name, c.title);
        }
        text.push('\n');
    }
    text.push_str("coldpress reckon NAME --explain says what one takes, its formula and its source");
    text
}

/// What a computation takes, its formula and its source.
fn explain_text(c: &Computation) -> String {
    let mut text = format!("{}\n{}\n\ntakes\n", c.title, c.purpose);
    let width = c.inputs().iter().map(|input| input.name.chars().count()).max().unwrap_or(0);
    for input in c.inputs() {
        let kind = match input.kind {
            InputKind::Refrigerant => "refrigerant, as `R-410A`".to_owned(),
            InputKind::Quantity(kind) => format!("{}, as `{}`", kind.name(), kind.sample()),
        };
        let need = match &input.need {
            Need::Required => String::new(),
            Need::Optional => "; may be left out".to_owned(),
            Need::Default(written) => format!("; {written} where it is left out"),
            Need::OneOf(group) => format!("; one of those for the {group}"),
            Need::FromSurroundings => "; sea level where it is left out".to_owned(),
        };
        let range = match &input.range {
            Some((low, high)) => format!("; from {low} to {high}"),
            None if c.bounded_by_refrigerant(input) => "; as far as the refrigerant is known".to_owned(),
            None => String::new(),
        };
        let about = if input.about.is_empty() { String::new() } else { format!("\n  {:width$}   {}", "", input.about) };
        let _ = writeln!(text, "  {:width$}   {kind}{range}{need}{about}", input.name);
    }
    let _ = writeln!(text, "\nformula");
    for line in c.formula(System::Us) {
        let _ = writeln!(text, "  {}", line.text);
    }
    for letter in c.legend(System::Us) {
        let _ = writeln!(text, "    {}  {}", letter.symbol, letter.name);
    }
    for (head, refuses) in [("refuses where", true), ("says, where it is so", false)] {
        let said: Vec<&str> = c.cautions.iter().filter(|one| one.refuses == refuses).map(|one| one.says).collect();
        if !said.is_empty() {
            let _ = writeln!(text, "\n{head}\n  {}", said.join("\n  "));
        }
    }
    let _ = writeln!(text, "\nsource\n  {}: {}", c.source.mark.text(), c.source.text);
    let _ = write!(text, "\nfor example\n  {}\n  {}", c.shell_example(), c.worked.answer);
    text
}
