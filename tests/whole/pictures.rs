//! Pictures made of dots: from their file to the page and into every copy that is carried.

use crate::bench::{Book, files_below};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use std::fs;
use std::io::{Cursor, Read};
use std::path::Path;

/// A PNG of 192 dots by 192.
const ICON: &str = "themes/pocketbook/kit/icon-192.png";

fn icon() -> Vec<u8> {
    fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join(ICON)).unwrap()
}

#[test]
fn a_photograph_is_in_the_folder_and_in_every_copy() {
    let book = Book::sound();
    book.change("handbook.yaml", "carry-copies: [folder]", "carry-copies: [folder, page, epub]");
    fs::create_dir(book.folder().join("pictures")).unwrap();
    fs::write(book.folder().join("pictures/coil outlet.PNG"), icon()).unwrap();
    fs::write(book.folder().join("pictures/not-used.png"), icon()).unwrap();
    fs::write(book.folder().join("pictures/from-the-drawing-program.xyz"), "layers").unwrap();
    book.change(
        "lessons/coil/gauges.md",
        "A gauge reads against the air around it.",
        "```plate\npicture: pictures/coil outlet.PNG\ntitle: The outlet\nkey: {A: bulb}\nsay: The \"outlet\" & its bulb.\n```",
    );
    let ran = book.run(&["bind", "book"]).ended(0);
    assert_eq!(ran.err, "", "{}", ran.told());
    let files = files_below(&book.beside().join("bound"));
    let text = |path: &str| String::from_utf8(files[path].clone()).unwrap();
    assert!(files["pictures/coil outlet.PNG"] == icon());
    assert!(!files.contains_key("pictures/not-used.png"), "a picture that no plate shows is carried about");
    let says = "alt=\"The &quot;outlet&quot; &amp; its bulb.\"";
    let img = |src: &str| format!("<img src=\"{src}\" width=\"192\" height=\"192\" {says}");
    assert!(
        text("lesson/gauges.html").contains(&img("../pictures/coil%20outlet.PNG")),
        "{}",
        text("lesson/gauges.html")
    );
    assert!(text("print.html").contains(&img("pictures/coil%20outlet.PNG")));
    let inside = format!("data:image/png;base64,{}", STANDARD.encode(icon()));
    assert!(text("carry/page.html").contains(&img(&inside)));
    assert!(text("keeper.js").contains("\"pictures/coil outlet.PNG\":\"sha256-"));
    let unzipped = |copy: &str, ending: &str| {
        let mut archive = zip::ZipArchive::new(Cursor::new(files[copy].clone())).unwrap();
        let names: Vec<String> = archive.file_names().map(|name| name.unwrap().into_owned()).collect();
        let name = names.iter().find(|name| name.ends_with(ending)).unwrap_or_else(|| panic!("{ending} in {names:?}"));
        let mut bytes = Vec::new();
        archive.by_name(name).unwrap().read_to_end(&mut bytes).unwrap();
        bytes
    };
    assert!(unzipped("carry/folder.zip", "pictures/coil outlet.PNG") == icon());
    assert!(unzipped("carry/book.epub", "pictures/coil outlet.PNG") == icon());
    let package = String::from_utf8(unzipped("carry/book.epub", "package.opf")).unwrap();
    assert!(package.contains("href=\"pictures/coil%20outlet.PNG\" media-type=\"image/png\""), "{package}");
}

#[test]
fn a_house_puts_its_own_photograph_in_place_of_the_one_below() {
    let book = Book::sound();
    let other = fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join("themes/pocketbook/kit/icon-512.png")).unwrap();
    book.change(
        "lessons/coil/gauges.md",
        "A gauge reads against the air around it.",
        "```plate\npicture: pictures/coil.png\ntitle: The coil\nsay: The coil.\n```",
    );
    fs::create_dir(book.folder().join("pictures")).unwrap();
    fs::write(book.folder().join("pictures/coil.png"), icon()).unwrap();
    let house = book.beside().join("house");
    fs::create_dir_all(house.join("pictures")).unwrap();
    fs::write(house.join("pictures/coil.png"), &other).unwrap();
    fs::write(house.join("handbook.yaml"), "title: Own\nhouse: Larkmoor growers' cold store\nbuilds-on: ../book\n")
        .unwrap();
    crate::bench::run(book.beside(), &["bind", "house", "--into", "own"]).ended(0);
    let files = files_below(&book.beside().join("own"));
    assert!(files["pictures/coil.png"] == other);
    assert!(String::from_utf8(files["lesson/gauges.html"].clone()).unwrap().contains("width=\"512\""));
}
