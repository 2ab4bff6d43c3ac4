//! From six cells on a capacitor sits across the pack leads.
//!
//! Formula: `cells < 6`, or a capacitor is listed or comes with the speed controller. Valid for open craft; it only warns.
//! Source: common practice, no source. When it fails, the spikes of hard braking reach the boards: lines in the picture, noise
//! in the gyro, and in time a burnt board.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, derived, part},
    policy,
};

const CELLS: Property = derived("pack-cells");
const LISTED: Property = part(Slot::Capacitor, "id");
const WITH_ESC: Property = part(Slot::Esc, "capacitor_v");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "capacitor-fitted",
    title: "A capacitor from six cells on",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Capacitor, Slot::Esc, Slot::Battery],
    formula: "cells < 6, or a capacitor across the leads",
    source: "common practice, no source",
    law: Law::LessIsBetter(CELLS),
    reads: &[CELLS, LISTED, WITH_ESC],
    form: Form::Solved(check),
    says: Says {
        mismatch: "",
        tight: "No capacitor is listed for {cells} cells in series",
        fits: "A capacitor takes the spikes of {cells} cells in series",
        costs: "The spikes of hard braking reach the boards: lines in the picture, noise in the gyro, in time a burnt board.",
    },
    hints: &["Add a low-resistance capacitor rated a fifth above full charge"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(cells: 6)])"#,
        build: r#"parts: [(slot: Battery, part: "p")]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(cells: 6)]), (id: "c", name: "Capacitor", fills: [Capacitor()])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: Capacitor, part: "c")]"#,
    },
};

struct Leads {
    cells: Reading,
    fitted: bool,
}

fn check(site: &Site) -> Vec<Outcome> {
    let judge = |leads: &Leads| Verdict::plain(if leads.fitted { Status::Fits } else { Status::Tight });
    run(site, gather, judge, |leads| facts(leads, site))
}

/// Nothing for few cells, or when the cells are not known: other rules ask for them.
fn gather(site: &Site) -> Vec<Result<Leads, Missing>> {
    let from = site.policy().tight(&policy::CAPACITOR_CELLS).map_or(i64::MAX, |cells| cells.nominal);
    let many = |cells: &Reading| cells.figure().is_ok_and(|cells| cells.nominal >= from);
    let fitted = !site.all(LISTED).is_empty() || site.all(WITH_ESC).iter().any(|volts| volts.known.is_ok());
    site.all(CELLS).into_iter().filter(many).map(|cells| Ok(Leads { cells, fitted })).collect()
}

fn facts(leads: &Leads, site: &Site) -> Facts {
    vec![("cells", leads.cells.because.clone()), ("limit", site.threshold(&policy::CAPACITOR_CELLS))]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn from_six_cells_on() {
        assert_eq!(judged(&RULE, &[("Battery", "cells: 5", "")], ""), []);
        assert_eq!(judged(&RULE, &[("Battery", "cells: 6", "")], ""), [Status::Tight]);
        assert_eq!(judged(&RULE, &[("Battery", "cells: 6", ""), ("Esc", "capacitor_v: 35", "")], ""), [Status::Fits]);
        assert_eq!(judged(&RULE, &[("Battery", "cells: 3", ", count: 2")], "packs: Series"), [Status::Tight]);
        assert_eq!(judged(&RULE, &[("Battery", "", "")], ""), []);
    }
}
