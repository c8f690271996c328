//! The labels of the plan: placed by the core, round what the page and the plan's furniture cover.

use batterboard_core::drawing::Drawing;
use batterboard_core::drawing::fit::fit;
use batterboard_core::drawing::layout::{Layout, Moving};
use batterboard_core::drawing::lettering::{Frame, lids, obstacles};
use batterboard_core::drawing::placement::{Guard, Obstacle, Shape, Size, TextBox};
use batterboard_core::geom::{Point, Vector};
use batterboard_core::session::{Session, TurnRing};
use batterboard_core::site::Site;
use serde::Serialize;
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::{JsValue, wasm_bindgen};
use web_sys::CanvasRenderingContext2d;

use super::{furniture, hand, turning_handles};
use crate::js::list_to_js;
use crate::paint::labels::{Letters, frame, lettering};
use crate::paint::{View, section};
use crate::planner::Planner;

/// The labels and what they keep clear of.
#[derive(Debug, Default)]
pub struct PlanLabels {
    layout: Layout,
    letters: Letters,
    /// What the page's controls cover of the canvas.
    controls: Vec<TextBox>,
}

impl PlanLabels {
    /// Where the labels stand.
    pub fn layout(&self) -> &Layout {
        &self.layout
    }

    /// Takes over the half of the plan that stays.
    pub fn set_still(&mut self, canvas: &CanvasRenderingContext2d, view: &View, still: &Drawing) {
        let frame = frame(view);
        let labels = lettering(canvas, view, &still.items, &mut self.letters);
        let keep_clear = obstacles(&still.items, &frame);
        self.layout.set_still(frame, labels, keep_clear);
    }

    /// What lies over the plan: controls, north arrow and scale bar.
    pub fn covered(&self, view: &View, site: &Site) -> Vec<TextBox> {
        let furniture = furniture::covered(view, &site.lot.basis, site.display);
        self.controls.iter().chain(&furniture).copied().collect()
    }

    /// Places the labels of a frame; `ring`: the one round the shell, where it is shown.
    pub fn lay(
        &mut self,
        canvas: &CanvasRenderingContext2d,
        view: &View,
        moving: &Drawing,
        session: &Session,
        ring: Option<&TurnRing>,
    ) {
        let settings = session.site().site();
        let furniture = self.covered(view, settings).into_iter().map(guarded);
        let mut keep_clear = obstacles(&moving.items, &frame(view));
        for (stem, knob) in turning_handles(view, session) {
            keep_clear.push(guarded(square(knob, furniture::KNOB_ROOM)));
            keep_clear.push(Obstacle {
                shape: Shape::Stroke(Point::new(stem.0, stem.1), Point::new(knob.0, knob.1)),
                guard: Guard::From(1),
                of: None,
            });
        }
        if let Some(ring) = ring {
            keep_clear.push(guarded(furniture::ring_text(view, ring)));
        }
        keep_clear
            .extend(hand::handle_places(view, session).map(|at| guarded(square(at, hand::HANDLE))));
        if let Some(line) = session.shown_section_line() {
            keep_clear.extend(
                section::ends_on_plan(view, &line).map(|at| guarded(square(at, section::END_ROOM))),
            );
        }
        let moving = Moving {
            lettering: lettering(canvas, view, &moving.items, &mut self.letters),
            obstacles: keep_clear,
            lids: lids(&moving.items, &frame(view)),
            furniture: furniture.collect(),
        };
        self.layout.lay(moving, session.is_under_hand());
    }
}

fn guarded(it: TextBox) -> Obstacle {
    Obstacle {
        shape: Shape::Box(it),
        guard: Guard::Always,
        of: None,
    }
}

fn square((x, y): (f64, f64), half: f64) -> TextBox {
    let (at, half) = (Point::new(x, y), Vector::new(half, half));
    TextBox::between(at - half, at + half)
}

/// A label as it stands on the plan.
#[derive(Debug, Serialize, Tsify)]
pub struct PlacedLabel {
    /// What it says.
    text: String,
    /// The corners of its box in order round it, CSS pixels of the canvas.
    corners: [[f64; 2]; 4],
    /// Its leader, from the text to what it names.
    leader: Option<[[f64; 2]; 2]>,
    /// How much it matters, the least the most.
    rank: u16,
    /// Whether it lies on something for want of room.
    crowded: bool,
}

#[wasm_bindgen]
impl Planner {
    /// Says what the page's controls cover of the canvas: left, top, right and bottom of each, CSS pixels. The next
    /// painting has no label there.
    pub fn set_controls(&mut self, edges: &[f64]) {
        let corners = edges.chunks_exact(4).filter_map(|it| match it {
            [left, top, right, bottom] => {
                Some((Point::new(*left, *top), Point::new(*right, *bottom)))
            }
            _ => None,
        });
        self.labels.controls = corners.map(|(a, b)| TextBox::between(a, b)).collect();
    }

    /// `[x, y, scale]` of the view of a size that shows everything, with no corner of the lot under a control: the
    /// site position at its middle, meters, and CSS pixels per meter.
    pub fn fitted(&mut self, width: f64, height: f64) -> Vec<f64> {
        let Some(bounds) = self.session.still_drawing().bounds() else {
            return vec![0.0, 0.0, 1.0];
        };
        let sides = &self.session.site().lot().lot.sides;
        let corners: Vec<Point> = sides.iter().map(|side| side.segment.from()).collect();
        let site = self.session.site().site();
        let covers = |frame: &Frame| {
            let view = View {
                width,
                height,
                ratio: 1.0,
                centre: frame.centre,
                scale: frame.scale,
                theme: self.theme,
            };
            self.labels.covered(&view, site)
        };
        let frame = fit(Size { width, height }, bounds, &corners, covers);
        vec![frame.centre.x, frame.centre.y, frame.scale]
    }

    /// The labels as they were last painted.
    pub fn placed_labels(&self) -> Result<Vec<Ts<PlacedLabel>>, JsValue> {
        let pair = |p: Point| [p.x, p.y];
        let layout = &self.labels.layout;
        let placed = layout
            .still()
            .chain(layout.moving())
            .map(|(it, place)| PlacedLabel {
                text: it.text.clone(),
                corners: place.text.corners().map(pair),
                leader: place.leader.map(|(from, to)| [pair(from), pair(to)]),
                rank: it.label.rank,
                crowded: place.crowded,
            });
        list_to_js(&placed.collect::<Vec<_>>())
    }
}
