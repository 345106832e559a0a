//! `reckon` as it is typed at a shell, and every command line that the README shows.

use crate::bench::{Ran, content, run};
use std::path::Path;

fn reckon(arguments: &[&str]) -> Ran {
    let dir = tempfile::tempdir().unwrap();
    run(dir.path(), &[&["reckon"], arguments].concat())
}

/// Fails unless the program ended with status 2 and said just that.
#[track_caller]
fn refused(arguments: &[&str], says: &str) {
    let ran = reckon(arguments);
    assert_eq!(ran.status, Some(2), "{}", ran.told());
    assert_eq!(ran.out, "", "{}", ran.told());
    assert_eq!(ran.err.trim_end(), format!("coldpress: {}", says.trim()), "{}", ran.told());
}

#[test]
fn a_file_of_worked_examples_is_done_again_row_by_row() {
    let examples = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/worked-examples.csv");
    let ran = reckon(&["--rows", examples.to_str().unwrap()]).ended(0);
    let last = ran.out.lines().last().unwrap();
    let (holding, all) = last.trim_end_matches(" rows hold").split_once(" of ").unwrap();
    assert!(holding == all && all.parse::<usize>().unwrap() > 100, "{last}");
    assert!(ran.out.starts_with("A01  holds  atmospheric-pressure: 12.228 psia\n"), "{}", ran.told());

    let dir = tempfile::tempdir().unwrap();
    let run_rows = |text: &str| {
        std::fs::write(dir.path().join("rows.csv"), text).unwrap();
        run(dir.path(), &["reckon", "--rows", "rows.csv"])
    };
    let ran = run_rows(
        "# ours\nid,topic,inputs,answer,unit,tolerance\nX1,superheat,refrigerant=R-410A; suction pressure=118 psig; suction line \
         temperature=52 °F,12.2,°F,0.1\nX2,superheat,refrigerant=R-410A; suction pressure=118 psig; suction line temperature=52 °F,21.1,°F,0.1\n\
         X3,superheet,,1,°F,0.1\nX4,atmospheric-pressure,altitude=high,1,psia,0.1\nX5,atmospheric-pressure,altitude=0 ft,14.696,psia,little\n",
    )
    .ended(1);
    assert_eq!(
        ran.out.trim_end(),
        "X1  holds  superheat: 12.2 °F\n\
         X2  does not hold  (rows.csv:4) superheat: 21.1 °F is wanted within 0.1, and 12.2 °F was found\n\
         X3  does not hold  (rows.csv:5) there is no computation `superheet`; the nearest is `superheat`\n\
         X4  does not hold  (rows.csv:6) altitude: `high` does not begin with a number: write a number and its unit, as `30 ft`\n\
         X5  does not hold  (rows.csv:7) its tolerance `little` is no number\n\
         1 of 5 rows hold"
    );
    let ran = run_rows("id,topic,inputs,answer,unit\n").ended(2);
    assert!(ran.err.contains("rows.csv:1: the head has no column `tolerance`"), "{}", ran.told());
    assert!(run(dir.path(), &["reckon", "--rows", "none.csv"]).ended(3).err.contains("could not read `none.csv`"));
}

#[test]
fn the_readme_s_superheat() {
    let ran =
        reckon(&["superheat", "refrigerant=R-410A", "suction pressure=118 psig", "suction line temperature=52 °F"])
            .ended(0);
    assert_eq!(ran.err, "");
    assert_eq!(
        ran.out,
        "\
superheat: 12.2 °F   (6.8 K)

given
  refrigerant                R-410A
  suction pressure           118 psig   8.14 barg
  suction line temperature   52 °F      11.1 °C
  altitude                   0 ft       0 m

working
  p_s = 118 psig + 14.70 psia = 132.70 psia
  T_e = T_dew(R-410A, 132.70 psia) = 39.84 °F
  SH = 52 °F − 39.84 °F = 12.2 °F

source
  Physics: temperature of the line less the dew temperature at its pressure, by the refrigerant's saturation lines
"
    );
}

