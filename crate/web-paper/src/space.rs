//! The job in three dimensions: bodies as flat lists of corners, lines, figures, and the sun.
//!
//! Corners count from a place near the work, so that single precision keeps them to a fraction of a millimeter.

use batterboard_core::analysis::{Cache, Detail, Scenario, run};
use batterboard_core::scene::{Corner, Mark, Matter, Part, Scene, Span, Stage, sun_path};
use batterboard_core::site::{SectionLine, Utility};
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};

use crate::{js_error, to_js, without_images};

/// Everything there is to see of a site, and its bodies' corners.
#[wasm_bindgen]
pub struct JobInSpace {
    scene: Scene,
    bodies: Vec<Surface>,
    name: String,
}

/// What is drawn of a body.
struct Surface {
    record: SpaceBody,
    corners: Vec<f32>,
}

/// What there is to see, but for the corners.
#[derive(Debug, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct SpaceRecord {
    /// The job's name.
    name: String,
    /// The place that corners count from, site meters.
    origin: [f64; 3],
    /// How far the work reaches from there, meters.
    reach: f64,
    /// The stages of the work.
    stages: Vec<SpaceStage>,
    /// The bodies, in the order of their corners.
    bodies: Vec<SpaceBody>,
    /// The lines, in the order of theirs.
    marks: Vec<SpaceMark>,
    /// Figures with their places.
    labels: Vec<SpaceLabel>,
    /// What was assumed.
    notes: Vec<String>,
    /// The ends of the section's line, from the origin; none where there is no section.
    section: Option<[[f64; 2]; 2]>,
    /// Whether a shell is placed.
    placed: bool,
}

/// A stage of the work.
#[derive(Debug, Serialize, Tsify)]
pub struct SpaceStage {
    /// What it is called.
    name: &'static str,
}

/// A body.
#[derive(Debug, Clone, Serialize, Tsify)]
#[tsify(missing_as_null)]
pub struct SpaceBody {
    /// What it is.
    matter: &'static str,
    /// What it is called.
    name: String,
    /// What runs in it, of a buried line.
    utility: Option<Utility>,
    /// The first stage that has it, from 0.
    from: u8,
    /// The last one.
    to: u8,
    /// How many of its triangles are drawn where it is whole, from the first on.
    whole: usize,
    /// The first triangle that is drawn where it is cut; all that follow are.
    cut: usize,
    /// How many of the last of them are the cut itself.
    wall: usize,
    /// All of them.
    triangles: usize,
}

/// A line.
#[derive(Debug, Serialize, Tsify)]
pub struct SpaceMark {
    /// What it is.
    kind: &'static str,
    /// The first stage that has it, from 0.
    from: u8,
    /// The last one.
    to: u8,
}

/// A figure and its place.
#[derive(Debug, Serialize, Tsify)]
pub struct SpaceLabel {
    /// The words.
    text: String,
    /// The first stage that has it, from 0.
    from: u8,
    /// The last one.
    to: u8,
    /// Its place, from the origin.
    at: [f64; 3],
}

/// The sun over a site through one day.
#[derive(Debug, Serialize, Tsify)]
pub struct SpaceSun {
    /// The day, `2026-06-21`.
    date: String,
    /// Its clock's offset from UTC.
    utc_offset: String,
    /// From rise to set: minutes after midnight, the same by the clock, the way to the sun.
    looks: Vec<(f64, String, [f64; 3])>,
}

#[wasm_bindgen]
impl JobInSpace {
    /// Builds a site's text, as the planner saved it.
    ///
    /// # Errors
    /// Every fault of the text.
    #[wasm_bindgen(constructor)]
    pub fn new(site: &str) -> Result<JobInSpace, JsValue> {
        let site = without_images(site)?;
        let analysis = run(
            &Scenario::of(&site),
            Detail::Complete,
            &mut Cache::default(),
        );
        let scene = Scene::of(&site, &analysis);
        Ok(Self {
            bodies: scene
                .clone()
                .gathered()
                .iter()
                .map(|part| surface(part, scene.middle))
                .collect(),
            name: site.site().name.clone(),
            scene,
        })
    }

