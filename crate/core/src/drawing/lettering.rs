//! The labels of a drawing in a view, with what they keep clear of: what [`placement`](super::placement) needs.
//!
//! A shortfall comes first; then the clearance that the ledger looks at, the other dimensions, the work, what stands
//! on the lot, the sides of the lot, and the figures of the ground.

use std::collections::BTreeMap;

use super::placement::{Guard, Label, Need, Obstacle, Rank, Shape, Size, TextBox};
use super::{Anchor, Item, Layer, points_along};
use crate::geom::{Point, Region, Ring, Vector, pattern};
use crate::math::TURN;
use crate::site::FeatureKind;

/// What part of a plan a view shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Its size, view units.
    pub size: Size,
    /// The point of the site at its middle, meters.
    pub centre: Point,
    /// View units per meter.
    pub scale: f64,
}

impl Frame {
    /// Where a point of the site lies in the view, y down.
    pub fn place(&self, p: Point) -> Point {
        Point::new(
            self.size.width / 2.0 + (p.x - self.centre.x) * self.scale,
            self.size.height / 2.0 - (p.y - self.centre.y) * self.scale,
        )
    }

    /// Whether an upright rectangle round some points reaches into the view.
    fn sees<'a>(&self, points: impl IntoIterator<Item = &'a Point>) -> bool {
        let mut low = Point::new(f64::INFINITY, f64::INFINITY);
        let mut high = Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY);
        for p in points {
            let p = self.place(*p);
            low = Point::new(low.x.min(p.x), low.y.min(p.y));
            high = Point::new(high.x.max(p.x), high.y.max(p.y));
        }
        low.x <= self.size.width && low.y <= self.size.height && high.x >= 0.0 && high.y >= 0.0
    }
}

/// How the text of a layer is written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TextLook {
    /// Size of the letters, view units.
    pub size: f64,
    /// The scale, view units per meter, from which it is written.
    pub from_scale: f64,
}

/// A text of a drawing, as a label that wants a place.
#[derive(Debug, Clone, PartialEq)]
pub struct Lettering {
    /// What it belongs to.
    pub layer: Layer,
    /// What it says.
    pub text: String,
    /// What placing it takes.
    pub label: Label,
}

/// How much taller the box of a text is than its letters, and how much longer than the text: no two
/// texts touch.
const LEADING: f64 = 1.15;
const ASIDE: f64 = 4.0;

