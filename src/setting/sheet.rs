//! A job sheet's page: what to have at hand, what to do in order, which readings to take, and who signs.

use super::SettingError;
use super::address;
use super::block::{self, PageLink};
use super::figure::SetReading;
use super::leaf::{Frame, Heading};
use super::markdown::set_line;
use super::press::Press;
use super::print::{Both, spoken};
use super::register::{PageRef, Target};
use super::working::{Working, Workings};
use crate::handbook::{Sheet, Signal, Spot};
use crate::trade;
use serde::Serialize;
use tera::Context;

#[derive(Serialize)]
struct Step {
    number: usize,
    act: String,
    caution: String,
    /// What is read or worked out; empty where the step takes nothing.
    take: String,
    worked_out: bool,
    reading: Option<SetReading>,
    /// That its limit is the house's own, where it is.
    own: Option<Both>,
}

/// Sets the page of a job sheet.
pub(super) fn page(press: &Press<'_>, sheet: &Sheet) -> Result<String, SettingError> {
    let path = address::sheet(&sheet.name);
    let mut working = Working::default();
    let mut line = |spot: &Spot<String>| {
        let links = sheet.links.get(&spot.at).map_or(&[][..], Vec::as_slice);
        set_line(press, &path, &spot.value, links, &mut working)
    };
    let before = sheet.before.iter().map(&mut line).collect::<Result<Vec<_>, _>>()?;
    let mut steps = Vec::with_capacity(sheet.steps.len());
    for (i, step) in sheet.steps.iter().enumerate() {
        let caution = match &step.caution {
            Some(caution) => block::notice(press, Signal::Caution, &format!("<p>{}</p>\n", line(caution)?), true)?,
            None => String::new(),
        };
        let sum = step.work_out.as_ref().and_then(|sum| trade::find(&sum.value));
        steps.push(Step {
            number: i + 1,
            act: line(&step.act)?,
            caution,
            take: match (&step.take, sum) {
                (Some(take), _) => take.value.clone(),
                (None, Some(sum)) => sum.answer_name().to_owned(),
                (None, None) => String::new(),
            },
            worked_out: step.take.is_none() && sum.is_some(),
            reading: press.figures.readings.get(&step.act.at).cloned(),
            own: step.limit.as_ref().and_then(|limit| press.own_mark_in(&limit.value)),
        });
    }
    let mut hazards = String::new();
    for name in &sheet.hazards {
        if let Some(hazard) = press.book.hazards.get(&name.value) {
            hazards.push_str(&block::hazard(press, hazard)?);
        }
    }
    let links = |pages: Vec<&PageRef>| -> Vec<PageLink> { pages.into_iter().map(|p| PageLink::of(p, &path)).collect() };
    let lessons = sheet.lessons.iter().filter_map(|name| Some(&press.register.lessons.get(&name.value)?.page));
    let trees = sheet.trees.iter().filter_map(|name| press.register.trees.get(&name.value));
    let home = sheet.lessons.first().and_then(|name| press.register.lessons.get(&name.value)).map(|place| place.part);
    let heading = Heading { path: &path, title: &sheet.title.value, label: "", guide: String::new(), home, kind: "" };
    let frame = Frame::of(press, heading);
    let mut context = Context::new();
    context.insert("purpose", &sheet.purpose.as_ref().map(|purpose| &purpose.value));
    context.insert("lessons", &links(lessons.collect()));
    context.insert("trees", &links(trees.collect()));
    context.insert("maker_first", &sheet.maker_first);
    context.insert("hazards", &hazards);
    context.insert("tools", &sheet.tools.iter().map(|tool| &tool.value).collect::<Vec<_>>());
    context.insert("before", &before);
    context.insert("steps", &steps);
    context.insert("sign_off", &sheet.sign_off.iter().map(|line| spoken(&line.value)).collect::<Vec<_>>());
    context.insert("working", &Workings::on(&path).set(press, &working)?);
    frame.tie(press, &mut context, &Target::Sheet(sheet.name.clone()), &[]);
    frame.fill(press, "sheet.html", context)
}
