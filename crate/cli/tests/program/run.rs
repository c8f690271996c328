//! The command run as scripts run it.

use std::io::Write;
use std::process::{Command, Output, Stdio};

/// Runs the command with a text on its standard input.
pub fn batterboard(arguments: &[&str], input: &str) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_batterboard"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    // The command may end before it has read everything.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    child.wait_with_output().unwrap()
}
