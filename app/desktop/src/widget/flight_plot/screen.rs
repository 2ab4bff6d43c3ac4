//! Where figures of a scale lie on the screen.

use egui::Rangef;
use propwright_paper::plot::Axis;

/// Where a figure lies.
#[expect(clippy::cast_possible_truncation, reason = "a share between 0 and 1")]
pub(super) fn at(axis: &Axis, figure: f64, range: Rangef) -> f32 {
    egui::lerp(range.min..=range.max, axis.share(figure) as f32)
}

/// The figure at a place.
pub(super) fn figure(axis: &Axis, at: f32, range: Rangef) -> f64 {
    axis.figure(f64::from((at - range.min) / range.span()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_and_its_figure_go_both_ways() {
        let axis = Axis { title: String::new(), unit: "", from: 0.05, to: 80.0, logarithmic: true };
        let range = Rangef::new(100.0, 400.0);
        for share in [6.0, 20.0, 79.0] {
            assert!((figure(&axis, at(&axis, share, range), range) / share - 1.0).abs() < 1e-4);
        }
        assert!((at(&axis, 999.0, range) - 400.0).abs() < 1e-3, "beyond the end lies at the end");
    }
}
