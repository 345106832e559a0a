//! Every way through every tree of a handbook, with readings that lead along it, as JSON on standard output.
//!
//! `cargo run --release --example tree_ways -- content > ways.json`
//!
//! For the browser tests: they press and type what stands here and compare where a page ends with where the engine does.
//! Each way is made a case of its tree and walked by proofing, so that what is written here is what the engine says. A
//! way that leads into another tree ends there; that tree's own ways go on from its beginning.

use coldpress::handbook::{Case, Handbook, Question, Span, Spot, Tree};
use coldpress::proofing::tree::{Interval, StepKind, TreeProof, WorkedOut, examine};
use coldpress::proofing::{Proof, proof};
use coldpress::quantity::{Kind, Scale, System, Unit, Value, plain_words, read};
use coldpress::reading::{read_files, read_folder};
use coldpress::trade::{Computation, Given, InputKind, Surroundings, find, reckon};
use std::collections::BTreeMap;
use std::error::Error;
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::PathBuf;

/// A reading as it is typed: its name, the figure and the unit.
#[derive(Clone)]
struct Take {
    reading: String,
    number: String,
    unit: String,
}

impl Take {
    fn text(&self) -> String {
        format!("{} {}", self.number, self.unit).trim().to_owned()
    }
}

/// A question answered: which of its answers, and what is typed to come to it.
struct Step {
    question: String,
    answer: usize,
    takes: Vec<Take>,
}

struct Way {
    steps: Vec<Step>,
    end: String,
}

fn main() -> Result<(), Box<dyn Error>> {
    let folder = std::env::args_os().nth(1).map_or_else(|| PathBuf::from("content"), PathBuf::from);
    let (book, findings) = read_files(read_folder(&folder)?);
    let proof = proof(&book, findings);
    let mut ways = BTreeMap::new();
    for tree in book.trees.values() {
        let proved = proof.trees.get(&tree.name).ok_or("a tree without a proof")?;
        ways.insert(tree.name.clone(), all_ways(tree, proved, &proof)?);
    }
    agree(&book, &proof, &ways)?;
    let mut out = std::io::stdout().lock();
    out.write_all(json(&ways).as_bytes())?;
    Ok(())
}

/// Every way from the start of a tree to an outcome or out of it, no question asked twice.
fn all_ways(tree: &Tree, proved: &TreeProof, proof: &Proof) -> Result<Vec<Way>, Box<dyn Error>> {
    let mut found: Vec<Vec<(usize, usize)>> = Vec::new();
    let mut open: Vec<(String, Vec<(usize, usize)>)> = vec![(tree.start.value.clone(), Vec::new())];
    let mut ends = Vec::new();
    while let Some((at, way)) = open.pop() {
        let Some(number) = tree.questions.iter().position(|question| question.name.value == at) else {
            found.push(way);
            ends.push(at);
            continue;
        };
        if way.iter().any(|(asked, _)| *asked == number) {
            continue;
        }
        for (answer, go) in tree.questions[number].answers.iter().enumerate().rev() {
            let mut on = way.clone();
            on.push((number, answer));
            open.push((go.go.value.clone(), on));
        }
    }
    let mut ways = Vec::new();
    for (count, (way, end)) in found.iter().zip(ends).enumerate() {
        let mut fixed = BTreeMap::new();
        let mut steps = Vec::new();
        for (number, answer) in way {
            let question = &tree.questions[*number];
            let takes = takes(tree, question, *answer, proved, proof, count, &mut fixed)
                .map_err(|why| format!("{}, `{}`: {why}", tree.name, question.name.value))?;
            steps.push(Step { question: question.name.value.clone(), answer: *answer, takes });
        }
        ways.push(Way { steps, end });
    }
    Ok(ways)
}

