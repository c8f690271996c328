//! What is placed and laid in the hole and round the shell, wherever the shell stands.

use std::sync::Arc;

use crate::dig::DigShape;
use crate::dig::small::{self, SmallDig, Sump, SumpForm};
use crate::pipe::{Around, Dewatering};
use crate::shell::Shell;
use crate::site::ConstructionSettings;
use crate::takeoff::{Fill, Measured};

/// What is placed and laid for one shell under one set of settings.
#[derive(Debug)]
pub(super) struct Materials {
    /// What the takeoff measures on the shell.
    pub measured: Measured,
    /// The stone in the hole.
    pub fill: Arc<Fill>,
    /// The way of pipe round the shell.
    pub around: Around,
    /// The pipe that lowers groundwater.
    pub dewatering: Arc<Dewatering>,
    /// The sump at its foot.
    pub sump: Option<SmallDig>,
}

impl Materials {
    /// Of a shell under these settings.
    pub(super) fn new(shell: &Shell, works: &ConstructionSettings) -> Self {
        // What it is asked for lies below the rim, whatever the ground does.
        let shape = DigShape::new(shell, &works.dig, 0.0);
        let dewatering = Dewatering::new(shell, works, &shape);
        Self {
            sump: sump(shell, works, &dewatering),
            measured: Measured::new(shell, works),
            fill: Arc::new(Fill::new(shell, works, &shape)),
            around: Around::new(shell, works),
            dewatering: Arc::new(dewatering),
        }
    }
}

/// The sump at the foot of the dewatering pipe, where one is asked for.
fn sump(shell: &Shell, works: &ConstructionSettings, pipe: &Dewatering) -> Option<SmallDig> {
    let settings = &works.dewatering;
    (settings.sump_depth > 0.0).then(|| {
        let sump = Sump {
            at: pipe.at,
            form: SumpForm::Square,
            width: settings.sump_width,
            depth: settings.sump_depth,
        };
        small::sump(shell, &works.dig, &sump)
    })
}
