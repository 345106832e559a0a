//! Job sheets: the readings they ask for. `limit-not-read`: a limit is none of that quantity; `work-out-not-ready`: a
//! sum needs a reading that has not been taken yet.
//!
//! Trips: `work-out: superheat` before the suction line temperature is taken. Mended: the sum after its readings.

use super::figure::computation;
use super::given::kind_not_known;
use super::{Limit, ReadingProof, ValueFigure};
use crate::handbook::{Finding, Handbook, Sheet, SheetStep, Span, Spot};
use crate::quantity::{Kind, nearest, plain_words, read, read_range};
use crate::trade::InputKind;
use std::collections::BTreeMap;

/// Examines every job sheet; gives the readings by the place of what is to be done.
pub(super) fn examine(
    book: &Handbook,
    values: &BTreeMap<String, ValueFigure>,
    findings: &mut Vec<Finding>,
) -> BTreeMap<Span, ReadingProof> {
    let mut readings = BTreeMap::new();
    for sheet in book.sheets.values() {
        let mut taken: Vec<String> = Vec::new();
        for step in &sheet.steps {
            match reading(step, values) {
                Ok(Some(proof)) => {
                    readings.insert(step.act.at, proof);
                }
                Ok(None) => {}
                Err(finding) => findings.push(*finding),
            }
            taken.extend(step.take.iter().map(|take| plain_words(&take.value)));
            if let Some(sum) = &step.work_out
                && let Err(finding) = work_out(sum, sheet, &mut taken)
            {
                findings.push(*finding);
            }
        }
    }
    readings
}

fn reading(step: &SheetStep, values: &BTreeMap<String, ValueFigure>) -> Result<Option<ReadingProof>, Box<Finding>> {
    let kind = match (&step.take, &step.quantity, &step.work_out) {
        (_, Some(quantity), _) => {
            let kind = Kind::from_name(&quantity.value);
            kind.ok_or_else(|| Box::new(kind_not_known(&quantity.value, quantity.at)))?
        }
        (None, None, Some(sum)) => computation(sum)?.answer.kind,
        (Some(take), None, None) | (Some(take), None, Some(_)) => {
            let finding =
                Finding::error("limit-not-read", take.at, format!("`{}` is taken and has no quantity", take.value));
            return Err(Box::new(finding.instead("write `quantity: pressure`, or whatever it measures")));
        }
        (None, None, None) => return Ok(None),
    };
    let limit = step.limit.as_ref().map(|limit| read_limit(limit, kind, values)).transpose()?;
    Ok(Some(ReadingProof { kind, limit }))
}

fn read_limit(limit: &Spot<String>, kind: Kind, values: &BTreeMap<String, ValueFigure>) -> Result<Limit, Box<Finding>> {
    let slip = |says: String| {
        let finding = Finding::error("limit-not-read", limit.at, says);
        Box::new(
            finding.instead("write `below 212 °F`, `above 500 cfm`, `8 to 18 °F`, or `within value:superheat-range`"),
        )
    };
    let text = limit.value.trim();
    let (word, rest) = text.split_once(' ').unwrap_or((text, ""));
    let figure = |rest: &str| -> Result<ValueFigure, Box<Finding>> {
        match rest.trim().strip_prefix("value:") {
            Some(name) => values.get(name.trim()).cloned().ok_or_else(|| {
                let finding = Finding::error("dead-link", limit.at, format!("there is no standing value `{name}`"));
                let near =
                    nearest(name, values.keys().map(String::as_str)).map(|near| format!("the nearest is `{near}`"));
                Box::new(finding.perhaps(near))
            }),
            None => match read_range(rest, Some(kind)) {
                Ok(range) => Ok(ValueFigure::Range(range.from, range.to)),
                Err(_) => read(rest, Some(kind)).map(ValueFigure::One).map_err(|error| slip(error.to_string())),
            },
        }
    };
    let found = match word {
        "below" | "above" | "within" => figure(rest)?,
        _ => figure(text)?,
    };
    match (word, found) {
        ("below", ValueFigure::One(one) | ValueFigure::Range(one, _)) => Ok(Limit::Below(one)),
        ("above", ValueFigure::One(one) | ValueFigure::Range(_, one)) => Ok(Limit::Above(one)),
        (_, ValueFigure::Range(from, to)) => Ok(Limit::Within(from, to)),
        _ => Err(slip(format!("`{text}` is no limit"))),
    }
}

/// A sum's inputs must have been taken or worked out above; what it gives is known from there on. The refrigerant and the
/// altitude are known of the job.
fn work_out(sum: &Spot<String>, sheet: &Sheet, taken: &mut Vec<String>) -> Result<(), Box<Finding>> {
    let c = computation(sum)?;
    for input in c.inputs().iter().filter(|input| input.required() && input.kind != InputKind::Refrigerant) {
        if !taken.contains(&plain_words(input.name)) {
            let finding = Finding::error(
                "work-out-not-ready",
                sum.at,
                format!("`{}` needs `{}`, which `{}` has not taken by then", c.name, input.name, sheet.name),
            );
            return Err(Box::new(finding.instead(format!("take it in a step above: `take: {}`", input.name))));
        }
    }
    taken.push(plain_words(c.answer_name()));
    Ok(())
}
