//! What is fetched from outside is fetched the same everywhere: every package is pinned to one version, checked by its sum, and
//! comes under a license that lets it be passed on.

use serde_json::{Map, Value};

use super::Fault;
use super::tree::{File, Tree};

/// The licenses that node packages may come under, besides a choice that holds one of them. The weak copyleft of the last ones
/// binds their own files alone; they build and test, and no byte of them is in the page (`built_in` holds that).
const LICENSES: [&str; 14] = [
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "BlueOak-1.0.0",
    "CC-BY-4.0",
    "CC0-1.0",
    "EDL-1.0",
    "ISC",
    "MIT",
    "Unlicense",
    "MPL-2.0",
    "Zlib",
];

/// Packages that tell their license wrongly or not at all, and what stands in them.
const MENDED: [(&str, &str); 2] = [("arc", "BSD-3-Clause"), ("splaytree-ts", "BSD-3-Clause")];

/// Every package that is not pinned, not checked, or under another license.
pub fn check(tree: &Tree) -> Vec<Fault> {
    let files = tree.files.iter();
    let faults = files.flat_map(|file| match file.path.rsplit('/').next() {
        Some("package-lock.json") => lock(file),
        Some("package.json") => manifest(file),
        Some("requirements.txt") => requirements(file),
        Some("Cargo.lock") => cargo(file),
        _ => Vec::new(),
    });
    faults.collect()
}

/// The members of a JSON file.
fn members(file: &File) -> Result<Map<String, Value>, Vec<Fault>> {
    match serde_json::from_str(&file.text) {
        Ok(Value::Object(members)) => Ok(members),
        _ => Err(vec![Fault::new(&file.path, 0, "is no JSON object")]),
    }
}

fn lock(file: &File) -> Vec<Fault> {
    let all = match members(file) {
        Ok(all) => all,
        Err(faults) => return faults,
    };
    let mut faults = Vec::new();
    let mut say = |text: String| faults.push(Fault::new(&file.path, 0, text));
    if all.get("lockfileVersion").and_then(Value::as_u64) != Some(3) {
        say("is not of version 3, which has a sum for every package".to_owned());
    }
    let packages = all.get("packages").and_then(Value::as_object);
    for (place, package) in packages
        .into_iter()
        .flatten()
        .filter(|(it, _)| !it.is_empty())
    {
        let told = |member| package.get(member).and_then(Value::as_str);
        if package.get("link").is_some() || package.get("resolved").is_some() {
            say(format!("{place} comes from somewhere of its own"));
        }
        if !told("integrity").is_some_and(|it| it.starts_with("sha512-")) {
            say(format!("{place} has no SHA-512 sum"));
        }
        let name = place.rsplit("node_modules/").next().unwrap_or(place);
        let mended = MENDED.iter().find(|(it, _)| *it == name);
        let license = mended.map(|(_, it)| *it).or_else(|| told("license"));
        if !license.is_some_and(allowed) {
            say(format!(
                "{place} is under {}",
                license.unwrap_or("no license")
            ));
        }
    }
    faults
}

/// Whether a license, or one of those it leaves the choice of, is on the list.
fn allowed(license: &str) -> bool {
    let choice = license.trim_matches(['(', ')']);
    choice.split(" OR ").any(|it| LICENSES.contains(&it))
}

fn manifest(file: &File) -> Vec<Fault> {
    let all = match members(file) {
        Ok(all) => all,
        Err(faults) => return faults,
    };
    let lists = ["dependencies", "devDependencies"];
    let lists = lists.iter().filter_map(|it| all.get(*it)?.as_object());
    let loose = lists.flatten().filter(|(_, version)| {
        let digit = |it: &str| it.starts_with(|c: char| c.is_ascii_digit());
        !version.as_str().is_some_and(digit)
    });
    loose
        .map(|(name, version)| {
            Fault::new(&file.path, 0, format!("{name} is not pinned: {version}"))
        })
        .collect()
}

fn requirements(file: &File) -> Vec<Fault> {
    let lines = file.text.lines().enumerate();
    let lines = lines.filter(|(_, line)| !line.trim().is_empty() && !line.starts_with('#'));
    let loose = lines.filter(|(_, line)| {
        !line.split_once("==").is_some_and(|(name, version)| {
            !name.is_empty() && version.starts_with(|c: char| c.is_ascii_digit())
        })
    });
    loose
        .map(|(at, line)| Fault::new(&file.path, at + 1, format!("{line} is not pinned")))
        .collect()
}

fn cargo(file: &File) -> Vec<Fault> {
    let blocks = file.text.split("[[package]]").skip(1);
    let outside = blocks.filter(|block| block.contains("\nsource = "));
    let unchecked = outside.filter(|block| {
        !(block.contains("\nchecksum = ") && block.contains("\nsource = \"registry+"))
    });
    unchecked
        .map(|block| {
            let name = block.lines().find_map(|it| it.strip_prefix("name = "));
            let text = format!(
                "{} comes from no registry, or has no sum",
                name.unwrap_or("it")
            );
            Fault::new(&file.path, 0, text)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(path: &str, text: &str) -> Vec<String> {
        let file = File {
            path: path.to_owned(),
            text: text.to_owned(),
        };
        let faults = check(&Tree { files: vec![file] });
        faults.into_iter().map(|it| it.text).collect()
    }

    #[test]
    fn a_package_without_sum_or_license_or_from_elsewhere_is_named() {
        let good = r#"{"lockfileVersion":3,"packages":{"":{"name":"page"},
            "node_modules/a":{"integrity":"sha512-x","license":"(MIT OR CC0-1.0)"},
            "node_modules/a/node_modules/splaytree-ts":{"integrity":"sha512-x","license":"BDS-3-Clause"}}}"#;
        assert_eq!(said("www/package-lock.json", good), [""; 0]);
        let bad = r#"{"lockfileVersion":2,"packages":{
            "node_modules/a":{"integrity":"sha1-x","license":"MIT"},
            "node_modules/b":{"integrity":"sha512-x","license":"GPL-3.0"},
            "node_modules/c":{"integrity":"sha512-x"},
            "node_modules/d":{"integrity":"sha512-x","license":"ISC","resolved":"elsewhere"}}}"#;
        let faults = said("www/package-lock.json", bad);
        assert_eq!(faults.len(), 5, "{faults:?}");
        assert!(faults[1].contains("a has no SHA-512"), "{faults:?}");
        assert!(faults[2].contains("b is under GPL-3.0"), "{faults:?}");
        assert!(faults[3].contains("c is under no license"), "{faults:?}");
        assert!(faults[4].contains("d comes from somewhere"), "{faults:?}");
        assert_eq!(said("package-lock.json", "[]").len(), 1);
    }

    #[test]
    fn what_is_not_pinned_is_named() {
        let loose = r#"{"dependencies":{"a":"1.2.3","b":"^1.0.0"},"devDependencies":{"c":"*"}}"#;
        assert_eq!(said("www/package.json", loose).len(), 2);
        let faults = said("tests/requirements.txt", "# why\na==1.0\nb>=2\nc\n\n");
        assert_eq!(faults, ["b>=2 is not pinned", "c is not pinned"]);
        let lock = "[[package]]\nname = \"ours\"\n\n[[package]]\nname = \"a\"\nsource = \"registry+x\"\nchecksum = \"1\"\n\n\
                    [[package]]\nname = \"b\"\nsource = \"git+x\"\n";
        assert_eq!(said("Cargo.lock", lock).len(), 1);
    }
}
