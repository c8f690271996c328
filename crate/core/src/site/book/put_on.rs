//! Taking an entry of the book onto a job.

use std::sync::Arc;

use super::{BookContent, BookEntry, BookKind, RateList, RuleSet, TakenEntry};
use crate::finding::Finding;
use crate::shell::catalogue;
use crate::site::rule::{self, Rule};
use crate::site::works::{
    ConstructionSettings, DeckSettings, DewateringSettings, DigSettings, PipeSettings,
    SpoilSettings,
};
use crate::site::{Placement, ShareRule, ShellChoice, Site, starter};
use crate::units::Currency;

/// How much of a list gave way, and how much stayed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Replaced {
    /// What the job had from elsewhere and has no more.
    pub replaced: usize,
    /// What is the job's own, and stayed.
    pub kept: usize,
}

impl BookEntry {
    /// Puts the content on a job in place of what it has of the kind. What somebody changed or added
    /// on the job stays: rules other than the examples and those taken before, rates of quantities
    /// that the list does not name, everything that belongs to the lot.
    ///
    /// # Errors
    /// Rates in another currency than those that stay.
    pub fn put_on(&self, site: &mut Site) -> Result<Replaced, Vec<Finding>> {
        let mut replaced = Replaced::default();
        match &self.content {
            BookContent::Shell(it) => {
                if let Some(price) = it.price {
                    let list = RateList {
                        currency: it.currency.clone(),
                        rates: vec![super::Rate {
                            key: SHELL.to_owned(),
                            rate: price,
                            per: None,
                        }],
                    };
                    put_rates(site, &list)?;
                }
                if let Some(placement) = &mut site.placement {
                    placement.shell = Arc::new(ShellChoice::Own(it.shell.clone()));
                }
                if !it.fittings.is_empty() {
                    Arc::make_mut(&mut site.works).pipe.fittings = it.fittings.clone();
                }
            }
            BookContent::Rules(set) => replaced = self.put_rules(site, set),
            BookContent::Rates(list) => replaced = put_rates(site, list)?,
            BookContent::Works(works) => {
                site.works = Arc::new(with_lot_of(works, &site.works));
            }
            BookContent::Deck(deck) => {
                let works = Arc::make_mut(&mut site.works);
                works.deck = DeckSettings {
                    width: works.deck.width,
                    ..*deck
                };
            }
            BookContent::Truck(truck) => Arc::make_mut(&mut site.works).haul = *truck,
            BookContent::Machine(_) | BookContent::TitleBlock(_) => {}
        }
        Ok(replaced)
    }

    fn put_rules(&self, site: &mut Site, set: &RuleSet) -> Replaced {
        let before: Vec<RuleSet> = site
            .taken
            .iter()
            .filter_map(|it| it.entry.rules())
            .collect();
        let examples = rule::examples();
        let from_elsewhere =
            |it: &&Rule| examples.contains(it) || before.iter().any(|set| set.rules.contains(it));
        let (gone, own): (Vec<&Rule>, Vec<&Rule>) = site.rules.iter().partition(from_elsewhere);
        let own: Vec<Rule> = own.into_iter().cloned().collect();
        let shares = site.shares.clone();
        let (gone_shares, own_shares): (Vec<ShareRule>, Vec<ShareRule>) = shares
            .into_iter()
            .partition(|it| before.iter().any(|set| set.shares.contains(it)));
        let done = Replaced {
            replaced: gone.len() + gone_shares.len(),
            kept: own.len() + own_shares.len(),
        };
        let mut set = self.with_sources(set);
        set.rules.extend(own);
        set.shares.extend(own_shares);
        site.rules = Arc::new(set.rules);
        site.shares = set.shares;
        // A barrier that the set says nothing of stays where it is the job's own.
        let is_own = site.barrier.is_some() && before.iter().all(|it| it.barrier != site.barrier);
        if set.barrier.is_some() || !is_own {
            site.barrier = set.barrier;
        }
        done
    }

