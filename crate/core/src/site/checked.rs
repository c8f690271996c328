//! The validated site: every figure checked, every outline simple.
//!
//! Computation takes a [`CheckedSite`] and nothing else, so it never meets a broken figure.
//! Parts that did not change since the last check are shared with it.

use std::sync::Arc;

use super::checked_lot::CheckedLot;
use super::feature::{Feature, ShapeRecord};
use super::kind::FeatureKind;
use super::placement::{Placement, ShellChoice};
use super::shape::{CheckedFeature, CheckedShape, check_features};
use super::{Site, book, limits, numbers};
use crate::finding::{Finding, any_fault};
use crate::geom::{Region, Ring, Vector};
use crate::ground::Ground;
use crate::math::TURN;
use crate::shell::{Shell, catalogue};

/// A site that computation may rely on.
#[derive(Debug, Clone)]
pub struct CheckedSite {
    site: Arc<Site>,
    lot: Part<CheckedLot>,
    features: Part<Vec<CheckedFeature>>,
    ground: Part<Ground>,
    shell: Option<Part<Shell>>,
    findings: Vec<Finding>,
}

/// A checked part and what was noticed about it.
#[derive(Debug, Clone)]
struct Part<T> {
    value: Arc<T>,
    findings: Arc<[Finding]>,
}

type Checked<T> = Result<Part<T>, Vec<Finding>>;

fn part<T>(result: Result<(T, Vec<Finding>), Vec<Finding>>, place: &str) -> Checked<T> {
    let under = |findings: Vec<Finding>| -> Vec<Finding> {
        findings.into_iter().map(|f| f.under(place)).collect()
    };
    match result {
        Ok((value, findings)) => Ok(Part {
            value: Arc::new(value),
            findings: under(findings).into(),
        }),
        Err(findings) => Err(under(findings)),
    }
}

impl CheckedSite {
    /// Checks a site. Parts that are the same `Arc` as in `previous` are not checked again.
    ///
    /// # Errors
    /// Every fault of every part, placed in the site file; of a site that holds too much
    /// (see [`limits`]), those faults alone.
    pub fn check(site: Site, previous: Option<&Self>) -> Result<Self, Vec<Finding>> {
        let too_many = limits::check(&site);
        if any_fault(&too_many) {
            return Err(too_many);
        }
        let same = |pick: fn(&Site, &Site) -> bool| previous.filter(|p| pick(&p.site, &site));
        let lot = match same(|a, b| Arc::ptr_eq(&a.lot, &b.lot)) {
            Some(p) => Ok(p.lot.clone()),
            None => part(CheckedLot::check(&site.lot), "/lot"),
        };
        let features = match same(same_features) {
            Some(p) => Ok(p.features.clone()),
            None => {
                let lot = lot.as_ref().ok().map(|lot| lot.value.as_ref());
                part(check_features(&site.features, lot), "/features")
            }
        };
        let ground = match same(|a, b| Arc::ptr_eq(&a.ground, &b.ground)) {
            Some(p) => Ok(p.ground.clone()),
            None => part(Ground::check(&site.ground), "/ground"),
        };
        let shell = site.placement.as_ref().map(|placement| {
            let kept = previous.and_then(|p| {
                let before = p.site.placement.as_ref()?;
                Arc::ptr_eq(&before.shell, &placement.shell)
                    .then(|| p.shell.clone())
                    .flatten()
            });
            kept.map_or_else(|| part(check_shell(placement), "/placement/shell"), Ok)
        });
        let mut findings = numbers::check(&site);
        findings.extend(super::share::check(&site));
        findings.extend(book::check_taken(&site.taken));
        if let Some(picture) = &site.picture {
            let before = previous.and_then(|p| p.site.picture.as_ref());
            if !before.is_some_and(|it| it.same_data(picture)) {
                findings.extend(super::picture::check_data(picture));
            }
        }
        let before = previous.map(|p| p.site.as_ref());
        findings.extend(super::photograph::check(&site, before));

        let mut faults: Vec<Finding> = findings.iter().filter(|f| f.is_fault()).cloned().collect();
        let lot = keep(lot, &mut findings, &mut faults);
        let features = keep(features, &mut findings, &mut faults);
        let ground = keep(ground, &mut findings, &mut faults);
        let shell = match shell {
            None => Some(None),
            Some(result) => keep(result, &mut findings, &mut faults).map(Some),
        };
        match (lot, features, ground, shell) {
            (Some(lot), Some(features), Some(ground), Some(shell)) if !any_fault(&faults) => {
                Ok(Self {
                    site: Arc::new(site),
                    lot,
                    features,
                    ground,
                    shell,
                    findings,
                })
            }
            _ => Err(faults),
        }
    }

