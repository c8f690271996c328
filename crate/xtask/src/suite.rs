//! `test`: the steps one after the other, with headings, times, and a summary that says how to run
//! a failed one alone.

use std::time::{Duration, Instant};

use anyhow::{Result, bail};

use crate::repo::Repo;
use crate::steps::{Run, STEPS, Step};

/// Which steps the reader wants.
pub struct Choice {
    /// These alone, when any is named.
    pub only: Vec<String>,
    /// Not these.
    pub skip: Vec<String>,
}

impl Choice {
    fn takes(&self, name: &str) -> bool {
        let named = |list: &[String]| list.iter().any(|it| it == name);
        (self.only.is_empty() || named(&self.only)) && !named(&self.skip)
    }
}

/// A step that was run.
struct Outcome {
    name: &'static str,
    took: Duration,
    /// What went wrong, if anything.
    error: Option<String>,
}

/// Runs the chosen steps, all of them, and then says how each went.
///
/// # Errors
/// When a step failed or none was chosen.
pub fn run(repo: &Repo, choice: &Choice) -> Result<()> {
    let steps: Vec<&Step> = STEPS
        .iter()
        .filter(|step| choice.takes(step.name))
        .collect();
    let run = Run::new(repo);
    let start = Instant::now();
    if steps.iter().skip(1).any(|step| step.name == "page") {
        println!(
            "The page is built beside the other steps; what that says stands with the step `page`."
        );
        run.begin_page()?;
    }
    let outcomes: Vec<Outcome> = steps
        .iter()
        .enumerate()
        .map(|(number, step)| {
            println!(
                "\n=== [{}/{}] {}: {}",
                number + 1,
                steps.len(),
                step.name,
                step.title
            );
            one(step, &run)
        })
        .collect();
    println!("\n{}", summary(&outcomes, start.elapsed()));
    let failed = outcomes
        .iter()
        .filter(|outcome| outcome.error.is_some())
        .count();
    let verdict = format!("{} passed, {failed} failed", outcomes.len() - failed);
    if failed == 0 && !outcomes.is_empty() {
        println!("{verdict}");
        return Ok(());
    }
    println!("{verdict}");
    bail!("see the summary above")
}

fn one(step: &Step, run: &Run<'_>) -> Outcome {
    let start = Instant::now();
    let error = (step.run)(run).err().map(|error| format!("{error:#}"));
    let took = start.elapsed();
    match &error {
        None => println!("=== {} passed in {:.1} s", step.name, took.as_secs_f64()),
        Some(error) => println!(
            "=== {} FAILED in {:.1} s: {error}",
            step.name,
            took.as_secs_f64()
        ),
    }
    Outcome {
        name: step.name,
        took,
        error,
    }
}

fn summary(outcomes: &[Outcome], took: Duration) -> String {
    let mut lines = vec![format!("Summary ({:.0} s in all)", took.as_secs_f64())];
    for outcome in outcomes {
        let seconds = outcome.took.as_secs_f64();
        lines.push(match &outcome.error {
            None => format!("  ok      {:<12} {seconds:>6.1} s", outcome.name),
            Some(error) => format!("  FAILED  {:<12} {seconds:>6.1} s  {error}", outcome.name),
        });
    }
    let failed = outcomes.iter().filter(|outcome| outcome.error.is_some());
    lines.extend(
        failed.map(|outcome| format!("Run it alone: cargo xtask test --only {}", outcome.name)),
    );
    lines.join("\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn choice(only: &[&str], skip: &[&str]) -> Choice {
        let own = |list: &[&str]| list.iter().map(|it| (*it).to_owned()).collect();
        Choice {
            only: own(only),
            skip: own(skip),
        }
    }

    #[test]
    fn steps_are_chosen_by_name() {
        assert!(choice(&[], &[]).takes("tidy"));
        assert!(choice(&["tidy"], &[]).takes("tidy") && !choice(&["tidy"], &[]).takes("core"));
        assert!(
            !choice(&[], &["core"]).takes("core") && !choice(&["core"], &["core"]).takes("core")
        );
    }

    #[test]
    fn the_summary_says_how_to_run_a_failed_step_alone() {
        let outcome = |name, error: Option<&str>| Outcome {
            name,
            took: Duration::from_millis(1500),
            error: error.map(str::to_owned),
        };
        let text = summary(
            &[
                outcome("tidy", None),
                outcome("core", Some("2 tests failed")),
            ],
            Duration::from_secs(9),
        );
        assert!(
            text.contains("ok      tidy") && text.contains("2 tests failed"),
            "{text}"
        );
        assert!(
            text.contains("cargo xtask test --only core") && !text.contains("--only tidy"),
            "{text}"
        );
    }
}
