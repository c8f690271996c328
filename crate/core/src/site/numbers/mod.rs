//! The range of every plain number in a site: finite, and such as a job can have.

mod staked;
mod works;

use core::ops::RangeInclusive;

use super::{
    ConstructionSettings, FORMAT, FactKind, Feature, Picture, Placement, Site, StakeoutRecord,
    TapeEnd, VERSION, stakeout, tape,
};
use crate::finding::Finding;
use crate::geom::{COORDINATE_LIMIT, Point};
use crate::math::TURN;
use crate::units::{LONGEST_CURRENCY, Measure, System, out_of_range};

/// Holds members of one object to their ranges. A row names the member, what a person calls
/// it, what kind of figure it is, and its range; the member's place in the file is the object's
/// place and that name.
macro_rules! ranges {
    ($faults:ident, $place:expr, $object:expr;
     $($member:ident $(. $inner:ident)*: $what:literal, $measure:ident, $range:expr;)+) => { $(
        $faults.within(
            &format!(
                concat!("{}/", stringify!($member) $(, "/", stringify!($inner))*),
                $place
            ),
            $what,
            crate::units::Measure::$measure,
            $object.$member $(.$inner)*,
            $range,
        );
    )+ };
}

use ranges;

/// A plain number of a site.
#[derive(Debug, Clone, PartialEq)]
pub struct Number {
    /// Where it stands in the file.
    pub place: String,
    /// What a person calls it.
    pub what: String,
    /// What kind of figure it is.
    pub measure: Measure,
    /// Its value, SI units; none where it is not given.
    pub value: Option<f64>,
}

/// The faults of plain numbers.
struct Faults {
    found: Vec<Finding>,
    /// The units in which they are told.
    system: System,
    /// Every number that was looked at, where they are asked for.
    seen: Option<Vec<Number>>,
}

impl Faults {
    /// A number that must lie in a range where it is given (NaN and infinities never do).
    fn within(
        &mut self,
        place: &str,
        what: &str,
        measure: Measure,
        value: impl Into<Option<f64>>,
        range: RangeInclusive<f64>,
    ) {
        let value = value.into();
        if let Some(seen) = &mut self.seen {
            seen.push(Number {
                place: place.to_owned(),
                what: what.to_owned(),
                measure,
                value,
            });
        }
        let outside = value.filter(|value| !range.contains(value));
        if let Some(value) = outside {
            let message = out_of_range(what, measure, value, &range, &[self.system]);
            let remedy = "Give a value within that range.";
            let fault = Finding::fault("out-of-range", message, remedy);
            self.found.push(fault.under(place));
        }
    }

    /// A position that must lie within the reach of coordinates where it is given.
    fn position(&mut self, place: &str, at: impl Into<Option<Point>>) {
        if let Some(at) = at.into() {
            let range = -COORDINATE_LIMIT..=COORDINATE_LIMIT;
            let measure = Measure::LongLength;
            self.within(place, "The x of a position", measure, at.x, range.clone());
            self.within(place, "The y of a position", measure, at.y, range);
        }
    }
}

/// Every plain number that is out of range, placed in the site file.
pub(super) fn check(site: &Site) -> Vec<Finding> {
    let mut faults = Faults {
        found: Vec::new(),
        system: site.display,
        seen: None,
    };
    header(site, &mut faults);
    placement(site, &mut faults);
    works::check(&site.works, &mut faults);
    plan(site, &mut faults);
    for (i, feature) in site.features.iter().enumerate() {
        facts(&format!("/features/{i}/facts"), feature, &mut faults);
    }
    datum(site, &mut faults);
    if let Some(picture) = &site.picture {
        under_the_plan(picture, &mut faults);
    }
    for (i, rule) in site.rules.iter().enumerate() {
        ranges! { faults, format!("/rules/{i}"), rule;
            distance: "The least distance", Length, 0.0..=1000.0;
        }
        ranges! { faults, format!("/rules/{i}/only"), rule.only;
            dig_deeper_than: "The depth of a condition", Length, 0.0..=100.0;
            lot_smaller_than: "The area of a condition", Area, 1.0..=1e8;
            lot_at_least: "The area of a condition", Area, 1.0..=1e8;
        }
    }
    for (i, rule) in site.shares.iter().enumerate() {
        ranges! { faults, format!("/shares/{i}"), rule;
            most: "The greatest share", Fraction, 0.0..=1.0;
        }
    }
    if let Some(rule) = &site.barrier {
        ranges! { faults, "/barrier", rule;
            least_height: "The least height of the barrier", Length, 0.1..=10.0;
            widest_gap: "The widest opening of the barrier", Length, 0.001..=1.0;
        }
    }
    faults.found
}

/// Every setting of the work and of its stakeout as a new site has it.
pub fn usual() -> Vec<Number> {
    let mut faults = Faults {
        found: Vec::new(),
        system: System::default(),
        seen: Some(Vec::new()),
    };
    works::check(&ConstructionSettings::default(), &mut faults);
    staked::check(&StakeoutRecord::default(), &mut faults);
    faults.seen.unwrap_or_default()
}

fn header(site: &Site, faults: &mut Faults) {
    if site.format != FORMAT {
        faults.found.push(
            Finding::fault(
                "format",
                "This is not a batterboard site file.",
                "Open a file that this planner saved.",
            )
            .under("/format"),
        );
    }
    if site.version == 0 || site.version > VERSION {
        faults.found.push(
            Finding::fault(
                "version",
                format!(
                    "The file is of version {}; this build reads up to version {VERSION}.",
                    site.version
                ),
                "Open it with a newer build of the planner.",
            )
            .under("/version"),
        );
    }
}

