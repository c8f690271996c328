//! What was changed from one state of a site to another, in plain words.
//!
//! ```
//! use batterboard_core::exchange::changes::between;
//! use batterboard_core::site::starter::blank_lot;
//!
//! let before = blank_lot();
//! let after = batterboard_core::site::Site { name: "Larch Road".into(), ..before.clone() };
//! let words: Vec<String> = between(&before, &after).into_iter().map(|it| it.words).collect();
//! assert_eq!(words, ["Renamed from \"New job\" to \"Larch Road\"."]);
//! ```

mod terms;

use serde::Serialize;

use crate::geom::path::VertexRecord;
use crate::geom::{PathRecord, Point};
use crate::ground::GroundRecord;
use crate::lot::LotRecord;
use crate::site::{Feature, Placement, ShapeRecord, ShellChoice, Site};
use crate::units::{Measure, System, show};

/// What sort of change it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum ChangeKind {
    /// It was not there.
    Added,
    /// It is there no more.
    Removed,
    /// It is somewhere else, and otherwise the same.
    Moved,
    /// It is another.
    Changed,
}

/// One change.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Change {
    /// What sort of change it is.
    pub kind: ChangeKind,
    /// What was changed, in a sentence.
    pub words: String,
}

impl Change {
    /// A thing that is another now.
    pub(super) fn told(words: String) -> Self {
        Self {
            kind: ChangeKind::Changed,
            words,
        }
    }
}

/// So many names are told one by one before the rest are counted.
const NAMED: usize = 6;

/// Two places nearer to each other than this are the same, meters (arithmetic leaves less).
const SAME_PLACE: f64 = 1e-9;

/// Everything that differs between two sites, in the order of the work: lot, yard, ground, shell,
/// rules and settings. Lengths stand in the units of `after`.
pub fn between(before: &Site, after: &Site) -> Vec<Change> {
    let mut told = Told(Vec::new());
    heading(&mut told, before, after);
    lot(&mut told, &before.lot, &after.lot);
    yard(&mut told, &before.features, &after.features);
    ground(&mut told, &before.ground, &after.ground);
    told.optional("The benchmark", &before.benchmark, &after.benchmark);
    told.optional("The place on earth", &before.origin, &after.origin);
    told.optional("The survey grid", &before.grid, &after.grid);
    told.optional(
        "The picture under the plan",
        &before.picture,
        &after.picture,
    );
    told.optional("Contours", &before.contours, &after.contours);
    shell(
        &mut told,
        before.placement.as_ref(),
        after.placement.as_ref(),
        after.display,
    );
    equipment(&mut told, before, after);
    terms::rules(&mut told, before, after);
    terms::required(&mut told, before, after);
    terms::works(&mut told, before, after);
    terms::rates(&mut told, before, after);
    told.optional("The currency", &before.currency, &after.currency);
    told.optional("The line of the section", &before.section, &after.section);
    told.optional("The places of the lift", &before.lift, &after.lift);
    let (kept, now) = (&before.alternatives, &after.alternatives);
    told.listed(
        "Place kept to compare",
        "Places kept to compare",
        kept,
        now,
        |it| &it.name,
    );
    terms::tapes(&mut told, before, after);
    terms::stakeout(&mut told, before, after);
    terms::photographs(&mut told, before, after);
    terms::taken(&mut told, before, after);
    told.0
}

/// What was told so far.
struct Told(Vec<Change>);

impl Told {
    fn tell(&mut self, kind: ChangeKind, words: impl Into<String>) {
        let words = words.into();
        self.0.push(Change { kind, words });
    }

    fn changed(&mut self, words: impl Into<String>) {
        self.tell(ChangeKind::Changed, words);
    }

    /// A thing of which there is one or none.
    fn optional<T: PartialEq>(&mut self, what: &str, before: &Option<T>, after: &Option<T>) {
        match (before, after) {
            (None, Some(_)) => self.tell(ChangeKind::Added, format!("{what}: added.")),
            (Some(_), None) => self.tell(ChangeKind::Removed, format!("{what}: removed.")),
            (Some(a), Some(b)) if a != b => self.changed(format!("{what}: changed.")),
            _ => {}
        }
    }

