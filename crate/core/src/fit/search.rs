//! The search, step by step.

use std::sync::Arc;

use super::best::{ShellFit, told};
use super::candidates::{Candidate, Turns, candidates, keep_apart};
use super::sunny::{Sunny, day_of};
use super::turning::Turning;
use super::wish::{FitAim, FitWish, PLACES_A_SHELL, name_of};
use crate::analysis::Cache;
use crate::clear_ground::{Bounds, ClearGround, Ruler};
use crate::finding::Finding;
use crate::math::TURN;
use crate::session::Command;
use crate::shell::catalogue;
use crate::site::{CheckedSite, ShellChoice};
use crate::study::Progress;
use crate::sun::{SunDay, SunField};

/// How far corners may lie off the edges that take their place, meters: places that leave a room of less
/// than about 2 cm may be missed.
const THINNED: f64 = 0.005;

/// Headings looked at in one step of a search.
const HEADINGS_A_STEP: usize = 30;

/// A search under way.
#[derive(Debug)]
pub struct Search {
    site: CheckedSite,
    wish: FitWish,
    /// Those still to be tried, the next one last.
    waiting: Vec<ShellChoice>,
    tried: usize,
    under_way: Option<UnderWay>,
    cache: Cache,
    found: Vec<ShellFit>,
    /// The day whose sun counts, where that is wanted.
    day: Option<SunDay>,
    /// Its sun over the lot, once a shell was put on it.
    field: Option<Arc<SunField>>,
}

/// One shell being tried.
#[derive(Debug)]
struct UnderWay {
    site: CheckedSite,
    ground: ClearGround,
    turning: Turning,
    candidates: Vec<Candidate>,
    sunny: Option<Sunny>,
}

impl Search {
    /// A search on a site.
    ///
    /// # Errors
    /// A step out of range, a name that no shell has, the sun over a site that may lie anywhere, or of a day out of range.
    pub fn new(site: CheckedSite, wish: FitWish) -> Result<Self, Vec<Finding>> {
        if !(1..=90).contains(&wish.step) {
            return Err(vec![Finding::fault(
                "step-range",
                format!("A step of {} degrees is out of range.", wish.step),
                "Give whole degrees from 1 to 90.",
            )]);
        }
        let day = match wish.wanted {
            FitAim::MostSun => Some(day_of(&site, wish.sun_date).map_err(|fault| vec![fault])?),
            _ => None,
        };
        let mut waiting = shells(&site, &wish.shells)?;
        waiting.reverse();
        Ok(Self {
            site,
            wish,
            waiting,
            tried: 0,
            under_way: None,
            cache: Cache::default(),
            found: Vec::new(),
            day,
            field: None,
        })
    }

    /// What was found so far, the best first.
    pub fn found(&self) -> &[ShellFit] {
        &self.found
    }

    /// Shells tried, of all.
    pub fn progress(&self) -> Progress {
        let under_way = usize::from(self.under_way.is_some());
        Progress {
            done: self.tried,
            of: self.tried + under_way + self.waiting.len(),
        }
    }

    /// Looks at some more headings; a shell that is through is worked out and listed.
    pub fn step(&mut self) -> Progress {
        if self.under_way.is_none() {
            let Some(shell) = self.waiting.pop() else {
                return self.progress();
            };
            self.under_way = begun(&self.site, shell, &self.wish, &mut self.cache);
            if let (Some(under_way), Some(day)) = (&mut self.under_way, &self.day) {
                let sunny = Sunny::of(&under_way.site, day, self.field.as_ref());
                under_way.sunny = sunny.ok().flatten();
                let field = under_way.sunny.as_ref().map(|it| Arc::clone(it.field()));
                self.field = field.or(self.field.take());
            }
            if self.under_way.is_none() {
                self.tried += 1;
                return self.progress();
            }
        }
        if let Some(under_way) = &mut self.under_way
            && !under_way.look(self.wish.wanted)
        {
            return self.progress();
        }
        if let Some(through) = self.under_way.take() {
            self.tried += 1;
            self.list(&through);
        }
        self.progress()
    }

