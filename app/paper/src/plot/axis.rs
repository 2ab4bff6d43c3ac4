//! Scales: where a figure lies, and which figures are written beside it.

/// One scale of a chart.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// What it measures.
    pub title: String,
    /// In which unit.
    pub unit: &'static str,
    /// Its first figure.
    pub from: f64,
    /// Its last figure.
    pub to: f64,
    /// By decades; then both ends are positive.
    pub logarithmic: bool,
}

impl Axis {
    /// Where a figure lies between the ends of the scale, 0 to 1; beyond them it lies at an end.
    pub fn share(&self, figure: f64) -> f64 {
        let share = if self.logarithmic {
            (figure.max(f64::MIN_POSITIVE) / self.from).ln() / (self.to / self.from).ln()
        } else {
            (figure - self.from) / (self.to - self.from)
        };
        if share.is_nan() { 0.0 } else { share.clamp(0.0, 1.0) }
    }

    /// The figure at a share of the way from the first to the last, 0 to 1.
    pub fn figure(&self, share: f64) -> f64 {
        let share = share.clamp(0.0, 1.0);
        if self.logarithmic { self.from * (self.to / self.from).powf(share) } else { self.from + (self.to - self.from) * share }
    }

    /// Round figures beside the scale, `most` at most where that can be.
    pub fn ticks(&self, most: usize) -> Vec<f64> {
        if self.logarithmic { self.decades(most) } else { self.steps(most) }
    }

    fn steps(&self, most: usize) -> Vec<f64> {
        let wanted = (self.to - self.from) / most.max(1) as f64;
        let decade = 10_f64.powf(wanted.log10().floor());
        let step = [1.0, 2.0, 5.0, 10.0].map(|times| times * decade).into_iter().find(|step| *step >= wanted * (1.0 - 1e-9));
        let Some(step) = step.filter(|step| step.is_finite() && *step > 0.0) else { return Vec::new() };
        let first = (self.from / step).ceil();
        let count = ((self.to / step).floor() - first).max(-1.0);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "no more ticks than asked for")]
        let count = (count + 1.0) as usize;
        (0..count.min(2 * most + 2)).map(|at| (first + at as f64) * step).collect()
    }

    /// 1, 2 and 5 of each decade, or the decades alone.
    fn decades(&self, most: usize) -> Vec<f64> {
        let of = |steps: &[f64]| {
            let mut ticks = Vec::new();
            let mut decade = 10_f64.powf(self.from.log10().floor());
            while decade <= self.to && decade > 0.0 {
                ticks.extend(steps.iter().map(|step| step * decade).filter(|tick| (self.from..=self.to).contains(tick)));
                decade *= 10.0;
            }
            ticks
        };
        let fine = of(&[1.0, 2.0, 5.0]);
        if fine.len() <= most { fine } else { of(&[1.0]) }
    }
}

/// A figure beside a scale: as short as its step allows.
pub fn tick_words(figure: f64) -> String {
    let text = format!("{figure:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.replace('-', "−") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn axis(from: f64, to: f64, logarithmic: bool) -> Axis {
        Axis { title: String::new(), unit: "", from, to, logarithmic }
    }

    #[test]
    fn figures_beside_a_scale_are_round() {
        let plain = axis(0.0, 47.0, false);
        assert_eq!(plain.ticks(5), [0.0, 10.0, 20.0, 30.0, 40.0]);
        assert_eq!(axis(-20.0, 40.0, false).ticks(4), [-20.0, 0.0, 20.0, 40.0]);
        assert_eq!(axis(0.05, 12.0, true).ticks(9), [0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0]);
        assert_eq!(axis(0.05, 12.0, true).ticks(4), [0.1, 1.0, 10.0]);
        assert_eq!([tick_words(0.05), tick_words(1200.0), tick_words(-20.0)], ["0.05", "1200", "−20"]);
    }

    #[test]
    fn a_share_and_its_figure_go_both_ways() {
        for scale in [axis(5.0, 80.0, false), axis(0.05, 80.0, true)] {
            for figure in [6.0, 20.0, 79.0] {
                assert!((scale.figure(scale.share(figure)) / figure - 1.0).abs() < 1e-12);
            }
            assert!((scale.share(999.0) - 1.0).abs() < 1e-12, "beyond the end lies at the end");
        }
    }

    #[test]
    fn a_scale_without_extent_has_no_figures() {
        assert_eq!(axis(3.0, 3.0, false).ticks(5), Vec::<f64>::new());
        assert!(axis(3.0, 3.0, false).share(3.0).is_finite());
    }
}
