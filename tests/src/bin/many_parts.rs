//! Writes a large generated catalogue: `cargo run -p propwright-tests --bin many_parts -- FILE [COUNT [SEED]]`.

use std::{env, fs, process::ExitCode};

use propwright_tests::many_parts::{MANY, SEED, catalogue_text};

fn main() -> ExitCode {
    let args: Vec<String> = env::args().skip(1).collect();
    match write(&args) {
        Ok(()) => ExitCode::SUCCESS,
        Err(reason) => {
            let _ = std::io::Write::write_fmt(&mut std::io::stderr(), format_args!("{reason}\n"));
            ExitCode::FAILURE
        }
    }
}

fn write(args: &[String]) -> Result<(), String> {
    let (file, numbers) = args.split_first().ok_or("usage: many_parts FILE [COUNT [SEED]]")?;
    let number = |at: usize, usual: u64| {
        numbers.get(at).map_or(Ok(usual), |text| text.parse().map_err(|_| format!("{text} is no number")))
    };
    let count = usize::try_from(number(0, MANY as u64)?).map_err(|error| error.to_string())?;
    fs::write(file, catalogue_text(count, number(1, SEED)?)).map_err(|error| format!("{file}: {error}"))
}