#[test]
fn altitude_moves_what_a_gauge_means() {
    let at =
        |altitude: &str| reckon(&["dew-temperature", "refrigerant=R-134a", "pressure=20 psig", altitude]).ended(0).out;
    assert!(at("altitude=0 ft").starts_with("dew temperature: 22.2 °F"), "{}", at("altitude=0 ft"));
    assert!(at("altitude=890 ft").starts_with("dew temperature: 21.5 °F"), "{}", at("altitude=890 ft"));
}

#[test]
fn hyphens_stand_for_spaces_and_si_is_read_as_well() {
    let typed = ["superheat", "refrigerant=R-410A", "suction-pressure=8.14 barg", "suction-line-temperature=11.1 °C"];
    assert!(reckon(&typed).ended(0).out.starts_with("superheat: 12.1 °F   (6.7 K)"), "{}", reckon(&typed).told());
}

#[test]
fn names_that_are_not_known() {
    refused(
        &["superheet", "refrigerant=R-410A"],
        "there is no computation `superheet`; the nearest is `superheat`\n`coldpress reckon --list` names all there are",
    );
    let mut brought: Vec<String> = crate::bench::files_below(&content().join("refrigerants"))
        .into_values()
        .flat_map(|file| String::from_utf8(file).unwrap().lines().map(str::to_owned).collect::<Vec<_>>())
        .filter_map(|line| line.strip_prefix("designation: ").map(str::to_owned))
        .collect();
    brought.extend(coldpress::fluid::Equation::designations().map(str::to_owned));
    brought.sort();
    brought.dedup();
    refused(
        &["superheat", "refrigerant=R-410B", "suction pressure=118 psig", "suction line temperature=52 °F"],
        &format!(
            "there is no refrigerant `R-410B`; the nearest is `R-410A`\n\
             a handbook's own are known with `--with DIR`; these come with the program: {}",
            brought.join(", ")
        ),
    );
}

#[test]
fn inputs_that_can_t_be_read() {
    let superheat =
        |pressure: &'static str| ["superheat", "refrigerant=R-410A", pressure, "suction line temperature=52 °F"];
    refused(
        &superheat("suction pressure"),
        "`suction pressure` gives no value; write an input as `name=value`, \"suction pressure=118 psig\"",
    );
    refused(
        &superheat("suction pressure=118 psi"),
        "suction pressure: `118 psi` does not say from where it is counted: write `118 psig` or `118 psia`",
    );
    refused(
        &superheat("suction pressure=118"),
        "suction pressure: `118` has no unit: a pressure is written with one, as `118 psig` or `118 psia`",
    );
    refused(
        &superheat("suction pressure=118 °F"),
        "suction pressure: `118 °F` is a temperature, and a pressure is wanted here: write it as `118 psig`",
    );
    refused(
        &superheat("sucton pressure=118 psig"),
        "superheat takes no `sucton pressure`; the nearest is `suction pressure`\n\
         it takes refrigerant, suction pressure, suction line temperature, altitude",
    );
}

#[test]
fn what_has_no_answer() {
    let ran = reckon(&["dew-temperature", "refrigerant=R-134a", "pressure=2000 psig"]).ended(2);
    assert!(ran.err.starts_with("coldpress: R-134a: no saturation temperature at "), "{}", ran.told());
    let ran = reckon(&["dew-temperature", "refrigerant=R-134a"]).ended(2);
    assert!(ran.err.contains("also needs pressure"), "{}", ran.told());
}

/// Runs `reckon NAMES --each` on a table of that text.
fn each(names: &str, more: &[&str], text: &str) -> Ran {
    let dir = tempfile::tempdir().unwrap();
    std::fs::write(dir.path().join("points.csv"), text).unwrap();
    run(dir.path(), &[&["reckon", names, "--each", "points.csv"], more].concat())
}

