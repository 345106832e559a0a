//! Whether a formula can be true: that it adds only like to like, and comes out as the quantity it claims to give.
//!
//! Beyond dimensions it keeps points of a scale from differences: two temperatures can't be added, and the difference
//! of two is not a temperature. A test asks this of every entry of the catalogue.

use super::computation::Computation;
use super::expression::{Condition, Expr, Node};
use crate::quantity::{Dimension, Kind, Scale};

/// Dimension, and place on a scale.
type Measure = (Dimension, Scale);

const NUMBER: Measure = (Dimension::NONE, Scale::Amount);

impl Computation {
    /// What is wrong with the dimensions of the formula or of the cautions, if anything.
    ///
    /// # Errors
    /// A sentence that names the place.
    pub fn check_dimensions(&self) -> Result<(), String> {
        let found = measure(&self.answer.formula)?;
        fits(found, self.answer.kind).map_err(|says| format!("the answer {says}"))?;
        for caution in &self.cautions {
            compare(&caution.when)?;
        }
        for step in self.steps() {
            let found = measure(&step.formula).map_err(|says| format!("{}: {says}", step.name))?;
            fits(found, step.kind).map_err(|says| format!("{} {says}", step.name))?;
        }
        for function in self.functions() {
            let found = measure(&function.body).map_err(|says| format!("{}: {says}", function.name))?;
            fits(found, function.kind).map_err(|says| format!("{} {says}", function.name))?;
        }
        Ok(())
    }
}

/// Where on a scale `expr` stands; none where its dimensions are at odds.
pub(super) fn scale_of(expr: &Expr) -> Option<Scale> {
    measure(expr).ok().map(|(_, scale)| scale)
}

fn of(kind: Kind) -> Measure {
    (kind.dimension(), kind.scale())
}

/// Whether what was found can be called a `kind`.
fn fits((dimension, scale): Measure, kind: Kind) -> Result<(), String> {
    if dimension != kind.dimension() {
        return Err(format!("comes out in {dimension}, and a {kind} is in {}", kind.dimension()));
    }
    match (scale, kind.scale()) {
        (Scale::Point, Scale::Difference) => Err(format!("is a point on a scale, and a {kind} is a difference")),
        (Scale::Difference, Scale::Point) => Err(format!("is a difference, and a {kind} is a point on a scale")),
        _ => Ok(()),
    }
}

fn compare(condition: &Condition) -> Result<(), String> {
    let (left, right) = (measure(&condition.left)?, measure(&condition.right)?);
    same(left, right, "compared")
}

fn same(left: Measure, right: Measure, done: &str) -> Result<(), String> {
    if left.0 != right.0 {
        return Err(format!("{} and {} are {done}", left.0, right.0));
    }
    match (left.1, right.1) {
        (Scale::Point, Scale::Difference) | (Scale::Difference, Scale::Point) => {
            Err(format!("a point of a scale and a difference are {done}"))
        }
        _ => Ok(()),
    }
}

fn number(expr: &Expr, what: &str) -> Result<(), String> {
    let (dimension, _) = measure(expr)?;
    if dimension == Dimension::NONE { Ok(()) } else { Err(format!("{what} of {dimension}, which is no pure number")) }
}

