//! Doing one computation of the catalogue with the figures somebody has.
//!
//! Takes figures as written or as values, by the names of the inputs; gives the answer with everything it came from.
//! A gauge reading becomes a pressure by the air at the altitude given or, without one, at that of the surroundings.

use std::collections::BTreeMap;

use super::computation::{Computation, WorkedFigure};
use super::error::TradeError;
use super::evaluation::Scene;
use super::input::{Input, InputKind, Need, altitude};
use super::worked::{Worked, WorkedInput, WorkedStep};
use crate::fluid::Refrigerant;
use crate::quantity::{Kind, Pressure, Value, Written, air_at, nearest, plain_words, print};

/// The most decimals that a refused figure is shown with.
const MOST_DECIMALS: u8 = 9;

/// What is given for one input.
#[derive(Clone, Debug)]
pub enum Given {
    /// A figure as somebody wrote it.
    Written(Written),
    /// A figure that was computed.
    Value(Value),
    /// A refrigerant.
    Refrigerant(Refrigerant),
}

/// Where the readings are taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Surroundings {
    /// Height above the sea, a length.
    pub altitude: Value,
}

impl Default for Surroundings {
    /// At the sea.
    fn default() -> Self {
        Self { altitude: Value::of(Kind::Length, 0.0) }
    }
}

/// Does computation `c` with what is given, by the names of its inputs; case, hyphens, underscores and spaces in names
/// are all alike. Every computation takes an `altitude`, which goes before that of the surroundings.
///
/// # Errors
/// A [`TradeError`] that says what is missing, unknown, of the wrong kind, outside its range, or without an answer.
/// ```
/// # use std::collections::BTreeMap;
/// # use coldpress::quantity::{read, System};
/// # use coldpress::trade::{find, reckon, Given, Surroundings};
/// let c = find("atmospheric-pressure").unwrap();
/// let given = BTreeMap::from([("altitude".to_owned(), Given::Written(read("5,000 ft", None).unwrap()))]);
/// let worked = reckon(c, &given, &Surroundings::default()).unwrap();
/// assert_eq!(worked.answer_text(System::Us), "12.228\u{a0}psia");
/// let error = reckon(find("superheat").unwrap(), &given, &Surroundings::default()).unwrap_err();
/// assert!(error.to_string().starts_with("superheat also needs refrigerant (as `R-410A`) and suction pressure"));
/// ```
pub fn reckon(
    c: &'static Computation,
    given: &BTreeMap<String, Given>,
    around: &Surroundings,
) -> Result<Worked, TradeError> {
    let air_altitude = match given.iter().find(|(name, _)| plain_words(name) == "altitude") {
        Some((_, given)) => figure(&altitude(), Kind::Length, given, Pressure::STANDARD_ATMOSPHERE)?.0,
        None => around.altitude,
    };
    let air = air_at(air_altitude)?;
    refuse_unknown(c, given)?;

    let mut inputs = Vec::new();
    let mut known = BTreeMap::new();
    let mut fluids = BTreeMap::new();
    let mut missing = Vec::new();
    for input in &c.inputs {
        let found = given.iter().find(|(name, _)| input.answers_to(name)).map(|(_, given)| given.clone());
        let taken = match (found, &input.need) {
            (Some(given), _) => given,
            (None, Need::Default(written)) => Given::Written(written.clone()),
            (None, Need::FromSurroundings) => Given::Value(around.altitude),
            (None, Need::Optional | Need::OneOf(_)) => continue,
            (None, Need::Required) => {
                missing.push(wanted(input));
                continue;
            }
        };
        let (value, taken) = match (input.kind, taken) {
            (InputKind::Refrigerant, Given::Refrigerant(fluid)) => {
                fluids.insert(input.name, fluid.clone());
                (None, Given::Refrigerant(fluid))
            }
            (InputKind::Refrigerant, _) => return Err(TradeError::RefrigerantWanted { input: input.name }),
            (InputKind::Quantity(kind), taken) => {
                let (value, taken) = figure(input, kind, &taken, air)?;
                within(c, input, value, air)?;
                known.insert(input.name, if input.gauge { value.si - air.as_pascal() } else { value.si });
                (Some(value), taken)
            }
        };
        inputs.push(WorkedInput {
            name: input.name,
            symbol: input.symbol,
            given: taken,
            value,
            showing: input.showing,
        });
    }
    one_of_each_group(c, &known, &mut missing)?;
    if !missing.is_empty() {
        return Err(TradeError::Missing { computation: c.name, missing, takes: takes(c) });
    }

    let mut scene = Scene::new(c.name, &known, &fluids, air);
    let mut notes = Vec::new();
    for caution in c.cautions.iter().filter(|caution| caution.refuses) {
        if scene.holds(&caution.when)? {
            return Err(TradeError::Refused { computation: c.name, says: caution.says });
        }
    }
    // Steps come in the order in which the answer needs them, not the cautions.
    scene.steps.clear();
    let answer = Value::of(c.answer.kind, scene.value(&c.answer.formula)?);
    let steps = scene
        .steps
        .iter()
        .map(|(step, si)| WorkedStep {
            name: step.name,
            symbol: step.symbol,
            value: Value::of(step.kind, *si),
            step: step.clone(),
        })
        .collect();
    for caution in c.cautions.iter().filter(|caution| !caution.refuses) {
        if scene.holds(&caution.when)? {
            notes.push(caution.says);
        }
    }
    let look_ups = scene.look_ups;
    Ok(Worked { computation: c, inputs, steps, answer, air, notes, look_ups, known, fluids })
}

