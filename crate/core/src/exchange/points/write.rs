//! A site as a list of points.

use serde::{Deserialize, Serialize};

use super::read::sort_of;
use crate::exchange::Figures;
use crate::exchange::figures::{FeatureFigure, thinned};
use crate::exchange::geodesy::LocalPlane;
use crate::exchange::import::{Frame, Order, Role, plane_of};
use crate::exchange::layout::{Layout, OF_THE_SHELL};
use crate::finding::Finding;
use crate::geom::Point;
use crate::ground::GroundRecord;
use crate::lot::Traverse;
use crate::site::{GridUnit, Site};
use crate::units::{System, format_coordinate};

/// Curves become chords within this of them, meters (1 in: what a stake can tell).
const STAKE_TOLERANCE: f64 = 0.0254;

/// What is written, and how.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(
    feature = "typescript",
    derive(tsify::Tsify),
    tsify(rename = "ListChoice")
)]
pub struct Choice {
    /// The unit of the coordinates, or degrees.
    #[cfg_attr(feature = "typescript", tsify(type = "MapFrame"))]
    pub frame: Frame,
    /// Which coordinate comes first.
    #[cfg_attr(feature = "typescript", tsify(type = "MapOrder"))]
    pub order: Order,
    /// The corners of the lot.
    #[serde(default)]
    pub corners: bool,
    /// Corners of what stands on it, and the middles of what is round.
    #[serde(default)]
    pub features: bool,
    /// Spot elevations, breaklines and the benchmark.
    #[serde(default)]
    pub ground: bool,
    /// The edge of the shell.
    #[serde(default)]
    pub shell: bool,
}

impl Choice {
    /// Everything, in the unit of the survey that the site came from, or else of its display.
    pub fn usual(site: &Site) -> Self {
        let unit = site.grid.map_or(
            match site.display {
                System::Feet => GridUnit::Feet,
                System::Metres => GridUnit::Metres,
            },
            |grid| grid.unit,
        );
        Self {
            frame: unit.into(),
            order: Order::NorthFirst,
            corners: true,
            features: true,
            ground: true,
            shell: true,
        }
    }
}

/// A site as a list with a heading: point, two coordinates, elevation, description. A site that came
/// from a survey's grid has that survey's coordinates again.
///
/// # Errors
/// When degrees are asked for and nothing says where the site lies on the globe.
pub fn write(document: &Site, figures: &Figures, choice: Choice) -> Result<String, Vec<Finding>> {
    let mut list = List::begun(document, choice)?;
    if choice.corners {
        corners(document, &mut list);
    }
    if choice.features {
        features(document, figures, &mut list);
    }
    if choice.ground {
        ground(document, &mut list);
    }
    if choice.shell {
        shell(document, figures, &mut list);
    }
    Ok(list.text)
}

/// The same for whoever stakes with an instrument: what stands on the lot goes by its own name, and the
/// layout is there in place of the shell's edge, each stake by its name. [`Choice::shell`] says nothing here.
///
/// # Errors
/// As [`write`].
pub fn write_laid_out(
    document: &Site,
    figures: &Figures,
    choice: Choice,
    layout: &Layout,
) -> Result<String, Vec<Finding>> {
    let mut list = List::begun(document, choice)?;
    if choice.corners {
        corners(document, &mut list);
    }
    if choice.features {
        let codes = own_codes(document);
        for (code, figure) in codes.iter().zip(&figures.features) {
            outline(figure, code, &mut list);
        }
    }
    if choice.ground {
        ground(document, &mut list);
    }
    for point in &layout.points {
        let mut description = format!("{}, {OF_THE_SHELL}", point.part.code());
        if !point.serves.is_empty() {
            description.push_str(&format!(" for {}", point.serves));
        }
        list.named(&point.name, point.at, point.elevation, &description);
    }
    Ok(list.text)
}

/// What the points of each feature are called: by its own name, where that reads back as what it is and is
/// no other's; or else by its kind and a letter.
fn own_codes(site: &Site) -> Vec<String> {
    let mut seen: Vec<String> = Vec::new();
    let records = site.features.iter().enumerate();
    let codes = records.map(|(i, record)| {
        let (kind, label) = (record.kind.words(), record.label());
        let named = format!("{label}, {kind}");
        let (group, role) = sort_of(&named, true);
        let free = !seen.contains(&group) && !label.contains([',', ';']);
        let code = match label != kind && free && role == Role::Feature(record.kind) {
            true => named,
            false => code(i, kind, label),
        };
        seen.push(sort_of(&code, true).0);
        code
    });
    codes.collect()
}

fn corners(site: &Site, list: &mut List) {
    let traverse = Traverse::of(&site.lot);
    let corners = match site.lot.balance {
        Some(_) => traverse.balanced(),
        None => traverse.vertices,
    };
    for (corner, course) in corners.iter().zip(&site.lot.courses) {
        let mark = course.monument.as_ref().map(|m| {
            let note = [m.kind.words(), m.state.words(), &m.note];
            let told: Vec<&str> = note.into_iter().filter(|w| !w.is_empty()).collect();
            format!(", {}", told.join(", "))
        });
        let description = format!("lot corner{}", mark.unwrap_or_default());
        list.row(corner.at, None, &description);
    }
}

fn features(site: &Site, figures: &Figures, list: &mut List) {
    for (i, (record, figure)) in site.features.iter().zip(&figures.features).enumerate() {
        outline(figure, &code(i, record.kind.words(), record.label()), list);
    }
}

/// A kind with a letter, and the name where there is one.
fn code(index: usize, kind: &str, label: &str) -> String {
    let name = match label {
        label if label == kind => String::new(),
        label => format!(", {label}"),
    };
    format!("{kind} {}{name}", letters(index))
}

