//! Running other programs: said aloud, never waiting on a keyboard, and with errors that name the command.

use std::ffi::OsStr;
use std::io::ErrorKind;
use std::path::Path;
use std::process::{Command, ExitStatus, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail};

/// A command to run in `folder`, with nothing on its standard input.
pub fn command<S: AsRef<OsStr>>(folder: &Path, program: &str, args: &[S]) -> Command {
    let mut command = Command::new(program);
    command.args(args).current_dir(folder).stdin(Stdio::null());
    command
}

/// Cargo, the same one that runs this task.
pub fn cargo(folder: &Path, args: &[&str]) -> Command {
    let program = std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned());
    command(folder, &program, args)
}

/// Says what is being done now.
pub fn say(what: &str) {
    println!("--> {what}");
}

/// Runs a command with its output on the screen.
///
/// # Errors
/// When it cannot be started or ends in failure.
pub fn run(command: &mut Command) -> Result<()> {
    println!("    $ {}", shown(command));
    let status = command.status().with_context(|| not_started(command))?;
    succeeded(command, status)
}

/// Runs a command with its output on the screen, and stops it after `limit`.
///
/// # Errors
/// When it cannot be started, ends in failure or takes too long.
pub fn run_within(command: &mut Command, limit: Duration) -> Result<()> {
    println!("    $ {}   (at most {} s)", shown(command), limit.as_secs());
    let mut child = command.spawn().with_context(|| not_started(command))?;
    let start = Instant::now();
    loop {
        if let Some(status) = child.try_wait()? {
            return succeeded(command, status);
        }
        if start.elapsed() > limit {
            child.kill()?;
            child.wait()?;
            bail!(
                "`{}` was stopped after {} s",
                shown(command),
                limit.as_secs()
            );
        }
        thread::sleep(Duration::from_millis(50));
    }
}

/// What a command prints, with its errors thrown away; `None` when it is missing or fails.
pub fn answer(command: &mut Command) -> Option<String> {
    let output = command.stderr(Stdio::null()).output().ok()?;
    let text = String::from_utf8(output.stdout).ok()?;
    output.status.success().then(|| text.trim().to_owned())
}

fn succeeded(command: &Command, status: ExitStatus) -> Result<()> {
    if status.success() {
        return Ok(());
    }
    bail!("`{}` ended with {status}", shown(command))
}

fn not_started(command: &Command) -> String {
    format!(
        "cannot start `{}` (`cargo xtask doctor` lists the tools wanted)",
        shown(command)
    )
}

/// The command as one would type it, with the program by its bare name.
fn shown(command: &Command) -> String {
    let program = Path::new(command.get_program());
    let name = program.file_name().unwrap_or(command.get_program());
    let words = std::iter::once(name).chain(command.get_args());
    words
        .map(OsStr::to_string_lossy)
        .collect::<Vec<_>>()
        .join(" ")
}

/// Whether `error` says that a file is not there, as opposed to unreadable.
pub fn is_missing(error: &std::io::Error) -> bool {
    error.kind() == ErrorKind::NotFound
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shell(script: &str) -> Command {
        command(Path::new("/"), "sh", &["-c", script])
    }

    #[test]
    fn failure_names_the_command() {
        let error = run(&mut shell("exit 3")).unwrap_err().to_string();
        assert!(
            error.contains("sh -c exit 3") && error.contains('3'),
            "{error}"
        );
    }

    #[test]
    fn a_missing_program_points_to_the_doctor() {
        let error = run(&mut command(Path::new("/"), "no-such-program", &["x"])).unwrap_err();
        assert!(error.to_string().contains("cargo xtask doctor"), "{error}");
    }

    #[test]
    fn a_slow_command_is_stopped() {
        let error = run_within(&mut shell("sleep 20"), Duration::from_millis(200)).unwrap_err();
        assert!(error.to_string().contains("was stopped"), "{error}");
    }

    #[test]
    fn nothing_waits_on_the_keyboard() {
        assert_eq!(answer(&mut shell("cat; echo end")).as_deref(), Some("end"));
        assert_eq!(answer(&mut shell("echo no; exit 1")), None);
    }
}
