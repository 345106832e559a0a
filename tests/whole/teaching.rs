//! What the demonstration handbook owes those who learn from it: lessons whole and of a length, checks with computed
//! keys, examples and problems enough, every habit of the trade giving way to the maker, every refrigerant its table.

use crate::bench::content;
use coldpress::handbook::{BlockKind, Example, Handbook, Leaf, Lesson, Scheme};
use coldpress::reading;
use std::collections::BTreeSet;
use std::path::Path;
use std::sync::LazyLock;

static BOOK: LazyLock<Handbook> = LazyLock::new(|| reading::read_files(reading::read_folder(&content()).unwrap()).0);

/// Blends whose glide is 4 °F and more in an evaporator, so that the wrong column shows.
const WIDE_GLIDE: [&str; 11] =
    ["R-407A", "R-407C", "R-407F", "R-407H", "R-448A", "R-449A", "R-454A", "R-454C", "R-455A", "R-427A", "R-438A"];

/// Lessons that teach. The tables are looked things up in, and the practice part says how to use its problem sets.
fn taught() -> Vec<Leaf<'static>> {
    let reference = |leaf: &Leaf<'_>| matches!(leaf.part.name.value.as_str(), "tables" | "practice");
    BOOK.in_order().into_iter().filter(|leaf| !reference(leaf)).collect()
}

/// Words of the running text: no blocks, no link targets.
fn words(lesson: &Lesson) -> usize {
    let mut fenced = false;
    let mut text = String::new();
    for line in BOOK.files.text(lesson.body).lines() {
        if line.starts_with("```") {
            fenced = !fenced;
        } else if !fenced {
            text.push_str(line);
            text.push('\n');
        }
    }
    let links = text.matches("](").count();
    let in_targets: usize = text
        .split("](")
        .skip(1)
        .filter_map(|rest| rest.split(')').next())
        .map(|to| to.split_whitespace().count())
        .sum();
    assert!(in_targets >= links, "a link without a target in {}", lesson.name);
    text.split_whitespace().filter(|word| word.contains(char::is_alphanumeric)).count()
}

fn examples() -> impl Iterator<Item = (&'static Lesson, &'static Example)> {
    BOOK.lessons.values().flat_map(|lesson| {
        lesson.blocks.iter().filter_map(move |block| match &block.kind {
            BlockKind::Example(example) => Some((lesson, example)),
            _ => None,
        })
    })
}

#[test]
fn every_lesson_is_whole() {
    let mut lacking = Vec::new();
    let mut read: Vec<&str> = Vec::new();
    for (number, leaf) in taught().into_iter().enumerate() {
        let lesson = leaf.lesson;
        let has = |wanted: fn(&BlockKind) -> bool| lesson.blocks.iter().any(|block| wanted(&block.kind));
        let mut lacks = |what: String| lacking.push(format!("{}: {what}", lesson.name));
        let words = words(lesson);
        if !(400..=1200).contains(&words) {
            lacks(format!("{words} words"));
        }
        if lesson.purpose.is_none() {
            lacks("a purpose".to_owned());
        }
        if lesson.needs.is_empty() && number > 0 {
            lacks("what must be read first".to_owned());
        }
        for need in lesson.needs.iter().filter(|need| !read.contains(&need.value.as_str())) {
            lacks(format!("`{}` read before it, which comes later in the book", need.value));
        }
        read.push(&lesson.name);
        let witnessed = has(|kind| {
            matches!(
                kind,
                BlockKind::Example(_) | BlockKind::ComputedTable(_) | BlockKind::Plate(_) | BlockKind::Form(_)
            )
        }) || lesson.links.iter().any(|link| link.scheme == Scheme::Figure);
        if !witnessed {
            lacks("a figure, an example or a drawing".to_owned());
        }
        if !has(|kind| matches!(kind, BlockKind::Practice(_))) {
            lacks("a problem to check oneself by".to_owned());
        }
        if matches!(lesson.part.as_str(), "fitting" | "diagnosing") && lesson.hazards.is_empty() {
            lacks("its hazards".to_owned());
        }
    }
    assert!(lacking.is_empty(), "{lacking:#?}");
}

