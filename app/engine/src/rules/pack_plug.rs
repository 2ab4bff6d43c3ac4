//! The pack's plug goes into the craft's.
//!
//! Formula: plug family of the pack = that of the selector, else of the anti-spark plug, else of the speed controller's lead
//! where its record tells of one. Valid for plugs fitted as sold; any plug can be soldered anew. Source: common practice, no
//! source. When it fails, the pack cannot be plugged in, or only through an adapter that grows hot.

use std::sync::Arc;

use propwright_schema::{slot::Slot, value::Value};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Because, Datum, Missing, Outcome, Status, Verdict},
    graph::{Property, Reading, Site, part},
};

const PACK: Property = part(Slot::Battery, "plug");
const SELECTOR: Property = part(Slot::PackSelector, "plug");
const ANTI_SPARK: Property = part(Slot::AntiSpark, "plug");
const ESC: Property = part(Slot::Esc, "plugs");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pack-plug",
    title: "Plug of the pack",
    group: Group::Electrical,
    weight: Weight::Finding,
    slots: &[Slot::Battery, Slot::PackSelector, Slot::AntiSpark, Slot::Esc],
    formula: "plug of the pack = plug of selector, anti-spark plug or speed controller",
    source: "common practice, no source",
    law: Law::Match,
    reads: &[PACK, SELECTOR, ANTI_SPARK, ESC],
    form: Form::Solved(check),
    says: Says {
        mismatch: "The {pack.part} has a {pack}; the {craft.part} has a {craft}",
        tight: "",
        fits: "The {pack.part} plugs into the {craft.part}: {pack}",
        costs: "The pack cannot be plugged in, or only through an adapter that grows hot.",
    },
    hints: &["Choose a pack with the craft's plug", "Solder the craft's plug anew, never with the pack live"],
    fails: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(plug: "3.5 mm bullet pair 60 A")]), (id: "a", name: "Lead", fills: [AntiSpark(plug: "5.5 mm bullet pair 150 A")])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: AntiSpark, part: "a")]"#,
    },
    passes: Example {
        parts: r#"(id: "p", name: "Pack", fills: [Battery(plug: "5.5 mm bullet pair 150 A")]), (id: "a", name: "Lead", fills: [AntiSpark(plug: "5.5 mm bullet pair 150 A")])"#,
        build: r#"parts: [(slot: Battery, part: "p"), (slot: AntiSpark, part: "a")]"#,
    },
};

struct Joint {
    pack: Reading,
    craft: Arc<Because>,
    plugs: [Value; 2],
}

fn check(site: &Site) -> Vec<Outcome> {
    run(site, gather, judge, facts)
}

fn gather(site: &Site) -> Vec<Result<Joint, Missing>> {
    let Some(craft) = craft_side(site) else { return Vec::new() };
    let of = |pack: Reading| {
        let (plug, because) = craft.clone()?;
        Ok(Joint { plugs: [pack.value()?.clone(), plug], craft: because, pack })
    };
    site.all(PACK).into_iter().map(of).collect()
}

/// The plug into which packs go, with its reason; nothing when the craft's lead is still to be made.
fn craft_side(site: &Site) -> Option<Result<(Value, Arc<Because>), Missing>> {
    let fitted = site.all(SELECTOR).into_iter().chain(site.all(ANTI_SPARK)).next();
    match fitted {
        Some(fitted) => Some(fitted.value().cloned().map(|plug| (plug, fitted.because.clone()))),
        None => site.all(ESC).iter().find_map(lead).map(Ok),
    }
}

/// The plug of a speed controller's own lead to the pack.
fn lead(esc: &Reading) -> Option<(Value, Arc<Because>)> {
    let plugs = esc.items().ok()?;
    let to_pack = plugs.iter().find(|plug| plug.field("to").and_then(Value::word) == Some("pack"))?;
    let plug = to_pack.field("plug")?.clone();
    let because = esc.inner(esc.subject.as_ref()?, "plug", Datum::Value(plug.clone()));
    Some((plug, because))
}

fn judge(joint: &Joint) -> Verdict {
    let [pack, craft] = &joint.plugs;
    let status = if pack == craft { Status::Fits } else { Status::Mismatch };
    Verdict::of_words(status, Datum::Value(craft.clone()), Datum::Value(pack.clone()))
}

fn facts(joint: &Joint) -> Facts {
    vec![("pack", joint.pack.because.clone()), ("craft", joint.craft.clone())]
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::{finding::Status, rules::trial::judged};

    #[test]
    fn the_selector_comes_before_the_controller() {
        let (pack, selector) = (("Battery", r#"plug: "60 A""#, ""), ("PackSelector", r#"plug: "60 A""#, ""));
        let esc = ("Esc", r#"plugs: [(to: "pack", plug: "90 A")]"#, "");
        assert_eq!(judged(&RULE, &[pack, selector, esc], ""), [Status::Fits]);
        assert_eq!(judged(&RULE, &[pack, esc], ""), [Status::Mismatch]);
    }

    #[test]
    fn unpublished_is_unstated_and_a_bare_lead_takes_any_plug() {
        let pack = ("Battery", r#"plug: "60 A""#, "");
        assert_eq!(judged(&RULE, &[pack, ("AntiSpark", "", "")], ""), [Status::Unstated]);
        assert_eq!(judged(&RULE, &[("Battery", "", ""), ("AntiSpark", r#"plug: "60 A""#, "")], ""), [Status::Unstated]);
        assert_eq!(judged(&RULE, &[pack, ("Esc", "plugs: []", "")], ""), []);
    }
}
