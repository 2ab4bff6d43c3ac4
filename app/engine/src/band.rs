//! A figure with its spread: low (P5), nominal, high (P95).
//!
//! First order in log space: `ln f` moves by `gᵢ = ∂ln f/∂ln xᵢ` times the log spread sᵢ of each input, so
//! `s² = Σ gᵢ²·sᵢ²` (plus `2·ρ·gₐsₐ·g_b·s_b` for a correlated pair) and the band is `nominal·exp(±1.645·s)`. Valid while
//! f is near a power law over the spread: it matched sampling within 3 points at P5 and 7 at P95, but not for
//! full-throttle time near the cut-off. Source: law of propagation of uncertainty, JCGM 100:2008 (GUM), section 5.

use serde::Serialize;

/// Standard deviations from the middle to P5 and P95 of a normal distribution.
const P95: f64 = 1.645;
/// Log step of the numeric derivative.
const STEP: f64 = 0.01;

/// A figure between its fifth and ninety-fifth percentile; `low ≤ nominal ≤ high`, all finite.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Band {
    low: f64,
    nominal: f64,
    high: f64,
}

/// Why a band cannot be.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum BandError {
    /// The figures are not in order or not finite.
    #[error("{low} ≤ {nominal} ≤ {high} does not hold")]
    Order {
        /// P5 that was given.
        low: f64,
        /// Nominal value that was given.
        nominal: f64,
        /// P95 that was given.
        high: f64,
    },
}

impl Band {
    /// A band by its three figures.
    ///
    /// # Errors
    /// [`BandError::Order`] when they are not in order or not finite.
    pub fn new(low: f64, nominal: f64, high: f64) -> Result<Self, BandError> {
        if low <= nominal && nominal <= high && low.is_finite() && high.is_finite() {
            Ok(Self { low, nominal, high })
        } else {
            Err(BandError::Order { low, nominal, high })
        }
    }

    /// A figure without spread.
    ///
    /// # Errors
    /// [`BandError::Order`] when it is not finite.
    pub fn exact(value: f64) -> Result<Self, BandError> {
        Self::new(value, value, value)
    }

    /// A band from a log spread, `nominal·exp(±1.645·sigma)`; the spread's sign does not matter.
    ///
    /// ```
    /// use propwright_engine::band::Band;
    /// let mass = Band::from_log_sigma(700.0, 0.03).unwrap();
    /// assert!((mass.low() - 666.3).abs() < 0.05 && (mass.high() - 735.4).abs() < 0.05);
    /// ```
    ///
    /// # Errors
    /// [`BandError::Order`] when a figure is not finite.
    pub fn from_log_sigma(nominal: f64, sigma: f64) -> Result<Self, BandError> {
        let factor = (P95 * sigma.abs()).exp();
        let (a, b) = (nominal / factor, nominal * factor);
        Self::new(a.min(b), nominal, a.max(b))
    }

    /// Fifth percentile.
    pub fn low(&self) -> f64 {
        self.low
    }

    /// Nominal value.
    pub fn nominal(&self) -> f64 {
        self.nominal
    }

    /// Ninety-fifth percentile.
    pub fn high(&self) -> f64 {
        self.high
    }

    /// The band times a factor that is known exactly; a negative one turns it round.
    ///
    /// # Errors
    /// [`BandError::Order`] when a figure is not finite.
    pub fn scaled(&self, factor: f64) -> Result<Self, BandError> {
        let (a, b) = (self.low * factor, self.high * factor);
        Self::new(a.min(b), self.nominal * factor, a.max(b))
    }

    /// Sum of two bands that go up and down together, such as two figures of one scale; the widest that a sum can be.
    ///
    /// # Errors
    /// [`BandError::Order`] when a figure is not finite.
    pub fn plus_together(&self, other: &Self) -> Result<Self, BandError> {
        Self::new(self.low + other.low, self.nominal + other.nominal, self.high + other.high)
    }

