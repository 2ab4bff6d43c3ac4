//! The firmware knows the poles of the motors before it filters by their speed.
//!
//! Formula: `poles = 14`, the usual setting; any other number is set by hand. Valid for controllers with two-way rpm. Source: common practice, no
//! source. When it fails, the filter works at a wrong frequency.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, part},
    policy::POLES_USUAL,
};

const TWO_WAY: Property = part(Slot::Esc, "two_way_rpm");
const POLES: Property = part(Slot::Motor, "poles");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rpm-filter-poles",
    title: "Poles for the rpm filter",
    group: Group::Firmware,
    weight: Weight::Advice,
    slots: &[Slot::Motor, Slot::Esc],
    formula: "two-way rpm ⇒ poles = 14, or set them",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[TWO_WAY, POLES],
    form: Form::Solved(|site| run(site, gather, judge, |inputs| facts(inputs, site))),
    says: Says {
        mismatch: "",
        tight: "The {poles.part} has {poles} magnet poles; the firmware takes {limit} for granted: set them",
        fits: "The motors have the poles that the firmware takes for granted",
        costs: "The filter looks beside the vibration, and the rotor speed shown is wrong.",
    },
    hints: &["Set the number of poles in the firmware before the first flight"],
    fails: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(two_way_rpm: true)]), (id: "m", name: "Motor", fills: [Motor(poles: 12)])"#,
        build: r#"parts: [(slot: Esc, part: "e"), (slot: Motor, part: "m", count: 4)]"#,
    },
    passes: Example {
        parts: r#"(id: "e", name: "Controller", fills: [Esc(two_way_rpm: true)]), (id: "m", name: "Motor", fills: [Motor(poles: 14)])"#,
        build: r#"parts: [(slot: Esc, part: "e"), (slot: Motor, part: "m", count: 4)]"#,
    },
};

struct Inputs {
    poles: Reading,
    usual: bool,
}

/// Nothing without a rotor speed that comes back.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let comes_back = site.one(TWO_WAY).is_ok_and(|two_way| two_way.flag() == Ok(true));
    let usual = site.policy().tight(&POLES_USUAL).map_or(0, |poles| poles.nominal);
    let inputs = |poles: Reading| Ok(Inputs { usual: poles.figure()?.nominal == usual, poles });
    site.all(POLES).into_iter().filter(|_| comes_back).map(inputs).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.usual { Status::Fits } else { Status::Tight })
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    vec![("poles", inputs.poles.because.clone()), ("limit", site.threshold(&POLES_USUAL))]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn only_where_the_speed_comes_back() {
        let set = |esc: &str, motor: &str| judged(&RULE, &[("Esc", esc, ""), ("Motor", motor, "")], "");
        assert_eq!(set("two_way_rpm: true", "poles: 14"), [Status::Fits]);
        assert_eq!(set("two_way_rpm: true", "poles: 12"), [Status::Tight]);
        assert_eq!(set("two_way_rpm: true", ""), [Status::Unstated]);
        assert_eq!(set("two_way_rpm: false", "poles: 12"), []);
    }
}
