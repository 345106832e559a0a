//! Every kind of finding, from the small handbook with one thing wrong in it, word for word as it is printed.
//!
//! Read a text that changed as an author would who made the slip: does it say where, what is wrong, what was found and how,
//! and what would be right?

use crate::bench::Book;
use std::collections::BTreeSet;
use std::path::Path;

const FRONT: &str = "handbook.yaml";
const GAUGES: &str = "lessons/coil/gauges.md";
const SUPERHEAT: &str = "lessons/coil/superheat.md";
const TREE: &str = "trees/superheat-high.yaml";
const VALUES: &str = "values.yaml";
const TERMS: &str = "terms.yaml";
/// All there is in the text of the lesson on gauges.
const TEXT: &str = "A gauge reads against the air around it.";

/// Proofs the handbook and compares what is printed on standard error.
#[track_caller]
fn check(book: &Book, printed: &str) {
    let ran = book.run(&["proof", "book"]);
    let told = ran.told();
    assert_eq!(ran.err.trim_end(), printed.trim(), "\n{told}");
    let errors = printed.lines().any(|line| line.starts_with("error["));
    assert_eq!(ran.status, Some(i32::from(errors)), "{told}");
}

/// As [`check`], of the handbook `house` beside it.
#[track_caller]
fn check_house(book: &Book, printed: &str) {
    let ran = book.run(&["proof", "house"]).ended(1);
    assert_eq!(ran.err.trim_end(), printed.trim(), "\n{}", ran.told());
}

#[test]
fn the_small_handbook_is_sound() {
    check(&Book::sound(), "");
}

// Reading.

#[test]
fn a_folder_without_a_front() {
    let book = Book::sound();
    book.take_out(FRONT);
    check(
        &book,
        r#"
error[no-front]: the folder has no `handbook.yaml`
 |
 = help: lay out a new handbook with `coldpress begin`, or write one with title, house, edition, altitude and parts
"#,
    );
}

#[test]
fn a_file_of_no_kind() {
    let book = Book::sound();
    book.put("notes/plan.md", "Buy a level.\n");
    check(
        &book,
        r#"
warning[file-not-read]: `notes/plan.md` is no kind of file that a handbook has
 --> notes/plan.md:1:1
  |
1 | Buy a level.
  | ^
  |
  = help: move it out of the folder, or into lessons/, refrigerants/, trees/, sheets/, practice/ or pictures/
"#,
    );
}

#[test]
fn an_order_of_units_that_is_none() {
    let book = Book::sound();
    book.change(
        FRONT,
        "parts:\n",
        "\
units: metric
parts:
",
    );
    check(
        &book,
        r#"
error[units-not-known]: `metric` is no order of units
 --> handbook.yaml:5:8
  |
5 | units: metric
  |        ^^^^^^
  |
  = help: write `US first` or `SI first`; both systems are set either way
"#,
    );
}

#[test]
fn keys_in_a_place_that_is_none() {
    let book = Book::sound();
    book.change(FRONT, "parts:\n", "keys: upside down\nparts:\n");
    check(
        &book,
        r#"
error[keys-not-known]: `upside down` is no place for keys
 --> handbook.yaml:5:7
  |
5 | keys: upside down
  |       ^^^^^^^^^^^
  |
  = help: write `with the problems`, or `apart` for a page of keys that only you have
"#,
    );
}

#[test]
fn a_refrigerant_whose_table_in_a_page_would_be_off() {
    let book = Book::sound();
    let odd = "designation: R-999\nmade-of: {R-717: 50 %, R-134a: 50 %}\nsafety-group: B2L\nsources: []\n";
    book.put("refrigerants/R-999.yaml", odd);
    check(
        &book,
        r#"
warning[page-table-off]: the page's table of `R-999` is off by up to 0.022 °F and 0.000 %
 --> refrigerants/R-999.yaml:1:14
  |
1 | designation: R-999
  |              ^^^^^
  |
  = help: at most 0.02 °F and 0.02 % are borne, so forms leave it out; printed tables and figures are as they should be
"#,
    );
}

#[test]
fn a_lesson_in_no_part() {
    let book = Book::sound();
    book.put(
        "lessons/stray.md",
        "\
---
title: Stray
---
Text.
",
    );
    check(
        &book,
        r#"
error[lesson-without-part]: this lesson lies in no part
 --> lessons/stray.md:1:1
  |
1 | ---
  | ^
  |
  = help: put it in the folder of its part: `lessons/<part>/<lesson>.md`
"#,
    );
}

#[test]
fn a_lesson_that_is_not_markdown() {
    let book = Book::sound();
    book.put("lessons/coil/readings.yaml", "title: Readings\n");
    check(
        &book,
        r#"
error[lesson-not-markdown]: `readings.yaml` is not a lesson
 --> lessons/coil/readings.yaml:1:1
  |
1 | title: Readings
  | ^
  |
  = help: lessons are Markdown and end in `.md`
"#,
    );
}

#[test]
fn a_lesson_without_a_head() {
    let book = Book::sound();
    book.put(
        "lessons/coil/drier.md",
        "\
## The drier

Text.
",
    );
    check(
        &book,
        r#"
error[lesson-without-head]: this lesson has no head
 --> lessons/coil/drier.md:1:1
  |
1 | ## The drier
  | ^
  |
  = help: begin it with a line `---`, its `title:`, and another line `---`
"#,
    );
}

#[test]
fn two_lessons_of_one_name() {
    let book = Book::sound();
    book.change(FRONT, "carry-copies", "  - name: tables\n    title: Tables\ncarry-copies");
    book.put(
        "lessons/tables/gauges.md",
        "\
---
title: More gauges
---
Text.
",
    );
    check(
        &book,
        r#"
error[lesson-twice]: there are two lessons named `gauges`
 --> lessons/tables/gauges.md:2:8
  |
2 | title: More gauges
  |        ^^^^^^^^^^^
  |
 ::: lessons/coil/gauges.md:2:8
  |
2 | title: Gauges
  |        ------ the other one
  |
  = help: give one of the two files another name: links go by it
"#,
    );
}

#[test]
fn a_picture() {
    let book = Book::sound();
    book.change(GAUGES, TEXT, "![A gauge](gauge.png) reads against the air.");
    check(
        &book,
        r#"
error[picture-not-set]: the picture `gauge.png` stands in running text
 --> lessons/coil/gauges.md:4:1
  |
4 | ![A gauge](gauge.png) reads against the air.
  | ^^^^^^^^^^^^^^^^^^^^^
  |
  = help: set it in a `plate` block, where it has a number, a title and words for those who don't see it
"#,
    );
}

#[test]
fn a_head_with_a_slip_in_a_key() {
    let book = Book::sound();
    book.change(
        GAUGES,
        "title: Gauges\n",
        "\
title: Gauges
hazard: [pressure]
",
    );
    check(
        &book,
        r#"
error[yaml-not-read]: no such key: `hazard`, keys here are `title`, `purpose`, `needs`, `maker-first`, `hazards`, `index`
 --> lessons/coil/gauges.md:3:1
  |
3 | hazard: [pressure]
  | ^^^^^^^^^^^^^^^^^^
"#,
    );
}

#[test]
fn a_head_without_a_title() {
    let book = Book::sound();
    book.change(GAUGES, "title: Gauges\n", "purpose: To read one.\n");
    check(
        &book,
        r#"
error[yaml-not-read]: missing key `title`
 --> lessons/coil/gauges.md:2:1
  |
2 | purpose: To read one.
  | ^^^^^^^^^^^^^^^^^^^^^
"#,
    );
}

#[test]
fn a_bare_question_mark() {
    let book = Book::sound();
    book.change(SUPERHEAT, "answer: 11.5 °F", "answer: ?");
    check(
        &book,
        r#"
error[yaml-not-read]: mapping keys are not allowed in this context
  --> lessons/coil/superheat.md:18:13
   |
18 |     answer: ?
   |             ^
   |
   = help: put the question mark in quotes: `"?"`
"#,
    );
}

#[test]
fn a_list_that_is_no_list() {
    let book = Book::sound();
    book.change(VALUES, "  value: 8 to 18 °F\n", "  value: [8, 18]\n");
    check(
        &book,
        r#"
error[yaml-not-read]: superheat-range.value: a list stands here, and wanted is a word, a sentence or a figure with its unit
 --> values.yaml:3:10
  |
3 |   value: [8, 18]
  |          ^^^^^^^
"#,
    );
}

#[test]
fn a_name_written_twice() {
    let book = Book::sound();
    book.change(
        TERMS,
        "superheat:\n",
        "\
superheat:
  means: Heat above boiling.
superheat:
",
    );
    check(
        &book,
        r#"
error[yaml-not-read]: `superheat` stands here twice
 --> terms.yaml:1:1
  |
1 | superheat:
  | ^^^^^^^^^^
"#,
    );
}

#[test]
fn a_refrigerant_that_rests_on_nothing() {
    let book = Book::sound();
    book.put(
        "refrigerants/R-32.yaml",
        "\
designation: R-32
sources: [common-practice]
",
    );
    check(
        &book,
        r#"
error[refrigerant-unfounded]: `R-32` must rest on one thing, an equation, a blend or typed points
 --> refrigerants/R-32.yaml:1:14
  |
1 | designation: R-32
  |              ^^^^
  |
  = help: write `equation: R-134a` for a pure fluid, `made-of: {R-32: 50 %, R-125: 50 %}` for a blend, or `points:` where neither is known
"#,
    );
}

