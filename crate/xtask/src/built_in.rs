//! What is built into the page of other people's work, with its licenses: written beside the modules, for the page to tell.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};
use serde::{Deserialize, Serialize};
use serde_json::Value;

use crate::repo::Repo;
use crate::sh;
use crate::wasm::PACKAGES;
use crate::wasm_target::TRIPLE;

/// The file, in the folder of the modules.
pub const FILE: &str = "built-in.json";

/// What of the service worker's library ends up in it.
const WORKBOX: [&str; 4] = [
    "workbox-core",
    "workbox-precaching",
    "workbox-routing",
    "workbox-strategies",
];

/// A library.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Library {
    name: String,
    version: String,
    license: String,
}

/// Writes the list into a folder.
///
/// # Errors
/// When a list of packages cannot be read, or a library has no license.
pub fn write(repo: &Repo, folder: &Path) -> Result<()> {
    let graph = [
        "metadata",
        "--format-version",
        "1",
        "--locked",
        "--filter-platform",
        TRIPLE,
    ];
    let text =
        sh::answer(&mut sh::cargo(repo.root(), &graph)).context("cargo tells no packages")?;
    let mut all = of_cargo(&text)?;
    let lock = repo.www().join("package-lock.json");
    let text =
        fs::read_to_string(&lock).with_context(|| format!("cannot read {}", lock.display()))?;
    all.extend(of_node(&text)?);
    if let Some(bare) = all.iter().find(|it| it.license.is_empty()) {
        bail!(
            "{} {} has no license: it may not be built in",
            bare.name,
            bare.version
        );
    }
    let text = serde_json::to_string(&all)?;
    fs::write(folder.join(FILE), text).context("cannot write the list of what is built in")
}

#[derive(Deserialize)]
struct Metadata {
    packages: Vec<Package>,
    resolve: Resolve,
}

#[derive(Deserialize)]
struct Package {
    id: String,
    name: String,
    version: String,
    license: Option<String>,
    /// Nothing for packages of this workspace.
    source: Option<String>,
}

#[derive(Deserialize)]
struct Resolve {
    nodes: Vec<Node>,
}

#[derive(Deserialize)]
struct Node {
    id: String,
    deps: Vec<Dependency>,
}

#[derive(Deserialize)]
struct Dependency {
    pkg: String,
    dep_kinds: Vec<DependencyKind>,
}

#[derive(Deserialize)]
struct DependencyKind {
    /// Nothing for what is built in; else `dev` or `build`.
    kind: Option<String>,
}

/// Every library that a module of the page needs to run.
fn of_cargo(text: &str) -> Result<BTreeSet<Library>> {
    let graph: Metadata = serde_json::from_str(text).context("cargo's list of packages")?;
    let packages: BTreeMap<&str, &Package> = graph
        .packages
        .iter()
        .map(|it| (it.id.as_str(), it))
        .collect();
    let nodes: BTreeMap<&str, &Node> = graph
        .resolve
        .nodes
        .iter()
        .map(|it| (it.id.as_str(), it))
        .collect();
    let ours = graph
        .packages
        .iter()
        .filter(|it| PACKAGES.contains(&it.name.as_str()));
    let mut open: Vec<&str> = ours.map(|it| it.id.as_str()).collect();
    let mut seen = BTreeSet::new();
    while let Some(id) = open.pop() {
        if !seen.insert(id) {
            continue;
        }
        let deps = nodes.get(id).map_or(&[][..], |it| &it.deps);
        let run = |it: &&Dependency| it.dep_kinds.iter().any(|kind| kind.kind.is_none());
        open.extend(deps.iter().filter(run).map(|it| it.pkg.as_str()));
    }
    let found = seen.iter().filter_map(|id| packages.get(id));
    let others = found.filter(|it| it.source.is_some());
    Ok(others
        .map(|it| Library {
            name: it.name.clone(),
            version: it.version.clone(),
            license: it.license.clone().unwrap_or_default(),
        })
        .collect())
}

/// Every library of the page's scripts.
fn of_node(text: &str) -> Result<Vec<Library>> {
    let lock: Value = serde_json::from_str(text).context("the page's lock file")?;
    let packages = lock.get("packages").and_then(Value::as_object);
    let packages = packages.context("the page's lock file has no packages")?;
    let told = |it: &Value, member: &str| {
        let text = it.get(member).and_then(Value::as_str);
        text.unwrap_or_default().to_owned()
    };
    Ok(packages
        .iter()
        .filter_map(|(place, it)| Some((place.strip_prefix("node_modules/")?, it)))
        .filter(|(name, it)| {
            let builds = it.get("dev").is_some() || it.get("peer").is_some();
            !builds || WORKBOX.contains(name)
        })
        .map(|(name, it)| Library {
            name: name.to_owned(),
            version: told(it, "version"),
            license: told(it, "license"),
        })
        .collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_needed_to_run_is_listed_and_what_builds_is_not() {
        let package = |id: &str, name: &str, source: &str| {
            format!(
                r#"{{"id":"{id}","name":"{name}","version":"1.0.0","license":"MIT","source":{source}}}"#
            )
        };
        let there = r#""registry""#;
        let packages = [
            package("o", "batterboard-web", "null"),
            package("a", "runs", there),
            package("b", "deep", there),
            package("c", "builds", there),
        ]
        .join(",");
        let dep =
            |id: &str, kind: &str| format!(r#"{{"pkg":"{id}","dep_kinds":[{{"kind":{kind}}}]}}"#);
        let text = format!(
            r#"{{"packages":[{packages}],"resolve":{{"nodes":[
            {{"id":"o","deps":[{},{}]}},{{"id":"a","deps":[{}]}},{{"id":"b","deps":[]}},{{"id":"c","deps":[]}}]}}}}"#,
            dep("a", "null"),
            dep("c", r#""build""#),
            dep("b", "null")
        );
        let found = of_cargo(&text).unwrap();
        let names: Vec<&str> = found.iter().map(|it| it.name.as_str()).collect();
        assert_eq!(names, ["deep", "runs"]);
    }

    #[test]
    fn scripts_are_listed_with_the_worker_but_without_tools() {
        let text = r#"{"packages":{"":{"name":"page"},
            "node_modules/preact":{"version":"11.0.0","license":"MIT"},
            "node_modules/vite":{"version":"8.0.0","license":"MIT","dev":true},
            "node_modules/workbox-core":{"version":"7.0.0","license":"MIT","dev":true}}}"#;
        let names: Vec<String> = of_node(text)
            .unwrap()
            .into_iter()
            .map(|it| it.name)
            .collect();
        assert_eq!(names, ["preact", "workbox-core"]);
    }
}
