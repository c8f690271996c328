//! The homeowner's view on a screen: the yard as it is, with the shell as it is placed, and with each place that was kept.
//!
//! It is the same model as every sheet, to scale and in color, with what falls short in red and in words. A picture is a
//! page of the size of the screen; what goes beside it comes as text, for the page to set.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use batterboard_core::analysis::Standing;
use batterboard_core::clear_ground::Bounds;
use batterboard_core::drawing::{Item, Layer};
use batterboard_core::exchange::Opened;
use batterboard_core::finding::{Finding, Severity, Topic};
use batterboard_core::geom::{Point, Region};
use batterboard_core::site::{CheckedSite, Placement, ShellChoice, Site};
use batterboard_core::units::{Measure, nearest_eighth, show};
use serde::{Deserialize, Serialize};

use crate::ink::Palette;
use crate::job::{Job, SheetKind, SheetWish};
use crate::mark::{Area, Color, Document, Ink, Mark, Outline, Page};
use crate::pen::Pen;
use crate::plan::{self, Window};
use crate::scale::Scale;
use crate::words::Language;
use crate::{binder, home, site_plan};

/// Room round what is shown, as a share of it.
const ROUND: f64 = 0.06;

/// Where the water may lie: a shade paler than the lawn.
const MAY_LIE: Color = Color(0xee, 0xf2, 0xdc);

/// A length smaller than this is no difference worth a word, meters.
const WORTH_A_WORD: f64 = 0.05;

/// Which yard is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case")]
pub enum ShownYard {
    /// As it is, without the shell.
    AsItIs,
    /// With the shell as it is placed.
    Placed,
    /// With a place that was kept, by its index.
    Kept(usize),
}

/// What is wanted of the view.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify))]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct ViewWish {
    /// Which yard.
    pub yard: ShownYard,
    /// Width of the picture, millimeters (96 pixels of a page are 25.4).
    pub width: f64,
    /// Its height, millimeters.
    pub height: f64,
    /// Whether it shows where the water may lie at this angle.
    pub room: bool,
    /// The language of what is said.
    #[serde(default)]
    pub language: Language,
}

/// A yard as it is shown and told.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(tsify::Tsify), tsify(missing_as_null))]
#[serde(rename_all = "camelCase")]
pub struct YardView {
    /// What the job is called.
    pub title: String,
    /// The firm's own lines.
    pub firm: Vec<String>,
    /// The yards that there are to be looked at besides the one as it is, each with its name: the shell as placed first.
    pub places: Vec<String>,
    /// The shell; empty of the yard as it is.
    pub shell: String,
    /// Size and depth, a name and a value each.
    pub facts: Vec<(String, String)>,
    /// Whether it fits, in a sentence; empty of the yard as it is.
    pub fits: String,
    /// Whether something stands against it.
    pub short: bool,
    /// What does, each in a few words.
    pub against: Vec<String>,
    /// How it differs from the shell as placed, in one line; empty where it does not.
    pub differs: String,
    /// What the picture is, and who decides.
    pub caution: String,
    /// What the firm itself has everybody told.
    pub cautions: Vec<String>,
    /// The middle of the picture, site meters.
    pub centre: Point,
    /// Millimeters of the picture to a meter of the site.
    pub per_meter: f64,
    /// The height of what is shown over its width, the same of every yard of a job.
    pub share: f64,
}

/// A job to be shown, its places worked out as they are asked for.
#[derive(Debug)]
pub struct Showing {
    opened: Opened,
    jobs: BTreeMap<ShownYard, Job>,
}

impl Showing {
    /// Of a site that was opened.
    pub const fn of(opened: Opened) -> Self {
        Self {
            opened,
            jobs: BTreeMap::new(),
        }
    }

