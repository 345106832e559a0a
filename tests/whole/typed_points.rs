//! A refrigerant known by points typed from a published table: everywhere saturation is enough, and no further.

use crate::bench::{Book, run};
use coldpress::quantity::{Pressure, Temperature};

const FILE: &str = "refrigerants/R-XXX.yaml";

/// A refrigerant's file with this table of R-454B's figures, to 0.1 psig against the air at sea level.
fn file(step: usize, change: impl Fn(i32, &mut [String; 3])) -> String {
    let fluid = crate::properties::refrigerant("R-454B");
    let psig = |p: Pressure| format!("{:.1}", p.as_psig(Pressure::STANDARD_ATMOSPHERE));
    let mut text = "\
designation: R-XXX
safety-group: A2L
points:
  source: common-practice
  columns: [temperature °F, bubble psig, dew psig]
  rows:
"
    .to_owned();
    for f in (-40..=140).step_by(step) {
        let t = Temperature::from_fahrenheit(f64::from(f));
        let mut row = [f.to_string(), psig(fluid.bubble_pressure(t).unwrap()), psig(fluid.dew_pressure(t).unwrap())];
        change(f, &mut row);
        text.push_str(&format!("    - [{}]\n", row.join(", ")));
    }
    text
}

fn book(text: &str) -> Book {
    let book = Book::sound();
    book.put(FILE, text);
    book
}

#[test]
fn tables_superheat_and_the_shell_work_from_points() {
    let book = book(&file(5, |_, _| ()));
    book.put(
        "lessons/coil/gauges.md",
        "\
---
title: Gauges
---
At [113.2 psia](as:pressure) bubbles form at [X](figure:bubble-temperature?refrigerant=R-XXX&pressure=113.2psia).

```worked-example
title: A coil on the unnamed blend
given:
  refrigerant: R-XXX
  suction pressure: 107.5 psia
  suction line temperature: 40 °F
steps:
  - find: superheat
    answer: \"?\"
so: Look again.
```

```worked-example
title: A condenser on the unnamed blend
given:
  refrigerant: R-XXX
  liquid pressure: 303.2 psia
  liquid line temperature: 90 °F
steps:
  - find: subcooling
    answer: 6.5 °F
so: Look again.
```

```work-it-out
find: subcooling
given: {refrigerant: R-XXX, liquid pressure: 300 psig, liquid line temperature: 90 °F}
```

```saturation-table
refrigerant: R-XXX
from: -40 °F
to: 140 °F
step: 10 °F
also: [enthalpy]
```
"
        .replace("[X]", "[33.0 °F]")
        .as_str(),
    );
    let ran = book.run(&["bind", "book", "--into", "bound"]).ended(0);
    let lesson = std::fs::read_to_string(book.beside().join("bound/lesson/gauges.html")).unwrap();
    // The row at 40 °F against the air at 890 ft is half a psi above what is printed for sea level.
    assert!(lesson.contains(">113.7<") && lesson.contains(">108.0<"), "{lesson}");
    assert!(
        lesson.contains("can't be had: it is known by typed points")
            || lesson.contains("can’t be had: it is known by typed points"),
        "{}",
        ran.told()
    );
    let leaf = std::fs::read_to_string(book.beside().join("bound/refrigerant/r-xxx.html")).unwrap();
    for part in ["Typed points", "37 rows, each held to its neighbors", "−40", "140"] {
        assert!(leaf.contains(part), "no `{part}` in {leaf}");
    }
    let ran = book
        .run(&[
            "reckon",
            "superheat",
            "refrigerant=R-XXX",
            "suction pressure=107.5 psig",
            "suction line temperature=50 °F",
            "--with",
            "book",
        ])
        .ended(0);
    assert!(ran.out.starts_with("superheat: 10.0 °F"), "{}", ran.told());
    let ran = book
        .run(&[
            "reckon",
            "liquid-density",
            "refrigerant=R-XXX",
            "temperature=40 °F",
            "--with",
            "book",
            "--counted-from",
            "ASHRAE",
        ])
        .ended(2);
    assert_eq!(
        ran.err.trim_end(),
        "coldpress: R-XXX: its density, enthalpy and entropy can't be had: it is known by typed points of pressure and \
         temperature only"
    );
}

