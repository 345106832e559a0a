//! The reference of computations: a page for each, made by the catalogue itself, and the list of them by topic.

use super::SettingError;
use super::address;
use super::block::PageLink;
use super::figure::SetComputation;
use super::form;
use super::leaf::{Frame, Heading};
use super::press::Press;
use super::register::Target;
use super::working::Workings;
use serde::Serialize;
use tera::Context;

/// Sets the page of a computation.
pub(super) fn page(press: &Press<'_>, computation: &SetComputation) -> Result<String, SettingError> {
    let path = address::computation(&computation.name);
    let mut workings = Workings::on(&path);
    let form = match &computation.form {
        Some(form) => form::set(press, &mut workings, 2, 1, form)?,
        None => String::new(),
    };
    let frame = Frame::of(
        press,
        Heading {
            path: &path,
            title: &computation.title,
            label: "",
            guide: computation.group.clone(),
            home: None,
            kind: "back",
        },
    );
    let equation: String = computation.equation.iter().map(super::working::mathematics).collect();
    let mut context = Context::new();
    context.insert("computation", computation);
    context.insert("equation", &equation);
    context.insert("form", &form);
    context.insert("reckons", &true);
    context.insert("list", &frame.to(address::COMPUTATIONS));
    frame.tie(press, &mut context, &Target::Computation(computation.name.clone()), &[]);
    frame.fill(press, "computation.html", context)
}

#[derive(Serialize)]
struct Topic<'a> {
    title: &'a str,
    anchor: String,
    pages: Vec<Line<'a>>,
}

#[derive(Serialize)]
struct Line<'a> {
    link: PageLink,
    purpose: &'a str,
}

/// Sets the list of computations by topic.
pub(super) fn list(press: &Press<'_>) -> Result<String, SettingError> {
    let here = address::COMPUTATIONS;
    let mut topics: Vec<Topic<'_>> = Vec::new();
    for computation in &press.figures.catalogue {
        let line = Line {
            link: PageLink {
                href: address::href(here, &address::computation(&computation.name)),
                label: String::new(),
                title: computation.title.clone(),
            },
            purpose: &computation.purpose,
        };
        match topics.iter_mut().find(|topic| topic.title == computation.group) {
            Some(topic) => topic.pages.push(line),
            None => topics.push(Topic {
                title: &computation.group,
                anchor: super::print::anchor(&computation.group),
                pages: vec![line],
            }),
        }
    }
    let title = &press.theme.words.computations;
    let frame =
        Frame::of(press, Heading { path: here, title, label: "", guide: String::new(), home: None, kind: "back" });
    let mut context = Context::new();
    context.insert("topics", &topics);
    frame.fill(press, "computations.html", context)
}