    /// A picture of the size that was asked for, and what is said beside it.
    ///
    /// # Errors
    /// When there is no shell, or no such place.
    pub fn view(&mut self, wish: &ViewWish) -> Result<(Document, YardView), Finding> {
        for yard in [ShownYard::Placed, wish.yard] {
            self.job(yard)?;
        }
        let known = |yard| self.jobs.get(&yard).ok_or_else(no_such_place);
        let (placed, job) = (known(ShownYard::Placed)?, known(wish.yard)?);
        let kept = &self.opened.site.site().alternatives;
        let language = wish.language;
        let sheet = SheetWish {
            language,
            ..SheetWish::new(SheetKind::Home)
        };
        let window = window(placed, wish);
        let picture = picture(job, (wish, &sheet), window);
        let (firm, cautions) = job.firm();
        let (low, high) = site_plan::extent(placed);
        let present = language.say("As placed", "Como está puesta").to_owned();
        let names = kept.iter().map(|it| it.name.clone());
        let mut view = YardView {
            title: job.name().to_owned(),
            firm,
            places: core::iter::once(present).chain(names).collect(),
            shell: String::new(),
            facts: Vec::new(),
            fits: String::new(),
            short: false,
            against: Vec::new(),
            differs: String::new(),
            caution: home::caution(language).to_owned(),
            cautions,
            centre: window.centre,
            per_meter: window.per_meter(),
            share: (high.y - low.y) / (high.x - low.x),
        };
        if let (Some((shell, _)), Some(figures)) = (job.site.placed_shell(), &job.report.shell) {
            let standing = job.report.verdict.standing;
            view.shell.clone_from(&figures.name);
            let facts = home::facts(job, shell, figures, &sheet).into_iter();
            view.facts = facts
                .map(|(name, value)| (name.to_owned(), value))
                .collect();
            view.fits = home::fits(standing, language).to_owned();
            view.short = matches!(standing, Standing::Short | Standing::Conflict);
            view.against = against(job, language);
            if matches!(wish.yard, ShownYard::Kept(_)) {
                view.differs = differs(placed, job, language);
            }
        }
        Ok((picture, view))
    }

    /// The section along the pool, so wide as was asked for, millimeters; nothing where nothing is cut.
    ///
    /// # Errors
    /// As [`Showing::view`].
    pub fn section(
        &mut self,
        yard: ShownYard,
        width: f64,
        language: Language,
    ) -> Result<Option<Document>, Finding> {
        let job = self.job(yard)?;
        let Some(section) = home::along_pool(job) else {
            return Ok(None);
        };
        let wide = Area {
            x: 0.0,
            y: 0.0,
            width,
            height: f64::INFINITY,
        };
        let area = Area {
            height: home::section_height(&section, wide),
            ..wide
        };
        let mut pen = Pen::default();
        home::draw_section(&mut pen, &section, area, (job.system, language));
        let page = Page {
            width: area.width,
            height: area.height,
            marks: pen.marks,
        };
        let sheet = SheetWish {
            language,
            ..SheetWish::new(SheetKind::Home)
        };
        let kind = language.say("Section", "Corte");
        Ok(Some(binder::document(
            (job, &sheet),
            kind,
            None,
            vec![page],
        )))
    }

    /// The site of a yard.
    ///
    /// # Errors
    /// As [`Showing::view`].
    pub fn site(&mut self, yard: ShownYard) -> Result<&CheckedSite, Finding> {
        self.job(yard).map(|job| &job.site)
    }

    /// A yard worked out, once.
    fn job(&mut self, yard: ShownYard) -> Result<&Job, Finding> {
        match self.jobs.entry(yard) {
            Entry::Occupied(known) => Ok(known.into_mut()),
            Entry::Vacant(new) => Ok(new.insert(worked_out(&self.opened, yard)?)),
        }
    }
}

