//! A hole whose sides are not all alike: by side, by layer of soil, with a bench.
//!
//! Round a place of the bottom at depth `d` the hole keeps, at a level `z` above it, the sum of
//! convex bodies (see [`super::body`]): the over-dig, for each layer of soil between `z` and
//! `d` its thickness times the layer's runs, and a bench that lies between them. The hole at
//! `z` is the union of these over the bottom's part below `z`. The pieces of the bottom are cut
//! at the layers' borders, so that within one part the sum grows evenly with the depth
//! and one sweep ([`super::swept`]) takes it whole.
//!
//! The grid of such a hole is drawn from the facets of its surface (see [`super::facets`]).

use super::body::{Body, Fan};
use super::bottom::{Bottom, GENTLE};
use super::contour::{self, Layer};
use super::mesh::TaggedFace;
use super::piece::{Piece, deep_part, without_holes};
use super::profile::Profile;
use super::sides::BySide;
use super::skin::{Corner, Skin};
use super::swept::{Bodies, LayerBodies, sweep};
use crate::geom::boolean::positive_winding;
use crate::geom::{Point, Region, Ring};

/// The hole over a bottom whose sides are not all alike.
#[derive(Debug, Clone)]
pub(super) struct NonUniformSides {
    pub profile: Profile,
    /// The pieces of the bottom, cut at the layers' borders.
    pub(super) parts: Vec<Part>,
    /// These, gathered where they meet.
    pub(super) skin: Skin,
    /// The parts' pieces and the borders between layers, for the integral over the depth.
    borders: Vec<f64>,
    pub(super) fan: Fan,
    pub(super) reach: Body,
    /// For a meter of rise, layer by layer.
    runs: Vec<Body>,
    pub(super) bench: Option<(f64, Body)>,
}

/// A part of a piece that lies within one layer.
#[derive(Debug, Clone)]
pub(super) struct Part {
    pub piece: Piece,
    pub layer: usize,
    /// Whether the floor falls more gently than the side rises.
    pub gentle: bool,
}

impl Part {
    /// Adds the raw rings of what lies deep enough, widened by itself.
    fn sweep(&self, depth: f64, bodies: &Bodies<'_>, rings: &mut Vec<Ring>) {
        for ring in without_holes(deep_part(&self.piece, depth)) {
            let corner = |p: &Point| Corner {
                at: *p,
                depth: self.piece.plane.depth(*p),
                layer: self.layer,
                widened: true,
            };
            let ring: Vec<_> = ring.0.iter().map(corner).collect();
            sweep(&ring, bodies, self.gentle, rings);
        }
    }
}

impl NonUniformSides {
    /// The hole over a bottom with a settled profile.
    pub fn new(bottom: &Bottom, profile: Profile) -> Self {
        let fan = Fan::new();
        let circle = |(depth, width)| (depth, fan.body(BySide::all(width)));
        let mut parts = Vec::new();
        for piece in &bottom.pieces {
            let mut top = f64::NEG_INFINITY;
            for (layer, side) in profile.layers.iter().enumerate() {
                let uphill = -piece.plane.gradient;
                let steepness = uphill.length();
                let run = uphill.unit().map_or(0.0, |up| side.run.towards(up));
                let between = piece.between(top, side.down_to);
                parts.extend(between.map(|piece| Part {
                    piece,
                    layer,
                    gentle: run * steepness < GENTLE,
                }));
                top = side.down_to;
            }
        }
        // Across the bench bodies jump: what lies above it and what lies below are apart.
        let bench = profile.bench.map_or(f64::INFINITY, |(depth, _)| depth);
        let below = |layer: usize| {
            let side = profile.layers.get(layer);
            side.is_some_and(|side| side.down_to > bench)
        };
        let told = parts.iter().map(|part| TaggedFace {
            piece: &part.piece,
            layer: part.layer,
            below: below(part.layer),
            gentle: part.gentle,
        });
        let skin = Skin::of(&told.collect::<Vec<_>>());
        let layers = profile.layers.iter();
        Self {
            borders: profile.borders().collect(),
            reach: fan.body(profile.reach),
            runs: layers.map(|layer| fan.body(layer.run)).collect(),
            bench: profile.bench.map(circle),
            parts,
            skin,
            fan,
            profile,
        }
    }

