//! The demo sites, put where the page can open them, with a list of what there is.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use serde_json::{Value, json};

use crate::repo::Repo;
use crate::sh;

/// Copies the demo sites and the schema beside the page, and writes `index.json`: a list of
/// `{ "file", "name" }`, in file order.
///
/// # Errors
/// When a file cannot be read or written, or a site is no JSON.
pub fn publish(repo: &Repo) -> Result<()> {
    sh::say("Copying the demo sites");
    copy(
        &repo.path("demo-sites"),
        &repo.www().join("public/demo-sites"),
    )
}

fn copy(from: &Path, to: &Path) -> Result<()> {
    match fs::remove_dir_all(to) {
        Err(error) if !sh::is_missing(&error) => {
            return Err(error).context("cannot clear the old demo sites");
        }
        _ => fs::create_dir_all(to)?,
    }
    let mut index = Vec::new();
    for path in json_files(from)? {
        let file = path
            .file_name()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned();
        fs::copy(&path, to.join(&file))
            .with_context(|| format!("cannot copy {}", path.display()))?;
        if !file.ends_with(".schema.json") {
            index.push(json!({ "file": file, "name": site_name(&path)? }));
        }
    }
    let text = serde_json::to_string_pretty(&Value::Array(index))?;
    fs::write(to.join("index.json"), text + "\n").context("cannot write the list of demo sites")
}

/// The JSON files of a folder in name order, recorded reports left out; none when the folder is
/// missing.
fn json_files(folder: &Path) -> Result<Vec<PathBuf>> {
    let entries = match folder.read_dir() {
        Err(error) if sh::is_missing(&error) => return Ok(Vec::new()),
        entries => entries.with_context(|| format!("cannot read {}", folder.display()))?,
    };
    let mut files: Vec<PathBuf> = entries
        .map(|entry| entry.map(|it| it.path()))
        .collect::<Result<_, _>>()?;
    files.retain(|path| {
        let name = path.to_string_lossy();
        name.ends_with(".json") && !name.ends_with(".report.json")
    });
    files.sort();
    Ok(files)
}

/// What a site calls itself, or its file's name.
fn site_name(path: &Path) -> Result<String> {
    let text =
        fs::read_to_string(path).with_context(|| format!("cannot read {}", path.display()))?;
    let site: Value =
        serde_json::from_str(&text).with_context(|| format!("{} is no JSON", path.display()))?;
    let stem = || {
        path.file_stem()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned()
    };
    Ok(site
        .get("name")
        .and_then(Value::as_str)
        .map_or_else(stem, str::to_owned))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tidy::test_tree::Scratch;

    #[test]
    fn sites_are_listed_by_name_and_old_ones_go() {
        let tree = Scratch::new("demo");
        tree.write("from/b.json", r#"{"name": "Level lot"}"#);
        tree.write("from/a.json", "{}");
        tree.write("from/site.schema.json", "{}");
        tree.write("from/a.report.json", "{}");
        tree.write("from/notes.txt", "not a site");
        tree.write("to/old.json", "{}");
        copy(&tree.root().join("from"), &tree.root().join("to")).unwrap();
        let mut listed: Vec<_> = fs::read_dir(tree.root().join("to"))
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        listed.sort();
        assert_eq!(
            listed,
            ["a.json", "b.json", "index.json", "site.schema.json"]
        );
        let index: Value =
            serde_json::from_str(&fs::read_to_string(tree.root().join("to/index.json")).unwrap())
                .unwrap();
        assert_eq!(
            index,
            json!([{"file": "a.json", "name": "a"}, {"file": "b.json", "name": "Level lot"}])
        );
    }

    #[test]
    fn a_broken_site_is_named() {
        let tree = Scratch::new("demo-broken");
        tree.write("from/bad.json", "{");
        let error = copy(&tree.root().join("from"), &tree.root().join("to")).unwrap_err();
        assert!(
            format!("{error:#}").contains("bad.json is no JSON"),
            "{error:#}"
        );
    }
}