    /// Sum of two independent bands: their half-widths add in quadrature on each side.
    ///
    /// # Errors
    /// [`BandError::Order`] when a figure is not finite.
    pub fn plus_independent(&self, other: &Self) -> Result<Self, BandError> {
        let nominal = self.nominal + other.nominal;
        let below = (self.nominal - self.low).hypot(other.nominal - other.low);
        let above = (self.high - self.nominal).hypot(other.high - other.nominal);
        Self::new(nominal - below, nominal, nominal + above)
    }
}

/// An input of a model with its log spread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uncertain {
    /// Name, as it is shown.
    pub name: &'static str,
    /// Nominal value, in the model's unit.
    pub nominal: f64,
    /// One standard deviation of its logarithm: 0.05 is about 5 %.
    pub sigma: f64,
}

/// Two inputs that go together, such as the thrust and power coefficient of a propeller known by its size alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pair {
    /// Place of the one in the inputs.
    pub first: usize,
    /// Place of the other.
    pub second: usize,
}

impl Pair {
    /// Correlation of CT and CP of a propeller known by its dimensions.
    pub const CORRELATION: f64 = 0.8;
}

/// What an input adds to the spread.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Contribution {
    /// The input's name.
    pub name: &'static str,
    /// Its share of the variance, 0 to 1. What a correlated pair adds is split between the two in proportion to `|g·s|`.
    pub share: f64,
}

/// A result with its spread and where that comes from.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Propagated {
    /// The result.
    pub band: Band,
    /// Shares of the variance, greatest first.
    pub contributions: Vec<Contribution>,
    /// By how much the logarithm moves with one standard deviation of each input, in the order of the inputs.
    #[serde(skip)]
    moves: Vec<(&'static str, f64)>,
    #[serde(skip)]
    pair: Option<Pair>,
}

impl Propagated {
    /// The change from this result to another one of the same model.
    ///
    /// `correlation` tells of each input how far its error is the same in both: 1 for a part that stays, 0 for one that is
    /// exchanged. In log space the variance of the change is `C(1,1) + C(2,2) - 2·C(1,2)`, where `C(1,2)` weighs each
    /// product of moves with that correlation; P5 and P95 are taken of the ratio of the two results.
    ///
    /// ```
    /// use propwright_engine::band::{Uncertain, first_order};
    /// let inputs = [Uncertain { name: "capacity", nominal: 1.3, sigma: 0.05 }];
    /// let minutes = |watts: f64| first_order(&inputs, None, |x| Ok::<f64, std::convert::Infallible>(x[0] / watts)).unwrap();
    /// let (before, after) = (minutes(0.20), minutes(0.19));
    /// let same_pack = before.change_to(&after, |_| 1.0).unwrap();
    /// assert!(same_pack.low() > 0.0, "the same pack's error is no reason to doubt the gain");
    /// let other_pack = before.change_to(&after, |_| 0.0).unwrap();
    /// assert!(other_pack.low() < 0.0 && other_pack.high() > 0.0);
    /// ```
    ///
    /// # Errors
    /// [`BandError::Order`] when a figure is not finite.
    pub fn change_to(&self, after: &Self, correlation: impl Fn(&str) -> f64) -> Result<Band, BandError> {
        let own = |of: &Self| of.covariance(of, |_| 1.0);
        let variance = own(self) + own(after) - 2.0 * self.covariance(after, correlation);
        let (was, is) = (self.band.nominal, after.band.nominal);
        let ratio = Band::from_log_sigma(is / was, variance.max(0.0).sqrt())?;
        let by = is - was;
        Band::new(by.min(was * (ratio.low - 1.0)), by, by.max(was * (ratio.high - 1.0)))
    }

    /// By how much the logarithm moves with one standard deviation of an input; nothing for an input that it does not have.
    pub fn move_of(&self, input: &str) -> f64 {
        self.moves.iter().find(|(name, _)| *name == input).map_or(0.0, |(_, moved)| *moved)
    }

