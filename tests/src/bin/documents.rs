//! Writes the generated tables of README.md and DEVELOPERS.md again.

use std::{fs, path::Path, process::ExitCode};

fn main() -> ExitCode {
    for name in ["DEVELOPERS.md", "README.md"] {
        if let Err(reason) = refresh(name) {
            let _ = std::io::Write::write_fmt(&mut std::io::stderr(), format_args!("{reason}\n"));
            return ExitCode::FAILURE;
        }
    }
    ExitCode::SUCCESS
}

fn refresh(name: &str) -> Result<(), String> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(name);
    let text = fs::read_to_string(&path).map_err(|error| error.to_string())?;
    let refreshed = propwright_tests::documents::refreshed(name, &text);
    let refreshed = refreshed.map_err(|place| format!("{name} has no place for `{place}`"))?;
    fs::write(&path, refreshed).map_err(|error| error.to_string())
}