#[test]
fn a_column_of_computations_in_si() {
    let text = "refrigerant,temperature [K]\nR-410A,280\nR-717,250.5\nR-454C,300\n";
    let ran = each("bubble-pressure,dew-pressure,liquid-density", &[], text).ended(0);
    let lines: Vec<&str> = ran.out.lines().collect();
    assert_eq!(lines[0], "refrigerant,temperature [K],bubble-pressure [Pa],dew-pressure [Pa],liquid-density [kg/m³]");
    assert_eq!(lines.len(), 4);
    for (line, name, kelvin) in [(lines[1], "R-410A", 280.0), (lines[2], "R-717", 250.5), (lines[3], "R-454C", 300.0)] {
        let fields: Vec<&str> = line.split(',').collect();
        assert_eq!((fields[0], fields[1].parse::<f64>().unwrap()), (name, kelvin));
        let fluid = crate::properties::refrigerant(name);
        let t = coldpress::quantity::Temperature::from_kelvin(kelvin);
        let wanted = [
            fluid.bubble_pressure(t).unwrap().as_pascal(),
            fluid.dew_pressure(t).unwrap().as_pascal(),
            fluid.bubble(t).unwrap().liquid.density_kg_m3(),
        ];
        for (field, wanted) in fields[2..].iter().zip(wanted) {
            // A handbook writes shares in per cent, the tests as numbers: the sums may differ in the last digit.
            let found: f64 = field.parse().unwrap();
            assert!((found / wanted - 1.0).abs() < 1e-12, "{name}: {found} against {wanted}");
        }
    }
}

#[test]
fn every_property_by_its_name() {
    let saturated = "refrigerant,temperature\nR-134a,273.15\n";
    let names = "liquid-density,vapor-density,liquid-enthalpy,vapor-enthalpy,liquid-entropy,vapor-entropy";
    let ran = each(names, &[], saturated).ended(0);
    let numbers = |ran: &Ran, after: usize| -> Vec<f64> {
        ran.out.lines().nth(1).unwrap().split(',').skip(after).map(|cell| cell.parse().unwrap()).collect()
    };
    // Saturated liquid at 0 °C is the zero of the IIR.
    let found = numbers(&ran, 2);
    let wanted = [1294.8, 14.43, 200e3, 398.6e3, 1e3, 1727.1];
    assert!(found.iter().zip(wanted).all(|(f, w)| (f / w - 1.0).abs() < 5e-4), "{found:?}");
    assert!(
        ran.err.contains("counted from 200 kJ/kg and 1 kJ/(kg·K) for saturated liquid at 0 °C (IIR)"),
        "{}",
        ran.err
    );

    let single = "refrigerant,pressure [kPa],temperature [°C]\nR-134a,100,25\n";
    let ran = each("density,enthalpy,entropy,heat-capacity", &[], single).ended(0);
    let fluid = crate::properties::refrigerant("R-134a");
    let state = fluid
        .state(
            coldpress::quantity::Pressure::from_kilopascal(100.0),
            coldpress::quantity::Temperature::from_celsius(25.0),
        )
        .unwrap();
    let wanted =
        [state.density_kg_m3(), state.enthalpy_j_kg(), state.entropy_j_kg_k(), state.heat_capacity_p_j_kg_k().unwrap()];
    let found = numbers(&ran, 3);
    assert!(found.iter().zip(wanted).all(|(f, w)| (f / w - 1.0).abs() < 1e-12), "{found:?} {wanted:?}");
    assert!(ran.out.starts_with(
        "refrigerant,pressure [kPa],temperature [°C],density [kg/m³],enthalpy [J/kg],entropy [J/(kg·K)],heat-capacity [J/(kg·K)]\n"
    ));

    let ran = each("bubble-temperature,dew-temperature", &["refrigerant=R-454C"], "pressure [Pa]\n500000\n").ended(0);
    let glide = numbers(&ran, 1);
    assert!(
        glide[1] - glide[0] > 5.0 && ran.out.starts_with("pressure [Pa],bubble-temperature [K],dew-temperature [K]\n")
    );
}

