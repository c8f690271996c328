//! A sheet beside the canvas: what stays the same from frame to frame is painted on it once and
//! laid on the canvas whole.
//!
//! Outlines, hatches and text with halos cost milliseconds each time a browser without a graphics
//! processor paints them; laying down a finished sheet costs a fraction of one.

use crate::paint::View;
use wasm_bindgen::JsCast;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

/// A canvas of the size of a view that is never shown itself.
#[derive(Debug)]
pub struct Sheet {
    canvas: HtmlCanvasElement,
    /// What paints on it.
    pub context: CanvasRenderingContext2d,
}

impl Sheet {
    /// A sheet for a view of a canvas; `None` where the browser gives none, and everything is
    /// painted in place then.
    pub fn beside(canvas: &CanvasRenderingContext2d, view: &View) -> Option<Self> {
        let document = canvas.canvas()?.owner_document()?;
        let made = document.create_element("canvas").ok()?;
        let canvas: HtmlCanvasElement = made.dyn_into().ok()?;
        let context = canvas.get_context("2d").ok()??.dyn_into().ok()?;
        let sheet = Self { canvas, context };
        sheet.fit(view);
        Some(sheet)
    }

    /// Makes it as large as the view, and empty.
    pub fn fit(&self, view: &View) {
        // As the page sizes its own canvas; a canvas is emptied by being sized.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // Pixels of a screen.
        let pixels = |length: f64| (length * view.ratio).round().max(1.0) as u32;
        self.canvas.set_width(pixels(view.width));
        self.canvas.set_height(pixels(view.height));
    }

    /// Lays it on a canvas of the same size.
    pub fn lay_on(&self, canvas: &CanvasRenderingContext2d) {
        canvas.save();
        let laid = canvas
            .set_transform(1.0, 0.0, 0.0, 1.0, 0.0, 0.0)
            .and_then(|()| canvas.draw_image_with_html_canvas_element(&self.canvas, 0.0, 0.0));
        debug_assert!(laid.is_ok(), "a sheet has pixels");
        canvas.restore();
    }
}
