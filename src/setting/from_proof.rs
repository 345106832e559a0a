//! What proofing reckoned, made ready to be set: the one module of this room that knows how a proof, the catalogue and a
//! property equation hold their figures. Computes nothing; asks for each figure in both systems of units.

use super::figure::{
    Figures, SetColumn, SetCorrelation, SetEquation, SetExample, SetFigure, SetFluid, SetInput, SetPair, SetRow,
    SetRows, SetStep, SetTable,
};
use super::print::Both;
use super::words::{Words, fill};
use super::{drawing, from_blocks, from_catalogue, from_trees};
use crate::fluid::Refrigerant;
use crate::handbook::{BlockKind, Handbook, Span};
use crate::proofing::{ExampleProof, GivenProof, Proof, StepProof, TableProof, TableRows, ValueFigure};
use crate::quantity::{Kind, Pressure, System, Value, Written, number_text, print, read, unit};
use crate::trade::{Given, Line, Worked};
use std::collections::BTreeSet;

/// A dash in a table, where no figure could be had.
pub(super) const DASH: &str = "—";

/// Every figure of `proof`.
pub(super) fn figures(book: &Handbook, proof: &Proof, words: &Words) -> Figures {
    let air = proof.air;
    Figures {
        readings: proof.readings.iter().map(|(at, reading)| (*at, from_blocks::reading(reading, words, air))).collect(),
        orders: proof.trees.iter().map(|(name, tree)| (name.clone(), from_trees::order(tree))).collect(),
        answers: book.trees.values().flat_map(|tree| from_trees::answers(tree, proof, words)).collect(),
        takes: book.trees.values().flat_map(|tree| from_trees::takes(tree, proof)).collect(),
        fluids: proof
            .roster
            .iter()
            .map(|(name, refrigerant)| (name.clone(), set_fluid(refrigerant, words, air)))
            .collect(),
        catalogue: from_catalogue::catalogue(proof, words, air),
        page_tables: proof.page_tables.clone(),
        ..lesson_figures(book, proof, words)
    }
}

/// Those of them that pages of lessons show.
pub(super) fn lesson_figures(book: &Handbook, proof: &Proof, words: &Words) -> Figures {
    let air = proof.air;
    let altitude = read(&book.front.altitude.value, Some(Kind::Length))
        .map_or_else(|_| value(proof.altitude, air), |written| one(&written, air));
    Figures {
        figures: proof.figures.iter().map(|(at, step)| (*at, figure(step, air))).collect(),
        given: proof.given.iter().map(|(at, given)| (*at, shown(given, words, air))).collect(),
        values: proof.values.iter().map(|(name, figure)| (name.clone(), shown(figure, words, air))).collect(),
        replaced_values: proof
            .replaced_values
            .iter()
            .map(|(name, figure)| (name.clone(), shown(figure, words, air)))
            .collect(),
        examples: proof.examples.iter().map(|(at, example)| (*at, set_example(book, *at, example, air))).collect(),
        computed: proof.computed.iter().map(|(at, table)| (*at, from_blocks::computed(table, air))).collect(),
        drawings: proof.drawings.iter().map(|(at, proof)| (*at, drawing::draw(proof, words))).collect(),
        problems: from_blocks::problems(book, proof, air),
        tables: proof.tables.iter().map(|(at, table)| (*at, set_table(table, air))).collect(),
        forms: proof
            .forms
            .iter()
            .map(|(at, form)| (*at, from_catalogue::form(&form.worked, form.looked_for.as_ref(), words, air)))
            .collect(),
        altitude,
        altitude_m: proof.altitude.si,
        air: Both { us: print(air.into(), &unit::PSIA, 2, air), si: print(air.into(), &unit::KILOPASCAL, 1, air) },
        air_si: air.as_pascal(),
        ..Figures::default()
    }
}

/// `show` for both systems.
pub(super) fn both(show: impl Fn(System) -> String) -> Both {
    Both { us: show(System::Us), si: show(System::Si) }
}

pub(super) fn one(written: &Written, air: Pressure) -> Both {
    both(|system| written.shown_in(system, air))
}

/// A value in the usual units of its kind.
pub(super) fn value(value: Value, air: Pressure) -> Both {
    both(|system| print(value, value.kind.unit_in(system), value.kind.decimals_in(system), air))
}