    /// Things of a sort by their names: one thing in a sentence of its own, several counted.
    fn named(&mut self, kind: ChangeKind, one: &str, many: &str, names: &[&str]) {
        let does = match kind {
            ChangeKind::Added => "added",
            ChangeKind::Removed => "removed",
            ChangeKind::Moved => "moved",
            ChangeKind::Changed => "changed",
        };
        match names {
            [] => {}
            [name] => self.tell(kind, format!("{one} {does}: {name}.")),
            _ => self.tell(
                kind,
                format!("{many} {does}: {}, {}.", names.len(), listing(names)),
            ),
        }
    }

    /// Things that are known by their names, which need not be unique.
    fn listed<T: PartialEq>(
        &mut self,
        one: &str,
        many: &str,
        before: &[T],
        after: &[T],
        name: fn(&T) -> &str,
    ) {
        let pairs = paired(before, after, |a, b| name(a) == name(b));
        let changed = pairs
            .both
            .iter()
            .filter(|(a, b)| a != b)
            .map(|(_, b)| name(b));
        let changed: Vec<&str> = changed.collect();
        let names =
            |items: &[&T]| -> Vec<String> { items.iter().map(|it| name(it).to_owned()).collect() };
        let (added, removed) = (names(&pairs.added), names(&pairs.removed));
        self.named(ChangeKind::Added, one, many, &texts(&added));
        self.named(ChangeKind::Removed, one, many, &texts(&removed));
        self.named(ChangeKind::Changed, one, many, &changed);
        let same_things = pairs.is_all_paired() && changed.is_empty();
        if same_things && before != after {
            self.changed(format!("{many}: put in another order."));
        }
    }
}

fn texts(names: &[String]) -> Vec<&str> {
    names.iter().map(String::as_str).collect()
}

/// Names one after the other, those too many counted.
fn listing(names: &[&str]) -> String {
    let told = names.get(..NAMED).unwrap_or(names).join(", ");
    match names.len().saturating_sub(NAMED) {
        0 => told,
        more => format!("{told} and {more} more"),
    }
}

/// What of two lists belongs together.
struct Pairs<'a, T> {
    both: Vec<(&'a T, &'a T)>,
    added: Vec<&'a T>,
    removed: Vec<&'a T>,
}

impl<T> Pairs<'_, T> {
    /// Whether nothing is in one list alone.
    fn is_all_paired(&self) -> bool {
        self.added.is_empty() && self.removed.is_empty()
    }
}

/// Pairs the things of two lists; each is in one pair at most.
fn paired<'a, T>(before: &'a [T], after: &'a [T], alike: impl Fn(&T, &T) -> bool) -> Pairs<'a, T> {
    let mut removed: Vec<&T> = before.iter().collect();
    let (mut both, mut added) = (Vec::new(), Vec::new());
    for it in after {
        match removed.iter().position(|other| alike(other, it)) {
            Some(index) => both.push((removed.remove(index), it)),
            None => added.push(it),
        }
    }
    Pairs {
        both,
        added,
        removed,
    }
}

fn heading(told: &mut Told, before: &Site, after: &Site) {
    if before.name != after.name {
        told.changed(format!(
            "Renamed from \"{}\" to \"{}\".",
            before.name, after.name
        ));
    }
    if before.note != after.note {
        told.changed("The note on the job: changed.");
    }
    if before.display != after.display {
        let units = match after.display {
            System::Feet => "feet and inches",
            System::Metres => "meters",
        };
        told.changed(format!("Shown in {units}."));
    }
}

fn lot(told: &mut Told, before: &LotRecord, after: &LotRecord) {
    if before == after {
        return;
    }
    let (had, has) = (before.courses.len(), after.courses.len());
    let run = |lot: &LotRecord| -> Vec<_> { lot.courses.iter().map(|it| it.shape).collect() };
    let (ran, runs) = (run(before), run(after));
    let mut sides = 0;
    if had != has {
        told.changed(format!("The lot: {has} sides instead of {had}."));
    } else {
        sides = ran.iter().zip(&runs).filter(|(a, b)| a != b).count();
    }
    match sides {
        0 => {}
        1 => told.changed("The lot: 1 side runs another way."),
        _ => told.changed(format!("The lot: {sides} sides run another way.")),
    }
    if had == has {
        let pairs = before.courses.iter().zip(&after.courses);
        match pairs.filter(|(a, b)| a.kind != b.kind).count() {
            0 => {}
            1 => told.changed("The lot: the kind of 1 side changed."),
            kinds => told.changed(format!("The lot: the kinds of {kinds} sides changed.")),
        }
    }
    if before.start != after.start {
        told.tell(ChangeKind::Moved, "The lot: its first corner moved.");
    }
    let same_sides = had == has && ran == runs && before.start == after.start;
    let same_kinds = before
        .courses
        .iter()
        .map(|it| it.kind)
        .eq(after.courses.iter().map(|it| it.kind));
    if same_sides && same_kinds {
        told.changed("The lot: what its record says of deed, corners or bearings changed.");
    }
}

