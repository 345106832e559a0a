//! Tables of saturation pressures as they are printed, clean and with one slip of the pen put in.

use coldpress::{
    fluid::{Column, Refrigerant, SlipKind, TypedRow, TypedTable},
    quantity::{Pressure, Temperature, unit},
};

use crate::properties::refrigerant;

const FLUIDS: [&str; 10] =
    ["R-22", "R-134a", "R-290", "R-717", "R-1234yf", "R-404A", "R-407C", "R-410A", "R-448A", "R-454B"];

/// From −40 °F to 150 °F or ten degrees short of the critical point, to 0.1 psig.
fn table(fluid: &Refrigerant, step: usize) -> TypedTable {
    let air = Pressure::STANDARD_ATMOSPHERE;
    let last = (fluid.critical().unwrap().temperature.as_fahrenheit() - 10.0).min(150.0);
    let rows = (-40..)
        .step_by(step)
        .take_while(|f| f64::from(*f) <= last)
        .map(|f| {
            let t = Temperature::from_fahrenheit(f64::from(f));
            let psig = |p: Pressure| format!("{:.1}", p.as_psig(air));
            TypedRow {
                temperature: f.to_string(),
                bubble: psig(fluid.bubble_pressure(t).unwrap()),
                dew: psig(fluid.dew_pressure(t).unwrap()),
            }
        })
        .collect();
    TypedTable { temperature: &unit::FAHRENHEIT, bubble: &unit::PSIG, dew: &unit::PSIG, air, rows }
}

/// Numbers that look random and are the same every time (Marsaglia, Journal of Statistical Software 8 (2003) 14).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % sides as u64) as usize
    }
}

/// The figure with a slip of the pen; `way` 0: two neighboring digits swapped, 1: one dropped, 2: one another.
fn slipped(text: &str, way: usize, dice: &mut Dice) -> String {
    let mut chars: Vec<char> = text.chars().collect();
    let digits: Vec<usize> = (0..chars.len()).filter(|&i| chars[i].is_ascii_digit()).collect();
    let k = dice.roll(digits.len());
    match way {
        0 => chars.swap(digits[k], digits[(k + 1).min(digits.len() - 1)]),
        1 => {
            chars.remove(digits[k]);
        }
        _ => chars[digits[k]] = char::from(b'0' + dice.roll(10) as u8),
    }
    chars.into_iter().collect()
}

#[test]
fn a_thousand_slips_are_found_in_their_rows() {
    let tables: Vec<(String, TypedTable)> =
        FLUIDS.iter().map(|name| (name.to_string(), table(&refrigerant(name), 5))).collect();
    let mut dice = Dice(0x2545_f491_4f6c_dd1d);
    let (mut made, mut missed) = (0, Vec::new());
    let mut by_way = [0; 5];
    while made < 1000 {
        let (name, clean) = &tables[dice.roll(tables.len())];
        let mut typed = clean.clone();
        let row = dice.roll(typed.rows.len());
        let way = dice.roll(5);
        let one_column = typed.rows.iter().all(|r| r.bubble == r.dew);
        let was = typed.rows[row].clone();
        match way {
            0..=2 => {
                let bubble = dice.roll(2) == 0;
                let text = if bubble { &was.bubble } else { &was.dew };
                let new = slipped(text, way, &mut dice);
                if bubble || one_column {
                    typed.rows[row].bubble = new.clone();
                }
                if !bubble || one_column {
                    typed.rows[row].dew = new;
                }
            }
            3 => {
                // The pressures of the next row
                let next = if row + 1 < typed.rows.len() { row + 1 } else { row - 1 };
                (typed.rows[row].bubble, typed.rows[row].dew) =
                    (clean.rows[next].bubble.clone(), clean.rows[next].dew.clone());
            }
            _ => (typed.rows[row].bubble, typed.rows[row].dew) = (was.dew.clone(), was.bubble.clone()),
        }
        let air = typed.air.as_psia();
        let absolute = |text: &str| text.parse::<f64>().ok().map(|p| p + air);
        let change = |old: &str, new: &str| match (absolute(old), absolute(new)) {
            (Some(old), Some(new)) => (new / old - 1.0).abs(),
            _ => 1.0,
        };
        let now = &typed.rows[row];
        if change(&was.bubble, &now.bubble).max(change(&was.dew, &now.dew)) < 0.01 {
            continue;
        }
        made += 1;
        by_way[way] += 1;
        let slips = typed.slips();
        if slips.is_empty() || slips.iter().any(|s| s.row != row) {
            let told: Vec<String> = slips.iter().map(ToString::to_string).collect();
            missed.push(format!("{name} row {}: {was:?} typed as {now:?}; told {told:?}", row + 1));
        }
    }
    assert!(by_way.iter().all(|n| *n > 50), "{by_way:?}");
    println!("{} of {made} slips found in their rows", made - missed.len());
    assert!(missed.len() <= 10, "{} missed:\n{}", missed.len(), missed.join("\n"));
}

