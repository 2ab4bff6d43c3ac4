//! How long it takes until the first rows of a picker are judged, all of the demo catalogue, and all survivors of 20 000 parts.
//!
//! Each slot of the demo build is measured by itself; the slowest is what counts.

use std::{hint::black_box, sync::Arc};

use criterion::{Criterion, SamplingMode};
use propwright_engine::{
    Report,
    bill::Given,
    evaluate_with,
    fit::{Means, Place, Search},
    policy::Policy,
};
use propwright_schema::{catalogue::Catalogue, slot::Slot};
use propwright_tests::{
    many_parts::{MANY, SEED, parts},
    sample,
};

/// Rows that one sees at once.
const ROWS: usize = 30;
const SLOTS: [Slot; 6] = [Slot::Frame, Slot::Motor, Slot::Propeller, Slot::Esc, Slot::FlightController, Slot::Battery];

fn base(means: Means<'_>) -> Report {
    evaluate_with(means.catalogue, &Arc::new(sample::demo()), means.policy, means.given)
}

/// Goes on until every part has its final status; those that plain comparison does not forbid are solved.
fn survivors(mut search: Search) -> usize {
    let mut found = 0;
    while search.left() > 0 {
        found += search.next_chunk(1).len();
    }
    found
}

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    let (policy, given) = (Policy::default(), Given::default());
    let demo = sample::catalogue();
    let many: Catalogue = demo.parts().cloned().chain(parts(MANY, SEED).into_iter().map(Arc::new)).collect();
    for (name, catalogue) in [("demo catalogue", &demo), ("20 000 parts", &many)] {
        let means = Means { catalogue, policy: &policy, given: &given };
        let base = base(means);
        let mut group = criterion.benchmark_group(name);
        group.sampling_mode(SamplingMode::Flat).sample_size(10);
        for slot in SLOTS {
            let search = || Search::new(means, &base, Place::nth(&base.craft, slot, 0));
            group.bench_function(format!("first rows, {slot}"), |bencher| bencher.iter(|| black_box(search().next_chunk(ROWS))));
            group.bench_function(format!("survivors, {slot}"), |bencher| bencher.iter(|| black_box(survivors(search()))));
            if catalogue.parts().count() < MANY {
                group.bench_function(format!("all whole, {slot}"), |bencher| bencher.iter(|| black_box(search().finish())));
            }
        }
        group.finish();
    }
    criterion.final_summary();
}