#[test]
fn another_zero_and_other_units_can_be_asked_for() {
    let text = "refrigerant,temperature [°F]\nR-410A,-40\n";
    let ran = each("liquid-enthalpy [Btu/lb]", &["--counted-from", "ashrae"], text).ended(0);
    let (head, row) = ran.out.trim_end().split_once('\n').unwrap();
    assert_eq!(head, "refrigerant,temperature [°F],liquid-enthalpy [Btu/lb]");
    assert!(row.split(',').nth(2).unwrap().parse::<f64>().unwrap().abs() < 1e-9, "{row}");
    assert!(ran.err.contains("zero for saturated liquid at −40 °F (−40 °C) (ASHRAE)"), "{}", ran.err);
    let one =
        reckon(&["liquid-enthalpy", "refrigerant=R-410A", "temperature=-40 °F", "--counted-from", "ASHRAE"]).ended(0);
    assert!(one.out.contains("(ASHRAE)") && one.out.contains("0.0 Btu/lb"), "{}", one.told());
    let ran =
        reckon(&["liquid-enthalpy", "refrigerant=R-410A", "temperature=40 °F", "--counted-from", "Kelvin"]).ended(2);
    assert!(ran.err.contains("it should be one of IIR, ASHRAE, boiling-point"), "{}", ran.told());
}

#[test]
fn a_row_that_fails_says_why_in_its_place() {
    let text = "refrigerant,temperature [K]\nR-410A,280\nR-410A,400\nR-410B,280\nR-410A,warm\nR-410A\nR-744,-3\n";
    let ran = each("bubble-pressure,dew-pressure", &[], text).ended(1);
    let mut rows = csv::Reader::from_reader(ran.out.as_bytes());
    let rows: Vec<Vec<String>> = rows.records().map(|row| row.unwrap().iter().map(str::to_owned).collect()).collect();
    assert_eq!(rows.len(), 6);
    assert!(rows.iter().all(|row| row.len() == 4), "{rows:?}");
    assert!(rows[0][2].parse::<f64>().unwrap() > 9e5);
    assert!(rows[1][2].starts_with("R-410A: no bubble pressure at 260.3 °F (126.9 °C); it is known from "), "{rows:?}");
    assert!(rows[1][3].starts_with("R-410A: no dew pressure"));
    assert_eq!(rows[2][2], "there is no refrigerant `R-410B`; the nearest is `R-410A`");
    assert!(rows[3][2].starts_with("temperature: `warm` does not begin with a number"), "{rows:?}");
    assert_eq!(rows[4][3], "this row has 1 fields, and the first row names 2");
    assert!(rows[5][2].contains("below absolute zero"), "{rows:?}");
}

#[test]
fn a_heading_that_can_t_be_read_stops_before_any_row() {
    let refused = |names: &str, text: &str, says: &str| {
        let ran = each(names, &[], text).ended(2);
        assert_eq!(ran.out, "");
        assert_eq!(ran.err.trim_end(), format!("coldpress: {says}"));
    };
    refused(
        "dew-temperature",
        "refrigerant,presure [kPa]\n",
        "points.csv:1: column 2, `presure [kPa]`: dew-temperature takes no `presure`; the nearest is `pressure`; \
         it takes altitude, pressure, refrigerant",
    );
    refused(
        "dew-temperature",
        "refrigerant,pressure [psi]\n",
        "points.csv:1: column 2, `pressure [psi]`: `1 psi` does not say from where it is counted: write `1 psig` or `1 psia`",
    );
    refused("dew-temperature", "pressure,pressure\n", "points.csv:1: column 2, `pressure`: `pressure` is given twice");
    refused(
        "dew-temperature",
        "",
        "`points.csv` is empty; its first row names the inputs, as `refrigerant,temperature [K]`",
    );
    let ran = each("dew-temprature", &[], "refrigerant\n").ended(2);
    assert!(ran.err.contains("the nearest is `dew-temperature`"), "{}", ran.told());
    let dir = tempfile::tempdir().unwrap();
    let ran = run(dir.path(), &["reckon", "dew-temperature", "--each", "none.csv"]).ended(2);
    assert_eq!(ran.err.trim_end(), "coldpress: there is no file `none.csv`");
}