#[test]
fn points_that_make_no_table() {
    let book = Book::sound();
    let put = |columns: &str, row: &str| {
        let rows = "    - [40, 113.2]\n    - [60, 160.9]\n";
        let text = format!(
            "designation: R-XXX\npoints:\n  source: common-practice\n  columns: {columns}\n  rows:\n{rows}    - {row}\n"
        );
        book.put("refrigerants/R-XXX.yaml", &text);
    };
    put("[temperature °F, pressure psi]", "[80, 220.1]");
    check(
        &book,
        r#"
error[points-not-read]: `1 psi` does not say from where it is counted: write `1 psig` or `1 psia`
 --> refrigerants/R-XXX.yaml:4:29
  |
4 |   columns: [temperature °F, pressure psi]
  |                             ^^^^^^^^^^^^
"#,
    );
    put("[temperature °F, pressure psig]", "[80, 220.1, 214]");
    check(
        &book,
        r#"
error[points-not-read]: row 3 has 3 figures, and there are 2 columns
 --> refrigerants/R-XXX.yaml:8:8
  |
8 |     - [80, 220.1, 214]
  |        ^^
"#,
    );
    put("[temperature °F, quality]", "[80, 1]");
    check(
        &book,
        r#"
error[points-not-read]: `quality` is no column of a table of points
 --> refrigerants/R-XXX.yaml:4:29
  |
4 |   columns: [temperature °F, quality]
  |                             ^^^^^^^
  |
  = help: columns are `temperature`, `bubble` and `dew`, or `pressure` for both, each with its unit: `bubble psig`
"#,
    );
}

#[test]
fn a_point_off_the_curve_of_its_neighbors() {
    let book = Book::sound();
    book.put(
        "refrigerants/R-XXX.yaml",
        "\
designation: R-XXX
points:
  source: common-practice
  columns: [temperature °F, pressure psig]
  rows: [[0, 6.5], [10, 11.9], [20, 18.4], [30, 62.1], [40, 35.0], [50, 45.4], [60, 57.4]]
",
    );
    check(
        &book,
        r#"
error[point-off-curve]: the bubble pressure `62.1` breaks the curve of the rows around it
 --> refrigerants/R-XXX.yaml:5:49
  |
5 |   rows: [[0, 6.5], [10, 11.9], [20, 18.4], [30, 62.1], [40, 35.0], [50, 45.4], [60, 57.4]]
  |                                                 ^^^^ row 4
  |
  = found: its neighbors put it at 26.0 psig, on the logarithm of pressure against 1/T
  = help: two digits may have changed places: look whether the source has `26.1`
"#,
    );
}

#[test]
fn points_that_disagree_with_the_equation_beside_them() {
    let book = Book::sound();
    book.put(
        "refrigerants/R-134a.yaml",
        "\
designation: R-134a
equation: R-134a
sources: [common-practice]
points:
  source: common-practice
  columns: [temperature °F, pressure psia]
  rows: [[20, 34.0], [40, 50.0], [60, 72.1]]
",
    );
    check(
        &book,
        r#"
warning[points-disagree]: the typed points of `R-134a` are up to 2.5 % from its equation
 --> refrigerants/R-134a.yaml:7:15
  |
7 |   rows: [[20, 34.0], [40, 50.0], [60, 72.1]]
  |               ^^^^ furthest here, in row 1
  |
  = found: the equation has 33.1 psia
  = help: figures are worked from the equation; keep the points only if their source is the better one, and then without it
"#,
    );
}

#[test]
fn a_zero_that_is_not_in_use() {
    let book = Book::sound();
    book.change(FRONT, "890 ft", "890 ft\ncounted-from: Mollier");
    check(
        &book,
        r#"
error[zero-not-known]: `Mollier` is no zero that enthalpy and entropy are counted from
 --> handbook.yaml:5:15
  |
5 | counted-from: Mollier
  |               ^^^^^^^
  |
  = help: write one of IIR, ASHRAE, boiling-point
"#,
    );
}

#[test]
fn a_table_of_what_no_table_can_show() {
    let book = Book::sound();
    book.change(SUPERHEAT, "step: 10 °F", "step: 10 °F\nalso: [enthalpy, quality]");
    check(
        &book,
        r#"
error[table-not-read]: `quality` is nothing a saturation table can show
  --> lessons/coil/superheat.md:27:18
   |
27 | also: [enthalpy, quality]
   |                  ^^^^^^^
   |
   = help: it can show `density`, `volume`, `enthalpy`, `entropy`
"#,
    );
}

#[test]
fn a_refrigerant_described_twice() {
    let book = Book::sound();
    book.put(
        "refrigerants/again.yaml",
        "\
designation: R-134a
equation: R-134a
sources: [common-practice]
",
    );
    check(
        &book,
        r#"
error[refrigerant-twice]: `R-134a` is described twice
 --> refrigerants/again.yaml:1:14
  |
1 | designation: R-134a
  |              ^^^^^^
  |
 ::: refrigerants/R-134a.yaml:1:14
  |
1 | designation: R-134a
  |              ------ the other one
  |
  = help: keep one of the two files
"#,
    );
}

// The front and the order of lessons.

#[test]
fn an_altitude_without_its_unit() {
    let book = Book::sound();
    book.change(FRONT, "890 ft", "890");
    check(
        &book,
        r#"
error[altitude-not-read]: `890` has no unit: a length is written with one, as `890 ft` or `890 m`
 --> handbook.yaml:4:11
  |
4 | altitude: 890
  |           ^^^
  |
  = help: write the altitude with its unit: `890 ft` or `270 m`; a gauge reads against the air there
"#,
    );
}

#[test]
fn an_altitude_past_the_sky() {
    let book = Book::sound();
    book.change(FRONT, "890 ft", "890,000 ft");
    check(
        &book,
        r#"
error[altitude-not-read]: an altitude of 271,272 m is outside the standard atmosphere's lowest layer, -5,000 m to 11,000 m (-16,404 ft to 36,089 ft)
 --> handbook.yaml:4:11
  |
4 | altitude: 890,000 ft
  |           ^^^^^^^^^^
  |
  = help: write the altitude with its unit: `890 ft` or `270 m`; a gauge reads against the air there
"#,
    );
}

#[test]
fn lessons_that_need_each_other() {
    let book = Book::sound();
    book.change(
        GAUGES,
        "title: Gauges\n",
        "\
title: Gauges
needs: [superheat]
",
    );
    check(
        &book,
        r#"
error[needs-circle]: these lessons need each other, so none can be read first
 --> lessons/coil/superheat.md:3:9
  |
3 | needs: [gauges]
  |         ^^^^^^
  |
  = found: gauges needs superheat needs gauges
  = help: take one of these needs out
"#,
    );
}

#[test]
fn a_lesson_in_a_part_that_is_not_listed() {
    let book = Book::sound();
    book.put(
        "lessons/coils/drier.md",
        "\
---
title: Drier
---
Text.
",
    );
    check(
        &book,
        r#"
error[part-not-listed]: `drier` lies in part `coils`, which `handbook.yaml` does not list
 --> lessons/coils/drier.md:2:8
  |
2 | title: Drier
  |        ^^^^^
  |
  = help: move it to `lessons/coil/`, or add `coils` to `parts:`
"#,
    );
}

#[test]
fn a_lesson_listed_under_another_part() {
    let book = Book::sound();
    book.change(FRONT, "carry-copies", "  - name: tables\n    title: Tables\n    lessons: [drier]\ncarry-copies");
    book.put(
        "lessons/coil/drier.md",
        "\
---
title: Drier
---
Text.
",
    );
    check(
        &book,
        r#"
error[lesson-in-other-part]: `drier` lies in part `coil`, not in `tables`
  --> handbook.yaml:11:15
   |
11 |     lessons: [drier]
   |               ^^^^^
   |
   = help: move the file to `lessons/tables/`, or list it under `coil`
"#,
    );
}

#[test]
fn a_title_in_the_text() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
# Gauges

Text.",
    );
    check(
        &book,
        r#"
error[heading-level]: `Gauges` stands at level 1
 --> lessons/coil/gauges.md:4:1
  |
4 | # Gauges
  | ^^^^^^^^
  |
  = help: the title is in the head; sections are `##`, parts of a section `###`
"#,
    );
}

#[test]
fn a_heading_too_deep() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
## Reading

#### By night

Text.",
    );
    check(
        &book,
        r#"
warning[heading-level]: `By night` stands at level 4
 --> lessons/coil/gauges.md:6:1
  |
6 | #### By night
  | ^^^^^^^^^^^^^
  |
  = help: the title is in the head; sections are `##`, parts of a section `###`
"#,
    );
}

#[test]
fn notices_past_the_second() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
> **CAUTION** **It is hot.** Wait.

> **CAUTION** **It is hot.** Wait.

> **CAUTION** **It is hot.** Wait.

Text.",
    );
    check(
        &book,
        r#"
warning[too-many-notices]: `gauges` has 3 notices in its text; past 2 they are read past
 --> lessons/coil/gauges.md:8:1
  |
8 | > **CAUTION** **It is hot.** Wait.
  | ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
  |
  = help: put the lesser ones into the text, or hazards of the whole job into `hazards:`
"#,
    );
}

// Links.

#[test]
fn a_link_to_a_lesson_that_is_not_there() {
    let book = Book::sound();
    book.change(GAUGES, TEXT, "See [superheat](lesson:superheet).");
    check(
        &book,
        r#"
error[dead-link]: there is no lesson `superheet`
 --> lessons/coil/gauges.md:4:24
  |
4 | See [superheat](lesson:superheet).
  |                        ^^^^^^^^^
  |
  = help: the nearest is `superheat`
"#,
    );
}

#[test]
fn a_link_to_a_term_that_is_not_there() {
    let book = Book::sound();
    book.change(GAUGES, TEXT, "See [glide](term:glide).");
    check(
        &book,
        r#"
error[dead-link]: there is no term `glide`
 --> lessons/coil/gauges.md:4:18
  |
4 | See [glide](term:glide).
  |                  ^^^^^
  |
  = help: there is only `superheat`
"#,
    );
}

#[test]
fn a_link_to_a_tree_that_is_not_there() {
    let book = Book::sound();
    book.change(GAUGES, TEXT, "See [the tree](tree:superheat-hihg).");
    check(
        &book,
        r#"
error[dead-link]: there is no tree `superheat-hihg`
 --> lessons/coil/gauges.md:4:21
  |
4 | See [the tree](tree:superheat-hihg).
  |                     ^^^^^^^^^^^^^^
  |
  = help: the nearest is `superheat-high`
"#,
    );
}

#[test]
fn a_link_to_a_table_that_is_not_there() {
    let book = Book::sound();
    book.change(GAUGES, TEXT, "See [the table](table:r-134).");
    check(
        &book,
        r#"
error[dead-link]: there is no table `r-134`
 --> lessons/coil/gauges.md:4:23
  |
4 | See [the table](table:r-134).
  |                       ^^^^^
  |
  = help: the nearest is `r-134a`
"#,
    );
}