    /// What there is to see.
    pub fn record(&self) -> Result<Ts<SpaceRecord>, JsValue> {
        let scene = &self.scene;
        let [x, y, _] = scene.middle;
        let section = scene
            .section
            .map(|SectionLine { from, to }| [from, to].map(|p| [p.x - x, p.y - y]));
        to_js(&SpaceRecord {
            name: self.name.clone(),
            origin: scene.middle,
            reach: scene.reach,
            stages: Stage::ALL.map(|it| SpaceStage { name: it.words() }).into(),
            bodies: self.bodies.iter().map(|it| it.record.clone()).collect(),
            marks: scene.marks.iter().map(mark).collect(),
            labels: scene
                .labels
                .iter()
                .map(|it| SpaceLabel {
                    text: it.text.clone(),
                    from: it.span.from.number(),
                    to: it.span.to.number(),
                    at: self.moved(it.at),
                })
                .collect(),
            notes: scene.notes.clone(),
            section,
            placed: scene.parts.iter().any(|it| it.span != Span::ALWAYS),
        })
    }

    /// The corners of a body, nine figures to a triangle.
    pub fn corners(&self, number: usize) -> Vec<f32> {
        let body = self.bodies.get(number);
        body.map_or_else(Vec::new, |it| it.corners.clone())
    }

    /// The points of a line, three figures to each.
    pub fn points(&self, number: usize) -> Vec<f32> {
        let points = self.scene.marks.get(number).map(|it| &it.points);
        let points = points.into_iter().flatten();
        points
            .flat_map(|it| self.moved(*it))
            .map(|it| it as f32)
            .collect()
    }

    fn moved(&self, at: Corner) -> Corner {
        moved(at, self.scene.middle)
    }
}

fn moved([x, y, z]: Corner, [ox, oy, oz]: Corner) -> Corner {
    [x - ox, y - oy, z - oz]
}

/// What is drawn of a body: all of it but the underside of the ground, which nobody sees.
fn surface(part: &Part, origin: Corner) -> Surface {
    let mesh = &part.mesh;
    let levels = mesh.corners.iter().map(|[_, _, z]| *z);
    let lowest = match part.matter {
        Matter::Ground | Matter::Soil => levels.fold(f64::INFINITY, f64::min),
        _ => f64::NEG_INFINITY,
    };
    let (whole, cut) = (mesh.whole().end, mesh.cut().start);
    let mut record = SpaceBody {
        matter: part.matter.words(),
        name: part.name.clone(),
        utility: part.utility,
        from: part.span.from.number(),
        to: part.span.to.number(),
        whole: 0,
        cut: 0,
        wall: 0,
        triangles: 0,
    };
    let mut corners = Vec::with_capacity(9 * mesh.triangles.len());
    let triangles = mesh.corners_of(0..mesh.triangles.len());
    for (number, triangle) in triangles.enumerate() {
        if triangle.iter().all(|[_, _, z]| *z == lowest) {
            continue;
        }
        record.triangles += 1;
        record.whole += usize::from(number < whole);
        record.cut += usize::from(number < cut);
        record.wall += usize::from(number >= whole);
        let figures = triangle.into_iter().flat_map(|it| moved(it, origin));
        corners.extend(figures.map(|it| it as f32));
    }
    Surface { record, corners }
}

fn mark(it: &Mark) -> SpaceMark {
    SpaceMark {
        kind: it.kind.words(),
        from: it.span.from.number(),
        to: it.span.to.number(),
    }
}

/// The sun over a site's text on a day as it was typed; nothing where the site has no place on the earth.
///
/// # Errors
/// Every fault of the text, the day or the offset.
#[wasm_bindgen]
pub fn sun_in_space(site: &str, date: &str, offset: &str) -> Result<Option<Ts<SpaceSun>>, JsValue> {
    let site = without_images(site)?;
    let path = sun_path(&site, date, offset).map_err(|faults| js_error(&faults))?;
    path.map(|it| {
        let looks = it.looks.into_iter();
        to_js(&SpaceSun {
            date: it.date,
            utc_offset: it.utc_offset,
            looks: looks.map(|it| (it.minutes, it.words, it.toward)).collect(),
        })
    })
    .transpose()
}
