//! Everybody who has to pass, held against the way.

use serde::Serialize;

use super::carried::Carried;
use super::turning::{Bend, bends, swept_width};
use super::{Goal, Ground, Way};
use crate::site::MachineSize;

/// Who has to pass.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum Passenger {
    /// The excavator.
    Excavator,
    /// The truck.
    Truck,
    /// The skid loader.
    SkidLoader,
    /// The shell as it lies, its least width across the way.
    ShellFlat,
    /// The shell standing on its long edge.
    ShellOnEdge,
}

impl Passenger {
    /// Who it is, in plain words.
    pub fn words(self) -> &'static str {
        match self {
            Self::Excavator => "Excavator",
            Self::Truck => "Truck",
            Self::SkidLoader => "Skid loader",
            Self::ShellFlat => "Shell lying flat",
            Self::ShellOnEdge => "Shell on edge",
        }
    }

    /// Whether it is the shell.
    pub fn is_shell(self) -> bool {
        matches!(self, Self::ShellFlat | Self::ShellOnEdge)
    }
}

/// Somebody held against the widest way at that height.
#[derive(Debug, Clone, PartialEq)]
pub struct Passage {
    /// Who.
    pub who: Passenger,
    /// Its own width, meters.
    pub width: f64,
    /// Its height as it passes, meters.
    pub height: f64,
    /// The width it needs with the room on either side, meters.
    pub needed: f64,
    /// The widest way for something so tall; none where there is none to look at.
    pub way: Option<Way>,
    /// Whether branches, eaves or a wire make that way another than the one at ground level.
    pub low: bool,
    /// Bends of the line, where it gets through straight.
    pub bends: Vec<Bend>,
}

impl Passage {
    /// The width of the way less what is needed, meters; infinite where nothing holds the way.
    pub fn room(&self) -> Option<f64> {
        Some(self.way.as_ref()?.width() - self.needed)
    }

    /// Whether it gets through straight.
    pub fn fits(&self) -> bool {
        self.room().is_some_and(|room| room >= 0.0)
    }

    /// Whether it gets round every bend of the line as well.
    pub fn turns(&self) -> bool {
        self.bends.iter().all(Bend::is_clear)
    }
}

/// Everybody; machines go to the dig, the shell to where it is laid down.
pub(super) fn all(
    ground: &Ground<'_>,
    carried: &Carried,
    to_dig: Option<&Way>,
    to_set_down: Option<&Way>,
) -> Vec<Passage> {
    let works = &ground.site.site().works;
    let access = &works.access;
    let machine = |who, size: MachineSize| (who, size.width, size.height, Some(size));
    let list = [
        machine(Passenger::Excavator, access.excavator),
        machine(Passenger::Truck, access.truck),
        machine(Passenger::SkidLoader, access.skid_loader),
        (
            Passenger::ShellFlat,
            carried.least_width,
            access.carried_at + carried.depth,
            None,
        ),
        (
            Passenger::ShellOnEdge,
            carried.depth + access.handling,
            access.carried_at + carried.least_width,
            None,
        ),
    ];
    let heights = ground.bars.heights();
    let mut passages: Vec<Passage> = Vec::new();
    for (who, width, height, size) in list {
        let clear = height + access.room_above;
        let lower = heights.iter().filter(|it| **it < clear).count();
        let goal = match ground.set_down {
            Some(at) if who.is_shell() => Goal::At(at),
            _ => Goal::Dig,
        };
        let at_ground = if who.is_shell() && ground.set_down.is_some() {
            to_set_down
        } else {
            to_dig
        };
        // Whoever turns takes a line of its own, as wide as what it sweeps.
        let wanted = size.map(|it| swept_width(&it) + 2.0 * access.side_room);
        let way = match wanted {
            None if lower == 0 => at_ground.cloned(),
            _ => {
                let wanted = wanted.unwrap_or(f64::INFINITY);
                ground.way(&ground.bars, clear, goal, wanted)
            }
        };
        let low = lower > 0 && way.as_ref().map(Way::width) != at_ground.map(Way::width);
        let mut passage = Passage {
            who,
            width,
            height,
            needed: width + 2.0 * access.side_room,
            way,
            low,
            bends: Vec::new(),
        };
        if let (Some(size), Some(way), true) = (size, &passage.way, passage.fits()) {
            let pieces = ground.bars.pieces(clear, |_| false);
            passage.bends = bends(&pieces, &way.line, &size, access.side_room);
        }
        passages.push(passage);
    }
    passages
}