#[test]
fn every_page_that_goes_by_habit_says_that_the_maker_goes_first() {
    let habit = |name: &str| BOOK.values.get(name).is_some_and(|value| value.source.value == "common-practice");
    let mut silent = Vec::new();
    for lesson in BOOK.lessons.values().filter(|lesson| !lesson.maker_first) {
        let quoted = lesson.links.iter().find(|link| link.scheme == Scheme::Value && habit(&link.to.value));
        silent.extend(quoted.map(|link| format!("{} quotes {}", lesson.name, link.to.value)));
        if BOOK.files.text(lesson.body).contains("Common practice, no source") {
            silent.push(format!("{} has a note without a source", lesson.name));
        }
    }
    silent.extend(BOOK.sheets.values().filter(|sheet| !sheet.maker_first).map(|sheet| format!("sheet {}", sheet.name)));
    assert!(silent.is_empty(), "{silent:#?}");
}

#[test]
fn the_facts_of_the_trade_stand_as_habits_without_a_source() {
    let facts = [
        ("superheat-range", "8 to 18 °F"),
        ("stem-step", "a quarter to half a turn"),
        ("stem-direction", "clockwise"),
        ("valve-body-limit", "212 °F"),
        ("bulb-clock", "10 or 2 o'clock"),
        ("bulb-clock-large", "4 to 5 or 7 to 8 o'clock"),
        ("bulb-change-size", "7/8 in"),
        ("bulb-riser", "tube on top, charging tail down"),
        ("bulb-strap", "copper, with brass or bronze screws"),
        ("equalizer-from-bulb", "4 to 8 in"),
    ];
    for (name, value) in facts {
        let standing = &BOOK.values[name];
        assert_eq!(
            (standing.value.value.as_str(), standing.source.value.as_str()),
            (value, "common-practice"),
            "{name}"
        );
        assert!(
            BOOK.links().any(|link| link.scheme == Scheme::Value && link.to.value == name),
            "{name} is never quoted"
        );
    }
}

#[test]
fn examples_are_many_in_every_part_and_a_third_have_a_wide_glide() {
    let wide = |example: &Example| example.given.iter().any(|line| WIDE_GLIDE.contains(&line.value.value.as_str()));
    let high = |example: &Example| example.given.iter().any(|line| line.value.value == "5280 ft");
    let all: Vec<_> = examples().collect();
    let count = |of: &dyn Fn(&Example) -> bool| all.iter().filter(|(_, example)| of(example)).count();
    assert!(all.len() >= 40, "{} examples", all.len());
    assert!(count(&wide) * 3 >= all.len(), "{} of {} with a wide glide", count(&wide), all.len());
    assert!(count(&high) >= 5, "{} at altitude", count(&high));
    for part in &BOOK.front.parts {
        let here = all.iter().filter(|(lesson, _)| lesson.part == part.name.value).count();
        assert!(here > 0, "no example in {}", part.name.value);
    }
}

#[test]
fn problems_sheets_terms_and_plates_are_enough() {
    assert!(BOOK.problems().count() >= 60, "{} problems", BOOK.problems().count());
    assert!(BOOK.sheets.len() >= 10, "{} sheets", BOOK.sheets.len());
    assert!(BOOK.terms.len() >= 150, "{} terms", BOOK.terms.len());
    let bare: Vec<_> = BOOK.terms.iter().filter(|(_, term)| term.also.is_empty()).map(|(name, _)| name).collect();
    assert!(bare.is_empty(), "terms that say no other word: {bare:?}");
    let plates = BOOK.lessons.values().flat_map(|lesson| &lesson.blocks);
    let plates: Vec<_> = plates
        .filter_map(|block| match &block.kind {
            BlockKind::Plate(plate) => Some(plate.picture.value.as_str()),
            _ => None,
        })
        .collect();
    let unused: Vec<_> = BOOK.pictures.keys().filter(|picture| !plates.contains(&picture.as_str())).collect();
    assert!(plates.len() >= 9 && unused.is_empty(), "{} plates, {unused:?} on none", plates.len());
    let nothing_taken: Vec<_> = BOOK.sources.iter().filter(|(_, source)| source.taken.is_empty()).collect();
    assert!(nothing_taken.is_empty(), "{nothing_taken:?}");
}

