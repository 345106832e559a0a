//! Moist air through the catalogue against another program, over 300 random states.

use std::collections::BTreeMap;

use coldpress::quantity::{Kind, Value};
use coldpress::trade::{Given, Surroundings, find, reckon};

use crate::reference::{Row, rows};

/// What a computation gives for a state told by its dry bulb and one more reading, in SI.
fn found(row: &Row, name: &str, by: (&str, Value)) -> f64 {
    let given = BTreeMap::from([
        ("dry bulb".to_owned(), Given::Value(celsius(row.number("dry_bulb_c")))),
        (by.0.to_owned(), Given::Value(by.1)),
    ]);
    let around = Surroundings { altitude: Value::of(Kind::Length, row.number("altitude_m")) };
    let worked =
        reckon(find(name).unwrap(), &given, &around).unwrap_or_else(|error| panic!("{}: {error}", row.place()));
    worked.answer.si
}

fn celsius(degrees: f64) -> Value {
    Value::of(Kind::Temperature, degrees + 273.15)
}

fn check(row: &Row, what: &str, found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{}: {what} is {wanted}, and {found} was found", row.place());
}

#[test]
fn every_property_of_moist_air_agrees_with_another_program() {
    for row in rows("moist-air.csv") {
        let humidity = ("relative humidity", Value::of(Kind::Ratio, row.number("relative_humidity")));
        let ratio = row.number("humidity_ratio");
        check(&row, "humidity ratio", found(&row, "humidity-ratio", humidity), ratio, 1e-5 * ratio);
        // The other program halves its interval until the wet bulb is within a thousandth of a degree. Around freezing
        // the same air has two wet bulbs, with water and with ice on the wick, and it may have ended at the other one.
        let wet = row.number("wet_bulb_c");
        if wet.abs() > 1.0 {
            check(&row, "wet bulb", found(&row, "wet-bulb", humidity) - 273.15, wet, 0.002);
        } else {
            let by_wet = found(&row, "humidity-ratio", ("wet bulb", celsius(wet)));
            check(&row, "humidity ratio by wet bulb", by_wet, ratio, 2e-6);
        }
        check(&row, "dew point", found(&row, "dew-point", humidity) - 273.15, row.number("dew_point_c"), 0.002);
        check(&row, "enthalpy", found(&row, "moist-enthalpy", humidity) / 1e3, row.number("enthalpy_kj_kg"), 0.001);
        check(&row, "volume", found(&row, "moist-volume", humidity), row.number("volume_m3_kg"), 2e-6);
    }
}

#[test]
fn the_same_state_comes_back_from_its_wet_bulb_and_from_its_dew_point() {
    for row in rows("moist-air.csv") {
        let humidity = row.number("relative_humidity");
        let by_humidity = ("relative humidity", Value::of(Kind::Ratio, humidity));
        for (seek, by) in [("wet-bulb", "wet bulb"), ("dew-point", "dew point")] {
            let reading = Value::of(Kind::Temperature, found(&row, seek, by_humidity));
            // At saturation the search may end a rounding error above the dry bulb, which a reading can't be.
            let reading = Value::of(Kind::Temperature, reading.si.min(row.number("dry_bulb_c") + 273.15));
            let back = found(&row, "relative-humidity", (by, reading));
            check(&row, by, back, humidity, 1e-6);
        }
    }
}