#[test]
fn a_link_to_a_refrigerant_that_is_not_there() {
    let book = Book::sound();
    book.change(GAUGES, TEXT, "See [R-134](refrigerant:R-134).");
    check(
        &book,
        r#"
error[dead-link]: there is no refrigerant `R-134`
 --> lessons/coil/gauges.md:4:25
  |
4 | See [R-134](refrigerant:R-134).
  |                         ^^^^^
  |
  = help: the nearest is `R-134a`
"#,
    );
}

#[test]
fn a_link_to_a_source_that_is_not_there() {
    let book = Book::sound();
    book.change(GAUGES, TEXT, "See [the paper](source:span-wagner).");
    check(
        &book,
        r#"
error[dead-link]: there is no source `span-wagner`
 --> lessons/coil/gauges.md:4:24
  |
4 | See [the paper](source:span-wagner).
  |                        ^^^^^^^^^^^
  |
  = help: there is only `common-practice`
"#,
    );
}

#[test]
fn a_link_to_a_standing_value_that_is_not_there() {
    let book = Book::sound();
    book.change(GAUGES, TEXT, "Look for [8 to 18 °F](value:superheat-rage).");
    check(
        &book,
        r#"
error[dead-link]: there is no standing value `superheat-rage`
 --> lessons/coil/gauges.md:4:29
  |
4 | Look for [8 to 18 °F](value:superheat-rage).
  |                             ^^^^^^^^^^^^^^
  |
  = help: the nearest is `superheat-range`
"#,
    );
}

#[test]
fn a_link_with_a_space_in_it() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "See [the tree](tree: superheat high), or [hot](figure:dew-temperature?pressure=118 psig).",
    );
    check(
        &book,
        r#"
error[dead-link]: `tree: superheat high` holds a space, and so is no link but plain text
 --> lessons/coil/gauges.md:4:16
  |
4 | See [the tree](tree: superheat high), or [hot](figure:dew-temperature?pressure=118 psig).
  |                ^^^^^^^^^^^^^^^^^^^^
  |
  = help: `tree:superheat-high`

error[dead-link]: `figure:dew-temperature?pressure=118 psig` holds a space, and so is no link but plain text
 --> lessons/coil/gauges.md:4:48
  |
4 | See [the tree](tree: superheat high), or [hot](figure:dew-temperature?pressure=118 psig).
  |                                                ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
  |
  = help: `figure:dew-temperature?pressure=118%20psig`
"#,
    );
}

#[test]
fn a_link_that_says_not_what_it_leads_to() {
    let book = Book::sound();
    book.change(GAUGES, TEXT, "See [superheat](superheat.md).");
    check(
        &book,
        r#"
error[dead-link]: `superheat.md` says not what it leads to
 --> lessons/coil/gauges.md:4:17
  |
4 | See [superheat](superheat.md).
  |                 ^^^^^^^^^^^^
  |
  = help: write what it is and its name, `lesson:bulb-mounting`, `term:superheat`, `table:r-410a`, or a whole address that begins with `https://`
"#,
    );
}