fn yard(told: &mut Told, before: &[Feature], after: &[Feature]) {
    let pairs = paired(before, after, |a, b| a.id == b.id);
    let labels = |items: &[&Feature]| -> Vec<String> {
        items.iter().map(|it| it.label().to_owned()).collect()
    };
    let differ = pairs.both.iter().filter(|(a, b)| a != b);
    let (moved, changed): (Vec<_>, Vec<_>) = differ.partition(|(a, b)| is_moved(a, b));
    let second = |pairs: Vec<&(&Feature, &Feature)>| -> Vec<String> {
        pairs
            .into_iter()
            .map(|(_, b)| b.label().to_owned())
            .collect()
    };
    let sorts = [
        (ChangeKind::Added, labels(&pairs.added)),
        (ChangeKind::Removed, labels(&pairs.removed)),
        (ChangeKind::Moved, second(moved)),
        (ChangeKind::Changed, second(changed)),
    ];
    for (kind, names) in sorts {
        told.named(kind, "In the yard", "In the yard", &texts(&names));
    }
}

/// Whether a feature only stands elsewhere.
fn is_moved(before: &Feature, after: &Feature) -> bool {
    let placed_alike = Feature {
        shape: after.shape.clone(),
        facts: after.facts.clone(),
        ..before.clone()
    };
    let (from, to) = (outline(&before.shape), outline(&after.shape));
    let by = |(a, b): (&[f64; 3], &[f64; 3])| [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
    let mut steps = from.iter().zip(&to).map(by);
    let Some(first) = steps.next() else {
        return false;
    };
    let near = |a: f64, b: f64| (a - b).abs() <= SAME_PLACE;
    placed_alike == *after
        && before.facts.openings.len() == after.facts.openings.len()
        && same_form(&before.shape, &after.shape)
        && from.len() == to.len()
        && near(first[2], 0.0)
        && steps
            .all(|step| near(step[0], first[0]) && near(step[1], first[1]) && near(step[2], 0.0))
}

fn same_form(before: &ShapeRecord, after: &ShapeRecord) -> bool {
    core::mem::discriminant(before) == core::mem::discriminant(after)
}

/// The vertices of a shape, each with what belongs to it and does not move: a bulge, a width.
fn outline(shape: &ShapeRecord) -> Vec<[f64; 3]> {
    let vertices = |path: &PathRecord| -> Vec<[f64; 3]> {
        let vertex = |it: &VertexRecord| match *it {
            VertexRecord::Line([x, y]) => [x, y, 0.0],
            VertexRecord::Arc(vertex) => vertex,
        };
        path.0.iter().map(vertex).collect()
    };
    match shape {
        ShapeRecord::Area(path) | ShapeRecord::Track(path) => vertices(path),
        ShapeRecord::Strip { path, width } => {
            let mut all = vertices(path);
            all.extend(all.first().map(|[x, y, _]| [*x, *y, *width]));
            all
        }
        ShapeRecord::Disc { at, radius } => vec![[at.x, at.y, *radius]],
        ShapeRecord::Along { .. } => Vec::new(),
        ShapeRecord::Compound(pieces) => {
            let paths = pieces
                .iter()
                .flat_map(|it| core::iter::once(&it.outer).chain(&it.holes));
            paths.flat_map(vertices).collect()
        }
    }
}

fn ground(told: &mut Told, before: &GroundRecord, after: &GroundRecord) {
    if before == after {
        return;
    }
    let (
        GroundRecord::Spots {
            spots: had,
            breaklines: broke,
        },
        GroundRecord::Spots {
            spots: has,
            breaklines: breaks,
        },
    ) = (before, after)
    else {
        let sort = |ground: &GroundRecord| match ground {
            GroundRecord::Level { .. } => "level",
            GroundRecord::Plane { .. } => "an even fall",
            GroundRecord::Spots { .. } => "spot elevations",
        };
        let (was, is) = (sort(before), sort(after));
        return if was == is {
            told.changed(format!("The ground: {is}, with other figures."));
        } else {
            told.changed(format!("The ground: {is} instead of {was}."));
        };
    };
    let place = |spot: &[f64; 3]| (spot[0].to_bits(), spot[1].to_bits());
    let known: std::collections::BTreeMap<_, _> = had.iter().map(|it| (place(it), it[2])).collect();
    let now: std::collections::BTreeSet<_> = has.iter().map(place).collect();
    let added = has
        .iter()
        .filter(|it| !known.contains_key(&place(it)))
        .count();
    let removed = had.iter().filter(|it| !now.contains(&place(it))).count();
    let other = has
        .iter()
        .filter(|it| known.get(&place(it)).is_some_and(|z| *z != it[2]))
        .count();
    let spots = |count: usize| {
        if count == 1 {
            "1 spot elevation".to_owned()
        } else {
            format!("{count} spot elevations")
        }
    };
    for (kind, count, does) in [
        (ChangeKind::Added, added, "added"),
        (ChangeKind::Removed, removed, "removed"),
        (ChangeKind::Changed, other, "changed"),
    ] {
        if count > 0 {
            told.tell(kind, format!("The ground: {} {does}.", spots(count)));
        }
    }
    if broke != breaks {
        told.changed(format!(
            "The ground: {} breaklines instead of {}, or other ones.",
            breaks.len(),
            broke.len()
        ));
    }
}

fn shell_name(placement: &Placement) -> &str {
    match placement.shell.as_ref() {
        ShellChoice::Catalogue(name) => name,
        ShellChoice::Own(record) => &record.name,
    }
}

fn shell(told: &mut Told, before: Option<&Placement>, after: Option<&Placement>, system: System) {
    let (before, after) = match (before, after) {
        (None, None) => return,
        (None, Some(it)) => {
            return told.tell(
                ChangeKind::Added,
                format!("Shell added: {}.", shell_name(it)),
            );
        }
        (Some(it), None) => {
            return told.tell(
                ChangeKind::Removed,
                format!("Shell removed: {}.", shell_name(it)),
            );
        }
        (Some(before), Some(after)) => (before, after),
    };
    if before.shell != after.shell {
        let (was, is) = (shell_name(before), shell_name(after));
        told.changed(if was == is {
            format!("Shell changed: {is}.")
        } else {
            format!("Shell exchanged: {is} instead of {was}.")
        });
    }
    if moved_by(before.at, after.at) > SAME_PLACE {
        let by = show(Measure::Length, moved_by(before.at, after.at), system).text;
        told.tell(ChangeKind::Moved, format!("Shell moved by {by}."));
    }
    if before.heading != after.heading {
        let heading = |at: &Placement| show(Measure::Heading, at.heading, system).text;
        told.tell(
            ChangeKind::Moved,
            format!(
                "Shell turned: {} instead of {}.",
                heading(after),
                heading(before)
            ),
        );
    }
    if before.mirrored != after.mirrored {
        told.changed("Shell flipped.");
    }
    if before.coping_elevation != after.coping_elevation {
        let coping = |at: &Placement| show(Measure::Elevation, at.coping_elevation, system).text;
        told.changed(format!(
            "Coping elevation: {} instead of {}.",
            coping(after),
            coping(before)
        ));
    }
}

fn moved_by(from: Point, to: Point) -> f64 {
    from.distance(to)
}

fn equipment(told: &mut Told, before: &Site, after: &Site) {
    match (before.equipment, after.equipment) {
        (Some(a), Some(b)) if a != b && (a.length, a.width) == (b.length, b.width) => {
            told.tell(ChangeKind::Moved, "The equipment pad: moved.");
        }
        _ => told.optional("The equipment pad", &before.equipment, &after.equipment),
    }
}

#[cfg(test)]
mod tests;
