//! The desk's quick way: one lesson proofed and set by itself is the lesson as the whole handbook has it.

use crate::bench::content;
use coldpress::setting::Theme;
use coldpress::{proofing, reading, setting};

#[test]
fn every_lesson_set_by_itself_is_the_page_that_is_bound() {
    let (mut book, findings) = reading::read_layers(reading::read_pile(&content()).unwrap());
    let proof = proofing::proof(&book, findings);
    let theme = Theme::pocketbook().unwrap();
    let whole = setting::set(&book, &proof, &theme).unwrap();
    let lessons: Vec<(String, String, String)> = book
        .lessons
        .values()
        .map(|lesson| {
            let file = book.files.get(lesson.body.file).unwrap();
            (lesson.name.clone(), file.path.clone(), file.text.clone())
        })
        .collect();
    assert!(lessons.len() > 100, "{}", lessons.len());
    // With and without what a form, a problem, a table and a drawing need.
    let has = |mark: &str| lessons.iter().filter(|(_, _, text)| text.contains(mark)).count();
    for block in ["```work-it-out", "```practice", "```computed-table", "```saturation-table", "```drawing", "```plate"]
    {
        assert!(has(block) > 0, "no lesson has {block}");
    }
    for (name, path, text) in &lessons {
        let read = reading::read_lesson_again(&mut book, path, text).unwrap();
        let alone = proofing::proof_lesson(&book, &proof, name, read).unwrap();
        let file = book.lessons[name].body.file;
        let there: Vec<_> = proof.findings.iter().filter(|finding| finding.at.file == file).collect();
        assert_eq!(alone.findings.iter().collect::<Vec<_>>(), there, "{path}");
        let (page, html) = setting::set_lesson(&book, &alone, &theme, name, &[]).unwrap().unwrap();
        assert!(html == whole.files[&page], "{page} set by itself is another");
    }
}