    /// Works out the best places of a shell and lists them.
    fn list(&mut self, through: &UnderWay) {
        let headings = (through.turning.free(), through.turning.count());
        let wanted = self.wish.wanted;
        let places = keep_apart(&through.candidates, wanted.worked_out());
        let aim = (wanted, self.day.as_ref());
        let worked_out = |place| told(&through.site, place, aim, headings, &mut self.cache);
        let mut fits: Vec<ShellFit> = places.iter().filter_map(worked_out).collect();
        fits.sort_by(|a, b| b.score.total_cmp(&a.score));
        fits.truncate(PLACES_A_SHELL);
        self.found.extend(fits);
        self.found.sort_by(|a, b| {
            let order = b.score.total_cmp(&a.score);
            order.then_with(|| b.room.total_cmp(&a.room))
        });
    }
}

impl UnderWay {
    /// Looks at some more headings; whether that was all of them.
    fn look(&mut self, wanted: FitAim) -> bool {
        let least = self.least(wanted);
        for _ in 0..HEADINGS_A_STEP {
            let Some((turn, at)) = self.turning.next(least) else {
                // What was found in this step may have let one be left out that is wanted after all.
                return self.least(wanted) >= least;
            };
            let region = self.ground.region(at.0, at.1);
            let sunny = self.sunny.as_ref();
            let found = match region.is_empty() {
                true => Vec::new(),
                false => candidates(&self.site, &region, at, wanted, sunny),
            };
            let depth = found.iter().map(|it| it.promise).fold(0.0, f64::max);
            let depth = match (wanted.is_by_depth(), region.is_empty()) {
                (true, _) => depth,
                (false, true) => 0.0,
                // It fits; how deep clear ground is there was not asked.
                (false, false) => f64::MIN_POSITIVE,
            };
            self.turning.found(turn, depth);
            self.candidates.extend(found);
        }
        false
    }

    /// What a place has to promise to be among those that are worked out.
    fn least(&self, wanted: FitAim) -> f64 {
        if !wanted.is_by_depth() {
            return f64::NEG_INFINITY;
        }
        let most = wanted.worked_out();
        let kept = keep_apart(&self.candidates, most);
        let last = kept.get(most - 1);
        last.map_or(f64::NEG_INFINITY, |it| it.promise)
    }
}

/// A shell put on the lot to be tried; `None` where it cannot be.
fn begun(
    site: &CheckedSite,
    shell: ShellChoice,
    wish: &FitWish,
    cache: &mut Cache,
) -> Option<UnderWay> {
    let placed = Command::ChooseShell(shell).carried_out(site).ok()?;
    let site = CheckedSite::check(placed, Some(site)).ok()?;
    let bounds = Bounds::where_it_stands(&site, cache)?;
    let step = f64::from(wish.step) * TURN / 360.0;
    let turns = match wish.wanted {
        FitAim::Parallel => Turns::parallel(&site, &bounds),
        _ => Turns::all_round(step, &bounds),
    };
    Some(UnderWay {
        ground: ClearGround::thinned(&bounds, THINNED),
        turning: Turning::new(turns.all, Ruler::of(&bounds).reach()),
        candidates: Vec::new(),
        sunny: None,
        site,
    })
}

/// The shells to be tried.
fn shells(site: &CheckedSite, named: &[String]) -> Result<Vec<ShellChoice>, Vec<Finding>> {
    let of_the_site = site
        .site()
        .placement
        .as_ref()
        .map(|it| Arc::clone(&it.shell));
    let own = of_the_site.and_then(|it| match it.as_ref() {
        ShellChoice::Own(_) => Some(ShellChoice::clone(&it)),
        ShellChoice::Catalogue(_) => None,
    });
    let catalogue = catalogue::all()
        .iter()
        .map(|it| ShellChoice::Catalogue(it.name.clone()));
    let all: Vec<ShellChoice> = catalogue.chain(own).collect();
    if named.is_empty() {
        return Ok(all);
    }
    let mut chosen = Vec::new();
    let mut faults = Vec::new();
    for name in named {
        let is_meant = |it: &&ShellChoice| name_of(it).eq_ignore_ascii_case(name);
        match all.iter().find(is_meant) {
            Some(shell) => chosen.push(shell.clone()),
            None => faults.push(Finding::fault(
                "unknown-shell",
                format!("There is no shell named \"{name}\" in the catalogue or on the lot."),
                "See the list of shells for their names.",
            )),
        }
    }
    if faults.is_empty() {
        Ok(chosen)
    } else {
        Err(faults)
    }
}
