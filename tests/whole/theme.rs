//! A handbook's own theme laid over the program's, and the fonts that a handbook is dressed in where they are installed.

use crate::bench::{Book, run};
use std::fs;

fn page(book: &Book, path: &str) -> String {
    fs::read_to_string(book.beside().join("bound").join(path)).unwrap()
}

#[test]
fn single_templates_words_and_styles_take_the_place_of_ours() {
    let book = Book::sound();
    book.put("theme/words.yaml", "language: de\nfind: Suchen\nstands-on: Baut auf\n");
    book.put(
        "theme/templates/sources.html",
        "{% extends \"leaf.html\" %}{% block main %}<h1>{{ frame.title }}</h1><p id=\"ours\">by the store</p>{% endblock main %}",
    );
    book.put("theme/style/31-store.css", ".runhead { letter-spacing: .2em; }\n");
    let ran = book.run(&["bind", "book", "--into", "bound"]).ended(0);
    assert!(!ran.err.contains("theme"), "{}", ran.told());
    let front = page(&book, "index.html");
    assert!(front.contains("<html lang=\"de\">") && front.contains(">Suchen<"));
    assert!(page(&book, "sources.html").contains("<p id=\"ours\">by the store</p>"));
    assert!(page(&book, "kit/style.css").contains(".runhead{letter-spacing: .2em}"));
}

#[test]
fn a_theme_that_is_wrong_is_shown_where_and_nothing_is_bound() {
    let book = Book::sound();
    book.put(
        "theme/templates/find.html",
        "{% extends \"leaf.html\" %}\n{% block main %}\n{{ words.find }\n{% endblock main %}\n",
    );
    for verb in [&["proof", "book"][..], &["bind", "book", "--into", "bound"][..]] {
        let ran = book.run(verb).ended(1);
        assert!(ran.err.contains("error[theme]: this template can't be read"), "{}", ran.told());
        assert!(ran.err.contains("theme/templates/find.html:3:"), "{}", ran.told());
    }
    assert!(!book.beside().join("bound").exists());
    book.take_out("theme/templates/find.html");
    book.put("theme/words.yaml", "find: Suchen\nfnid: x\n");
    let ran = book.run(&["proof", "book"]).ended(1);
    assert!(ran.err.contains("theme/words.yaml:2:1") && ran.err.contains("the nearest is `find`"), "{}", ran.told());
    book.take_out("theme/words.yaml");
    book.put("theme/templates/find.html", "{% extends \"leaves.html\" %}");
    let ran = book.run(&["proof", "book"]).ended(1);
    assert!(ran.err.contains("leaves.html"), "{}", ran.told());
}

#[test]
fn a_handbook_has_the_theme_of_the_one_it_builds_on_and_its_own_over_it() {
    let book = Book::sound();
    book.put("theme/words.yaml", "find: Suchen\nindex: Register\n");
    let house = book.beside().join("house");
    fs::create_dir_all(house.join("theme")).unwrap();
    fs::write(house.join("theme/words.yaml"), "index: Verzeichnis\n").unwrap();
    let base = book.folder();
    let base = base.file_name().unwrap().to_string_lossy();
    fs::write(house.join("handbook.yaml"), format!("title: House notes\nhouse: The house\nbuilds-on: ../{base}\n"))
        .unwrap();
    run(book.beside(), &["bind", "house", "--into", "bound"]).ended(0);
    let front = fs::read_to_string(book.beside().join("bound/index.html")).unwrap();
    assert!(front.contains(">Suchen<") && front.contains(">Verzeichnis<") && !front.contains(">Register<"));
}

#[test]
fn fonts_beside_the_theme_dress_the_handbook_and_it_says_so() {
    let book = Book::sound();
    let undressed = book.run(&["bind", "book", "--into", "bound"]).ended(0);
    assert!(undressed.out.contains("Set in the reader's own fonts"), "{}", undressed.told());
    assert!(!page(&book, "kit/style.css").contains("@font-face"));
    for file in coldpress::setting::FONT_FILES {
        book.put(&format!("theme/node_modules/{}", file.from), file.to);
    }
    let dressed = book.run(&["bind", "book", "--into", "bound"]).ended(0);
    assert!(dressed.out.contains("Set in Playfair and Archivo"), "{}", dressed.told());
    assert!(page(&book, "kit/style.css").starts_with("@font-face"));
    for file in coldpress::setting::FONT_FILES {
        assert_eq!(page(&book, file.to), file.to);
    }
    book.take_out(&format!("theme/node_modules/{}", coldpress::setting::FONT_FILES[0].from));
    let half = book.run(&["bind", "book", "--into", "bound"]).ended(0);
    assert!(
        half.out.contains("Set in the reader's own fonts") && !book.beside().join("bound/kit/archivo.woff2").exists()
    );
}
