//! What outlives the page: the open site with its history as text, and versions put back.

use std::sync::Arc;

use serde::Serialize;

use super::Session;
use super::history::History;
use crate::exchange;
use crate::finding::Finding;
use crate::site::Site;

/// An open site as it is kept on a device.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
pub struct Keepsake {
    /// The site file without its images' data.
    pub text: String,
    /// What undo and redo need, for [`Session::restore_history`].
    pub history: String,
}

/// Why a session that only watches makes no edit.
pub(super) fn watching() -> Finding {
    Finding::fault(
        "watching",
        "This job is being worked on in another tab. Nothing was changed here.",
        "Work on it there, or take it over into this tab first.",
    )
}

impl Session {
    /// The site and its history as text. Of a drag under way nothing is in it.
    ///
    /// `limit`: how long the history may be, bytes; the oldest steps are left out first.
    pub fn keepsake(&mut self, limit: usize) -> Keepsake {
        let site = match &self.gesture {
            Some(gesture) => gesture.begun_from().site().clone(),
            None => self.site.site().clone(),
        };
        let text = self.bare_text(&site);
        let history = self.history.write(&site, &digest(&text), limit);
        Keepsake { text, history }
    }

    /// Gives a session that was just opened its history back. False, and undo begins here, where
    /// the text is not the history of the present site.
    pub fn restore_history(&mut self, text: &str) -> bool {
        let of = digest(&self.save_bare());
        match History::from_text(text, self.site.site(), &of) {
            Some(history) => {
                self.history = history;
                true
            }
            None => false,
        }
    }

    /// Puts another state of the site in place of the present one, as one step that can be undone.
    ///
    /// `text`: its site file; `data`: the data of its images where the file is without.
    ///
    /// # Errors
    /// Every fault of the file; nothing was changed.
    pub fn restore_version(
        &mut self,
        text: &str,
        data: &str,
    ) -> Result<Vec<Finding>, Vec<Finding>> {
        self.release();
        let opened = exchange::open_with_images(text, data)?;
        let mut site = Site::clone(opened.site.site());
        // The same image is known by its address.
        let now = self.site.site();
        if let Some((picture, now)) = site.picture.as_mut().zip(now.picture.as_ref())
            && picture.data == now.data
        {
            Arc::make_mut(picture).data = Arc::clone(&now.data);
        }
        for photograph in Arc::make_mut(&mut site.photographs) {
            let same = now.photographs.iter();
            if let Some(same) = { same }.find(|it| it.data == photograph.data) {
                photograph.data = Arc::clone(&same.data);
            }
        }
        self.commit("restore a version".into(), site)?;
        Ok(opened.findings)
    }

    /// From now on the session follows what is done elsewhere and makes no edit of its own; or it
    /// makes them again.
    pub fn set_watching(&mut self, watching: bool) {
        if watching {
            self.cancel();
        }
        self.watching = watching;
    }
}

