//! Motors of one craft are the same in all that turns, holds and connects them: one that replaces another beside the rest.
//!
//! Formula: stator, poles, winding, shaft, fixing equal; |KV − KV₀|/KV₀ ≤ 3 %; leads end alike and are no shorter. Valid for the
//! motors of one craft, each line against the first. Source: common practice, no source. When it fails, that corner answers
//! otherwise than the rest: the craft hums, runs a motor hot or yaws in a punch-out.

use propwright_schema::{part::LeadEnd, slot::Slot};

use super::{Example, Facts, Form, Group, Law, Rule, Says, Weight, run};
use crate::{
    finding::{Missing, Status, Verdict},
    graph::{Property, Reading, Site, part},
    interval::Interval,
    policy::{self, Policy},
    verdict,
};

const KV: Property = part(Slot::Motor, "kv_rpm_per_v");
const LEAD_END: Property = part(Slot::Motor, "lead_end");
const LEAD_LENGTH: Property = part(Slot::Motor, "lead_length_mm");
const ID: Property = part(Slot::Motor, "id");

/// What is compared.
const ASPECTS: [Property; 9] = [
    part(Slot::Motor, "stator_diameter_mm"),
    part(Slot::Motor, "stator_height_mm"),
    part(Slot::Motor, "poles"),
    part(Slot::Motor, "winding"),
    KV,
    part(Slot::Motor, "shaft_mm"),
    part(Slot::Motor, "fixing"),
    LEAD_END,
    LEAD_LENGTH,
];

const READS: [Property; ASPECTS.len() + 1] = {
    let mut reads = [ID; ASPECTS.len() + 1];
    let mut at = 0;
    while at < ASPECTS.len() {
        reads[at] = ASPECTS[at];
        at += 1;
    }
    reads
};

/// Two motors that differ in one field.
macro_rules! motors {
    ($differs:literal) => {
        concat!(
            r#"(id: "a", name: "Old", fills: [Motor(stator_diameter_mm: 22, stator_height_mm: 7, poles: 14, winding: Delta, shaft_mm: 5,
            fixing: Nut, lead_end: Bare, lead_length_mm: 150, kv_rpm_per_v: 1750)]),
            (id: "b", name: "New", fills: [Motor(stator_diameter_mm: 22, stator_height_mm: 7, poles: 14, winding: Delta, shaft_mm: 5,
            fixing: Nut, lead_end: Bare, lead_length_mm: 150, "#,
            $differs,
            ")])"
        )
    };
}

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "motor-match",
    title: "Motors alike",
    group: Group::Mechanical,
    weight: Weight::Finding,
    slots: &[Slot::Motor],
    formula: "stator, poles, winding, shaft, fixing equal; |KV − KV₀|/KV₀ ≤ 3 %; leads end alike, no shorter",
    source: "common practice, no source",
    law: Law::Match,
    reads: &READS,
    form: Form::Solved(|site| run(site, gather, |inputs| judge(inputs, site.policy()), |inputs| facts(inputs, site))),
    says: Says {
        mismatch: "The {new.part} does not match the {old.part} beside it: {new.title} {new}, not {old}",
        tight: "The {new.part} is not quite the {old.part} beside it: {new.title} {new}, not {old}",
        fits: "The {new.part} matches the {old.part} beside it in its {new.title}",
        costs: "That corner answers otherwise than the rest: it hums, runs hot, or yaws in a punch-out.",
    },
    hints: &["Choose the same motor", "Change all motors", "Choose one of the same stator, poles, winding and KV"],
    fails: Example { parts: motors!("kv_rpm_per_v: 1850"), build: BUILD },
    passes: Example { parts: motors!("kv_rpm_per_v: 1750"), build: BUILD },
};

const BUILD: &str = r#"parts: [(slot: Motor, part: "a", count: 3), (slot: Motor, part: "b")]"#;

/// One field of a motor and of the first one.
struct Inputs {
    aspect: Property,
    new: Reading,
    old: Reading,
}

fn gather(site: &Site) -> Vec<Result<Inputs, Missing>> {
    let ids = site.all(ID);
    let Some(first) = ids.first().and_then(|id| id.word().ok()) else { return Vec::new() };
    let others = ids.iter().enumerate().filter(|(_, id)| id.word().is_ok_and(|id| id != first));
    others.flat_map(|(at, _)| ASPECTS.map(|aspect| pair(site, aspect, at)).into_iter().flatten()).collect()
}

fn pair(site: &Site, aspect: Property, at: usize) -> Option<Result<Inputs, Missing>> {
    let mut all = site.all(aspect);
    let new = all.get(at)?.clone();
    let inputs = Inputs { aspect, new, old: all.swap_remove(0) };
    Some(match (&inputs.new.known, &inputs.old.known) {
        (Err(missing), _) | (_, Err(missing)) => Err(missing.clone()),
        _ => Ok(inputs),
    })
}

fn judge(inputs: &Inputs, policy: &Policy) -> Verdict {
    let verdict = match inputs.aspect {
        KV => speeds(inputs, policy),
        LEAD_END => of(inputs, ends(inputs)),
        LEAD_LENGTH => of(inputs, if longer(inputs) { Status::Fits } else { Status::Tight }),
        _ => of(inputs, if alike(inputs) { Status::Fits } else { Status::Mismatch }),
    };
    verdict.softened(inputs.new.is_estimated() || inputs.old.is_estimated())
}

