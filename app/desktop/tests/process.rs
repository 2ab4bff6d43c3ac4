//! What needs the real program: exit statuses, and a machine without a display.

#![expect(clippy::unwrap_used, reason = "a test that cannot start the program has failed")]

use std::process::{Command, Output, Stdio};

/// The program, where there is no display and nothing of the user's.
fn program(args: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_propwright"));
    command.args(args);
    for variable in ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"] {
        command.env_remove(variable);
    }
    command.env("RUST_BACKTRACE", "1").stdin(Stdio::null());
    command
}

fn run(args: &[&str]) -> (Option<i32>, String, String) {
    let Output { status, stdout, stderr } = program(args).output().unwrap();
    (status.code(), String::from_utf8(stdout).unwrap(), String::from_utf8(stderr).unwrap())
}

#[test]
fn exit_statuses() {
    let (code, out, err) = run(&["rules"]);
    assert_eq!((code, err.as_str()), (Some(0), ""));
    assert!(out.contains("motor-pattern"));
    let (code, out, err) = run(&["check", "no-such-file.ron"]);
    assert_eq!((code, out.as_str()), (Some(2), ""));
    assert!(err.starts_with("no-such-file.ron:1:1: ") && err.contains("hint: "), "{err}");
    let (code, out, _) = run(&["catalog", "check", "no-such-file.ron"]);
    assert_eq!(code, Some(1));
    assert!(out.contains("no such file"), "{out}");
}

#[test]
fn without_a_display_it_says_so_and_reports() {
    let (code, out, err) = run(&[]);
    assert_eq!(code, Some(0), "{err}");
    assert_eq!(err.lines().count(), 1, "one sentence: {err}");
    assert!(err.contains("No window") && !err.contains("panicked"), "{err}");
    assert!(out.contains("Take-off mass") && out.contains("Parts"), "{out}");
}

#[test]
fn without_a_display_a_broken_file_is_refused() {
    let (code, out, err) = run(&["no-such-file.ron"]);
    assert_eq!((code, out.as_str()), (Some(2), ""));
    assert!(err.contains("no such file"), "{err}");
}

#[test]
fn an_output_closed_early_is_no_failure() {
    let mut child = program(&["rules", "--json"]).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(String::from_utf8(output.stderr).unwrap(), "");
}
