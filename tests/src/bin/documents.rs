//! Writes the generated tables of DEVELOPERS.md again.

use std::{fs, path::Path, process::ExitCode};

fn main() -> ExitCode {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../DEVELOPERS.md");
    let refreshed = fs::read_to_string(&path).map_err(|error| error.to_string());
    let refreshed = refreshed.and_then(|text| {
        propwright_tests::documents::refreshed(&text).map_err(|name| format!("DEVELOPERS.md has no place for `{name}`"))
    });
    match refreshed.and_then(|text| fs::write(&path, text).map_err(|error| error.to_string())) {
        Ok(()) => ExitCode::SUCCESS,
        Err(reason) => {
            let _ = std::io::Write::write_fmt(&mut std::io::stderr(), format_args!("{reason}\n"));
            ExitCode::FAILURE
        }
    }
}
