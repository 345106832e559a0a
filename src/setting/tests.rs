//! A small handbook set whole: every link leads somewhere in the folder, headings go down one at a time, nothing an
//! author writes becomes markup, and setting twice gives the same bytes. Figures stand as their authors wrote them here;
//! that they are the reckoned ones is held by the tests of the whole program.

use super::figure::{Figures, SetExample, SetFigure, SetInput, SetRow, SetRows, SetStep, SetTable};
use super::print::Both;
use super::*;
use crate::handbook::{BlockKind, Scheme};
use crate::reading::read_files;

/// Figures as the author wrote them, in both systems alike, and a table of three rows.
fn figures_as_written(book: &Handbook) -> Figures {
    let alike = |text: &str| Both { us: text.to_owned(), si: format!("{text} in SI") };
    let figure = |name: &str, answer: &str| SetFigure {
        name: name.replace('-', " "),
        answer: alike(answer),
        inputs: vec![SetInput { name: "pressure".into(), value: alike("118 psig") }],
        equation: vec![Both::alike("<math><mi>T</mi></math>")],
        numbers: vec![alike("<math><mn>1</mn></math>")],
        sources: vec!["An equation of state".into()],
        ..SetFigure::default()
    };
    let mut figures = Figures { altitude: alike("890 ft"), air: alike("14.23 psia"), ..Figures::default() };
    for link in book.links() {
        match link.scheme {
            Scheme::Figure => {
                figures.figures.insert(link.at, figure(&link.to.value, &link.text.value));
            }
            Scheme::As => {
                figures.given.insert(link.at, alike(&link.text.value));
            }
            _ => {}
        }
    }
    for (name, value) in &book.values {
        figures.values.insert(name.clone(), alike(&value.value.value));
    }
    for block in book.lessons.values().flat_map(|lesson| &lesson.blocks) {
        match &block.kind {
            BlockKind::Example(example) => {
                let given =
                    example.given.iter().map(|g| SetInput { name: g.name.value.clone(), value: alike(&g.value.value) });
                let steps = example.steps.iter().map(|s| SetStep {
                    name: s.named.as_ref().map_or_else(|| s.find.value.replace('-', " "), |n| n.value.clone()),
                    answer: alike(&s.answer.value),
                    figure: figure(&s.find.value, &s.answer.value),
                });
                figures.examples.insert(block.at, SetExample { given: given.collect(), steps: steps.collect() });
            }
            BlockKind::SaturationTable(_) => {
                let row = |t: i32, breath| SetRow {
                    temperature: t.to_string().replace('-', "−"),
                    bubble: format!("{:.1}", 60.0 + 2.1 * f64::from(t)),
                    dew: format!("{:.1}", 59.5 + 2.1 * f64::from(t)),
                    glide: "0.2".into(),
                    more: Vec::new(),
                    breath,
                };
                let rows = SetRows {
                    temperature_unit: "°F".into(),
                    pressure_unit: "psig".into(),
                    glide_unit: "°F".into(),
                    more: Vec::new(),
                    from: "−20 °F".into(),
                    to: "140 °F".into(),
                    step: "5 °F".into(),
                    rows: (-4..29).map(|i| row(i * 5, i.rem_euclid(5) == 4)).collect(),
                };
                let curve = (0..20)
                    .map(|i| (250.0 + 5.0 * f64::from(i), 2.0e5 * (1.18 + 0.01 * figures.tables.len() as f64).powi(i)))
                    .collect();
                let working = vec![figure("dew-pressure", "118 psig")];
                let table = SetTable { us: rows.clone(), si: rows, curve, working, ..SetTable::default() };
                figures.tables.insert(block.at, table);
            }
            _ => {}
        }
    }
    figures
}