#[test]
fn every_refrigerant_and_every_lookup_has_its_table() {
    let blocks = || BOOK.lessons.values().flat_map(|lesson| &lesson.blocks);
    for refrigerant in BOOK.refrigerants.keys() {
        let tables = blocks().filter(
            |block| matches!(&block.kind, BlockKind::SaturationTable(table) if table.refrigerant.value == *refrigerant),
        );
        assert_eq!(tables.count(), 1, "saturation tables of {refrigerant}");
    }
    let lookups = [
        "target-superheat",
        "one-spring",
        "line-loss",
        "lift",
        "airflow-and-split",
        "target-split",
        "water-under-vacuum",
        "nitrogen-test",
        "line-charge",
        "least-floor",
        "cylinder-fill",
        "leak-rate",
    ];
    let tables = BOOK.tables();
    let missing: Vec<_> = lookups.iter().filter(|name| !tables.contains_key(*name)).collect();
    assert!(missing.is_empty(), "{missing:?}");
    // A table worked out twice has to be mended twice: one place holds it, the rest refer to it.
    let mut found: Vec<(String, &str)> = blocks()
        .filter_map(|block| match &block.kind {
            BlockKind::ComputedTable(table) => {
                let given: Vec<_> =
                    table.given.iter().map(|line| format!("{}={}", line.name.value, line.value.value)).collect();
                Some((format!("{} {}", table.find.value, given.join(" ")), table.name.value.as_str()))
            }
            _ => None,
        })
        .collect();
    found.sort();
    let twice: Vec<_> = found.windows(2).filter(|pair| pair[0].0 == pair[1].0).collect();
    assert!(twice.is_empty(), "{twice:#?}");
}

#[test]
fn the_starter_shows_every_link_and_every_block() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/command/starter");
    let (book, findings) = reading::read_files(reading::read_folder(&folder).unwrap());
    assert!(findings.is_empty(), "{findings:#?}");
    let schemes = [
        Scheme::Lesson,
        Scheme::Term,
        Scheme::Table,
        Scheme::Tree,
        Scheme::Refrigerant,
        Scheme::Source,
        Scheme::Sheet,
        Scheme::Practice,
        Scheme::Value,
        Scheme::Figure,
        Scheme::As,
        Scheme::Computation,
    ];
    let missing: Vec<_> = schemes.iter().filter(|scheme| !book.links().any(|link| link.scheme == **scheme)).collect();
    assert!(missing.is_empty(), "no link to {missing:?}");
    let blocks = book.lessons.values().flat_map(|lesson| &lesson.blocks);
    let shown: BTreeSet<&str> = blocks
        .map(|block| match block.kind {
            BlockKind::SaturationTable(_) => "saturation-table",
            BlockKind::Example(_) => "worked-example",
            BlockKind::ComputedTable(_) => "computed-table",
            BlockKind::Form(_) => "work-it-out",
            BlockKind::Practice(_) => "practice",
            BlockKind::Plate(_) => "plate",
            BlockKind::Drawing(_) => "drawing",
            BlockKind::Tree(_) => "tree",
            BlockKind::Code(_) => "code",
            _ => "another",
        })
        .collect();
    let wanted = [
        "saturation-table",
        "worked-example",
        "computed-table",
        "work-it-out",
        "practice",
        "plate",
        "drawing",
        "tree",
        "code",
    ];
    let missing: Vec<_> = wanted.iter().filter(|kind| !shown.contains(*kind)).collect();
    assert!(missing.is_empty(), "no block {missing:?}");
    assert!(
        !book.sheets.is_empty() && !book.problem_sets.is_empty() && !book.trees.is_empty(),
        "a kind of file is missing"
    );
}