/// A figure of `kind` out of what was given for `input`, and what was given read as that kind.
fn figure(input: &Input, kind: Kind, given: &Given, air: Pressure) -> Result<(Value, Given), TradeError> {
    match given {
        Given::Refrigerant(_) => Err(TradeError::FigureWanted { input: input.name, wanted: kind }),
        Given::Value(value) if value.kind == kind => Ok((*value, given.clone())),
        Given::Value(value) => Err(TradeError::WrongKind { input: input.name, wanted: kind, given: value.kind }),
        Given::Written(written) => {
            let reading = |error| TradeError::Reading { input: input.name, error };
            let written = written.as_kind(kind).map_err(reading)?;
            Ok((written.value(air).map_err(reading)?, Given::Written(written)))
        }
    }
}

fn within(c: &Computation, input: &Input, value: Value, air: Pressure) -> Result<(), TradeError> {
    let Some((low, high)) = &input.range else {
        return Ok(());
    };
    let bound = |written: &Written| written.unit.to_si(written.number, air);
    // A figure on the bound is within it, however it was converted.
    let hair = 1e-9 * (bound(high) - bound(low)).abs();
    if (bound(low) - hair..=bound(high) + hair).contains(&value.si) {
        return Ok(());
    }
    // As many decimals as show that it lies outside.
    let number = low.unit.from_si(value.si, air);
    let shows = |decimals: &u8| {
        let printed: f64 = format!("{number:.0$}", usize::from(*decimals)).parse().unwrap_or(number);
        !(low.number..=high.number).contains(&printed)
    };
    let decimals = (low.decimals.max(high.decimals).max(1)..MOST_DECIMALS).find(shows).unwrap_or(MOST_DECIMALS);
    Err(TradeError::OutsideRange {
        computation: c.name,
        input: input.name,
        given: print(value, low.unit, decimals, air),
        low: low.to_string(),
        high: high.to_string(),
    })
}

fn refuse_unknown(c: &Computation, given: &BTreeMap<String, Given>) -> Result<(), TradeError> {
    for name in given.keys() {
        if c.input(name).is_none() && plain_words(name) != "altitude" {
            return Err(TradeError::UnknownInput {
                computation: c.name,
                typed: name.clone(),
                nearest: nearest(name, c.inputs.iter().map(|input| input.name)),
                takes: takes(c),
            });
        }
    }
    Ok(())
}

