//! `propeller`: coefficients, thrust and power of a propeller by its size.

use clap::Args;
use propwright_engine::models::{predict, propeller::Geometry};
use propwright_paper::propeller;

use super::{Exit, Form, answer::Answer};

/// Asks for a propeller's figures.
#[derive(Debug, Args)]
pub(super) struct Asked {
    /// True diameter in inches
    #[arg(long, value_name = "D")]
    diameter_in: f64,
    /// Pitch in inches
    #[arg(long, value_name = "P")]
    pitch_in: f64,
    /// Blades
    #[arg(long, value_name = "B")]
    blades: u32,
    /// Rotor speed in turns a minute
    #[arg(long, value_name = "N")]
    rpm: f64,
    /// Chord at three quarters of the radius in mm
    #[arg(long = "chord-75", value_name = "MM")]
    chord_75: Option<f64>,
    /// Advance ratio; may be given several times, absent: at rest
    #[arg(long, value_name = "J", allow_hyphen_values = true)]
    advance_ratio: Vec<f64>,
    /// Air density in kg/m³
    #[arg(long, value_name = "RHO", default_value_t = 1.225)]
    density: f64,
    /// Leave the installation correction out: the propeller alone in a wind tunnel
    #[arg(long)]
    isolated: bool,
    #[command(flatten)]
    form: Form,
}

impl Asked {
    pub(super) fn answer(self) -> Answer {
        let geometry = Geometry {
            chord_75_m: self.chord_75.map(|millimetres| millimetres * 1e-3),
            ..Geometry::inches(self.diameter_in, self.pitch_in, self.blades)
        };
        let (rev_per_s, density, isolated) = (self.rpm / 60.0, self.density, self.isolated);
        let at = if self.advance_ratio.is_empty() { vec![0.0] } else { self.advance_ratio };
        match predict::propeller(&predict::Asked { geometry, rev_per_s, density, isolated }, &at) {
            Err(error) => Answer::refused(&[]).with_remark(&format!("No such propeller is modelled: {error}.")),
            Ok(points) if self.form.json => Answer::json(Exit::Done, &propeller::json(&points)),
            Ok(points) => Answer::text(Exit::Done, propeller::text(&points)),
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::cli::{Exit, run};

    fn answer(more: &[&str]) -> (Exit, String, String) {
        let line = ["propwright", "propeller", "--diameter-in", "5.1", "--pitch-in", "4.3", "--blades", "3", "--rpm", "24000"];
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let exit = run(line.iter().chain(more).map(Into::into), &mut out, &mut err);
        (exit, String::from_utf8(out).unwrap(), String::from_utf8(err).unwrap())
    }

    #[test]
    fn one_point_an_advance_ratio_and_rest_without_any() {
        let points = |more: &[&str]| {
            let (exit, out, _) = answer(more);
            assert_eq!(exit, Exit::Done);
            serde_json::from_str::<serde_json::Value>(&out).unwrap()["points"].as_array().unwrap().clone()
        };
        assert_eq!(points(&["--json"]).len(), 1);
        let two = points(&["--json", "--advance-ratio", "0.2", "--advance-ratio", "0.5"]);
        assert!(two[0]["thrust_n"]["nominal"].as_f64() > two[1]["thrust_n"]["nominal"].as_f64());
        assert!(two[0]["ct"]["low"].as_f64() < two[0]["ct"]["nominal"].as_f64());
    }

    #[test]
    fn what_no_model_reaches_is_refused() {
        for more in [["--advance-ratio", "-0.2"], ["--density", "9"], ["--chord-75", "NaN"]] {
            let (exit, out, err) = answer(&more);
            assert!(exit == Exit::Refused && out.is_empty() && err.contains("outside"), "{more:?}: {err}");
        }
    }
}
