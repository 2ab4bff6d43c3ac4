//! Opens the window or answers a command.

fn main() -> std::process::ExitCode {
    propwright::cli::run(std::env::args_os(), &mut std::io::stdout().lock(), &mut std::io::stderr().lock()).into()
}
