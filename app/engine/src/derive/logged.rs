//! What the craft logged in the air, against what the models say of it.

use propwright_schema::slot::Slot;

use super::{
    Derivation, Model,
    gather::Gather,
    solved::{Solved, THRUST_AND_POWER},
};
use crate::{
    calibration::Belief,
    finding::Datum,
    graph::{Derived, Property, Reading, Site, build, derived, part},
};

pub(crate) const FLOWN_WITH: Property = build("logged.flown_with");
const OUTPUT: Property = build("logged.hover_output_percent");
const CALM: Property = build("logged.calm_min");
const TOP_SPEED: Property = build("logged.top_speed_kmh");
const PUT_BACK: Property = build("logged.put_back_mah");
const FLOWN: Property = build("logged.flown_min");
/// The parts that decide about the figures that are logged.
pub(crate) const FLYING: [Property; 4] =
    [part(Slot::Frame, "id"), part(Slot::Motor, "id"), part(Slot::Propeller, "id"), part(Slot::Battery, "id")];
const AIRBORNE: Property = derived("in-the-air");
const LEVEL: Property = derived("level-flight");

/// The model's figures that the logs are held against, by their ids in the solves.
pub(super) const HALF_OUTPUT: &str = "hover-output-half";
pub(super) const CALM_CURRENT: &str = "calm-current";

/// Log spreads of what is logged: the charge left and the trim of a hover, how calm a calm flight was, wind in a speed run
/// (judgement).
const NOISE: [f64; 4] = [0.04, 0.08, 0.06, 0.05];

/// What the logs say of the inputs.
pub(crate) const CALIBRATION: Derivation = Derivation {
    id: "calibration",
    title: "models calibrated by what the craft logged",
    formula: "ln(logged/modelled) = Σ aᵢ·xᵢ + e; the inputs take the errors x that explain the log best",
    source: "R.E. Kalman 1960; JCGM 100:2008; spreads of the logs are judgement",
    reads: &[FLOWN_WITH, OUTPUT, CALM, TOP_SPEED, PUT_BACK, FLOWN, FLYING[0], FLYING[1], FLYING[2], FLYING[3], AIRBORNE, LEVEL],
    run,
};

fn run(site: &Site) -> Vec<Derived> {
    let mut gather = Gather::new(site);
    let logs = logs(&mut gather);
    if logs.iter().all(Option::is_none) || !same_craft(site) {
        return Vec::new();
    }
    let ids = [(AIRBORNE, HALF_OUTPUT), (AIRBORNE, "time-calm"), (AIRBORNE, CALM_CURRENT), (LEVEL, "top-speed")];
    // Level flight knows every input; where it is not solved, what hover knows is calibrated.
    let names = solved(site, LEVEL).or_else(|| solved(site, AIRBORNE)).map(|solved| solved.inputs());
    let Some(names) = names else { return Vec::new() };
    let mut belief = Belief::prior(names, Some(THRUST_AND_POWER));
    for (((property, id), logged), noise) in ids.into_iter().zip(logs).zip(NOISE) {
        let (Some(logged), Some(solved)) = (logged, solved(site, property)) else { continue };
        if let Some(figure) = solved.figure(id) {
            belief.observe(figure, logged / figure.band.nominal(), noise);
        }
    }
    gather.one(Ok(Datum::Model(Model::Calibration(belief).into())))
}

/// Output in hover, calm seconds, calm amperes and top speed in m/s, as far as they were logged.
fn logs(gather: &mut Gather) -> [Option<f64>; 4] {
    let [output, calm, top_speed] = [OUTPUT, CALM, TOP_SPEED].map(|property| gather.maybe(property));
    let current = match (gather.maybe(PUT_BACK), gather.maybe(FLOWN)) {
        (Some(coulombs), Some(seconds)) => Some(coulombs / seconds),
        _ => None,
    };
    [output, calm, current, top_speed]
}

/// The listed parts that decide about what is logged, each with whether it flew; `None` where the list does not say which did.
pub(crate) fn flew(site: &Site) -> Option<Vec<(Reading, bool)>> {
    let flown = site.one(FLOWN_WITH).ok()?;
    let aboard = flown.items().ok()?;
    let listed = FLYING.iter().flat_map(|property| site.all(*property));
    let each = listed.map(|listed| {
        let flew = listed.word().is_ok_and(|id| aboard.iter().any(|item| item.word() == Some(id)));
        (listed, flew)
    });
    Some(each.collect())
}

/// Are the parts that flew the ones that are listed?
fn same_craft(site: &Site) -> bool {
    flew(site).is_none_or(|each| each.iter().all(|(_, flew)| *flew))
}

fn solved(site: &Site, property: Property) -> Option<Solved> {
    let reading = site.one(property).ok()?;
    match &**reading.model().ok()? {
        Model::Solved(solved) => Some(solved.clone()),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use crate::interval::Interval;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, readings};

    fn logged(logs: &str) -> String {
        format!("logged: ({logs}), {}", five_inch_build!())
    }

    fn of(logs: &str, id: &'static str) -> Interval {
        figure(five_inch!(), &logged(logs), id)
    }

    fn width(figure: Interval) -> f64 {
        (figure.high as f64 / figure.low as f64).ln()
    }

    #[test]
    fn each_log_moves_its_figure_towards_it_and_narrows_it() {
        for (log, id, least, most) in [
            ("calm_min: 5", "time-calm", 5.0, 6.4),
            ("top_speed_kmh: 150", "top-speed", 150.0, 190.0),
            ("put_back_mah: 1000, flown_min: 4", "time-calm", 4.0, 6.4),
        ] {
            let (before, after) = (of("", id), of(log, id));
            assert!(after.nominal < before.nominal && width(after) < width(before), "{log}: {before:?} {after:?}");
            assert!((least..most).contains(&after.decimals()[1]), "{log}: {after:?}");
        }
        let (before, after) = (of("", "hover-duty"), of("hover_output_percent: 36", "hover-duty"));
        assert!(after.nominal > before.nominal && width(after) < width(before), "{before:?} {after:?}");
    }

    #[test]
    fn a_log_that_meets_the_model_only_narrows() {
        let before = of("", "top-speed");
        let after = of(&format!("top_speed_kmh: {}", before.decimals()[1]), "top-speed");
        assert!((after.nominal - before.nominal).abs() <= 1 && width(after) < width(before));
        assert!(width(of(&format!("top_speed_kmh: {}", before.decimals()[1]), "path")) < width(of("", "path")), "drag is shared");
    }

    #[test]
    fn other_parts_than_flew_are_not_calibrated() {
        let flown = r#"calm_min: 5, flown_with: ["f", "m", "p", "b"]"#;
        let other = r#"calm_min: 5, flown_with: ["f", "m", "q", "b"]"#;
        assert!(of(flown, "time-calm").nominal < of("", "time-calm").nominal);
        assert_eq!(of(other, "time-calm"), of("", "time-calm"));
        assert!(readings(five_inch!(), &logged(other), "calibration").is_empty());
    }
}
