//! The radio sends no more power than is free of a licence.
//!
//! Formula: `P ≤ 100 mW` on 2.4 GHz, `P ≤ 25 mW` below 1 GHz, the module's where there is one. Valid in much of Europe. Source: ERC Recommendation 70-03, from
//! memory; local rules decide. Who sends more disturbs others and risks a fine.

use std::sync::Arc;

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Missing, Verdict},
    graph::{Property, Reading, Site, part},
    policy::{CONTROL_POWER, CONTROL_POWER_LOW},
    verdict,
};

const RADIO: Property = part(Slot::Radio, "power_mw");
const MODULE: Property = part(Slot::RadioModule, "power_mw");
const BAND: Property = part(Slot::Receiver, "band_mhz");
/// Bands below this, in Hz, have the lower line.
const LOW_BAND: i64 = 1_000_000_000;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "control-licence",
    title: "Licence for control power",
    group: Group::Conduct,
    weight: Weight::Caution,
    slots: &[Slot::Radio, Slot::RadioModule, Slot::Receiver],
    formula: "P_control ≤ 100 mW on 2.4 GHz, 25 mW below 1 GHz",
    source: "ERC Recommendation 70-03, from memory; local rules decide",
    law: Law::LessIsBetter(part(Slot::Radio, "power_mw")),
    reads: &[RADIO, MODULE, BAND],
    form: Form::Solved(|site| run(site, gather, |inputs| inputs.verdict.clone(), facts)),
    says: Says {
        mismatch: "",
        tight: "The {power.part} sends up to {power}; beyond {limit} many places ask for a licence on this band",
        fits: "The control link sends no more than is free in many places",
        costs: "Stronger links disturb others; the authority can fine, and take the module.",
    },
    hints: &["Set a lower power", "Ask the local authority what the band allows"],
    fails: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(band_mhz: 868)]), (id: "m", name: "Module", fills: [RadioModule(power_mw: 500)])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: RadioModule, part: "m")]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(band_mhz: 2440)]), (id: "m", name: "Radio", fills: [Radio(power_mw: 100)])"#,
        build: r#"parts: [(slot: Receiver, part: "r"), (slot: Radio, part: "m")]"#,
    },
};

struct Inputs {
    power: Reading,
    band: Reading,
    limit: Arc<Because>,
    verdict: Verdict,
}

/// The module sends where there is one, else the radio.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let sends = site.all(MODULE).into_iter().chain(site.all(RADIO)).next();
    let inputs = |power: Reading| {
        let band = site.one(BAND)?;
        let limit = if band.figure()?.nominal < LOW_BAND { CONTROL_POWER_LOW } else { CONTROL_POWER };
        let verdict = verdict::at_most(power.figure()?, &limit, site.policy());
        Ok(Inputs { power, band, limit: site.threshold(&limit), verdict })
    };
    sends.into_iter().map(inputs).collect()
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("power", inputs.power.because.clone()), ("band", inputs.band.because.clone()), ("limit", inputs.limit.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn each_band_its_line() {
        let link = |band: &str, power: &str| judged(&RULE, &[("Receiver", band, ""), ("Radio", power, "")], "");
        assert_eq!(link("band_mhz: 2440", "power_mw: 100"), [Status::Fits]);
        assert_eq!(link("band_mhz: 2440", "power_mw: 101"), [Status::Tight]);
        assert_eq!(link("band_mhz: 868", "power_mw: 25"), [Status::Fits]);
        assert_eq!(link("band_mhz: 868", "power_mw: 26"), [Status::Tight]);
        assert_eq!(link("", "power_mw: 26"), [Status::Unstated]);
    }
}
