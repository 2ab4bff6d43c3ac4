//! Monotone cubic interpolation: between rising points the curve rises, it never overshoots.
//!
//! Slope at an inner point: 0 where the neighbouring secants differ in sign, otherwise the weighted harmonic mean
//! `(w1 + w2)/(w1/δ1 + w2/δ2)` with `w1 = 2h2 + h1`, `w2 = h2 + 2h1`; at the ends a shape-preserving three-point
//! slope. Valid between the points. Source: F.N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984).

use super::error::{ModelError, in_range};

/// A curve through `N` points; its slopes are computed once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Curve<const N: usize> {
    x: [f64; N],
    y: [f64; N],
    slope: [f64; N],
}

impl<const N: usize> Curve<N> {
    /// The curve through the points (`x`, `y`), two at least; `x` rises strictly.
    ///
    /// ```
    /// use propwright_engine::models::pchip::Curve;
    /// let curve = Curve::through([0.0, 1.0, 2.0, 3.0], [0.0, 0.0, 1.0, 1.0]);
    /// assert!((curve.at(1.5).unwrap() - 0.5).abs() < 1e-12);
    /// ```
    pub const fn through(x: [f64; N], y: [f64; N]) -> Self {
        let mut slope = [0.0; N];
        let mut i = 0;
        while i < N {
            slope[i] = slope_at(&x, &y, i);
            i += 1;
        }
        Self { x, y, slope }
    }

    /// Value at a place.
    ///
    /// ```
    /// use propwright_engine::models::pchip::Curve;
    /// // By hand: slopes 2/(1/1 + 1/2) = 4/3 at 1 and 2; a quarter of the way 0.84375·1 + 0.15625·3 + 0.09375·4/3 = 1.4375.
    /// let curve = Curve::through([0.0, 1.0, 2.0, 3.0], [0.0, 1.0, 3.0, 4.0]);
    /// assert!((curve.at(1.25).unwrap() - 1.4375).abs() < 1e-12);
    /// ```
    ///
    /// # Errors
    /// [`ModelError::OutOfRange`] outside of the first and last `x`.
    pub fn at(&self, place: f64) -> Result<f64, ModelError> {
        let Self { x, y, slope } = self;
        in_range("place in a table", place, x[0], x[N - 1])?;
        let i = x.partition_point(|&xi| xi <= place).clamp(1, N - 1) - 1;
        let h = x[i + 1] - x[i];
        let t = (place - x[i]) / h;
        let (t2, t3) = (t * t, t * t * t);
        let along = slope[i] * h * (t3 - 2.0 * t2 + t) + slope[i + 1] * h * (t3 - t2);
        Ok(y[i] * (2.0 * t3 - 3.0 * t2 + 1.0) + y[i + 1] * (3.0 * t2 - 2.0 * t3) + along)
    }
}

const fn secant(x: &[f64], y: &[f64], i: usize) -> f64 {
    (y[i + 1] - y[i]) / (x[i + 1] - x[i])
}

const fn slope_at(x: &[f64], y: &[f64], i: usize) -> f64 {
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

const fn end_slope(h0: f64, h1: f64, d0: f64, d1: f64) -> f64 {
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
        let curve = Curve::through(x, y);
        for (&xi, &yi) in x.iter().zip(&y) {
            assert!((curve.at(xi).unwrap() - yi).abs() < 1e-12);
        }
        assert!(curve.at(-0.01).is_err());
        assert!(curve.at(2.01).is_err());
        assert!(curve.at(f64::NAN).is_err());
    }

    #[test]
    fn two_points_make_a_line() {
        assert!((Curve::through([1.0, 3.0], [2.0, 6.0]).at(2.5).unwrap() - 5.0).abs() < 1e-12);
    }

    proptest! {
        #[test]
        fn rising_points_give_a_rising_curve(
            steps in prop::array::uniform8((0.01..1.0_f64, 0.0..1.0_f64)),
            p in 0.0..1.0_f64,
            q in 0.0..1.0_f64,
        ) {
            let mut point = (0.0, 0.0);
            let points = steps.map(|(dx, dy)| {
                point = (point.0 + dx, point.1 + dy);
                point
            });
            let x = points.map(|(x, _)| x);
            let curve = Curve::through(x, points.map(|(_, y)| y));
            let place = |share: f64| (x[0] + share * (x[7] - x[0])).min(x[7]);
            let (below, above) = (curve.at(place(p.min(q))).unwrap(), curve.at(place(p.max(q))).unwrap());
            prop_assert!(below <= above + 1e-12);
        }
    }
}
