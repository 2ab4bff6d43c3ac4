//! What the panels draw with: pure functions on plain data, one widget a file.
//!
//! Each has an accessible name that says in words what the shape says. Status is told by shape and word first, by
//! tone last.

pub mod band_bar;
pub mod drawing;
pub mod flight_plot;
pub mod graph;
pub mod leaf;
pub mod ledger;
pub mod margin_bar;
pub mod mark;
pub mod stacked_bar;

pub use propwright_paper::plot::Span;

/// A linear scale from values to points on the screen.
#[derive(Clone, Copy, Debug)]
struct Scale {
    from: f64,
    to: f64,
    left: f32,
    right: f32,
}

impl Scale {
    /// Where `value` lies; values beyond the scale lie at its end, and one that is no number at its start.
    #[expect(clippy::cast_possible_truncation, reason = "a share between 0 and 1")]
    fn at(&self, value: f64) -> f32 {
        let share = (value - self.from) / (self.to - self.from);
        let share = if share.is_nan() { 0.0 } else { share.clamp(0.0, 1.0) };
        self.left + (self.right - self.left) * share as f32
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_scale_keeps_to_its_ends() {
        let scale = Scale { from: 0.0, to: 50.0, left: 100.0, right: 200.0 };
        let at = [-1.0, 0.0, 25.0, 50.0, f64::INFINITY, f64::NAN].map(|v| scale.at(v));
        assert_eq!(at.map(f32::to_bits), [100.0_f32, 100.0, 150.0, 200.0, 200.0, 100.0].map(f32::to_bits));
    }

    #[test]
    fn a_scale_without_extent_stays_finite() {
        let scale = Scale { from: 3.0, to: 3.0, left: 0.0, right: 10.0 };
        assert!(scale.at(3.0).is_finite());
    }
}