/// A yard of a job, worked out.
fn worked_out(opened: &Opened, yard: ShownYard) -> Result<Job, Finding> {
    let site = &opened.site;
    let placement = match yard {
        ShownYard::AsItIs => None,
        ShownYard::Placed => Some(site.site().placement.clone().ok_or_else(crate::no_shell)?),
        ShownYard::Kept(index) => {
            let kept = site.site().alternatives.get(index);
            Some(kept.ok_or_else(no_such_place)?.placement.clone())
        }
    };
    let opened = Opened {
        site: with(site, placement)?,
        findings: Vec::new(),
        unknown: opened.unknown.clone(),
    };
    Ok(Job::of(opened, None))
}

fn no_such_place() -> Finding {
    Finding::fault(
        "no-such-place",
        "There is no such place kept.",
        "Keep a place on the Shell step first.",
    )
    .under("/alternatives")
}

/// The site with the shell somewhere else, or without one.
fn with(site: &CheckedSite, placement: Option<Placement>) -> Result<CheckedSite, Finding> {
    if site.site().placement == placement {
        return Ok(site.clone());
    }
    let changed = Site {
        placement,
        ..Site::clone(site.site())
    };
    CheckedSite::check(changed, Some(site))
        .map_err(|faults| faults.into_iter().next().unwrap_or_else(no_such_place))
}

/// The window in which all yards of a job are shown, so that nothing moves from one to the next.
fn window(placed: &Job, wish: &ViewWish) -> Window {
    let (low, high) = site_plan::extent(placed);
    let span = high - low;
    let area = Area {
        x: 0.0,
        y: 0.0,
        width: wish.width.clamp(20.0, 2_000.0),
        height: wish.height.clamp(20.0, 2_000.0),
    };
    let room = 1.0 + 2.0 * ROUND;
    let ratio = (span.x / area.width).max(span.y / area.height) * room * 1000.0;
    Window {
        area,
        centre: low.midpoint(high),
        scale: Scale {
            ratio: ratio.max(1.0),
        },
        lettering: 1.4,
    }
}

/// The yard in color.
fn picture(job: &Job, (wish, sheet): (&ViewWish, &SheetWish), window: Window) -> Document {
    let mut drawing = site_plan::drawing(job, sheet, |item, layer| match layer {
        Layer::Shortfall => !matches!(item, Item::Label { .. }),
        _ => home::kept(item, layer),
    });
    let mut pen = Pen::default();
    pen.rectangle(window.area, Ink::filled(Color(0xf4, 0xf2, 0xea)));
    // The lawn lies under everything; where the water may lie is a part of it.
    let lawn = |item: &Item| item.layer() == Layer::Lot && !matches!(item, Item::Label { .. });
    let (lawn, rest): (Vec<Item>, Vec<Item>) = drawing.items.into_iter().partition(lawn);
    drawing.items = lawn;
    pen.marks
        .extend(plan::draw(&drawing, &window, Palette::Color, &[]).marks);
    if let Some(region) = may_lie(job).filter(|_| wish.room) {
        pen.marks.push(soft(&region, &window));
    }
    drawing.items = rest;
    pen.marks
        .extend(plan::draw(&drawing, &window, Palette::Color, &[]).marks);
    let page = Page {
        width: window.area.width,
        height: window.area.height,
        marks: pen.marks,
    };
    let kind = SheetKind::Home.title(wish.language);
    binder::document((job, sheet), kind, Some(window), vec![page])
}

/// Everywhere the water may lie at this angle.
fn may_lie(job: &Job) -> Option<Region> {
    let (_, placement) = job.site.placed_shell()?;
    let bounds = Bounds::of(&job.site, &job.analysis.work, &placement.pose())?;
    Some(bounds.water_may_cover(placement.heading, placement.mirrored))
}

fn soft(region: &Region, window: &Window) -> Mark {
    let rings = region.rings();
    let outlines =
        rings.filter_map(|ring| Outline::through(ring.0.iter().map(|p| window.place(*p)), true));
    Mark::Shape(outlines.collect(), Ink::filled(MAY_LIE))
}