    /// Its rules as a job has them: each with a source.
    fn rules(&self) -> Option<RuleSet> {
        match &self.content {
            BookContent::Rules(set) => Some(self.with_sources(set)),
            _ => None,
        }
    }

    fn with_sources(&self, set: &RuleSet) -> RuleSet {
        let mut set = set.clone();
        let rules = set.rules.iter_mut().map(|it| &mut it.source);
        let shares = set.shares.iter_mut().map(|it| &mut it.source);
        let barrier = set.barrier.iter_mut().map(|it| &mut it.source);
        let sources = rules.chain(shares).chain(barrier);
        for source in sources.filter(|it| it.trim().is_empty()) {
            source.clone_from(&self.source);
        }
        set
    }
}

/// The quantity that the price of a shell is the rate of.
pub(super) const SHELL: &str = "shell";

fn put_rates(site: &mut Site, list: &RateList) -> Result<Replaced, Vec<Finding>> {
    let names = |key: &str| list.rates.iter().any(|it| it.key == key);
    let stay = site.rates.iter().filter(|it| !names(&it.key)).count();
    if stay > 0 && list.currency != site.currency {
        let symbol = |it: &Option<Currency>| it.clone().unwrap_or_default().symbol().to_owned();
        return Err(vec![Finding::fault(
            "other-currency",
            format!(
                "The list is in {}, the rates of this job are in {}.",
                symbol(&list.currency),
                symbol(&site.currency)
            ),
            "Take the job's other rates out first, or use a list in the same currency.",
        )]);
    }
    let replaced = site.rates.len() - stay;
    site.rates.retain(|it| !names(&it.key));
    site.rates.extend(list.rates.iter().cloned());
    site.currency = list.currency.clone();
    Ok(Replaced {
        replaced,
        kept: stay,
    })
}

/// These settings, but for all that belongs to one lot: that is as `lot` has it.
pub(super) fn with_lot_of(
    works: &ConstructionSettings,
    lot: &ConstructionSettings,
) -> ConstructionSettings {
    ConstructionSettings {
        dig: DigSettings {
            over_dig: works.dig.over_dig,
            base_thickness: works.dig.base_thickness,
            ..lot.dig.clone()
        },
        dewatering: DewateringSettings {
            at: lot.dewatering.at,
            ..works.dewatering
        },
        pipe: PipeSettings {
            fittings: lot.pipe.fittings.clone(),
            ..works.pipe.clone()
        },
        spoil: SpoilSettings {
            at: lot.spoil.at,
            ..works.spoil
        },
        groundwater: lot.groundwater,
        ..works.clone()
    }
}

impl TakenEntry {
    /// Puts the entry on a job and notes there that it was taken.
    ///
    /// # Errors
    /// As [`BookEntry::put_on`]; nothing was changed.
    pub fn put_on(self, site: &mut Site) -> Result<Replaced, Vec<Finding>> {
        let mut next = site.clone();
        let done = self.entry.put_on(&mut next)?;
        let kind = self.entry.content.kind();
        next.taken.retain(|it| {
            let same_kind = it.entry.content.kind() == kind;
            !(same_kind && (kind.is_single() || it.entry.id == self.entry.id))
        });
        next.taken.push(self);
        *site = next;
        Ok(done)
    }
}

/// An empty job that content of this kind can be put on: without rules, and of a shell with a place
/// for it.
pub fn empty_job(kind: BookKind) -> Site {
    let mut site = starter::blank_lot();
    site.rules = Arc::default();
    let any = catalogue::all().first().filter(|_| kind == BookKind::Shell);
    site.placement = any.map(|shell| Placement {
        shell: ShellChoice::Catalogue(shell.name.clone()).into(),
        at: site.lot.start,
        heading: 0.0,
        mirrored: false,
        coping_elevation: 0.0,
    });
    site
}

/// Forgets that the shell is from the book: the job has another one.
pub fn forget_shell(site: &mut Site) {
    site.taken
        .retain(|it| it.entry.content.kind() != BookKind::Shell);
}

#[cfg(test)]
mod tests;