pub(super) fn range(low: &Written, high: &Written, words: &Words, air: Pressure) -> Both {
    both(|system| {
        let from = if low.unit.in_system(system) == high.unit.in_system(system) {
            low.number_in(system, air)
        } else {
            low.shown_in(system, air)
        };
        fill(&fill(&words.from_to, "from", &from), "to", &high.shown_in(system, air))
    })
}

fn shown(figure: &ValueFigure, words: &Words, air: Pressure) -> Both {
    match figure {
        ValueFigure::One(written) => one(written, air),
        ValueFigure::Range(low, high) => range(low, high, words, air),
        ValueFigure::Words(text) => both(|_| text.clone()),
    }
}

/// The answer as its author wrote it; in the other system as it was reckoned, to as many digits as the written ones are
/// worth, so that no rounding is rounded again.
pub(super) fn answer(step: &StepProof) -> Both {
    both(|system| {
        let written = &step.written;
        if written.unit.system == system {
            return written.shown_in(system, step.worked.air);
        }
        let unit = written.unit.in_system(system);
        // Nor to more digits than are of use in it.
        let (usual, most) = step.worked.answer_unit(system);
        let worth = written.decimals_in(unit);
        step.worked.answer_in(unit, if unit == usual { worth.min(most) } else { worth })
    })
}

pub(super) fn figure(step: &StepProof, air: Pressure) -> SetFigure {
    SetFigure { answer: answer(step), ..worked(&step.worked, air) }
}

pub(super) fn worked(worked: &Worked, air: Pressure) -> SetFigure {
    let inputs = worked
        .inputs
        .iter()
        .map(|input| SetInput { name: input.name.to_owned(), value: both(|system| input.text(system, air)) })
        .collect();
    let fluids: BTreeSet<String> = worked
        .inputs
        .iter()
        .filter_map(|input| match &input.given {
            Given::Refrigerant(refrigerant) => Some(refrigerant.designation().to_owned()),
            _ => None,
        })
        .collect();
    SetFigure {
        name: worked.computation.answer_name().to_owned(),
        answer: both(|system| worked.answer_text(system)),
        inputs,
        equation: in_both(&worked.computation.formula(System::Us), &worked.computation.formula(System::Si)),
        numbers: in_both(&worked.lines(System::Us), &worked.lines(System::Si)),
        sources: vec![worked.source_text()],
        fluids: fluids.into_iter().collect(),
        notes: worked.notes.iter().map(|note| (*note).to_owned()).collect(),
    }
}

/// Lines of mathematics in both systems, side by side. The one that has more lines keeps them.
pub(super) fn in_both(us: &[Line], si: &[Line]) -> Vec<Both> {
    // The style says how a line of mathematics stands; the attribute would be said some hundred times on a page.
    let mathml = |line: &Line| line.mathml.replace(" display=\"block\"", "");
    let set =
        |line: Option<&Line>| line.map_or_else(String::new, |line| line.inline.clone().unwrap_or_else(|| mathml(line)));
    (0..us.len().max(si.len())).map(|i| Both { us: set(us.get(i)), si: set(si.get(i)) }).collect()
}

fn set_example(book: &Handbook, at: Span, example: &ExampleProof, air: Pressure) -> SetExample {
    // The names of what is given are the author's, in the same order.
    let blocks = book.lessons.values().flat_map(|lesson| &lesson.blocks).filter(|block| block.at == at);
    let names = blocks.filter_map(|block| match &block.kind {
        BlockKind::Example(example) => Some(&example.given),
        _ => None,
    });
    let given = names.flatten().zip(&example.given).map(|(name, given)| SetInput {
        name: name.name.value.clone(),
        value: match given {
            GivenProof::Refrigerant(designation) => both(|_| designation.clone()),
            GivenProof::Figure(written) => one(written, air),
        },
    });
    let steps = example.steps.iter().map(|step| SetStep {
        name: step.name.clone(),
        answer: answer(step),
        figure: figure(step, air),
    });
    SetExample { given: given.collect(), steps: steps.collect() }
}

fn set_table(table: &TableProof, air: Pressure) -> SetTable {
    let mut dashes = BTreeSet::new();
    let us = set_rows(&table.us, air, &mut dashes);
    let si = set_rows(&table.si, air, &mut dashes);
    let one_curve = [&us, &si].iter().all(|rows| rows.rows.iter().all(|row| row.bubble == row.dew));
    let curve = table.si.rows.iter().filter_map(|row| Some((row.temperature.si, row.dew.as_ref().ok()?.si))).collect();
    SetTable {
        us,
        si,
        one_curve,
        working: table.sample.iter().map(|sample| worked(sample, air)).collect(),
        curve,
        dashes: dashes.into_iter().collect(),
    }
}

