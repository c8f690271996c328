//! Undo and redo: the sites before each step, newest last; and the whole as text, so that it
//! outlives the page.
//!
//! Sites share their unchanged parts, so a step costs little more than what it changed. As text
//! each site is a patch on its neighbor towards the present ([`super::patch`]). A step that was
//! read back stays a patch until somebody goes there.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::Arc;

use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::patch::Patch;
use super::site_value::{Named, Pictures, named_in, site_of, value_of};
use crate::site::{CheckedSite, Site, VERSION};

/// What a step is called.
pub(super) type Label = Cow<'static, str>;

/// How many steps are kept. Arbitrary; a day's work on one lot.
const LIMIT: usize = 500;

/// The version of the text; one of another version is not taken.
const TEXT_VERSION: u32 = 1;

/// A step: its name and the site on its other side.
#[derive(Debug)]
struct Step {
    label: Label,
    side: OtherSide,
}

/// The site on the other side of a step.
#[derive(Debug)]
enum OtherSide {
    /// The site itself; and what leads there from its neighbor towards the present, once that was
    /// asked for. The neighbor stays the same for as long as the step stays where it is.
    Site(Box<CheckedSite>, Option<KeptPatch>),
    /// What leads there from its neighbor towards the present.
    Patch(KeptPatch),
}

/// A patch as text, and the images of the site it leads to.
#[derive(Debug, Clone)]
struct KeptPatch {
    text: String,
    images: Named,
}

/// The steps of an open site by their names, on either side those nearest the present first.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Steps {
    /// What can be taken back.
    pub undo: Vec<String>,
    /// What can be carried out again.
    pub redo: Vec<String>,
}

/// The steps that can be taken back and those that can be carried out again.
#[derive(Debug, Default)]
pub(super) struct History {
    past: Vec<Step>,
    future: Vec<Step>,
    pictures: Pictures,
}

impl History {
    /// Records that a step named `label` has led away from `before`.
    pub(super) fn record(&mut self, label: impl Into<Label>, before: CheckedSite) {
        self.future.clear();
        if self.past.len() == LIMIT {
            self.past.remove(0);
        }
        self.past.push(Step {
            label: label.into(),
            side: OtherSide::Site(before.into(), None),
        });
    }

    /// Takes back so many steps, as far as there are any; gives how many.
    pub(super) fn undo(&mut self, steps: usize, site: &mut CheckedSite) -> usize {
        let mut one = || swap(&mut self.past, &mut self.future, &mut self.pictures, site);
        (0..steps).take_while(|_| one()).count()
    }

    /// Carries out again so many steps, as far as there are any; gives how many.
    pub(super) fn redo(&mut self, steps: usize, site: &mut CheckedSite) -> usize {
        let mut one = || swap(&mut self.future, &mut self.past, &mut self.pictures, site);
        (0..steps).take_while(|_| one()).count()
    }

    /// Every step by its name.
    pub(super) fn steps(&self) -> Steps {
        let names = |steps: &[Step]| {
            let nearest_first = steps.iter().rev();
            nearest_first.map(|step| step.label.to_string()).collect()
        };
        Steps {
            undo: names(&self.past),
            redo: names(&self.future),
        }
    }

    pub(super) fn undo_label(&self) -> Option<&str> {
        self.past.last().map(|step| step.label.as_ref())
    }

    pub(super) fn redo_label(&self) -> Option<&str> {
        self.future.last().map(|step| step.label.as_ref())
    }

    /// The history as text of about `limit` bytes at most, the steps nearest the present first to
    /// be kept. `digest`: what tells the present site from any other.
    pub(super) fn write(&mut self, present: &Site, digest: &str, limit: usize) -> String {
        let shown = Named::of(present, &mut self.pictures);
        settle(&mut self.past, present, &mut self.pictures);
        settle(&mut self.future, present, &mut self.pictures);
        let mut kept = HistoryText {
            version: TEXT_VERSION,
            site: VERSION,
            of: digest.to_owned(),
            shown: shown.picture,
            shown_photographs: shown.photographs,
            pictures: BTreeMap::new(),
            past: Vec::new(),
            future: Vec::new(),
        };
        let mut left = limit;
        let mut past = self.past.iter().rev();
        let mut future = self.future.iter().rev();
        let (mut more_past, mut more_future) = (true, true);
        while more_past || more_future {
            more_past = more_past && kept.take(past.next(), true, &self.pictures, &mut left);
            more_future = more_future && kept.take(future.next(), false, &self.pictures, &mut left);
        }
        serde_json::to_string(&kept).unwrap_or_default()
    }

    /// Reads what [`History::write`] wrote; none where it is not a history of this site.
    pub(super) fn from_text(text: &str, present: &Site, digest: &str) -> Option<Self> {
        let kept: HistoryText = serde_json::from_str(text).ok()?;
        if (kept.version, kept.site, kept.of.as_str()) != (TEXT_VERSION, VERSION, digest) {
            return None;
        }
        let mut pictures = Pictures::default();
        for (index, data) in kept.pictures {
            pictures.put(index, data.into()).then_some(())?;
        }
        if let Some((index, picture)) = kept.shown.zip(present.picture.as_ref()) {
            pictures.put(index, picture.data.clone()).then_some(())?;
        }
        for (index, photograph) in kept
            .shown_photographs
            .iter()
            .zip(present.photographs.iter())
        {
            pictures
                .put(*index, photograph.data.clone())
                .then_some(())?;
        }
        let steps = |steps: Vec<StepText>| {
            let newest_last = steps.into_iter().take(LIMIT).rev();
            newest_last.map(StepText::into_step).collect()
        };
        Some(Self {
            past: steps(kept.past),
            future: steps(kept.future),
            pictures,
        })
    }
}