#[test]
fn a_need_a_hazard_and_a_block_that_lead_nowhere() {
    let book = Book::sound();
    book.change(
        GAUGES,
        "title: Gauges\n",
        "\
title: Gauges
needs: [presure]
hazards: [presure]
",
    );
    book.change(
        GAUGES,
        TEXT,
        "\
```tree
tree: superheat-low
```

```saturation-table
refrigerant: R-999
from: 0 °F
to: 10 °F
step: 5 °F
```",
    );
    check(
        &book,
        r#"
error[dead-link]: there is no lesson `presure`
 --> lessons/coil/gauges.md:3:9
  |
3 | needs: [presure]
  |         ^^^^^^^
  |
  = help: there are `gauges`, `superheat`

error[dead-link]: there is no standing notice `presure`
 --> lessons/coil/gauges.md:4:11
  |
4 | hazards: [presure]
  |           ^^^^^^^
  |
  = help: the nearest is `pressure`

error[dead-link]: there is no tree `superheat-low`
 --> lessons/coil/gauges.md:7:7
  |
7 | tree: superheat-low
  |       ^^^^^^^^^^^^^
  |
  = help: the nearest is `superheat-high`

error[dead-link]: there is no refrigerant `R-999`
  --> lessons/coil/gauges.md:11:14
   |
11 | refrigerant: R-999
   |              ^^^^^
   |
   = help: there is only `R-134a`
"#,
    );
}

#[test]
fn a_source_and_a_lesson_named_in_a_list() {
    let book = Book::sound();
    book.change(VALUES, "source: common-practice", "source: common-sense");
    book.change(TERMS, "taught: superheat", "taught: superheats");
    check(
        &book,
        r#"
error[dead-link]: there is no lesson `superheats`
 --> terms.yaml:3:11
  |
3 |   taught: superheats
  |           ^^^^^^^^^^
  |
  = help: the nearest is `superheat`

error[dead-link]: there is no source `common-sense`
 --> values.yaml:5:11
  |
5 |   source: common-sense
  |           ^^^^^^^^^^^^
  |
  = help: there is only `common-practice`
"#,
    );
}

// Figures.

#[test]
fn a_figure_with_a_digit_wrong() {
    let book = Book::sound();
    book.change(SUPERHEAT, "[21.5 °F]", "[21.7 °F]");
    check(
        &book,
        r#"
error[figure-disagrees]: this dew temperature comes to 21.5 °F
 --> lessons/coil/superheat.md:7:2
  |
7 | [21.7 °F](figure:dew-temperature?refrigerant=R-134a&pressure=20psig). Look for
  |  ^^^^^^^ written here
  |
  = found: T_dew(R-134a, 34.23 psia) = 21.5 °F
  = found: from R-134a, pressure 20 psig, altitude 890 ft
  = help: write `21.5 °F`, or `"?"` to have it filled in
"#,
    );
}

#[test]
fn a_figure_with_two_digits_changed_round() {
    let book = Book::sound();
    book.change(SUPERHEAT, "[21.5 °F]", "[25.1 °F]");
    check(
        &book,
        r#"
error[figure-disagrees]: this dew temperature comes to 21.5 °F
 --> lessons/coil/superheat.md:7:2
  |
7 | [25.1 °F](figure:dew-temperature?refrigerant=R-134a&pressure=20psig). Look for
  |  ^^^^^^^ written here
  |
  = found: T_dew(R-134a, 34.23 psia) = 21.5 °F
  = found: from R-134a, pressure 20 psig, altitude 890 ft
  = help: two digits may have changed places: write `21.5 °F`, or `"?"` to have it filled in
"#,
    );
}

#[test]
fn a_figure_of_another_quantity() {
    let book = Book::sound();
    book.change(SUPERHEAT, "[21.5 °F]", "[21.5 psig]");
    check(
        &book,
        r#"
error[figure-not-read]: `21.5 psig` is a pressure, and a temperature is wanted here: write it as `52 °F`
 --> lessons/coil/superheat.md:7:2
  |
7 | [21.5 psig](figure:dew-temperature?refrigerant=R-134a&pressure=20psig). Look for
  |  ^^^^^^^^^
  |
  = found: T_dew(R-134a, 34.23 psia) = 21.5 °F
  = help: write `21.5 °F`, or `"?"` to have it filled in
"#,
    );
}

#[test]
fn a_figure_without_a_unit() {
    let book = Book::sound();
    book.change(SUPERHEAT, "[21.5 °F]", "[21.5]");
    check(
        &book,
        r#"
error[figure-not-read]: `21.5` has no unit: a temperature is written with one, as `21.5 °F` or `21.5 °C`
 --> lessons/coil/superheat.md:7:2
  |
7 | [21.5](figure:dew-temperature?refrigerant=R-134a&pressure=20psig). Look for
  |  ^^^^
  |
  = found: T_dew(R-134a, 34.23 psia) = 21.5 °F
  = help: write `21.5 °F`, or `"?"` to have it filled in
"#,
    );
}

#[test]
fn a_computation_that_is_not_there() {
    let book = Book::sound();
    book.change(SUPERHEAT, "figure:dew-temperature", "figure:due-temperature");
    check(
        &book,
        r#"
error[computation-not-known]: there is no computation `due-temperature`
 --> lessons/coil/superheat.md:7:18
  |
7 | [21.5 °F](figure:due-temperature?refrigerant=R-134a&pressure=20psig). Look for
  |                  ^^^^^^^^^^^^^^^
  |
  = help: the nearest is `dew-temperature`; `coldpress reckon --list` names all there are
"#,
    );
}

#[test]
fn an_input_that_a_computation_does_not_take() {
    let book = Book::sound();
    book.change(SUPERHEAT, "&pressure=20psig", "&presure=20psig");
    check(
        &book,
        r#"
error[input-not-known]: `dew-temperature` takes no `presure`
 --> lessons/coil/superheat.md:7:53
  |
7 | [21.5 °F](figure:dew-temperature?refrigerant=R-134a&presure=20psig). Look for
  |                                                     ^^^^^^^
  |
  = help: the nearest is `pressure`
"#,
    );
}

#[test]
fn an_input_that_is_left_out() {
    let book = Book::sound();
    book.change(SUPERHEAT, "&pressure=20psig", "");
    check(
        &book,
        r#"
error[figure-not-worked]: dew-temperature also needs pressure (as `118 psig`); it takes refrigerant, pressure, altitude if it is known
 --> lessons/coil/superheat.md:7:1
  |
7 | [21.5 °F](figure:dew-temperature?refrigerant=R-134a). Look for
  | ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
"#,
    );
}

#[test]
fn an_input_that_can_t_be_read() {
    let book = Book::sound();
    book.change(SUPERHEAT, "&pressure=20psig", "&pressure=20");
    check(
        &book,
        r#"
error[figure-not-read]: `20` has no unit: a pressure is written with one, as `20 psig` or `20 psia`
 --> lessons/coil/superheat.md:7:62
  |
7 | [21.5 °F](figure:dew-temperature?refrigerant=R-134a&pressure=20). Look for
  |                                                              ^^
"#,
    );
}

#[test]
fn a_figure_of_a_refrigerant_that_is_not_there() {
    let book = Book::sound();
    book.change(SUPERHEAT, "refrigerant=R-134a&", "refrigerant=R-999&");
    check(
        &book,
        r#"
error[dead-link]: there is no refrigerant `R-999`
 --> lessons/coil/superheat.md:7:46
  |
7 | [21.5 °F](figure:dew-temperature?refrigerant=R-999&pressure=20psig). Look for
  |                                              ^^^^^
  |
  = help: describe it in a file of its own under `refrigerants/`
"#,
    );
}

#[test]
fn a_figure_past_the_critical_point() {
    let book = Book::sound();
    book.change(SUPERHEAT, "&pressure=20psig", "&pressure=2000psig");
    check(
        &book,
        r#"
error[figure-not-worked]: R-134a: no saturation temperature at 2014.2 psia (13887.6 kPa); it is known from 0.05650 psia (0.3896 kPa) to 588.3 psia (4056.1 kPa) (from the triple point to just below the critical point)
 --> lessons/coil/superheat.md:7:1
  |
7 | [21.5 °F](figure:dew-temperature?refrigerant=R-134a&pressure=2000psig). Look for
  | ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
"#,
    );
}

#[test]
fn a_given_figure_that_is_none_of_its_kind() {
    let book = Book::sound();
    book.change(SUPERHEAT, "[20 psig](as:pressure)", "[20 psi](as:pressure)");
    check(
        &book,
        r#"
error[given-not-read]: `20 psi` does not say from where it is counted: write `20 psig` or `20 psia`
 --> lessons/coil/superheat.md:6:30
  |
6 | The suction gauge stands at [20 psi](as:pressure), a boiling point of
  |                              ^^^^^^
"#,
    );
}

#[test]
fn a_given_figure_of_no_quantity() {
    let book = Book::sound();
    book.change(SUPERHEAT, "(as:pressure)", "(as:presure)");
    check(
        &book,
        r#"
error[quantity-not-known]: there is no quantity `presure`
 --> lessons/coil/superheat.md:6:42
  |
6 | The suction gauge stands at [20 psig](as:presure), a boiling point of
  |                                          ^^^^^^^
  |
  = help: the nearest is `pressure`
"#,
    );
}

// Worked examples.

#[test]
fn an_answer_with_a_digit_wrong() {
    let book = Book::sound();
    book.change(SUPERHEAT, "answer: 11.5 °F", "answer: 11.7 °F");
    check(
        &book,
        r#"
error[figure-disagrees]: this superheat comes to 11.5 °F
  --> lessons/coil/superheat.md:18:13
   |
18 |     answer: 11.7 °F
   |             ^^^^^^^ written here
   |
   = found: 33 °F - 21.55 °F = 11.5 °F
   = found: from R-134a, suction pressure 20 psig, suction line temperature 33 °F, altitude 890 ft
   = help: write `11.5 °F`, or `"?"` to have it filled in
"#,
    );
}

#[test]
fn an_answer_outside_what_it_may_be_off() {
    let book = Book::sound();
    book.change(
        SUPERHEAT,
        "answer: 11.5 °F",
        "\
answer: 12.1 °F
    within: 0.5 °F",
    );
    check(
        &book,
        r#"
error[figure-disagrees]: this superheat comes to 11.5 °F
  --> lessons/coil/superheat.md:18:13
   |
18 |     answer: 12.1 °F
   |             ^^^^^^^ written here
   |
   = found: 33 °F - 21.55 °F = 11.5 °F
   = found: from R-134a, suction pressure 20 psig, suction line temperature 33 °F, altitude 890 ft
   = help: write `11.5 °F`, or `"?"` to have it filled in
"#,
    );
}

#[test]
fn a_tolerance_that_can_t_be_read() {
    let book = Book::sound();
    book.change(
        SUPERHEAT,
        "answer: 11.5 °F",
        "\
answer: 11.5 °F
    within: a little",
    );
    check(
        &book,
        r#"
error[figure-not-read]: `a little` does not begin with a number: write a number and its unit, as `12 °F`
  --> lessons/coil/superheat.md:19:13
   |
19 |     within: a little
   |             ^^^^^^^^
"#,
    );
}

#[test]
fn a_step_that_lacks_an_input() {
    let book = Book::sound();
    book.change(SUPERHEAT, "  suction line temperature: 33 °F\n", "");
    check(
        &book,
        r#"
error[step-lacks-input]: `superheat` needs `suction line temperature`, which is neither given nor found above
  --> lessons/coil/superheat.md:16:11
   |
16 |   - find: superheat
   |           ^^^^^^^^^
   |
   = help: give it above: `suction line temperature: …`
"#,
    );
}

#[test]
fn a_step_with_an_input_it_does_not_take() {
    let book = Book::sound();
    book.change(
        SUPERHEAT,
        "  - find: superheat\n",
        "  - find: superheat\n    of: {suction presure: suction pressure}\n",
    );
    check(
        &book,
        r#"
error[input-not-known]: `superheat` takes no `suction presure`
  --> lessons/coil/superheat.md:18:10
   |
18 |     of: {suction presure: suction pressure}
   |          ^^^^^^^^^^^^^^^
   |
   = help: the nearest is `suction pressure`
"#,
    );
}

#[test]
fn something_given_that_no_step_uses() {
    let book = Book::sound();
    book.change(
        SUPERHEAT,
        "  suction line temperature: 33 °F\n",
        "  suction line temperature: 33 °F\n  liquid pressure: 120 psig\n",
    );
    check(
        &book,
        r#"
warning[given-not-used]: `liquid pressure` is given and no step uses it
  --> lessons/coil/superheat.md:16:3
   |
16 |   liquid pressure: 120 psig
   |   ^^^^^^^^^^^^^^^
   |
   = help: name it as the step's input is named, or put it under the step's `of:`
"#,
    );
}

#[test]
fn something_given_that_can_t_be_read() {
    let book = Book::sound();
    book.change(SUPERHEAT, "suction line temperature: 33 °F", "suction line temperature: 33 psig");
    check(
        &book,
        r#"
error[figure-not-read]: `33 psig` is a pressure, and a temperature is wanted here: write it as `52 °F`
  --> lessons/coil/superheat.md:15:29
   |
15 |   suction line temperature: 33 psig
   |                             ^^^^^^^
"#,
    );
}

// Refrigerants and tables.

#[test]
fn an_equation_that_is_not_there() {
    let book = Book::sound();
    book.put(
        "refrigerants/R-999.yaml",
        "\
designation: R-999
equation: R-999
sources: [common-practice]
",
    );
    check(
        &book,
        r#"
error[refrigerant-not-built]: the program has no equation of state for `R-999`
 --> refrigerants/R-999.yaml:2:11
  |
2 | equation: R-999
  |           ^^^^^
  |
  = help: the nearest is `R-290`
"#,
    );
}

#[test]
fn shares_that_make_no_whole() {
    let book = Book::sound();
    book.put(
        "refrigerants/R-410A.yaml",
        "\
designation: R-410A
made-of: {R-32: 50 %, R-125: 40 %}
sources: [common-practice]
",
    );
    check(
        &book,
        r#"
error[shares-not-whole]: the shares of `R-410A` come to 90.0 %
 --> refrigerants/R-410A.yaml:1:14
  |
1 | designation: R-410A
  |              ^^^^^^
  |
  = found: 50 % + 40 % = 90.0 %
  = help: shares by mass make 100 %
"#,
    );
}

#[test]
fn a_share_that_is_no_share() {
    let book = Book::sound();
    book.put(
        "refrigerants/R-410A.yaml",
        "\
designation: R-410A
made-of: {R-32: half, R-125: 50 %}
sources: [common-practice]
",
    );
    check(
        &book,
        r#"
error[share-not-read]: `half` does not begin with a number: write a number, as `0.8`
 --> refrigerants/R-410A.yaml:2:17
  |
2 | made-of: {R-32: half, R-125: 50 %}
  |                 ^^^^
  |
  = help: write a share by mass in per cent: `68.9 %`
"#,
    );
}

#[test]
fn a_table_that_ends_before_it_begins() {
    let book = Book::sound();
    book.change(SUPERHEAT, "to: 40 °F", "to: -40 °F");
    check(
        &book,
        r#"
error[table-not-read]: this ends at −40 °F, which is not above 0 °F, where it begins
  --> lessons/coil/superheat.md:25:5
   |
25 | to: -40 °F
   |     ^^^^^^
"#,
    );
}

#[test]
fn a_table_of_too_many_rows() {
    let book = Book::sound();
    book.change(SUPERHEAT, "step: 10 °F", "step: 0.01 °F");
    check(
        &book,
        r#"
error[table-not-read]: in steps of 0.01 °F this has more than 1000 figures
  --> lessons/coil/superheat.md:25:5
   |
25 | to: 40 °F
   |     ^^^^^
"#,
    );
}

#[test]
fn two_tables_of_one_name() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```saturation-table
refrigerant: R-134a
from: 0 °F
to: 10 °F
step: 5 °F
```",
    );
    check(
        &book,
        r#"
error[table-twice]: there are two tables `r-134a`
  --> lessons/coil/superheat.md:22:1
   |
22 | ```saturation-table
   | ^^^^^^^^^^^^^^^^^^^
   |
  ::: lessons/coil/gauges.md:4:1
   |
 4 | ```saturation-table
   | ------------------- the other one
   |
   = help: give one of them another `name:`; it is known by it
"#,
    );
}

// Computed tables, forms, problems, pictures and job sheets.

#[test]
fn a_computed_table_with_two_inputs_down() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```computed-table
name: gauge
title: Gauge to absolute
find: absolute-pressure
down: {pressure: 0 to 20 psig by 10 psig, altitude: 0 to 2000 ft by 1000 ft}
```",
    );
    check(
        &book,
        r#"
error[table-not-read]: `down:` takes one input
 --> lessons/coil/gauges.md:8:7
  |
8 | down: {pressure: 0 to 20 psig by 10 psig, altitude: 0 to 2000 ft by 1000 ft}
  |       ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
  |
  = help: write `down: {suction pressure: 40 to 80 psig by 5 psig}`
"#,
    );
}

#[test]
fn a_stretch_that_runs_down() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```computed-table
name: gauge
title: Gauge to absolute
find: absolute-pressure
down: {pressure: 20 to 0 psig by 10 psig}
```",
    );
    check(
        &book,
        r#"
error[steps-not-read]: `20 to 0 psig` runs downward: write the lower end first, as `0 to 20 psig`
 --> lessons/coil/gauges.md:8:18
  |
8 | down: {pressure: 20 to 0 psig by 10 psig}
  |                  ^^^^^^^^^^^^^^^^^^^^^^^
  |
  = help: write both ends, the lower first, and the step: `15 to 30 psig by 1 psig`
"#,
    );
}

#[test]
fn a_computed_table_of_nothing() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```computed-table
name: past
title: Past the critical point
find: dew-temperature
given: {refrigerant: R-134a}
down: {pressure: 2000 to 3000 psig by 500 psig}
```",
    );
    check(
        &book,
        r#"
error[table-empty]: no cell of `past` can be reckoned
 --> lessons/coil/gauges.md:7:7
  |
7 | find: dew-temperature
  |       ^^^^^^^^^^^^^^^
  |
  = found: R-134a: no saturation temperature at 2014.2 psia (13887.6 kPa); it is known from 0.05650 psia (0.3896 kPa) to 588.3 psia (4056.1 kPa) (from the triple point to just below the critical point)
"#,
    );
}

#[test]
fn a_drawing_that_is_none() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```drawing
kind: three-force
title: Forces
```",
    );
    check(
        &book,
        r#"
error[drawing-not-known]: there is no drawing `three-force`
 --> lessons/coil/gauges.md:5:7
  |
5 | kind: three-force
  |       ^^^^^^^^^^^
  |
  = help: the nearest is `three-forces`
"#,
    );
}

#[test]
fn a_drawing_that_lacks_a_reading() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```drawing
kind: three-forces
title: Forces
given: {refrigerant: R-134a, suction line temperature: 33 °F}
```",
    );
    check(
        &book,
        r#"
error[drawing-lacks]: `three-forces` also needs `suction pressure`
 --> lessons/coil/gauges.md:5:7
  |
5 | kind: three-forces
  |       ^^^^^^^^^^^^
  |
  = help: write `suction pressure: 118 psig`
"#,
    );
}

#[test]
fn a_drawing_given_a_reading_under_another_name() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```drawing
kind: three-forces
title: Forces
given: {refrigerant: R-134a, suction presure: 20 psig, suction line temperature: 33 °F}
```",
    );
    check(
        &book,
        r#"
error[input-not-known]: `three-forces` takes no `suction presure` here
 --> lessons/coil/gauges.md:7:30
  |
7 | given: {refrigerant: R-134a, suction presure: 20 psig, suction line temperature: 33 °F}
  |                              ^^^^^^^^^^^^^^^
  |
  = help: the nearest is `suction pressure`
"#,
    );
}

#[test]
fn a_drawing_given_a_reading_that_cannot_be() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```drawing
kind: three-forces
title: Forces
given: {refrigerant: R-134a, suction pressure: 2000 psig, suction line temperature: 33 °F}
```",
    );
    check(
        &book,
        r#"
error[figure-not-worked]: R-134a: no saturation temperature at 2014.2 psia (13887.6 kPa); it is known from 0.05650 psia (0.3896 kPa) to 588.3 psia (4056.1 kPa) (from the triple point to just below the critical point)
 --> lessons/coil/gauges.md:7:48
  |
7 | given: {refrigerant: R-134a, suction pressure: 2000 psig, suction line temperature: 33 °F}
  |                                                ^^^^^^^^^
"#,
    );
}

#[test]
fn a_drawing_given_what_it_cannot_be_drawn_from() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```drawing
kind: bulb-clock
title: Bulb
given: {bulb: 1/2 in}
lines:
  - {size: 7/8 in, bulb at: on top}
```",
    );
    check(
        &book,
        r#"
error[drawing-not-read]: `on top` is no place on a clock
 --> lessons/coil/gauges.md:9:29
  |
9 |   - {size: 7/8 in, bulb at: on top}
  |                             ^^^^^^
  |
  = help: write `10 or 2 o'clock`
"#,
    );
}

