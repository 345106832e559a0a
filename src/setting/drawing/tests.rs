//! Every kind, drawn from readings at random: no line runs through lettering, no lettering stands on lettering or off the
//! sheet, and the page is not made heavy. What a drawing says in words and in its table is held by a case of each kind.

use super::*;
use crate::proofing::drawing::*;
use crate::quantity::{Kind, Pressure, Written, unit};
use crate::setting::theme::Theme;
use proptest::prelude::*;
use proptest::test_runner::TestCaseResult;
use std::sync::LazyLock;

static POCKETBOOK: LazyLock<Theme> = LazyLock::new(|| Theme::pocketbook().unwrap());
const AIR: Pressure = Pressure::from_kilopascal(98.1);
/// As much as a drawing may weigh as HTML, with its table.
const HEAVIEST: usize = 12_000;

fn of(kind: Kind, si: f64) -> Value {
    Value::of(kind, si)
}

fn kelvin(si: f64) -> Value {
    of(Kind::Temperature, si)
}

fn degrees(si: f64) -> Value {
    of(Kind::TemperatureDifference, si)
}

fn pascal(si: f64) -> Value {
    of(Kind::Pressure, si)
}

fn heat(si: f64) -> Value {
    of(Kind::SpecificEnthalpy, si)
}

fn drawn(scene: Scene) -> Sheet {
    sheet(&DrawingProof { scene, air: AIR, sources: vec!["Physics: balance".to_owned()] }, &POCKETBOOK.words)
}

fn sound(scene: Scene) -> TestCaseResult {
    let sheet = drawn(scene);
    let faults = sheet.canvas.faults();
    prop_assert!(faults.is_empty(), "{}\n{}", faults.join("\n"), sheet.canvas.svg());
    let svg = sheet.canvas.svg();
    prop_assert!(svg.len() < HEAVIEST, "{} bytes", svg.len());
    prop_assert!(!svg.contains("NaN") && !svg.contains("inf"), "{}", svg);
    for row in &sheet.table.rows {
        prop_assert_eq!(row.1.len() + 1, sheet.table.columns.len());
    }
    prop_assert!(!sheet.say.us.is_empty() && !sheet.say.us.contains('{'), "{}", sheet.say.us);
    prop_assert!(!sheet.say.si.contains('{'), "{}", sheet.say.si);
    Ok(())
}

/// A curve like a saturation curve: pressure over temperature, from the temperature at which it is the air's.
fn boils(boiling: f64, temperature: f64) -> f64 {
    101_325.0 * (2_700.0 * (1.0 / boiling - 1.0 / temperature)).exp()
}

prop_compose! {
    fn forces()(evaporator in 5e4..1.6e6f64, spring in 5e3..3e5f64, off in prop::option::of(0.3..2.5f64), lost in prop::option::of(0.0..1e5f64)) -> ThreeForces {
        let bulb = evaporator + spring;
        ThreeForces {
            refrigerant: "R-1234ze(E)".to_owned(),
            line: kelvin(280.0),
            bulb: pascal(bulb),
            evaporator: pascal(evaporator),
            boiling: kelvin(275.0),
            superheat: degrees(5.0),
            spring: of(Kind::PressureDifference, spring * off.unwrap_or(1.0)),
            left: of(Kind::PressureDifference, spring),
            in_balance: off.is_none() && lost.is_none(),
            lost: lost.map(|lost| of(Kind::PressureDifference, lost)),
        }
    }
}

prop_compose! {
    fn curve()(
        boiling in 200.0..300.0f64,
        from in 220.0..280.0f64,
        long in 10.0..90.0f64,
        glide in 0.0..25.0f64,
        marked in prop::option::of(0.0..1.0f64),
    ) -> SaturationCurve {
        let points = (0..=24).map(|i| {
            let t = from + long * f64::from(i) / 24.0;
            CurvePoint { temperature: kelvin(t), bubble: pascal(boils(boiling, t + glide)), dew: pascal(boils(boiling, t)), step: i % 3 == 0 }
        });
        let mark = marked.map(|share| {
            let dew = from + long * (0.3 + 0.7 * share);
            let bubble = (dew - glide).max(from);
            CurveMark { pressure: pascal(boils(boiling, dew)), bubble: kelvin(bubble), dew: kelvin(dew), glide: degrees(dew - bubble) }
        });
        SaturationCurve { refrigerant: "R-448A".to_owned(), points: points.collect(), mark }
    }
}