/// Takes the newest site from one side and leaves the present one on the other. Where a patch does
/// not lead to a whole site, nothing beyond it can be reached either.
fn swap(
    from: &mut Vec<Step>,
    to: &mut Vec<Step>,
    pictures: &mut Pictures,
    site: &mut CheckedSite,
) -> bool {
    let Some(Step { label, side }) = from.pop() else {
        return false;
    };
    let other = match side {
        OtherSide::Site(other, _) => Some(*other),
        OtherSide::Patch(kept) => followed(&kept, pictures, site),
    };
    let Some(other) = other else {
        from.clear();
        return false;
    };
    let present = core::mem::replace(site, other);
    to.push(Step {
        label,
        side: OtherSide::Site(present.into(), None),
    });
    true
}

/// The site that a patch leads to.
fn followed(kept: &KeptPatch, pictures: &mut Pictures, near: &CheckedSite) -> Option<CheckedSite> {
    let patch: Option<Patch> = serde_json::from_str(&kept.text).ok()?;
    let value = value_of(near.site(), pictures);
    let value = match patch {
        Some(patch) => patch.applied(value)?,
        None => value,
    };
    site_of(value, pictures, near)
}

/// Has every step know its patch.
fn settle(steps: &mut [Step], present: &Site, pictures: &mut Pictures) {
    // A neighbor's value is made once for the two steps beside it.
    let mut last: Option<Value> = None;
    for at in (0..steps.len()).rev() {
        let (rest, nearer) = steps.split_at_mut(at + 1);
        let Some(Step {
            side: OtherSide::Site(site, patch),
            ..
        }) = rest.last_mut()
        else {
            last = None;
            continue;
        };
        if patch.is_some() {
            last = None;
            continue;
        }
        // A step that is a site has none but sites nearer the present.
        let near = match nearer.first().map(|step| &step.side) {
            None => present,
            Some(OtherSide::Site(near, _)) => near.site(),
            Some(OtherSide::Patch(_)) => return,
        };
        let from = last.take().unwrap_or_else(|| value_of(near, pictures));
        let to = value_of(site.site(), pictures);
        let text = serde_json::to_string(&Patch::between(&from, &to)).unwrap_or_default();
        *patch = Some(KeptPatch {
            text,
            images: named_in(&to),
        });
        last = Some(to);
    }
}

/// A history as it is written.
#[derive(Serialize, Deserialize)]
struct HistoryText {
    version: u32,
    /// The version of the site file that the patches lead between.
    site: u32,
    /// What tells the present site from any other.
    of: String,
    /// The index of the present picture's data, which are kept elsewhere.
    shown: Option<usize>,
    /// The same of the present photographs, in order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    shown_photographs: Vec<usize>,
    /// The data of other images.
    pictures: BTreeMap<usize, String>,
    /// Nearest the present first.
    past: Vec<StepText>,
    future: Vec<StepText>,
}

#[derive(Serialize, Deserialize)]
struct StepText {
    label: String,
    patch: String,
    picture: Option<usize>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    photographs: Vec<usize>,
}

impl StepText {
    fn into_step(self) -> Step {
        Step {
            label: Cow::Owned(self.label),
            side: OtherSide::Patch(KeptPatch {
                text: self.patch,
                images: Named {
                    picture: self.picture,
                    photographs: self.photographs,
                },
            }),
        }
    }
}

impl HistoryText {
    /// Takes one more step, of the past or else of the future, while there is room. Says whether
    /// it was taken.
    fn take(
        &mut self,
        step: Option<&Step>,
        past: bool,
        pictures: &Pictures,
        left: &mut usize,
    ) -> bool {
        let Some(step) = step else { return false };
        let (OtherSide::Site(_, Some(kept)) | OtherSide::Patch(kept)) = &step.side else {
            return false;
        };
        let is_shown =
            |index: usize| self.shown == Some(index) || self.shown_photographs.contains(&index);
        let new: Vec<(usize, &Arc<str>)> = kept
            .images
            .all()
            .filter(|index| !is_shown(*index) && !self.pictures.contains_key(index))
            .filter_map(|index| Some((index, pictures.get(index)?)))
            .collect();
        let images: usize = new.iter().map(|(_, data)| data.len()).sum();
        let weight = kept.text.len() + step.label.len() + images;
        let Some(rest) = left.checked_sub(weight) else {
            return false;
        };
        *left = rest;
        let new = new
            .into_iter()
            .map(|(index, data)| (index, data.to_string()));
        self.pictures.extend(new);
        let steps = if past {
            &mut self.past
        } else {
            &mut self.future
        };
        steps.push(StepText {
            label: step.label.to_string(),
            patch: kept.text.clone(),
            picture: kept.images.picture,
            photographs: kept.images.photographs.clone(),
        });
        true
    }
}
