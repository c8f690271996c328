//! What the command says of itself to other programs: completion scripts and the manual page.

use anyhow::Result;
use clap::Command;
use clap_complete::{Shell, generate};
use clap_mangen::Man;

/// The script with which a command shell completes the command.
///
/// # Errors
/// When it is not text.
pub fn completions(shell: Shell, mut command: Command) -> Result<String> {
    let mut script = Vec::new();
    let name = command.get_name().to_owned();
    generate(shell, &mut command, name, &mut script);
    Ok(String::from_utf8(script)?)
}

/// The manual page: the command, then every command of it with its options.
///
/// # Errors
/// When it is not text.
pub fn page(command: &Command) -> Result<String> {
    let mut page = Vec::new();
    Man::new(command.clone()).render(&mut page)?;
    for sub in command.get_subcommands() {
        let name = format!("{} {}", command.get_name(), sub.get_name());
        let sub = Man::new(sub.clone().name(name));
        sub.render_name_section(&mut page)?;
        sub.render_synopsis_section(&mut page)?;
        sub.render_description_section(&mut page)?;
        sub.render_options_section(&mut page)?;
    }
    Ok(String::from_utf8(page)?)
}