fn measure(expr: &Expr) -> Result<Measure, String> {
    Ok(match expr.node() {
        Node::Input(input) => match input.quantity_kind() {
            Some(Kind::Pressure) if input.gauge => of(Kind::PressureDifference),
            Some(kind) => of(kind),
            None => return Err(format!("{} is a refrigerant, not a quantity", input.name)),
        },
        Node::Air => of(Kind::Pressure),
        Node::Step(step) => of(step.kind),
        Node::Bound(variable) => of(variable.kind),
        Node::Number(_) => NUMBER,
        Node::Constant(constant) => of(constant.written.unit.kind),
        Node::Sum(a, b) => {
            let (a, b) = (measure(a)?, measure(b)?);
            if a.0 != b.0 {
                return Err(format!("{} and {} are added", a.0, b.0));
            }
            match (a.1, b.1) {
                (Scale::Point, Scale::Point) => return Err("two points of a scale are added".to_owned()),
                (Scale::Point, _) | (_, Scale::Point) => (a.0, Scale::Point),
                (Scale::Difference, _) | (_, Scale::Difference) => (a.0, Scale::Difference),
                _ => (a.0, Scale::Amount),
            }
        }
        Node::Difference(a, b) => {
            let (a, b) = (measure(a)?, measure(b)?);
            if a.0 != b.0 {
                return Err(format!("{} is taken from {}", b.0, a.0));
            }
            match (a.1, b.1) {
                (Scale::Point, Scale::Point) => (a.0, Scale::Difference),
                (Scale::Difference, Scale::Point) => {
                    return Err("a point of a scale is taken from a difference".to_owned());
                }
                (Scale::Point, _) => (a.0, Scale::Point),
                (Scale::Difference, _) | (_, Scale::Difference) => (a.0, Scale::Difference),
                _ => (a.0, Scale::Amount),
            }
        }
        Node::Product(a, b) => {
            let (a, b) = (measure(a)?, measure(b)?);
            (a.0.times(b.0), scaled(a, b))
        }
        Node::Quotient(a, b) => {
            let (a, b) = (measure(a)?, measure(b)?);
            let scale = if b.0 == Dimension::NONE { scaled(a, b) } else { Scale::Amount };
            (a.0.over(b.0), scale)
        }
        Node::Negative(a) => {
            let (dimension, scale) = measure(a)?;
            if scale == Scale::Point && dimension != Dimension::NONE {
                return Err("a point of a scale is turned negative".to_owned());
            }
            (dimension, scale)
        }
        Node::Power(a, exponent) => raised(measure(a)?, *exponent)?,
        Node::Root(a) => raised(measure(a)?, 0.5)?,
        Node::RaisedTo(a, b) => {
            number(a, "the power is taken")?;
            number(b, "a number is raised to the power")?;
            NUMBER
        }
        Node::Log(a) => {
            number(a, "the logarithm is taken")?;
            NUMBER
        }
        Node::Exponential(a) => {
            number(a, "the exponential is taken")?;
            NUMBER
        }
        Node::Magnitude(a) => measure(a)?,
        Node::Least(a, b) | Node::IfGiven(_, a, b) => alike(measure(a)?, measure(b)?)?,
        Node::Choice(condition, then, otherwise) => {
            compare(condition)?;
            alike(measure(then)?, measure(otherwise)?)?
        }
        Node::NumberOf(a, unit) => {
            let found = measure(a)?;
            fits(found, unit.kind).map_err(|says| format!("what is counted in {} {says}", unit.symbol))?;
            NUMBER
        }
        Node::OfUnit(a, unit) => {
            number(a, "a unit is taken times a quantity")?;
            of(unit.kind)
        }
        Node::Property(property, _, at) => {
            let signature = property.signature();
            if at.len() != signature.at.len() {
                return Err(format!("{} is asked at {} quantities", signature.name, at.len()));
            }
            for (at, kind) in at.iter().zip(signature.at) {
                fits(measure(at)?, *kind).map_err(|says| format!("what {} is asked at {says}", signature.name))?;
            }
            of(signature.gives)
        }
        Node::Apply(function, at) => {
            fits(measure(at)?, function.parameter.kind)
                .map_err(|says| format!("what {} is asked at {says}", function.name))?;
            of(function.kind)
        }
        Node::Solve(solve) => {
            same(measure(&solve.left)?, measure(&solve.right)?, "set equal")?;
            for bound in [&solve.low, &solve.high] {
                fits(measure(bound)?, solve.unknown.kind).map_err(|says| format!("a bound of the search {says}"))?;
            }
            of(solve.unknown.kind)
        }
    })
}

/// A difference times a number is a difference; anything else times anything is an amount.
fn scaled(a: Measure, b: Measure) -> Scale {
    match (a, b) {
        ((_, Scale::Difference), (Dimension::NONE, _)) | ((Dimension::NONE, _), (_, Scale::Difference)) => {
            Scale::Difference
        }
        _ => Scale::Amount,
    }
}

fn raised((dimension, _): Measure, exponent: f64) -> Result<Measure, String> {
    match dimension.to_the(exponent) {
        Some(raised) => Ok((raised, Scale::Amount)),
        None => Err(format!("{dimension} is raised to the power {exponent}")),
    }
}

fn alike(a: Measure, b: Measure) -> Result<Measure, String> {
    same(a, b, "alternatives")?;
    Ok(if a.1 == Scale::Amount { b } else { a })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::unit;
    use crate::trade::expression::{quantity, solve};
    use crate::trade::input::given;

    fn says(expr: &Expr) -> String {
        match measure(expr) {
            Ok((dimension, scale)) => format!("{dimension}, {scale:?}"),
            Err(says) => says,
        }
    }

    #[test]
    fn points_and_differences_are_kept_apart() {
        let (a, b) = (given("a", "T_a", Kind::Temperature), given("b", "T_b", Kind::Temperature));
        let d = given("d", "ΔT", Kind::TemperatureDifference);
        assert_eq!(says(&(&a - &b)), "K, Difference");
        assert_eq!(says(&(&a + &d)), "K, Point");
        assert_eq!(says(&(&a + &b)), "two points of a scale are added");
        assert_eq!(says(&(&d - &b)), "a point of a scale is taken from a difference");
        assert_eq!(says(&(&a / &b)), "1, Amount");
        assert_eq!(says(&(&a + (&b - &a) / 2.0)), "K, Point");
    }

    #[test]
    fn what_can_not_be_added_or_rooted_is_said() {
        let length = given("length", "L", Kind::Length);
        let mass = given("mass", "m", Kind::Mass);
        assert_eq!(says(&(&length + &mass)), "m and kg are added");
        assert_eq!(says(&(&length * &length).root()), "m, Amount");
        assert_eq!(says(&length.expr().root()), "m is raised to the power 0.5");
        assert_eq!(says(&length.expr().ln()), "the logarithm is taken of m, which is no pure number");
        assert_eq!(says(&length.expr().number_of(&unit::FOOT).ln()), "1, Amount");
        assert_eq!(
            says(&mass.expr().number_of(&unit::FOOT)),
            "what is counted in ft comes out in kg, and a length is in m"
        );
        let zero = quantity(0.0, 0, &unit::FOOT, "");
        assert_eq!(
            says(&solve("x", Kind::Length, &zero, &length, |x| (x.clone(), mass.expr()))),
            "m and kg are set equal"
        );
    }
}
