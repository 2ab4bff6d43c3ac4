//! What can go wrong in a model: a figure outside of its declared range, or a state that cannot exist.

/// Why a model gives no figure.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum ModelError {
    /// An input lies outside of the range for which the model is declared (or is not a number).
    #[error("{quantity} is {value}, outside of {low} to {high}")]
    OutOfRange {
        /// The input's name with its unit.
        quantity: &'static str,
        /// What was given, in the unit of the name.
        value: f64,
        /// Lowest value that the model accepts.
        low: f64,
        /// Highest value that the model accepts.
        high: f64,
    },
    /// The inputs are sound, but no such state exists: a finding, not a fault.
    #[error(transparent)]
    Infeasible(#[from] Infeasible),
    /// A bracketed solve found no change of sign between its ends.
    #[error("no solution between {low} and {high}")]
    NoBracket {
        /// Lower end of the bracket.
        low: f64,
        /// Upper end of the bracket.
        high: f64,
    },
}

/// A state that the parts cannot reach.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum Infeasible {
    /// The load asks for more than the pack can give at any current, V0²/(4R).
    #[error("{asked_w:.0} W asked, the pack gives {limit_w:.0} W at most")]
    PackPower {
        /// Power asked of the pack, W.
        asked_w: f64,
        /// The most that the pack can give, W.
        limit_w: f64,
    },
    /// The speed controller would need a duty above its limit.
    #[error("duty {needed:.2} needed, {limit:.2} allowed")]
    Duty {
        /// Duty that the state needs, 1 = full.
        needed: f64,
        /// Highest duty allowed, 0 to 1.
        limit: f64,
    },
    /// The thrust is not reached below the tip speed at which the model ends.
    #[error("{asked_n:.2} N asked of a rotor, {limit_n:.2} N at the highest tip speed of the model")]
    Thrust {
        /// Thrust asked of one rotor, N.
        asked_n: f64,
        /// Thrust at the highest tip speed of the model, N.
        limit_n: f64,
    },
    /// The motors would turn the tips faster than the models reach.
    #[error("tips above Mach {limit_mach:.2}, where the propeller model ends")]
    TipSpeed {
        /// Tip Mach number at which the models end.
        limit_mach: f64,
    },
    /// The cells are below their loaded cut-off from the first second.
    #[error("{cell_v:.2} V a cell under load on the full pack, cut-off {cut_off_v:.2} V")]
    BelowCutOff {
        /// Loaded cell voltage at the start, V.
        cell_v: f64,
        /// Loaded cut-off, V a cell.
        cut_off_v: f64,
    },
    /// A measured point would need a figure of merit of 1 or more: no propeller does that.
    #[error("figure of merit {figure_of_merit:.2}, which no propeller reaches")]
    FigureOfMerit {
        /// The figure of merit that the point amounts to.
        figure_of_merit: f64,
    },
}

/// Returns `value` when it lies in `low..=high`.
///
/// # Errors
/// [`ModelError::OutOfRange`] when it does not, or is not a number.
pub(crate) fn in_range(quantity: &'static str, value: f64, low: f64, high: f64) -> Result<f64, ModelError> {
    if (low..=high).contains(&value) { Ok(value) } else { Err(ModelError::OutOfRange { quantity, value, low, high }) }
}