prop_compose! {
    fn cycle()(
        boiling in 210.0..270.0f64,
        evaporating in 235.0..285.0f64,
        lift in 12.0..60.0f64,
        subcooling in 0.5..25.0f64,
        superheat in 0.5..30.0f64,
    ) -> PressureEnthalpy {
        let condensing = evaporating + lift;
        let critical = condensing + 25.0;
        let from = evaporating - 25.0;
        let side = |vapor: bool| -> Vec<(Value, Value)> {
            (0..=24).map(|i| {
                let t = from + (critical - from) * f64::from(i) / 24.0;
                let apart = 90e3 * ((critical - t) / (critical - from)).max(0.0).sqrt();
                let middle = 290e3 + 600.0 * (t - from);
                (heat(if vapor { middle + apart } else { middle - apart }), pascal(boils(boiling, t)))
            }).collect()
        };
        let (bubble, dew) = (side(false), side(true));
        let (low, high) = (pascal(boils(boiling, evaporating)), pascal(boils(boiling, condensing)));
        let out = dew[6].0.si + 900.0 * superheat;
        let entering = bubble[14].0.si - 1_400.0 * subcooling;
        let corner = |h, pressure, t| Corner { enthalpy: heat(h), pressure, temperature: kelvin(t) };
        PressureEnthalpy {
            refrigerant: "R-410A".to_owned(),
            corners: [
                corner(out, low, evaporating + superheat),
                corner(out + 30e3 * lift / 40.0, high, condensing + 25.0),
                corner(entering, high, condensing - subcooling),
                corner(entering, low, evaporating),
            ],
            bubble,
            dew,
            effect: heat(out - entering),
            flashed: of(Kind::Ratio, 0.24),
            evaporating: kelvin(evaporating),
            condensing: kelvin(condensing),
        }
    }
}

fn clock_line() -> impl Strategy<Value = BulbLine> {
    const SIZES: [(u32, u32, u32); 7] = [(0, 3, 8), (0, 5, 8), (0, 7, 8), (1, 1, 8), (1, 5, 8), (2, 5, 8), (4, 1, 8)];
    let hours = || {
        // Six is the hour that no bulb has.
        let hour = (1..=11u32).prop_map(|hour| if hour >= 6 { hour + 1 } else { hour });
        (hour, 0..=1u32, prop::bool::ANY).prop_map(|(hour, more, two)| {
            let more = if hour == 5 { 0 } else { more };
            let place = |hour: u32| (f64::from(hour), f64::from((hour + more).min(12)));
            let mut places = vec![place(hour)];
            // As the trade has it: a second place mirrors the first.
            if two && hour < 5 {
                places.push((12.0 - f64::from((hour + more).min(12)), 12.0 - f64::from(hour)));
            }
            Hours { words: format!("{hour} o'clock"), places }
        })
    };
    (prop::sample::select(&SIZES[..]), hours(), prop::option::of(hours())).prop_map(
        |((whole, n, d), usual, some_makers)| {
            let inches = f64::from(whole) + f64::from(n) / f64::from(d);
            let mut size = Written::of(inches, 0, &unit::INCH);
            size.fraction = Some((whole, n, d));
            BulbLine {
                size,
                outside: of(Kind::Length, inches * 0.0254),
                wall: of(Kind::Length, 0.0013),
                usual,
                some_makers,
            }
        },
    )
}

prop_compose! {
    fn clock()(bulb in 0.3..1.2f64, lines in prop::collection::vec(clock_line(), 1..=3)) -> BulbClock {
        BulbClock { bulb: Written::of(bulb, 2, &unit::INCH), lines }
    }
}

prop_compose! {
    fn air_point()(dry in 283.0..318.0f64, wet in 0.2..1.0f64) -> (f64, f64) { (dry, wet) }
}

/// Humidity ratio at a temperature and a relative humidity, near enough to draw.
fn moisture(t: f64, humidity: f64) -> f64 {
    let water = humidity * 611.0 * (17.6 * (t - 273.15) / (t - 30.0)).exp();
    0.622 * water / (98_100.0 - water)
}

