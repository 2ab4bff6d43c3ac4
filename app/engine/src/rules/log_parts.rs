//! A log counts for the parts that flew.
//!
//! Formula: ids of frame, motors, propellers and pack ∈ `logged.flown_with`. Valid for a list that logs something and says, or had
//! noted when a part was changed, what flew. Source: common practice, no source. When it fails, the figures are those of the
//! models alone, as if nothing had been logged.

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    derive::logged::{FLOWN_WITH, FLYING, flew},
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, build},
};
use propwright_schema::build_list::BuildList;

const LOGS: [Property; 5] = [
    build("logged.hover_output_percent"),
    build("logged.calm_min"),
    build("logged.top_speed_kmh"),
    build("logged.put_back_mah"),
    build("logged.flown_min"),
];
/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "log-parts",
    title: "A log of other parts",
    group: Group::Flight,
    weight: Weight::Advice,
    slots: &BuildList::FLYING,
    formula: "ids of frame, motors, propellers and pack ∈ parts that flew",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[FLOWN_WITH, LOGS[0], LOGS[1], LOGS[2], LOGS[3], LOGS[4], FLYING[0], FLYING[1], FLYING[2], FLYING[3]],
    form: Form::Solved(|site| run(site, gather, judge, facts)),
    says: Says {
        mismatch: "",
        tight: "The log does not count: the {listed.part} was not aboard when it was flown",
        fits: "The {listed.part} flew when the log was taken",
        costs: "The figures are those of the models alone, with wider bands.",
    },
    hints: &["Fly and log again with these parts", "Take the log out of the list", "Put the part back that flew"],
    fails: Example {
        parts: PARTS,
        build: r#"logged: (calm_min: 6, flown_with: ["m"]), parts: [(slot: Motor, part: "n", count: 4)]"#,
    },
    passes: Example {
        parts: PARTS,
        build: r#"logged: (calm_min: 6, flown_with: ["m"]), parts: [(slot: Motor, part: "m", count: 4)]"#,
    },
};

const PARTS: &str = r#"(id: "m", name: "Flown motor", fills: [Motor()]), (id: "n", name: "Other motor", fills: [Motor()])"#;

struct Inputs {
    listed: Reading,
    flew: bool,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let logs = LOGS.iter().any(|log| site.one(*log).is_ok_and(|log| log.known.is_ok()));
    let each = flew(site).filter(|_| logs).into_iter().flatten();
    each.map(|(listed, flew)| Ok(Inputs { listed, flew })).collect()
}

fn judge(inputs: &Inputs) -> Verdict {
    Verdict::plain(if inputs.flew { Status::Fits } else { Status::Tight })
}

fn facts(inputs: &Inputs) -> Facts {
    vec![("listed", inputs.listed.because.clone())]
}

#[cfg(test)]
mod tests {
    use super::{PARTS, RULE};
    use crate::{
        finding::Status::{self, Fits, Tight},
        rules::trial::verdicts,
    };

    fn of(logged: &str) -> Vec<Status> {
        verdicts(
            &RULE,
            PARTS,
            &format!(r#"logged: ({logged}), parts: [(slot: Motor, part: "m", count: 3), (slot: Motor, part: "n")]"#),
        )
    }

    #[test]
    fn each_part_must_have_flown() {
        assert_eq!(of(r#"calm_min: 6, flown_with: ["m", "n"]"#), [Fits, Fits]);
        assert_eq!(of(r#"calm_min: 6, flown_with: ["m"]"#), [Fits, Tight]);
    }

    #[test]
    fn without_a_log_or_without_its_parts_there_is_nothing_to_say() {
        assert_eq!(of(r#"flown_with: ["x"]"#), []);
        assert_eq!(of("calm_min: 6"), []);
    }
}
