//! `doctor`: every tool, what was found, and what to do about what was not.

use anyhow::{Result, bail};

use crate::repo::Repo;
use crate::tools::{self, Need, Tool};

/// Prints the table of tools.
///
/// # Errors
/// When something is missing that only the reader can install.
pub fn run(repo: &Repo) -> Result<()> {
    let tools = tools::look(repo);
    println!("{:<12} {:<7} {:<24} what to do", "tool", "wanted", "found");
    for tool in &tools {
        println!("{}", row(tool));
    }
    let missing: Vec<&str> = tools
        .iter()
        .filter(|tool| tool.need == Need::Required && !tool.will_do())
        .map(|tool| tool.name)
        .collect();
    if missing.is_empty() {
        println!(
            "\nReady: `cargo xtask serve` shows the page, `cargo xtask test` checks everything."
        );
        return Ok(());
    }
    bail!(
        "install these yourself, then run this again: {}",
        missing.join(", ")
    )
}

fn row(tool: &Tool) -> String {
    // The version alone: what stands behind it (commit, system) helps nobody here.
    let found = tool.found.as_deref().unwrap_or("-");
    let found = found
        .split([' ', '('])
        .take(2)
        .collect::<Vec<_>>()
        .join(" ");
    let advice = match (tool.will_do(), tool.need) {
        (true, _) => "ok".to_owned(),
        (false, Need::Required) => format!("MISSING: {}", tool.remedy),
        (false, Need::Installed) => format!("later: {}", tool.remedy),
        (false, Need::Optional) => format!("optional: {}", tool.remedy),
    };
    format!(
        "{:<12} {:<7} {:<24} {advice}",
        tool.name, tool.wanted, found
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_missing_tool_says_what_to_do() {
        let tool = Tool {
            name: "node",
            wanted: "20",
            found: None,
            need: Need::Required,
            remedy: "install Node",
        };
        assert!(row(&tool).contains("MISSING: install Node"));
        let there = Tool {
            found: Some("v22.1.0".to_owned()),
            ..tool
        };
        assert!(row(&there).ends_with("ok"));
    }
}
