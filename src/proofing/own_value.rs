//! Standing values that a house sets in place of those of the handbook it builds on. `own-value-unsigned`: one stands in
//! place of another and doesn't say by whose word and why; `own-value-of-nothing`: one says by whose word, and there is
//! nothing below that it stands in place of; `own-value-unlike`: it is of another quantity than the one below.
//!
//! Whoever follows a limit that is not the book's must be able to ask the person who set it.
//!
//! Trips: `superheat-range: {value: 10 to 15 °F, …}` over one of the same name. Mended: with `by:` and `because:`.

use crate::handbook::{Finding, Handbook, StandingValue};
use crate::quantity::nearest;

pub(super) fn examine(book: &Handbook, findings: &mut Vec<Finding>) {
    for (name, value) in &book.values {
        let mut standing = Some(value);
        while let Some(here) = standing {
            findings.extend(look_at(book, name, here));
            standing = here.replaces.as_deref();
        }
    }
}

fn look_at(book: &Handbook, name: &str, value: &StandingValue) -> Option<Finding> {
    let Some(below) = &value.replaces else {
        let by = value.by.as_ref()?;
        let says = format!("no handbook below has a standing value `{name}` that this could stand in place of");
        let others =
            book.values.iter().filter(|(_, other)| other.at.file != value.at.file).map(|(name, _)| name.as_str());
        let instead = nearest(name, others).map_or_else(
            || "leave out `by:` where a value is new".to_owned(),
            |near| format!("write `{near}`, or leave out `by:` where the value is new"),
        );
        return Some(
            Finding::error("own-value-of-nothing", value.at, says).seen(by.at, "by whose word").instead(instead),
        );
    };
    if below.quantity.value != value.quantity.value {
        let says =
            format!("`{name}` is a {}, and in place of it stands a {}", below.quantity.value, value.quantity.value);
        let finding =
            Finding::error("own-value-unlike", value.quantity.at, says).seen(below.quantity.at, "the value below");
        return Some(
            finding.instead(format!("write `quantity: {}`, or give the value another name", below.quantity.value)),
        );
    }
    if value.by.is_some() && value.because.is_some() {
        return None;
    }
    let says = format!("`{name}` stands in place of the value below, and doesn't say by whose word and why");
    let finding = Finding::error("own-value-unsigned", value.at, says).seen(below.at, "stands in place of this");
    Some(finding.instead("add `by:` with who set it and `because:` with the reason"))
}
