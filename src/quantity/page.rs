//! The same reading and setting of quantities for a page: the reader as JavaScript, with the tables of units and kinds
//! it takes.
//!
//! The tables are written from [`unit::UNITS`] and [`Kind::ALL`]; the reader itself stands in `page.js` and is held to
//! this room's by tests that give both the same texts.

use super::kind::{Kind, System};
use super::unit::{self, Reference};
use std::fmt::Write as _;

/// A JavaScript expression: what reads, converts and prints quantities in a page. See `page.js` for what it gives.
pub fn page_script() -> String {
    format!("{}({})", include_str!("page.js").trim_end(), tables())
}

/// Every unit and kind, as `page.js` takes them.
fn tables() -> String {
    let mut text = String::from("{kinds:[");
    for kind in Kind::ALL.iter().copied() {
        let (us, si) = (kind.unit_in(System::Us), kind.unit_in(System::Si));
        let _ = write!(
            text,
            "[{:?},{:?},{},{:?},{},{:?},{:?}],",
            kind.name(),
            us.symbol,
            kind.decimals_in(System::Us),
            si.symbol,
            kind.decimals_in(System::Si),
            kind.sample(),
            kind.difference().name()
        );
    }
    text.push_str("],\nunits:[");
    for unit in unit::UNITS {
        let kind = Kind::ALL.iter().position(|kind| *kind == unit.kind).unwrap_or_default();
        let reference = match unit.reference {
            Reference::Fixed => 0,
            Reference::Gauge => 1,
            Reference::Vacuum => 2,
        };
        let _ = write!(
            text,
            "[{:?},{kind},{},{:?},{:?},{reference},{:?},{}",
            unit.symbol,
            u8::from(unit.system == System::Si),
            unit.factor,
            unit.offset,
            unit.counterpart,
            unit.least_decimals
        );
        for spelling in unit.spellings {
            let _ = write!(text, ",{spelling:?}");
        }
        text.push_str("],");
    }
    text + "]}"
}
