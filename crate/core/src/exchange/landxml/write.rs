//! A site as LandXML.

use super::file::{File, Moment};
use super::mesh::{self, Mesh};
use super::xml::Xml;
use crate::analysis::Analysis;
use crate::exchange::Figures;
use crate::exchange::figures::FeatureFigure;
use crate::exchange::layout::{Layout, LayoutPart, OF_THE_SHELL};
use crate::geom::Point;
use crate::ground::GroundRecord;
use crate::lot::Traverse;
use crate::site::{CheckedSite, GridUnit, StakedLine};
use crate::units::{System, format_coordinate};

/// What is written, and in which unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choice {
    /// The unit of lengths.
    pub unit: GridUnit,
    /// The lot and its corners.
    pub lot: bool,
    /// What stands on it.
    pub features: bool,
    /// The shell's rim and collar with their stakes.
    pub shell: bool,
    /// The dig: its surface, its lines and their stakes.
    pub dig: bool,
    /// The ground as it is, its spots and the benchmark.
    pub ground: bool,
}

impl Choice {
    /// Everything, in the unit of the survey that the site came from, or else of its display:
    /// international feet for a site shown in feet.
    pub fn usual(site: &CheckedSite) -> Self {
        let site = site.site();
        let shown = match site.display {
            System::Feet => GridUnit::Feet,
            System::Metres => GridUnit::Metres,
        };
        Self {
            unit: site.grid.map_or(shown, |grid| grid.unit),
            lot: true,
            features: true,
            shell: true,
            dig: true,
            ground: true,
        }
    }
}

/// A site as a LandXML 1.2 file. A site that came from a survey's grid has that survey's coordinates
/// again. `analysis` must have been computed from the site.
pub fn write(site: &CheckedSite, analysis: &Analysis, choice: Choice, moment: &Moment) -> String {
    let document = site.site();
    let grid = document
        .grid
        .map_or([0.0; 2], |it| [it.northing, it.easting]);
    let mut file = File {
        xml: Xml::new(),
        unit: choice.unit,
        grid,
    };
    file.head(&document.name, moment);
    let mut layout = Layout::of(site, analysis);
    layout.keep(|part| match part.is_dig() {
        true => choice.dig,
        false => choice.shell,
    });
    points(&mut file, site, choice, &layout);
    if choice.lot {
        lot(&mut file, site);
    }
    let figures = Figures::of(site, None);
    if choice.features && !document.features.is_empty() {
        features(&mut file, site, &figures);
    }
    if !layout.lines.is_empty() {
        file.xml
            .open("PlanFeatures", &[("name", "Layout"), ("state", "proposed")]);
        for line in &layout.lines {
            let code = line.part.code();
            file.xml
                .open("PlanFeature", &[("name", code), ("desc", OF_THE_SHELL)]);
            file.xml.open("CoordGeom", &[]);
            let ring = line.points.iter().chain(line.points.first());
            file.irregular(&ring.copied().collect::<Vec<_>>());
            file.xml.close();
            file.xml.close();
        }
        file.xml.close();
    }
    surfaces(&mut file, site, analysis, choice);
    file.xml.finished()
}

