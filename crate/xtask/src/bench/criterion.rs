//! What criterion kept of its newest runs.

use std::fs;
use std::path::Path;
use std::time::SystemTime;

use anyhow::{Context, Result};
use serde_json::Value;

/// One benchmark's newest run.
#[derive(Debug, PartialEq)]
pub struct Run {
    /// Its whole name.
    pub name: String,
    /// The group it belongs to, or its own name.
    pub group: String,
    /// What it measured within its group.
    pub function: Option<String>,
    /// The size it was measured at, as text.
    pub size: Option<String>,
    /// The median, milliseconds.
    pub median_ms: f64,
}

impl Run {
    /// The size it was measured at.
    pub fn size(&self) -> Option<u32> {
        self.size.as_ref()?.parse().ok()
    }

    fn read(benchmark: &Value, estimates: &Value) -> Result<Self> {
        let text = |member| benchmark.get(member).and_then(Value::as_str);
        let nanoseconds = estimates
            .pointer("/median/point_estimate")
            .and_then(Value::as_f64)
            .context("no median")?;
        Ok(Self {
            name: text("full_id")
                .context("a benchmark has no name")?
                .to_owned(),
            group: text("group_id").unwrap_or_default().to_owned(),
            function: text("function_id").map(str::to_owned),
            size: text("value_str").map(str::to_owned),
            median_ms: nanoseconds / 1e6,
        })
    }
}

/// Every run in a folder that was measured since a time, by name: criterion keeps those of benchmarks that are gone or
/// were called something else.
///
/// # Errors
/// When a file of one cannot be read.
pub fn runs(folder: &Path, since: SystemTime) -> Result<Vec<Run>> {
    let mut found = Vec::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(folder) = folders.pop() {
        for entry in folder
            .read_dir()
            .with_context(|| format!("cannot read {}", folder.display()))?
        {
            let path = entry?.path();
            if path.ends_with("new") {
                let estimates = path.join("estimates.json");
                if fs::metadata(&estimates)?.modified()? >= since {
                    let benchmark = json(&path.join("benchmark.json"))?;
                    found.push(Run::read(&benchmark, &json(&estimates)?)?);
                }
            } else if path.is_dir() {
                folders.push(path);
            }
        }
    }
    found.sort_by(|a, b| a.name.cmp(&b.name));
    Ok(found)
}

fn json(path: &Path) -> Result<Value> {
    let text =
        fs::read_to_string(path).with_context(|| format!("cannot read {}", path.display()))?;
    serde_json::from_str(&text).with_context(|| format!("{} is no JSON", path.display()))
}

#[cfg(test)]
mod tests {
    use std::thread;
    use std::time::Duration;

    use serde_json::json;

    use super::*;
    use crate::tidy::test_tree::Scratch;

    #[test]
    fn runs_of_before_are_left_out() {
        let tree = Scratch::new("criterion");
        let write = |name: &str| {
            let benchmark = json!({"full_id": name}).to_string();
            tree.write(&format!("{name}/new/benchmark.json"), &benchmark);
            tree.write(
                &format!("{name}/new/estimates.json"),
                r#"{"median": {"point_estimate": 1.0}}"#,
            );
        };
        write("an old name");
        thread::sleep(Duration::from_millis(20));
        let since = SystemTime::now();
        thread::sleep(Duration::from_millis(20));
        write("a new name");
        let names = |since| -> Vec<String> {
            let found = runs(tree.root(), since).unwrap();
            found.into_iter().map(|run| run.name).collect()
        };
        assert_eq!(names(since), ["a new name"]);
        assert_eq!(names(SystemTime::UNIX_EPOCH), ["a new name", "an old name"]);
    }

    #[test]
    fn name_size_and_median_are_read() {
        let run = Run::read(
            &json!({"full_id": "a/b/100", "group_id": "a", "function_id": "b", "value_str": "100"}),
            &json!({"median": {"point_estimate": 1_250_000.0}}),
        )
        .unwrap();
        assert_eq!((run.name.as_str(), run.group.as_str()), ("a/b/100", "a"));
        assert_eq!((run.size(), run.median_ms), (Some(100), 1.25));
        let plain = Run::read(
            &json!({"full_id": "drag", "group_id": "drag", "function_id": null, "value_str": null}),
            &json!({"median": {"point_estimate": 1.0}}),
        )
        .unwrap();
        assert_eq!((plain.function.as_ref(), plain.size()), (None, None));
        assert!(Run::read(&json!({}), &json!({})).is_err());
    }
}