fn of(inputs: &Inputs, status: Status) -> Verdict {
    Verdict { status, required: inputs.old.known.clone().ok(), available: inputs.new.known.clone().ok(), margin: None }
}

fn alike(inputs: &Inputs) -> bool {
    match (inputs.new.figure(), inputs.old.figure()) {
        (Ok(new), Ok(old)) => new.nominal == old.nominal,
        _ => inputs.new.value().ok() == inputs.old.value().ok(),
    }
}

fn longer(inputs: &Inputs) -> bool {
    matches!((inputs.new.figure(), inputs.old.figure()), (Ok(new), Ok(old)) if new.nominal >= old.nominal)
}

/// A plug can be cut off to solder the leads; bare leads cannot be plugged in.
fn ends(inputs: &Inputs) -> Status {
    match inputs.new.word() {
        _ if alike(inputs) => Status::Fits,
        Ok(bare) if bare == LeadEnd::Bare.word() => Status::Mismatch,
        _ => Status::Tight,
    }
}

fn speeds(inputs: &Inputs, policy: &Policy) -> Verdict {
    let (Ok(new), Ok(old)) = (inputs.new.figure(), inputs.old.figure()) else { return of(inputs, Status::Unstated) };
    let apart = Interval::exact((new.nominal - old.nominal).abs(), new.unit);
    of(inputs, verdict::within_share(apart, old, &policy::MOTOR_MATCH_KV, policy).status)
}

fn facts(inputs: &Inputs, site: &Site) -> Facts {
    let mut facts = vec![("new", inputs.new.because.clone()), ("old", inputs.old.because.clone())];
    if inputs.aspect == KV {
        facts.push(("limit", site.threshold(&policy::MOTOR_MATCH_KV)));
    }
    facts
}

#[cfg(test)]
mod tests {
    use super::{BUILD, RULE};
    use crate::{finding::Status, rules::trial::verdicts};

    /// The gravest when the new motor differs from the old one by one field.
    fn with(old: &str, new: &str) -> Status {
        let same = motors!("kv_rpm_per_v: 1750");
        let (first, second) = same.split_once("(id: \"b\"").unwrap();
        assert!(second.contains(old));
        let parts = format!("{first}(id: \"b\"{}", second.replace(old, new));
        verdicts(&RULE, &parts, BUILD).into_iter().max().unwrap()
    }

    #[test]
    fn kv_within_three_per_cent() {
        assert_eq!(with("1750", "1750"), Status::Fits);
        assert_eq!(with("1750", "1802"), Status::Tight, "2.97 %");
        assert_eq!(with("1750", "1698"), Status::Tight);
        assert_eq!(with("1750", "1803"), Status::Mismatch, "3.03 %");
    }

    #[test]
    fn what_turns_and_holds_is_the_same() {
        let others = [
            ("mm: 22", "mm: 23"),
            ("mm: 7", "mm: 8"),
            ("poles: 14", "poles: 12"),
            ("Delta", "Star"),
            ("shaft_mm: 5", "shaft_mm: 4"),
        ];
        for (old, new) in others.into_iter().chain([("fixing: Nut", "fixing: Press")]) {
            assert_eq!(with(old, new), Status::Mismatch, "{new}");
        }
    }

    #[test]
    fn leads_reach_and_end_alike() {
        assert_eq!(with("lead_length_mm: 150", "lead_length_mm: 160"), Status::Fits);
        assert_eq!(with("lead_length_mm: 150", "lead_length_mm: 140"), Status::Tight, "leads can be lengthened");
        assert_eq!(with("Bare", "Plug"), Status::Tight, "a plug is cut off");
        let plugs = motors!("kv_rpm_per_v: 1750").replacen("Bare", "Plug", 1);
        assert_eq!(verdicts(&RULE, &plugs, BUILD).into_iter().max(), Some(Status::Mismatch), "bare leads beside plugs");
    }

    #[test]
    fn unpublished_is_unstated() {
        assert_eq!(with("winding: Delta, ", ""), Status::Unstated);
        assert_eq!(with("kv_rpm_per_v: 1750", ""), Status::Unstated);
    }

    #[test]
    fn an_estimate_only_warns() {
        let parts =
            motors!("kv_rpm_per_v: 1850").replace("name: \"New\",", "name: \"New\", basis: {\"kv_rpm_per_v\": Estimate},");
        assert_eq!(verdicts(&RULE, &parts, BUILD).into_iter().max(), Some(Status::Tight));
    }

    #[test]
    fn the_same_motor_needs_no_comparison() {
        let parts = motors!("kv_rpm_per_v: 1750");
        assert_eq!(
            verdicts(&RULE, parts, r#"parts: [(slot: Motor, part: "a", count: 2), (slot: Motor, part: "a", count: 2)]"#),
            []
        );
        assert_eq!(verdicts(&RULE, parts, r#"parts: [(slot: Motor, part: "a", count: 4)]"#), []);
    }
}
