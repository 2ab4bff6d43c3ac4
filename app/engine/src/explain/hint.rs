//! What usually helps against a finding, with the length that fits where the finding tells it.

use propwright_schema::{
    part::Thread,
    quantity::{Mm, Unit as _},
    value::Value,
};

use super::{figure, number};
use crate::{
    finding::{Because, Datum, Finding},
    interval::Interval,
    rules,
};

/// The usual ways out of a finding, from the first to the last resort. The first says how long a screw may or must be, where the
/// finding is about that: `Choose a shorter screw: at most 8.5 mm long`.
pub fn hints(finding: &Finding) -> Vec<String> {
    let usual = rules::by_id(finding.rule).map_or(&[][..], |rule| rule.hints);
    let mut hints: Vec<String> = usual.iter().map(|hint| (*hint).to_owned()).collect();
    if let (Some(first), Some(length)) = (hints.first_mut(), screw_length(finding)) {
        first.push_str(": ");
        first.push_str(&length);
    }
    hints
}

/// The length of screw that fits, in words; nothing for other findings, and where the screw's own length is not known.
fn screw_length(finding: &Finding) -> Option<String> {
    match finding.rule {
        "motor-screw-length" => longest(finding),
        "motor-screw-grip" => shortest(finding),
        _ => None,
    }
}

fn fact<'f>(finding: &'f Finding, name: &str) -> Option<&'f Because> {
    finding.outcome.facts.iter().find(|(fact, _)| *fact == name).map(|(_, because)| &**because)
}

/// A field of the part that a step is about.
fn field_of(step: &Because, field: &str) -> Option<Value> {
    let subject = step.subject()?;
    subject.part.role(subject.slot)?.get(field)
}

/// Length − what reaches too far.
fn longest(finding: &Finding) -> Option<String> {
    let (reach, depth) = (fact(finding, "left")?, fact(finding, "right")?);
    let length = Interval::of(&field_of(reach, "length_mm")?)?;
    let too_far = reach.datum()?.figure()?.minus(depth.datum()?.figure()?);
    Some(format!("at most {} long", figure(&length.minus(too_far))))
}

/// Length + what is lacking to the turns that hold, upwards to a tenth of a millimetre.
fn shortest(finding: &Finding) -> Option<String> {
    let reach = fact(finding, "reach")?;
    let length = Interval::of(&field_of(reach, "length_mm")?)?;
    let word = field_of(reach, "thread")?;
    let thread = Thread::ALL.iter().find(|thread| Some(thread.word()) == word.word())?;
    let turns = finding.outcome.verdict.required.as_ref().and_then(Datum::figure)?;
    let lacking = turns.si() * thread.pitch().si().value - reach.datum()?.figure()?.si();
    let tenths = ((length.si() + lacking) * 1e4 - 1e-6).ceil();
    Some(format!("at least {} {} long", number(tenths / 10.0), Mm::INFO.symbol))
}

#[cfg(test)]
mod tests {
    use super::hints;
    use crate::{
        finding::{Finding, Status},
        graph::{Store, graph},
        policy::Policy,
        rules::trial::craft,
    };

    fn found(rule: &'static str, screw: &str, between: &str) -> Finding {
        let parts = format!(
            r#"(id: "f", name: "F", fills: [Frame(arm_thickness_mm: 5)]),
            (id: "m", name: "M", fills: [Motor(thread: M3, thread_depth_mm: 3.5)]),
            (id: "s", name: "S", fills: [Screw({screw})])"#
        );
        let build = format!(
            r#"parts: [(slot: Frame, part: "f"), (slot: Motor, part: "m"), (slot: MotorScrew, part: "s", count: 16{between})]"#
        );
        let found = graph().toward(rule).run(&craft(&parts, &build), &Policy::default(), &mut Store::new());
        found.into_iter().next().unwrap()
    }

    #[test]
    fn a_screw_that_is_too_long_says_how_long_it_may_be() {
        // 5 mm of arm and 3.5 mm of thread; a listed washer of 0.5 mm lets it be so much longer.
        let finding = found("motor-screw-length", "thread: M3, length_mm: 10", "");
        assert_eq!(finding.status(), Status::Mismatch);
        assert_eq!(hints(&finding)[0], "Choose a shorter screw: at most 8.5 mm long");
        let washer = found("motor-screw-length", "thread: M3, length_mm: 10", ", between_mm: 0.5");
        assert_eq!(hints(&washer)[0], "Choose a shorter screw: at most 9 mm long");
    }

    #[test]
    fn a_screw_that_is_too_short_says_how_long_it_must_be() {
        // 5 mm of arm and three turns of 0.5 mm (ISO 261); also where it does not come through the arm.
        for length in ["6", "4"] {
            let finding = found("motor-screw-grip", &format!("thread: M3, length_mm: {length}"), "");
            assert_eq!(finding.status(), Status::Mismatch);
            assert_eq!(hints(&finding)[0], "Choose a longer screw, short of the winding: at least 6.5 mm long");
        }
    }

    #[test]
    fn other_findings_keep_their_hints() {
        let finding = found("motor-screw-thread", "thread: M2, length_mm: 6", "");
        assert_eq!(hints(&finding), crate::rules::by_id("motor-screw-thread").unwrap().hints);
    }
}