/// A handbook with one of everything, and an author who types what could break a page.
fn handbook() -> Handbook {
    let file = |path: &str, text: &str| (path.to_owned(), text.to_owned());
    let files = vec![
        file(
            "handbook.yaml",
            "title: Bench <notes>\nhouse: Larkmoor \"Valley\" College\nedition: 2026-11\naltitude: 890 ft\nunits: US first\nparts:\n  - {name: cycle, title: The cycle, lessons: [superheat, bulb]}\n  - {name: tables, title: Tables}\ncarry-copies: [folder]\n",
        ),
        file(
            "hazards.yaml",
            "pressure:\n  signal: WARNING\n  hazard: Pressure <hurts>.\n  avoid: Wear eye protection.\n",
        ),
        file("lessons/cycle/superheat.md", SUPERHEAT),
        file(
            "lessons/cycle/bulb.md",
            "---\ntitle: The bulb\nneeds: [superheat]\nmaker-first: true\n---\nThe [bulb](term:bulb) and [the tree](tree:high).\n\n```tree\ntree: high\n```\n",
        ),
        file(
            "lessons/tables/r-410a.md",
            "---\ntitle: R-410A\n---\n```saturation-table\nrefrigerant: R-410A\nfrom: -40 °F\nto: 40 °F\nstep: 5 °F\n```\n",
        ),
        file(
            "refrigerants/R-410A.yaml",
            "designation: R-410A\nmade-of: {R-32: 50 %, R-125: 50 %}\nsafety-group: A1\ngwp: {value: 2088, basis: IPCC AR4}\noil: POE\nsources: [iso-817]\n",
        ),
        file(
            "sources.yaml",
            "iso-817:\n  title: ISO 817\n  kind: standard\n  taken: safety groups\n  seen: from memory\ncommon-practice:\n  title: Common practice, no source\n  kind: common practice\n  taken: habits\n  seen: from memory\n",
        ),
        file(
            "terms.yaml",
            "bulb:\n  means: What the valve feels with; see [Superheat](lesson:superheat).\n  also: [sensing bulb]\n  taught: bulb\n",
        ),
        file(
            "trees/high.yaml",
            "title: Superheat reads high\nreadings: [suction pressure]\nstart: air\nquestions:\n  air:\n    ask: Does air <cross> it?\n    choices: [\"yes\", \"no\"]\n    how: By hand; see [Superheat](lesson:superheat).\n    answers:\n      - {when: \"yes\", go: valve}\n      - {when: \"no\", go: restore-air}\noutcomes:\n  restore-air:\n    say: Restore the air.\n    record: What it was.\n  valve:\n    say: Replace the valve.\n    condemns: the valve\n    only-after: [air]\n",
        ),
        file(
            "values.yaml",
            "superheat-range:\n  is: superheat looked for\n  value: 8 to 18 °F\n  quantity: temperature difference\n  source: common-practice\n",
        ),
    ];
    let (book, findings) = read_files(files);
    assert_eq!(findings, []);
    book
}

const SUPERHEAT: &str = "---
title: Superheat
purpose: To measure it.
hazards: [pressure]
index: [starved coil]
---
At 118 psig it boils at [39.8 °F](figure:dew-temperature?refrigerant=R-410A&pressure=118psig), \"it's\" <b>raw</b>.

## What it tells

Look for [8 to 18 °F](value:superheat-range) on [R-410A](refrigerant:R-410A), [table](table:r-410a).

- a [118 psig](as:pressure) point
- another

> **CAUTION** **It burns.** Wait; `a<b`.

> **By the way.** At [40 °F](figure:dew-temperature?refrigerant=R-410A&pressure=118psig).
> *Common practice, no source*

## What it tells

| reading | means |
|---|--:|
| high | starved |

<script>alert(1)</script>

```worked-example
title: Is it starved?
given:
  refrigerant: R-410A
  suction pressure: 118 psig
steps:
  - find: dew-temperature
    answer: 39.8 °F
so: Not by [8 to 18 °F](value:superheat-range).
```

```yaml
ask: \"<why>\"
```
";

