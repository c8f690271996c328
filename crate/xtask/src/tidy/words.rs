//! Words that have no place in the tree: registry hosts, and paths of somebody's machine.
//!
//! The lists are put together from halves, so that this file passes its own check.

use super::Fault;
use super::tree::Tree;

/// Registry hosts. Where packages come from is the reader's set-up, not ours.
const HOSTS: [&str; 8] = [
    concat!("crates", ".io"),
    concat!("static.rust", "-lang"),
    concat!("npm", "js.org"),
    concat!("npm", "js.com"),
    concat!("py", "pi.org"),
    concat!("python", "hosted.org"),
    concat!("deb.", "debian.org"),
    concat!("proxy.", "golang.org"),
];

/// The beginnings of paths that exist on one machine only.
const MACHINE: [&str; 4] = [
    concat!("/wo", "rk/"),
    concat!("/ro", "ot/"),
    concat!("/ho", "me/"),
    concat!("/Us", "ers/"),
];

/// Cargo writes the registry into its lock file; everything else can do without.
const EXEMPT: &str = "Cargo.lock";

/// Every line with such a word.
pub fn check(tree: &Tree) -> Vec<Fault> {
    let mut faults = Vec::new();
    for file in tree.files.iter().filter(|file| file.path != EXEMPT) {
        for (number, line) in file.text.lines().enumerate() {
            for host in HOSTS.iter().filter(|host| line.contains(**host)) {
                faults.push(Fault::new(
                    &file.path,
                    number + 1,
                    format!("names the registry host {host}"),
                ));
            }
            for path in MACHINE.iter().filter(|path| starts_a_path(line, path)) {
                faults.push(Fault::new(
                    &file.path,
                    number + 1,
                    format!("holds a path of one machine ({path}...)"),
                ));
            }
        }
    }
    faults
}

/// Whether `path` stands in `line` as the beginning of a path, not in the middle of a longer one.
fn starts_a_path(line: &str, path: &str) -> bool {
    let inner =
        |c: char| c.is_alphanumeric() || matches!(c, '.' | '_' | '-' | '/' | '~' | '}' | ')');
    line.match_indices(path)
        .any(|(at, _)| !line.get(..at).is_some_and(|before| before.ends_with(inner)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tidy::tree::File;

    fn places(path: &str, text: &str) -> Vec<usize> {
        let files = vec![File {
            path: path.to_owned(),
            text: text.to_owned(),
        }];
        check(&Tree { files })
            .iter()
            .map(|fault| fault.line)
            .collect()
    }

    #[test]
    fn hosts_are_found_by_line() {
        for host in HOSTS {
            assert_eq!(
                places(
                    "www/package-lock.json",
                    &format!("{{\n\"from\": \"https://{host}/x\"\n}}")
                ),
                [2]
            );
            assert_eq!(places("Cargo.lock", host), [0_usize; 0]);
        }
    }

    #[test]
    fn machine_paths_are_told_from_parts_of_others() {
        for path in MACHINE {
            assert_eq!(places("a.py", &format!("\nopen('{path}x')")), [2]);
            assert_eq!(places("a.py", &format!("{path}x")), [1]);
            assert_eq!(
                places("a.py", &format!("../lib{path}x and example.com{path}")),
                [0_usize; 0]
            );
        }
        assert_eq!(
            places("a.ts", "const url = `${base}/assets/`;"),
            [0_usize; 0]
        );
    }
}