fn outline(figure: &FeatureFigure, code: &str, list: &mut List) {
    let rings = figure.areas.iter().flatten().chain([&figure.line]);
    for at in rings.flat_map(|ring| thinned(ring, STAKE_TOLERANCE)) {
        list.row(at, None, code);
    }
}

fn ground(site: &Site, list: &mut List) {
    if let GroundRecord::Spots { spots, breaklines } = site.ground.as_ref() {
        for [x, y, z] in spots {
            list.row(Point::new(*x, *y), Some(*z), "ground");
        }
        for (i, line) in breaklines.iter().enumerate() {
            let code = format!("breakline {}", letters(i));
            for [x, y, z] in line {
                list.row(Point::new(*x, *y), Some(*z), &code);
            }
        }
    }
    if let Some(mark) = &site.benchmark
        && let Some(at) = mark.at
    {
        let description = format!("benchmark, {}", mark.name);
        list.row(at, Some(mark.elevation), description.trim_end_matches(", "));
    }
}

fn shell(site: &Site, figures: &Figures, list: &mut List) {
    let Some(placement) = &site.placement else {
        return;
    };
    let edge = figures.shell.iter().flatten();
    for at in edge.flat_map(|ring| thinned(ring, STAKE_TOLERANCE)) {
        list.row(at, Some(placement.coping_elevation), "shell edge");
    }
    list.row(
        placement.at,
        Some(placement.coping_elevation),
        "shell middle",
    );
}

/// a, b, ... z, aa, ab, ...: a code that no reader takes for a counting number.
fn letters(mut index: usize) -> String {
    let mut code = String::new();
    loop {
        let letter = u8::try_from(index % 26).unwrap_or(0);
        code.insert(0, char::from(b'a' + letter));
        if index < 26 {
            return code;
        }
        index = index / 26 - 1;
    }
}

/// The way from the site to the coordinates of the list.
enum Carry {
    /// Lengths: a unit, and easting and northing of the origin, meters.
    Plane(GridUnit, [f64; 2]),
    /// Degrees.
    Globe(LocalPlane),
}

/// The list as it is written.
struct List {
    carry: Carry,
    order: Order,
    text: String,
    count: usize,
}

impl List {
    /// A list with its heading alone.
    fn begun(document: &Site, choice: Choice) -> Result<Self, Vec<Finding>> {
        let carry = match choice.frame.unit() {
            Some(unit) => Carry::Plane(
                unit,
                document.grid.map_or([0.0; 2], |g| [g.easting, g.northing]),
            ),
            None => Carry::Globe(plane_of(document).ok_or_else(|| {
                vec![
                    Finding::fault(
                        "no-origin",
                        "The site is not georeferenced.",
                        "Give the latitude and longitude of the site's origin, or write lengths.",
                    )
                    .under("/origin"),
                ]
            })?),
        };
        let mut list = Self {
            carry,
            order: choice.order,
            text: String::new(),
            count: 0,
        };
        list.heading();
        Ok(list)
    }

    fn heading(&mut self) {
        let (north, east, elevation) = match &self.carry {
            Carry::Plane(unit, _) => {
                let unit = unit.words();
                (
                    format!("northing ({unit})"),
                    format!("easting ({unit})"),
                    format!("elevation ({unit})"),
                )
            }
            Carry::Globe(_) => (
                "latitude".to_owned(),
                "longitude".to_owned(),
                "elevation (m)".to_owned(),
            ),
        };
        let [first, second] = self.ordered(north, east);
        self.text = format!("point,{first},{second},{elevation},description\n");
    }

    fn ordered<T>(&self, north: T, east: T) -> [T; 2] {
        match self.order {
            Order::NorthFirst => [north, east],
            Order::EastFirst => [east, north],
        }
    }

    /// A row with the next number as its name.
    fn row(&mut self, at: Point, elevation: Option<f64>, description: &str) {
        self.count += 1;
        self.named(self.count, at, elevation, description);
    }

    /// A row with a name that holds no sign of the list.
    fn named(
        &mut self,
        name: impl core::fmt::Display,
        at: Point,
        elevation: Option<f64>,
        description: &str,
    ) {
        // A tenth of a millimetre either way.
        let (north, east, metres) = match &self.carry {
            Carry::Plane(unit, [easting, northing]) => {
                let m = unit.in_metres();
                let number = |v: f64| format_coordinate(v / m, 4);
                (number(at.y + northing), number(at.x + easting), m)
            }
            Carry::Globe(plane) => {
                let [longitude, latitude] = plane.globe_from_site(at).in_degrees();
                let number = |v: f64| format_coordinate(v, 9);
                (number(latitude), number(longitude), 1.0)
            }
        };
        let elevation = elevation.map_or(String::new(), |z| format_coordinate(z / metres, 4));
        let [first, second] = self.ordered(north, east);
        let description = quoted(description);
        self.text.push_str(&format!(
            "{name},{first},{second},{elevation},{description}\n"
        ));
    }
}

/// A field that may hold the signs of the list itself.
fn quoted(field: &str) -> String {
    if field.contains([',', '"', '\n']) {
        format!("\"{}\"", field.replace('"', "\"\"").replace('\n', " "))
    } else {
        field.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_count_in_letters() {
        assert_eq!(letters(0), "a");
        assert_eq!(letters(25), "z");
        assert_eq!(letters(26), "aa");
        assert_eq!(letters(701), "zz");
        assert_eq!(letters(702), "aaa");
    }

    #[test]
    fn fields_with_commas_stand_in_quotes() {
        assert_eq!(quoted("pin"), "pin");
        assert_eq!(quoted("pin, 1\""), "\"pin, 1\"\"\"");
    }
}
