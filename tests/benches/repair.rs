//! How long the ways out of four planted faults take: at most 1 s.

use std::{hint::black_box, sync::Arc};

use criterion::Criterion;
use propwright_engine::{
    bill::Given,
    evaluate,
    fit::{Means, repair::Repair},
    policy::Policy,
};
use propwright_schema::{build_list::Feed, slot::Slot};
use propwright_tests::sample;

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    let (catalogue, policy) = (sample::catalogue(), Policy::default());
    let mut build = sample::demo();
    for fitted in &mut build.parts {
        match fitted.slot {
            Slot::MotorScrew => "screw-m3x10".clone_into(&mut fitted.part),
            Slot::Esc => "duskmarl-billhook-55-b".clone_into(&mut fitted.part),
            Slot::AntennaVideo => "mirrowick-clover-rpsma".clone_into(&mut fitted.part),
            Slot::VideoTransmitter => fitted.feed = Some(Feed::Pack),
            _ => {}
        }
    }
    let base = evaluate(&catalogue, &Arc::new(build), &policy);
    let given = Given::default();
    let means = Means { catalogue: &catalogue, policy: &policy, given: &given };
    criterion.bench_function("ways out of four faults", |bencher| {
        bencher.iter(|| Repair::new(black_box(means), black_box(&base)).finish());
    });
    criterion.final_summary();
}
