//! A hole by how its sides stand: one model, drawn in one of two ways.
//!
//! Every hole has a bottom and a profile of its sides. Where the profile is the same all round and
//! from the bottom up, the sides are cones and everything has a closed form; any other profile goes
//! by convex bodies and facets. What asks does not see which.

use super::bottom::Bottom;
use super::cells::Cells;
use super::contour::{self, Layer};
use super::grid::Grid;
use super::non_uniform::NonUniformSides;
use super::profile::{Profile, SideSpec, Stand};
use super::{fill, influence, slabs};
use crate::geom::offset::offset_region;
use crate::geom::{DRAWING_TOLERANCE, Point, Region, Ring};
use crate::shell::Shell;
use crate::site::DigSettings;

/// The highest above the rim that a point's own depth is looked for, meters: higher than any bank
/// on a lot.
const HIGHEST: f64 = 100.0;

/// How near a point's own depth is narrowed down between contours, meters.
const NEAR: f64 = 1e-4;

/// A bottom and the sides that rise from it, with no grid.
#[derive(Debug, Clone)]
pub(super) struct Hole {
    /// Its reach and slope are the greatest of the sides'.
    pub bottom: Bottom,
    form: Form,
}

/// How the sides are drawn.
#[derive(Debug, Clone)]
pub(super) enum Form {
    /// All alike: closed forms.
    Cones(Profile),
    /// Bodies and facets.
    Facets(Box<NonUniformSides>),
}

impl Hole {
    /// The hole of a shell, and the side and layer that stand steepest for their soil.
    pub fn of(shell: &Shell, settings: &DigSettings) -> (Self, Stand) {
        let bottom = Bottom::new(shell, settings);
        let told = SideSpec::new(settings, shell.record.wall_thickness, bottom.deepest());
        (Self::new(bottom, told.profile), told.boldest)
    }

    /// The hole over a bottom whose sides stand by a profile.
    pub fn new(mut bottom: Bottom, profile: Profile) -> Self {
        let profile = profile.settled(bottom.deepest());
        let Some((reach, slope)) = profile.uniform() else {
            return Self::of_facets(bottom, profile);
        };
        bottom.set_sides(reach, slope);
        Self {
            bottom,
            form: Form::Cones(profile),
        }
    }

    /// The same by bodies and facets, whatever the (settled) profile.
    pub fn of_facets(mut bottom: Bottom, profile: Profile) -> Self {
        bottom.set_sides(profile.reach.greatest(), profile.flattest());
        Self {
            form: Form::Facets(Box::new(NonUniformSides::new(&bottom, profile))),
            bottom,
        }
    }

    /// How the sides are drawn.
    pub fn form(&self) -> &Form {
        &self.form
    }

    /// How the sides stand.
    pub fn profile(&self) -> &Profile {
        match &self.form {
            Form::Cones(profile) => profile,
            Form::Facets(sides) => &sides.profile,
        }
    }

    /// The plan of the bottom with the ground kept free round it.
    pub fn floor(&self) -> Region {
        match &self.form {
            Form::Cones(_) => {
                offset_region(&self.bottom.plan, self.bottom.reach, DRAWING_TOLERANCE)
            }
            Form::Facets(sides) => sides.floor(&self.bottom.plan),
        }
    }

    /// The edge of the hole at a depth below the rim (negative above it), shell frame.
    pub fn contour(&self, depth: f64) -> Region {
        match &self.form {
            Form::Cones(_) => contour::contour(&self.bottom, depth, DRAWING_TOLERANCE),
            Form::Facets(sides) => sides.contour(depth),
        }
    }

    /// The same area not yet united: a place is inside where any of these sets of rings winds about it a positive
    /// number of times.
    pub fn wound(&self, depth: f64) -> Vec<Vec<Ring>> {
        match &self.form {
            Form::Cones(_) => vec![contour::wound(&self.bottom, depth, DRAWING_TOLERANCE)],
            Form::Facets(sides) => sides.wound(depth),
        }
    }

