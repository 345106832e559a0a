//! The trees of the demonstration handbook: proved without a finding, and every answer walked by a case.

use coldpress::handbook::{Handbook, Weight};
use coldpress::proofing::{Proof, proof};
use coldpress::reading::{read_files, read_folder};
use std::path::Path;

fn content() -> (Handbook, Proof) {
    let texts = read_folder(&Path::new(env!("CARGO_MANIFEST_DIR")).join("content")).unwrap();
    let (book, found) = read_files(texts);
    let proof = proof(&book, found);
    (book, proof)
}

#[test]
fn the_trees_are_proved_and_every_answer_is_walked() {
    let (book, proof) = content();
    let mut told = Vec::new();
    for finding in &proof.findings {
        let path = book.files.path(finding.at.file);
        if path.starts_with("trees/") {
            let (line, column) = book.files.line_and_column(finding.at);
            let weight = if finding.weight == Weight::Error { "error" } else { "warning" };
            told.push(format!(
                "{path}:{line}:{column} {weight} {}: {}\n    {}",
                finding.name,
                finding.says,
                finding.found.join("\n    ")
            ));
        }
    }
    assert!(told.is_empty(), "{}", told.join("\n"));
    assert!(proof.trees.len() >= 12, "{} trees", proof.trees.len());
    for (name, tree) in &proof.trees {
        assert!(tree.cases > 0 && tree.not_walked.is_empty(), "{name}: {:?}", tree.not_walked);
    }
}

/// A technician at the end of a tree is told what to do, what to write down, and what could hurt.
#[test]
fn every_outcome_says_what_to_do_and_record_and_beware_of() {
    let (book, _) = content();
    for tree in book.trees.values() {
        for outcome in &tree.outcomes {
            let name = format!("{} of {}", outcome.name.value, tree.name);
            assert!(outcome.record.is_some(), "{name} does not say what to record");
            assert!(outcome.caution.is_some(), "{name} has no caution");
        }
        for question in &tree.questions {
            let name = format!("{} of {}", question.name.value, tree.name);
            assert!(question.how.is_some(), "{name} does not say how");
            assert!(question.because.is_some(), "{name} does not say why");
        }
    }
}