fn pages() -> Pages {
    let book = handbook();
    let theme = Theme::pocketbook().unwrap();
    set_figures(&book, figures_as_written(&book), &theme, &[]).unwrap()
}

fn page(name: &str) -> String {
    String::from_utf8(pages().files[name].clone()).unwrap()
}

/// The part of `html` from `from` up to and with `to`.
fn part<'a>(html: &'a str, from: &str, to: &str) -> &'a str {
    let start = html.find(from).unwrap_or_else(|| panic!("no {from} in:\n{html}"));
    let end = html[start..].find(to).unwrap_or_else(|| panic!("no {to} after {from} in:\n{html}"));
    &html[start..start + end + to.len()]
}

/// Values of an attribute, as a reader's program takes them.
fn attributes(html: &str, name: &str) -> Vec<String> {
    let mark = format!(" {name}=\"");
    html.split(&mark).skip(1).map(|rest| rest[..rest.find('"').unwrap()].replace("&amp;", "&")).collect()
}

/// Where a link leads, from the page it stands on.
fn resolve(page: &str, href: &str) -> String {
    let mut parts: Vec<&str> = page.split('/').collect();
    parts.pop();
    for part in href.split('/') {
        if part == ".." {
            assert!(parts.pop().is_some(), "{href} on {page} leaves the folder");
        } else {
            parts.push(part);
        }
    }
    parts.join("/")
}

#[test]
fn every_link_is_relative_and_leads_somewhere() {
    let pages = pages();
    let html: BTreeMap<&str, &str> = pages
        .files
        .iter()
        .filter(|(path, _)| path.ends_with(".html"))
        .map(|(path, bytes)| (path.as_str(), std::str::from_utf8(bytes).unwrap()))
        .collect();
    let mut followed = 0;
    for (path, text) in &html {
        for link in
            attributes(text, "href").into_iter().chain(attributes(text, "src")).chain(attributes(text, "action"))
        {
            let (file, anchor) = link.split_once('#').map_or((link.as_str(), None), |(f, a)| (f, Some(a)));
            assert!(!file.starts_with('/') && !file.contains(':'), "{link} on {path} is not relative");
            let target = if file.is_empty() { (*path).to_owned() } else { resolve(path, file) };
            assert!(target == CARRY_FOLDER || pages.files.contains_key(&target), "{link} on {path} leads nowhere");
            // The chapters of the page to be printed are put in by `binding`.
            if let Some(anchor) = anchor.filter(|_| target != PRINT) {
                let there = html[target.as_str()];
                assert!(there.contains(&format!("id=\"{anchor}\"")), "{link} on {path}: no such place");
            }
            followed += 1;
        }
    }
    assert!(followed > 150, "only {followed} links were found to follow");
}

#[test]
fn anchors_stand_once_and_headings_go_down_one_at_a_time() {
    for (path, bytes) in pages().files.iter().filter(|(path, _)| path.ends_with(".html")) {
        let text = std::str::from_utf8(bytes).unwrap();
        let mut ids = attributes(text, "id");
        ids.sort();
        for pair in ids.windows(2) {
            assert_ne!(pair[0], pair[1], "twice on {path}");
        }
        let mut level = 0;
        for (at, _) in text.match_indices("<h") {
            let Some(next) = text[at + 2..].chars().next().and_then(|c| c.to_digit(10)) else { continue };
            assert!(next <= level + 1, "h{next} after h{level} on {path}");
            level = next;
        }
        assert_eq!(text.matches("<h1").count(), 1, "{path}");
    }
}

#[test]
fn the_same_handbook_gives_the_same_bytes() {
    assert_eq!(pages(), pages());
}