/// What stands against a placement: clearances that fall short, and what it may not meet.
fn against(job: &Job, language: Language) -> Vec<String> {
    let short = job.report.clearances.iter().filter(|it| it.falls_short);
    let short = short.map(|it| {
        let by = show(Measure::Length, it.room.value.abs(), job.system).text;
        let close = language.say("too close", "demasiado cerca");
        format!("{}: {by} {close}", it.target)
    });
    let faults = job
        .report
        .findings
        .iter()
        .filter(|it| it.severity == Severity::Fault && it.topic == Topic::Verdict);
    let faults = faults.map(|it| language.message(&it.message));
    let mut all: Vec<String> = faults.chain(short).collect();
    all.dedup();
    all
}

/// How a place differs from the shell as placed, in one line.
fn differs(placed: &Job, other: &Job, language: Language) -> String {
    let mut parts = Vec::new();
    let length = |meters: f64| show(Measure::Length, meters, placed.system).text;
    let pair = placed.site.site().placement.as_ref();
    let pair = pair.zip(other.site.site().placement.as_ref());
    if let Some((a, b)) = pair {
        let name = |it: &Placement| match it.shell.as_ref() {
            ShellChoice::Catalogue(name) => name.clone(),
            ShellChoice::Own(record) => record.name.clone(),
        };
        if a.shell != b.shell {
            parts.push(format!("{} {}", language.say("shell", "casco"), name(b)));
        }
        let moved = b.at - a.at;
        if moved.length() > WORTH_A_WORD {
            let way = nearest_eighth(moved.bearing());
            let way = language.message(&batterboard_core::finding::said!("{way}", way = way));
            parts.push(match language {
                Language::English => format!("{} farther {way}", length(moved.length())),
                Language::Spanish => format!("{} más al {way}", length(moved.length())),
            });
        }
    }
    let water = |job: &Job| job.site.placed_shell().map(|(shell, _)| shell.water_area());
    let area = |value: f64| show(Measure::Area, value, placed.system).text;
    let more_or_less = |difference: f64| match difference > 0.0 {
        true => language.say("more", "más"),
        false => language.say("less", "menos"),
    };
    if let (Some(a), Some(b)) = (water(placed), water(other))
        && (b - a).abs() > 0.1
    {
        let (difference, word) = (area((b - a).abs()), more_or_less(b - a));
        parts.push(format!(
            "{difference} {word} {}",
            language.say("water", "de agua")
        ));
    }
    let least = |job: &Job| {
        let goes = job
            .report
            .clearances
            .iter()
            .find(|it| it.from.goes_with_shell());
        goes.map(|it| it.room.value)
    };
    if let (Some(a), Some(b)) = (least(placed), least(other))
        && (b - a).abs() > WORTH_A_WORD
    {
        let (difference, word) = (length((b - a).abs()), more_or_less(b - a));
        parts.push(format!(
            "{difference} {word} {}",
            language.say("room", "de espacio")
        ));
    }
    parts.join(", ")
}

#[cfg(test)]
mod tests {
    use batterboard_core::exchange;
    use batterboard_core::geom::Vector;
    use batterboard_core::site::Alternative;

    use super::*;

    fn opened(change: impl FnOnce(&mut Site)) -> Opened {
        let demo = include_str!("../../../demo-sites/level-suburban.json");
        let mut opened = exchange::open(demo).unwrap();
        let mut site = Site::clone(opened.site.site());
        change(&mut site);
        opened.site = CheckedSite::check(site, None).unwrap();
        opened
    }

    fn wish(yard: ShownYard) -> ViewWish {
        ViewWish {
            yard,
            width: 200.0,
            height: 150.0,
            room: false,
            language: Language::English,
        }
    }

    /// A place 10 ft north of where the shell stands.
    fn keep_one(site: &mut Site) {
        let mut placement = site.placement.clone().unwrap();
        placement.at = placement.at + Vector::new(0.0, 3.048);
        site.alternatives = vec![Alternative {
            name: "by the fence".to_owned(),
            placement,
        }];
    }

