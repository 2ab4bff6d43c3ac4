//! What a craft logged in the air says about the inputs of its models.
//!
//! A logged figure y against the model's f is one linear equation in the inputs' errors x, in units of their log spreads:
//! `ln(y/f) = a·x + e` with a the moves of [`crate::band::Propagated`] and e the log's own error s. With P the correlations before,
//! `K = P·a/(a·P·a + s²)`, `x̄ += K·(ln(y/f) − a·x̄)`, `P −= K·(P·a)ᵀ`. Any figure with moves b is then `f·exp(b·x̄)` with the
//! log variance `b·P·b`: never wider than before. Valid while the models are near power laws over the spreads. Source: R.E. Kalman,
//! "A New Approach to Linear Filtering and Prediction Problems", 1960; JCGM 100:2008 (GUM) for the spreads.

use crate::band::{Band, BandError, Contribution, Pair, Propagated, Uncertain};

/// What is believed of the inputs' errors, in units of their spreads.
#[derive(Debug, Clone, PartialEq)]
pub struct Belief {
    names: Vec<&'static str>,
    mean: Vec<f64>,
    correlation: Vec<Vec<f64>>,
}

impl Belief {
    /// What is believed before any log: each input as listed, a pair correlated.
    pub fn prior(names: Vec<&'static str>, pair: Option<Pair>) -> Self {
        let size = names.len();
        let one = |at: usize| (0..size).map(|other| f64::from(u8::from(other == at))).collect();
        let mut correlation: Vec<Vec<f64>> = (0..size).map(one).collect();
        if let Some(Pair { first, second }) = pair.filter(|pair| pair.first.max(pair.second) < size) {
            correlation[first][second] = Pair::CORRELATION;
            correlation[second][first] = Pair::CORRELATION;
        }
        Self { names, mean: vec![0.0; size], correlation }
    }

    /// Takes a logged figure in: `ratio` of the logged to the modelled one, its own log spread `noise`.
    ///
    /// ```
    /// use propwright_engine::{band::{Uncertain, first_order}, calibration::Belief};
    /// let inputs = [Uncertain { name: "capacity", nominal: 1.3, sigma: 0.04 }];
    /// let minutes = first_order(&inputs, None, |x| Ok::<f64, std::convert::Infallible>(x[0] / 0.2)).unwrap();
    /// let mut belief = Belief::prior(vec!["capacity"], None);
    /// belief.observe(&minutes, 0.9, 0.03);
    /// // Weights 0.04² : 0.03² between the log and the model.
    /// let now = belief.figure(&minutes).unwrap();
    /// assert!((now.band.nominal() / 6.5 - 0.9_f64.powf(0.64)).abs() < 1e-6);
    /// assert!(now.band.high() / now.band.low() < minutes.band.high() / minutes.band.low());
    /// ```
    pub fn observe(&mut self, modelled: &Propagated, ratio: f64, noise: f64) {
        let moves = self.aligned(modelled);
        let spread = self.times(&moves);
        let variance = dot(&moves, &spread) + noise * noise;
        if !(ratio > 0.0 && variance > 0.0) {
            return;
        }
        let left = ratio.ln() - dot(&moves, &self.mean);
        for (mean, along) in self.mean.iter_mut().zip(&spread) {
            *mean += along / variance * left;
        }
        for (row, along) in self.correlation.iter_mut().zip(&spread) {
            for (cell, across) in row.iter_mut().zip(&spread) {
                *cell -= along * across / variance;
            }
        }
    }

    /// A figure of the model as it stands after the logs. Shares of its spread tell by how much knowing one input alone would
    /// narrow it, scaled to a sum of one.
    ///
    /// # Errors
    /// [`BandError::Order`] when a figure is not finite.
    pub fn figure(&self, modelled: &Propagated) -> Result<Propagated, BandError> {
        let moved = dot(&self.aligned(modelled), &self.mean).exp();
        self.about(modelled, modelled.band.nominal() * moved)
    }

    /// A figure that was solved with the inputs as the logs have them ([`Self::factors`]): it stays, and only its band shrinks.
    ///
    /// # Errors
    /// As [`Self::figure`].
    pub fn narrowed(&self, solved: &Propagated) -> Result<Propagated, BandError> {
        self.about(solved, solved.band.nominal())
    }

    /// A figure after the logs, whether it was solved with the inputs as they have them or not.
    ///
    /// # Errors
    /// As [`Self::figure`].
    pub(crate) fn after(&self, found: &Propagated, as_logged: bool) -> Result<Propagated, BandError> {
        if as_logged { self.narrowed(found) } else { self.figure(found) }
    }

