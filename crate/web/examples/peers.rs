//! The questions that other libraries answer too, in the browser's engine: built as the page's own module is, and called
//! by `cargo xtask bench --only peers`. No part of the page.
#![allow(missing_docs)]
// A panic here fails the bench.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

#[path = "../../core/benches/peers/clear_ground.rs"]
mod clear_ground;
#[path = "../../core/benches/scene/mod.rs"]
mod scene;
#[path = "../../core/benches/peers/tasks.rs"]
mod tasks;

use wasm_bindgen::prelude::wasm_bindgen;

/// All questions, and the one that is made ready.
#[wasm_bindgen]
pub struct Asked {
    tasks: Vec<tasks::Task>,
    ready: Option<tasks::Ready>,
}

#[wasm_bindgen]
impl Asked {
    /// All questions, none ready.
    #[wasm_bindgen(constructor)]
    #[expect(clippy::new_without_default, reason = "made by a script alone")]
    pub fn new() -> Self {
        let (tasks, ready) = (tasks::all(), None);
        Self { tasks, ready }
    }

    /// Makes the question of a name ready.
    pub fn make_ready(&mut self, name: &str) {
        let task = self.tasks.iter().find(|it| it.name == name).unwrap();
        self.ready = Some(tasks::Ready::of(&task.question));
    }

    /// Its answer, worked out once.
    pub fn once(&self) -> f64 {
        self.ready.as_ref().unwrap().once()
    }
}
