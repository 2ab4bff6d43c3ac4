//! Root of a continuous function between two ends of opposite sign.
//!
//! Ridders' rule: `x = m + (m − a)·sign(f(a) − f(b))·f(m)/√(f(m)² − f(a)·f(b))`, m the middle of a and b; the
//! bracket halves at least with each step, so it cannot run away. Source: C.F.J. Ridders, "A new algorithm for
//! computing a single root of a real continuous function", IEEE Trans. Circuits and Systems 26 (1979).

use super::error::ModelError;

/// Steps after which the bracket is narrower than any figure needs.
const STEPS: usize = 60;

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
    let (mut a, mut b) = (low, high);
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
    for _ in 0..STEPS {
        let m = f64::midpoint(a, b);
        let fm = f(m)?;
        let x = m + (m - a) * (fa - fb).signum() * fm / (fm * fm - fa * fb).sqrt();
        let fx = f(x)?;
        if fx == 0.0 {
            return Ok(x);
        }
        if opposite(fm, fx) {
            (a, fa, b, fb) = (m, fm, x, fx);
        } else if opposite(fa, fx) {
            (b, fb) = (x, fx);
        } else {
            (a, fa) = (x, fx);
        }
        if (b - a).abs() <= 1e-12 * a.abs().max(b.abs()) {
            break;
        }
    }
    Ok(if fa.abs() < fb.abs() { a } else { b })
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
