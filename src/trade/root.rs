//! The one solver: where a function crosses zero between two bounds.

/// What the search came to.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Search<E> {
    /// Found here.
    Found(f64),
    /// The function has the same sign at both bounds.
    NotBracketed,
    /// The function itself could not be worked out.
    Failed(E),
}

/// Finds where `function` is zero between `low` and `high`, to about a part in 10¹³ of their distance.
///
/// Brent's method: inverse quadratic steps while they pay, halving where they don't, so that it can't run away.
/// # Source
/// R. P. Brent, Algorithms for Minimization without Derivatives (1973), chapter 4.
pub(super) fn root<E>(low: f64, high: f64, mut function: impl FnMut(f64) -> Result<f64, E>) -> Search<E> {
    let tolerance = 1e-13 * (high - low).abs();
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = match (function(a), function(b)) {
        (Ok(fa), Ok(fb)) => (fa, fb),
        (Err(error), _) | (_, Err(error)) => return Search::Failed(error),
    };
    if fa == 0.0 {
        return Search::Found(a);
    }
    // Said so that a function that is no number at a bound is not bracketed either.
    let crosses = fa * fb <= 0.0;
    if !crosses {
        return Search::NotBracketed;
    }
    let (mut c, mut fc) = (a, fa);
    let mut last = b - a;
    let mut before_last = last;
    for _ in 0..200 {
        if fc.abs() < fb.abs() {
            (a, b, c) = (b, c, b);
            (fa, fb, fc) = (fb, fc, fb);
        }
        let slack = 2.0 * f64::EPSILON * b.abs() + 0.5 * tolerance;
        let half = 0.5 * (c - b);
        if half.abs() <= slack || fb == 0.0 {
            break;
        }
        if before_last.abs() < slack || fa.abs() <= fb.abs() {
            last = half;
            before_last = half;
        } else {
            let s = fb / fa;
            let (mut p, mut q) = if a == c {
                (2.0 * half * s, 1.0 - s)
            } else {
                let (r, t) = (fb / fc, fa / fc);
                (s * (2.0 * half * t * (t - r) - (b - a) * (r - 1.0)), (t - 1.0) * (r - 1.0) * (s - 1.0))
            };
            if p > 0.0 {
                q = -q;
            } else {
                p = -p;
            }
            if 2.0 * p < (3.0 * half * q - (slack * q).abs()).min((before_last * q).abs()) {
                before_last = last;
                last = p / q;
            } else {
                last = half;
                before_last = half;
            }
        }
        (a, fa) = (b, fb);
        b += if last.abs() > slack { last } else { slack.copysign(half) };
        fb = match function(b) {
            Ok(fb) => fb,
            Err(error) => return Search::Failed(error),
        };
        if (fb > 0.0) == (fc > 0.0) {
            (c, fc) = (a, fa);
            last = b - a;
            before_last = last;
        }
    }
    Search::Found(b)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::convert::Infallible;

    fn found(low: f64, high: f64, function: impl Fn(f64) -> f64) -> f64 {
        match root(low, high, |x| Ok::<_, Infallible>(function(x))) {
            Search::Found(x) => x,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn zeros_are_found_to_the_last_digits() {
        assert!((found(0.0, 2.0, |x| x * x - 2.0) - 2f64.sqrt()).abs() < 1e-12);
        assert!((found(0.0, 1.0, |x| x.cos() - x) - 0.739_085_133_215_160_6).abs() < 1e-12);
        // Flat and then steep: where false position alone would crawl.
        assert!((found(0.0, 4.0, |x| (x - 3.0).powi(9)) - 3.0).abs() < 1e-2);
        assert_eq!(found(1.0, 5.0, |x| x - 1.0), 1.0);
        assert_eq!(found(1.0, 5.0, |x| x - 5.0), 5.0);
    }

    #[test]
    fn what_does_not_cross_is_not_bracketed_and_what_fails_says_why() {
        assert_eq!(root(1.0, 2.0, Ok::<_, Infallible>), Search::NotBracketed);
        assert_eq!(root(1.0, 2.0, |_| Ok::<_, Infallible>(f64::NAN)), Search::NotBracketed);
        assert_eq!(root(-1.0, 1.0, |x| if x > 0.5 { Err("too far") } else { Ok(x) }), Search::Failed("too far"));
    }
}
