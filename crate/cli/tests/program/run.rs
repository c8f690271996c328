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

/// What it prints where it ends well, what it says is wrong where it does not.
pub fn told(arguments: &[&str]) -> Result<String, String> {
    let output = batterboard(arguments, "");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    if output.status.success() {
        Ok(text(output.stdout))
    } else {
        Err(text(output.stderr))
    }
}

/// How a command ends, what it prints, and what it says is wrong.
pub fn said(command: &str, arguments: &[&str]) -> (Option<i32>, String, String) {
    let output = batterboard(&[&[command], arguments].concat(), "");
    let text = |bytes: Vec<u8>| String::from_utf8(bytes).unwrap();
    (
        output.status.code(),
        text(output.stdout),
        text(output.stderr),
    )
}
