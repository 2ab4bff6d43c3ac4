//! How long a build sheet takes, from the report to the bytes of its file.

use std::hint::black_box;

use criterion::Criterion;
use propwright_paper::sheet::{Format, Setting, build_sheet, pdf, svg};
use propwright_tests::sample;

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    let report = sample::report(&sample::catalogue(), &sample::demo());
    let setting = Setting { format: Format::A4, day: None };
    criterion.bench_function("build sheet as PDF", |bencher| bencher.iter(|| pdf(&build_sheet(black_box(&report), setting))));
    criterion.bench_function("build sheet as leaves", |bencher| bencher.iter(|| build_sheet(black_box(&report), setting)));
    let sheet = build_sheet(&report, setting);
    criterion.bench_function("first leaf as SVG", |bencher| bencher.iter(|| svg(black_box(&sheet.leaves[0]))));
    criterion.final_summary();
}
