//! A Li-ion pack at full throttle: what it is asked for beyond its rating, and the output limit that spares it.
//!
//! Formula: `I_full ≤ C·Ah`; otherwise the output at which full throttle keeps to it. Valid for a fresh pack. Source: common
//! practice, no source. When it fails, the cells sag below their cut-off as soon as the stick goes up.

use propwright_schema::slot::Slot;

use super::five_inch::five_inch_build;
use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Verdict},
    graph::{Property, Reading, Site, derived, part},
    interval::Interval,
    policy::{PACK_LIMIT_FULL, Policy},
    verdict,
};

const FULL: Property = derived("pack-burst");
const STANDS: Property = derived("pack-limit");
const OUTPUT: Property = derived("output-limit");

struct Inputs {
    full: Reading,
    asked: Interval,
    stands: Reading,
    rating: Interval,
    output: Reading,
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pack-full-throttle",
    title: "Full throttle on Li-ion cells",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Battery, Slot::Motor, Slot::Propeller],
    formula: "I_full ≤ C·Ah of a Li-ion pack",
    source: "common practice, no source",
    law: Law::MoreIsBetter(part(Slot::Battery, "discharge_c_rate")),
    reads: &[FULL, STANDS, OUTPUT],
    form: Form::Solved(|site| run(site, gather, |inputs| judge(inputs, site.policy()), |inputs| facts(inputs, site))),
    says: Says {
        mismatch: "",
        tight: "The {stands.part} stands {stands}; full throttle asks for {full}. Limit the motor output to {output}",
        fits: "The pack stands {stands}; full throttle asks for {full}",
        costs: "The cells sag below their cut-off as soon as the stick goes up.",
    },
    hints: &["Limit the motor output", "Choose a pack with more cells side by side", "Choose a propeller with less pitch"],
    fails: Example { parts: CANS_10C, build: five_inch_build!() },
    passes: Example { parts: CANS_40C, build: five_inch_build!() },
};

/// A 5 in craft on cans of so many C.
macro_rules! cans {
    ($rate:literal) => {
        concat!(
            r#"(id: "f", name: "Frame", mass_g: 118, fills: [Frame(guard: Open)]),
            (id: "m", name: "Motor", mass_g: 32, fills: [Motor(stator_diameter_mm: 22, stator_height_mm: 7, kv_rpm_per_v: 1950)]),
            (id: "p", name: "Propeller", mass_g: 4, fills: [Propeller(diameter_in: 5.1, pitch_in: 4.3, blades: 3)]),
            (id: "e", name: "Controller", mass_g: 14, fills: [Esc(channels: 4, current_a: 50)]),
            (id: "b", name: "Cans", mass_g: 300, fills: [Battery(chemistry: LiIon, cells: 6, capacity_mah: 3000,
                resistance_mohm: 100, discharge_c_rate: "#,
            $rate,
            ")])"
        )
    };
}

const CANS_10C: &str = cans!("10");
const CANS_40C: &str = cans!("40");

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let pair = |stands: Reading| {
        let (full, output) = (site.one(FULL)?, site.one(OUTPUT)?);
        Ok(Inputs { asked: full.figure()?, full, rating: stands.figure()?, stands, output })
    };
    site.all(STANDS).into_iter().map(pair).collect()
}

fn judge(inputs: &Inputs, policy: &Policy) -> Verdict {
    verdict::within_share(inputs.asked, inputs.rating, &PACK_LIMIT_FULL, policy)
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    vec![
        ("stands", inputs.stands.because.clone()),
        ("full", inputs.full.because.clone()),
        ("output", inputs.output.because.clone()),
        ("limit", site.threshold(&PACK_LIMIT_FULL)),
    ]
}

#[cfg(test)]
mod tests {
    use super::{CANS_10C, RULE};
    use crate::finding::Status;
    use crate::rules::five_inch::{five_inch, five_inch_build};
    use crate::rules::trial::{figure, verdicts};

    #[test]
    fn the_advised_limit_keeps_to_the_rating() {
        let limit = figure(CANS_10C, five_inch_build!(), "output-limit").decimals()[1];
        let held = format!("output_limit_percent: {limit}, {}", five_inch_build!());
        let amps = figure(CANS_10C, &held, "pack-burst").decimals()[2];
        // 10 C of 3 Ah are 30 A, kept to the upper end of the band; the band narrows a little with the output.
        assert!(amps <= 30.0 && amps > 27.5, "{amps}");
    }

    #[test]
    fn just_passes_just_fails() {
        let full = figure(CANS_10C, five_inch_build!(), "pack-burst").high;
        let found = |milliamperes: i64| {
            // The unit's steps are thousandths of a C.
            let rate = &format!("discharge_c_rate: {}", (milliamperes / 3) as f64 / 1000.0);
            verdicts(&RULE, &CANS_10C.replace("discharge_c_rate: 10", rate), five_inch_build!())
        };
        assert_eq!(found(full + 20), [Status::Fits]);
        assert_eq!(found(full - 20), [Status::Tight]);
    }

    #[test]
    fn lithium_polymer_is_no_matter_of_this() {
        assert_eq!(verdicts(&RULE, five_inch!(battery ", discharge_c_rate: 20"), five_inch_build!()), []);
    }

    #[test]
    fn unpublished_is_unstated() {
        let unsaid = CANS_10C.replace("discharge_c_rate: 10", "");
        assert_eq!(verdicts(&RULE, &unsaid, five_inch_build!()), [Status::Unstated]);
    }
}