    /// The names of its inputs in their order.
    pub fn inputs(&self) -> impl Iterator<Item = &'static str> {
        self.moves.iter().map(|(name, _)| *name)
    }

    /// The same figure after a calibration: another band, and other shares of what is left of it.
    pub(crate) fn moved_to(&self, band: Band, contributions: Vec<Contribution>) -> Self {
        Self { band, contributions, ..self.clone() }
    }

    fn covariance(&self, other: &Self, correlation: impl Fn(&str) -> f64) -> f64 {
        let each = self.moves.iter().zip(&other.moves);
        let plain: f64 = each.map(|((name, here), (_, there))| correlation(name) * here * there).sum();
        let Some(Pair { first, second }) = self.pair else { return plain };
        let at = |of: &Self, place: usize| of.moves.get(place).map_or(0.0, |(_, moved)| *moved);
        let shared = self.moves.get(first).map_or(0.0, |(name, _)| correlation(name));
        let crossed = at(self, first) * at(other, second) + at(self, second) * at(other, first);
        plain + Pair::CORRELATION * shared * crossed
    }
}

/// Why a spread cannot be propagated.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum PropagationError<E> {
    /// The model gives nothing at the nominal inputs, or on both sides of an input.
    #[error(transparent)]
    Model(E),
    /// The result is not a positive number, so it has no logarithm.
    #[error("{0} has no logarithm")]
    NotPositive(f64),
    /// The spread is beyond all numbers.
    #[error(transparent)]
    Band(BandError),
}

/// Spread of `f` at the nominal inputs, to first order in log space; where `f` fails on one side of an input the other
/// side alone gives the slope.
///
/// ```
/// use propwright_engine::band::{Uncertain, first_order};
/// let inputs = [
///     Uncertain { name: "capacity", nominal: 1.3, sigma: 0.03 },
///     Uncertain { name: "current", nominal: 13.0, sigma: 0.04 },
/// ];
/// let hours = first_order(&inputs, None, |x| Ok::<f64, std::convert::Infallible>(x[0] / x[1])).unwrap();
/// assert!((hours.band.high() / hours.band.nominal() - (1.645_f64 * 0.05).exp()).abs() < 1e-6);
/// assert_eq!(hours.contributions[0].name, "current");
/// assert!((hours.contributions[0].share - 0.64).abs() < 1e-6);
/// ```
///
/// # Errors
/// [`PropagationError`], as its variants say.
pub fn first_order<E>(
    inputs: &[Uncertain],
    pair: Option<Pair>,
    f: impl Fn(&[f64]) -> Result<f64, E>,
) -> Result<Propagated, PropagationError<E>> {
    let [one] = first_order_each(inputs, pair, |x| f(x).map(|y| [y]))?;
    Ok(one)
}

/// Spreads of several results of one model, as [`first_order`] for each, with each state of the inputs solved once.
///
/// # Errors
/// [`PropagationError`], as its variants say, when any of the results has no spread.
pub fn first_order_each<const N: usize, E>(
    inputs: &[Uncertain],
    pair: Option<Pair>,
    f: impl Fn(&[f64]) -> Result<[f64; N], E>,
) -> Result<[Propagated; N], PropagationError<E>> {
    let at: Vec<f64> = inputs.iter().map(|input| input.nominal).collect();
    let nominal = f(&at).map_err(PropagationError::Model)?;
    let centre = logarithms(nominal)?;
    let mut moves = Vec::with_capacity(inputs.len());
    for (i, input) in inputs.iter().enumerate() {
        let slopes = if input.sigma == 0.0 { [0.0; N] } else { log_slopes(&at, i, &centre, &f)? };
        moves.push(slopes.map(|slope| slope * input.sigma));
    }
    let mut each = Vec::with_capacity(N);
    for (result, value) in nominal.into_iter().enumerate() {
        let alone: Vec<f64> = moves.iter().map(|moved| moved[result]).collect();
        each.push(spread(inputs, pair, value, &alone).map_err(PropagationError::Band)?);
    }
    each.try_into().map_err(|_| PropagationError::NotPositive(f64::NAN))
}