    fn about(&self, modelled: &Propagated, nominal: f64) -> Result<Propagated, BandError> {
        let moves = self.aligned(modelled);
        let spread = self.times(&moves);
        let variance = dot(&moves, &spread).max(0.0);
        let band = Band::from_log_sigma(nominal, variance.sqrt())?;
        let narrowing = |at: usize| {
            let own = self.correlation[at][at];
            if own > 0.0 { spread[at] * spread[at] / own } else { 0.0 }
        };
        let whole: f64 = (0..self.names.len()).map(narrowing).sum();
        let share = |at: usize| if whole > 0.0 { narrowing(at) / whole } else { 0.0 };
        let each = self.names.iter().enumerate().map(|(at, name)| Contribution { name, share: share(at) });
        let mut contributions: Vec<Contribution> = each.collect();
        contributions.sort_by(|one, other| other.share.total_cmp(&one.share));
        Ok(modelled.moved_to(band, contributions))
    }

    /// The factor that each input takes after the logs, in the order in which they are given.
    pub fn factors(&self, inputs: &[Uncertain]) -> Vec<f64> {
        let error = |name: &str| self.names.iter().position(|known| *known == name).map_or(0.0, |at| self.mean[at]);
        inputs.iter().map(|input| (input.sigma * error(input.name)).exp()).collect()
    }

    /// The moves of a figure in the order of the inputs; none for an input that it does not know.
    fn aligned(&self, figure: &Propagated) -> Vec<f64> {
        self.names.iter().map(|name| figure.move_of(name)).collect()
    }

    fn times(&self, moves: &[f64]) -> Vec<f64> {
        self.correlation.iter().map(|row| dot(row, moves)).collect()
    }
}

fn dot(one: &[f64], other: &[f64]) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::band::first_order;
    use proptest::prelude::*;
    use std::convert::Infallible;

    const PAIR: Option<Pair> = Some(Pair { first: 0, second: 1 });

    fn inputs() -> [Uncertain; 3] {
        let input = |name, sigma| Uncertain { name, nominal: 1.0, sigma };
        [input("propeller thrust", 0.16), input("propeller power", 0.18), input("take-off mass", 0.03)]
    }

    fn power(exponents: [f64; 3]) -> Propagated {
        let f = |x: &[f64]| Ok::<_, Infallible>(x.iter().zip(exponents).map(|(x, exponent)| x.powf(exponent)).product::<f64>());
        first_order(&inputs(), PAIR, f).unwrap()
    }

    fn belief() -> Belief {
        Belief::prior(inputs().map(|input| input.name).to_vec(), PAIR)
    }

    #[test]
    fn a_figure_of_the_logged_inputs_stays_and_narrows() {
        let figure = power([-0.5, 0.0, 0.5]);
        let mut belief = belief();
        belief.observe(&figure, 1.1, 0.02);
        let (moved, stayed) = (belief.figure(&figure).unwrap().band, belief.narrowed(&figure).unwrap().band);
        assert!((stayed.nominal() - figure.band.nominal()).abs() < 1e-12 && moved.nominal() > stayed.nominal());
        assert!((stayed.high() / stayed.low() - moved.high() / moved.low()).abs() < 1e-9);
    }

    #[test]
    fn without_a_log_nothing_changes() {
        let figure = power([1.0, -1.0, 1.5]);
        let now = belief().figure(&figure).unwrap();
        assert!((now.band.low() - figure.band.low()).abs() < 1e-12 && (now.band.high() - figure.band.high()).abs() < 1e-12);
    }

    #[test]
    fn a_sure_log_is_met() {
        let figure = power([-0.5, 0.0, 0.5]);
        let mut belief = belief();
        belief.observe(&figure, 1.1, 1e-6);
        let now = belief.figure(&figure).unwrap();
        assert!((now.band.nominal() - 1.1).abs() < 1e-6 && now.band.high() / now.band.low() < 1.0001);
        // 10 % more comes of the inputs by their spreads: the factors reproduce it.
        let [thrust, torque, mass] = belief.factors(&inputs())[..] else { panic!() };
        assert!((thrust.powf(-0.5) * mass.powf(0.5) - 1.1).abs() < 1e-6 && torque < 1.0);
        // Less thrust than modelled: the correlated power is less too.
        assert!(belief.figure(&power([0.0, 1.0, 0.0])).unwrap().band.nominal() < 1.0);
    }

    proptest! {
        #[test]
        fn a_log_never_widens_a_band(a in prop::array::uniform3(-2.0..2.0_f64), b in prop::array::uniform3(-2.0..2.0_f64),
            ratio in 0.6..1.6_f64, noise in 0.01..0.2_f64) {
            let mut belief = belief();
            belief.observe(&power(a), ratio, noise);
            let width = |figure: &Propagated| (figure.band.high() / figure.band.low()).ln();
            let figure = power(b);
            let now = belief.figure(&figure).unwrap();
            prop_assert!(width(&now) <= width(&figure) + 1e-9);
            let sum: f64 = now.contributions.iter().map(|one| one.share).sum();
            prop_assert!((sum - 1.0).abs() < 1e-9 && now.contributions.iter().all(|one| one.share >= 0.0));
        }
    }
}