fn one_of_each_group(
    c: &Computation,
    known: &BTreeMap<&'static str, f64>,
    missing: &mut Vec<String>,
) -> Result<(), TradeError> {
    let mut groups: Vec<&'static str> = Vec::new();
    for input in &c.inputs {
        if let Need::OneOf(group) = input.need
            && !groups.contains(&group)
        {
            groups.push(group);
        }
    }
    for group in groups {
        let members: Vec<&Input> =
            c.inputs.iter().filter(|input| matches!(input.need, Need::OneOf(of) if of == group)).collect();
        let names = || members.iter().map(|input| wanted(input)).collect::<Vec<_>>();
        match members.iter().filter(|input| known.contains_key(input.name)).count() {
            0 => missing.push(names().join(" or ")),
            1 => {}
            _ => return Err(TradeError::OnlyOne { computation: c.name, of: names() }),
        }
    }
    Ok(())
}

/// An input and how it is written.
fn wanted(input: &Input) -> String {
    let sample = input.quantity_kind().map_or("R-410A", Kind::sample);
    format!("{} (as `{sample}`)", input.name)
}

/// Everything a computation takes, in one line.
fn takes(c: &Computation) -> String {
    let names: Vec<String> = c
        .inputs
        .iter()
        .map(|input| match input.need {
            Need::Required | Need::OneOf(_) => input.name.to_owned(),
            Need::Optional | Need::Default(_) | Need::FromSurroundings => format!("{} if it is known", input.name),
        })
        .collect();
    names.join(", ")
}