prop_compose! {
    fn moist_air()(points in prop::collection::vec(air_point(), 1..=5), joined in any::<bool>()) -> Psychrometric {
        let points: Vec<AirPoint> = points.into_iter().map(|(dry, humidity)| {
            let wet = dry - 9.0 * (1.0 - humidity);
            AirPoint {
                name: "air of some kind".to_owned(),
                dry: kelvin(dry),
                wet: kelvin(wet),
                humidity: of(Kind::Ratio, humidity),
                dew_point: kelvin(dry - 20.0 * (1.0 - humidity)),
                ratio: of(Kind::HumidityRatio, moisture(dry, humidity)),
                enthalpy: of(Kind::MoistAirEnthalpy, 5e4),
                saturated: of(Kind::HumidityRatio, moisture(wet, 1.0)),
            }
        }).collect();
        let high = points.iter().map(|point| point.dry.si).fold(0.0, f64::max) + 4.0;
        let curves = [0.2, 0.4, 0.6, 0.8, 1.0].map(|humidity| HumidityCurve {
            humidity: of(Kind::Ratio, humidity),
            points: (0..=20).map(|i| {
                let t = 272.0 + (high - 272.0) * f64::from(i) / 20.0;
                (kelvin(t), of(Kind::HumidityRatio, moisture(t, humidity)))
            }).collect(),
        });
        Psychrometric { curves: curves.into(), points, joined }
    }
}

prop_compose! {
    fn coil()(
        boiling in 235.0..285.0f64,
        glide in prop_oneof![Just(0.0), 0.0..8.0f64],
        superheat in prop_oneof![Just(0.0), 0.0..30.0f64],
        effect in 90e3..300e3f64,
        air in prop::option::of(1.0..40.0f64),
    ) -> SuperheatAlongCoil {
        SuperheatAlongCoil {
            refrigerant: "R-454C".to_owned(),
            pressure: pascal(6e5),
            inlet: kelvin(boiling - glide),
            boiling: kelvin(boiling),
            line: kelvin(boiling + superheat),
            superheat: degrees(superheat),
            to_dry: heat(effect),
            to_bulb: heat(effect + 900.0 * superheat),
            air: air.map(|over| kelvin(boiling + over)),
        }
    }
}

prop_compose! {
    fn valve()(
        fixed in 0.0..10.0f64,
        opening in 0.5..8.0f64,
        full in prop::collection::vec(500.0..200e3f64, 1..=4),
        orifice in prop::option::of(500.0..200e3f64),
    ) -> CapacityAgainstOpening {
        let curves = full.into_iter().map(|full| CapacityCurve {
            drop: of(Kind::PressureDifference, full * 7.0),
            points: (0..=4).map(|i| {
                let part = f64::from(i) / 4.0;
                (degrees(fixed + opening * part), of(Kind::Power, full * part))
            }).collect(),
        });
        CapacityAgainstOpening {
            fixed: degrees(fixed),
            opening: degrees(opening),
            curves: curves.collect(),
            orifice: orifice.map(|watts| of(Kind::Power, watts)),
        }
    }
}

prop_compose! {
    fn down()(
        pressures in any::<bool>(),
        series in prop::collection::vec(prop::collection::vec((1.0..30.0f64, 0.0..1.0f64), 2..10), 1..=4),
        spread in 0.5..12.0f64,
        level in prop::option::of(0.0..1.0f64),
    ) -> PullDown {
        let value = |share: f64| if pressures { pascal(30.0 * (spread * share).exp()) } else { kelvin(250.0 + 5.0 * spread * share) };
        let series = series.into_iter().enumerate().map(|(i, steps)| {
            let mut time = 0.0;
            let readings = steps.into_iter().map(|(minutes, share)| {
                time += minutes;
                PullDownReading { time: of(Kind::Time, time * 60.0), value: value(share), water: pressures.then(|| kelvin(270.0)) }
            });
            PullDownSeries { name: format!("number {i}"), readings: readings.collect() }
        });
        PullDown {
            series: series.collect(),
            level: level.map(value),
            unit: if pressures { &unit::MICRON_OF_MERCURY } else { &unit::FAHRENHEIT },
            time: &unit::MINUTE,
        }
    }
}