/// What a text is known by from frame to frame: the words, and which of those that say the same.
pub fn key(text: &str, ordinal: u32) -> u64 {
    // FNV-1a, 64 bits: any even spread does.
    let bytes = text.bytes().chain(ordinal.to_le_bytes());
    bytes.fold(0xcbf2_9ce4_8422_2325, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// All text of some items that the view is close enough for. `look` says how a layer's text is written, `length` how
/// long a text of a size is.
pub fn lettering<'a>(
    items: impl DoubleEndedIterator<Item = &'a Item>,
    frame: &Frame,
    look: impl Fn(Layer) -> TextLook,
    mut length: impl FnMut(&str, f64) -> f64,
) -> Vec<Lettering> {
    let mut same: BTreeMap<u64, u32> = BTreeMap::new();
    let mut dimensions = 0;
    let mut all = Vec::new();
    // The tightest dimension is the last.
    for item in items.rev() {
        let (layer, text, anchor, known, focused) = match item {
            Item::Label {
                layer,
                anchor,
                text,
            } => (*layer, text, anchor.clone(), None, false),
            Item::Measured {
                layer,
                from,
                to,
                text,
                key,
                focused,
            } => {
                let (from, to) = (*from, *to);
                (
                    *layer,
                    text,
                    Anchor::Span { from, to },
                    Some(*key),
                    *focused,
                )
            }
            _ => continue,
        };
        let need = need(layer, focused);
        let look = look(layer);
        if frame.scale < look.from_scale || (need != Need::Required && !in_view(frame, &anchor)) {
            continue;
        }
        let known = known.unwrap_or_else(|| {
            let first = key(text, u32::from(rank(layer)));
            let count = same.entry(first).or_default();
            *count += 1;
            if *count == 1 {
                first
            } else {
                key(text, *count << 16 | u32::from(rank(layer)))
            }
        });
        let mut rank = if focused {
            rank(layer).min(FOCUSED)
        } else {
            rank(layer)
        };
        if matches!(item, Item::Measured { .. }) {
            dimensions += 1;
            rank += dimensions.min(CLASS - 1);
        }
        let label = Label {
            key: known,
            rank,
            width: length(text, look.size) + ASIDE,
            height: look.size * LEADING,
            gap: gap(layer),
            anchor: anchor.mapped(|p| frame.place(p)),
            need,
        };
        all.push(Lettering {
            layer,
            text: text.clone(),
            label,
        });
    }
    all
}

fn in_view(frame: &Frame, anchor: &Anchor) -> bool {
    match anchor {
        Anchor::Point { at, .. } => frame.sees([at]),
        Anchor::Line { line, .. } => frame.sees(line),
        Anchor::Area { ring, at, .. } => frame.sees(ring.iter().chain([at])),
        Anchor::Places(places) => places.iter().any(|(at, _)| frame.sees([at])),
        Anchor::Span { from, to } => frame.sees([from, to]),
    }
}

/// Ranks from one class of labels to the next; between them dimensions are told apart by their room.
const CLASS: Rank = 100;
const FOCUSED: Rank = CLASS;
const DIMENSION: Rank = 2 * CLASS;
const WORK: Rank = 3 * CLASS;
const STRUCTURE: Rank = 4 * CLASS;
const SIDE: Rank = 5 * CLASS;
const YARD: Rank = 6 * CLASS;
const CORNER: Rank = 7 * CLASS;
const GROUND: Rank = 8 * CLASS;
const SPOT: Rank = 9 * CLASS;
const RULE: Rank = 10 * CLASS;

/// How much a layer's text matters: the least comes first.
fn rank(layer: Layer) -> Rank {
    use FeatureKind as K;
    match layer {
        Layer::Shortfall => 0,
        Layer::Clearance | Layer::Tape => DIMENSION,
        Layer::BaseLine => DIMENSION,
        Layer::Pile | Layer::Bank | Layer::Equipment | Layer::Pipe { .. } | Layer::Stake => WORK,
        Layer::Feature(
            K::House | K::Outbuilding | K::Easement | K::SepticField | K::SepticTank | K::Well,
        ) => STRUCTURE,
        Layer::Buried(_) => STRUCTURE,
        Layer::LotLine => SIDE,
        Layer::Feature(_) => YARD,
        Layer::SideKind | Layer::Monument(_) | Layer::Mark(_) | Layer::OverheadMark => CORNER,
        Layer::Benchmark | Layer::UnknownGround | Layer::Contour { index: true } => GROUND,
        Layer::Setback | Layer::ClearGround => RULE,
        _ => SPOT,
    }
}

/// Whether a layer's text may be left out, and whether it may stand at the end of a leader.
fn need(layer: Layer, focused: bool) -> Need {
    match layer {
        Layer::Shortfall | Layer::Tape => Need::Required,
        _ if focused => Need::Required,
        Layer::Clearance | Layer::Pile | Layer::Bank | Layer::Equipment | Layer::Benchmark => {
            Need::Leader
        }
        Layer::Feature(_) | Layer::Buried(_) | Layer::LotLine | Layer::Monument(_) => Need::Leader,
        Layer::BaseLine | Layer::Stake => Need::Leader,
        _ => Need::Near,
    }
}

/// How far a layer's text keeps from what it names, view units.
fn gap(layer: Layer) -> f64 {
    match layer {
        Layer::Shortfall | Layer::Clearance | Layer::Tape => 4.0,
        Layer::Monument(_) => 8.0,
        Layer::Benchmark => 7.0,
        Layer::Pipe { .. } => 5.0,
        _ => 2.5,
    }
}

/// A stroke shorter than this is taken together with the next, view units.
const SHORT: f64 = 8.0;

/// From one stroke through what is filled to the next, view units.
const FILLED: f64 = 12.0;

/// A stroke of this length or more has its full price, view units.
const FULL: f64 = 60.0;

/// What labels keep clear of in a drawing: the lines of dimensions, each as its own text matters; and, where there is
/// room elsewhere, signs and the edges of what stands there.
pub fn obstacles<'a>(items: impl IntoIterator<Item = &'a Item>, frame: &Frame) -> Vec<Obstacle> {
    let mut all = Vec::new();
    for item in items {
        match item {
            Item::Measured {
                layer,
                from,
                to,
                key,
                focused,
                ..
            } => {
                let guard = if *layer == Layer::Shortfall || *focused {
                    Guard::Always
                } else {
                    Guard::From(rank(*layer))
                };
                all.push(Obstacle {
                    shape: Shape::Stroke(frame.place(*from), frame.place(*to)),
                    guard,
                    of: Some(*key),
                });
            }
            Item::Path {
                layer, segments, ..
            } => {
                if let Some(price) = price(*layer) {
                    let points: Vec<Point> = segments.iter().flat_map(points_along).collect();
                    chain(&mut all, frame, price, &points);
                }
            }
            Item::Area {
                layer: Layer::Coping | Layer::Equipment,
                region,
            } => {
                region_edges(&mut all, frame, 4.0, region);
                filled(&mut all, frame, region);
            }
            Item::Area {
                layer: Layer::Pile | Layer::Standpipe,
                region,
            } => region_edges(&mut all, frame, 4.0, region),
            Item::Dot { layer, at } => {
                let (half, guard) = match layer {
                    // The mark of a corner is as important as the sides that meet there.
                    Layer::Monument(_) => (5.5, Guard::From(SIDE)),
                    Layer::Benchmark => (7.0, Guard::Soft(15.0)),
                    Layer::Spot | Layer::Stake => (2.5, Guard::Soft(2.0)),
                    Layer::BaseLine => (5.0, Guard::From(WORK)),
                    _ => continue,
                };
                let (at, half) = (frame.place(*at), Vector::new(half, half));
                all.push(Obstacle {
                    shape: Shape::Box(TextBox::between(at - half, at + half)),
                    guard,
                    of: None,
                });
            }
            _ => {}
        }
    }
    all
}

