//! `pull-down`: a pressure, a temperature or a superheat against time, from readings.

use super::Scene;
use super::desk::{Desk, Stop};
use crate::handbook::Finding;
use crate::quantity::{Kind, Unit, Value, unit};
use crate::trade::Given;

/// Readings as time goes by.
#[derive(Clone, Debug)]
pub struct PullDown {
    /// Series, in the order in which they begin.
    pub series: Vec<PullDownSeries>,
    /// A level to be reached or kept under.
    pub level: Option<Value>,
    /// Unit in which the first reading was written.
    pub unit: &'static Unit,
    /// Unit in which the first time was written.
    pub time: &'static Unit,
}

/// Readings that belong together.
#[derive(Clone, Debug)]
pub struct PullDownSeries {
    /// What they are of; empty where there is one series.
    pub name: String,
    /// Readings in order of time.
    pub readings: Vec<PullDownReading>,
}

/// One reading.
#[derive(Clone, Debug)]
pub struct PullDownReading {
    /// When.
    pub time: Value,
    /// What was read.
    pub value: Value,
    /// Where water boils at that pressure, where it is a vacuum.
    pub water: Option<Value>,
}

/// What may be read as time goes by.
const READ: [(&str, Kind); 3] =
    [("pressure", Kind::Pressure), ("temperature", Kind::Temperature), ("superheat", Kind::TemperatureDifference)];
/// The list it takes, how many readings, and how many series can be told apart.
const LIST: &str = "readings";
const LEAST: usize = 3;
const MOST: usize = 40;
const SERIES: usize = 4;

/// Reads and reckons one.
pub(super) fn examine(desk: &Desk<'_>) -> Result<Scene, Stop> {
    let given = desk.given();
    given.only(&["level"])?;
    let items = desk.list(LIST, LEAST, MOST)?;
    let slip = |at, says: String| Stop::from(Finding::error("drawing-not-read", at, says));
    let mut series: Vec<PullDownSeries> = Vec::new();
    let mut units = None;
    for item in &items {
        item.only(&["of", "time", "pressure", "temperature", "superheat"])?;
        let time = item.need("time", Kind::Time)?;
        let mut reads = Vec::new();
        for (name, kind) in READ {
            reads.extend(item.maybe(name, kind)?);
        }
        let (Some(read), true) = (reads.pop(), reads.is_empty()) else {
            return Err(slip(item.at, "a reading is one `pressure`, `temperature` or `superheat`".to_owned()));
        };
        let (unit, _) = *units.get_or_insert((read.written.unit, time.written.unit));
        if unit.kind != read.value.kind {
            let says = format!("the first reading is a {}, and this is a {}", unit.kind, read.value.kind);
            return Err(slip(read.at, says));
        }
        let vacuum = [&unit::MICRON_OF_MERCURY, &unit::PASCAL].contains(&read.written.unit);
        let water = if vacuum {
            let inputs = [("pressure", Given::Written(read.written.clone()))];
            Some(desk.answer("water-boiling-temperature", &inputs, read.at)?)
        } else {
            None
        };
        let name = item.text("of")?.map_or("", |name| name.value.as_str());
        let place = series.iter().position(|one| one.name == name).unwrap_or_else(|| {
            series.push(PullDownSeries { name: name.to_owned(), readings: Vec::new() });
            series.len() - 1
        });
        let readings = &mut series[place].readings;
        if readings.last().is_some_and(|before| before.time.si >= time.value.si) {
            return Err(slip(time.at, format!("this reading was taken at {}, not after the one above", time.written)));
        }
        readings.push(PullDownReading { time: time.value, value: read.value, water });
    }
    if series.len() > SERIES {
        let says = format!("at most {SERIES} series can be told apart, and {} stand here", series.len());
        return Err(slip(desk.drawing.kind.at, says));
    }
    if let Some(short) = series.iter().find(|one| one.readings.len() < 2) {
        return Err(slip(desk.drawing.kind.at, format!("`{}` has one reading, and makes no line", short.name)));
    }
    let Some((unit, time)) = units else { return Err(Stop::Told) };
    let level = given.maybe("level", unit.kind)?.map(|level| level.value);
    Ok(Scene::PullDown(PullDown { series, level, unit, time }))
}