/// Both short arrows on top of a long one, which a proptest found.
#[test]
fn letterings_of_two_short_forces_stay_on_the_sheet() {
    let (spring, evaporator) = (5e3, 924e3);
    let forces = ThreeForces {
        refrigerant: "R-1234ze(E)".to_owned(),
        line: kelvin(280.0),
        bulb: pascal(evaporator + spring),
        evaporator: pascal(evaporator),
        boiling: kelvin(275.0),
        superheat: degrees(5.0),
        spring: of(Kind::PressureDifference, spring),
        left: of(Kind::PressureDifference, spring),
        in_balance: false,
        lost: Some(of(Kind::PressureDifference, 0.0)),
    };
    sound(Scene::ThreeForces(forces)).unwrap();
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn no_line_runs_through_lettering_of_forces(forces in forces()) {
        sound(Scene::ThreeForces(forces))?;
    }

    #[test]
    fn no_line_runs_through_lettering_of_a_curve(curve in curve()) {
        sound(Scene::SaturationCurve(curve))?;
    }

    #[test]
    fn no_line_runs_through_lettering_of_a_cycle(cycle in cycle()) {
        sound(Scene::PressureEnthalpy(cycle))?;
    }

    #[test]
    fn no_line_runs_through_lettering_of_a_clock(clock in clock()) {
        sound(Scene::BulbClock(clock))?;
    }

    #[test]
    fn no_line_runs_through_lettering_of_moist_air(air in moist_air()) {
        sound(Scene::Psychrometric(air))?;
    }

    #[test]
    fn no_line_runs_through_lettering_of_a_coil(coil in coil()) {
        sound(Scene::SuperheatAlongCoil(coil))?;
    }

    #[test]
    fn no_line_runs_through_lettering_of_a_valve(valve in valve()) {
        sound(Scene::CapacityAgainstOpening(valve))?;
    }

    #[test]
    fn no_line_runs_through_lettering_of_a_pull_down(down in down()) {
        sound(Scene::PullDown(down))?;
    }
}

/// A drawing of the little handbook that `block` is set in, read and proofed as an author's is.
#[track_caller]
fn of_block(block: &str) -> Sheet {
    let file = |path: &str, text: String| (path.to_owned(), text);
    let lesson = format!("---\ntitle: Lesson\n---\n```drawing\n{block}```\n");
    let front = "title: T\nhouse: H\nedition: 2026-11\naltitude: 890 ft\nunits: US first\nparts:\n  - {name: p, title: P, lessons: [l]}\n";
    let sources =
        "common-practice:\n  title: Common practice\n  kind: common practice\n  taken: habits\n  seen: from memory\n";
    let values = "bulb-clock:\n  is: place of the bulb\n  value: 10 or 2 o'clock\n  quantity: words\n  source: common-practice\n";
    let refrigerant = |name: &str, how: &str| {
        file(&format!("refrigerants/{name}.yaml"), format!("designation: {name}\n{how}\nsources: [common-practice]\n"))
    };
    let (book, read) = crate::reading::read_files(vec![
        file("handbook.yaml", front.to_owned()),
        file("lessons/p/l.md", lesson),
        refrigerant("R-134a", "equation: R-134a"),
        refrigerant("R-407C", "made-of: {R-32: 23 %, R-125: 25 %, R-134a: 52 %}"),
        file("sources.yaml", sources.to_owned()),
        file("values.yaml", values.to_owned()),
    ]);
    let proof = crate::proofing::proof(&book, read);
    let told: Vec<&str> = proof.findings.iter().map(|finding| finding.says.as_str()).collect();
    assert!(proof.holds(), "{told:?}");
    let drawing = proof.drawings.values().next().expect("a drawing");
    let sheet = sheet(drawing, &POCKETBOOK.words);
    assert_eq!(sheet.canvas.faults(), Vec::<String>::new());
    assert_eq!(sheet.canvas.breaking(), Vec::<&str>::new(), "{}", sheet.canvas.svg());
    sheet
}

fn row(sheet: &Sheet, i: usize) -> String {
    let (head, cells) = &sheet.table.rows[i];
    let cells = cells.iter().map(|cell| cell.us.as_str());
    std::iter::once(head.us.as_str()).chain(cells).collect::<Vec<_>>().join(" | ").replace('\u{a0}', " ")
}

fn says(sheet: &Sheet) -> String {
    sheet.say.us.replace('\u{a0}', " ")
}

const MILK_COOLER: &str = "kind: three-forces
title: Forces
given: {refrigerant: R-134a, suction pressure: 21 psig, suction line temperature: 32 °F}
";

