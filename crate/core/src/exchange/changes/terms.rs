//! What was changed of the terms that a job is under: its rules, settings and rates, its tapes, and
//! what it has from a book.

use serde_json::Value;

use super::{ChangeKind, Told, listing, paired, texts};
use crate::site::{Photograph, Rate, Rule, ShareRule, Site};
use crate::units::{Currency, Measure, show, show_money};

/// Rules; of one whose distance alone is another, both distances.
pub(super) fn rules(told: &mut Told, before: &Site, after: &Site) {
    let name = |it: &Rule| it.name.clone();
    let pairs = paired(&before.rules, &after.rules, |a, b| a.name == b.name);
    for (kind, rules) in [
        (ChangeKind::Added, &pairs.added),
        (ChangeKind::Removed, &pairs.removed),
    ] {
        let names: Vec<String> = rules.iter().map(|it| name(it)).collect();
        told.named(kind, "Rule", "Rules", &texts(&names));
    }
    let changed: Vec<_> = pairs.both.iter().filter(|(a, b)| a != b).collect();
    let length = |value| show(Measure::Length, value, after.display).text;
    let words: Vec<String> = changed
        .iter()
        .map(|(was, is)| {
            let as_before = Rule {
                distance: is.distance,
                ..(*was).clone()
            };
            if as_before == **is {
                let (is_at, was_at) = (length(is.distance), length(was.distance));
                format!("{}, {is_at} instead of {was_at}", is.name)
            } else {
                name(is)
            }
        })
        .collect();
    told.named(ChangeKind::Changed, "Rule", "Rules", &texts(&words));
    if words.is_empty() && before.rules != after.rules && pairs.is_all_paired() {
        told.changed("Rules: put in another order.");
    }
}

/// Shares of ground and the barrier.
pub(super) fn required(told: &mut Told, before: &Site, after: &Site) {
    let pairs = paired(&before.shares, &after.shares, |a, b| a.name == b.name);
    let names =
        |rules: &[&ShareRule]| -> Vec<String> { rules.iter().map(|it| it.name.clone()).collect() };
    let changed = pairs.both.iter().filter(|(a, b)| a != b);
    let changed: Vec<&ShareRule> = changed.map(|(_, is)| *is).collect();
    for (kind, rules) in [
        (ChangeKind::Added, &pairs.added),
        (ChangeKind::Removed, &pairs.removed),
        (ChangeKind::Changed, &changed),
    ] {
        let (one, many) = ("Rule about covered ground", "Rules about covered ground");
        told.named(kind, one, many, &texts(&names(rules)));
    }
    told.optional(
        "What the barrier has to be",
        &before.barrier,
        &after.barrier,
    );
}

/// Settings of the work, group by group with the members that are others.
pub(super) fn works(told: &mut Told, before: &Site, after: &Site) {
    if before.works == after.works {
        return;
    }
    let value = |site: &Site| serde_json::to_value(&site.works).unwrap_or(Value::Null);
    let groups: Vec<String> = others(&value(before), &value(after))
        .into_iter()
        .map(|(group, was, is)| {
            let members = others(was, is);
            let members: Vec<String> = members.iter().map(|(name, ..)| plain(name)).collect();
            match members.is_empty() {
                true => plain(group),
                false => format!("{} ({})", plain(group), members.join(", ")),
            }
        })
        .collect();
    let what = "Settings of the work";
    told.named(ChangeKind::Changed, what, what, &texts(&groups));
}

/// The members of two objects that differ, each with what it was and is.
fn others<'a>(was: &'a Value, is: &'a Value) -> Vec<(&'a str, &'a Value, &'a Value)> {
    let (Some(was), Some(is)) = (was.as_object(), is.as_object()) else {
        return Vec::new();
    };
    let now = is
        .iter()
        .map(|(key, value)| (key.as_str(), was.get(key).unwrap_or(&Value::Null), value));
    let gone = was
        .iter()
        .filter(|(key, _)| !is.contains_key(*key))
        .map(|(key, value)| (key.as_str(), value, &Value::Null));
    now.chain(gone).filter(|(_, was, is)| was != is).collect()
}

