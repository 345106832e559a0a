//! Where a function crosses zero between two places: the false position, the kept end halved.
//!
//! Takes a function that may have no answer, gives the place or what stood in the way. Knows no refrigerant.
//!
//! Source: Dowell and Jarratt, BIT 11 (1971) 168.

/// How near is near enough: a step in the variable, and a value of the function.
#[derive(Clone, Copy, Debug)]
pub(super) struct Near {
    pub(super) step: f64,
    pub(super) value: f64,
}

/// The root between `a` and `b`, each a place and the function's value there, of which one is above zero and one below.
///
/// # Errors
/// What the function says where it has no value.
pub(super) fn root<E>(
    mut f: impl FnMut(f64) -> Result<f64, E>,
    a: (f64, f64),
    b: (f64, f64),
    near: Near,
) -> Result<f64, E> {
    let ((mut x0, mut y0), (mut x1, mut y1)) = (a, b);
    for _ in 0..100 {
        if y1.abs() <= near.value || (x1 - x0).abs() <= near.step {
            break;
        }
        let x = x1 - y1 * (x1 - x0) / (y1 - y0);
        let y = f(x)?;
        if y * y1 < 0.0 {
            (x0, y0) = (x1, y1);
        } else {
            y0 *= 0.5;
        }
        let moved = (x - x1).abs();
        (x1, y1) = (x, y);
        if moved <= 0.1 * near.step {
            break;
        }
    }
    Ok(x1)
}

#[cfg(test)]
mod tests {
    use super::*;

    const NEAR: Near = Near { step: 1e-14, value: 1e-14 };

    #[test]
    fn a_root_is_found_from_either_side() {
        let f = |x: f64| Ok::<f64, ()>(x.exp() - 3.0);
        let ends = [(0.0, f(0.0).unwrap()), (4.0, f(4.0).unwrap())];
        for (a, b) in [(ends[0], ends[1]), (ends[1], ends[0])] {
            assert!((root(f, a, b, NEAR).unwrap() - 3.0_f64.ln()).abs() < 1e-13);
        }
    }

    #[test]
    fn what_stands_in_the_way_is_handed_on() {
        assert_eq!(root(|_| Err("no value here"), (0.0, -1.0), (1.0, 1.0), NEAR), Err("no value here"));
    }
}