#[test]
fn the_three_forces_balance_by_two_ways() {
    let sheet = of_block(MILK_COOLER);
    assert_eq!(row(&sheet, 0), "bulb | opens | 28.2 psig");
    assert_eq!(row(&sheet, 1), "evaporator | closes | 21 psig");
    assert_eq!(row(&sheet, 2), "spring | closes | 7.2 psi");
    assert!(says(&sheet).ends_with("Together they come to as much. The pin stands still."), "{}", says(&sheet));
    assert_eq!(sheet.say.si.replace('\u{a0}', " ").split(". ").next(), Some("R-134a, 5.0 K of superheat at the bulb"));
    assert!(sheet.canvas.lettering().contains(&"28.2\u{a0}psig".to_owned()));
}

#[test]
fn a_weak_spring_lets_the_pin_open_and_a_strong_one_closes_it() {
    let with = |spring: &str| MILK_COOLER.replace("32 °F}", &format!("32 °F, spring pressure: {spring}}}"));
    for (spring, verdict) in
        [("4 psi", "The pin opens."), ("7.2 psi", "The pin stands still."), ("12 psi", "The pin closes.")]
    {
        let sheet = of_block(&with(spring));
        assert!(says(&sheet).ends_with(verdict), "{}", says(&sheet));
        assert_eq!(row(&sheet, 3), "spring to balance |  | 7.2 psi");
    }
}

#[test]
fn a_blend_has_two_curves_and_its_glide() {
    let sheet = of_block(
        "kind: saturation-curve\ntitle: C\ngiven: {refrigerant: R-407C, temperature: -20 to 60 °F by 20 °F, pressure: 65 psig}\n",
    );
    assert!(says(&sheet).contains("a glide of 11.1 °F"), "{}", says(&sheet));
    assert_eq!(sheet.table.rows.len(), 5);
    let lettered = sheet.canvas.lettering();
    for word in ["bubble", "dew", "liquid", "vapor", "psig", "barg"] {
        assert!(lettered.iter().any(|text| text == word), "{word}: {lettered:?}");
    }
}

#[test]
fn a_pure_refrigerant_has_one_curve() {
    let sheet = of_block(
        "kind: saturation-curve\ntitle: C\ngiven: {refrigerant: R-134a, temperature: 0 to 80 °F by 20 °F, pressure: 35 psig}\n",
    );
    assert!(says(&sheet).ends_with("At 35 psig it boils at 39.5 °F."), "{}", says(&sheet));
    assert_eq!(sheet.table.columns.len(), 2);
}

#[test]
fn the_cycle_goes_around_its_corners() {
    let sheet = of_block(
        "kind: pressure-enthalpy\ntitle: C\ngiven: {refrigerant: R-134a, evaporating temperature: 20 °F, superheat: 10 °F, condensing temperature: 105 °F, liquid temperature: 95 °F}\n",
    );
    let cells = |i: usize| -> Vec<f64> { sheet.table.rows[i].1.iter().map(|cell| cell.us.parse().unwrap()).collect() };
    let (coil, compressor, condenser, valve) = (cells(0), cells(1), cells(2), cells(3));
    assert_eq!((coil[0], compressor[0]), (valve[0], condenser[0]), "two pressures");
    assert_eq!(condenser[2], valve[2], "throttling keeps enthalpy");
    assert!((coil[1], condenser[1]) == (30.0, 95.0) && compressor[1] > 105.0);
    assert!(compressor[2] > coil[2] && coil[2] > valve[2]);
    assert_eq!(sheet.key.len(), 4);
}

#[test]
fn the_bulb_sits_where_the_standing_value_says() {
    let sheet = of_block(
        "kind: bulb-clock\ntitle: B\ngiven: {bulb: 1/2 in}\nlines:\n  - {size: 5/8 in, bulb at: 12 o'clock}\n  - {size: 2-5/8 in, bulb at: \"value:bulb-clock\", or at: 4 to 5 or 7 to 8 o'clock}\n",
    );
    assert_eq!(row(&sheet, 1), "2-5/8 in | 10 or 2 o'clock | 4 to 5 or 7 to 8 o'clock");
    let lettered = sheet.canvas.lettering();
    for hour in ["10", "2", "4", "5", "7", "8"] {
        assert!(lettered.iter().any(|text| text == hour), "{hour}: {lettered:?}");
    }
    assert!(!lettered.iter().any(|text| text == "6"), "never at six");
}