#[test]
fn a_clean_table_raises_no_alarm() {
    for name in FLUIDS.iter().chain(&["R-454C", "R-32", "R-744", "R-507A", "R-123", "R-1270", "R-452A", "R-438A"]) {
        for step in [1, 2, 5, 10, 20] {
            let slips = table(&refrigerant(name), step).slips();
            assert!(slips.is_empty(), "{name} every {step} °F: {}", slips[0]);
        }
    }
}

#[test]
fn a_slip_is_told_as_what_it_is() {
    let clean = table(&refrigerant("R-454B"), 5);
    let row = |f: i32| clean.rows.iter().position(|r| r.temperature == f.to_string()).unwrap();
    let told = |change: &dyn Fn(&mut Vec<TypedRow>)| {
        let mut typed = clean.clone();
        change(&mut typed.rows);
        typed.slips().into_iter().map(|s| (s.row, s.column, s.kind, s.likely)).collect::<Vec<_>>()
    };
    let at_40 = &clean.rows[row(40)];
    assert_eq!((at_40.bubble.as_str(), at_40.dew.as_str()), ("113.2", "107.5"));
    assert_eq!(
        told(&|rows| rows[row(40)].bubble = "131.2".into()),
        [(row(40), Column::Bubble, SlipKind::SwappedDigits, Some("113.2".into()))]
    );
    assert_eq!(
        told(&|rows| rows[row(40)].dew = "17.5".into()),
        [(row(40), Column::Dew, SlipKind::DroppedDigit, Some("107.5".into()))]
    );
    assert_eq!(
        told(&|rows| rows[row(40)].dew = "1075".into()),
        [(row(40), Column::Dew, SlipKind::DecimalPoint, Some("107.5".into()))]
    );
    assert_eq!(
        told(&|rows| (rows[row(40)].bubble, rows[row(40)].dew) = ("107.5".into(), "113.2".into())),
        [(row(40), Column::Bubble, SlipKind::BubbleBelowDew, Some("113.2".into()))]
    );
    assert_eq!(
        told(&|rows| rows[row(40)].temperature = "4O".into()),
        [(row(40), Column::Temperature, SlipKind::NotANumber, None)]
    );
    assert_eq!(
        told(&|rows| rows[row(45)].temperature = "54".into()),
        [(row(45), Column::Temperature, SlipKind::SwappedDigits, Some("45".into()))]
    );
    // A row of bubble pressures was skipped at 60 °F: all below stand one row too high.
    let lost = told(&|rows| {
        for i in row(60)..rows.len() - 1 {
            rows[i].bubble = clean.rows[i + 1].bubble.clone();
        }
        rows.pop();
    });
    assert_eq!(lost.len(), 1, "{lost:?}");
    assert_eq!((lost[0].0, lost[0].1, lost[0].2), (row(60), Column::Bubble, SlipKind::ShiftedFromHere));
    // The same in a table that goes from hot to cold: all below 60 °F stand one row too high.
    let turned = clean.rows.iter().rev().cloned().collect::<Vec<_>>();
    let mut typed = TypedTable { rows: turned.clone(), ..clean.clone() };
    assert_eq!(typed.slips(), []);
    let at = turned.len() - 1 - row(60);
    for i in at..turned.len() - 1 {
        typed.rows[i].bubble = turned[i + 1].bubble.clone();
    }
    typed.rows.pop();
    let lost: Vec<_> = typed.slips().into_iter().map(|s| (s.row, s.column, s.kind)).collect();
    assert_eq!(lost, [(at, Column::Bubble, SlipKind::ShiftedFromHere)]);

    let mut typed = clean.clone();
    typed.rows[row(40)].bubble = "131.2".into();
    assert_eq!(
        typed.slips()[0].to_string(),
        "row 17: the bubble pressure `131.2` breaks the curve of the rows around it; two digits may have changed places: \
         likely `113.2`"
    );
}