    /// The area within which the hole is at least `depth` below the rim, shell frame.
    pub fn contour(&self, depth: f64) -> Region {
        let mut rings = Vec::new();
        self.swept(depth, &mut |raw, whole| match whole {
            // One by one first: where groups cross each other there is less to cross.
            true => rings.extend(positive_winding(&raw).rings().cloned()),
            false => rings.extend(raw),
        });
        positive_winding(&rings)
    }

    /// The same area not yet united: a place is inside where any of these sets of rings winds about it a positive
    /// number of times.
    pub fn wound(&self, depth: f64) -> Vec<Vec<Ring>> {
        let mut sets = Vec::new();
        self.swept(depth, &mut |raw, _| sets.push(raw));
        sets
    }

    /// The raw rings of each group, and whether they are those of its edge.
    fn swept(&self, depth: f64, each: &mut dyn FnMut(Vec<Ring>, bool)) {
        let bodies = self.bodies(depth);
        for group in &self.skin.groups {
            let mut raw = Vec::new();
            let edges = group.edge(depth);
            let whole = edges.is_some();
            match edges {
                Some(edges) => {
                    for ring in edges {
                        sweep(&ring, &bodies, true, &mut raw);
                    }
                }
                // A group with a hole: piece by piece.
                None => {
                    for part in group.members.iter().filter_map(|i| self.parts.get(*i)) {
                        part.sweep(depth, &bodies, &mut raw);
                    }
                }
            }
            each(raw, whole);
        }
        for part in self.skin.steep.iter().filter_map(|i| self.parts.get(*i)) {
            let mut raw = Vec::new();
            part.sweep(depth, &bodies, &mut raw);
            each(raw, false);
        }
    }

    /// What stands, at a level, round the places of every layer.
    pub(super) fn bodies(&self, depth: f64) -> Bodies<'_> {
        let mut least = self.reach.clone();
        let mut top = f64::NEG_INFINITY;
        let mut layers = Vec::with_capacity(self.runs.len());
        for (layer, growth) in self.profile.layers.iter().zip(&self.runs) {
            if let Some((bench, body)) = &self.bench
                && *bench == top
                && depth < top
            {
                least.add(body, 1.0);
            }
            let start = top.max(depth);
            layers.push(LayerBodies {
                least: least.clone(),
                start,
                growth,
                run: layer.run,
            });
            top = layer.down_to;
            if top.is_finite() && top > depth {
                least.add(growth, top - start);
            }
        }
        Bodies {
            fan: &self.fan,
            layers,
        }
    }

    /// The plan of a bottom with the ground kept free round it.
    pub fn floor(&self, plan: &Region) -> Region {
        let bodies = self.bodies(f64::INFINITY);
        let mut rings = Vec::new();
        for ring in without_holes(plan.clone()) {
            let corner = |p: &Point| Corner {
                at: *p,
                depth: 0.0,
                layer: 0,
                widened: true,
            };
            let ring: Vec<_> = ring.0.iter().map(corner).collect();
            sweep(&ring, &bodies, true, &mut rings);
        }
        positive_winding(&rings)
    }

    /// Volumes of the hole below each of some depths, m3: integrals of the contours.
    pub fn volumes_below(&self, depths: &[f64]) -> Vec<f64> {
        let top = depths.iter().copied().fold(f64::INFINITY, f64::min);
        let layers = self.layers_across(top, depths);
        contour::integrals(&layers, depths, |depth| self.contour(depth).area())
    }

    /// The layers between a depth and the deepest bottom across which no break lies.
    pub fn layers(&self, top: f64) -> Vec<Layer> {
        self.layers_across(top, &[])
    }

    /// The same, with no layer reaching across one of the depths.
    fn layers_across(&self, top: f64, depths: &[f64]) -> Vec<Layer> {
        let pieces: Vec<&Piece> = self.parts.iter().map(|part| &part.piece).collect();
        let borders: Vec<f64> = self.borders.iter().chain(depths).copied().collect();
        contour::layers_of(&pieces, &borders, true, top)
    }
}

#[cfg(test)]
mod tests;