    /// A rectangle round the hole from its bottom up to so far above the rim, meters.
    pub fn bounds(&self, above: f64) -> (Point, Point) {
        match &self.form {
            Form::Cones(_) => self.bottom.bounds(above),
            Form::Facets(sides) => sides.contour(-above).bounds().unwrap_or_default(),
        }
    }

    /// Depth below the rim at a point, meters; minus infinity beside an upright side.
    pub fn depth(&self, at: Point) -> f64 {
        let Form::Facets(sides) = &self.form else {
            return influence::depth_at(&self.bottom, at);
        };
        let (mut above, mut below) = (-HIGHEST, self.deepest());
        if !sides.contour(above).contains(at) {
            return f64::NEG_INFINITY;
        }
        while below - above > NEAR {
            let middle = (above + below) / 2.0;
            let within = sides.contour(middle).contains(at);
            *(if within { &mut above } else { &mut below }) = middle;
        }
        above
    }

    /// Volumes below each of some depths under the rim, m3, from contours.
    pub fn volumes_below(&self, depths: &[f64]) -> Vec<f64> {
        match &self.form {
            Form::Cones(_) => contour::volumes_below(&self.bottom, depths),
            Form::Facets(sides) => sides.volumes_below(depths),
        }
    }

    /// The layers from a depth down to the bottom: no break lies within one.
    pub fn layers(&self, top: f64) -> Vec<Layer> {
        match &self.form {
            Form::Cones(_) => contour::layers(&self.bottom, top),
            Form::Facets(sides) => sides.layers(top),
        }
    }

    /// The hole as a grid, followed up to so far above the rim, meters; with the part below a cap
    /// where one is told and it is not all of it.
    pub fn fill(&self, grid: &Grid, above: f64, cap_depth: Option<f64>) -> Cells {
        let cap_depth = cap_depth.filter(|cap| self.is_cut_by(*cap));
        match &self.form {
            Form::Cones(_) if self.bottom.slope > 0.0 => Cells {
                depths: fill::fill(&self.bottom, above, grid),
                ..Cells::default()
            },
            Form::Cones(_) => {
                let below = |depth| slabs::fill(&self.bottom, grid, depth);
                Cells::of(
                    below(f64::NEG_INFINITY),
                    cap_depth.map(|depth| (depth, below(depth))),
                )
            }
            Form::Facets(sides) => sides.fill(grid, above, cap_depth),
        }
    }

    /// Whether the part below a cap has shares of its own. (Where all sides slope alike cells are
    /// mended one by one; where they are upright a cap above the bottom cuts nothing off.)
    pub fn is_cut_by(&self, cap_depth: f64) -> bool {
        self.in_shares() && !(self.is_upright() && cap_depth <= self.bottom.shallowest())
    }

    /// Whether cells are kept by their share of hole: where any side is upright or unlike others.
    pub fn in_shares(&self) -> bool {
        self.bottom.slope <= 0.0 || matches!(self.form, Form::Facets(_))
    }

    /// Whether the hole opens at every level as wide as at the bottom.
    pub fn is_upright(&self) -> bool {
        self.bottom.slope <= 0.0 && self.profile().bench.is_none()
    }

    /// Greatest depth below the rim, meters.
    pub fn deepest(&self) -> f64 {
        self.bottom.deepest()
    }

    /// Depths between the rim and the bottom at which to ask for sections, each with its share
    /// of the height, meters: steps of at most `step` that reach across no break.
    pub fn samples(&self, step: f64) -> Vec<(f64, f64)> {
        let mut samples = Vec::new();
        for layer in self.layers(0.0) {
            let count = ((layer.bottom - layer.top) / step).ceil().max(1.0);
            let height = (layer.bottom - layer.top) / count;
            for k in 0..count as u32 {
                let top = layer.top + height * f64::from(k);
                let part = Layer {
                    top,
                    bottom: top + height,
                };
                samples.extend(part.gauss());
            }
        }
        samples
    }
}