/// What is typed at a question so that its answer `answer` follows; nothing where it is answered in words. `count`
/// chooses between units, and between the middle of a run and its lower bound, which belongs to it.
fn takes(
    tree: &Tree,
    question: &Question,
    answer: usize,
    proved: &TreeProof,
    proof: &Proof,
    count: usize,
    fixed: &mut BTreeMap<String, Take>,
) -> Result<Vec<Take>, String> {
    let step = proved.steps.iter().find(|step| step.name == question.name.value).ok_or("not reached")?;
    let StepKind::Measured(kind, intervals) = &step.step else { return Ok(Vec::new()) };
    let system = if count.is_multiple_of(2) { System::Us } else { System::Si };
    let interval = &intervals[answer];
    if let Some(worked) = &step.worked_out {
        return sum(tree, worked, interval, proof, system, fixed);
    }
    let measure = question.measure.as_ref().map_or("", |measure| &measure.value);
    let reading = tree.reading(measure).map_or(measure, |reading| &reading.name.value).to_owned();
    if let (Some(from), 1) = (&interval.from, count / 2 % 2) {
        let number = format!("{:.*}", usize::from(from.written.decimals), from.written.number);
        return Ok(vec![Take { reading, number, unit: from.written.unit.symbol.to_owned() }]);
    }
    let (number, unit) = typed(middle(interval, *kind), kind.unit_in(system), proof);
    Ok(vec![Take { reading, number, unit }])
}

/// An SI value well inside a run.
fn middle(interval: &Interval, kind: Kind) -> f64 {
    // Two degrees or a fifth of the bound, whichever is the kind's way of being far off.
    let off = |si: f64| match kind.scale() {
        Scale::Amount => si.abs() * 0.2,
        _ if kind == Kind::Pressure => 1e4,
        _ => 2.0,
    };
    match (&interval.from, &interval.to) {
        (Some(from), Some(to)) => (from.si + to.si) / 2.0,
        (Some(from), None) => from.si + off(from.si),
        (None, Some(to)) => to.si - off(to.si),
        (None, None) => 0.0,
    }
}

fn typed(si: f64, unit: &'static Unit, proof: &Proof) -> (String, String) {
    let number = format!("{:.2}", unit.from_si(si, proof.air));
    (number.trim_end_matches('0').trim_end_matches('.').to_owned(), unit.symbol.to_owned())
}

/// Readings out of which a computation comes to the run of an answer: those of the tree's first case that has them,
/// but for one that is moved, of those that no question before has fixed.
fn sum(
    tree: &Tree,
    worked: &WorkedOut,
    interval: &Interval,
    proof: &Proof,
    system: System,
    fixed: &mut BTreeMap<String, Take>,
) -> Result<Vec<Take>, String> {
    let computation = find(worked.computation).ok_or("no such computation")?;
    let mut takes: Vec<(&str, Take)> = Vec::new();
    for (input, reading) in &worked.inputs {
        let plain = plain_words(reading);
        let take = match fixed.get(&plain) {
            Some(take) => take.clone(),
            None => from_a_case(tree, reading).ok_or_else(|| format!("no case has `{reading}`"))?,
        };
        takes.push((*input, take));
    }
    let wanted = middle(interval, computation.answer.kind);
    let mut best: Option<(f64, usize, Take)> = None;
    for (at, (input, take)) in takes.iter().enumerate() {
        let Some(InputKind::Quantity(kind)) = computation.input(input).map(|input| input.kind) else { continue };
        if fixed.contains_key(&plain_words(&take.reading)) {
            continue;
        }
        let si = read(&take.text(), Some(kind))
            .and_then(|written| written.value(proof.air))
            .map_err(|error| error.to_string())?
            .si;
        for move_by in -400..=400 {
            let moved = match kind {
                Kind::Pressure => si * (f64::from(move_by) / 400.0).exp(),
                _ => si + f64::from(move_by) * 0.25,
            };
            let (number, unit) = typed(moved, kind.unit_in(system), proof);
            let mut others = takes.clone();
            others[at].1 = Take { reading: take.reading.clone(), number, unit };
            let Some(found) = work(computation, &others, proof).filter(|found| interval.holds(found.si)) else {
                continue;
            };
            let off = (found.si - wanted).abs();
            if best.as_ref().is_none_or(|(least, ..)| off < *least) {
                best = Some((off, at, others.swap_remove(at).1));
            }
        }
    }
    match best {
        Some((_, at, take)) => takes[at].1 = take,
        None if work(computation, &takes, proof).is_some_and(|found| interval.holds(found.si)) => {}
        None => return Err(format!("no readings were found that make `{}` come to this answer", computation.name)),
    }
    for (_, take) in &takes {
        fixed.insert(plain_words(&take.reading), take.clone());
    }
    Ok(takes.into_iter().map(|(_, take)| take).collect())
}

