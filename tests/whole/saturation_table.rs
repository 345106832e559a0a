//! A saturation table as a reader has it: what stands beside pressures, and from which zero it is counted.

use crate::bench::Book;

const LESSON: &str = "lessons/coil/superheat.md";

/// The table's part of the bound lesson, with these lines added to its block.
fn table(front: &str, lines: &str) -> String {
    let book = Book::sound();
    book.change("handbook.yaml", "altitude: 890 ft", &format!("altitude: 890 ft{front}"));
    book.change(LESSON, "step: 10 °F", &format!("step: 10 °F{lines}"));
    book.run(&["bind", "book", "--into", "bound"]).ended(0);
    let page = std::fs::read_to_string(book.beside().join("bound/lesson/superheat.html")).unwrap();
    let from = page.find("class=\"tabled\"").unwrap();
    page[from..].split("</section>").next().unwrap().to_owned()
}

#[test]
fn enthalpy_stands_beside_pressure_and_its_zero_below_the_table() {
    let plain = table("", "");
    assert!(!plain.contains("enthalpy") && !plain.contains("counted from"), "{plain}");

    // Saturated liquid of R-134a at 0 °F, from 200 kJ/kg at 0 °C: 176.5 kJ/kg, 75.9 Btu/lb.
    let iir = table("", "\nalso: [volume, enthalpy]");
    for part in ["Vapor volume", "Liquid enthalpy", "Vapor enthalpy", "ft³/lb", "kJ/kg", ">75.9<"] {
        assert!(iir.contains(part), "no `{part}` in {iir}");
    }
    assert!(
        iir.contains("saturated liquid at 0 °C (IIR)") || iir.contains("saturated liquid at 0\u{a0}°C (IIR)"),
        "{iir}"
    );

    // From nothing at −40 °F, by the table or by the handbook: the same figures.
    let own = table("", "\nalso: [enthalpy]\ncounted-from: ASHRAE");
    let all = table("\ncounted-from: ASHRAE", "\nalso: [enthalpy]");
    assert_eq!(own, all);
    assert!(own.contains(">12.2<") && own.contains("(ASHRAE)") && !own.contains("(IIR)"), "{own}");
}