impl WorkedFigure {
    /// The figures as [`reckon`] takes them; `refrigerant` finds one by its designation.
    ///
    /// # Errors
    /// What is wrong with a figure, in words.
    pub fn given(
        &self,
        c: &Computation,
        refrigerant: &dyn Fn(&str) -> Option<Refrigerant>,
    ) -> Result<BTreeMap<String, Given>, String> {
        let mut all = BTreeMap::new();
        for (name, text) in self.given {
            let input = c.input(name).ok_or_else(|| format!("`{name}` is no input of {}", c.name))?;
            let given = match input.quantity_kind() {
                Some(kind) => {
                    Given::Written(crate::quantity::read(text, Some(kind)).map_err(|error| error.to_string())?)
                }
                None => Given::Refrigerant(refrigerant(text).ok_or_else(|| format!("no refrigerant `{text}`"))?),
            };
            all.insert((*name).to_owned(), given);
        }
        Ok(all)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{System, read};
    use crate::trade::find;
    use crate::trade::roster::refrigerant;

    fn given(pairs: &[(&str, &str)]) -> BTreeMap<String, Given> {
        pairs
            .iter()
            .map(|(name, text)| {
                let given = match refrigerant(text) {
                    Some(fluid) => Given::Refrigerant(fluid),
                    None => Given::Written(read(text, None).unwrap()),
                };
                ((*name).to_owned(), given)
            })
            .collect()
    }

    fn worked(name: &str, pairs: &[(&str, &str)]) -> Worked {
        reckon(find(name).unwrap(), &given(pairs), &Surroundings::default()).unwrap()
    }

    fn refused(name: &str, pairs: &[(&str, &str)]) -> String {
        reckon(find(name).unwrap(), &given(pairs), &Surroundings::default()).unwrap_err().to_string()
    }

    fn text(worked: &Worked, system: System) -> Vec<String> {
        worked.lines(system).into_iter().map(|line| line.text.replace('\u{a0}', " ")).collect()
    }

    const SUPERHEAT: [(&str, &str); 3] =
        [("Refrigerant", "R-410A"), ("suction-pressure", "118 psig"), ("suction_line temperature", "52 °F")];

    #[test]
    fn the_working_shows_how_a_gauge_reading_became_absolute() {
        let worked = worked("superheat", &SUPERHEAT);
        assert_eq!(
            text(&worked, System::Us),
            [
                "p_s = 118 psig + 14.70 psia = 132.70 psia",
                "T_e = T_dew(R-410A, 132.70 psia) = 39.84 °F",
                "SH = 52 °F − 39.84 °F = 12.2 °F"
            ]
        );
        assert_eq!(
            text(&worked, System::Si),
            [
                "p_s = 813.6 kPag + 101.3 kPa = 914.9 kPa",
                "T_e = T_dew(R-410A, 914.9 kPa) = 4.36 °C",
                "SH = 11.11 °C − 4.36 °C = 6.8 K"
            ]
        );
        assert_eq!(worked.plain_line(System::Us), "52 °F - 39.84 °F = 12.2 °F");
        assert_eq!(
            worked.plain_inputs(System::Us).unwrap(),
            "R-410A, suction pressure 118 psig, suction line temperature 52 °F, altitude 0 ft"
        );
        assert!(worked.notes.is_empty());
    }

    #[test]
    fn an_altitude_of_its_own_goes_before_that_of_the_surroundings() {
        let mut all = given(&SUPERHEAT);
        let c = find("superheat").unwrap();
        let high = Surroundings { altitude: Value::of(Kind::Length, 1524.0) };
        let there = reckon(c, &all, &high).unwrap();
        assert_eq!(there.answer_text(System::Us), "13.2\u{a0}°F");
        all.insert("Altitude".to_owned(), Given::Written(read("0 ft", None).unwrap()));
        assert_eq!(reckon(c, &all, &high).unwrap().answer_text(System::Us), "12.2\u{a0}°F");
    }

    #[test]
    fn wet_suction_is_answered_and_said() {
        let wet = worked(
            "superheat",
            &[("refrigerant", "R-410A"), ("suction pressure", "118 psig"), ("suction line temperature", "38 °F")],
        );
        assert_eq!(wet.answer_text(System::Us), "−1.8\u{a0}°F");
        assert_eq!(wet.notes.len(), 1);
    }

    #[test]
    fn a_vacuum_is_counted_down_from_the_local_air() {
        let worked = worked("vacuum-conversion", &[("pressure", "10 inHg vac"), ("altitude", "5000 ft")]);
        assert_eq!(text(&worked, System::Us)[0], "p = 12.23 psia − 10 inHg vac = 7.32 psia");
    }

    #[test]
    fn what_is_wrong_with_the_inputs_is_said_to_the_reader() {
        let rest = "; it takes refrigerant, suction pressure, suction line temperature, altitude if it is known";
        assert_eq!(
            refused("superheat", &[("refrigerant", "R-410A")]),
            format!(
                "superheat also needs suction pressure (as `118 psig`) and suction line temperature (as `52 °F`){rest}"
            )
        );
        assert_eq!(
            refused("superheat", &[("suction presure", "118 psig")]),
            format!("superheat takes no `suction presure`; the nearest is `suction pressure`{rest}")
        );
        assert_eq!(
            refused("superheat", &[("refrigerant", "118 psig")]),
            "refrigerant is the name of a refrigerant, as `R-410A`, not a figure"
        );
        assert_eq!(
            refused("dew-temperature", &[("refrigerant", "R-410A"), ("pressure", "R-22")]),
            "pressure is a pressure, as `118 psig`, not a refrigerant"
        );
        assert_eq!(
            refused("dew-temperature", &[("refrigerant", "R-410A"), ("pressure", "52 °F")]),
            "pressure: `52\u{a0}°F` is a temperature, and a pressure is wanted here: write it as `118 psig`"
        );
        assert_eq!(
            refused("atmospheric-pressure", &[("altitude", "12,000 m")]),
            "an altitude of 12,000\u{a0}m is outside the standard atmosphere's lowest layer, -5,000 m to 11,000 m (-16,404 ft to 36,089 ft)"
        );
        assert_eq!(
            refused("dew-temperature", &[("refrigerant", "R-410A"), ("pressure", "-20 psig")]),
            "pressure: `−20\u{a0}psig` is below a perfect vacuum: the air itself is only 14.70\u{a0}psia there"
        );
        // A pressure no saturation curve reaches is the refrigerant's to refuse, with its limits.
        assert!(refused("dew-temperature", &[("refrigerant", "R-410A"), ("pressure", "900 psig")]).contains("R-410A"));
    }

    #[test]
    fn a_computed_value_of_another_kind_is_not_taken() {
        let mut all = given(&SUPERHEAT);
        all.insert("suction line temperature".to_owned(), Given::Value(Value::of(Kind::TemperatureDifference, 5.0)));
        all.remove("suction_line temperature");
        let error = reckon(find("superheat").unwrap(), &all, &Surroundings::default()).unwrap_err();
        assert_eq!(
            error.to_string(),
            "suction line temperature is a temperature, as `52 °F`, and a temperature difference was given"
        );
    }
}
