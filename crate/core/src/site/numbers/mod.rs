//! The range of every plain number in a site: finite, and such as a job can have.

mod works;

use super::{FORMAT, FactKind, Feature, Picture, Placement, Site, VERSION};
use crate::finding::Finding;
use crate::geom::COORDINATE_LIMIT;

/// Collects faults of plain numbers.
struct Door {
    faults: Vec<Finding>,
}

impl Door {
    /// A number that must lie in a range (NaN and infinities never do).
    fn within(&mut self, place: &str, what: &str, value: f64, low: f64, high: f64) {
        if !(low..=high).contains(&value) {
            let message = format!("{what} is {value}; it must lie between {low} and {high}.");
            self.faults.push(
                Finding::fault(
                    "out-of-range",
                    message,
                    "Give it in metres, kilograms or radians, within that range.",
                )
                .under(place),
            );
        }
    }

    fn position(&mut self, place: &str, at: crate::geom::Point) {
        self.within(
            place,
            "The x of a position",
            at.x,
            -COORDINATE_LIMIT,
            COORDINATE_LIMIT,
        );
        self.within(
            place,
            "The y of a position",
            at.y,
            -COORDINATE_LIMIT,
            COORDINATE_LIMIT,
        );
    }
}

/// Every plain number that is out of range, placed in the site file.
pub(super) fn check(site: &Site) -> Vec<Finding> {
    let mut door = Door { faults: Vec::new() };
    if site.format != FORMAT {
        door.faults.push(
            Finding::fault(
                "format",
                "This is not a batterboard site file.",
                "Open a file that this planner saved.",
            )
            .under("/format"),
        );
    }
    if site.version == 0 || site.version > VERSION {
        door.faults.push(
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
    placement(site, &mut door);
    works::check(&site.works, &mut door);
    plan(site, &mut door);
    for (i, feature) in site.features.iter().enumerate() {
        facts(&format!("/features/{i}/facts"), feature, &mut door);
    }
    datum(site, &mut door);
    if let Some(picture) = &site.picture {
        under_the_plan(picture, &mut door);
    }
    for (i, rule) in site.rules.iter().enumerate() {
        door.within(
            &format!("/rules/{i}/distance"),
            "The least distance",
            rule.distance,
            0.0,
            1000.0,
        );
    }
    door.faults
}

/// The figures of a feature's facts, and facts that do not belong to its kind.
fn facts(place: &str, feature: &Feature, door: &mut Door) {
    let belong = FactKind::of(feature.kind);
    let facts = &feature.facts;
    for fact in facts.told() {
        let form = fact.form(feature.kind);
        if let Some(value) = facts.figure(fact) {
            let place = format!("{place}/{}", fact.member());
            door.within(&place, form.label, value, form.least, form.most);
        }
        if !belong.contains(&fact) {
            door.faults.push(
                Finding::note(
                    "fact-of-another-kind",
                    format!(
                        "\"{}\" is told of {}, a {}; it says nothing there.",
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
        door.position(&format!("{place}/at"), opening.at);
        let width = "The width of an opening";
        door.within(&format!("{place}/width"), width, opening.width, 0.1, 20.0);
    }
}

fn datum(site: &Site, door: &mut Door) {
    if let Some(mark) = &site.benchmark {
        let elevation = "The elevation of the benchmark";
        let place = "/benchmark/elevation";
        door.within(place, elevation, mark.elevation, -500.0, 9000.0);
        if let Some(at) = mark.at {
            door.position("/benchmark/at", at);
        }
    }
    if let Some(origin) = site.origin {
        let half = crate::math::TURN / 2.0;
        let place = "/origin/longitude";
        door.within(place, "The longitude", origin.longitude, -half, half);
        let place = "/origin/latitude";
        // At the poles east and north lose their meaning; nobody digs a pool there.
        let most = 0.49 * half;
        door.within(place, "The latitude", origin.latitude, -most, most);
    }
    if let Some(grid) = site.grid {
        // Twice round the earth: no grid counts farther.
        let most = 80e6;
        door.within("/grid/easting", "The easting", grid.easting, -most, most);
        door.within("/grid/northing", "The northing", grid.northing, -most, most);
    }
    if let Some(interval) = site.contours {
        door.within("/contours", "The contour interval", interval, 0.01, 100.0);
    }
}

fn under_the_plan(picture: &Picture, door: &mut Door) {
    door.position("/picture/at", picture.at);
    let figures = [
        (
            "scale",
            "The scale of the picture",
            picture.scale,
            1e-5,
            10.0,
        ),
        (
            "heading",
            "The heading of the picture",
            picture.heading,
            -100.0,
            100.0,
        ),
        (
            "opacity",
            "How much of the picture shows",
            picture.opacity,
            0.0,
            1.0,
        ),
    ];
    for (member, what, value, low, high) in figures {
        door.within(&format!("/picture/{member}"), what, value, low, high);
    }
}

fn placement(site: &Site, door: &mut Door) {
    if let Some(p) = &site.placement {
        placed("/placement", p, door);
    }
    if let Some(pad) = &site.equipment {
        door.position("/equipment/at", pad.at);
        door.within(
            "/equipment/heading",
            "The heading",
            pad.heading,
            -100.0,
            100.0,
        );
        door.within(
            "/equipment/length",
            "The length of the pad",
            pad.length,
            0.1,
            50.0,
        );
        door.within(
            "/equipment/width",
            "The width of the pad",
            pad.width,
            0.1,
            50.0,
        );
    }
}

fn plan(site: &Site, door: &mut Door) {
    for (i, rate) in site.rates.iter().enumerate() {
        let place = format!("/rates/{i}/rate");
        door.within(&place, "A rate", rate.rate, 0.0, 1e9);
    }
    if let Some(line) = site.section {
        door.position("/section/from", line.from);
        door.position("/section/to", line.to);
    }
    for (i, kept) in site.alternatives.iter().enumerate() {
        placed(
            &format!("/alternatives/{i}/placement"),
            &kept.placement,
            door,
        );
    }
}

fn placed(place: &str, placement: &Placement, door: &mut Door) {
    door.position(&format!("{place}/at"), placement.at);
    let figures = [
        ("heading", "The heading", placement.heading, -100.0, 100.0),
        (
            "coping_elevation",
            "The coping elevation",
            placement.coping_elevation,
            -500.0,
            9000.0,
        ),
    ];
    for (member, what, value, low, high) in figures {
        door.within(&format!("{place}/{member}"), what, value, low, high);
    }
}
