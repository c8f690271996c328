//! Several sites at once: the files of folders, an answer for each on all cores, a line of JSON each.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Mutex, PoisonError};

use anyhow::{Context, Result, bail};
use serde::Serialize;
use serde_json::{Value, json};

/// A line of JSON for each site, with its file: what `about` says of it, or why it could not. A list is put under
/// `answer`.
///
/// # Errors
/// As [`files`].
pub fn lines(named: &[PathBuf], about: impl Fn(&Path) -> Result<Value> + Sync) -> Result<String> {
    let files = files(named)?;
    let answers = on_all_cores(&files, |file| about(file));
    let said = files.iter().zip(answers).map(|(file, answer)| {
        let value = match answer {
            Ok(object @ Value::Object(_)) => object,
            Ok(other) => json!({ "answer": other }),
            Err(why) => json!({ "error": format!("{why:#}") }),
        };
        line(&file.display().to_string(), value)
    });
    Ok(said.collect())
}

/// How figures are told.
pub struct Told<F> {
    /// As text.
    pub text: fn(&F) -> String,
    /// As JSON.
    pub json: fn(&F) -> String,
}

/// What there is to say of each site, and whether every file could be read: of one file as it is, of several each with its
/// file, as JSON a line each.
///
/// # Errors
/// As [`files`], and when the only file named cannot be read.
pub fn told_of<F: Serialize + Send>(
    named: &[PathBuf],
    as_json: bool,
    figures: impl Fn(&Path) -> Result<F> + Sync,
    told: &Told<F>,
) -> Result<(String, bool)> {
    let files = files(named)?;
    if let ([file], [only]) = (files.as_slice(), named)
        && file == only
    {
        let found = figures(file)?;
        let text = if as_json { told.json } else { told.text };
        return Ok((text(&found), true));
    }
    let answers = on_all_cores(&files, |file| figures(file));
    let mut text = String::new();
    let mut whole = true;
    for (file, answer) in files.iter().zip(answers) {
        let name = file.display().to_string();
        whole &= answer.is_ok();
        match (answer, as_json) {
            (Ok(found), true) => text.push_str(&line(&name, serde_json::to_value(&found)?)),
            (Ok(found), false) => text.push_str(&format!("{name}: {}\n", (told.text)(&found))),
            (Err(why), true) => {
                text.push_str(&line(&name, json!({ "error": format!("{why:#}") })));
            }
            (Err(why), false) => text.push_str(&format!("{name}: {why:#}\n\n")),
        }
    }
    Ok((text, whole))
}

/// One line of JSON: the file, and what there is to say of it.
pub fn line(file: &str, value: Value) -> String {
    let mut members = serde_json::Map::new();
    members.insert("file".to_owned(), Value::from(file));
    if let Value::Object(more) = value {
        members.extend(more);
    }
    format!("{}\n", Value::Object(members))
}

/// The files, and of every folder those in it that may be sites, in order of their names.
///
/// # Errors
/// When a folder cannot be listed, or there is no site file at all.
pub fn files(named: &[PathBuf]) -> Result<Vec<PathBuf>> {
    let mut all = Vec::new();
    for path in named {
        if !path.is_dir() {
            all.push(path.clone());
            continue;
        }
        all.extend(json_files(path)?.into_iter().filter(|file| is_site(file)));
    }
    if all.is_empty() {
        bail!("there is no site file in it");
    }
    Ok(all)
}

/// The JSON files of a folder, in order of their names.
///
/// # Errors
/// When it cannot be listed.
pub fn json_files(folder: &Path) -> Result<Vec<PathBuf>> {
    let inside = std::fs::read_dir(folder);
    let inside = inside.with_context(|| format!("cannot list {}", folder.display()))?;
    let mut files = inside
        .map(|entry| Ok(entry?.path()))
        .collect::<Result<Vec<PathBuf>>>()?;
    files.retain(|file| file.extension().is_some_and(|it| it == "json"));
    files.sort();
    Ok(files)
}

/// Whether a JSON file of a folder may be a site: it says so near its beginning.
fn is_site(file: &Path) -> bool {
    let says = |text: String| {
        text.get(..200)
            .unwrap_or(&text)
            .contains("\"batterboard-site\"")
    };
    std::fs::read_to_string(file).is_ok_and(says)
}

/// An answer for every item, in their order.
pub fn on_all_cores<T: Sync, A: Send>(items: &[T], answer: impl Fn(&T) -> A + Sync) -> Vec<A> {
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let next = AtomicUsize::new(0);
    let found = Mutex::new(Vec::with_capacity(items.len()));
    std::thread::scope(|scope| {
        for _ in 0..cores.min(items.len()) {
            scope.spawn(|| {
                loop {
                    let at = next.fetch_add(1, Ordering::Relaxed);
                    let Some(item) = items.get(at) else { break };
                    let one = answer(item);
                    found
                        .lock()
                        .unwrap_or_else(PoisonError::into_inner)
                        .push((at, one));
                }
            });
        }
    });
    let mut found = found.into_inner().unwrap_or_else(PoisonError::into_inner);
    found.sort_by_key(|(at, _)| *at);
    found.into_iter().map(|(_, one)| one).collect()
}