    #[test]
    fn the_section_fills_its_width_and_is_as_high_as_it_is() {
        let mut showing = Showing::of(opened(keep_one));
        for yard in [ShownYard::Placed, ShownYard::Kept(0)] {
            let made = showing.section(yard, 88.0, Language::English).unwrap();
            let page = &made.unwrap().pages[0];
            assert!(page.width == 88.0 && (10.0..60.0).contains(&page.height));
            assert!(!page.marks.is_empty());
        }
        let bare = showing.section(ShownYard::AsItIs, 88.0, Language::English);
        assert!(bare.unwrap().is_none());
        assert!(
            showing
                .section(ShownYard::Kept(7), 88.0, Language::English)
                .is_err()
        );
    }

    #[test]
    fn the_share_is_that_of_what_fills_the_picture() {
        let mut showing = Showing::of(opened(keep_one));
        let mut per_meter = |width, height| {
            let wish = ViewWish {
                width,
                height,
                ..wish(ShownYard::Placed)
            };
            showing.view(&wish).unwrap().1
        };
        // Its scale where only its height bounds it, over the one where only its width does.
        let (low, narrow) = (per_meter(2000.0, 140.0), per_meter(140.0, 2000.0));
        assert!((narrow.share - narrow.per_meter / low.per_meter).abs() < 1e-9);
        assert!((low.share - narrow.share).abs() < 1e-12);
    }

    #[test]
    fn the_yard_is_shown_as_it_is_as_placed_and_as_kept_in_one_window() {
        let mut showing = Showing::of(opened(keep_one));
        let mut seen = Vec::new();
        for yard in [ShownYard::AsItIs, ShownYard::Placed, ShownYard::Kept(0)] {
            let (picture, view) = showing.view(&wish(yard)).unwrap();
            assert_eq!(view.places, ["As placed", "by the fence"]);
            assert_eq!(view.shell.is_empty(), yard == ShownYard::AsItIs);
            assert_eq!(view.fits.is_empty(), yard == ShownYard::AsItIs);
            seen.push((view.centre, view.per_meter, picture.pages[0].marks.len()));
            if yard == ShownYard::Kept(0) {
                assert!(
                    view.differs.contains("10'-0\" farther north"),
                    "{}",
                    view.differs
                );
            }
        }
        assert!(
            seen.windows(2)
                .all(|it| (it[0].0, it[0].1) == (it[1].0, it[1].1))
        );
        // 200 mm hold the lot with room round it.
        assert!(seen[0].1 > 1.0 && seen[0].1 < 20.0);
        assert_eq!(
            showing.view(&wish(ShownYard::Kept(7))).unwrap_err().code,
            "no-such-place"
        );
    }

    #[test]
    fn what_falls_short_is_never_hidden() {
        let over_the_line = |site: &mut Site| {
            let placement = site.placement.as_mut().unwrap();
            placement.at = placement.at + Vector::new(0.0, 30.0);
        };
        let (_, view) = Showing::of(opened(over_the_line))
            .view(&wish(ShownYard::Placed))
            .unwrap();
        assert!(view.short && !view.against.is_empty(), "{view:?}");
        let (_, view) = Showing::of(opened(|_| {}))
            .view(&wish(ShownYard::Placed))
            .unwrap();
        assert!(!view.short && view.against.is_empty(), "{view:?}");
    }

    #[test]
    fn where_the_water_may_lie_is_one_more_mark() {
        let mut showing = Showing::of(opened(|_| {}));
        let marks = |showing: &mut Showing, room| {
            let wish = ViewWish {
                room,
                ..wish(ShownYard::Placed)
            };
            showing.view(&wish).unwrap().0.pages[0].marks.len()
        };
        assert_eq!(marks(&mut showing, true), marks(&mut showing, false) + 1);
    }

    #[test]
    fn without_a_shell_there_is_nothing_to_show() {
        let mut showing = Showing::of(opened(|site| site.placement = None));
        let refused = showing.view(&wish(ShownYard::Placed)).unwrap_err();
        assert_eq!(refused.code, "no-shell");
    }
}