/// What lying on a line of a layer costs.
fn price(layer: Layer) -> Option<f64> {
    match layer {
        Layer::LotLine => Some(7.0),
        Layer::Feature(_) | Layer::Buried(_) => Some(3.0),
        _ => None,
    }
}

/// What is painted over the half of the plan that stays, and hides what is there: the shell.
pub fn lids<'a>(items: impl IntoIterator<Item = &'a Item>, frame: &Frame) -> Vec<Vec<Point>> {
    let mut lids = Vec::new();
    for item in items {
        if let Item::Area {
            layer: Layer::Coping,
            region,
        } = item
        {
            let rings = region.polygons.iter().map(|polygon| &polygon.outer.0);
            lids.extend(rings.map(|ring| ring.iter().map(|p| frame.place(*p)).collect()));
        }
    }
    lids
}

fn region_edges(all: &mut Vec<Obstacle>, frame: &Frame, price: f64, region: &Region) {
    for Ring(points) in region.rings() {
        let closed: Vec<Point> = points.iter().chain(points.first()).copied().collect();
        chain(all, frame, price, &closed);
    }
}

/// What is kept clear of as a whole, by strokes through it.
fn filled(all: &mut Vec<Obstacle>, frame: &Frame, region: &Region) {
    for (from, to) in pattern::hatch(region, TURN / 4.0, FILLED / frame.scale) {
        all.push(Obstacle {
            shape: Shape::Stroke(frame.place(from), frame.place(to)),
            guard: Guard::Soft(5.0),
            of: None,
        });
    }
}

fn chain(all: &mut Vec<Obstacle>, frame: &Frame, price: f64, points: &[Point]) {
    let mut places = points.iter().map(|p| frame.place(*p));
    let Some(mut from) = places.next() else {
        return;
    };
    let mut places = places.peekable();
    while let Some(to) = places.next() {
        let length = from.distance(to);
        if length < SHORT && places.peek().is_some() {
            continue;
        }
        all.push(Obstacle {
            shape: Shape::Stroke(from, to),
            guard: Guard::Soft(price * (length / FULL).min(1.0)),
            of: None,
        });
        from = to;
    }
}
