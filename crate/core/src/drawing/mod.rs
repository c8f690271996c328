//! The plan as a list of things to draw, in site meters, told by what they are.
//!
//! A [`Drawing`] knows layers, not colors: the screen and the sheet each give a layer its
//! own ink. It is made in two halves: the [`backdrop`] (lot, features, ground, setback
//! lines), which stays the same while the shell moves, and the [`work`] on top of it. An estimate
//! lays its [`overlay`] over both.

mod anchor;
mod backdrop;
mod chain;
mod clear;
mod earth;
mod feature;
pub mod fit;
mod hardware;
pub mod layout;
pub mod lettering;
mod overlay;
pub mod placement;
mod relief;
mod scale_bar;
mod setback;
mod sides;
mod stakes;
mod tape;
mod work;

pub use anchor::{Anchor, LineSide};
pub use backdrop::backdrop;
pub use clear::clear_ground;
pub use overlay::overlay;
pub use scale_bar::{ScaleBar, scale_bar};
pub use stakes::stakes;
pub use work::{Focus, work};

use crate::geom::{Point, Region, Segment};
use crate::lot::MonumentState;
use crate::math::{TURN, wrap_turn};
use crate::site::{CheckedFeature, CheckedSite, FeatureKind, Utility};

/// What a thing on the plan is; sets how it is inked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Layer {
    /// The land inside the boundary.
    Lot,
    /// The boundary.
    LotLine,
    /// What kind of side it is.
    SideKind,
    /// What marks a corner.
    Monument(MonumentState),
    /// A line that a clearance rule keeps the work from.
    Setback,
    /// Something that stands on or under the lot.
    Feature(FeatureKind),
    /// A hatch over a feature.
    Hatch(FeatureKind),
    /// A buried line, by what runs in it.
    Buried(Option<Utility>),
    /// A letter on a buried line, by what runs in it.
    Mark(Option<Utility>),
    /// A letter on an overhead line.
    OverheadMark,
    /// The clear way through a wall or a fence.
    Gap,
    /// The leaf of a door or a gate, and the way it swings.
    Swing,
    /// The trunk of a tree.
    Trunk,
    /// The ring round a tree that is to stay undisturbed.
    Protection,
    /// A spot elevation.
    Spot,
    /// A contour; every fifth is an index contour.
    Contour {
        /// Whether it is drawn heavier.
        index: bool,
    },
    /// A line along which the ground breaks.
    Breakline,
    /// The part of the lot whose ground nobody measured: its hatch and its edge.
    UnknownGround,
    /// The mark that elevations are carried from.
    Benchmark,
    /// Every place that the shell's middle may take at its heading.
    ClearGround,
    /// The land that the dig opens.
    Dig,
    /// The dig's top edge.
    DigEdge,
    /// Hachures down the dig's sides, long and short in turn.
    Hachure,
    /// The bottom of the dig's sides: the over-dig.
    OverDig,
    /// The deck.
    Deck,
    /// The concrete collar under it.
    Collar,
    /// The coping.
    Coping,
    /// The water over one facet; `shade` runs from 0 (shallowest) to 4 (deepest).
    Water {
        /// How dark.
        shade: u8,
    },
    /// A break between facets of the floor.
    FloorBreak,
    /// The equipment pad.
    Equipment,
    /// Where a bank of fill or cut meets the ground.
    Bank,
    /// The pile of spoil.
    Pile,
    /// A control joint of the deck.
    Joint,
    /// A rod between coping and deck.
    Tie,
    /// A run of pipe.
    Pipe {
        /// Whether it leads to the pump rather than from it.
        suction: bool,
    },
    /// Where pipe is strapped.
    Strap,
    /// The pipe that lowers groundwater.
    Standpipe,
    /// The direction of the shell's length.
    Axis,
    /// What a row of the ledger speaks of.
    Focus,
    /// The same, where it is a line.
    FocusLine,
    /// A stake.
    Stake,
    /// The line between the two fixed points that tapes are held to, and its ends.
    BaseLine,
    /// A tape: a distance that somebody wants to see.
    Tape,
    /// A clearance that holds.
    Clearance,
    /// A clearance that falls short.
    Shortfall,
}

/// One thing to draw.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// An area: filled and outlined as its layer says.
    Area {
        /// What it is.
        layer: Layer,
        /// Where it is.
        region: Region,
    },
    /// A path of lines and arcs.
    Path {
        /// What it is.
        layer: Layer,
        /// Its stretches, each beginning where the last ended.
        segments: Vec<Segment>,
        /// Whether it ends where it began.
        closed: bool,
    },
    /// Separate straight lines.
    Lines {
        /// What they are.
        layer: Layer,
        /// The two ends of each.
        lines: Vec<(Point, Point)>,
    },
    /// A dot of a fixed size on paper.
    Dot {
        /// What it is.
        layer: Layer,
        /// Where it is.
        at: Point,
    },
    /// A piece of text.
    Label {
        /// What it belongs to.
        layer: Layer,
        /// What it names, site meters, and thereby where it may stand.
        anchor: Anchor,
        /// What it says.
        text: String,
    },
    /// A measured distance: a line with ticks at both ends and its text.
    Measured {
        /// What it belongs to.
        layer: Layer,
        /// One end.
        from: Point,
        /// The other end.
        to: Point,
        /// The distance in words.
        text: String,
        /// What it is known by while its ends and its words change.
        key: u64,
        /// Whether a row of the ledger looks at it.
        focused: bool,
    },
}

