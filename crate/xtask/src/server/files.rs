//! Which file answers a request, and how it is labelled.
//!
//! A request may name a file below the served folder and nothing else: not through `..`, not
//! percent-encoded, not through a link that leads out, and no dot-file.

use std::path::{Path, PathBuf};

/// Why a request has no file.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Refusal {
    /// The address cannot be read.
    Malformed,
    /// There is no such file, or it is not ours to give.
    Missing,
    /// Only reading is offered.
    Method,
}

impl Refusal {
    /// The status code and a word for the reader.
    pub fn status(self) -> (u16, &'static str) {
        match self {
            Self::Malformed => (400, "bad address\n"),
            Self::Missing => (404, "not found\n"),
            Self::Method => (405, "read only\n"),
        }
    }
}

/// The file below `root` (a canonical path) that `url` asks for; a folder answers with its index.
///
/// # Errors
/// [`Refusal::Malformed`] for an address that is no clean path, [`Refusal::Missing`] for everything
/// that is not a file below `root`.
pub fn resolve(root: &Path, url: &str) -> Result<PathBuf, Refusal> {
    let path = url.split(['?', '#']).next().unwrap_or_default();
    let path =
        decode(path.strip_prefix('/').ok_or(Refusal::Malformed)?).ok_or(Refusal::Malformed)?;
    if path.contains(['\0', '\\']) {
        return Err(Refusal::Malformed);
    }
    let mut file = root.to_path_buf();
    for part in path.split('/').filter(|part| !part.is_empty()) {
        // Covers `.`, `..` and dot-files. A colon could name a drive.
        if part.starts_with('.') || part.contains(':') {
            return Err(Refusal::Missing);
        }
        file.push(part);
    }
    if file.is_dir() {
        file.push("index.html");
    }
    // Links are followed before the check, so that one leading out is refused.
    let file = file.canonicalize().map_err(|_| Refusal::Missing)?;
    if file.starts_with(root) && file.is_file() {
        Ok(file)
    } else {
        Err(Refusal::Missing)
    }
}

/// Undoes percent-encoding once; `None` for a broken escape or bytes that are no UTF-8.
fn decode(text: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let (high, low) = (digit(rest.next()?)?, digit(rest.next()?)?);
            bytes.push(high * 16 + low);
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).ok()
}

fn digit(byte: u8) -> Option<u8> {
    char::from(byte)
        .to_digit(16)
        .and_then(|value| u8::try_from(value).ok())
}

/// The media type of a file by its ending. The browser is told not to guess, so this must be right.
pub fn mime(path: &Path) -> &'static str {
    match path
        .extension()
        .and_then(|kind| kind.to_str())
        .unwrap_or_default()
    {
        "html" => "text/html; charset=utf-8",
        "js" | "mjs" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "json" | "map" => "application/json",
        "webmanifest" => "application/manifest+json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "jpg" | "jpeg" => "image/jpeg",
        "webp" => "image/webp",
        "ico" => "image/x-icon",
        "woff2" => "font/woff2",
        "ttf" => "font/ttf",
        "pdf" => "application/pdf",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

/// How long a file may be kept: those under `assets/` carry a hash of their contents in their name
/// and never change; everything else is asked for again, so that a rebuild shows at once.
pub fn cache(root: &Path, path: &Path) -> &'static str {
    if path.starts_with(root.join("assets")) {
        "public, max-age=31536000, immutable"
    } else {
        "no-cache"
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tidy::test_tree::Scratch;

    fn page() -> (Scratch, PathBuf) {
        let tree = Scratch::new("files");
        tree.write("dist/index.html", "");
        tree.write("dist/assets/a b.js", "");
        tree.write("dist/demo/index.html", "");
        tree.write("dist/.hidden", "");
        tree.write("secret.txt", "");
        tree.write("dist-other/x.txt", "");
        let root = tree.root().join("dist").canonicalize().unwrap();
        (tree, root)
    }

    #[test]
    fn plain_paths_find_their_file() {
        let (_tree, root) = page();
        for (url, file) in [
            ("/", "index.html"),
            ("/index.html?v=1#top", "index.html"),
            ("/assets/a%20b.js", "assets/a b.js"),
            ("//assets//a%20b.js", "assets/a b.js"),
            ("/demo", "demo/index.html"),
            ("/demo/", "demo/index.html"),
        ] {
            assert_eq!(resolve(&root, url), Ok(root.join(file)), "{url}");
        }
    }

    #[test]
    fn nothing_outside_the_folder_is_served() {
        let (_tree, root) = page();
        for url in [
            "/../secret.txt",
            "/%2e%2e/secret.txt",
            "/..%2fsecret.txt",
            "/assets/../../secret.txt",
            "/demo/%2E%2E/%2E%2E/secret.txt",
            "/../dist-other/x.txt",
            "/.hidden",
            "/assets",
            "/nothing.js",
            "/c:/windows",
            "/%2Fetc/passwd",
        ] {
            assert_eq!(resolve(&root, url), Err(Refusal::Missing), "{url}");
        }
        for url in [
            "",
            "index.html",
            "/%",
            "/%4",
            "/%zz",
            "/%ff",
            "/a%00b",
            "/..\\secret.txt",
            "/%5c",
            "http://x/",
        ] {
            assert_eq!(resolve(&root, url), Err(Refusal::Malformed), "{url}");
        }
    }

    #[test]
    fn encoding_is_undone_once() {
        let (_tree, root) = page();
        assert_eq!(
            resolve(&root, "/%252e%252e/secret.txt"),
            Err(Refusal::Missing)
        );
        assert_eq!(decode("%252e").as_deref(), Some("%2e"));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_that_leads_out_is_refused() {
        let (tree, root) = page();
        std::os::unix::fs::symlink(tree.root().join("secret.txt"), root.join("link.txt")).unwrap();
        std::os::unix::fs::symlink(root.join("index.html"), root.join("inside.html")).unwrap();
        assert_eq!(resolve(&root, "/link.txt"), Err(Refusal::Missing));
        assert_eq!(resolve(&root, "/inside.html"), Ok(root.join("index.html")));
    }

    #[test]
    fn types_and_keeping() {
        for (file, kind) in [
            ("x.wasm", "application/wasm"),
            ("x.js", "text/javascript; charset=utf-8"),
            ("x.css", "text/css; charset=utf-8"),
            ("manifest.webmanifest", "application/manifest+json"),
            ("site.json", "application/json"),
            ("x.svg", "image/svg+xml"),
            ("noending", "application/octet-stream"),
        ] {
            assert_eq!(mime(Path::new(file)), kind, "{file}");
        }
        let root = Path::new("/dist");
        assert!(cache(root, Path::new("/dist/assets/a-1b.js")).contains("immutable"));
        assert_eq!(cache(root, Path::new("/dist/sw.js")), "no-cache");
        assert_eq!(cache(root, Path::new("/dist/index.html")), "no-cache");
    }
}