#[test]
fn the_list_names_every_computation_and_each_explains_itself_by_an_example_that_runs() {
    let list = reckon(&["--list"]).ended(0).out;
    let names: Vec<&str> = coldpress::trade::catalogue().iter().map(|c| c.name).collect();
    assert!(names.len() >= 20);
    for name in names {
        assert!(list.contains(&format!("\n  {name} ")), "{name} is not listed");
        let explained = reckon(&[name, "--explain"]).ended(0).out;
        for part in ["\ntakes\n", "\nformula\n", "\nsource\n", "\nfor example\n"] {
            assert!(explained.contains(part), "{name} does not explain its{part}");
        }
        let (_, example) = explained.split_once("\nfor example\n  coldpress ").unwrap();
        let (line, answer) = example.split_once('\n').unwrap();
        let ran = run(&content(), &words(line).iter().map(String::as_str).collect::<Vec<_>>()).ended(0);
        // `superheat: 12.2 °F   (6.8 K)`: the example's answer is one of the two.
        let found = ran.out.lines().next().and_then(|line| line.split_once(": ")).map_or("", |(_, both)| both);
        let mut both = found.strip_suffix(')').unwrap_or(found).split("   (");
        assert!(both.any(|one| agree(one, answer.trim())), "{name}: {answer}\n{}", ran.told());
    }
}

/// Whether two figures are the same to the digits that both have: the shell writes those a gauge shows, an example those it
/// was worked to. What is no figure is the same or not.
fn agree(one: &str, other: &str) -> bool {
    let read = |text: &str| {
        let (number, unit) = text.split_once(' ').unwrap_or((text, ""));
        let number = number.replace(',', "").replace('−', "-");
        let decimals = number.split_once('.').map_or(0, |(_, after)| after.len());
        number.parse::<f64>().ok().map(|value| (value, 0.5 * 0.1f64.powi(decimals as i32), unit.to_owned()))
    };
    match (read(one), read(other)) {
        (Some((a, half_a, unit_a)), Some((b, half_b, unit_b))) => unit_a == unit_b && (a - b).abs() <= half_a + half_b,
        _ => one == other,
    }
}

/// The words of a command line, quoted ones whole.
fn words(line: &str) -> Vec<String> {
    let mut words = vec![String::new()];
    let mut quoted = false;
    for letter in line.chars() {
        match letter {
            '"' => quoted = !quoted,
            ' ' if !quoted => words.push(String::new()),
            other => words.last_mut().unwrap().push(other),
        }
    }
    words.retain(|word| !word.is_empty());
    words
}

#[test]
fn what_the_readme_shows_at_a_shell_is_what_comes() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let readme = std::fs::read_to_string(root.join("README.md")).unwrap();
    let mut shown = 0;
    for block in readme.split("```console\n").skip(1) {
        let block = block.split("```").next().unwrap();
        for command in block.split("$ coldpress ").skip(1) {
            let (line, output) = command.split_once('\n').unwrap_or((command, ""));
            let arguments = words(line);
            let ran = run(root, &arguments.iter().map(String::as_str).collect::<Vec<_>>()).ended(0);
            if !output.trim().is_empty() {
                assert_eq!(ran.out.trim_end(), output.trim_end(), "coldpress {line}");
            }
            shown += 1;
        }
    }
    assert!(shown >= 1);
}
