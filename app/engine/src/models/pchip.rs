//! Monotone cubic interpolation: between rising points the curve rises, it never overshoots.
//!
//! Slope at an inner point: 0 where the neighbouring secants differ in sign, otherwise the weighted harmonic mean
//! `(w1 + w2)/(w1/δ1 + w2/δ2)` with `w1 = 2h2 + h1`, `w2 = h2 + 2h1`; at the ends a shape-preserving three-point
//! slope. Source: F.N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984).

use super::error::{ModelError, in_range};

/// Value at `at` of the curve through the points (`x`, `y`); `x` rises strictly, both slices are equally long.
///
/// ```
/// use propwright_engine::models::pchip::interpolate;
/// let (x, y) = ([0.0, 1.0, 2.0, 3.0], [0.0, 0.0, 1.0, 1.0]);
/// assert!((interpolate(&x, &y, 1.5).unwrap() - 0.5).abs() < 1e-12);
/// ```
///
/// # Errors
/// [`ModelError::OutOfRange`] outside of the first and last `x`, or with fewer than two points.
pub fn interpolate(x: &[f64], y: &[f64], at: f64) -> Result<f64, ModelError> {
    let count = x.len().min(y.len());
    in_range("points of a table", count as f64, 2.0, f64::MAX)?;
    in_range("place in a table", at, x[0], x[count - 1])?;
    let i = x[..count].partition_point(|&xi| xi <= at).clamp(1, count - 1) - 1;
    let h = x[i + 1] - x[i];
    let t = (at - x[i]) / h;
    let (m0, m1) = (slope(&x[..count], y, i), slope(&x[..count], y, i + 1));
    let (t2, t3) = (t * t, t * t * t);
    Ok(y[i] * (2.0 * t3 - 3.0 * t2 + 1.0) + m0 * h * (t3 - 2.0 * t2 + t) + y[i + 1] * (3.0 * t2 - 2.0 * t3) + m1 * h * (t3 - t2))
}

fn secant(x: &[f64], y: &[f64], i: usize) -> f64 {
    (y[i + 1] - y[i]) / (x[i + 1] - x[i])
}

fn slope(x: &[f64], y: &[f64], i: usize) -> f64 {
    let last = x.len() - 1;
    if last == 1 {
        return secant(x, y, 0);
    }
    if i == 0 {
        return end_slope(x[1] - x[0], x[2] - x[1], secant(x, y, 0), secant(x, y, 1));
    }
    if i == last {
        let (h0, h1) = (x[last] - x[last - 1], x[last - 1] - x[last - 2]);
        return end_slope(h0, h1, secant(x, y, last - 1), secant(x, y, last - 2));
    }
    let (d1, d2) = (secant(x, y, i - 1), secant(x, y, i));
    if d1 * d2 <= 0.0 {
        return 0.0;
    }
    let (h1, h2) = (x[i] - x[i - 1], x[i + 1] - x[i]);
    let (w1, w2) = (2.0 * h2 + h1, h2 + 2.0 * h1);
    (w1 + w2) / (w1 / d1 + w2 / d2)
}

fn end_slope(h0: f64, h1: f64, d0: f64, d1: f64) -> f64 {
    let m = ((2.0 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
    if m * d0 <= 0.0 {
        0.0
    } else if d0 * d1 <= 0.0 && m.abs() > 3.0 * d0.abs() {
        3.0 * d0
    } else {
        m
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn meets_its_points_and_refuses_the_outside() {
        let (x, y) = ([0.0, 0.5, 2.0], [1.0, 4.0, 5.0]);
        for (&xi, &yi) in x.iter().zip(&y) {
            assert!((interpolate(&x, &y, xi).unwrap() - yi).abs() < 1e-12);
        }
        assert!(interpolate(&x, &y, -0.01).is_err());
        assert!(interpolate(&x, &y, 2.01).is_err());
        assert!(interpolate(&x, &y, f64::NAN).is_err());
    }

    proptest! {
        #[test]
        fn rising_points_give_a_rising_curve(
            steps in prop::collection::vec((0.01..1.0_f64, 0.0..1.0_f64), 3..12),
            p in 0.0..1.0_f64,
            q in 0.0..1.0_f64,
        ) {
            let mut point = (0.0, 0.0);
            let (x, y): (Vec<f64>, Vec<f64>) = steps
                .iter()
                .map(|(dx, dy)| {
                    point = (point.0 + dx, point.1 + dy);
                    point
                })
                .unzip();
            let place = |share: f64| x[0] + share * (x[x.len() - 1] - x[0]);
            let (low, high) = (p.min(q), p.max(q));
            let below = interpolate(&x, &y, place(low).min(x[x.len() - 1])).unwrap();
            let above = interpolate(&x, &y, place(high).min(x[x.len() - 1])).unwrap();
            prop_assert!(below <= above + 1e-12);
        }
    }
}
