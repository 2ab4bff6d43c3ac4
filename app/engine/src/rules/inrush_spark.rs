//! From eight cells on something takes the spark of plugging in.
//!
//! Formula: `cells < 8, or an anti-spark plug or selector`. Valid for controllers with capacitors across their leads. Source: common practice, no
//! source. When it fails, the contacts pit, and the surge can kill a controller.

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, derived, part},
    policy::SPARK_CELLS,
};

const CELLS: Property = derived("pack-cells");
const PLUG: Property = part(Slot::AntiSpark, "id");
const SELECTOR: Property = part(Slot::PackSelector, "id");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "inrush-spark",
    title: "Spark of plugging in",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::AntiSpark, Slot::PackSelector, Slot::Battery],
    formula: "cells < 8, or an anti-spark plug",
    source: "common practice, no source",
    law: Law::LessIsBetter(CELLS),
    reads: &[CELLS, PLUG, SELECTOR],
    form: Form::Solved(|site| run(site, gather, judge, |inputs| facts(inputs, site))),
    says: Says {
        mismatch: "",
        tight: "{cells} cells in series are plugged in without an anti-spark plug: the inrush burns the contacts",
        fits: "Something takes the spark of {cells} cells in series",
        costs: "The contacts pit and grow hot in flight, and the surge can kill a controller.",
    },
    hints: &["Add an anti-spark plug", "Plug in through a resistor lead"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(cells: 8)])"#,
        build: r#"parts: [(slot: Battery, part: "p")]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(cells: 8)]), (id: "a", name: "Plug", fills: [AntiSpark()])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: AntiSpark, part: "a")]"#,
    },
};

struct Inputs {
    cells: Reading,
    fitted: bool,
}

/// Nothing for few cells, or when the cells are not known: other rules ask for them.
fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let from = site.policy().tight(&SPARK_CELLS).map_or(i64::MAX, |cells| cells.nominal);
    let many = |cells: &Reading| cells.figure().is_ok_and(|cells| cells.nominal >= from);
    let fitted = [PLUG, SELECTOR].iter().any(|id| !site.all(*id).is_empty());
    site.all(CELLS).into_iter().filter(many).map(|cells| Ok(Inputs { cells, fitted })).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.fitted { Status::Fits } else { Status::Tight })
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    vec![("cells", inputs.cells.because.clone()), ("limit", site.threshold(&SPARK_CELLS))]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn from_eight_cells_on() {
        assert_eq!(judged(&RULE, &[("Battery", "cells: 7", "")], ""), []);
        assert_eq!(judged(&RULE, &[("Battery", "cells: 8", "")], ""), [Status::Tight]);
        assert_eq!(judged(&RULE, &[("Battery", "cells: 4", ", count: 2")], "packs: Series"), [Status::Tight]);
        assert_eq!(judged(&RULE, &[("Battery", "cells: 12", ""), ("PackSelector", "", "")], ""), [Status::Fits]);
    }
}