#[test]
fn air_cooled_below_its_dew_point_loses_water() {
    let sheet = of_block(
        "kind: psychrometric\ntitle: A\ngiven: {joined: yes}\npoints:\n  - {is: return air, dry bulb: 76 °F, wet bulb: 64 °F}\n  - {is: off the coil, dry bulb: 55 °F, relative humidity: 92 %}\n",
    );
    assert_eq!(row(&sheet, 0), "A | 76.0 | 64.0 | 53 | 57.5 | 72.8 | 29.6");
    assert!(says(&sheet).contains("B, off the coil: 55 °F and 92 %, dew point 52.7 °F."), "{}", says(&sheet));
}

#[test]
fn superheat_is_the_last_stretch_of_the_coil() {
    let sheet = of_block(
        "kind: superheat-along-coil\ntitle: A\ngiven: {refrigerant: R-407C, suction pressure: 65 psig, suction line temperature: 50 °F, liquid temperature: 95 °F, air temperature: 75 °F}\n",
    );
    let taken = |i: usize| sheet.table.rows[i].1[1].us.parse::<f64>().unwrap();
    assert!(taken(0) == 0.0 && taken(1) > 0.9 * taken(2) && taken(1) < taken(2));
    let temperature = |i: usize| sheet.table.rows[i].1[0].us.parse::<f64>().unwrap();
    assert!(temperature(0) + 4.0 < temperature(1), "a blend warms as it boils");
    assert!(sheet.canvas.lettering().contains(&"air 75\u{a0}°F".to_owned()));
}

#[test]
fn a_valve_is_shut_up_to_its_static_superheat() {
    let sheet = of_block(
        "kind: capacity-against-opening\ntitle: A\ngiven: {capacity: 3 ton, rated pressure drop: 160 psi, pressure drop: [80 psi, 160 psi], static superheat: 6 °F, opening superheat: 4 °F, orifice capacity: 2.4 ton}\n",
    );
    assert_eq!(row(&sheet, 0), "6.0 | 0.00 | 0.00");
    assert_eq!(row(&sheet, 2), "8.0 | 1.06 | 1.50");
    assert_eq!(row(&sheet, 4), "10.0 | 2.12 | 3.00");
}

#[test]
fn a_vacuum_that_falls_through_decades_is_drawn_by_its_logarithm() {
    let sheet = of_block(
        "kind: pull-down\ntitle: A\ngiven: {level: 500 micron}\nreadings:\n  - {time: 0 min, pressure: 700000 micron}\n  - {time: 5 min, pressure: 5000 micron}\n  - {time: 20 min, pressure: 400 micron}\n",
    );
    assert_eq!(row(&sheet, 1), "5 | 5000 | 34.2");
    assert!(says(&sheet).starts_with("From 700,000 microns at 0 min to 400 microns at 20 min."), "{}", says(&sheet));
    let lettered = sheet.canvas.lettering();
    for tick in ["1000", "10,000", "100,000"] {
        assert!(lettered.iter().any(|text| text == tick), "{tick}: {lettered:?}");
    }
    assert!(sheet.canvas.svg().contains("class=\"hid\""), "the level is drawn");
}

#[test]
fn a_swing_beyond_both_ends_is_told() {
    let sheet = of_block(
        "kind: pull-down\ntitle: A\nreadings:\n  - {time: 0 min, superheat: 11 °F}\n  - {time: 5 min, superheat: 6.1 °F}\n  - {time: 9 min, superheat: 8.7 °F}\n  - {time: 15 min, superheat: 8 °F}\n",
    );
    assert_eq!(says(&sheet), "From 11 °F at 0 min to 8 °F at 15 min. Lowest is 6.1 °F at 5 min.");
}

#[test]
fn what_the_coil_loses_presses_with_the_spring() {
    let sheet =
        of_block(&MILK_COOLER.replace("32 °F}", "32 °F, evaporator pressure drop: 3 psi, spring pressure: 4.2 psi}"));
    assert_eq!(row(&sheet, 2), "lost in the coil | closes | 3 psi");
    assert!(says(&sheet).ends_with("The pin stands still."), "{}", says(&sheet));
    assert_eq!(sheet.key.len(), 4);
}

#[test]
fn air_in_a_freezer_is_on_the_chart() {
    let sheet = of_block(
        "kind: psychrometric\ntitle: A\npoints:\n  - {is: freezer, dry bulb: -10 °F, relative humidity: 80 %}\n  - {dry bulb: 40 °F, relative humidity: 70 %}\n",
    );
    assert!(sheet.canvas.lettering().iter().any(|text| text == "\u{2212}10"), "{:?}", sheet.canvas.lettering());
}