#[test]
fn a_slip_of_the_pen_is_shown_in_its_row() {
    let book = book(&file(20, |f, row| {
        if f == 40 {
            row[1] = "131.2".to_owned();
        }
    }));
    let ran = book.run(&["proof", "book"]).ended(1);
    assert_eq!(
        ran.err.trim(),
        "\
error[point-off-curve]: the bubble pressure `131.2` breaks the curve of the rows around it
  --> refrigerants/R-XXX.yaml:11:12
   |
11 |     - [40, 131.2, 107.5]
   |            ^^^^^ row 5
   |
   = found: its neighbors put it at 113.1 psig, on the logarithm of pressure against 1/T
   = help: two digits may have changed places: look whether the source has `113.2`"
    );
}

#[test]
fn points_that_an_equation_contradicts_are_told() {
    let points = file(20, |_, _| ());
    let points = points.split_once("safety-group: A2L\n").unwrap().1;
    // The figures are R-454B's, and R-454A is another blend of the same two.
    let book = book(&format!("designation: R-XXX\nmade-of: {{R-32: 35 %, R-1234yf: 65 %}}\n{points}"));
    let ran = book.run(&["proof", "book"]).ended(0);
    assert!(ran.err.starts_with("warning[points-disagree]: the typed points of `R-XXX` are up to "), "{}", ran.told());
    let book = self::book(&format!("designation: R-XXX\nmade-of: {{R-32: 68.9 %, R-1234yf: 31.1 %}}\n{points}"));
    assert_eq!(book.run(&["proof", "book"]).ended(0).err, "");
}

/// The first number of an answer: `superheat: 19.3 °F   (10.7 K)`.
fn degrees(out: &str) -> f64 {
    out.split(' ').nth(1).unwrap().replace('−', "-").parse().unwrap_or_else(|_| panic!("{out}"))
}

#[test]
fn superheat_and_subcooling_are_those_of_the_blend_the_points_are_of() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let reckon = |name: &str, fluid: &str, given: [&str; 2]| {
        let fluid = format!("refrigerant={fluid}");
        let ran = run(root, &["reckon", name, &fluid, given[0], given[1], "altitude=890 ft", "--with", "tests/typed"]);
        degrees(&ran.ended(0).out)
    };
    // The card is printed to a tenth of a psi, which is half a tenth of a degree at the coldest of these; an answer has a
    // tenth of its own.
    for (name, given) in [
        ("superheat", ["suction pressure=12 psig", "suction line temperature=-20 °F"]),
        ("superheat", ["suction pressure=60 psig", "suction line temperature=32 °F"]),
        ("superheat", ["suction pressure=118 psig", "suction line temperature=52 °F"]),
        ("subcooling", ["liquid pressure=150 psig", "liquid line temperature=40 °F"]),
        ("subcooling", ["liquid pressure=280 psig", "liquid line temperature=80 °F"]),
        ("subcooling", ["liquid pressure=510 psig", "liquid line temperature=120 °F"]),
    ] {
        let (points, equation) = (reckon(name, "R-XXX", given), reckon(name, "R-454B", given));
        assert!((points - equation).abs() < 0.16, "{name} at {given:?}: {points} from points, {equation} by equations");
    }
    let into = tempfile::tempdir().unwrap();
    let bound = into.path().join("bound");
    run(root, &["bind", "tests/typed", "--into", bound.to_str().unwrap()]).ended(0);
    let lesson = std::fs::read_to_string(bound.join("lesson/two-readings.html")).unwrap();
    // Worked, without a script: once in the example, once in the form.
    for answer in ["19.3", "14.3"] {
        assert!(lesson.matches(answer).count() >= 2, "no {answer} in {lesson}");
    }
    assert_eq!(lesson.matches("class=\"workform").count(), 2, "{lesson}");
    assert!(bound.join("kit/fluid/r-xxx.js").exists());
}
