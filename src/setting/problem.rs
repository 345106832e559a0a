//! Problems: a question, its answer with the working, and others like it. In a lesson and in a set of its own.

use super::SettingError;
use super::address;
use super::block::PageLink;
use super::figure::SetFigure;
use super::leaf::{Frame, Heading};
use super::markdown::set_line;
use super::press::Press;
use super::print::{Both, anchor, print};
use super::register::Target;
use super::working::{Working, Workings};
use crate::handbook::{Problem, ProblemSet};
use tera::Context;

/// Sets one problem on the page `page`.
pub(super) fn set(
    press: &Press<'_>,
    page: &str,
    workings: &mut Workings<'_>,
    level: u8,
    problem: &Problem,
) -> Result<String, SettingError> {
    let Some(set) = press.figures.problems.get(&problem.name.value) else { return Ok(String::new()) };
    let Some(first) = set.draws.first() else { return Ok(String::new()) };
    let mut working = Working::default();
    // The formula is taught where it is first met; a key shows the numbers put in.
    for step in &first.steps {
        working.figure(&SetFigure { equation: Vec::new(), ..step.figure.clone() });
    }
    let say = match &problem.say {
        Some(say) => set_line(press, page, &say.value, &problem.say_links, &mut working)?,
        None => String::new(),
    };
    let draws = tera::to_value(&set.draws).map(|draws| draws.to_string()).map_err(|error| SettingError::Template {
        template: "block/problem.html".to_owned(),
        says: error.to_string(),
    })?;
    let mut context = Context::new();
    context.insert("level", &level);
    context.insert("anchor", &format!("problem-{}", anchor(&problem.name.value)));
    context.insert("title", &problem.title.value);
    context.insert("ask", &Both { us: print(&first.ask.us), si: print(&first.ask.si) });
    context.insert("answer", &first.answer);
    context.insert("unit", &set.unit);
    context.insert("others", &(set.draws.len() > 1));
    context.insert("draws", &in_single_quotes(&draws));
    context.insert("say", &say);
    context.insert("working", &workings.set(press, &working)?);
    press.fill("block/problem.html", context)
}

/// Sets the page of a problem set.
pub(super) fn page(press: &Press<'_>, set: &ProblemSet) -> Result<String, SettingError> {
    let path = address::problem_set(&set.name);
    let mut workings = Workings::on(&path);
    let mut working = Working::default();
    let say = match &set.say {
        Some(say) => set_line(press, &path, &say.value, &set.say_links, &mut working)?,
        None => String::new(),
    };
    let mut problems = String::new();
    for problem in &set.problems {
        problems.push_str(&self::set(press, &path, &mut workings, 2, problem)?);
    }
    let place = set.lesson.as_ref().and_then(|lesson| press.register.lessons.get(&lesson.value));
    let heading = Heading {
        path: &path,
        title: &set.title.value,
        label: "",
        guide: String::new(),
        home: place.map(|place| place.part),
        kind: "",
    };
    let frame = Frame::of(press, heading);
    let mut context = Context::new();
    context.insert("say", &say);
    context.insert("lesson", &place.map(|place| PageLink::of(&place.page, &path)));
    context.insert("problems", &problems);
    frame.tie(press, &mut context, &Target::Practice(set.name.clone()), &[]);
    frame.fill(press, "practice.html", context)
}

/// Text as an attribute between single quotes: JSON is full of double ones, which would each take six letters.
fn in_single_quotes(text: &str) -> String {
    text.replace('&', "&amp;").replace('\'', "&#39;").replace('<', "&lt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_attribute_can_not_be_left() {
        assert_eq!(in_single_quotes("'><b>&\""), "&#39;>&lt;b>&amp;\"");
    }
}