#[test]
fn nothing_an_author_types_becomes_markup() {
    let lesson = page("lesson/superheat.html");
    assert!(lesson.contains("&lt;script&gt;alert(1)&lt;/script&gt;") && !lesson.contains("alert(1)</script>"));
    assert!(lesson.contains("“it’s” &lt;b&gt;raw&lt;/b&gt;"), "{lesson}");
    assert!(lesson.contains("Pressure &lt;hurts&gt;."));
    assert!(page("tree/high.html").contains("Does air &lt;cross&gt; it?"));
    assert!(page("index.html").contains("Bench &lt;notes&gt;"));
    let style = page("kit/style.css");
    assert!(
        style.contains("--imprint:\"Bench \\00003cnotes>, Larkmoor \\000022Valley\\000022 College, edition 2026-11\"")
    );
}

#[test]
fn a_figure_is_set_in_both_systems_with_its_working_below() {
    let lesson = page("lesson/superheat.html");
    let opening = part(&lesson, "<p>At 118", "</details>");
    assert!(opening.starts_with(
        "<p>At 118\u{a0}psig it boils at <span class=\"us reckoned\">39.8\u{a0}°F</span><span class=\"si reckoned\">39.8\u{a0}°F in SI</span>, “it’s” &lt;b&gt;raw&lt;/b&gt;.</p>\n<details class=\"working\">"
    ), "{opening}");
    assert!(opening.contains("<math><mi>T</mi></math>") && opening.contains("An equation of state"));
}

#[test]
fn sections_are_numbered_and_named_once() {
    let lesson = page("lesson/superheat.html");
    let heads: Vec<&str> = lesson.lines().filter(|line| line.starts_with("<h2")).collect();
    assert_eq!(
        heads,
        [
            "<h2 id=\"what-it-tells\"><span class=\"sec\">1<span class=\"say\">. </span></span>What it tells</h2>",
            "<h2 id=\"what-it-tells-2\"><span class=\"sec\">2<span class=\"say\">. </span></span>What it tells</h2>",
        ]
    );
}

#[test]
fn a_notice_stands_under_its_signal_panel() {
    let lesson = page("lesson/superheat.html");
    let notice = part(&lesson, "<div class=\"notice notice-caution\"", "</div></div>");
    assert!(notice.contains("aria-label=\"Caution\"") && notice.contains("<span>CAUTION</span>"));
    assert!(notice.contains("<p><b>It burns.</b> Wait; <code>a&lt;b</code>.</p>"), "{notice}");
    let standing = part(&lesson, "<div class=\"notice notice-warning standing\"", "</div></div>");
    assert!(standing.contains("<b>Pressure &lt;hurts&gt;.</b> Wear eye protection."));
}

#[test]
fn a_margin_note_keeps_its_mark_and_its_working() {
    let lesson = page("lesson/superheat.html");
    let note = part(&lesson, "<div class=\"marginal\"", "</details>");
    assert!(
        note.starts_with(
            "<div class=\"marginal\" role=\"note\">\n<p><b>By the way.</b> At <span class=\"us reckoned\">40"
        ),
        "{note}"
    );
    assert!(note.contains("<span class=\"caps\">Common practice, no source</span>"));
}

#[test]
fn a_table_of_words_has_heads_and_sides() {
    let lesson = page("lesson/superheat.html");
    let table = part(&lesson, "<table class=\"ruled words\">", "</table>");
    assert_eq!(
        table,
        "<table class=\"ruled words\">\n<thead><tr><th scope=\"col\">reading</th><th scope=\"col\" class=\"right\">means</th></tr></thead>\n<tbody>\n<tr><th scope=\"row\">high</th><td class=\"right\">starved</td></tr>\n</tbody></table>"
    );
}

#[test]
fn a_worked_example_is_a_sheet_with_given_find_and_so() {
    let lesson = page("lesson/superheat.html");
    let sheet = part(&lesson, "<section class=\"sumsheet\"", "</section>");
    assert!(
        sheet.contains("id=\"example-1-1\"")
            && sheet.contains("<h3 class=\"block-title\" id=\"example-1-1-t\">Is it starved?</h3>"),
        "{sheet}"
    );
    assert!(sheet.contains("<td>suction pressure</td><td><span class=\"us\">118\u{a0}psig</span>"));
    assert!(sheet.contains("<span class=\"answer\"><span class=\"us\">39.8\u{a0}°F</span>"));
    assert!(sheet.contains("<b>So:</b> Not by <a class=\"standing\" href=\"../values.html#superheat-range\">"));
}

