//! What a page reckons with gives what the program gives: the reader of quantities, word for word, and the working of
//! every computation, line by line; run by Node.js, which the browser tests need too.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::Write as _;
use std::process::{Command, Stdio};

use coldpress::quantity::{Kind, Pressure, System, Value, page_script, read, unit};
use coldpress::trade::{Compact, Given, RECKONER, RUNTIME, Surroundings, catalogue, reckon};

use crate::properties::refrigerant;

/// Runs `program` after the reckoner is made; what it says on standard output.
fn in_node(program: &str) -> String {
    let program = format!(
        "const quantity = {};\nconst runtime = {};\nconst reckoner = ({})(quantity, runtime);\n{program}",
        page_script(),
        RUNTIME.trim(),
        RECKONER.trim()
    );
    let mut node = Command::new("node")
        .args(["--input-type=module", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap_or_else(|error| panic!("`node` (Node.js) runs what pages reckon with, and is not to be had: {error}"));
    node.stdin.take().unwrap().write_all(program.as_bytes()).unwrap();
    let output = node.wait_with_output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8_lossy(&output.stdout).trim().to_owned()
}

/// Everything a unit can be called, with and without a space, in three letter cases; and slips.
fn typed() -> Vec<String> {
    let mut typed: Vec<String> = [
        "",
        " ",
        "118",
        "118.",
        ".5",
        "..5 psi",
        "1.2.3 psi",
        "118psig",
        "118 PSIG",
        "118 psi",
        "-10 F",
        "−10F",
        "- 10 F",
        "--5 psi",
        "+5 psig",
        "+-5 psi",
        "–5 °C",
        "1,200 cfm",
        "1,2000 cfm",
        "12,00 cfm",
        ",5 psi",
        "1,200.5 cfm",
        "4,5 psi",
        "7/8 in",
        "7/8\"",
        "1-1/8 in",
        "1 1/8 in.",
        "7/0 in",
        "7/8 lb",
        "-7/8 in",
        "5-10 psi",
        "4294967296/2 in",
        "52 furlongs",
        "118 psgi",
        "3 mPa",
        "3 MPA",
        "3 mpag",
        "118\u{a0}psig",
        "118 \u{2009} psig",
        "-500 °F",
        "-5 psia",
        "-1 K",
        "26 inHg vac",
        "400 cfm per ton",
        "3.2 lb/min/ton",
        "12.6 uPa.s",
        "8 dF",
        "8 Δ°F",
        "12 bar",
        "15 inHg",
        "10 mmHg",
        "4 ft",
        "4'",
        "4′",
        "0.5 in. w.c.",
        "1e3 psig",
        "1_000 psig",
        "٣ psig",
        "12 ",
        "12 psig 3",
        "12 psi g",
        "(12) psig",
        "12 µm Hg",
        "12 μm Hg",
        "5 Ω",
        "5 kΩ",
        "5 KOHM",
        "5 ma",
        "5 MA",
        "1 t CO2e",
        "0.24 Btu/lb-F",
        "999999999999999999999 psig",
        "0.1234567890123 psi",
        "118 psig.",
        "118 p.s.i.g",
        "psig",
        "about 5 psi",
    ]
    .map(str::to_owned)
    .to_vec();
    for unit in unit::UNITS {
        for spelling in std::iter::once(unit.symbol).chain(unit.spellings.iter().copied()) {
            typed.push(format!("12.5 {spelling}"));
            typed.push(format!("-3{}", spelling.to_uppercase()));
            typed.push(format!("4 {}", spelling.to_lowercase().replace(' ', "")));
            typed.push(format!("6 x{spelling}"));
        }
    }
    typed
}

#[test]
fn a_page_reads_what_the_program_reads_and_refuses_what_it_refuses() {
    let kinds: Vec<Option<Kind>> = std::iter::once(None).chain(Kind::ALL.iter().copied().map(Some)).collect();
    let air = Pressure::from_kilopascal(84.3);
    let texts = typed();
    let mut cases = String::new();
    let mut count = 0;
    for (i, text) in texts.iter().enumerate() {
        for (k, kind) in kinds.iter().enumerate() {
            // Every text as what it may well be meant for, and as some other thing.
            let own = read(text, None).ok().map(|written| written.unit.kind);
            let asked = kind.is_none()
                || own == *kind
                || (i + k) % 9 == 0
                || matches!(kind, Some(Kind::Pressure | Kind::Temperature));
            if !asked {
                continue;
            }
            let told = match read(text, *kind).and_then(|written| Ok((written.value(air)?, written))) {
                Ok((value, w)) => format!(
                    "[{:?},{},{:?},{:?},{:?},{:?}]",
                    w.number,
                    w.decimals,
                    w.unit.symbol,
                    value.si,
                    w.shown_in(System::Us, air),
                    w.shown_in(System::Si, air)
                ),
                Err(error) => format!("{:?}", error.to_string()),
            };
            let kind = kind.map_or("null".to_owned(), |kind| format!("{:?}", kind.name()));
            let _ = writeln!(cases, "[{text:?},{kind},{told}],");
            count += 1;
        }
    }
    let said = in_node(&format!(
        "const air = {:?};\nconst cases = [\n{cases}];\nlet wrong = 0;\n{}",
        air.as_pascal(),
        r#"
for (const [text, kind, told] of cases) {
  let found;
  try {
    const w = reckoner.read(text, kind), si = reckoner.value(w, air);
    found = [w.number, w.decimals, w.unit.symbol, si, reckoner.shownIn(w, 'us', air), reckoner.shownIn(w, 'si', air)];
    if (Array.isArray(told) && Math.abs(found[3] - told[3]) <= 1e-14 * Math.abs(told[3])) found[3] = told[3];
  } catch (error) { if (!(error instanceof reckoner.ReadingError)) throw error; found = error.message; }
  if (JSON.stringify(found) !== JSON.stringify(told) && wrong++ < 20) console.log(`${JSON.stringify(text)} as ${kind}: page ${JSON.stringify(found)}, program ${JSON.stringify(told)}`);
}
console.log(wrong ? `${wrong} differ` : `all ${cases.length} alike`);"#
    ));
    assert_eq!(said, format!("all {count} alike"));
    assert!(count > 3000);
}

#[test]
fn a_page_shows_the_working_that_the_program_shows() {
    let altitude = Value::of(Kind::Length, 1000.0);
    let around = Surroundings { altitude };
    let mut fluids: BTreeMap<String, String> = BTreeMap::new();
    let mut cases = String::new();
    let mut count = 0;
    for c in catalogue().iter().filter(|c| c.reckons_in_page()) {
        let mut given = c.worked.given(c, &|name| Some(refrigerant(name))).unwrap();
        given.retain(|name, _| name != "altitude");
        let worked = reckon(c, &given, &around).unwrap_or_else(|error| panic!("{}: {error}", c.name));
        for one in given.values() {
            if let Given::Refrigerant(fluid) = one {
                let name = fluid.designation().to_owned();
                fluids.entry(name).or_insert_with(|| Compact::of(fluid).unwrap().script());
            }
        }
        let typed: Vec<String> = c
            .worked
            .given
            .iter()
            .filter(|(name, _)| *name != "altitude")
            .map(|(name, text)| match given.get(*name) {
                Some(Given::Refrigerant(_)) => format!("{name:?}: fluids[{text:?}]"),
                _ => format!("{name:?}: {text:?}"),
            })
            .collect();
        let lines = |system| {
            let lines: Vec<String> = worked
                .lines(system)
                .iter()
                .map(|line| format!("[{:?},{:?}]", line.name, line.mathml.replace(" display=\"block\"", "")))
                .collect();
            lines.join(",")
        };
        let inputs: Vec<String> = worked
            .inputs
            .iter()
            .map(|input| {
                format!(
                    "[{:?},{:?},{:?}]",
                    input.name,
                    input.text(System::Us, worked.air),
                    input.text(System::Si, worked.air)
                )
            })
            .collect();
        let _ = writeln!(
            cases,
            "{{sum: {}, given: {{{}}}, answer: [{:?}, {:?}], inputs: [{}], us: [{}], si: [{}]}},",
            c.page_script(),
            typed.join(", "),
            worked.answer_text(System::Us),
            worked.answer_text(System::Si),
            inputs.join(","),
            lines(System::Us),
            lines(System::Si)
        );
        count += 1;
    }
    let tables: Vec<String> = fluids.iter().map(|(name, table)| format!("{name:?}: reckoner.props({table})")).collect();
    let said = in_node(&format!(
        "const fluids = {{{}}};\nconst cases = [\n{cases}];\n{}",
        tables.join(",\n"),
        r#"
// A last digit may fall the other way where a page's table is a hair beside the equations.
const near = (a, b) => {
  const split = text => text.split(/([0-9][0-9,]*(?:\.[0-9]+)?)/);
  const x = split(a), y = split(b);
  return x.length === y.length && x.every((part, i) => {
    if (part === y[i]) return true;
    if (i % 2 === 0) return false;
    const [p, q] = [part, y[i]].map(text => Number(text.replace(/,/g, '')));
    const decimals = (part.split('.')[1] ?? '').length, other = (y[i].split('.')[1] ?? '').length;
    return Math.abs(p - q) <= Math.max(1.01 * 10 ** -Math.min(decimals, other), 4e-4 * Math.abs(p));
  });
};
// Rows only group what stands side by side; the program leaves out those that mean nothing.
const bare = mathml => mathml.replace(/<\/?mrow>/g, '');
let wrong = 0;
const differ = (what, page, program) => { if (wrong++ < 12) console.log(`${what}\n  page    ${page}\n  program ${program}`); };
for (const {sum, given, answer, inputs, us, si} of cases) {
  const found = reckoner.work(sum, given, {altitude: 1000, system: 'us'});
  for (const [i, system] of ['us', 'si'].entries()) {
    if (!near(found.text[system], answer[i])) differ(sum.name, found.text[system], answer[i]);
    const lines = found.lines(system), wanted = {us, si}[system];
    if (lines.length !== wanted.length) { differ(sum.name + ': lines', lines.length, wanted.length); continue; }
    lines.forEach((line, n) => {
      if (line.name !== wanted[n][0] || !near(bare(line.mathml), bare(wanted[n][1]))) differ(`${sum.name}, ${system}`, line.mathml, wanted[n][1]);
    });
  }
  const told = found.inputs.map(input => [input.name, input.us, input.si]);
  if (JSON.stringify(told) !== JSON.stringify(inputs)) differ(sum.name + ': inputs', JSON.stringify(told), JSON.stringify(inputs));
}
console.log(wrong ? `${wrong} differ` : `all ${cases.length} alike`);"#
    ));
    assert_eq!(said, format!("all {count} alike"));
}
