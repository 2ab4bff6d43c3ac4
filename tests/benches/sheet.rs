//! How long a build sheet and the flight curves take, from the report to the bytes of their files.

use std::hint::black_box;

use criterion::Criterion;
use propwright_engine::{policy::Policy, sweep::sweep};
use propwright_paper::sheet::{Format, Setting, build_sheet, flight_curves, pdf, svg};
use propwright_tests::sample;

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    let report = sample::report(&sample::catalogue(), &sample::demo());
    let setting = Setting { format: Format::A4, day: None };
    criterion.bench_function("build sheet as PDF", |bencher| bencher.iter(|| pdf(&build_sheet(black_box(&report), setting))));
    criterion.bench_function("build sheet as leaves", |bencher| bencher.iter(|| build_sheet(black_box(&report), setting)));
    let sheet = build_sheet(&report, setting);
    criterion.bench_function("first leaf as SVG", |bencher| bencher.iter(|| svg(black_box(&sheet.leaves[0]))));
    let policy = Policy::default();
    let curves = |report| pdf(&flight_curves(report, &sweep(report, &policy), setting));
    criterion.bench_function("flight curves as PDF", |bencher| bencher.iter(|| curves(black_box(&report))));
    criterion.final_summary();
}
