//! Forms: blanks for one computation, and the case that is shown worked where nothing can be typed.

use super::SettingError;
use super::address;
use super::block::PageLink;
use super::figure::{SetFigure, SetForm};
use super::press::Press;
use super::register::{Target, value_address};
use super::working::{StandingLine, Working, Workings};
use tera::Context;

/// Sets a form on the page of `workings`; `number` tells it from the page's others.
pub(super) fn set(
    press: &Press<'_>,
    workings: &mut Workings<'_>,
    level: u8,
    number: usize,
    form: &SetForm,
) -> Result<String, SettingError> {
    let page = workings.page();
    let leaf = press.register.address(&Target::Computation(form.sum.clone()), press.book);
    let leaf = leaf.filter(|leaf| leaf != page).map(|leaf| PageLink {
        href: address::href(page, &leaf),
        label: String::new(),
        title: form.title.clone(),
    });
    let mut working = Working::default();
    // The formula in letters stands on the computation's own page, which is pointed at; here are its numbers.
    working.figure(&SetFigure { equation: Vec::new(), ..form.figure.clone() });
    if let Some(looked_for) = &form.looked_for
        && let Some(value) = press.book.values.get(&looked_for.value)
        && let Some(shown) = press.figures.values.get(&looked_for.value)
    {
        working.standing(StandingLine {
            value: shown.clone(),
            is: value.is.clone(),
            source: press.source_line(&value.source.value),
            href: address::href(page, &value_address(&looked_for.value)),
            own: None,
        });
    }
    let mut context = Context::new();
    context.insert("level", &level);
    context.insert("anchor", &format!("form-{number}"));
    context.insert("form", form);
    context.insert("leaf", &leaf);
    context.insert("altitude", &press.figures.altitude);
    context.insert("working", &workings.set(press, &working)?);
    press.fill("block/form.html", context)
}
