//! Several sites at once: the files of folders, an answer for each on all cores, told in their order as soon as it is there.
//!
//! However many there are, no more than a few answers are held at a time ([`AHEAD`]).

use std::collections::BTreeMap;
use std::fs::File;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};

use anyhow::{Context, Result, bail};
use serde::Serialize;
use serde_json::{Value, json};

use crate::{Reader, print, tell};

/// How many sites, to a core, are worked on ahead of the one that is told next.
const AHEAD: usize = 4;

/// Where a site file says what it is, bytes from its beginning at most.
const BEGINNING: u64 = 200;

/// Prints a line of JSON for each site, with its file: what `about` says of it, or why it could not. A list is put under
/// `answer`.
///
/// # Errors
/// As [`each`].
pub fn lines(named: &[PathBuf], about: impl Fn(&Path) -> Result<Value> + Sync) -> Result<()> {
    each(named, about, |name, answer| Ok(answered(name, answer))).map(drop)
}

/// The line of JSON of an answer.
fn answered(name: &str, answer: Result<Value>) -> String {
    let value = match answer {
        Ok(object @ Value::Object(_)) => object,
        Ok(other) => json!({ "answer": other }),
        Err(why) => json!({ "error": format!("{why:#}") }),
    };
    line(name, value)
}

/// How figures are told.
pub struct Told<F> {
    /// As text.
    pub text: fn(&F) -> String,
    /// As JSON.
    pub json: fn(&F) -> String,
}

/// Prints what there is to say of each site, and gives whether every file could be read: of one file as it is, of several each
/// with its file, as JSON a line each.
///
/// # Errors
/// As [`each`], and when the only file named cannot be read.
pub fn told_of<F: Serialize + Send>(
    named: &[PathBuf],
    as_json: bool,
    figures: impl Fn(&Path) -> Result<F> + Sync,
    told: &Told<F>,
) -> Result<bool> {
    if let Some(file) = only_file(named) {
        let found = figures(file)?;
        let text = if as_json { told.json } else { told.text };
        print(&text(&found))?;
        return Ok(true);
    }
    each(named, figures, |name, answer| {
        Ok(match as_json {
            true => answered(name, answer.and_then(|it| Ok(serde_json::to_value(&it)?))),
            false => under_its_name(name, answer.map(|it| (told.text)(&it))),
        })
    })
}

/// The file, where one is named that is no folder.
pub fn only_file(named: &[PathBuf]) -> Option<&Path> {
    match named {
        [only] if !only.is_dir() => Some(only),
        _ => None,
    }
}

/// A text below the file that it is about.
pub fn under_its_name(name: &str, text: Result<String>) -> String {
    match text {
        Ok(text) => format!("{name}: {text}\n"),
        Err(why) => format!("{name}: {why:#}\n\n"),
    }
}

/// A text of JSON as a line with its file.
///
/// # Errors
/// When it is no JSON.
pub fn as_a_line(name: &str, text: Result<String>) -> Result<String> {
    let value = text.map(|it| serde_json::from_str::<Value>(&it));
    Ok(match value {
        Ok(value) => answered(name, Ok(value?)),
        Err(why) => answered(name, Err(why)),
    })
}

/// Works out an answer for every site that is named, on all cores, and prints what `say` makes of it, in their order. Gives
/// whether every answer could be had.
///
/// # Errors
/// As [`files`], and when the output cannot be written.
pub fn each<A: Send>(
    named: &[PathBuf],
    answer: impl Fn(&Path) -> Result<A> + Sync,
    mut say: impl FnMut(&str, Result<A>) -> Result<String>,
) -> Result<bool> {
    let files = files(named)?;
    let mut whole = true;
    in_order(
        &files,
        |file| answer(file),
        |file, answer| {
            whole &= answer.is_ok();
            tell(&say(&file.display().to_string(), answer)?)
        },
    )?;
    Ok(whole)
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
    let mut beginning = Vec::new();
    let read = File::open(file).and_then(|it| it.take(BEGINNING).read_to_end(&mut beginning));
    read.is_ok() && String::from_utf8_lossy(&beginning).contains("\"batterboard-site\"")
}

/// What the workers and the teller know of each other.
struct Progress<A> {
    /// The item that is worked on next.
    next: usize,
    /// The item that is told next.
    told: usize,
    /// Answers whose turn has not come, by their item.
    ready: BTreeMap<usize, A>,
    /// Nobody listens any more.
    over: bool,
}