#[test]
fn a_saturation_table_names_both_columns_and_the_air() {
    let lesson = page("lesson/r-410a.html");
    let table = part(&lesson, "<section class=\"tabled\"", "</section>");
    for part in [
        "<th scope=\"col\" class=\"hi\">Bubble",
        "<th scope=\"col\" class=\"lo\">Dew",
        "<th scope=\"row\">−20</th>",
        "890\u{a0}ft",
        "14.23\u{a0}psia",
    ] {
        assert!(table.contains(part), "no {part} in {table}");
    }
}

#[test]
fn a_tree_reads_whole_without_script() {
    let tree = page("tree/high.html");
    let key = part(&tree, "<ol class=\"key\"", "</ol>");
    assert!(key.contains("<li class=\"step\" id=\"q-air\""));
    assert!(key.contains("<a href=\"#e-valve\"><span class=\"if\">yes</span>"), "{key}");
    let end = part(&tree, "id=\"e-valve\"", "</div>");
    assert!(end.contains("Reached only after <a href=\"#q-air\">1 air</a>"), "{end}");
    let card = page("lesson/bulb.html");
    assert!(card.contains("<a href=\"../tree/high.html#e-restore-air\"><span class=\"if\">no</span>"));
}

#[test]
fn what_leads_here_is_tied_from_both_ends() {
    let superheat = page("lesson/superheat.html");
    let ties = part(&superheat, "<dl class=\"ties\">", "</dl>");
    assert!(ties.contains("href=\"bulb.html\"") && ties.contains("href=\"../tree/high.html\""), "{ties}");
    let bulb = page("lesson/bulb.html");
    assert!(part(&bulb, "<p class=\"read-first\">", "</p>").contains("<span class=\"os\">1·1</span> Superheat"));
    assert!(page("values.html").contains("href=\"lesson/superheat.html\""));
}

#[test]
fn the_index_leads_from_every_word_to_its_leaves() {
    let index = page("words.html");
    let line = |word: &str| part(&index, &format!("<span class=\"what\">{word}"), "</li>").to_owned();
    assert!(line("starved coil").contains(">1·1</a>"));
    assert!(line("sensing bulb").contains(">see bulb</a>"));
    assert!(line("bulb").contains(">meaning</a>") && line("bulb").contains(">1·2</a>"), "{}", line("bulb"));
}

#[test]
fn find_knows_every_kind_and_the_words_of_the_text() {
    let pages = pages();
    let index: String = pages
        .files
        .iter()
        .filter(|(path, _)| path.starts_with("kit/find"))
        .map(|(_, part)| String::from_utf8_lossy(part).into_owned())
        .collect();
    for part in [
        "[\"What it tells\",\"lesson/superheat.html#what-it-tells-2\",\"1·1\",",
        "\"sensing bulb\":[[\"bulb\",\"",
        "\"Table 2·1\"",
        "\"burn\":\"",
    ] {
        assert!(index.contains(part), "no {part} in {index}");
    }
}

#[test]
fn the_outline_has_every_page_once() {
    let pages = pages();
    let mut outlined: Vec<&str> =
        pages.outline.iter().flat_map(|chapter| &chapter.leaves).map(|leaf| leaf.path.as_str()).collect();
    outlined.sort_unstable();
    let set: Vec<&str> = pages
        .files
        .keys()
        .map(String::as_str)
        .filter(|path| path.ends_with(".html") && !["find.html", "carry.html", PRINT].contains(path))
        .collect();
    assert_eq!(outlined, set);
}
