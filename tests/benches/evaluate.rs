//! How long the report of the demo build takes, measured figures and all, and a propeller's table.

use std::{hint::black_box, sync::Arc};

use criterion::Criterion;
use propwright_engine::{
    evaluate,
    models::{atmosphere::Air, bem::AdvanceTable, propeller::Geometry},
    policy::Policy,
};
use propwright_schema::quantity::Minutes;
use propwright_tests::sample;

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    let (catalogue, build, policy) = (sample::catalogue(), Arc::new(sample::demo()), Policy::default());
    criterion.bench_function("evaluate the demo build", |bencher| {
        bencher.iter(|| evaluate(black_box(&catalogue), black_box(&build), black_box(&policy)));
    });
    let mut logged = sample::demo();
    logged.logged.calm_min = Minutes::from_decimal(6.5).ok();
    let logged = Arc::new(logged);
    criterion.bench_function("evaluate the demo build with a log", |bencher| {
        bencher.iter(|| evaluate(black_box(&catalogue), black_box(&logged), black_box(&policy)));
    });
    let size = Geometry { chord_75_m: Some(0.0115), ..Geometry::inches(5.1, 4.3, 3) };
    if let Ok(air) = Air::standard(0.0) {
        criterion.bench_function("a propeller's table", |bencher| {
            bencher.iter(|| AdvanceTable::compute(black_box(&size), black_box(&air)));
        });
    }
    criterion.final_summary();
}