/// Tells one text from another: FNV-1a of 64 bits (offset basis and prime as its authors give them,
/// from memory; whether they are theirs matters to nobody).
fn digest(text: &str) -> String {
    let hash = text.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    });
    format!("{hash:016x}-{}", text.len())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;
    use crate::geom::Point;
    use crate::session::Command;
    use crate::shell::catalogue;
    use crate::site::{Picture, PictureMedia, ShellChoice};

    const ROOM: usize = 1_000_000;

    /// 7 by 3 pixels, written by Pillow 13.0.0.
    const PNG: &str = "iVBORw0KGgoAAAANSUhEUgAAAAcAAAADCAIAAADQoYKSAAAAFElEQVR4nGM8ISfHgAGYMIVwigIAQrIBCutUVQcAAAAASUVORK5CYII=";

    fn edited() -> Session {
        let mut session = Session::new().unwrap();
        let name = catalogue::all()[0].name.clone();
        let edits = [
            Command::ChooseShell(ShellChoice::Catalogue(name)),
            Command::MoveShell {
                at: Point::new(14.0, 21.0),
            },
            Command::TurnShell { heading: 1.0 },
            Command::Rename {
                name: "Another".into(),
                note: "with a note".into(),
            },
            Command::FlipShell,
        ];
        for edit in edits {
            session.apply(edit).unwrap();
        }
        session
    }

    /// A session as it is after the page was opened again.
    fn reopened(session: &mut Session, limit: usize) -> Session {
        let data = session
            .site()
            .site()
            .picture
            .as_ref()
            .map_or(String::new(), |it| it.data.to_string());
        let kept = session.keepsake(limit);
        let mut other = Session::new().unwrap();
        other.open_kept(&kept.text, &data).unwrap();
        assert!(other.restore_history(&kept.history));
        assert_eq!(other.save(), session.save());
        other
    }

    /// The files and labels all the way back, and then all the way forward.
    fn walk(session: &mut Session) -> Vec<(Option<String>, String)> {
        let mut seen = Vec::new();
        loop {
            seen.push((session.undo_label().map(str::to_owned), session.save()));
            if !session.undo() {
                break;
            }
        }
        while session.redo() {
            seen.push((session.redo_label().map(str::to_owned), session.save()));
        }
        seen
    }

    #[test]
    fn undo_and_redo_outlive_the_page() {
        let mut session = edited();
        session.undo();
        session.undo();
        let mut other = reopened(&mut session, ROOM);
        assert_eq!(other.redo_label(), Some("rename"));
        // Once more, with steps that were never looked at since.
        let mut third = reopened(&mut other, ROOM);
        let expected = walk(&mut session);
        assert_eq!(expected.len(), 4 + 5);
        assert_eq!(walk(&mut other), expected);
        assert_eq!(walk(&mut third), expected);
        // Walked, each step is a site again; and is written as before.
        assert_eq!(third.keepsake(ROOM), session.keepsake(ROOM));
        other.apply(Command::FlipShell).unwrap();
        assert_eq!(reopened(&mut other, ROOM).redo_label(), None);
    }

    #[test]
    fn a_history_too_long_loses_its_oldest_steps() {
        let mut session = edited();
        let whole = session.keepsake(ROOM).history.len();
        for limit in [whole / 2, whole / 4] {
            let mut other = reopened(&mut session, limit);
            let mut steps = 0;
            while other.undo() {
                steps += 1;
            }
            assert!(steps > 0 && steps < 5, "{steps} of {limit}");
        }
        assert!(!reopened(&mut session, 0).undo());
    }

    #[test]
    fn pictures_come_back_and_are_written_once() {
        let mut session = edited();
        let plat = Picture {
            name: "Plat".into(),
            media: PictureMedia::Png,
            data: PNG.into(),
            width: 7,
            height: 3,
            at: Point::new(10.0, 12.0),
            scale: 5.0,
            heading: 0.0,
            opacity: 0.7,
            hidden: false,
            locked: false,
        };
        session
            .apply(Command::SetPicture(Some(plat.clone())))
            .unwrap();
        let faded = Picture {
            opacity: 0.2,
            ..plat.bare()
        };
        session.apply(Command::SetPicture(Some(faded))).unwrap();
        assert!(!session.keepsake(ROOM).history.contains(PNG));
        session.apply(Command::SetPicture(None)).unwrap();
        assert_eq!(session.keepsake(ROOM).history.matches(PNG).count(), 1);
        let mut other = reopened(&mut session, ROOM);
        assert_eq!(walk(&mut other), walk(&mut session));
    }

    #[test]
    fn a_history_of_another_site_is_not_taken() {
        let mut session = edited();
        let kept = session.keepsake(ROOM);
        let mut other = Session::new().unwrap();
        for text in [kept.history.as_str(), "", "{}", "null", "[1]"] {
            assert!(!other.restore_history(text));
        }
        other.open_kept(&kept.text, "").unwrap();
        assert!(!other.restore_history(&kept.history.replace("\"site\":3", "\"site\":2")));
        // A patch that leads nowhere ends undo, and breaks nothing.
        let broken = kept.history.replace("heading", "leading");
        assert!(other.restore_history(&broken));
        while other.undo() {}
        assert_eq!(other.undo_label(), None);
    }

    #[test]
    fn a_drag_under_way_is_not_in_it() {
        let mut session = edited();
        let before = session.keepsake(ROOM);
        let at = session.site().site().placement.as_ref().unwrap().at;
        session.grab(at, 0.3, 20.0).unwrap();
        session.drag_to(Point::new(at.x + 1.0, at.y), false);
        assert_eq!(session.keepsake(ROOM), before);
        session.release();
        assert_ne!(session.keepsake(ROOM), before);
    }

    #[test]
    fn a_version_is_put_back_in_one_step() {
        let mut session = edited();
        let version = session.save_bare();
        session.apply(Command::RemoveShell).unwrap();
        let without = session.save();
        session.restore_version(&version, "").unwrap();
        assert_eq!(session.save_bare(), version);
        assert_eq!(session.undo_label(), Some("restore a version"));
        assert!(session.undo());
        assert_eq!(session.save(), without);
        assert!(session.restore_version("nothing", "").is_err());
        assert_eq!(session.save(), without);
    }

    #[test]
    fn who_watches_changes_nothing() {
        let mut session = edited();
        let before = session.save();
        session.set_watching(true);
        let faults = session.apply(Command::FlipShell).unwrap_err();
        assert_eq!(faults.first().map(|it| it.code), Some("watching"));
        let at = session.site().site().placement.as_ref().unwrap().at;
        assert_eq!(session.grab(at, 0.3, 20.0), None);
        assert!(!session.undo() && !session.redo());
        assert_eq!(session.save(), before);
        // What was saved elsewhere is still opened.
        let other = Session::new().unwrap().save();
        session.open(&other).unwrap();
        assert!(session.apply(Command::FlipShell).is_err());
        session.set_watching(false);
        session.open(&before).unwrap();
        session.apply(Command::FlipShell).unwrap();
    }
}
