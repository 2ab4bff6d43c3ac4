//! A figure with its band in whole steps of a unit: what rules compare.

use propwright_schema::{
    quantity::{KmH, Unit, UnitInfo},
    value::Value,
};

/// A band of steps, `low <= nominal <= high`; a published figure is a band of no width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// P5.
    pub low: i64,
    /// The figure itself.
    pub nominal: i64,
    /// P95.
    pub high: i64,
    /// The unit in which it is shown; its dimension and step count in comparisons.
    pub unit: &'static UnitInfo,
}

/// Counts have no unit.
pub const COUNT: UnitInfo = UnitInfo { symbol: "", suffix: "", dimension: "count", steps: 1, si_per_step: 1.0 };

/// Plain ratios, to a thousandth.
pub const RATIO: UnitInfo = UnitInfo { symbol: "", suffix: "", dimension: "ratio", steps: 1000, si_per_step: 1e-3 };

/// Duties, shares of full output: written as ratios, said in per cent (see [`Interval::said`]).
pub const DUTY: UnitInfo = UnitInfo { symbol: "", suffix: "", dimension: "duty", steps: 1000, si_per_step: 1e-3 };

/// The unit in which duties are said.
const PER_CENT: UnitInfo = UnitInfo { symbol: "%", suffix: "", dimension: "duty", steps: 10, si_per_step: 1e-3 };

/// Speeds of craft in km/h, to a thousandth; the unit in which pilots speak.
pub const KMH: UnitInfo = KmH::INFO;

/// Rises of temperature, to a thousandth of a kelvin.
pub const KELVIN: UnitInfo =
    UnitInfo { symbol: "K", suffix: "_k", dimension: "temperature rise", steps: 1000, si_per_step: 1e-3 };

/// Air densities, to a ten-thousandth.
pub const DENSITY: UnitInfo =
    UnitInfo { symbol: "kg/m³", suffix: "_kg_m3", dimension: "density", steps: 10_000, si_per_step: 1e-4 };

/// Forces, to a thousandth.
pub const NEWTON: UnitInfo = UnitInfo { symbol: "N", suffix: "_n", dimension: "force", steps: 1000, si_per_step: 1e-3 };

impl Interval {
    /// A figure without a band.
    pub const fn exact(steps: i64, unit: &'static UnitInfo) -> Self {
        Self { low: steps, nominal: steps, high: steps, unit }
    }

    /// The same figure in the unit in which it is said: duties in per cent, all others in their own.
    ///
    /// ```
    /// use propwright_engine::interval::{Interval, DUTY, RATIO};
    /// let duty = Interval::exact(309, &DUTY);
    /// assert_eq!(duty.said().decimals(), [30.9; 3]);
    /// assert!((duty.said().si() - duty.si()).abs() < 1e-12);
    /// let weights = Interval::exact(2120, &RATIO);
    /// assert_eq!(weights.said(), weights);
    /// ```
    #[must_use]
    pub fn said(self) -> Self {
        self.shown_in(&PER_CENT)
    }

    /// A model's result in SI units, rounded once and outward to whole steps.
    ///
    /// ```
    /// use propwright_engine::interval::Interval;
    /// use propwright_schema::quantity::{A, Unit};
    /// let amps = Interval::outward(33.4001, 34.0, 34.5999, &A::INFO); // steps are milliamperes
    /// assert_eq!((amps.low, amps.nominal, amps.high), (33_400, 34_000, 34_600));
    /// ```
    #[expect(clippy::cast_possible_truncation, reason = "a cast from f64 saturates, and models return plausible figures")]
    pub fn outward(low: f64, nominal: f64, high: f64, unit: &'static UnitInfo) -> Self {
        // A hair of floating-point noise must not push an exact figure to the next step.
        let step = |figure: f64, round: fn(f64) -> f64| {
            let exact = figure / unit.si_per_step;
            let near = exact.round();
            (if (exact - near).abs() < 1e-6 { near } else { round(exact) }) as i64
        };
        let nominal = step(nominal, f64::round);
        Self { low: step(low, f64::floor).min(nominal), nominal, high: step(high, f64::ceil).max(nominal), unit }
    }

    /// A figure in SI units without a band, rounded to the nearest step.
    #[expect(clippy::cast_possible_truncation, reason = "a cast from f64 saturates, and records hold plausible figures")]
    pub fn nearest(si: f64, unit: &'static UnitInfo) -> Self {
        Self::exact((si / unit.si_per_step).round() as i64, unit)
    }

    /// The interval of a value that is a number or a count.
    pub const fn of(value: &Value) -> Option<Self> {
        match value {
            Value::Number { steps, unit } => Some(Self::exact(*steps, unit)),
            Value::Count(count) => Some(Self::exact(*count, &COUNT)),
            _ => None,
        }
    }

    /// Does it have a width?
    pub const fn is_exact(&self) -> bool {
        self.low == self.high
    }

    /// The nominal in SI units.
    pub fn si(&self) -> f64 {
        self.nominal as f64 * self.unit.si_per_step
    }

    /// Low, nominal and high in the unit shown.
    pub fn decimals(&self) -> [f64; 3] {
        [self.low, self.nominal, self.high].map(|steps| self.unit.decimal(steps))
    }

    /// The same figure shown in another unit of its dimension.
    #[must_use]
    pub fn shown_in(self, unit: &'static UnitInfo) -> Self {
        if unit.dimension == self.unit.dimension { Self { unit, ..self } } else { self }
    }

    /// Each end multiplied by a positive share, rounded outward.
    #[must_use]
    pub fn times(self, share: f64) -> Self {
        let [low, nominal, high] = [self.low, self.nominal, self.high].map(|steps| steps as f64 * self.unit.si_per_step * share);
        Self::outward(low, nominal, high, self.unit)
    }

    /// The sum with another figure of the same dimension, at worst and at best.
    #[must_use]
    pub const fn plus(self, other: Self) -> Self {
        Self {
            low: self.low.saturating_add(other.low),
            nominal: self.nominal.saturating_add(other.nominal),
            high: self.high.saturating_add(other.high),
            unit: self.unit,
        }
    }

    /// What is left when another figure of the same dimension is taken away, at worst and at best.
    #[must_use]
    pub const fn minus(self, other: Self) -> Self {
        Self {
            low: self.low.saturating_sub(other.high),
            nominal: self.nominal.saturating_sub(other.nominal),
            high: self.high.saturating_sub(other.low),
            unit: self.unit,
        }
    }

    /// The figure taken `count` times.
    #[must_use]
    pub const fn repeated(self, count: u32) -> Self {
        let count = count as i64;
        Self {
            low: self.low.saturating_mul(count),
            nominal: self.nominal.saturating_mul(count),
            high: self.high.saturating_mul(count),
            unit: self.unit,
        }
    }

    /// The one with the larger nominal.
    #[must_use]
    pub const fn more(self, other: Self) -> Self {
        if other.nominal > self.nominal { other } else { self }
    }

    /// The one with the smaller nominal.
    #[must_use]
    pub const fn less(self, other: Self) -> Self {
        if other.nominal < self.nominal { other } else { self }
    }
}
