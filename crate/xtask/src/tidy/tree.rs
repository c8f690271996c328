//! The tree as data: every file that a clone would hold, with its text.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, bail};

/// Every file below the top folder that is not ignored, in path order.
pub struct Tree {
    pub files: Vec<File>,
}

/// One file.
pub struct File {
    /// From the top folder, with `/` between parts.
    pub path: String,
    /// Empty for a file that is no text.
    pub text: String,
}

impl File {
    /// The part after the last dot, or nothing.
    pub fn ending(&self) -> &str {
        self.path.rsplit_once('.').map_or("", |(_, ending)| ending)
    }
}

impl Tree {
    /// Reads the tree at `root`, leaving out what its `.gitignore` names.
    ///
    /// # Errors
    /// When something cannot be read or `.gitignore` holds a pattern this reader does not know.
    pub fn read(root: &Path) -> Result<Self> {
        let ignored =
            Ignored::parse(&fs::read_to_string(root.join(".gitignore")).unwrap_or_default())?;
        let mut files = Vec::new();
        walk(root, "", &ignored, &mut files)?;
        files.sort_by(|a, b| a.path.cmp(&b.path));
        Ok(Self { files })
    }

    /// The text of one file.
    pub fn text(&self, path: &str) -> Option<&str> {
        self.files
            .iter()
            .find(|file| file.path == path)
            .map(|file| file.text.as_str())
    }
}

fn walk(folder: &Path, prefix: &str, ignored: &Ignored, files: &mut Vec<File>) -> Result<()> {
    let entries = folder
        .read_dir()
        .with_context(|| format!("cannot read {}", folder.display()))?;
    for entry in entries {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        let path = format!("{prefix}{name}");
        if ignored.covers(&path, &name) {
            continue;
        }
        if entry.file_type()?.is_dir() {
            walk(&entry.path(), &format!("{path}/"), ignored, files)?;
        } else {
            let bytes = fs::read(entry.path()).with_context(|| format!("cannot read {path}"))?;
            files.push(File {
                path,
                text: String::from_utf8(bytes).unwrap_or_default(),
            });
        }
    }
    Ok(())
}

/// The few forms of `.gitignore` patterns this project uses.
struct Ignored {
    anchored: Vec<String>,
    names: Vec<String>,
    suffixes: Vec<String>,
}

impl Ignored {
    fn parse(text: &str) -> Result<Self> {
        let mut ignored = Self {
            anchored: Vec::new(),
            names: vec![".git".to_owned()],
            suffixes: Vec::new(),
        };
        for line in text
            .lines()
            .map(str::trim)
            .filter(|line| !line.is_empty() && !line.starts_with('#'))
        {
            let (list, rest) = if let Some(path) = line.strip_prefix('/') {
                (&mut ignored.anchored, path)
            } else if let Some(suffix) = line.strip_prefix('*') {
                (&mut ignored.suffixes, suffix)
            } else {
                (&mut ignored.names, line)
            };
            let nested = rest.contains('/') && !line.starts_with('/');
            if nested || rest.contains(['*', '?', '!', '[']) {
                bail!(
                    ".gitignore: write `{line}` as a plain name, an /anchored/path or a *.suffix"
                );
            }
            list.push(rest.to_owned());
        }
        Ok(ignored)
    }

    fn covers(&self, path: &str, name: &str) -> bool {
        self.anchored.iter().any(|it| it == path)
            || self.names.iter().any(|it| it == name)
            || self.suffixes.iter().any(|it| name.ends_with(it.as_str()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tidy::test_tree::Scratch;

    #[test]
    fn what_git_ignores_is_left_out() {
        let scratch = Scratch::new("tree");
        scratch.write(".gitignore", "# products\n/target\nnode_modules\n*.pyc\n");
        for path in [
            "a.rs",
            "target/x.rs",
            "www/target/y.rs",
            "www/node_modules/z.js",
            "t.pyc",
            ".git/config",
            ".ci/run",
        ] {
            scratch.write(path, "text");
        }
        let paths: Vec<_> = Tree::read(scratch.root())
            .unwrap()
            .files
            .into_iter()
            .map(|file| file.path)
            .collect();
        assert_eq!(paths, [".ci/run", ".gitignore", "a.rs", "www/target/y.rs"]);
    }

    #[test]
    fn a_pattern_it_cannot_read_is_refused() {
        for pattern in ["!keep", "www/dist", "a*b", "**/x"] {
            assert!(Ignored::parse(pattern).is_err(), "{pattern}");
        }
    }
}
