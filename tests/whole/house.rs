//! How the source is laid out: which room knows of which, what is declared where, and who touches the disk.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

/// Rooms in the order in which data goes through them. Each knows only those before it.
const ROOMS: [&str; 12] = [
    "quantity", "fluid", "air", "trade", "handbook", "reading", "proofing", "setting", "binding", "serving", "desk",
    "command",
];

/// Modules that may touch the disk: the edges.
const EDGES: [&str; 6] = ["reading/folder.rs", "reading/theme.rs", "binding/", "serving/", "desk/", "command/"];

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Rust files of the library: room, path below `src/`, text.
fn sources() -> Vec<(String, String, String)> {
    let mut sources = Vec::new();
    for (path, bytes) in crate::bench::files_below(&root().join("src")) {
        if let Some((room, _)) = path.split_once('/')
            && path.ends_with(".rs")
        {
            sources.push((room.to_owned(), path.clone(), String::from_utf8(bytes).unwrap()));
        }
    }
    assert!(sources.len() > 50, "the source was not found");
    sources
}

/// A source without its tests: what stands before its first test module.
fn without_tests(text: &str) -> &str {
    text.split("#[cfg(test)]\nmod tests").next().unwrap_or(text)
}

/// Whether a file is a module of tests, as the one above it says.
fn is_of_tests(path: &str) -> bool {
    let (folder, name) = path.rsplit_once('/').unwrap_or(("", path));
    let above = fs::read_to_string(root().join("src").join(folder).join("mod.rs")).unwrap_or_default();
    above.contains(&format!("#[cfg(test)]\nmod {};", name.trim_end_matches(".rs")))
}

#[test]
fn every_room_is_known_here_and_named_by_the_library_in_order() {
    let library = fs::read_to_string(root().join("src/lib.rs")).unwrap();
    let named: Vec<&str> =
        library.lines().filter_map(|line| line.strip_prefix("pub mod ")?.strip_suffix(';')).collect();
    let in_order: Vec<&str> = ROOMS.into_iter().filter(|room| named.contains(room)).collect();
    assert_eq!(named, in_order, "rooms out of order, or a room that is not listed in this test");
    let rooms: BTreeSet<String> = sources().into_iter().map(|(room, ..)| room).collect();
    assert_eq!(rooms, named.iter().map(|&room| room.to_owned()).collect());
}

#[test]
fn no_room_knows_of_a_later_one() {
    let mut faults = Vec::new();
    for (room, path, text) in sources() {
        let place = ROOMS.iter().position(|known| *known == room).unwrap();
        for later in &ROOMS[place + 1..] {
            if text.contains(&format!("crate::{later}::")) || text.contains(&format!("crate::{later};")) {
                faults.push(format!("{path} knows of {later}/, a later room"));
            }
        }
        // Grouped over rooms, a stray dependency would not be seen above nor in review.
        if text.contains("use crate::{") {
            faults.push(format!("{path} groups rooms: one `use crate::room` a line"));
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn only_the_edges_touch_the_disk_the_clock_and_the_network() {
    let mut faults = Vec::new();
    for (_, path, text) in sources() {
        if EDGES.iter().any(|edge| path.starts_with(edge)) || is_of_tests(&path) {
            continue;
        }
        for outside in
            ["std::fs", "fs::", "File::open", "std::net", "std::process", "std::env", "SystemTime", "Instant::now"]
        {
            if without_tests(&text).contains(outside) {
                faults.push(format!("{path} uses {outside}"));
            }
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn only_the_commands_speak() {
    for (room, path, text) in sources() {
        // Tests in a file of their own may say what they measured.
        if ["/checks.rs", "/sweep.rs", "/tests.rs"].iter().any(|file| path.ends_with(file)) {
            continue;
        }
        let text = without_tests(&text);
        let speaks = ["println!", "eprintln!", "print!(", "stdout()", "stderr()"].iter().any(|how| text.contains(how));
        assert!(!speaks || room == "command", "{path} speaks to the terminal");
    }
}

#[test]
fn every_file_says_what_it_is_for_and_has_a_name_of_its_own() {
    let mut faults = Vec::new();
    for (_, path, text) in sources() {
        // A finding's file may say it above its function, where the page of findings is made from it.
        let says =
            text.lines().next().is_some_and(|line| line.starts_with("//!")) || without_tests(&text).contains("\n/// `");
        if !says {
            faults.push(format!("{path} does not begin with what it is for"));
        }
        let name = path.rsplit('/').next().unwrap_or("");
        if ["utils.rs", "util.rs", "helpers.rs", "common.rs", "manager.rs", "misc.rs"].contains(&name) {
            faults.push(format!("{path} has a name that says nothing"));
        }
    }
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn no_test_is_passed_over() {
    let tests = crate::bench::files_below(&root().join("tests"))
        .into_iter()
        .filter(|(path, _)| path.ends_with(".rs") && !path.contains("node_modules") && path != "whole/house.rs")
        .map(|(path, bytes)| (path, String::from_utf8(bytes).unwrap()));
    let all = sources().into_iter().map(|(_, path, text)| (path, text)).chain(tests);
    for (path, text) in all {
        assert!(!text.contains("#[ignore"), "{path} passes over a test");
    }
}

/// Names of the crates in a table of `Cargo.toml`.
fn declared(manifest: &str, table: &str) -> BTreeSet<String> {
    let (_, rest) = manifest.split_once(&format!("[{table}]\n")).unwrap();
    let lines = rest.lines().take_while(|line| !line.starts_with('['));
    lines.filter_map(|line| line.split_once(" = ")).map(|(name, _)| name.to_owned()).collect()
}

/// The names in a row of words: `a, b and c.`
fn names(row: &str) -> impl Iterator<Item = String> {
    let words = row.split([' ', ',', '.']).filter(|word| !word.is_empty() && *word != "and");
    words.map(str::to_owned).collect::<Vec<_>>().into_iter()
}

#[test]
fn every_dependency_says_what_it_is_for_in_both_places() {
    let manifest = fs::read_to_string(root().join("Cargo.toml")).unwrap();
    let guide = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let section = guide.split("\n## ").find(|section| section.starts_with("Dependencies\n")).unwrap();
    let rows = section.lines().filter(|line| line.starts_with("| ")).skip(1);
    let listed: BTreeSet<String> = rows.flat_map(|row| names(row.split('|').nth(1).unwrap_or(""))).collect();
    let mut crates = declared(&manifest, "dependencies");
    assert_eq!(listed, crates, "left: the table of DEVELOPERS.md; right: Cargo.toml");
    let for_tests = section.lines().find_map(|line| line.strip_prefix("Tests use ")).unwrap_or("");
    let of_tests = declared(&manifest, "dev-dependencies");
    assert_eq!(names(for_tests).collect::<BTreeSet<_>>(), of_tests, "left: DEVELOPERS.md; right: Cargo.toml");
    crates.extend(of_tests);
    let mut above = "";
    for line in manifest.lines() {
        if crates.iter().any(|name| line.starts_with(&format!("{name} = "))) {
            // A comment may stand over several lines that belong together, as serde and serde_yaml.
            let said = above.starts_with('#') || crates.iter().any(|name| above.starts_with(&format!("{name} = ")));
            assert!(said, "nothing above `{line}` says what it is for");
        }
        above = line;
    }
}
