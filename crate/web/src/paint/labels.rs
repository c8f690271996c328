//! Which pieces of text are shown: the important ones, and of the others those that find room.
//!
//! Text is measured roughly (an average width a character) and set greedily by importance; a
//! piece that would lie on one already set is left out until the view is closer. What is set is
//! decided apart from writing it, so that text which stays need not be written in every frame.

use batterboard_core::drawing::{Item, Layer};
use batterboard_core::site::FeatureKind;

use super::View;
use super::ink::{Ink, ink};
use super::pen::{Pen, Place};
use super::sign;

/// Average width of a character, as a part of the text's size (semibold sans serif).
const CHARACTER: f64 = 0.6;

/// How near to the edge of the canvas text comes, CSS pixels.
const EDGE: f64 = 8.0;

/// A piece of text with its place on the canvas.
#[derive(Debug, Clone, PartialEq)]
pub struct Lettering {
    rank: u8,
    at: Place,
    along: f64,
    text: String,
    ink: Ink,
    space: Space,
}

/// The space a piece takes, as a row of discs along it: `(x, y)` and their common radius.
#[derive(Debug, Clone, PartialEq)]
struct Space {
    discs: Vec<Place>,
    radius: f64,
}

/// How far round a knob no text is set, CSS pixels.
const KNOB_ROOM: f64 = 16.0;

/// All text of the given items that the view is close enough for.
pub fn lettering<'a>(view: &View, items: impl Iterator<Item = &'a Item>) -> Vec<Lettering> {
    items.filter_map(|item| piece(view, item)).collect()
}

/// The text that is set: the most important first, and of the rest what finds room beside it and
/// beside the knobs of handles. By their places in the two lists, `still` and `moving`, each in
/// the order in which it is set. The moving lies on top and matters more among equals, as do
/// later items of one list.
pub fn with_room(
    still: &[Lettering],
    moving: &[Lettering],
    knobs: &[Place],
) -> (Vec<usize>, Vec<usize>) {
    let knob = |at: &Place| Space {
        discs: vec![*at],
        radius: KNOB_ROOM,
    };
    let knobs: Vec<Space> = knobs.iter().map(knob).collect();
    let mut taken: Vec<&Space> = knobs.iter().collect();
    let mut set = (Vec::new(), Vec::new());
    for rank in 0..=LAST_RANK {
        for (list, chosen) in [(moving, &mut set.1), (still, &mut set.0)] {
            for (index, piece) in list.iter().enumerate().rev() {
                if piece.rank == rank
                    && (rank == 0 || !taken.iter().any(|other| overlap(&piece.space, other)))
                {
                    chosen.push(index);
                    taken.push(&piece.space);
                }
            }
        }
    }
    set
}

/// Writes some of a list of texts.
pub fn write(pen: &mut Pen<'_>, list: &[Lettering], chosen: &[usize]) {
    for piece in chosen.iter().filter_map(|index| list.get(*index)) {
        pen.text(piece.at, piece.along, &piece.text, &piece.ink);
    }
}

fn piece(view: &View, item: &Item) -> Option<Lettering> {
    let (layer, at, along, text) = match item {
        Item::Label {
            layer,
            at,
            along,
            text,
        } => {
            if view.scale < ink(*layer).text_from_scale {
                return None;
            }
            (*layer, view.place(*at), *along, text)
        }
        Item::Measured {
            layer,
            from,
            to,
            text,
        } => {
            let (at, along) = sign::dimension_place(view.place(*from), view.place(*to));
            (*layer, at, along, text)
        }
        _ => return None,
    };
    let ink = ink(layer);
    let length = length(text, ink.text_size);
    let at = drawn_in(view, at, along, (length, ink.text_size));
    Some(Lettering {
        rank: rank(layer),
        at,
        along,
        text: text.clone(),
        space: space(at, along, (length, ink.text_size)),
        ink,
    })
}

/// A place on the canvas, shifted so that none of the text of a length and a size is cut off there.
fn drawn_in(view: &View, (x, y): Place, along: f64, (length, size): (f64, f64)) -> Place {
    let (dx, dy) = sign::direction(along);
    let (half, size) = (length / 2.0, size / 2.0);
    let within = |at: f64, reach: f64, most: f64| {
        if at < 0.0 || at > most || 2.0 * (reach + EDGE) > most {
            return at;
        }
        // A little more than reckoned: letters differ in width.
        at.clamp(reach + EDGE, most - reach - EDGE)
    };
    (
        within(x, dx.abs() * half + dy.abs() * size, view.width),
        within(y, dy.abs() * half + dx.abs() * size, view.height),
    )
}

/// About how long a piece of text of a size is, CSS pixels.
#[allow(clippy::cast_precision_loss)] // A label has few characters.
fn length(text: &str, size: f64) -> f64 {
    text.chars().count() as f64 * size * CHARACTER
}

/// The rank of the least important text.
const LAST_RANK: u8 = 7;

/// How much a layer's text matters: 0 is always shown, [`LAST_RANK`] comes last.
fn rank(layer: Layer) -> u8 {
    match layer {
        Layer::Shortfall => 0,
        Layer::Clearance => 1,
        Layer::LotLine => 2,
        Layer::SideKind | Layer::Monument(_) => 3,
        Layer::Feature(FeatureKind::House | FeatureKind::Easement | FeatureKind::SepticField) => 3,
        Layer::Feature(_) | Layer::Buried(_) | Layer::Equipment | Layer::Pile | Layer::Bank => 4,
        Layer::Pipe { .. } => 4,
        Layer::UnknownGround | Layer::Benchmark | Layer::Contour { index: true } => 4,
        Layer::Mark(_) | Layer::OverheadMark => 5,
        Layer::Setback => 6,
        _ => LAST_RANK,
    }
}

fn space(at: Place, along: f64, (length, size): (f64, f64)) -> Space {
    let radius = size * 0.55;
    let reach = (length / 2.0 - radius).max(0.0);
    let (dx, dy) = sign::direction(along);
    let count = (2.0 * reach / radius).ceil().clamp(1.0, 64.0);
    let mut discs = Vec::new();
    let mut i = 0.0;
    while i <= count {
        let t = reach * (2.0 * i / count - 1.0);
        discs.push((at.0 + dx * t, at.1 + dy * t));
        i += 1.0;
    }
    Space { discs, radius }
}

fn overlap(a: &Space, b: &Space) -> bool {
    let near = a.radius + b.radius;
    if a.is_far_from(b, near) {
        return false;
    }
    a.discs.iter().any(|p| {
        b.discs.iter().any(|q| {
            let (dx, dy) = (p.0 - q.0, p.1 - q.1);
            dx * dx + dy * dy < near * near
        })
    })
}

impl Space {
    /// Whether the upright rectangles round both rows lie apart.
    fn is_far_from(&self, other: &Self, near: f64) -> bool {
        let ends = |space: &Self| Some((*space.discs.first()?, *space.discs.last()?));
        let (Some((a, b)), Some((c, d))) = (ends(self), ends(other)) else {
            return true;
        };
        let apart = |a: f64, b: f64, c: f64, d: f64| {
            a.min(b) - c.max(d) >= near || c.min(d) - a.max(b) >= near
        };
        apart(a.0, b.0, c.0, d.0) || apart(a.1, b.1, c.1, d.1)
    }
}