/// The name of a member as a person reads it.
fn plain(key: &str) -> String {
    key.replace(['-', '_'], " ")
}

/// Rates; of one that is another, both figures.
pub(super) fn rates(told: &mut Told, before: &Site, after: &Site) {
    let pairs = paired(&before.rates, &after.rates, |a, b| a.key == b.key);
    counted(told, "rate", [pairs.added.len(), pairs.removed.len()]);
    let changed: Vec<String> = pairs
        .both
        .iter()
        .filter(|(a, b)| a != b)
        .map(|(was, is)| {
            let (is_at, was_at) = (money(is, after), money(was, before));
            format!("{}, {is_at} instead of {was_at}", plain(&is.key))
        })
        .collect();
    told.named(ChangeKind::Changed, "Rate", "Rates", &texts(&changed));
}

/// A rate as money for its unit.
fn money(rate: &Rate, site: &Site) -> String {
    let usual = Currency::default();
    let shown = show_money(rate.rate, site.currency.as_ref().unwrap_or(&usual)).text;
    let per = rate.per.map(|it| format!(" {}", it.words()));
    format!("{shown}{}", per.unwrap_or_default())
}

/// What a job has from a book.
pub(super) fn taken(told: &mut Told, before: &Site, after: &Site) {
    let names: Vec<&str> = after
        .taken
        .iter()
        .filter(|it| !before.taken.contains(it))
        .map(|it| it.entry.name.as_str())
        .collect();
    if !names.is_empty() {
        let words = format!("Taken from the book: {}.", listing(&names));
        told.tell(ChangeKind::Changed, words);
    }
}

/// A tape has no name: it is the one between these ends.
pub(super) fn tapes(told: &mut Told, before: &Site, after: &Site) {
    let (was, is) = (&before.tapes, &after.tapes);
    let added = is.iter().filter(|it| !was.contains(it)).count();
    let removed = was.iter().filter(|it| !is.contains(it)).count();
    counted(told, "tape", [added, removed]);
}

/// A photograph has no name; those that are in both may be elsewhere or said something else of.
pub(super) fn photographs(told: &mut Told, before: &Site, after: &Site) {
    let (was, is) = (&before.photographs, &after.photographs);
    let lacks = |list: &[Photograph], it: &Photograph| !list.iter().any(|one| one.id == it.id);
    let added = is.iter().filter(|it| lacks(was, it)).count();
    let removed = was.iter().filter(|it| lacks(is, it)).count();
    counted(told, "photograph", [added, removed]);
    // What an image holds is not compared: under one id it is one image.
    let says = |it: &Photograph| it.bare();
    let others = is.iter().filter(|it| {
        let old = was.iter().find(|one| one.id == it.id);
        old.is_some_and(|old| says(old) != says(it))
    });
    match others.count() {
        0 => {}
        1 => told.changed("1 photograph: moved, turned or described anew."),
        many => told.changed(format!(
            "{many} photographs: moved, turned or described anew."
        )),
    }
}

/// The stakeout: its fixed points and settings, and how many readings came and went.
pub(super) fn stakeout(told: &mut Told, before: &Site, after: &Site) {
    let record = |site: &Site| site.stakeout.as_deref().cloned().unwrap_or_default();
    let (mut was, mut is) = (record(before), record(after));
    let (had, has) = (
        core::mem::take(&mut was.readings),
        core::mem::take(&mut is.readings),
    );
    told.optional("The fixed points", &was.fixed.take(), &is.fixed.take());
    if was != is {
        told.changed("How the work is staked: changed.");
    }
    let added = has.iter().filter(|it| !had.contains(it)).count();
    let removed = had.iter().filter(|it| !has.contains(it)).count();
    counted(told, "reading", [added, removed]);
}

/// How many of a sort were added and removed.
fn counted(told: &mut Told, what: &str, [added, removed]: [usize; 2]) {
    for (kind, count, does) in [
        (ChangeKind::Added, added, "added"),
        (ChangeKind::Removed, removed, "removed"),
    ] {
        match count {
            0 => {}
            1 => told.tell(kind, format!("1 {what} {does}.")),
            _ => told.tell(kind, format!("{count} {what}s {does}.")),
        }
    }
}
