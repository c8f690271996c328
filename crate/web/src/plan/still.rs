//! The half of the plan that stays while the shell moves, painted once for a view and laid down
//! again in every frame: lot, picture, features and ground below, their text on top.

use std::sync::Arc;

use crate::paint::ink::PAPER;
use crate::paint::labels;
use crate::paint::pen::Pen;
use crate::paint::{View, draw};
use batterboard_core::drawing::layout::Layout;
use batterboard_core::drawing::{Drawing, Item, Layer};
use batterboard_core::site::Picture;
use web_sys::{CanvasRenderingContext2d, ImageBitmap};

use super::sheet::Sheet;

/// What the still half shows; when it is the same, so is the painting.
#[derive(Debug, Clone)]
pub struct Subject {
    /// Lot, features, ground, setback lines.
    pub drawing: Arc<Drawing>,
    /// The picture under the plan where one is shown, what the page made of it, and how much of
    /// it shows.
    pub picture: Option<(Arc<Picture>, ImageBitmap, f64)>,
}

impl PartialEq for Subject {
    fn eq(&self, other: &Self) -> bool {
        let pictures = match (&self.picture, &other.picture) {
            (Some((a, bitmap, opacity)), Some((b, other, other_opacity))) => {
                Arc::ptr_eq(a, b) && bitmap == other && opacity == other_opacity
            }
            (None, None) => true,
            _ => false,
        };
        pictures && Arc::ptr_eq(&self.drawing, &other.drawing)
    }
}

/// The still half as it was last painted.
#[derive(Debug, Default)]
pub struct StillHalf {
    painted: Option<Painted>,
}

#[derive(Debug)]
struct Painted {
    view: View,
    subject: Subject,
    /// Areas and lines; none where the browser gives no sheet.
    ground: Option<Sheet>,
    /// The text, as of a revision of its layout.
    text: Option<(Sheet, Option<u64>)>,
}

impl StillHalf {
    /// Paints areas and lines on a canvas, covering it. Says whether view or subject have changed.
    pub fn lay_ground(
        &mut self,
        canvas: &CanvasRenderingContext2d,
        view: &View,
        subject: &Subject,
    ) -> bool {
        let painted = self.painted.take();
        let same = painted
            .as_ref()
            .is_some_and(|painted| painted.view == *view && painted.subject == *subject);
        let painted = match painted {
            Some(painted) if same => painted,
            before => Painted::new(canvas, view, subject, before),
        };
        match &painted.ground {
            Some(sheet) => sheet.lay_on(canvas),
            None => paint(canvas, view, subject),
        }
        self.painted = Some(painted);
        !same
    }

    /// Writes the text that stays.
    pub fn lay_text(&mut self, canvas: &CanvasRenderingContext2d, view: &View, layout: &Layout) {
        let Some(painted) = &mut self.painted else {
            return;
        };
        let revision = Some(layout.still_revision());
        let sheet = match painted.text.take() {
            Some((sheet, written)) if written == revision => Some(sheet),
            before => {
                let sheet = before.map(|(sheet, _)| sheet);
                let sheet = sheet.or_else(|| Sheet::beside(canvas, view));
                if let Some(sheet) = &sheet {
                    sheet.fit(view);
                    labels::write(&mut Pen::new(&sheet.context, view), layout.still());
                }
                sheet
            }
        };
        match sheet {
            Some(sheet) => {
                sheet.lay_on(canvas);
                painted.text = Some((sheet, revision));
            }
            None => labels::write(&mut Pen::new(canvas, view), layout.still()),
        }
    }
}

impl Painted {
    /// The sheets of an earlier painting are used again.
    fn new(
        canvas: &CanvasRenderingContext2d,
        view: &View,
        subject: &Subject,
        before: Option<Self>,
    ) -> Self {
        let (ground, text) = before.map_or((None, None), |it| (it.ground, it.text));
        let ground = ground.or_else(|| Sheet::beside(canvas, view));
        if let Some(sheet) = &ground {
            sheet.fit(view);
            paint(&sheet.context, view, subject);
        }
        Self {
            view: *view,
            subject: subject.clone(),
            ground,
            // Whatever was written belongs to another view.
            text: text.map(|(sheet, _)| (sheet, None)),
        }
    }
}

/// Areas and lines; a picture lies on the lot's ground and under everything else.
fn paint(canvas: &CanvasRenderingContext2d, view: &View, subject: &Subject) {
    let mut pen = Pen::new(canvas, view);
    pen.clear(PAPER);
    let is_ground = |item: &&Item| {
        matches!(
            item,
            Item::Area {
                layer: Layer::Lot,
                ..
            }
        )
    };
    let items = &subject.drawing.items;
    let (ground, rest) = items.split_at(items.iter().take_while(is_ground).count());
    draw(&mut pen, view, ground);
    if let Some((picture, bitmap, opacity)) = &subject.picture {
        pen.picture(bitmap, picture, *opacity);
    }
    draw(&mut pen, view, rest);
}