/// The corners of the lot, spots, the benchmark and every stake.
fn points(file: &mut File, site: &CheckedSite, choice: Choice, layout: &Layout) {
    let document = site.site();
    if choice.lot {
        let traverse = Traverse::of(&document.lot);
        let corners = match document.lot.balance {
            Some(_) => traverse.balanced(),
            None => traverse.vertices,
        };
        file.xml.open(
            "CgPoints",
            &[("name", "Lot corners"), ("state", "existing")],
        );
        let courses = corners.iter().zip(&document.lot.courses);
        for (i, (corner, course)) in courses.enumerate() {
            let mark = course.monument.as_ref().map(|it| {
                let words = [it.kind.words(), it.state.words(), &it.note];
                let words: Vec<&str> = words.into_iter().filter(|it| !it.is_empty()).collect();
                words.join(", ")
            });
            let name = format!("L{}", i + 1);
            let about = [
                ("name", name.as_str()),
                ("desc", mark.as_deref().unwrap_or_default()),
                ("code", "lot corner"),
                ("pntSurv", "boundary"),
            ];
            file.point("CgPoint", &about, corner.at, None);
        }
        file.xml.close();
    }
    if choice.ground {
        if let Some(mark) = &document.benchmark
            && let Some(at) = mark.at
        {
            file.xml
                .open("CgPoints", &[("name", "Benchmark"), ("state", "existing")]);
            let about = [
                ("name", "BM"),
                ("desc", mark.name.as_str()),
                ("code", "benchmark"),
                ("pntSurv", "control"),
            ];
            file.point("CgPoint", &about, at, Some(mark.elevation));
            file.xml.close();
        }
        if let GroundRecord::Spots { spots, .. } = document.ground.as_ref()
            && !spots.is_empty()
        {
            file.xml
                .open("CgPoints", &[("name", "Ground"), ("state", "existing")]);
            for (i, [x, y, z]) in spots.iter().enumerate() {
                let name = format!("G{}", i + 1);
                let about = [("name", name.as_str()), ("code", "ground")];
                file.point("CgPoint", &about, Point::new(*x, *y), Some(*z));
            }
            file.xml.close();
        }
    }
    let mut parts = StakedLine::ALL.map(LayoutPart::Line).to_vec();
    parts.push(LayoutPart::Offset);
    for part in parts {
        let stakes: Vec<_> = layout.points.iter().filter(|it| it.part == part).collect();
        if stakes.is_empty() {
            continue;
        }
        let name = format!("Stakes, {}", part.code());
        file.xml
            .open("CgPoints", &[("name", &name), ("state", "proposed")]);
        for stake in stakes {
            let served = format!("{OF_THE_SHELL} for {}", stake.serves);
            let about = [
                ("name", stake.name.as_str()),
                (
                    "desc",
                    if stake.serves.is_empty() {
                        OF_THE_SHELL
                    } else {
                        &served
                    },
                ),
                ("code", part.code()),
                ("role", "to stake out"),
            ];
            file.point("CgPoint", &about, stake.at, stake.elevation);
        }
        file.xml.close();
    }
}

/// The lot with its arcs, counter-clockwise.
fn lot(file: &mut File, site: &CheckedSite) {
    let lot = site.lot();
    let name = match site.site().name.trim() {
        "" => "Lot",
        name => name,
    };
    let unit = file.unit.in_metres();
    let area = format_coordinate(lot.lot.area / (unit * unit), 3);
    file.xml.open("Parcels", &[("state", "existing")]);
    file.xml.open(
        "Parcel",
        &[("name", name), ("area", &area), ("desc", "lot")],
    );
    file.xml.open("CoordGeom", &[]);
    for side in &lot.lot.sides {
        file.segment(&side.segment, &side.label);
    }
    file.xml.close();
    file.xml.close();
    file.xml.close();
}

/// What stands on the lot: outlines with straight edges, lines.
fn features(file: &mut File, site: &CheckedSite, figures: &Figures) {
    let mut open = false;
    for (record, figure) in site.site().features.iter().zip(&figures.features) {
        let FeatureFigure { areas, line } = figure;
        let rings = areas.iter().flatten().filter(|ring| ring.len() > 2);
        let mut chains: Vec<Vec<Point>> = rings
            .map(|ring| ring.iter().chain(ring.first()).copied().collect())
            .collect();
        if line.len() > 1 {
            chains.push(line.clone());
        }
        if chains.is_empty() {
            continue;
        }
        if !open {
            let about = [("name", "On the lot"), ("state", "existing")];
            file.xml.open("PlanFeatures", &about);
            open = true;
        }
        let about = [("name", record.label()), ("desc", record.kind.words())];
        file.xml.open("PlanFeature", &about);
        for chain in chains {
            file.xml.open("CoordGeom", &[]);
            let flat: Vec<(Point, Option<f64>)> = chain.iter().map(|p| (*p, None)).collect();
            file.irregular(&flat);
            file.xml.close();
        }
        file.xml.close();
    }
    if open {
        file.xml.close();
    }
}

fn surfaces(file: &mut File, site: &CheckedSite, analysis: &Analysis, choice: Choice) {
    let ground = choice.ground.then(|| mesh::ground(site, analysis));
    let dig = choice.dig.then(|| mesh::dig(site, analysis)).flatten();
    let told = |it: &Mesh| !it.faces.is_empty() || !it.lines.is_empty();
    let (ground, dig) = (ground.filter(told), dig.filter(told));
    if ground.is_none() && dig.is_none() {
        return;
    }
    file.xml.open("Surfaces", &[]);
    if let Some(mesh) = ground {
        file.surface(
            ["Existing ground", "the ground before the dig", "existing"],
            &mesh,
        );
    }
    if let Some(mesh) = dig {
        let desc = "bottom and sides of the dig, from its top edge down";
        file.surface(["Dig", desc, "proposed"], &mesh);
    }
    file.xml.close();
}
