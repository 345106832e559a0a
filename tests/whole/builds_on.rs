//! A house's handbook laid over another: what it inherits, what it replaces, and how readers see it.

use crate::bench::{Book, files_below, run};
use std::path::Path;

/// The front of a house that changes no more than it must.
const HOUSE: &str = "title: The store's notes\nhouse: Growers' store\nbuilds-on: ../book\n";
/// A value of the house's own.
const OWN: &str = "superheat-range:
  is: superheat looked for
  value: 8 to 14 °F
  quantity: temperature difference
  source: common-practice
  by: the service manager
  because: the rooms lose their pull-down above it.
";

/// The small handbook, and a house's handbook laid over it.
fn laid_over() -> Book {
    let book = Book::sound();
    book.put("../house/handbook.yaml", HOUSE);
    book.put("../house/values.yaml", OWN);
    book
}

fn page(book: &Book, path: &str) -> String {
    std::fs::read_to_string(book.beside().join("made").join(path)).unwrap()
}

#[test]
fn a_house_inherits_everything_and_its_own_limit_is_marked_wherever_it_stands() {
    let book = laid_over();
    book.run(&["bind", "house", "--into", "made"]).ended(0);
    let lesson = page(&book, "lesson/superheat.html");
    assert!(lesson.contains("The store&#39;s notes") || lesson.contains("The store’s notes"), "{lesson}");
    let standing = lesson.find("class=\"standing\"").unwrap();
    let told = &lesson[standing..standing + 600];
    assert!(told.contains("8 to 14"), "{told}");
    assert!(told.contains("the house’s own, in place of") && told.contains("8 to 18"), "{told}");
    let values = page(&book, "values.html");
    assert!(values.contains("in Cooler notes. Set by the service manager: the rooms lose their pull-down above it."));
    assert!(page(&book, "index.html").contains("Built on Cooler notes, Larkmoor growers’ cold store, edition 2026-11"));
    assert!(!lesson.contains("A leaf of the house’s own"));
}

#[test]
fn a_quotation_is_held_against_the_value_as_it_stood_where_it_was_written() {
    let book = laid_over();
    // Below, neither the house's figure nor a third one is what was quoted.
    for wrong in ["[8 to 14 °F]", "[8 to 20 °F]"] {
        let book = laid_over();
        book.change("lessons/coil/superheat.md", "[8 to 18 °F]", wrong);
        let ran = book.run(&["proof", "house"]).ended(1);
        assert!(
            ran.err.contains("error[value-disagrees]") && ran.err.contains("--> ../book/lessons/coil/superheat.md:8"),
            "{}",
            ran.told()
        );
    }
    // The house's own lessons quote the house's figure.
    book.put(
        "../house/lessons/coil/rooms.md",
        "---\ntitle: Rooms\n---\nLook for [8 to 18 °F](value:superheat-range).\n",
    );
    let ran = book.run(&["proof", "house"]).ended(1);
    assert!(ran.err.contains("--> lessons/coil/rooms.md:4"), "{}", ran.told());
    book.put(
        "../house/lessons/coil/rooms.md",
        "---\ntitle: Rooms\n---\nLook for [8 to 14 °F](value:superheat-range).\n",
    );
    book.run(&["bind", "house", "--into", "made"]).ended(0);
    assert!(page(&book, "lesson/rooms.html").contains("A leaf of the house’s own"));
}

#[test]
fn a_lesson_of_the_same_name_stands_in_place_of_the_one_below_in_whatever_part() {
    let book = laid_over();
    book.put("../house/handbook.yaml", &format!("{HOUSE}parts: [coil, store]\n"));
    book.put("../house/lessons/store/gauges.md", "---\ntitle: Our gauges\n---\nOne hangs in each room.\n");
    book.change("lessons/coil/gauges.md", "A gauge reads", "[Lost](term:lost). A gauge reads");
    book.run(&["bind", "house", "--into", "made"]).ended(0);
    let lesson = page(&book, "lesson/gauges.html");
    assert!(lesson.contains("One hangs in each room.") && !lesson.contains("A gauge reads"), "{lesson}");
}

#[test]
fn the_demonstration_house_binds_over_the_demonstration_handbook() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let made = tempfile::tempdir().unwrap();
    let into = made.path().join("made");
    let ran = run(root, &["bind", "tests/growers", "--into", into.to_str().unwrap()]).ended(0);
    assert!(ran.out.contains("no findings"), "{}", ran.told());
    let pages = files_below(&into);
    let marked = pages.iter().filter(|(path, _)| path.ends_with(".html") && !path.starts_with("carry"));
    let marked = marked.filter(|(_, bytes)| String::from_utf8_lossy(bytes).contains("class=\"own\">(")).count();
    assert!(marked > 5, "{marked} pages mark the store's own limit");
}
