//! What comes in from outside as one undoable edit.

use super::command::Command;
use crate::exchange::import::Changes;

impl From<Changes> for Command {
    /// All changes together, so that one undo takes back the whole.
    fn from(changes: Changes) -> Self {
        let commands = [
            changes.origin.map(|origin| Self::SetOrigin(Some(origin))),
            changes.grid.map(Self::SetGrid),
            changes.lot.map(Self::SetLot),
            changes.features.map(Self::SetFeatures),
            changes.ground.map(Self::SetGround),
            changes.benchmark.map(|mark| Self::SetBenchmark(Some(mark))),
        ];
        Self::Together {
            label: "bring in".to_owned(),
            commands: commands.into_iter().flatten().collect(),
        }
    }
}