fn spread(inputs: &[Uncertain], pair: Option<Pair>, nominal: f64, moves: &[f64]) -> Result<Propagated, BandError> {
    let mut variances: Vec<f64> = moves.iter().map(|m| m * m).collect();
    if let Some(Pair { first, second }) = pair
        && let (Some(&a), Some(&b)) = (moves.get(first), moves.get(second))
        && first != second
        && a.abs() + b.abs() > 0.0
    {
        let joint = a * a + b * b + 2.0 * Pair::CORRELATION * a * b;
        variances[first] = joint * a.abs() / (a.abs() + b.abs());
        variances[second] = joint * b.abs() / (a.abs() + b.abs());
    }
    let variance: f64 = variances.iter().sum();
    let share = |v: &f64| if variance > 0.0 { v / variance } else { 0.0 };
    let each = inputs.iter().zip(&variances).map(|(input, v)| Contribution { name: input.name, share: share(v) });
    let mut contributions: Vec<Contribution> = each.collect();
    contributions.sort_by(|a, b| b.share.total_cmp(&a.share));
    let moves = inputs.iter().map(|input| input.name).zip(moves.iter().copied()).collect();
    Ok(Propagated { band: Band::from_log_sigma(nominal, variance.sqrt())?, contributions, moves, pair })
}

fn logarithms<const N: usize, E>(values: [f64; N]) -> Result<[f64; N], PropagationError<E>> {
    match values.iter().find(|value| **value <= 0.0 || !value.is_finite()) {
        Some(value) => Err(PropagationError::NotPositive(*value)),
        None => Ok(values.map(f64::ln)),
    }
}

