//! How long the report of the demo build takes.

use std::{hint::black_box, sync::Arc};

use criterion::Criterion;
use propwright_engine::{evaluate, policy::Policy};
use propwright_tests::sample;

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    let (catalogue, build, policy) = (sample::catalogue(), Arc::new(sample::demo()), Policy::default());
    criterion.bench_function("evaluate the demo build", |bencher| {
        bencher.iter(|| evaluate(black_box(&catalogue), black_box(&build), black_box(&policy)));
    });
    criterion.final_summary();
}
