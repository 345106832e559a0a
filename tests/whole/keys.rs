//! `keys: apart`: no page has an answer in it, one page has them all, and no copy carries that page.

use crate::bench::{Book, files_below};
use std::collections::BTreeMap;

const PROBLEM: &str = "\n```practice\nname: milk-tank\ntitle: The milk tank\nfrom:\n  refrigerant: [R-134a]\n  \
                       pressure: 15 to 30 psig by 1 psig\nask: At {pressure}, where does it boil?\nfind: dew-temperature\n\
                       within: 0.5 °F\nsay: Read on the dew column.\n```\n";

#[test]
fn keys_stand_with_the_problems_or_apart() {
    let book = Book::sound();
    let gauges = "lessons/coil/gauges.md";
    let text = "A gauge reads against the air around it.";
    book.change(gauges, text, &format!("{text}\n{PROBLEM}"));
    book.run(&["bind", "book", "--into", "with"]).ended(0);
    let with = files_below(&book.beside().join("with"));
    let page = |files: &BTreeMap<String, Vec<u8>>, name: &str| String::from_utf8(files[name].clone()).unwrap();
    let shown = page(&with, "lesson/gauges.html");
    assert!(shown.contains("data-draws="));
    let printed = shown.split_once("class=\"keys\"").expect("no key at the end of the page").1;
    assert!(printed.contains("Read on the dew column."), "the key at the end leaves out the remark");
    assert!(!with.contains_key("keys/index.html"));

    book.change("handbook.yaml", "parts:\n", "keys: apart\nparts:\n");
    book.run(&["bind", "book", "--into", "apart"]).ended(0);
    let apart = files_below(&book.beside().join("apart"));
    let shown = page(&apart, "lesson/gauges.html");
    assert!(shown.contains("The milk tank") && !shown.contains("data-draws=") && !shown.contains("key-answer"));
    let keys = page(&apart, "keys/index.html");
    assert!(keys.contains("The milk tank") && keys.contains("Read on the dew column."));
    for (name, bytes) in &apart {
        if (name.ends_with(".html") || name.ends_with(".js")) && name != "keys/index.html" {
            assert!(!String::from_utf8_lossy(bytes).contains("keys/index.html"), "{name} leads to the keys");
        }
    }
    let zip = zip::ZipArchive::new(std::io::Cursor::new(&apart["carry/folder.zip"])).unwrap();
    assert!(zip.len() > 10 && zip.file_names().all(|name| !name.unwrap().contains("/keys/")));
}