    /// The document itself.
    pub fn site(&self) -> &Arc<Site> {
        &self.site
    }

    /// The lot.
    pub fn lot(&self) -> &Arc<CheckedLot> {
        &self.lot.value
    }

    /// The features.
    pub fn features(&self) -> &Arc<Vec<CheckedFeature>> {
        &self.features.value
    }

    /// A feature, by its index in the site.
    pub fn feature(&self, index: usize) -> Option<&CheckedFeature> {
        self.features().iter().find(|it| it.index == index)
    }

    /// The areas of the features of some kinds, site frame.
    pub fn areas(&self, is_meant: impl Fn(FeatureKind) -> bool) -> impl Iterator<Item = &Region> {
        let meant = self.features().iter().filter(move |it| is_meant(it.kind));
        meant.filter_map(|it| match &it.shape {
            CheckedShape::Area(_, region) => Some(region),
            CheckedShape::Track(..) => None,
        })
    }

    /// The ground.
    pub fn ground(&self) -> &Arc<Ground> {
        &self.ground.value
    }

    /// The shell and its placement, once chosen.
    pub fn placed_shell(&self) -> Option<(&Arc<Shell>, &Placement)> {
        Some((&self.shell.as_ref()?.value, self.site.placement.as_ref()?))
    }

    /// The equipment pad, site frame.
    pub fn equipment(&self) -> Option<Region> {
        let pad = self.site.equipment?;
        let along = Vector::along_bearing(pad.heading) * (pad.length / 2.0);
        let across = Vector::along_bearing(pad.heading - TURN / 4.0) * (pad.width / 2.0);
        let ring = vec![
            pad.at - along - across,
            pad.at + along - across,
            pad.at + along + across,
            pad.at - along + across,
        ];
        Some(Region::from_ring(Ring(ring)))
    }

    /// What was noticed on the way in: cautions and notes, no faults.
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }
}

/// Whether the features of two sites are checked alike: the same ones, on the same lot where
/// one of them follows it.
fn same_features(a: &Site, b: &Site) -> bool {
    let follows = |f: &Feature| matches!(f.shape, ShapeRecord::Along { .. });
    Arc::ptr_eq(&a.features, &b.features)
        && (Arc::ptr_eq(&a.lot, &b.lot) || !b.features.iter().any(follows))
}

/// Moves a part's findings to where they belong.
fn keep<T>(
    checked: Checked<T>,
    findings: &mut Vec<Finding>,
    faults: &mut Vec<Finding>,
) -> Option<Part<T>> {
    match checked {
        Ok(part) => {
            findings.extend(part.findings.iter().cloned());
            Some(part)
        }
        Err(found) => {
            faults.extend(found);
            None
        }
    }
}

fn check_shell(placement: &Placement) -> Result<(Shell, Vec<Finding>), Vec<Finding>> {
    match placement.shell.as_ref() {
        ShellChoice::Own(record) => Shell::check(record)
            .map_err(|found| found.into_iter().map(|f| f.under("/own")).collect()),
        ShellChoice::Catalogue(name) => match catalogue::find(name) {
            Some(record) => Shell::check(record),
            None => Err(vec![
                Finding::fault(
                    "unknown-shell",
                    format!("There is no shell named \"{name}\" in the catalogue."),
                    "Choose one from the catalogue, or give the shell in full as \"own\".",
                )
                .under("/catalogue"),
            ]),
        },
    }
}