fn log_slopes<const N: usize, E>(
    at: &[f64],
    i: usize,
    centre: &[f64; N],
    f: &impl Fn(&[f64]) -> Result<[f64; N], E>,
) -> Result<[f64; N], PropagationError<E>> {
    let moved = |step: f64| {
        let mut inputs = at.to_vec();
        inputs[i] *= step.exp();
        f(&inputs).map_err(PropagationError::Model).and_then(logarithms)
    };
    let slopes = |below: &[f64; N], above: &[f64; N], run: f64| std::array::from_fn(|k| (above[k] - below[k]) / run);
    match (moved(-STEP), moved(STEP)) {
        (Ok(below), Ok(above)) => Ok(slopes(&below, &above, 2.0 * STEP)),
        (Ok(below), Err(_)) => Ok(slopes(&below, centre, STEP)),
        (Err(_), Ok(above)) => Ok(slopes(centre, &above, STEP)),
        (Err(error), Err(_)) => Err(error),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use std::convert::Infallible;

    fn input(name: &'static str, nominal: f64, sigma: f64) -> Uncertain {
        Uncertain { name, nominal, sigma }
    }

    #[test]
    fn a_power_law_is_met_exactly() {
        // GUM 5.1.6: for a product of powers the relative variances add with the squared exponents: 1.5²·4² + 2²·3² = 8.49 %².
        let inputs = [input("thrust", 7.0, 0.04), input("diameter", 0.127, 0.03)];
        let out = first_order(&inputs, None, |x| Ok::<_, Infallible>(x[0].powf(1.5) / (x[1] * x[1]))).unwrap();
        let sigma = (out.band.high() / out.band.nominal()).ln() / 1.645;
        assert!((sigma - (0.06_f64.powi(2) + 0.06_f64.powi(2)).sqrt()).abs() < 1e-9);
        assert!((out.contributions[0].share - 0.5).abs() < 1e-6);
    }

    #[test]
    fn a_pair_that_cancels_is_narrower_than_one_alone() {
        let inputs = [input("CT", 0.1, 0.16), input("CP", 0.05, 0.18)];
        let ratio = |pair| {
            let out = first_order(&inputs, pair, |x| Ok::<_, Infallible>(x[0] / x[1])).unwrap();
            (out.band.high() / out.band.nominal()).ln() / 1.645
        };
        assert!((ratio(None) - 0.058_f64.sqrt()).abs() < 1e-9);
        // 0.16² + 0.18² − 2·0.8·0.16·0.18 = 0.01192.
        assert!((ratio(Some(Pair { first: 0, second: 1 })) - 0.01192_f64.sqrt()).abs() < 1e-9);
    }

    #[test]
    fn a_change_counts_only_what_differs() {
        let inputs = [input("CT", 1.0, 0.16), input("CP", 1.0, 0.18), input("mass", 1.0, 0.03)];
        let pair = Some(Pair { first: 0, second: 1 });
        let at = |scale: f64| first_order(&inputs, pair, |x| Ok::<_, Infallible>(scale * x[0] / x[1] / x[2])).unwrap();
        let (before, after) = (at(10.0), at(11.0));
        let sigma = |change: Band| ((change.high() / 10.0 + 1.0) / 1.1).ln() / 1.645;
        assert!(sigma(before.change_to(&after, |_| 1.0).unwrap()).abs() < 1e-9);
        // Another propeller: 2·(0.16² + 0.18² - 2·0.8·0.16·0.18) = 0.02384; the mass is the same.
        let other = before.change_to(&after, |name| if name == "mass" { 1.0 } else { 0.0 }).unwrap();
        assert!((sigma(other) - 0.023_84_f64.sqrt()).abs() < 1e-9);
        // Half of the error of the mass in common: 2·0.03²·(1 - 0.5).
        let heavier = before.change_to(&after, |name| if name == "mass" { 0.5 } else { 1.0 }).unwrap();
        assert!((sigma(heavier) - 0.03).abs() < 1e-9);
        assert!((other.nominal() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn one_failing_side_leaves_the_other() {
        let inputs = [input("x", 1.0, 0.1)];
        let capped = |x: &[f64]| {
            if x[0] > 1.0 { Err("too much") } else { Ok(x[0]) }
        };
        let out = first_order(&inputs, None, capped).unwrap();
        assert!((out.band.high() - 0.1645_f64.exp()).abs() < 1e-9);
        let never = |_: &[f64]| Err::<f64, _>("never");
        assert_eq!(first_order(&inputs, None, never), Err(PropagationError::Model("never")));
    }

    #[test]
    fn order_and_finiteness_are_held() {
        assert!(Band::new(1.0, 0.9, 2.0).is_err());
        assert!(Band::new(1.0, f64::NAN, 2.0).is_err());
        assert!(Band::exact(f64::INFINITY).is_err());
        let turned = Band::new(1.0, 2.0, 4.0).unwrap().scaled(-1.0).unwrap();
        assert_eq!(turned, Band::new(-4.0, -2.0, -1.0).unwrap());
        assert!(first_order(&[input("x", 1.0, 0.1)], None, |x| Ok::<_, Infallible>(-x[0])).is_err());
    }

    #[test]
    fn independent_sums_are_narrower_than_common_ones() {
        let (a, b) = (Band::new(7.0, 10.0, 13.0).unwrap(), Band::new(16.0, 20.0, 24.0).unwrap());
        assert_eq!(a.plus_together(&b).unwrap(), Band::new(23.0, 30.0, 37.0).unwrap());
        assert_eq!(a.plus_independent(&b).unwrap(), Band::new(25.0, 30.0, 35.0).unwrap());
    }

    proptest! {
        #[test]
        fn a_band_holds_its_nominal(nominal in -1e6..1e6_f64, sigma in -1.0..1.0_f64, factor in -10.0..10.0_f64) {
            let band = Band::from_log_sigma(nominal, sigma).unwrap();
            for band in [band, band.scaled(factor).unwrap(), band.plus_independent(&band).unwrap()] {
                prop_assert!(band.low() <= band.nominal() && band.nominal() <= band.high());
            }
        }

        #[test]
        fn shares_add_to_one(s in prop::collection::vec(0.01..0.3_f64, 3), exponent in -2.0..2.0_f64) {
            let inputs = [input("a", 1.0, s[0]), input("b", 2.0, s[1]), input("c", 3.0, s[2])];
            let pair = Some(Pair { first: 0, second: 1 });
            let out = first_order(&inputs, pair, |x| Ok::<_, Infallible>(x[0] * x[1].powf(exponent) * x[2])).unwrap();
            let sum: f64 = out.contributions.iter().map(|c| c.share).sum();
            prop_assert!((sum - 1.0).abs() < 1e-9);
            prop_assert!(out.contributions.iter().all(|c| c.share >= 0.0));
        }
    }
}
