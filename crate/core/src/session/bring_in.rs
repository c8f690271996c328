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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exchange::import::{Placed, Settings, read};
    use crate::session::Session;

    const PARCELS: &str = include_str!("../../../../tests/reference/data/invented_parcels.geojson");

    #[test]
    fn one_undo_takes_the_whole_back() {
        let mut session = Session::new().unwrap();
        let before = session.save();
        let draft = read(PARCELS, None).unwrap_or_else(|f| panic!("{f:?}"));
        let settings = Settings {
            lot: Some(0),
            ..draft.proposed
        };
        let site = session.site().site().clone();
        let placed = Placed::of(&draft, &settings, &[], &site);
        let roles: Vec<_> = placed.items.iter().map(|i| i.proposed).collect();
        let changes =
            Changes::of(&draft, &settings, &roles, &site).unwrap_or_else(|f| panic!("{f:?}"));
        session
            .apply(Command::from(changes))
            .unwrap_or_else(|f| panic!("{f:?}"));
        assert_eq!(session.undo_label(), Some("bring in"));
        assert!((session.site().lot().lot.area - (28.0 * 42.0 + 14.0 * 0.6)).abs() < 0.01);
        assert!(session.undo());
        assert_eq!(session.save(), before);
    }
}
