//! The job in three dimensions: closed bodies of everything that is there, dug, set and poured, stage by stage.
//!
//! Coordinates are those of the site: x east, y north, z up, elevations above the datum, meters. Every body is a closed
//! surface of triangles ([`Mesh`]) that knows its volume and its half beyond the line of the section.
//!
//! | part | what it does |
//! |---|---|
//! | `mesh` | a closed surface: volume, whole and cut |
//! | `column` | upright columns over triangles of the plan, closed into one surface |
//! | `plan` | the plan parted along every line where something bends or steps; surfaces sampled on it |
//! | `place` | the shell where it stands, and how far the drawn ground reaches |
//! | `earth` | ground, hole, base, backfill, fill and banks |
//! | `moulding`, `paving` | the shell and its water; collar, deck, bed and steps |
//! | `yard` | houses, walls, fences, trees, wires, buried lines |
//! | `marks` | lines on the ground and above it: lot line, contours, edges of the work |
//! | `label` | figures with the place they belong to |
//! | `light` | the sun through one day |
//!
//! # Accuracy
//! Hole, base, backfill, water, collar and deck hold what the takeoff counts within 0.1 % on every demo site, as tests have it
//! (one known difference is told there), within 0.2 % on any site; a hole whose sides are not all alike within 1.5 %.
//! Ground bends where the surface does; sides that run round a corner are followed in steps of `earth::STEP` of height;
//! arcs are chords within a millimeter.
//!
//! # What it is not
//! Trees are crowns of one shape, roofs are flat, fences have no openings but their gates; a thing whose height nobody entered
//! is drawn at an assumed one and [`Scene::notes`] says so. Deliberately absent: rebar, fittings, joints; colors and light.

mod column;
mod earth;
pub mod heights;
mod label;
mod light;
mod marks;
mod mesh;
mod moulding;
mod paving;
mod place;
mod plan;
mod solid;
mod stage;
#[cfg(test)]
mod tests;
mod yard;

pub use label::Label;
pub use light::{SunLook, SunPath, sun_path};
pub use marks::{Mark, MarkKind};
pub use mesh::{Corner, Mesh};
pub use stage::{Matter, Span, Stage};

use crate::analysis::Analysis;
use crate::section::standard;
use crate::site::{CheckedSite, SectionLine, Utility};

/// One body.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// What it is.
    pub matter: Matter,
    /// What it is called.
    pub name: String,
    /// What runs in it, of a buried line.
    pub utility: Option<Utility>,
    /// When it is there.
    pub span: Span,
    /// Its surface.
    pub mesh: Mesh,
}

/// Everything there is to see of a job.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Scene {
    /// The bodies; no two of one matter, span and name.
    pub parts: Vec<Part>,
    /// Lines on and over the ground.
    pub marks: Vec<Mark>,
    /// Figures with their places.
    pub labels: Vec<Label>,
    /// What was assumed, in sentences.
    pub notes: Vec<String>,
    /// The line that bodies are cut along, site meters; none without a shell where nobody drew one.
    pub section: Option<SectionLine>,
    /// Where the work is, and how far it reaches from there: what a first look should show, meters.
    pub middle: Corner,
    /// See [`Self::middle`].
    pub reach: f64,
}

impl Scene {
    /// That of a site. `analysis` must have been computed from the same site.
    pub fn of(site: &CheckedSite, analysis: &Analysis) -> Self {
        let section = site.site().section.or_else(|| standard(site, analysis));
        let mut scene = Self {
            section,
            ..Self::default()
        };
        let placed = place::Placed::of(site, analysis);
        let extent = place::Extent::of(site, analysis);
        earth::build(&mut scene, site, placed.as_ref(), &extent);
        if let Some(placed) = &placed {
            moulding::build(&mut scene, placed);
            paving::build(&mut scene, placed);
        }
        yard::build(&mut scene, site, analysis, &extent);
        marks::build(&mut scene, site, placed.as_ref(), &extent);
        label::build(&mut scene, site, placed.as_ref());
        (scene.middle, scene.reach) = place::focus(site, placed.as_ref());
        scene.parts.retain(|part| !part.mesh.triangles.is_empty());
        scene
    }

    /// The volume of everything of one matter, m3.
    pub fn volume(&self, matter: Matter) -> f64 {
        let of = self.parts.iter().filter(|part| part.matter == matter);
        of.map(|part| part.mesh.volume()).sum()
    }

    /// The bodies, those of one matter, span and utility as one: fewer things to draw. Their names are joined.
    pub fn gathered(self) -> Vec<Part> {
        let mut gathered: Vec<Part> = Vec::new();
        for part in self.parts {
            let same = |it: &&mut Part| {
                (it.matter, it.span, it.utility) == (part.matter, part.span, part.utility)
            };
            match gathered.iter_mut().find(same) {
                None => gathered.push(part),
                Some(whole) => {
                    if whole.name != part.name {
                        whole.name = format!("{}, {}", whole.name, part.name);
                    }
                    whole.mesh.add(part.mesh);
                }
            }
        }
        gathered
    }

    fn add(&mut self, matter: Matter, name: impl Into<String>, span: Span, mesh: Mesh) {
        self.parts.push(Part {
            matter,
            name: name.into(),
            utility: None,
            span,
            mesh,
        });
    }
}
