//! The receiver knows the packet rate at which it shall be flown.
//!
//! Formula: rate chosen ∈ rates of the receiver, in Hz; the reach of control is reckoned at that rate. Valid where the purpose names a rate. Source:
//! the maker's table. When it fails, radio and receiver do not bind.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, build, part},
};

const CHOSEN: Property = build("purpose.packet_rate_hz");
const RATES: Property = part(Slot::Receiver, "sensitivities.rate_hz");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "packet-rate",
    title: "The packet rate chosen",
    group: Group::Radio,
    weight: Weight::Finding,
    slots: &[Slot::Receiver],
    formula: "packet rate chosen ∈ rates of the receiver",
    source: "the maker's table",
    law: Law::Match,
    reads: &[CHOSEN, RATES],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "The {rates.part} knows no packet rate of {chosen}; it knows {rates}",
        tight: "",
        fits: "The {rates.part} knows the packet rate of {chosen}",
        costs: "Radio and receiver do not find each other.",
    },
    hints: &["Choose a rate of the receiver", "Choose a receiver that knows the rate"],
    fails: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(sensitivities: [(rate_hz: 250, level_dbm: -108), (rate_hz: 50, level_dbm: -115)])])"#,
        build: r#"purpose: (packet_rate_hz: 500), parts: [(slot: Receiver, part: "r")]"#,
    },
    passes: Example {
        parts: r#"(id: "r", name: "Receiver", fills: [Receiver(sensitivities: [(rate_hz: 250, level_dbm: -108), (rate_hz: 50, level_dbm: -115)])])"#,
        build: r#"purpose: (packet_rate_hz: 250), parts: [(slot: Receiver, part: "r")]"#,
    },
};

struct Inputs {
    chosen: Reading,
    rates: Reading,
    known: bool,
}

/// Nothing where no rate is chosen.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let Some(chosen) = site.one(CHOSEN).ok().filter(|chosen| chosen.known.is_ok()) else { return Vec::new() };
    let inputs = |rates: Reading| {
        let known = rates.items()?.contains(chosen.value()?);
        Ok(Inputs { chosen: chosen.clone(), rates, known })
    };
    site.all(RATES).into_iter().map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    let status = if inputs.known { Status::Fits } else { Status::Mismatch };
    Verdict::plain(status).softened(inputs.rates.is_estimated())
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("rates", inputs.rates.because.clone()), ("chosen", inputs.chosen.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn only_a_chosen_rate_is_looked_for() {
        let rates = "sensitivities: [(rate_hz: 250), (rate_hz: 50)]";
        assert_eq!(judged(&RULE, &[("Receiver", rates, "")], "purpose: (packet_rate_hz: 50)"), [Status::Fits]);
        assert_eq!(judged(&RULE, &[("Receiver", rates, "")], "purpose: (packet_rate_hz: 51)"), [Status::Mismatch]);
        assert_eq!(judged(&RULE, &[("Receiver", "", "")], "purpose: (packet_rate_hz: 50)"), [Status::Unstated]);
        assert_eq!(judged(&RULE, &[("Receiver", rates, "")], ""), []);
    }
}
