//! The JavaScript of every formula gives what the catalogue gives, run by Node.js, which the browser tests need too.
//!
//! Look-ups of refrigerants are answered with what the catalogue's own run was answered, so that the arithmetic alone
//! is compared.

use std::io::Write as _;
use std::process::{Command, Stdio};

use coldpress::trade::{RUNTIME, Surroundings, Worked, catalogue, reckon};

use crate::properties::refrigerant;

/// Runs each case: looks up by the nearest recorded question, compares answer and notes, prints what differs.
const HARNESS: &str = r#"
let wrong = 0;
const near = (a, b) => Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b), 1e-9);
for (const {name, script, given, air, asked, answer, notes} of cases) {
  const fluids = {};
  for (const look of asked) {
    const props = fluids[look.fluid] ??= {};
    props[look.property] ??= (...at) => {
      const fits = asked.filter(l => l.fluid === look.fluid && l.property === look.property);
      const distance = l => Math.max(0, ...l.at.map((x, i) => Math.abs(x - at[i]) / Math.abs(x)));
      fits.sort((a, b) => distance(a) - distance(b));
      if (!(distance(fits[0]) < 1e-9)) throw new Error(`${name} asks ${look.property}(${at}), which was not asked before`);
      return fits[0].value;
    };
  }
  const props = Object.assign({}, fluids, fluids.refrigerant);
  if (!near(runtime.air(altitude), air)) { console.log(`air: ${runtime.air(altitude)} is not ${air}`); wrong++; }
  const worked = script(given, air, props, runtime);
  if (!near(worked.answer, answer) || worked.notes.length !== notes) {
    console.log(`${name}: ${worked.answer} with ${worked.notes.length} notes, where ${answer} with ${notes} is right`);
    wrong++;
  }
}
console.log(wrong === 0 ? `all ${cases.length} agree` : `${wrong} differ`);
"#;

fn case(worked: &Worked) -> String {
    let quoted = |text: &str| format!("{text:?}");
    let given: Vec<String> = worked
        .inputs
        .iter()
        .filter_map(|input| Some(format!("{}: {:?}", quoted(input.name), input.value?.si)))
        .collect();
    let asked: Vec<String> = worked
        .look_ups
        .iter()
        .map(|look| {
            format!(
                "{{fluid: {}, property: {}, at: {:?}, value: {:?}}}",
                quoted(look.fluid),
                quoted(look.property.script_name()),
                look.at,
                look.value
            )
        })
        .collect();
    format!(
        "{{name: {}, script: {}, given: {{{}}}, air: {:?}, asked: [{}], answer: {:?}, notes: {}}}",
        quoted(worked.computation.name),
        worked.computation.script(),
        given.join(", "),
        worked.air.as_pascal(),
        asked.join(", "),
        worked.answer.si,
        worked.notes.len()
    )
}

#[test]
fn every_script_gives_what_the_catalogue_gives() {
    // Above the sea, so that nothing agrees by leaving the air out.
    let altitude = 1000.0;
    let around = Surroundings { altitude: coldpress::quantity::Value::of(coldpress::quantity::Kind::Length, altitude) };
    let cases: Vec<String> = catalogue()
        .iter()
        .map(|c| {
            let mut given = c.worked.given(c, &|name| Some(refrigerant(name))).unwrap();
            given.retain(|name, _| name != "altitude");
            case(&reckon(c, &given, &around).unwrap_or_else(|error| panic!("{}: {error}", c.name)))
        })
        .collect();
    let count = cases.len();
    let program = format!(
        "const runtime = {};\nconst altitude = {altitude};\nconst cases = [{}];\n{HARNESS}",
        RUNTIME.trim(),
        cases.join(",\n")
    );
    let mut node = Command::new("node")
        .args(["--input-type=module", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| {
            panic!("`node` (Node.js) runs the scripts of the forms, and is not to be had: {error}")
        });
    node.stdin.take().unwrap().write_all(program.as_bytes()).unwrap();
    let output = node.wait_with_output().unwrap();
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    assert_eq!(said.trim(), format!("all {count} agree"), "{}", String::from_utf8_lossy(&output.stderr));
}