/// Works out an answer for every item on all cores, and tells each in the order of the items as soon as it and all before it are
/// there. Workers wait where they are far ahead, so that what is held does not grow with the items. Ends early where the
/// reader has gone.
///
/// # Errors
/// The first of `tell`.
pub fn in_order<T: Sync, A: Send>(
    items: &[T],
    answer: impl Fn(&T) -> A + Sync,
    mut tell: impl FnMut(&T, A) -> Result<Reader>,
) -> Result<()> {
    let cores = std::thread::available_parallelism().map_or(1, usize::from);
    let start = Progress {
        next: 0,
        told: 0,
        ready: BTreeMap::new(),
        over: false,
    };
    let (progress, changed) = (Mutex::new(start), Condvar::new());
    let ahead = cores * AHEAD;
    let work = || {
        loop {
            let mut held = locked(&progress);
            while !held.over && held.next < items.len() && held.next >= held.told + ahead {
                held = changed.wait(held).unwrap_or_else(PoisonError::into_inner);
            }
            let at = held.next;
            let Some(item) = items.get(at).filter(|_| !held.over) else {
                return;
            };
            held.next += 1;
            drop(held);
            let one = answer(item);
            locked(&progress).ready.insert(at, one);
            changed.notify_all();
        }
    };
    let mut tell_all = || {
        for (at, item) in items.iter().enumerate() {
            let mut held = locked(&progress);
            let one = loop {
                match held.ready.remove(&at) {
                    Some(one) => break one,
                    None => held = changed.wait(held).unwrap_or_else(PoisonError::into_inner),
                }
            };
            held.told = at + 1;
            drop(held);
            changed.notify_all();
            if tell(item, one)? == Reader::Gone {
                break;
            }
        }
        Ok(())
    };
    std::thread::scope(|scope| {
        for _ in 0..cores.min(items.len()) {
            scope.spawn(work);
        }
        let done = tell_all();
        locked(&progress).over = true;
        changed.notify_all();
        done
    })
}

fn locked<A>(progress: &Mutex<Progress<A>>) -> MutexGuard<'_, Progress<A>> {
    progress.lock().unwrap_or_else(PoisonError::into_inner)
}

#[cfg(test)]
mod tests {
    use std::sync::atomic::{AtomicUsize, Ordering};
    use std::time::Duration;

    use super::*;

    #[test]
    fn answers_come_in_order_and_few_are_held() {
        let items: Vec<usize> = (0..500).collect();
        let (begun, told) = (AtomicUsize::new(0), AtomicUsize::new(0));
        let most_ahead = AtomicUsize::new(0);
        let answer = |at: &usize| {
            begun.fetch_add(1, Ordering::SeqCst);
            let ahead = at.saturating_sub(told.load(Ordering::SeqCst));
            most_ahead.fetch_max(ahead, Ordering::SeqCst);
            if at.is_multiple_of(50) {
                std::thread::sleep(Duration::from_millis(5));
            }
            at * at
        };
        let mut seen = Vec::new();
        let tell = |at: &usize, square| {
            assert_eq!(at * at, square);
            seen.push(*at);
            told.store(seen.len(), Ordering::SeqCst);
            Ok(Reader::There)
        };
        in_order(&items, answer, tell).unwrap();
        assert_eq!(seen, items);
        assert_eq!(begun.load(Ordering::SeqCst), 500);
        let cores = std::thread::available_parallelism().map_or(1, usize::from);
        // One more, as it is told a moment before it is counted here.
        assert!(most_ahead.load(Ordering::SeqCst) <= cores * AHEAD + 1);
    }

    #[test]
    fn nothing_is_worked_out_for_a_reader_who_has_gone() {
        let items: Vec<usize> = (0..10_000).collect();
        let begun = AtomicUsize::new(0);
        let answer = |_: &usize| begun.fetch_add(1, Ordering::SeqCst);
        in_order(&items, answer, |_, _| Ok(Reader::Gone)).unwrap();
        assert!(begun.load(Ordering::SeqCst) < 1_000);
        let failed = in_order(&items, |_| (), |_, ()| bail!("the disk is full"));
        assert!(failed.is_err());
        in_order(&[], |_: &usize| (), |_, ()| bail!("nothing to tell")).unwrap();
    }
}
