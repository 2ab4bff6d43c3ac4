//! What a purpose asks of a craft: the thresholds that go by use and place, and the findings that speak of them.

use propwright_schema::{
    build_list::{Place, Purpose, Use},
    slot::Slot,
};

use crate::{
    craft::Craft,
    derive, explain,
    finding::Finding,
    graph::Of,
    policy::{HOVER_DUTY, HOVER_DUTY_MICRO, Limit, Policy},
    rules,
};

/// A threshold that a purpose brings with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// The threshold as it is in force.
    pub limit: Limit,
    /// Changed by the user's own policy file.
    pub edited: bool,
}

/// The thresholds that the use and the place of a purpose decide; nothing for what it leaves open.
pub fn thresholds(purpose: &Purpose, policy: &Policy) -> Vec<Asked> {
    let of_use = |usage: Use| {
        let duty = if usage == Use::DuctedMicro { HOVER_DUTY_MICRO } else { HOVER_DUTY };
        let usual = purpose.burst_s.is_none().then(|| derive::burst_of(usage.word()));
        [Some(rules::thrust_of(usage.word())), Some(duty), usual].into_iter().flatten().collect::<Vec<_>>()
    };
    let of_place = |place: Place| derive::margin_of(place.word());
    let limits = purpose.usage.map(of_use).into_iter().flatten().chain(purpose.place.map(of_place));
    let in_force = |limit: Limit| {
        let (limit, edited) = policy.limit(&limit);
        Asked { limit, edited }
    };
    limits.map(in_force).collect()
}

/// What kind of craft it is by its frame and its propellers, such as "open craft, 4 motors, propellers of 5.1 in"; `None` without a
/// frame.
pub fn kind_of(craft: &Craft) -> Option<String> {
    let first = |slot: Slot, field: &str| {
        let placed = craft.in_slot(slot).first()?;
        placed.subject.part.role(slot)?.get(field)
    };
    craft.in_slot(Slot::Frame).first()?;
    let guard = first(Slot::Frame, "guard").and_then(|guard| guard.word().map(str::to_owned));
    let mut words = vec![match guard.as_deref() {
        Some("open") => "open craft".to_owned(),
        Some(guard) => format!("craft with a {guard}"),
        None => "craft".to_owned(),
    }];
    let motors: u32 = craft.in_slot(Slot::Motor).iter().map(|placed| placed.fitted.count).sum();
    words.extend((motors > 0).then(|| format!("{motors} motors")));
    words.extend(first(Slot::Propeller, "diameter_in").map(|diameter| format!("propellers of {}", explain::value(&diameter))));
    Some(words.join(", "))
}

/// Does a finding hang on what the craft is for, who flies it or what the day is like?
pub(crate) fn is_asked(finding: &Finding) -> bool {
    let around = ["purpose.", "pilot.", "conditions."];
    let reads = |rule: &rules::Rule| {
        rule.reads.iter().any(|read| read.of == Of::Build && around.iter().any(|record| read.field.starts_with(record)))
    };
    rules::by_id(finding.rule).is_some_and(reads)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use propwright_schema::quantity::Seconds;

    use super::*;
    use crate::policy::{BURST_DUCTED, BURST_SPEED, Edit, MARGIN_WALLS, THRUST_DUCTED_MICRO, THRUST_SPEED};

    fn names(purpose: &Purpose) -> Vec<&'static str> {
        thresholds(purpose, &Policy::default()).iter().map(|asked| asked.limit.name).collect()
    }

    #[test]
    fn use_and_place_bring_their_thresholds() {
        let purpose = Purpose { usage: Some(Use::DuctedMicro), place: Some(Place::Walls), ..Purpose::default() };
        assert_eq!(names(&purpose), [THRUST_DUCTED_MICRO.name, HOVER_DUTY_MICRO.name, BURST_DUCTED.name, MARGIN_WALLS.name]);
        let purpose = Purpose { usage: Some(Use::Speed), ..Purpose::default() };
        assert_eq!(names(&purpose), [THRUST_SPEED.name, HOVER_DUTY.name, BURST_SPEED.name]);
        assert_eq!(names(&Purpose::default()), [""; 0]);
    }

    #[test]
    fn seconds_that_the_purpose_says_itself_are_no_threshold() {
        let purpose = Purpose { usage: Some(Use::Speed), burst_s: Seconds::parse("3").ok(), ..Purpose::default() };
        assert_eq!(names(&purpose), [THRUST_SPEED.name, HOVER_DUTY.name]);
    }

    #[test]
    fn the_users_own_threshold_is_told_apart() {
        let edit = Edit { tight: Some(6.0), mismatch: None };
        let policy = Policy::edited(BTreeMap::from([(THRUST_SPEED.name.to_owned(), edit)]));
        let purpose = Purpose { usage: Some(Use::Speed), ..Purpose::default() };
        let asked = thresholds(&purpose, &policy);
        assert_eq!((asked[0].limit.tight, asked[0].limit.mismatch, asked[0].edited), (Some(6.0), THRUST_SPEED.mismatch, true));
        assert!(!asked[1].edited);
    }
}