#[test]
fn a_drawing_of_readings_that_go_back_in_time() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```drawing
kind: pull-down
title: Down
readings:
  - {time: 0 min, pressure: 5000 micron}
  - {time: 9 min, pressure: 900 micron}
  - {time: 6 min, pressure: 500 micron}
```",
    );
    check(
        &book,
        r#"
error[drawing-not-read]: this reading was taken at 6 min, not after the one above
  --> lessons/coil/gauges.md:10:12
   |
10 |   - {time: 6 min, pressure: 500 micron}
   |            ^^^^^
"#,
    );
}

#[test]
fn a_form_that_looks_for_no_standing_value() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```work-it-out
find: superheat
given: {refrigerant: R-134a}
looked-for: 8 to 18 °F
```",
    );
    check(
        &book,
        r#"
error[form-not-read]: `8 to 18 °F` is no standing value
 --> lessons/coil/gauges.md:7:13
  |
7 | looked-for: 8 to 18 °F
  |             ^^^^^^^^^^
  |
  = help: write `looked-for: value:superheat-range`
"#,
    );
}

#[test]
fn a_problem_that_asks_for_two_things() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```practice
name: coil
title: The coil
from:
  refrigerant: R-134a
  suction pressure: 15 to 25 psig by 1 psig
  suction line temperature: 30 to 40 °F by 1 °F
ask: What is the superheat at {suction pressure}?
find: superheat
steps:
  - find: superheat
```",
    );
    check(
        &book,
        r#"
error[problem-not-read]: `The coil` must ask for one thing
 --> lessons/coil/gauges.md:6:8
  |
6 | title: The coil
  |        ^^^^^^^^
  |
  = help: write `find:` with one computation, or `steps:` of which the last is asked for
"#,
    );
}

#[test]
fn a_problem_with_a_place_for_what_is_not_drawn() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```practice
name: coil
title: The coil
from:
  refrigerant: R-134a
  suction pressure: 15 to 25 psig by 1 psig
  suction line temperature: 30 to 40 °F by 1 °F
ask: What is the superheat at {pressure}?
find: superheat
```",
    );
    check(
        &book,
        r#"
error[problem-asks-for-nothing]: the question has a place for `pressure`, which is not drawn
  --> lessons/coil/gauges.md:11:6
   |
11 | ask: What is the superheat at {pressure}?
   |      ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
   |
   = help: what is drawn is `refrigerant`, `suction pressure`, `suction line temperature`
"#,
    );
}

#[test]
fn a_problem_that_no_draw_makes_worth_asking() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```practice
name: coil
title: The coil
from:
  refrigerant: R-134a
  suction pressure: 15 to 25 psig by 1 psig
  suction line temperature: 30 to 40 °F by 1 °F
ask: What is the superheat at {suction pressure}?
find: superheat
keep: 90 to 99 °F
```",
    );
    check(
        &book,
        r#"
error[problem-without-draw]: no draw of `coil` gives an answer worth asking for
 --> lessons/coil/gauges.md:5:7
  |
5 | name: coil
  |       ^^^^
  |
  = found: superheat comes to 16.8 °F
  = help: widen `keep:`, or draw from ranges that belong together
"#,
    );
}

