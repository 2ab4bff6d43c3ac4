//! The rail from which a part is fed exists on some board.
//!
//! Formula: name of the rail ∈ rails of flight controller, regulator, power board and speed controller. Valid for names as
//! printed. Source: common practice, no source. When it fails, there is no pad to solder the part to.

use std::sync::Arc;

use propwright_schema::slot::Slot;

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    derive::feed::{self, FED, Fed, Source},
    finding::{Because, Missing, Outcome, Status, Unknown, Verdict},
    graph::{Property, Site, part},
};

const READS: [Property; feed::READS] = feed::reads(part(Slot::FlightController, "rails"));

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rail-known",
    title: "Rails that exist",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &FED,
    formula: "rail named in the list ∈ rails of the boards",
    source: "common practice, no source",
    law: Law::Match,
    reads: &READS,
    form: Form::Solved(check),
    says: Says {
        mismatch: "No board offers {feed}, from which the {feed.part} is fed",
        tight: "",
        fits: "The {feed.part} is fed from {feed}, which a board offers",
        costs: "There is no pad to solder it to.",
    },
    hints: &["Name the rail as the board prints it", "Add a regulator", "Choose a board with such a rail"],
    fails: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(rails: [(name: "5V", volts_v: 5)])]), (id: "g", name: "Fix", fills: [Gps()])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Gps, part: "g", feed: Rail("3.3V"))]"#,
    },
    passes: Example {
        parts: r#"(id: "f", name: "Board", fills: [FlightController(rails: [(name: "5V", volts_v: 5)])]), (id: "g", name: "Fix", fills: [Gps()])"#,
        build: r#"parts: [(slot: FlightController, part: "f"), (slot: Gps, part: "g", feed: Rail("5V"))]"#,
    },
};

struct Named {
    feed: Arc<Because>,
    exists: bool,
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, |named| Facts::from([("feed", named.feed.clone())]))
}

fn gather(site: &Site) -> Vec<Result<Named, Missing>> {
    let of = |fed: Fed| {
        let feed = fed.because?;
        match fed.source {
            Ok(Source::Pack) => None,
            Ok(Source::Rail(_)) => Some(Ok(Named { feed, exists: true })),
            Err(Missing { what: Unknown::Infeasible(_), .. }) => Some(Ok(Named { feed, exists: false })),
            Err(missing) => Some(Err(missing)),
        }
    };
    feed::fed(site).into_iter().filter_map(of).collect()
}

fn judge(named: &Named) -> Verdict {
    Verdict::plain(if named.exists { Status::Fits } else { Status::Mismatch })
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn any_board_will_do() {
        let gps = ("Gps", "", r#", feed: Rail("5V")"#);
        let five = r#"rails: [(name: "5V")]"#;
        assert_eq!(judged(&RULE, &[gps, ("FlightController", "rails: []", ""), ("Regulator", five, "")], ""), [Status::Fits]);
        assert_eq!(judged(&RULE, &[gps, ("FlightController", "rails: []", "")], ""), [Status::Mismatch]);
        assert_eq!(judged(&RULE, &[gps], ""), [Status::Mismatch]);
    }

    #[test]
    fn unpublished_rails_are_unstated() {
        assert_eq!(judged(&RULE, &[("Gps", "", r#", feed: Rail("5V")"#), ("FlightController", "", "")], ""), [Status::Unstated]);
    }
}
