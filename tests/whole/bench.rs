//! A small handbook in a folder of its own, and the program run on it as an author would run it.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;

/// The program under test.
pub(crate) const PROGRAM: &str = env!("CARGO_BIN_EXE_coldpress");

/// The demonstration handbook.
pub(crate) fn content() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("content")
}

/// How a run of the program ended.
#[derive(Debug)]
pub(crate) struct Ran {
    /// Exit status; none where a signal ended it.
    pub(crate) status: Option<i32>,
    /// Standard output.
    pub(crate) out: String,
    /// Standard error.
    pub(crate) err: String,
}

impl Ran {
    /// Both outputs, to show where a test fails.
    pub(crate) fn told(&self) -> String {
        format!("status {:?}\n--- out\n{}--- err\n{}", self.status, self.out, self.err)
    }

    /// Fails unless the run ended with that status.
    pub(crate) fn ended(self, status: i32) -> Self {
        assert_eq!(self.status, Some(status), "{}", self.told());
        self
    }
}

/// Runs the program in `dir`.
pub(crate) fn run(dir: &Path, arguments: &[&str]) -> Ran {
    ran(Command::new(PROGRAM).args(arguments).current_dir(dir))
}

/// Runs a command to its end.
pub(crate) fn ran(command: &mut Command) -> Ran {
    let output = command.output().unwrap();
    Ran {
        status: output.status.code(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

/// Every file below a folder: its path with `/` between the parts, and its bytes.
pub(crate) fn files_below(dir: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    for entry in walkdir::WalkDir::new(dir) {
        let entry = entry.unwrap();
        if entry.file_type().is_file() {
            let below = entry.path().strip_prefix(dir).unwrap();
            let parts: Vec<_> = below.components().map(|c| c.as_os_str().to_string_lossy()).collect();
            files.insert(parts.join("/"), fs::read(entry.path()).unwrap());
        }
    }
    files
}

/// A small handbook, sound as it is, in the folder `book` of a folder that goes away with it.
pub(crate) struct Book {
    dir: TempDir,
}

/// The small handbook's files.
const SOUND: [(&str, &str); 9] = [
    (
        "handbook.yaml",
        "\
title: Cooler notes
house: Larkmoor growers' cold store
edition: 2026-11
altitude: 890 ft
parts:
  - name: coil
    title: The coil
    lessons: [gauges, superheat]
carry-copies: [folder]
",
    ),
    (
        "lessons/coil/gauges.md",
        "\
---
title: Gauges
---
A gauge reads against the air around it.
",
    ),
    (
        "lessons/coil/superheat.md",
        "\
---
title: Superheat
needs: [gauges]
hazards: [pressure]
---
The suction gauge stands at [20 psig](as:pressure), a boiling point of
[21.5 °F](figure:dew-temperature?refrigerant=R-134a&pressure=20psig). Look for
[8 to 18 °F](value:superheat-range) of [superheat](term:superheat).

```worked-example
title: The apple store's cooler
given:
  refrigerant: R-134a
  suction pressure: 20 psig
  suction line temperature: 33 °F
steps:
  - find: superheat
    answer: 11.5 °F
so: Leave the valve alone, or see [high superheat](tree:superheat-high).
```

```saturation-table
refrigerant: R-134a
from: 0 °F
to: 40 °F
step: 10 °F
```
",
    ),
    (
        "refrigerants/R-134a.yaml",
        "\
designation: R-134a
equation: R-134a
sources: [common-practice]
",
    ),
    (
        "trees/superheat-high.yaml",
        "\
title: Superheat reads high
readings: [airflow per capacity]
start: airflow
questions:
  airflow:
    ask: How much air crosses the coil?
    measure: airflow per capacity
    answers:
      - when: below 350 cfm/ton
        go: restore-airflow
      - when: above 350 cfm/ton
        go: glass
  glass:
    ask: What does the sight glass show?
    choices: [clear, bubbles]
    answers:
      - when: clear
        go: replace-valve
      - when: bubbles
        go: find-leak
outcomes:
  restore-airflow:
    say: Clean the filter.
  find-leak:
    say: Find the leak.
  replace-valve:
    say: Replace the valve.
    condemns: the valve
    only-after: [airflow, glass]
cases:
  dusty:
    is: A filter grey with dust.
    readings: {airflow per capacity: 300 cfm/ton}
    ends: restore-airflow
  short:
    is: A system short of charge.
    readings: {airflow per capacity: 400 cfm/ton}
    answers: {glass: bubbles}
    ends: find-leak
  stuck:
    like: short
    is: A valve stuck shut.
    answers: {glass: clear}
    ends: replace-valve
",
    ),
    (
        "values.yaml",
        "\
superheat-range:
  is: superheat looked for
  value: 8 to 18 °F
  quantity: temperature difference
  source: common-practice
",
    ),
    (
        "sources.yaml",
        "\
common-practice:
  title: Common practice, no source
  kind: common practice
  taken: what the trade does
  seen: from memory
",
    ),
    (
        "terms.yaml",
        "\
superheat:
  means: How much warmer vapor is than it boiled at.
  taught: superheat
",
    ),
    (
        "hazards.yaml",
        "\
pressure:
  signal: WARNING
  hazard: Refrigerant under pressure can blind.
  avoid: Wear goggles.
",
    ),
];

impl Book {
    /// The small handbook as it is when it is sound.
    pub(crate) fn sound() -> Self {
        let book = Self { dir: tempfile::tempdir().unwrap() };
        for (path, text) in SOUND {
            book.put(path, text);
        }
        book
    }

    /// The folder that holds `book`.
    pub(crate) fn beside(&self) -> &Path {
        self.dir.path()
    }

    /// The handbook's own folder.
    pub(crate) fn folder(&self) -> PathBuf {
        self.dir.path().join("book")
    }

    /// Writes a file of the handbook.
    pub(crate) fn put(&self, path: &str, text: &str) {
        let file = self.folder().join(path);
        fs::create_dir_all(file.parent().unwrap()).unwrap();
        fs::write(file, text).unwrap();
    }

    /// Takes a file out of the handbook.
    pub(crate) fn take_out(&self, path: &str) {
        fs::remove_file(self.folder().join(path)).unwrap();
    }

    /// Puts `right` where `wrong` stands, which must stand exactly once.
    pub(crate) fn change(&self, path: &str, right: &str, wrong: &str) {
        let file = self.folder().join(path);
        let text = fs::read_to_string(&file).unwrap();
        assert_eq!(text.matches(right).count(), 1, "`{right}` does not stand once in {path}");
        fs::write(file, text.replace(right, wrong)).unwrap();
    }

    /// Runs the program beside the handbook's folder, which is called `book` there.
    pub(crate) fn run(&self, arguments: &[&str]) -> Ran {
        run(self.beside(), arguments)
    }
}
