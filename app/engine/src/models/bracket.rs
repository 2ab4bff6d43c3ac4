//! Root of a continuous function between two ends of opposite sign.
//!
//! Chandrupatla's rule: a parabola through the last three points, as a function of f, where it is monotone between them, else the
//! middle; each step takes one call of f, and the bracket cannot be left. Valid for any continuous f. Source: T.R. Chandrupatla,
//! "A new hybrid quadratic/bisection algorithm for finding the zero of a nonlinear function without using derivatives", Advances
//! in Engineering Software 28 (1997).

use super::error::ModelError;

/// Steps after which the bracket is narrower than any figure needs.
const STEPS: usize = 100;
/// Relative width at which the search ends.
const WIDTH: f64 = 1e-12;

/// Finds `x` in `low..=high` with `f(x) = 0`, to a relative width of 1e-12.
///
/// ```
/// use propwright_engine::models::bracket::root;
/// let x = root(0.0, 2.0, |x| Ok(x * x - 2.0)).unwrap();
/// assert!((x - 2_f64.sqrt()).abs() < 1e-10);
/// ```
///
/// # Errors
/// [`ModelError::NoBracket`] when both ends have the same sign; any error of `f`.
pub fn root(low: f64, high: f64, f: impl Fn(f64) -> Result<f64, ModelError>) -> Result<f64, ModelError> {
    let (mut a, mut b) = (high, low);
    let (mut fa, mut fb) = (f(a)?, f(b)?);
    if fa == 0.0 {
        return Ok(a);
    }
    if fb == 0.0 {
        return Ok(b);
    }
    if !opposite(fa, fb) {
        return Err(ModelError::NoBracket { low, high });
    }
    let mut share = 0.5;
    for _ in 0..STEPS {
        let x = a + share * (b - a);
        let fx = f(x)?;
        let (c, fc);
        if opposite(fx, fa) {
            (c, fc, b, fb) = (b, fb, a, fa);
        } else {
            (c, fc) = (a, fa);
        }
        (a, fa) = (x, fx);
        let best = if fa.abs() < fb.abs() { a } else { b };
        let least = WIDTH * best.abs() / (b - a).abs();
        if fa == 0.0 || least > 0.5 {
            return Ok(best);
        }
        share = parabola([a, b, c], [fa, fb, fc]).unwrap_or(0.5).clamp(least, 1.0 - least);
    }
    Ok(if fa.abs() < fb.abs() { a } else { b })
}

/// Place of the root on the way from the first point to the second, by inverse quadratic interpolation, where that holds.
fn parabola([a, b, c]: [f64; 3], [fa, fb, fc]: [f64; 3]) -> Option<f64> {
    let (xi, phi) = ((a - b) / (c - b), (fa - fb) / (fc - fb));
    let monotone = phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi;
    monotone.then(|| fa / (fb - fa) * fc / (fb - fc) + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb))
}

fn opposite(a: f64, b: f64) -> bool {
    (a > 0.0 && b < 0.0) || (a < 0.0 && b > 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_fixed_point_of_the_cosine() {
        // Dottie number, 0.739085133215 (mathematical constant).
        let x = root(0.0, 1.0, |x| Ok(x.cos() - x)).unwrap();
        assert!((x - 0.739_085_133_215).abs() < 1e-11);
    }

    #[test]
    fn both_ends_of_one_sign_are_an_error() {
        assert_eq!(root(0.0, 1.0, |x| Ok(x + 1.0)), Err(ModelError::NoBracket { low: 0.0, high: 1.0 }));
    }
}
