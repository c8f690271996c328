//! What is built in of other people's work, with its licenses: written beside the modules, for the page to tell, and handed on
//! with what is laid out, as CycloneDX has it.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

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
    #[serde(skip)]
    registry: Registry,
}

/// Where a library comes from, as package URLs name it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Registry {
    Cargo,
    Npm,
}

/// What is handed on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Product {
    /// The page, with the modules in it.
    Page,
    /// The command line.
    Program,
}

/// Writes the list into a folder.
///
/// # Errors
/// When a list of packages cannot be read, or a library has no license.
pub fn write(repo: &Repo, folder: &Path) -> Result<()> {
    let all = of(repo, Product::Page)?;
    let text = serde_json::to_string(&all)?;
    fs::write(folder.join(FILE), text).context("cannot write the list of what is built in")
}

/// The list of what is in a product: CycloneDX 1.5, JSON, the same bytes from the same tree.
///
/// # Errors
/// As [`write`].
pub fn bill_of_materials(repo: &Repo, product: Product) -> Result<String> {
    let name = match product {
        Product::Page => "batterboard page",
        Product::Program => "batterboard",
    };
    Ok(cyclone(name, &of(repo, product)?))
}

fn cyclone(product: &str, libraries: &BTreeSet<Library>) -> String {
    let component = |it: &Library| {
        let (kind, name) = match it.registry {
            Registry::Cargo => ("cargo", it.name.clone()),
            // The sign before a scope, written as package URLs write it.
            Registry::Npm => ("npm", it.name.replace('@', "%40")),
        };
        let address = format!("pkg:{kind}/{name}@{}", it.version);
        json!({
            "type": "library",
            "bom-ref": address,
            "name": it.name,
            "version": it.version,
            "licenses": [{ "expression": it.license.replace('/', " OR ") }],
            "purl": address,
        })
    };
    let components: Vec<Value> = libraries.iter().map(component).collect();
    let version = env!("CARGO_PKG_VERSION");
    let bill = json!({
        "bomFormat": "CycloneDX",
        "specVersion": "1.5",
        "version": 1,
        "metadata": { "component": { "type": "application", "name": product, "version": version } },
        "components": components,
    });
    format!("{bill:#}\n")
}

/// What is in a product.
fn of(repo: &Repo, product: Product) -> Result<BTreeSet<Library>> {
    let graph = ["metadata", "--format-version", "1", "--locked"];
    let mut asked = sh::cargo(repo.root(), &graph);
    if product == Product::Page {
        asked.args(["--filter-platform", TRIPLE]);
    }
    let text = sh::answer(&mut asked).context("cargo tells no packages")?;
    let all = match product {
        Product::Page => {
            let mut all = of_cargo(&text, &PACKAGES)?;
            let lock = repo.www().join("package-lock.json");
            let text = fs::read_to_string(&lock)
                .with_context(|| format!("cannot read {}", lock.display()))?;
            all.extend(of_node(&text)?);
            all
        }
        Product::Program => of_cargo(&text, &["batterboard"])?,
    };
    if let Some(bare) = all.iter().find(|it| it.license.is_empty()) {
        bail!(
            "{} {} has no license: it may not be built in",
            bare.name,
            bare.version
        );
    }
    Ok(all)
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

/// Every library that one of some packages needs to run.
fn of_cargo(text: &str, packages_of_ours: &[&str]) -> Result<BTreeSet<Library>> {
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
        .filter(|it| packages_of_ours.contains(&it.name.as_str()));
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
            registry: Registry::Cargo,
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
            registry: Registry::Npm,
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
        let found = of_cargo(&text, &PACKAGES).unwrap();
        let names: Vec<&str> = found.iter().map(|it| it.name.as_str()).collect();
        assert_eq!(names, ["deep", "runs"]);
    }

    #[test]
    fn the_bill_is_what_the_standard_asks_for() {
        use cyclonedx_bom::models::bom::{Bom, SpecVersion};
        use cyclonedx_bom::validation::Validate;

        let library = |name: &str, license: &str, registry| Library {
            name: name.to_owned(),
            version: "1.2.3".to_owned(),
            license: license.to_owned(),
            registry,
        };
        let all = BTreeSet::from([
            library("geo", "MIT/Apache-2.0", Registry::Cargo),
            library("@preact/signals", "MIT", Registry::Npm),
        ]);
        let text = cyclone("batterboard page", &all);
        let bill = Bom::parse_from_json(text.as_bytes()).unwrap();
        let found = bill.validate_version(SpecVersion::V1_5);
        assert!(found.passed(), "{found:?}");
        let components = bill.components.unwrap().0;
        let addresses = components
            .iter()
            .map(|it| it.purl.as_ref().unwrap().to_string());
        let wanted = ["pkg:npm/%40preact/signals@1.2.3", "pkg:cargo/geo@1.2.3"];
        assert!(addresses.eq(wanted), "{text}");
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
