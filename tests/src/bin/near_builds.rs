//! Proves the ways out of builds near the reference builds: `cargo run --release -p propwright-tests --bin near_builds -- [COUNT [FIRST]]`.

use std::{env, io::Write, process::ExitCode};

use propwright_tests::{
    near_builds::{Checked, check, near_build},
    sample,
};

/// How many builds are checked unless a count is given.
const COUNT: usize = 10_000;

fn main() -> ExitCode {
    let numbers: Vec<usize> = env::args().skip(1).filter_map(|text| text.parse().ok()).collect();
    let (count, first) = (numbers.first().copied().unwrap_or(COUNT), numbers.get(1).copied().unwrap_or(0));
    let (catalogue, reference) = (sample::catalogue(), sample::reference());
    let (mut sum, mut slips) = (Checked::default(), 0);
    let mut out = std::io::stdout();
    for number in first..first + count {
        match check(&catalogue, &near_build(&catalogue, &reference, number)) {
            Ok(checked) => {
                for untold in &checked.untold {
                    let _ = writeln!(out, "build {number}: no conflict is told of {untold}");
                }
                if checked.without_set > 0 {
                    let _ = writeln!(out, "build {number}: no set of steps settles all {} mismatches", checked.mismatches);
                }
                sum += Checked { untold: Vec::new(), ..checked };
            }
            Err(slip) => {
                slips += 1;
                let _ = writeln!(out, "build {number}: {slip}");
            }
        }
    }
    let _ = writeln!(out, "{count} builds from {first}: {slips} slips; {sum:?}");
    if slips == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