/// The figures of a feature's facts, and facts that do not belong to its kind.
fn facts(place: &str, feature: &Feature, faults: &mut Faults) {
    let belong = FactKind::of(feature.kind);
    let facts = &feature.facts;
    for fact in facts.told() {
        let form = fact.form(feature.kind);
        let member = format!("{place}/{}", fact.member());
        let range = form.least..=form.most;
        let measure = form.measure.unwrap_or(Measure::Length);
        faults.within(&member, form.label, measure, facts.figure(fact), range);
        if !belong.contains(&fact) {
            faults.found.push(
                Finding::note(
                    "fact-of-another-kind",
                    format!(
                        "\"{}\" is given for {}, a {}; it means nothing there.",
                        form.label,
                        feature.label(),
                        feature.kind.words()
                    ),
                    "It is kept with the file and used nowhere.",
                )
                .under(place),
            );
        }
    }
    for (i, opening) in facts.openings.iter().enumerate() {
        let place = format!("{place}/openings/{i}");
        faults.position(&format!("{place}/at"), opening.at);
        ranges! { faults, place, opening; width: "The width of an opening", Length, 0.1..=20.0; }
    }
}

fn datum(site: &Site, faults: &mut Faults) {
    if let Some(mark) = &site.benchmark {
        ranges! { faults, "/benchmark", mark;
            elevation: "The elevation of the benchmark", Elevation, -500.0..=9000.0;
        }
        faults.position("/benchmark/at", mark.at);
    }
    if let Some(origin) = site.origin {
        ranges! { faults, "/origin", origin;
            longitude: "The longitude", Angle, -0.5 * TURN..=0.5 * TURN;
            // At the poles east and north lose their meaning; nobody digs a pool there.
            latitude: "The latitude", Angle, -0.245 * TURN..=0.245 * TURN;
        }
    }
    if let Some(grid) = site.grid {
        // Twice round the earth: no grid counts farther.
        ranges! { faults, "/grid", grid;
            easting: "The easting", LongLength, -80e6..=80e6;
            northing: "The northing", LongLength, -80e6..=80e6;
        }
    }
    ranges! { faults, "", site; contours: "The contour interval", Elevation, 0.01..=100.0; }
}

/// Every place and bearing of photographs that is out of range, placed in the site file.
pub(super) fn photographs(
    all: impl Iterator<Item = (Point, Option<f64>)>,
    system: System,
) -> Vec<Finding> {
    let mut faults = Faults {
        found: Vec::new(),
        system,
        seen: None,
    };
    for (i, (at, bearing)) in all.enumerate() {
        faults.position(&format!("/photographs/{i}/at"), at);
        let (place, what) = (
            format!("/photographs/{i}/bearing"),
            "The bearing of a photograph",
        );
        faults.within(&place, what, Measure::Angle, bearing, -100.0..=100.0);
    }
    faults.found
}

fn under_the_plan(picture: &Picture, faults: &mut Faults) {
    faults.position("/picture/at", picture.at);
    ranges! { faults, "/picture", picture;
        scale: "The size of one pixel of the picture", LongLength, 1e-5..=10.0;
        heading: "The heading of the picture", Angle, -100.0..=100.0;
        opacity: "How much of the picture shows", Fraction, 0.0..=1.0;
    }
}

fn placement(site: &Site, faults: &mut Faults) {
    if let Some(placement) = &site.placement {
        placed("/placement", placement, faults);
    }
    if let Some(lift) = &site.lift {
        faults.position("/lift/delivery", lift.delivery);
        faults.position("/lift/set_down", lift.set_down);
        if let Some(crane) = &lift.crane {
            faults.position("/lift/crane/at", crane.at);
            ranges! { faults, "/lift/crane", crane; heading: "The heading", Angle, -100.0..=100.0; }
        }
    }
    if let Some(pad) = &site.equipment {
        faults.position("/equipment/at", pad.at);
        ranges! { faults, "/equipment", pad;
            heading: "The heading", Angle, -100.0..=100.0;
            length: "The length of the pad", Length, 0.1..=50.0;
            width: "The width of the pad", Length, 0.1..=50.0;
        }
    }
}

fn plan(site: &Site, faults: &mut Faults) {
    for (i, rate) in site.rates.iter().enumerate() {
        ranges! { faults, format!("/rates/{i}"), rate; rate: "A rate", Money, 0.0..=1e9; }
    }
    if site.currency.as_ref().is_some_and(|it| !it.is_sound()) {
        faults.found.push(
            Finding::fault(
                "currency",
                format!(
                    "The currency of the rates is a symbol or a code of 1 to {LONGEST_CURRENCY} characters, \
                     without digits, points and commas."
                ),
                "Type a symbol such as $, or a code such as CAD.",
            )
            .under("/currency"),
        );
    }
    if let Some(line) = site.section {
        faults.position("/section/from", line.from);
        faults.position("/section/to", line.to);
    }
    for (i, tape) in site.tapes.iter().enumerate() {
        for (name, end) in [("from", &tape.from), ("to", &tape.to)] {
            if let TapeEnd::At(at) = end {
                faults.position(&format!("/tapes/{i}/{name}/at"), *at);
            }
        }
    }
    faults.found.extend(tape::check(site));
    if let Some(record) = &site.stakeout {
        staked::check(record, faults);
        faults.found.extend(stakeout::check(site));
    }
    for (i, kept) in site.alternatives.iter().enumerate() {
        let place = format!("/alternatives/{i}/placement");
        placed(&place, &kept.placement, faults);
    }
}

fn placed(place: &str, placement: &Placement, faults: &mut Faults) {
    faults.position(&format!("{place}/at"), placement.at);
    ranges! { faults, place, placement;
        heading: "The heading", Angle, -100.0..=100.0;
        coping_elevation: "The coping elevation", Elevation, -500.0..=9000.0;
    }
}