impl Item {
    /// What it is, or belongs to.
    pub const fn layer(&self) -> Layer {
        match self {
            Self::Area { layer, .. }
            | Self::Path { layer, .. }
            | Self::Lines { layer, .. }
            | Self::Dot { layer, .. }
            | Self::Label { layer, .. }
            | Self::Measured { layer, .. } => *layer,
        }
    }
}

/// Things to draw, lowest first.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drawing {
    /// The things.
    pub items: Vec<Item>,
}

impl Drawing {
    fn area(&mut self, layer: Layer, region: Region) {
        if !region.polygons.is_empty() {
            self.items.push(Item::Area { layer, region });
        }
    }

    fn path(&mut self, layer: Layer, segments: Vec<Segment>, closed: bool) {
        self.items.push(Item::Path {
            layer,
            segments,
            closed,
        });
    }

    fn lines(&mut self, layer: Layer, lines: Vec<(Point, Point)>) {
        if !lines.is_empty() {
            self.items.push(Item::Lines { layer, lines });
        }
    }

    fn label(&mut self, layer: Layer, anchor: Anchor, text: impl Into<String>) {
        let text = text.into();
        self.items.push(Item::Label {
            layer,
            anchor,
            text,
        });
    }

    /// A label beside a point, rather on the side of a bearing.
    fn label_beside(&mut self, layer: Layer, at: Point, toward: f64, text: impl Into<String>) {
        self.label(layer, Anchor::Point { at, toward }, text);
    }

    /// A label in an area, level at its middle.
    fn label_within(&mut self, layer: Layer, region: &Region, text: impl Into<String>) {
        if let Some(at) = region.centroid() {
            self.label(layer, within(region, at, TURN / 4.0), text);
        }
    }

    /// Smallest upright rectangle round all areas and paths: lower left and upper right.
    pub fn bounds(&self) -> Option<(Point, Point)> {
        let mut points = self.items.iter().flat_map(points_of);
        let first = points.next()?;
        Some(points.fold((first, first), |(low, high), p| {
            (
                Point::new(low.x.min(p.x), low.y.min(p.y)),
                Point::new(high.x.max(p.x), high.y.max(p.y)),
            )
        }))
    }
}

/// The features that are not hidden. Hiding is a matter of the drawing alone: whatever is
/// hidden is measured and told of as ever.
fn shown(site: &CheckedSite) -> impl Iterator<Item = &CheckedFeature> {
    let records = &site.site().features;
    let features = site.features().iter();
    features.filter(|f| records.get(f.index).is_some_and(|record| !record.hidden))
}

fn points_of(item: &Item) -> Vec<Point> {
    match item {
        Item::Area { region, .. } => region.bounds().map_or(Vec::new(), |(a, b)| vec![a, b]),
        Item::Path { segments, .. } => segments
            .iter()
            .flat_map(|s| [s.from(), s.point_at(0.5), s.to()])
            .collect(),
        _ => Vec::new(),
    }
}

/// The anchor of a name in the largest part of a region.
fn within(region: &Region, at: Point, along: f64) -> Anchor {
    let outer = region.polygons.iter().map(|polygon| &polygon.outer);
    let largest = outer.max_by(|a, b| a.signed_area().total_cmp(&b.signed_area()));
    Anchor::Area {
        ring: largest.map(|ring| ring.0.clone()).unwrap_or_default(),
        at,
        along: upright(along),
    }
}

/// Points along a stretch that show where it runs: its ends, and those between on an arc.
fn points_along(segment: &Segment) -> Vec<Point> {
    match segment {
        Segment::Line { from, to } => vec![*from, *to],
        Segment::Arc { .. } => {
            let parts = 12_u8;
            let part = |i| segment.point_at(f64::from(i) / f64::from(parts));
            (0..=parts).map(part).collect()
        }
    }
}

/// The bearing, of the two along a line, that reads from the bottom or the right of the plan.
fn upright(bearing: f64) -> f64 {
    let eastward = wrap_turn(bearing) % (TURN / 2.0);
    if eastward < 1e-9 { 0.0 } else { eastward }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_never_upside_down() {
        for bearing in [0.0, 0.3, 1.6, 3.2, 4.0, 6.2, -0.2] {
            let along = upright(bearing);
            assert!((0.0..TURN / 2.0).contains(&along), "{bearing} -> {along}");
        }
    }
}
