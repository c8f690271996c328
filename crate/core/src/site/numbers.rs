//! The range of every plain number in a site: finite, and such as a job can have.

use super::{FORMAT, FactKind, Feature, Picture, Site, VERSION};
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
    works(site, &mut door);
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
        door.position("/placement/at", p.at);
        door.within(
            "/placement/heading",
            "The heading",
            p.heading,
            -100.0,
            100.0,
        );
        door.within(
            "/placement/coping_elevation",
            "The coping elevation",
            p.coping_elevation,
            -500.0,
            9000.0,
        );
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

fn works(site: &Site, door: &mut Door) {
    let w = &site.works;
    door.within(
        "/works/dig/over_dig",
        "The over-dig",
        w.dig.over_dig,
        0.0,
        3.0,
    );
    door.within(
        "/works/dig/base_thickness",
        "The base thickness",
        w.dig.base_thickness,
        0.0,
        2.0,
    );
    if let Some(slope) = w.dig.side_slope {
        door.within("/works/dig/side_slope", "The side slope", slope, 0.0, 4.0);
    }
    if let Some(swell) = w.dig.swell {
        door.within("/works/dig/swell", "The swell", swell, 1.0, 3.0);
    }
    if let Some(density) = w.dig.density {
        door.within(
            "/works/dig/density",
            "The weight of the spoil",
            density,
            500.0,
            4000.0,
        );
    }
    door.within(
        "/works/stone/density",
        "The density of the stone",
        w.stone.density,
        500.0,
        4000.0,
    );
    door.within(
        "/works/collar/width",
        "The collar's width",
        w.collar.width,
        0.0,
        3.0,
    );
    door.within(
        "/works/collar/depth",
        "The collar's depth",
        w.collar.depth,
        0.0,
        3.0,
    );
    door.within(
        "/works/collar/top_below_rim",
        "The depth of the collar's top",
        w.collar.top_below_rim,
        0.0,
        2.0,
    );
    door.within(
        "/works/deck/width",
        "The deck's width",
        w.deck.width,
        0.0,
        20.0,
    );
    door.within(
        "/works/deck/thickness",
        "The deck's thickness",
        w.deck.thickness,
        0.0,
        1.0,
    );
    door.within("/works/deck/bed", "The deck's bed", w.deck.bed, 0.0, 1.0);
    door.within("/works/deck/fall", "The deck's fall", w.deck.fall, 0.0, 0.2);
    door.within(
        "/works/ties/spacing",
        "The spacing of ties",
        w.ties.spacing,
        0.05,
        5.0,
    );
    door.within(
        "/works/ties/length",
        "The length of a tie",
        w.ties.length,
        0.0,
        5.0,
    );
    door.within(
        "/works/dewatering/diameter",
        "The pipe's diameter",
        w.dewatering.diameter,
        0.02,
        1.0,
    );
    door.within(
        "/works/dewatering/above_rim",
        "The pipe's height above the rim",
        w.dewatering.above_rim,
        -1.0,
        2.0,
    );
    door.within(
        "/works/haul/box_volume",
        "The volume of a truck's box",
        w.haul.box_volume,
        0.5,
        50.0,
    );
    door.within(
        "/works/haul/payload",
        "The payload",
        w.haul.payload,
        500.0,
        60_000.0,
    );
    door.within(
        "/works/waste/stone",
        "The waste of stone",
        w.waste.stone,
        0.0,
        1.0,
    );
    door.within(
        "/works/waste/concrete",
        "The waste of concrete",
        w.waste.concrete,
        0.0,
        1.0,
    );
}