#[test]
fn two_problems_of_one_name() {
    let book = Book::sound();
    book.change(
        GAUGES,
        TEXT,
        "\
```practice
name: coil
title: The coil
from:
  refrigerant: R-134a
  suction pressure: 15 to 25 psig by 1 psig
  suction line temperature: 30 to 40 °F by 1 °F
ask: What is the superheat at {suction pressure}?
find: superheat
```

```practice
name: coil
title: The coil
from:
  refrigerant: R-134a
  suction pressure: 15 to 25 psig by 1 psig
  suction line temperature: 30 to 40 °F by 1 °F
ask: What is the superheat at {suction pressure}?
find: superheat
```",
    );
    check(
        &book,
        r#"
error[problem-twice]: there are two problems `coil`
  --> lessons/coil/gauges.md:16:7
   |
 5 | name: coil
   |       ---- the other one
...
16 | name: coil
   |       ^^^^
   |
   = help: give one of them another `name:`; it is known by it
"#,
    );
}

#[test]
fn a_picture_that_brings_a_script() {
    let book = Book::sound();
    book.put(
        "pictures/valve.svg",
        r#"<svg viewBox="0 0 9 9">
<script>alert(1)</script>
</svg>
"#,
    );
    check(
        &book,
        r#"
error[picture-not-safe]: a picture may not bring `<script`
 --> pictures/valve.svg:2:1
  |
2 | <script>alert(1)</script>
  | ^^^^^^^
  |
  = help: keep to lines, shapes and letters; the theme's classes give them their look
"#,
    );
}

#[test]
fn a_picture_that_is_no_drawing() {
    let book = Book::sound();
    book.put("pictures/valve.svg", "A valve.\n");
    check(
        &book,
        r#"
error[picture-not-safe]: this picture does not begin with `<svg`
 --> pictures/valve.svg:1:1
  |
1 | A valve.
  | ^
  |
  = help: keep only the drawing itself, from `<svg` to `</svg>`
"#,
    );
}

/// Puts a plate that shows `pictures/valve.jpg` into the lesson, and those bytes there.
fn with_photograph(name: &str, bytes: &[u8]) -> Book {
    let book = Book::sound();
    std::fs::create_dir(book.folder().join("pictures")).unwrap();
    std::fs::write(book.folder().join("pictures").join(name), bytes).unwrap();
    book.change(GAUGES, TEXT, &format!("```plate\npicture: pictures/{name}\ntitle: A valve\nsay: A valve.\n```"));
    book
}

#[test]
fn a_photograph_under_the_name_of_another_kind() {
    let png = include_bytes!("../../themes/pocketbook/kit/icon-192.png");
    check(
        &with_photograph("valve.jpg", png),
        r#"
error[picture-not-shown]: `pictures/valve.jpg` is a PNG picture under the name of a JPEG one
 --> lessons/coil/gauges.md:5:10
  |
5 | picture: pictures/valve.jpg
  |          ^^^^^^^^^^^^^^^^^^
  |
  = help: let its name end in `.png`, or save it as JPEG
"#,
    );
}

#[test]
fn a_photograph_that_no_page_shows() {
    check(
        &with_photograph("valve.heic", b"ftypheic"),
        r#"
error[picture-not-shown]: `pictures/valve.heic` is no picture that every reader's program shows
 --> lessons/coil/gauges.md:5:10
  |
5 | picture: pictures/valve.heic
  |          ^^^^^^^^^^^^^^^^^^^
  |
  = help: save it as PNG, JPEG or WebP, or draw it as SVG
"#,
    );
}

#[test]
fn a_photograph_that_is_heavy_to_carry() {
    let mut png = include_bytes!("../../themes/pocketbook/kit/icon-192.png").to_vec();
    png.resize(750_000, 0);
    check(
        &with_photograph("valve.png", &png),
        r#"
warning[picture-heavy]: `pictures/valve.png` weighs 750 KB, with 192 dots by 192
 --> lessons/coil/gauges.md:5:10
  |
5 | picture: pictures/valve.png
  |          ^^^^^^^^^^^^^^^^^^
  |
  = help: save it smaller, below 600 KB: a plate is at most 528 points wide
"#,
    );
}

#[test]
fn a_letter_that_the_drawing_does_not_show() {
    let book = Book::sound();
    book.put(
        "pictures/valve.svg",
        r#"<svg viewBox="0 0 9 9"><text>A</text></svg>
"#,
    );
    book.change(
        GAUGES,
        TEXT,
        "\
```plate
picture: pictures/valve.svg
title: A valve
key: {A: stem, B: seat}
say: A stem over a seat.
```",
    );
    check(
        &book,
        r#"
error[picture-key-missing]: the drawing shows no `B` for the seat
 --> lessons/coil/gauges.md:7:16
  |
7 | key: {A: stem, B: seat}
  |                ^
  |
  = help: letter it in `pictures/valve.svg`, or take it out of the key
"#,
    );
}

#[test]
fn a_reading_on_a_job_sheet_without_its_quantity() {
    let book = Book::sound();
    book.put(
        "sheets/visit.yaml",
        "\
title: A visit
steps:
  - do: Read the gauge.
    take: suction pressure
",
    );
    check(
        &book,
        r#"
error[limit-not-read]: `suction pressure` is taken and has no quantity
 --> sheets/visit.yaml:4:11
  |
4 |     take: suction pressure
  |           ^^^^^^^^^^^^^^^^
  |
  = help: write `quantity: pressure`, or whatever it measures
"#,
    );
}

#[test]
fn a_limit_that_can_t_be_read() {
    let book = Book::sound();
    book.put(
        "sheets/visit.yaml",
        "\
title: A visit
steps:
  - do: Read the gauge.
    take: suction pressure
    quantity: pressure
    limit: under 30 psig
",
    );
    check(
        &book,
        r#"
error[limit-not-read]: `under 30 psig` does not begin with a number: write a number and its unit, as `118 psig`
 --> sheets/visit.yaml:6:12
  |
6 |     limit: under 30 psig
  |            ^^^^^^^^^^^^^
  |
  = help: write `below 212 °F`, `above 500 cfm`, `8 to 18 °F`, or `within value:superheat-range`
"#,
    );
}

#[test]
fn a_sum_before_its_readings() {
    let book = Book::sound();
    book.put(
        "sheets/visit.yaml",
        "\
title: A visit
steps:
  - do: Work out the superheat.
    work-out: superheat
",
    );
    check(
        &book,
        r#"
error[work-out-not-ready]: `superheat` needs `suction pressure`, which `visit` has not taken by then
 --> sheets/visit.yaml:4:15
  |
4 |     work-out: superheat
  |               ^^^^^^^^^
  |
  = help: take it in a step above: `take: suction pressure`
"#,
    );
}

// Standing values.

#[test]
fn a_standing_value_that_can_t_be_read() {
    let book = Book::sound();
    book.change(VALUES, "8 to 18 °F", "8 to 18 psig");
    check(
        &book,
        r#"
error[value-not-read]: `18 psig` is a pressure, and a temperature difference is wanted here: write it as `12 °F`
 --> values.yaml:3:10
  |
3 |   value: 8 to 18 psig
  |          ^^^^^^^^^^^^
4 |   quantity: temperature difference
  |             ---------------------- it is to be a temperature difference
"#,
    );
}

#[test]
fn a_standing_value_of_no_quantity() {
    let book = Book::sound();
    book.change(VALUES, "temperature difference", "temprature difference");
    check(
        &book,
        r#"
error[quantity-not-known]: there is no quantity `temprature difference`
 --> values.yaml:4:13
  |
4 |   quantity: temprature difference
  |             ^^^^^^^^^^^^^^^^^^^^^
  |
  = help: the nearest is `temperature difference`
"#,
    );
}

#[test]
fn a_standing_value_misquoted() {
    let book = Book::sound();
    book.change(SUPERHEAT, "[8 to 18 °F]", "[8 to 20 °F]");
    check(
        &book,
        r#"
error[value-disagrees]: `8 to 20 °F` is not the standing value `superheat-range`
 --> lessons/coil/superheat.md:8:2
  |
8 | [8 to 20 °F](value:superheat-range) of [superheat](term:superheat).
  |  ^^^^^^^^^^ quoted here
  |
 ::: values.yaml:3:10
  |
3 |   value: 8 to 18 °F
  |          ---------- stands here
  |
  = help: write `8 to 18 °F`
"#,
    );
}

// Trees.

#[test]
fn a_tree_that_begins_nowhere() {
    let book = Book::sound();
    book.change(TREE, "start: airflow", "start: airflo");
    check(
        &book,
        r#"
error[start-not-found]: `airflo` is no question of this tree
 --> trees/superheat-high.yaml:3:8
  |
3 | start: airflo
  |        ^^^^^^ nothing to begin with
  |
  = help: `airflow`
"#,
    );
}

#[test]
fn a_tree_that_begins_at_an_outcome() {
    let book = Book::sound();
    book.change(TREE, "start: airflow", "start: find-leak");
    check(
        &book,
        r#"
error[start-not-found]: `find-leak` is an outcome, and nothing has been asked yet
 --> trees/superheat-high.yaml:3:8
  |
3 | start: find-leak
  |        ^^^^^^^^^ nothing to begin with
  |
  = help: begin with a question

error[not-reached]: no answer leads to `airflow`
 --> trees/superheat-high.yaml:5:3
  |
5 |   airflow:
  |   ^^^^^^^ this question is never reached
  |
  = found: out of reach with it: `glass`, `restore-airflow` and `replace-valve`
  = help: lead an answer to it, or take it out
"#,
    );
}

#[test]
fn an_answer_that_leads_nowhere() {
    let book = Book::sound();
    book.change(TREE, "go: find-leak", "go: find-leek");
    check(
        &book,
        r#"
error[answer-leads-nowhere]: `find-leek` is no question and no outcome of this tree
  --> trees/superheat-high.yaml:20:13
   |
20 |         go: find-leek
   |             ^^^^^^^^^ leads nowhere
   |
   = help: `find-leak`
"#,
    );
}

#[test]
fn a_gap_between_two_answers() {
    let book = Book::sound();
    book.change(TREE, "above 350 cfm/ton", "above 400 cfm/ton");
    check(
        &book,
        r#"
error[answer-gap]: 350 to 400 cfm/ton has no answer
  --> trees/superheat-high.yaml:9:15
   |
 9 |       - when: below 350 cfm/ton
   |               ^^^^^^^^^^^^^^^^^ the figures above this have none
10 |         go: restore-airflow
11 |       - when: above 400 cfm/ton
   |               ----------------- they begin again here
   |
   = help: move one of the bounds, or add an answer between
"#,
    );
}

#[test]
fn figures_with_two_answers() {
    let book = Book::sound();
    book.change(TREE, "above 350 cfm/ton", "above 300 cfm/ton");
    check(
        &book,
        r#"
error[answer-overlap]: 300 to 350 cfm/ton has two answers
  --> trees/superheat-high.yaml:11:15
   |
 9 |       - when: below 350 cfm/ton
   |               ----------------- given for them already
10 |         go: restore-airflow
11 |       - when: above 300 cfm/ton
   |               ^^^^^^^^^^^^^^^^^ given for them too
   |
   = help: let one end where the other begins
"#,
    );
}

#[test]
fn an_answer_that_no_figure_calls_for() {
    let book = Book::sound();
    book.change(TREE, "below 350 cfm/ton", "below 0 cfm/ton");
    book.change(TREE, "above 350 cfm/ton", "above 0 cfm/ton");
    check(
        &book,
        r#"
error[answer-never]: no airflow per capacity is ever `below 0 cfm/ton`
 --> trees/superheat-high.yaml:9:15
  |
9 |       - when: below 0 cfm/ton
  |               ^^^^^^^^^^^^^^^ can never be answered
  |
  = help: write the lower bound first and a higher one second, or take the answer out
"#,
    );
}

#[test]
fn an_answer_that_can_t_be_read() {
    let book = Book::sound();
    book.change(TREE, "below 350 cfm/ton", "under 350 cfm/ton");
    check(
        &book,
        r#"
error[answer-not-read]: `under 350 cfm/ton` is no run of figures
 --> trees/superheat-high.yaml:9:15
  |
9 |       - when: under 350 cfm/ton
  |               ^^^^^^^^^^^^^^^^^ not a run of airflow per capacity
  |
  = help: `below 350 cfm/ton`
"#,
    );
}

#[test]
fn an_answer_that_is_no_choice() {
    let book = Book::sound();
    book.change(TREE, "when: bubbles", "when: bubles");
    check(
        &book,
        r#"
error[answer-not-a-choice]: `bubles` is none of the choices
  --> trees/superheat-high.yaml:19:15
   |
19 |       - when: bubles
   |               ^^^^^^ can't be chosen
   |
   = help: `bubbles`
"#,
    );
}

#[test]
fn a_choice_without_an_answer() {
    let book = Book::sound();
    book.change(TREE, "[clear, bubbles]", "[clear, bubbles, empty]");
    check(
        &book,
        r#"
error[choice-not-answered]: `empty` has no answer
  --> trees/superheat-high.yaml:15:31
   |
15 |     choices: [clear, bubbles, empty]
   |                               ^^^^^ what then?
   |
   = help: add `- when: empty` with the step it leads to
"#,
    );
}

#[test]
fn a_question_that_measures_and_chooses() {
    let book = Book::sound();
    book.change(
        TREE,
        "choices: [clear, bubbles]",
        "\
measure: airflow per capacity
    choices: [clear, bubbles]",
    );
    check(
        &book,
        r#"
error[kind-of-answer-open]: `glass` is measured and chosen from a list at once
  --> trees/superheat-high.yaml:15:14
   |
15 |     measure: airflow per capacity
   |              ^^^^^^^^^^^^^^^^^^^^ measured
16 |     choices: [clear, bubbles]
   |               ----- chosen from a list
   |
   = help: ask two questions, or leave one of the two out
"#,
    );
}

#[test]
fn a_question_that_neither_measures_nor_chooses() {
    let book = Book::sound();
    book.change(TREE, "    choices: [clear, bubbles]\n", "");
    check(
        &book,
        r#"
error[kind-of-answer-open]: `glass` says neither what is measured nor what can be chosen
  --> trees/superheat-high.yaml:13:3
   |
13 |   glass:
   |   ^^^^^ answered how?
   |
   = help: add `measure:` with a quantity, `work-out:` with a computation, or `choices:` with the answers there can be
"#,
    );
}

#[test]
fn a_question_without_answers() {
    let book = Book::sound();
    book.change(
        TREE,
        "    answers:\n      - when: clear\n        go: replace-valve\n      - when: bubbles\n        go: find-leak\n",
        "    answers: []\n",
    );
    check(
        &book,
        r#"
error[question-without-answers]: `glass` is asked and has no answers
  --> trees/superheat-high.yaml:13:3
   |
13 |   glass:
   |   ^^^^^ a dead end
   |
   = help: give it an answer for whatever may be found, or make an outcome of it
"#,
    );
}

#[test]
fn a_question_that_is_never_come_to() {
    let book = Book::sound();
    book.change(
        TREE,
        "outcomes:\n",
        r#"  filter:
    ask: Is the filter clean?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: find-leak
      - when: "no"
        go: restore-airflow
outcomes:
"#,
    );
    check(
        &book,
        r#"
error[not-reached]: no answer leads to `filter`
  --> trees/superheat-high.yaml:21:3
   |
21 |   filter:
   |   ^^^^^^ this question is never reached
   |
   = help: lead an answer to it, or take it out
"#,
    );
}

#[test]
fn a_question_whose_answers_all_lead_one_way() {
    let book = Book::sound();
    book.change(TREE, "go: replace-valve", "go: find-leak");
    book.change(
        TREE,
        "  replace-valve:\n    say: Replace the valve.\n    condemns: the valve\n    only-after: [airflow, glass]\n",
        "",
    );
    book.change(TREE, "    ends: replace-valve", "    ends: find-leak");
    check(
        &book,
        r#"
warning[question-idle]: whatever is answered to `glass`, `find-leak` comes next
  --> trees/superheat-high.yaml:13:3
   |
13 |   glass:
   |   ^^^^^ the answer makes no difference
   |
   = help: lead one of the answers elsewhere, or leave the question out
"#,
    );
}

#[test]
fn a_question_and_an_outcome_of_one_name() {
    let book = Book::sound();
    book.change(TREE, "  find-leak:\n", "  glass:\n    say: Look again.\n  find-leak:\n");
    check(
        &book,
        r#"
error[name-shared]: `glass` is the name of a question too
  --> trees/superheat-high.yaml:24:3
   |
13 |   glass:
   |   ----- a question
...
24 |   glass:
   |   ^^^^^ an outcome
   |
   = help: give one of the two another name
"#,
    );
}

#[test]
fn a_circle_without_a_way_out() {
    let book = Book::sound();
    book.change(TREE, "go: replace-valve", "go: glass");
    book.change(TREE, "go: find-leak", "go: glass");
    book.change(TREE, "  find-leak:\n    say: Find the leak.\n  replace-valve:\n    say: Replace the valve.\n    condemns: the valve\n    only-after: [airflow, glass]\n", "");
    check(
        &book,
        r#"
error[circle-without-way-out]: every answer to `glass` leads back to it
  --> trees/superheat-high.yaml:13:3
   |
13 |   glass:
   |   ^^^^^ the circle begins here
   |
   = found: What does the sight glass show? clear
   = found: What does the sight glass show?
   = help: lead at least one of their answers to an outcome
"#,
    );
}

#[test]
fn a_measure_that_is_no_quantity() {
    let book = Book::sound();
    book.change(TREE, "measure: airflow per capacity", "measure: belt tension");
    check(
        &book,
        r#"
error[measure-not-known]: `belt tension` is no quantity and none of the tree's readings
 --> trees/superheat-high.yaml:7:14
  |
7 |     measure: belt tension
  |              ^^^^^^^^^^^^ measured in what?
  |
  = help: name a quantity, as `temperature difference`, or one of the tree's readings
"#,
    );
}

#[test]
fn a_reading_that_is_not_listed() {
    let book = Book::sound();
    book.change(TREE, "measure: airflow per capacity", "measure: return airflow per capacity");
    check(
        &book,
        r#"
error[reading-not-listed]: `return airflow per capacity` is not among the tree's readings
 --> trees/superheat-high.yaml:7:14
  |
7 |     measure: return airflow per capacity
  |              ^^^^^^^^^^^^^^^^^^^^^^^^^^^ not listed
  |
  = help: `airflow per capacity`, or add `return airflow per capacity` to `readings:`
"#,
    );
}

#[test]
fn a_reading_worked_out_as_another_quantity() {
    let book = Book::sound();
    book.change(TREE, "readings: [airflow per capacity]\n", "readings: [suction: temperature]\n");
    book.change(
        TREE,
        "measure: airflow per capacity\n",
        "\
work-out: absolute-pressure
    of: {pressure: suction}
",
    );
    book.change(TREE, "below 350 cfm/ton", "below 35 psia");
    book.change(TREE, "above 350 cfm/ton", "above 35 psia");
    check(
        &book,
        r#"
error[reading-of-another-quantity]: `suction` is of another quantity than the `pressure` of `absolute-pressure`
 --> trees/superheat-high.yaml:2:12
  |
2 | readings: [suction: temperature]
  |            ^^^^^^^ temperature
...
7 |     work-out: absolute-pressure
  |               ----------------- pressure is wanted here
  |
  = help: a reading of pressure
"#,
    );
}

#[test]
fn a_reading_of_no_quantity() {
    let book = Book::sound();
    book.change(TREE, "readings: [airflow per capacity]\n", "readings: [airflow per capacity, belt: tension]\n");
    check(
        &book,
        r#"
error[reading-quantity-not-known]: `tension` is no quantity
 --> trees/superheat-high.yaml:2:40
  |
2 | readings: [airflow per capacity, belt: tension]
  |                                        ^^^^^^^ in which unit?
  |
  = help: `density`
"#,
    );
}

#[test]
fn a_part_condemned_without_its_checks() {
    let book = Book::sound();
    book.change(TREE, "    only-after: [airflow, glass]\n", "");
    check(
        &book,
        r#"
error[condemned-unproved]: `replace-valve` condemns the valve and rests on no check
  --> trees/superheat-high.yaml:28:15
   |
28 |     condemns: the valve
   |               ^^^^^^^^^ condemned with no `only-after:`
   |
   = found: asked on every way here: `airflow` and `glass`
   = help: `only-after: [airflow, glass]`, or those of them that prove it
"#,
    );
}

#[test]
fn a_check_that_can_be_passed_by() {
    let book = Book::sound();
    book.change(TREE, "go: restore-airflow", "go: replace-valve");
    book.change(TREE, "  restore-airflow:\n    say: Clean the filter.\n", "");
    check(
        &book,
        r#"
error[check-skipped]: `replace-valve` is reached without `glass` being asked
  --> trees/superheat-high.yaml:27:27
   |
27 |     only-after: [airflow, glass]
   |                           ^^^^^ not asked on every way
   |
   = found: How much air crosses the coil? below 350 cfm/ton
   = found: Replace the valve.
   = help: ask `glass` on this way too
"#,
    );
}

#[test]
fn a_check_that_the_list_leaves_out() {
    let book = Book::sound();
    book.change(TREE, "only-after: [airflow, glass]", "only-after: [glass]");
    check(
        &book,
        r#"
warning[check-unlisted]: `replace-valve` is reached only after `airflow` as well, and does not say so
  --> trees/superheat-high.yaml:29:18
   |
29 |     only-after: [glass]
   |                  ^^^^^ the list ends here
   |
   = help: add `airflow` to `only-after:`
"#,
    );
}

#[test]
fn a_check_that_is_no_question() {
    let book = Book::sound();
    book.change(TREE, "[airflow, glass]", "[airflow, glas]");
    check(
        &book,
        r#"
error[check-not-known]: `glas` is no question of this tree, nor of one that leads into it
  --> trees/superheat-high.yaml:29:27
   |
29 |     only-after: [airflow, glas]
   |                           ^^^^ no such check
   |
   = help: `glass`
"#,
    );
}

#[test]
fn a_tree_without_cases() {
    let book = Book::sound();
    book.change(
        TREE,
        "\
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
        "",
    );
    check(
        &book,
        r#"
warning[not-walked]: this tree has no cases, and so none of its 4 answers is tried
 --> trees/superheat-high.yaml:1:8
  |
1 | title: Superheat reads high
  |        ^^^^^^^^^^^^^^^^^^^^ not tried throughout
  |
  = help: add cases for them under `cases:`
"#,
    );
}

#[test]
fn a_case_that_ends_elsewhere() {
    let book = Book::sound();
    book.change(TREE, "    ends: replace-valve", "    ends: find-leak");
    check(
        &book,
        r#"
error[case-ends-elsewhere]: `stuck` ends at `replace-valve`, not at `find-leak`
  --> trees/superheat-high.yaml:44:11
   |
44 |     ends: find-leak
   |           ^^^^^^^^^ must end here
   |
   = found: How much air crosses the coil? above 350 cfm/ton
   = found: What does the sight glass show? clear
   = found: Replace the valve.
   = help: `replace-valve`, if the tree is right and the case is not
"#,
    );
}

#[test]
fn a_case_that_stops_on_the_way() {
    let book = Book::sound();
    book.change(TREE, "    answers: {glass: bubbles}\n", "");
    check(
        &book,
        r#"
error[case-stops]: `glass` is asked, and `short` has no answer to it
  --> trees/superheat-high.yaml:35:3
   |
35 |   short:
   |   ^^^^^ stops on the way
   |
   = found: How much air crosses the coil? above 350 cfm/ton
   = found: What does the sight glass show?
   = help: add `glass:` to its `answers:`
"#,
    );
}

#[test]
fn a_case_with_something_that_is_never_asked() {
    let book = Book::sound();
    book.change(
        TREE,
        "300 cfm/ton}\n",
        "\
300 cfm/ton}
    answers: {glass: clear}
",
    );
    check(
        &book,
        r#"
warning[case-never-asked]: `dusty` never comes to ask for `clear` of `glass`
  --> trees/superheat-high.yaml:34:15
   |
34 |     answers: {glass: clear}
   |               ^^^^^ never asked for
   |
   = help: take it out, or see whether the tree should ask for it
"#,
    );
}

#[test]
fn a_case_that_answers_what_is_no_question() {
    let book = Book::sound();
    book.change(TREE, "{glass: clear}", "{glas: clear}");
    check(
        &book,
        r#"
error[case-not-read]: `glas` is no question of this tree, nor of one it leads into
  --> trees/superheat-high.yaml:43:15
   |
43 |     answers: {glas: clear}
   |               ^^^^ no such question
   |
   = help: `glass`

error[case-ends-elsewhere]: `stuck` ends at `find-leak`, not at `replace-valve`
  --> trees/superheat-high.yaml:44:11
   |
44 |     ends: replace-valve
   |           ^^^^^^^^^^^^^ must end here
   |
   = found: How much air crosses the coil? above 350 cfm/ton
   = found: What does the sight glass show? bubbles
   = found: Find the leak.
   = help: `find-leak`, if the tree is right and the case is not
"#,
    );
}

#[test]
fn a_case_with_a_reading_that_can_t_be_read() {
    let book = Book::sound();
    book.change(TREE, "300 cfm/ton}", "300 cfm}");
    check(
        &book,
        r#"
error[case-not-read]: `300 cfm` is a volume flow, and an airflow per capacity is wanted here: write it as `400 cfm/ton`
  --> trees/superheat-high.yaml:33:38
   |
33 |     readings: {airflow per capacity: 300 cfm}
   |                                      ^^^^^^^ in the case `dusty`
"#,
    );
}

#[test]
fn a_tree_that_nothing_leads_into() {
    let book = Book::sound();
    book.change(
        TREE,
        "start: airflow",
        "\
stands-alone: false
start: airflow",
    );
    check(
        &book,
        r#"
error[tree-never-entered]: this tree does not stand alone and no tree leads into it
 --> trees/superheat-high.yaml:1:8
  |
1 | title: Superheat reads high
  |        ^^^^^^^^^^^^^^^^^^^^ never come to
  |
  = help: lead an answer of another tree to `tree:superheat-high`, or take `stands-alone: false` out
"#,
    );
}

#[cfg(unix)]
#[test]
fn a_file_that_some_machine_can_not_hold() {
    let book = Book::sound();
    book.put("lessons/coil/con.md", "---\ntitle: Condensing\n---\nText.\n");
    check(
        &book,
        r#"
error[name-not-portable]: a file can't be called `con` everywhere: Windows keeps it for a device
 --> lessons/coil/con.md:1:1
  |
1 | ---
  | ^
  |
  = help: give it a name of letters, digits and hyphens, and lead the links to it there
"#,
    );
    book.take_out("lessons/coil/con.md");
    book.put("lessons/coil/Gauges.md", "---\ntitle: Condensing\n---\nText.\n");
    check(
        &book,
        r#"
error[names-differ-in-case]: `gauges` and `Gauges` are one name on some machines
 --> lessons/coil/gauges.md:1:1
  |
1 | ---
  | ^
  |
 ::: lessons/coil/Gauges.md:1:1
  |
1 | ---
  | - the other one
  |
  = help: give one of them another name, not only other capitals
"#,
    );
}

/// Names given to findings in the source of a room, each with the place of its giving.
fn names_given() -> Vec<(String, String)> {
    let mut names = Vec::new();
    for room in ["reading", "proofing"] {
        let dir = Path::new(env!("CARGO_MANIFEST_DIR")).join("src").join(room);
        for (path, bytes) in crate::bench::files_below(&dir) {
            let text = String::from_utf8(bytes).unwrap();
            // `twice` makes one kind of finding for tables and one for problems.
            for made in [
                "Finding::error(",
                "Finding::warning(",
                "
    twice(",
            ] {
                for (at, _) in text.match_indices(made) {
                    let name = text[at + made.len()..].trim_start().strip_prefix('"');
                    let name = name.and_then(|rest| rest.split_once('"')).map(|(name, _)| name);
                    let place = format!("{room}/{path}:{}", text[..at].matches('\n').count() + 1);
                    match name {
                        Some(name) => names.push((name.to_owned(), place)),
                        None => assert!(path == "name_twice.rs", "{place}: a finding's name is not written out"),
                    }
                }
            }
        }
    }
    names
}

#[test]
fn a_house_builds_on_nothing_or_on_itself() {
    let book = Book::sound();
    book.put("../house/handbook.yaml", "title: Store\nhouse: Store\nbuilds-on: ../bok\n");
    check_house(
        &book,
        r#"
error[nothing-to-build-on]: there is no handbook in `../bok` to build on
 --> handbook.yaml:3:12
  |
3 | builds-on: ../bok
  |            ^^^^^^
  |
  = help: name the folder that has the other handbook's `handbook.yaml`, as seen from this one
"#,
    );
    book.put("../house/handbook.yaml", "title: Store\nhouse: Store\nbuilds-on: .\n");
    check_house(
        &book,
        r#"
error[nothing-to-build-on]: `.` is this handbook itself, or builds on it
 --> handbook.yaml:3:12
  |
3 | builds-on: .
  |            ^
  |
  = help: of two handbooks only one can build on the other
"#,
    );
}

#[test]
fn a_value_of_the_house_says_whose_it_is_and_what_it_stands_in_place_of() {
    let book = Book::sound();
    book.put("../house/handbook.yaml", "title: Store\nbuilds-on: ../book\n");
    let value = "is: looked for\n  value: 8 to 14 °F\n  quantity: temperature difference\n  source: common-practice\n";
    book.put("../house/values.yaml", &format!("superheat-range:\n  {value}"));
    check_house(
        &book,
        r#"
error[own-value-unsigned]: `superheat-range` stands in place of the value below, and doesn't say by whose word and why
 --> values.yaml:1:1
  |
1 | superheat-range:
  | ^^^^^^^^^^^^^^^
  |
 ::: ../book/values.yaml:1:1
  |
1 | superheat-range:
  | --------------- stands in place of this
  |
  = help: add `by:` with who set it and `because:` with the reason
"#,
    );
    book.put("../house/values.yaml", &format!("superheat-rang:\n  {value}  by: the manager\n  because: so.\n"));
    check_house(
        &book,
        r#"
error[own-value-of-nothing]: no handbook below has a standing value `superheat-rang` that this could stand in place of
 --> values.yaml:1:1
  |
1 | superheat-rang:
  | ^^^^^^^^^^^^^^
...
6 |   by: the manager
  |       ----------- by whose word
  |
  = help: write `superheat-range`, or leave out `by:` where the value is new
"#,
    );
    let value = value.replace("8 to 14 °F", "8 to 14 psig").replace("temperature difference", "pressure");
    book.put("../house/values.yaml", &format!("superheat-range:\n  {value}  by: the manager\n  because: so.\n"));
    check_house(
        &book,
        r#"
error[own-value-unlike]: `superheat-range` is a temperature difference, and in place of it stands a pressure
 --> values.yaml:4:13
  |
4 |   quantity: pressure
  |             ^^^^^^^^
  |
 ::: ../book/values.yaml:4:13
  |
4 |   quantity: temperature difference
  |             ---------------------- the value below
  |
  = help: write `quantity: temperature difference`, or give the value another name
"#,
    );
}

#[test]
fn every_kind_of_finding_is_printed_here() {
    let here = include_str!("findings.rs");
    let given = names_given();
    assert!(given.len() > 40, "the source was not found");
    let missing: Vec<_> = given
        .iter()
        .filter(|(name, _)| {
            !here.contains(&format!("\nerror[{name}]: ")) && !here.contains(&format!("\nwarning[{name}]: "))
        })
        .collect();
    assert!(missing.is_empty(), "no test prints {missing:#?}");
    let known: BTreeSet<&str> = given.iter().map(|(name, _)| name.as_str()).collect();
    for (at, _) in here.match_indices("\nerror[").chain(here.match_indices("\nwarning[")) {
        let name = here[at..].split_once('[').and_then(|(_, rest)| rest.split_once("]: ")).map_or("", |(name, _)| name);
        assert!(known.contains(name) || name.starts_with('{'), "nothing in the source is called {name}");
    }
}

#[test]
fn findings_come_in_the_order_of_their_places_whatever_room_made_them() {
    let book = Book::sound();
    book.change(SUPERHEAT, "answer: 11.5 °F", "answer: 11.7 °F");
    book.change(SUPERHEAT, "[21.5 °F]", "[21.7 °F]");
    book.change(GAUGES, TEXT, "See [glide](term:glide).");
    book.change(TREE, "go: find-leak", "go: find-leek");
    book.change(FRONT, "890 ft", "890 ft\nunits: metric");
    let ran = book.run(&["proof", "book"]).ended(1);
    let places: Vec<&str> = ran.err.lines().filter_map(|line| line.trim().strip_prefix("--> ")).collect();
    let files: Vec<&str> = places.iter().map(|place| place.split(':').next().unwrap_or("")).collect();
    assert_eq!(files, [FRONT, GAUGES, SUPERHEAT, SUPERHEAT, TREE], "{}", ran.told());
    assert_eq!(ran.err, book.run(&["proof", "book"]).err);
    assert!(ran.out.ends_with(": 5 errors.\n"), "{}", ran.told());
}
