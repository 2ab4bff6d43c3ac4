//! Prints how the propeller models meet wind-tunnel measurements, and draws `assets/propeller-model.svg`.

use std::{fs, io::Write, path::Path, process::ExitCode};

use propwright_tests::propellers;

fn main() -> ExitCode {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../assets/propeller-model.svg");
    let said = write!(std::io::stdout(), "{}", propellers::summary());
    match said.and_then(|()| fs::write(&path, propellers::plot())) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            let _ = writeln!(std::io::stderr(), "{}: {error}", path.display());
            ExitCode::FAILURE
        }
    }
}
