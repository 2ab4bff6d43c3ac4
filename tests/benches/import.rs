//! How long it takes to read a table of 5 000 rows into a catalogue, to find what is there already among 20 000 parts, and to
//! write the catalogue. Within two seconds together.

use std::hint::black_box;

use criterion::{Criterion, SamplingMode};
use propwright_schema::{
    catalogue::{Catalogue, CatalogueFile},
    save,
    table::{Import, Same, duplicates, merge, write_catalogue},
    version::CURRENT,
};
use propwright_tests::many_parts::{MANY, SEED, parts};

/// Rows of the table.
const ROWS: usize = 5_000;

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    let file = |count, seed| {
        let parts = parts(count, seed).into_iter().map(Into::into).collect();
        CatalogueFile { version: CURRENT, parts, kits: Vec::new() }
    };
    let empty = CatalogueFile { version: CURRENT, parts: Vec::new(), kits: Vec::new() };
    let table = write_catalogue(&file(ROWS, SEED)).unwrap_or_default();
    let mut known = Catalogue::default();
    known.lay_over(&file(MANY, SEED + 1));
    let read = || Import::new("many.csv", &table).map_or_else(|_| empty.clone(), |import| import.finish().catalogue);
    let mut group = criterion.benchmark_group("import");
    group.sampling_mode(SamplingMode::Flat).sample_size(10);
    group.bench_function("5 000 rows read", |bencher| bencher.iter(|| black_box(read())));
    let whole = || {
        let read = read();
        let merged = merge(&empty, &read, &duplicates(&read, &known), |_| Same::Theirs);
        save::write_catalogue(None, &empty, &merged.catalogue).map(|text| text.len())
    };
    group.bench_function("5 000 rows read, compared with 20 000 parts, written", |bencher| bencher.iter(|| black_box(whole())));
    group.finish();
    criterion.final_summary();
}
