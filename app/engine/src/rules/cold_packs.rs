//! On a cold day packs are warmed before the flight.
//!
//! Formula: `T ≥ 5 °C`. Valid for all chemistries; a cold cell sags twice as much. Source: common practice, no source. When it fails, the pack gives half
//! its current.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::Missing,
    graph::{Property, Reading, Site, build, part},
    interval::Interval,
    policy::COLD,
    verdict,
};

const COLD_DAY: Property = build("conditions.temperature_c");
const PACK: Property = part(Slot::Battery, "id");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cold-packs",
    title: "Packs in the cold",
    group: Group::Flight,
    weight: Weight::Advice,
    slots: &[Slot::Battery],
    formula: "T ≥ 5 °C",
    source: "common practice, no source",
    law: Law::MoreIsBetter(COLD_DAY),
    reads: &[COLD_DAY, PACK],
    form: Form::Solved(|site| {
        run(site, gather, |inputs| verdict::at_least(inputs.day, &COLD, site.policy()), |inputs| facts(inputs, site))
    }),
    says: Says {
        mismatch: "",
        tight: "At {day} the {pack.part} sags: warm it to 20 °C and more before the flight",
        fits: "At {day} the packs need no warming",
        costs: "The pack gives half its current, and the craft drops at the first full throttle.",
    },
    hints: &["Carry the packs in an inner pocket", "Hover for half a minute before the first full throttle"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery()])"#,
        build: r#"conditions: (temperature_c: 2), parts: [(slot: Battery, part: "p")]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery()])"#,
        build: r#"conditions: (temperature_c: 12), parts: [(slot: Battery, part: "p")]"#,
    },
};

struct Inputs {
    pack: Reading,
    temperature: Reading,
    day: Interval,
}

/// Nothing on a day of which the list tells no temperature.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let Some(temperature) = site.one(COLD_DAY).ok().filter(|day| day.known.is_ok()) else { return Vec::new() };
    let inputs = |pack: Reading| {
        pack.value()?;
        Ok(Inputs { pack, day: temperature.figure()?, temperature: temperature.clone() })
    };
    site.all(PACK).into_iter().take(1).map(inputs).collect()
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    vec![("pack", inputs.pack.because.clone()), ("day", inputs.temperature.because.clone()), ("limit", site.threshold(&COLD))]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn just_passes_just_fails() {
        let day = |celsius: &str| judged(&RULE, &[("Battery", "", "")], &["conditions: (", celsius, ")"].concat());
        assert_eq!(day("temperature_c: 5"), [Status::Fits]);
        assert_eq!(day("temperature_c: 4.9"), [Status::Tight]);
        assert_eq!(day(""), []);
    }
}
