//! The one place where two figures with bands become a verdict.
//!
//! Low of what is asked above high of what is there: mismatch. Any overlap: tight. Otherwise fits, or tight when the nominal
//! leaves less than the policy's margin.

use crate::{
    finding::{Datum, Status, Verdict},
    interval::Interval,
    policy::{Limit, Policy},
};

/// Judges what is asked against what is there, both in one dimension.
///
/// `tight_from` is the figure (of what is there) beyond which a nominal counts as tight although it still fits.
pub fn judge(required: Interval, available: Interval, tight_from: Interval) -> Verdict {
    let status = if required.unit.dimension != available.unit.dimension {
        Status::Unstated
    } else if required.low > available.high {
        Status::Mismatch
    } else if required.high > available.low || required.nominal > tight_from.nominal {
        Status::Tight
    } else {
        Status::Fits
    };
    let (asked, there) = (required.nominal as f64, available.nominal as f64);
    let margin = (asked != 0.0).then(|| (there - asked) / asked.abs());
    Verdict { status, required: Some(Datum::Figure(required)), available: Some(Datum::Figure(available)), margin }
}

/// Judges what is asked against what is there without a margin.
pub fn enough(required: Interval, available: Interval) -> Verdict {
    judge(required, available, available)
}

/// Judges what is asked against shares of what is there: tight beyond the limit's tight share, a mismatch beyond the other.
pub fn within_share(required: Interval, available: Interval, limit: &Limit, policy: &Policy) -> Verdict {
    let (limit, _) = policy.limit(limit);
    let most = limit.mismatch.or(limit.tight).map_or(available, |share| available.times(share));
    let tight = limit.tight.map_or(most, |share| available.times(share));
    let forbidden = limit.mismatch.is_some();
    let found = judge(required, most, tight);
    if found.status == Status::Mismatch && !forbidden { Verdict { status: Status::Tight, ..found } } else { found }
}

/// Judges a figure that must not fall below a threshold.
pub fn at_least(figure: Interval, limit: &Limit, policy: &Policy) -> Verdict {
    let status = match (policy.mismatch(limit), policy.tight(limit)) {
        (Some(least), _) if least.low > figure.high => Status::Mismatch,
        (Some(least), _) if least.high > figure.low => Status::Tight,
        (_, Some(tight)) if tight.nominal > figure.nominal => Status::Tight,
        _ => Status::Fits,
    };
    verdict(status, policy.mismatch(limit).or(policy.tight(limit)), figure, 1.0)
}

/// Judges a figure that must not rise above a threshold.
pub fn at_most(figure: Interval, limit: &Limit, policy: &Policy) -> Verdict {
    let status = match (policy.mismatch(limit), policy.tight(limit)) {
        (Some(most), _) if figure.low > most.high => Status::Mismatch,
        (Some(most), _) if figure.high > most.low => Status::Tight,
        (_, Some(tight)) if figure.nominal > tight.nominal => Status::Tight,
        _ => Status::Fits,
    };
    verdict(status, policy.mismatch(limit).or(policy.tight(limit)), figure, -1.0)
}

/// For a floor the threshold is asked and the figure is there; for a ceiling the other way round.
fn verdict(status: Status, threshold: Option<Interval>, figure: Interval, sense: f64) -> Verdict {
    let Some(threshold) = threshold else { return Verdict::plain(status) };
    let (required, available) = if sense > 0.0 { (threshold, figure) } else { (figure, threshold) };
    let base = required.nominal as f64;
    let margin = (base != 0.0).then(|| (available.nominal - required.nominal) as f64 / base.abs());
    Verdict { status, required: Some(Datum::Figure(required)), available: Some(Datum::Figure(available)), margin }
}

#[cfg(test)]
mod tests {
    use super::*;
    use propwright_schema::quantity::{A, Unit};

    fn amps(low: i64, nominal: i64, high: i64) -> Interval {
        Interval { low, nominal, high, unit: &A::INFO }
    }

    #[test]
    fn bands_decide() {
        let there = amps(40, 40, 40);
        assert_eq!(enough(amps(41, 45, 50), there).status, Status::Mismatch);
        assert_eq!(enough(amps(40, 45, 50), there).status, Status::Tight, "the bands touch");
        assert_eq!(enough(amps(35, 38, 40), there).status, Status::Fits);
        assert_eq!(judge(amps(35, 38, 40), there, amps(36, 36, 36)).status, Status::Tight, "fits, with less than the margin");
    }

    #[test]
    fn a_figure_of_another_dimension_is_never_judged() {
        use propwright_schema::quantity::V;
        assert_eq!(enough(Interval::exact(1, &V::INFO), amps(2, 2, 2)).status, Status::Unstated);
    }
}
