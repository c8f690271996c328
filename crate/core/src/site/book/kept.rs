//! What a job has, as the content of an entry: to be kept in the book, or held against it.

use std::sync::Arc;

use super::put_on::{SHELL, with_lot_of};
use super::{BookContent, BookKind, BookShell, RateList, RuleSet};
use crate::shell::{ShellRecord, catalogue};
use crate::site::works::ConstructionSettings;
use crate::site::{ShellChoice, Site};

impl BookContent {
    /// What a job has of a kind; nothing where it has none. What a job does not know (who checked the
    /// rules, what the brochure prints) is as in `like`, and of the rates those that `like` names.
    pub fn of_site(kind: BookKind, site: &Site, like: Option<&Self>) -> Option<Self> {
        Some(match kind {
            BookKind::Shell => Self::Shell(Box::new(shell(site, like)?)),
            BookKind::Rules => {
                let told = match like {
                    Some(Self::Rules(set)) => Some(set),
                    _ => None,
                };
                let said = |pick: fn(&RuleSet) -> &String| told.map(pick).cloned();
                Self::Rules(RuleSet {
                    jurisdiction: said(|it| &it.jurisdiction).unwrap_or_default(),
                    checked_by: said(|it| &it.checked_by).unwrap_or_default(),
                    rules: site.rules.to_vec(),
                    shares: site.shares.clone(),
                    barrier: site.barrier.clone(),
                })
            }
            BookKind::Rates => {
                let named = |key: &str| match like {
                    Some(Self::Rates(list)) => list.rates.iter().any(|it| it.key == key),
                    _ => key != SHELL,
                };
                let mut rates = site.rates.clone();
                rates.retain(|it| named(&it.key));
                let currency = site.currency.clone();
                (!rates.is_empty()).then_some(Self::Rates(RateList { currency, rates }))?
            }
            BookKind::Works => {
                let no_lot = ConstructionSettings::default();
                Self::Works(Arc::new(with_lot_of(&site.works, &no_lot)))
            }
            BookKind::Deck => Self::Deck(site.works.deck),
            BookKind::Truck => Self::Truck(site.works.haul),
            BookKind::Machine | BookKind::TitleBlock => {
                like.filter(|it| it.kind() == kind)?.clone()
            }
        })
    }
}

fn shell(site: &Site, like: Option<&BookContent>) -> Option<BookShell> {
    let told = match like {
        Some(BookContent::Shell(it)) => Some(it.as_ref()),
        _ => None,
    };
    let price = site.rates.iter().find(|it| it.key == SHELL);
    Some(BookShell {
        shell: record(site)?,
        fittings: site.works.pipe.fittings.clone(),
        printed_length: told.and_then(|it| it.printed_length),
        printed_width: told.and_then(|it| it.printed_width),
        price: price.map(|it| it.rate),
        currency: price.and(site.currency.clone()),
    })
}

/// The shell of a job, told in full.
fn record(site: &Site) -> Option<ShellRecord> {
    match site.placement.as_ref()?.shell.as_ref() {
        ShellChoice::Own(record) => Some(record.clone()),
        ShellChoice::Catalogue(name) => catalogue::find(name).cloned(),
    }
}