fn set_rows(table: &TableRows, air: Pressure, dashes: &mut BTreeSet<String>) -> SetRows {
    let system = table.temperature.system;
    let at = |value: Value| number_text(value.number_of(table.temperature, air), table.temperature_decimals);
    let decimals = |kind: Kind| kind.decimals_in(system);
    let mut cell = |cell: &Result<Value, String>, unit, decimals| match cell {
        Ok(value) => number_text(value.number_of(unit, air), decimals),
        Err(why) => {
            dashes.insert(why.clone());
            DASH.to_owned()
        }
    };
    // Groups begin at round temperatures: fives of the step, or fours where those are rounder.
    let group = if (table.step * 4.0).rem_euclid(10.0) == 0.0 { 4 } else { 5 };
    let rung = |value: Value| (value.number_of(table.temperature, air) / table.step).round() as i64;
    let rows: Vec<SetRow> = table
        .rows
        .iter()
        .enumerate()
        .map(|(i, row)| SetRow {
            temperature: at(row.temperature),
            bubble: cell(&row.bubble, table.pressure, decimals(Kind::Pressure)),
            dew: cell(&row.dew, table.pressure, decimals(Kind::Pressure)),
            glide: cell(&row.glide, table.difference, decimals(Kind::TemperatureDifference)),
            more: row
                .more
                .iter()
                .zip(&table.more)
                .map(|(one, column)| cell(one, column.unit, column.decimals))
                .collect(),
            breath: table.rows.get(i + 1).is_some_and(|next| rung(next.temperature).rem_euclid(group) == 0),
        })
        .collect();
    let with_unit = |number: &str| format!("{number}\u{a0}{}", table.temperature.symbol);
    SetRows {
        temperature_unit: table.temperature.symbol.to_owned(),
        pressure_unit: table.pressure.symbol.to_owned(),
        glide_unit: table.difference.symbol.to_owned(),
        more: table
            .more
            .iter()
            .map(|column| SetColumn { name: capital(column.name), unit: column.unit.symbol.to_owned() })
            .collect(),
        from: with_unit(rows.first().map_or("", |row| &row.temperature)),
        to: with_unit(rows.last().map_or("", |row| &row.temperature)),
        step: format!("{}\u{a0}{}", number_text(table.step, table.temperature_decimals), table.difference.symbol),
        rows,
    }
}

/// `liquid enthalpy` as a heading.
fn capital(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn set_fluid(refrigerant: &Refrigerant, words: &Words, air: Pressure) -> SetFluid {
    let temperature = |t: crate::quantity::Temperature, system| {
        let value = Value::from(t);
        print(value, value.kind.unit_in(system), 0, air)
    };
    let equations = refrigerant
        .components()
        .iter()
        .map(|component| {
            let (from, to) = component.equation.valid_temperature();
            let pressure = Value::from(component.equation.valid_pressure());
            SetEquation {
                name: component.designation.to_owned(),
                citation: component.equation.source().to_owned(),
                range: Some(both(|system| {
                    let (unit, decimals) = match system {
                        System::Us => (&unit::PSIA, 0),
                        System::Si => (&unit::MEGAPASCAL, 0),
                    };
                    let range =
                        fill(&fill(&words.from_to, "from", &temperature(from, system)), "to", &temperature(to, system));
                    let most = fill(&words.up_to, "pressure", &print(pressure, unit, decimals, air));
                    format!("{range}, {most}")
                })),
                uncertainty: component.equation.uncertainty().to_owned(),
            }
        })
        .collect();
    let pairs = refrigerant
        .pairs()
        .into_iter()
        .map(|pair| SetPair {
            name: format!("{} / {}", pair.first, pair.second),
            citation: pair.source,
            uncertainty: pair.uncertainty,
            estimated: pair.estimated,
        })
        .collect();
    let correlations = refrigerant
        .correlations()
        .into_iter()
        .map(|(name, citation)| SetCorrelation {
            name: capital(name),
            citation: citation.unwrap_or_default().to_owned(),
        })
        .collect();
    let (from, to) = refrigerant.valid_temperature();
    let range =
        both(|system| fill(&fill(&words.from_to, "from", &temperature(from, system)), "to", &temperature(to, system)));
    SetFluid { equations, pairs, correlations, range }
}
