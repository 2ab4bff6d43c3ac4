//! What else fits in a slot: the fast search answers as the plain evaluation of each exchange does.

use std::sync::Arc;

use propwright_engine::{
    evaluate,
    finding::Status,
    fit::{self, Place, Search},
    policy::Policy,
};
use propwright_schema::slot::Slot;
use propwright_tests::sample;

#[test]
fn the_search_answers_as_the_plain_evaluation() {
    let (catalogue, policy) = (sample::catalogue(), Policy::default());
    for (name, build) in sample::reference() {
        let base = evaluate(&catalogue, &Arc::new(build), &policy);
        for slot in Slot::ALL.iter().copied() {
            let place = Place::nth(&base.craft, slot, 0);
            for candidate in Search::new(&catalogue, &base, &policy, place).finish() {
                let plain = fit::candidate(&catalogue, &base, &policy, place, &candidate.part);
                assert_eq!(candidate, plain, "{name}: {} in {slot}", candidate.part.id);
            }
        }
    }
}

#[test]
fn the_fitted_part_goes_with_its_sound_craft() {
    let (catalogue, policy) = (sample::catalogue(), Policy::default());
    for (name, build) in sample::reference() {
        let base = evaluate(&catalogue, &Arc::new(build), &policy);
        for slot in Slot::ALL.iter().copied() {
            let place = Place::nth(&base.craft, slot, 0);
            let all = Search::new(&catalogue, &base, &policy, place).finish();
            for fitted in all.iter().filter(|candidate| candidate.fitted) {
                assert!(matches!(fitted.status, Status::Fits | Status::Tight), "{name}: {slot} is {}", fitted.status.word());
            }
        }
    }
}