fn work(computation: &'static Computation, takes: &[(&str, Take)], proof: &Proof) -> Option<Value> {
    let mut given = BTreeMap::new();
    for (input, take) in takes {
        let value = match computation.input(input)?.kind {
            InputKind::Refrigerant => Given::Refrigerant(proof.roster.get(&take.number)?.clone()),
            InputKind::Quantity(kind) => Given::Written(read(&take.text(), Some(kind)).ok()?),
        };
        given.insert(plain_words(input), value);
    }
    reckon(computation, &given, &Surroundings { altitude: proof.altitude }).ok().map(|worked| worked.answer)
}

/// A reading as the first case of the tree has it.
fn from_a_case(tree: &Tree, reading: &str) -> Option<Take> {
    let wanted = plain_words(reading);
    let mut readings = tree.cases.iter().flat_map(|case| &case.readings);
    let text = &readings.find(|(name, _)| plain_words(&name.value) == wanted)?.1.value;
    let (number, unit) = match text.split_once(' ') {
        Some((number, unit)) => (number, unit),
        None => (text.as_str(), ""),
    };
    Some(Take { reading: reading.to_owned(), number: number.to_owned(), unit: unit.to_owned() })
}

/// Walks every way as a case of its tree: a way that proofing ends elsewhere is an error.
fn agree(book: &Handbook, proof: &Proof, ways: &BTreeMap<String, Vec<Way>>) -> Result<(), Box<dyn Error>> {
    let mut book = book.clone();
    let spot = |text: &str| Spot::new(text.to_owned(), Span::default());
    for tree in book.trees.values_mut() {
        let cases = ways[&tree.name].iter().enumerate().map(|(count, way)| {
            let (mut readings, mut answers) = (Vec::new(), Vec::new());
            for step in &way.steps {
                let given = match (tree.question(&step.question), step.takes.as_slice()) {
                    (Some(question), []) => question.answers[step.answer].when.value.clone(),
                    (Some(question), [take]) if question.work_out.is_none() => take.text(),
                    (_, takes) => {
                        readings.extend(takes.iter().map(|take| (spot(&take.reading), spot(&take.text()))));
                        continue;
                    }
                };
                answers.push((spot(&format!("{}/{}", tree.name, step.question)), vec![spot(&given)]));
            }
            let name = spot(&format!("way {count} of {}", tree.name));
            Case { name, is: None, like: None, readings, answers, ends: spot(&way.end) }
        });
        tree.cases = cases.collect();
    }
    let around = Surroundings { altitude: proof.altitude };
    let proved = examine(&book, &proof.values, &proof.roster, &around, proof.air);
    match proved.findings.first() {
        Some(finding) => Err(format!("{}: {} {:?}", finding.name, finding.says, finding.found).into()),
        None => Ok(()),
    }
}

fn json(ways: &BTreeMap<String, Vec<Way>>) -> String {
    let list = |items: Vec<String>| format!("[{}]", items.join(","));
    let take = |take: &Take| list([&take.reading, &take.number, &take.unit].map(|text| quoted(text)).to_vec());
    let step = |step: &Step| {
        let takes = list(step.takes.iter().map(take).collect());
        format!("{{\"question\":{},\"answer\":{},\"takes\":{takes}}}", quoted(&step.question), step.answer)
    };
    let way = |way: &Way| {
        let steps = list(way.steps.iter().map(step).collect());
        format!("{{\"steps\":{steps},\"end\":{}}}", quoted(&way.end))
    };
    let tree = |(name, ways): (&String, &Vec<Way>)| {
        format!("{}:{}", quoted(name), list(ways.iter().map(way).collect()).replace("},{\"steps\"", "},\n{\"steps\""))
    };
    format!("{{{}}}\n", ways.iter().map(tree).collect::<Vec<_>>().join(",\n"))
}

fn quoted(text: &str) -> String {
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => out.extend(['\\', c]),
            c if c < ' ' => {
                // A string takes whatever is written to it.
                let _ = write!(out, "\\u{:04x}", u32::from(c));
            }
            c => out.push(c),
        }
    }
    out.push('"');
    out
}
