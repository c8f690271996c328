//! What leaves the hole and how it is hauled.

use super::line::{Group, Line, SETTING, WHOLE_UP, whole_up};
use super::stone::encased;
use super::{Inputs, On, Takeoff};
use crate::dig::Dig;
use crate::finding::{Finding, Topic};
use crate::grading::Grading;
use crate::pipe::PipePlan;
use crate::site::Works;
use crate::site::soil::SIDE_SLOPE_SOURCE;
use crate::stockpile::Heap;
use crate::units::Measure;

const UNSURVEYED: &str =
    "Part of the ground was not surveyed; its height is carried over from the nearest spots.";

const LOW_GROUND: &str = "In part the ground lies below the collar's underside; what is filled there \
                          is counted as fill.";

const NOT_CLOSED: &str =
    "The sides were not followed up to the ground everywhere; the figure falls short.";

const ENTERED: &str = "entered";

/// Earth that others than the hole and the grading yield: sump, pad, trenches.
#[derive(Debug, Clone, PartialEq)]
pub struct Yield {
    /// The line's stable name (`trench-cut`).
    pub key: &'static str,
    /// What the ledger calls it.
    pub label: &'static str,
    /// The same within a formula, lower case.
    pub name: &'static str,
    /// Its volume, m3, bank.
    pub volume: f64,
    /// How it was worked out, in words.
    pub formula: &'static str,
    /// The geometry it was measured on.
    pub on: On,
    /// What went into it, each with its name.
    pub inputs: Vec<(&'static str, f64, Measure)>,
}

/// Spoil put back into trenches, above the stone round their pipe.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Refill {
    /// Everything dug for trenches, m3, bank: the room that is filled again.
    pub trenches: f64,
    /// Area of the stone with its pipes across the trench, m2.
    pub stone: f64,
    /// Length of the trench it lies in, metres.
    pub length: f64,
}

impl Refill {
    /// Of trenches from which so much was dug, m3. Pipe lies in the one to the pad alone.
    pub fn of(works: &Works, pipes: &PipePlan, trenches: f64) -> Option<Self> {
        let settings = &works.pipe;
        (trenches > 0.0).then(|| Self {
            trenches,
            stone: settings.trench_width * encased(settings),
            length: match pipes.shared {
                0 => 0.0,
                _ => pipes.shared_length,
            },
        })
    }

    /// What is filled, m3, compacted.
    pub fn volume(&self) -> f64 {
        (self.trenches - self.stone * self.length).max(0.0)
    }
}

/// All that is moved besides the hole.
#[derive(Debug, Clone, Copy, Default)]
pub struct Moved<'a> {
    /// Cut and fill for deck and banks; `None` where nothing is graded.
    pub grading: Option<&'a Grading>,
    /// What else yields earth.
    pub others: &'a [Yield],
    /// The pile of spoil on the lot.
    pub pile: Option<&'a Heap>,
    /// What is filled into trenches again; told with the grading.
    pub refill: Option<Refill>,
}

/// Where the earth of a job comes from and goes to. Everything is told per bank volume: loose and
/// compacted volumes are made from it by one multiplication each, never from one another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Earth {
    /// Everything dug, m3, bank.
    pub dug: f64,
    /// Fill, m3, compacted.
    pub fill: f64,
    /// What that takes, m3, bank.
    pub fill_bank: f64,
    /// The part of it taken from what is dug, m3, bank.
    pub reused: f64,
    /// The part of it brought in, m3, bank.
    pub brought: f64,
    /// What is dug and not used, m3, bank.
    pub hauled: f64,
}

impl Earth {
    /// The balance of a job that digs `bank` m3 for the hole.
    pub fn of(works: &Works, bank: f64, moved: &Moved<'_>) -> Self {
        let graded = moved.grading.map_or((0.0, 0.0), |g| (g.cut(), g.fill()));
        let others: f64 = moved.others.iter().map(|it| it.volume).sum();
        let refill = moved.refill.map_or(0.0, |it| it.volume());
        let (dug, fill) = (bank + graded.0 + others, graded.1 + refill);
        let fill_bank = fill / works.dig.material.compacted_per_bank();
        let reused = if works.spoil.reuse {
            fill_bank.min(dug)
        } else {
            0.0
        };
        Self {
            dug,
            fill,
            fill_bank,
            reused,
            brought: fill_bank - reused,
            hauled: dug - reused,
        }
    }

    /// What is left over once the fill is taken from it, m3, bank; negative where it falls short.
    pub fn surplus(&self) -> f64 {
        self.dug - self.fill_bank
    }
}

const VOLUME: Measure = Measure::EarthVolume;

/// Banks stand in what the soil was; they are not stripped or benched here.
const AS_DUG: &str =
    "The spoil is taken to be fit for fill; topsoil, organic and wet soil are not.";

const PRISMS: &str = "geometry of the deck, its banks and the ground";

pub(super) fn take(inputs: &Inputs<'_>, taken: &mut Takeoff) {
    let (works, dig, moved) = (inputs.works, inputs.dig, &inputs.moved);
    let earth = Earth::of(works, dig.bank_volume, moved);
    taken.lines.push(bank_cut(works, dig));
    taken.lines.extend(opening(dig));
    dug(dig, moved, &earth, taken);
    if let Some(grading) = moved.grading {
        fill(works, grading, moved.refill, &earth, taken);
    }
    spoil(works, moved, &earth, taken);
}

/// What else is dug, and all of it.
fn dug(dig: &Dig, moved: &Moved<'_>, earth: &Earth, taken: &mut Takeoff) {
    let mut all = Line::new(
        "cut",
        Group::Dig,
        "Cut in all",
        (earth.dug, VOLUME),
        "bank cut",
        "sum of the lines above",
    )
    .on(On::Opening)
    .with("bank cut", dig.bank_volume, VOLUME);
    if let Some(grading) = moved.grading {
        let cut = grading.cut();
        taken.lines.push(
            Line::new(
                "grading-cut",
                Group::Dig,
                "Cut for deck and banks",
                (cut, VOLUME),
                "under deck and collar + in banks",
                PRISMS,
            )
            .on(On::Cut)
            .paying_for("grading-cut")
            .with("under deck and collar", grading.deck_cut, VOLUME)
            .with("in banks", grading.bank_cut, VOLUME)
            .assuming(true, "Beyond the hole's opening alone."),
        );
        all = all.with("cut for deck and banks", cut, VOLUME);
        all.working.formula = "bank cut + cut for deck and banks";
    }
    for it in moved.others {
        let source = "geometry of the work and its settings";
        let line = Line::new(
            it.key,
            Group::Dig,
            it.label,
            (it.volume, VOLUME),
            it.formula,
            source,
        )
        .on(it.on)
        .paying_for(it.key);
        let told = it.inputs.iter();
        let line = told.fold(line, |line, (name, value, measure)| {
            line.with(name, *value, *measure)
        });
        taken.lines.push(line);
        all = all.with(it.name, it.volume, VOLUME);
        all.working.formula = "the sum of all that is dug";
    }
    taken.lines.push(all);
}

/// The fill, and where it comes from.
fn fill(
    works: &Works,
    grading: &Grading,
    refill: Option<Refill>,
    earth: &Earth,
    taken: &mut Takeoff,
) {
    let settings = &works.dig;
    let shrink = settings.material.compacted_per_bank();
    let mut all = Line::new(
        "fill",
        Group::Grading,
        "Fill, compacted",
        (earth.fill, VOLUME),
        "above the stone in the opening + under deck and collar + in banks",
        PRISMS,
    )
    .on(On::Fill)
    .paying_for("fill")
    .with("above the stone in the opening", grading.hole_fill, VOLUME)
    .with("under deck and collar", grading.deck_fill, VOLUME)
    .with("in banks", grading.bank_fill, VOLUME)
    .given(
        "slope of the banks",
        works.grading.bank_slope,
        Measure::Slope,
        SETTING,
    )
    .assuming(!grading.closed, NOT_TO_GROUND);
    if let Some(refill) = refill {
        taken.lines.push(refilled(&refill));
        all = all.with(REFILL, refill.volume(), VOLUME);
        all.working.formula = "above the stone in the opening + under deck and collar + in banks + \
                               refill of trenches";
    }
    taken.lines.push(all);
    taken.lines.push(
        Line::new(
            "fill-bank",
            Group::Grading,
            "Fill, as it lies in the bank",
            (earth.fill_bank, VOLUME),
            "fill, compacted / compacted per bank",
            "shrink is told per bank volume",
        )
        .on(On::Fill)
        .paying_for("fill")
        .with("fill, compacted", earth.fill, VOLUME)
        .given(
            "compacted per bank",
            shrink,
            Measure::Ratio,
            settings.material.swell_source(),
        ),
    );
    taken.lines.push(
        Line::new(
            "fill-from-spoil",
            Group::Grading,
            "Fill from the spoil, bank",
            (earth.reused, VOLUME),
            if works.spoil.reuse {
                "the lesser of fill, as it lies in the bank and cut in all"
            } else {
                "none: the spoil is not used again"
            },
            "common practice",
        )
        .on(On::Fill)
        .with("fill, as it lies in the bank", earth.fill_bank, VOLUME)
        .with("cut in all", earth.dug, VOLUME)
        .assuming(earth.reused > 0.0, AS_DUG),
    );
    if earth.brought <= 0.0 {
        return;
    }
    let swell = settings.loose_per_bank();
    taken.lines.push(
        Line::new(
            "fill-import",
            Group::Grading,
            "Fill to bring in, loose",
            (earth.brought * swell, VOLUME),
            "(fill, as it lies in the bank - fill from the spoil) x swell",
            "swell is told per bank volume",
        )
        .on(On::Fill)
        .paying_for("fill-import")
        .with("fill, as it lies in the bank", earth.fill_bank, VOLUME)
        .with("fill from the spoil", earth.reused, VOLUME)
        .given("swell", swell, Measure::Ratio, swell_source(works))
        .assuming(
            true,
            "What is brought in swells and shrinks as the spoil does.",
        ),
    );
    if works.spoil.reuse {
        taken.findings.push(
            Finding::note(
                "fill-short",
                "The job yields less earth than its fill takes: the rest has to be brought in.",
                "Lower the coping, or order the fill.",
            )
            .about(Topic::Grading)
            .under("/works/spoil/reuse"),
        );
    }
}

const REFILL: &str = "refill of trenches";

/// What is filled into trenches again: a part of the fill, which is paid with it.
fn refilled(refill: &Refill) -> Line {
    Line::new(
        "trench-fill",
        Group::Grading,
        "Refill of trenches, compacted",
        (refill.volume(), VOLUME),
        "cut for trenches - stone and pipes across x length of the trench",
        "common practice: the spoil goes back above the stone, up to the ground",
    )
    .on(On::Trenches)
    .with("cut for trenches", refill.trenches, VOLUME)
    .with("stone and pipes across", refill.stone, Measure::Area)
    .with("length of the trench", refill.length, Measure::LongLength)
    .assuming(
        true,
        "It is part of the fill. A trench in which no pipe is counted is filled whole.",
    )
}

const NOT_TO_GROUND: &str = "A bank was not followed to the ground; the figure falls short.";

fn swell_source(works: &Works) -> &'static str {
    match works.dig.swell {
        Some(_) => ENTERED,
        None => works.dig.material.swell_source(),
    }
}

fn density_source(works: &Works) -> &'static str {
    match works.dig.density {
        Some(_) => ENTERED,
        None => works.dig.material.density_source(),
    }
}

/// The spoil: all of it loose, its pile, and what is hauled.
fn spoil(works: &Works, moved: &Moved<'_>, earth: &Earth, taken: &mut Takeoff) {
    let settings = &works.dig;
    let (swell, density) = (settings.loose_per_bank(), settings.bank_density());
    taken.lines.push(
        Line::new(
            "spoil-loose",
            Group::Haul,
            "Spoil, loose",
            (earth.dug * swell, VOLUME),
            "cut in all x swell",
            "swell is told per bank volume",
        )
        .on(On::Opening)
        .with("cut in all", earth.dug, VOLUME)
        .given("swell", swell, Measure::Ratio, swell_source(works)),
    );
    if let Some(heap) = moved.pile {
        pile(works, heap, earth.dug * swell, taken);
    }
    let (bank, loose, weight) = (earth.hauled, earth.hauled * swell, earth.hauled * density);
    taken.lines.push(
        Line::new(
            "haul-bank",
            Group::Haul,
            "To haul, bank",
            (bank, VOLUME),
            "cut in all - fill from the spoil",
            "common practice",
        )
        .on(On::Opening)
        .paying_for("haul")
        .with("cut in all", earth.dug, VOLUME)
        .with("fill from the spoil", earth.reused, VOLUME),
    );
    taken.lines.push(
        Line::new(
            "haul-loose",
            Group::Haul,
            "To haul, loose",
            (loose, VOLUME),
            "to haul, bank x swell",
            "swell is told per bank volume",
        )
        .on(On::Opening)
        .paying_for("haul")
        .with("to haul, bank", bank, VOLUME)
        .given("swell", swell, Measure::Ratio, swell_source(works)),
    );
    taken.lines.push(
        Line::new(
            "haul-weight",
            Group::Haul,
            "To haul, weight",
            (weight, Measure::Mass),
            "to haul, bank x weight of the bank",
            "soil weighs the same loose as in place; wet soil weighs more",
        )
        .on(On::Opening)
        .paying_for("haul")
        .with("to haul, bank", bank, VOLUME)
        .given(
            "weight of the bank",
            density,
            Measure::Density,
            density_source(works),
        ),
    );
    loads(works, loose, weight, taken);
}

/// The pile on the lot.
fn pile(works: &Works, heap: &Heap, loose: f64, taken: &mut Takeoff) {
    let spoil = &works.spoil;
    let shape = if heap.top > 0.0 {
        "a cone at the slope of repose, cut off level at the greatest height"
    } else {
        "a cone at the slope of repose"
    };
    let line = |key, label, value: (f64, Measure), formula, source| {
        Line::new(key, Group::Haul, label, value, formula, source)
    };
    let repose = "geometry; the slope of repose is common practice";
    taken.lines.push(
        line(
            "pile-loose",
            "Pile on the lot, loose",
            (heap.volume, VOLUME),
            "spoil, loose x share that is piled",
            "common practice",
        )
        .on(On::Stockpile)
        .with("spoil, loose", loose, VOLUME)
        .given(
            "share that is piled",
            spoil.piled,
            Measure::Fraction,
            SETTING,
        ),
    );
    taken.lines.push(
        line(
            "pile-width",
            "Pile, across",
            (2.0 * heap.radius, Measure::Length),
            shape,
            repose,
        )
        .on(On::Stockpile)
        .with("pile on the lot, loose", heap.volume, VOLUME)
        .given("slope of repose", spoil.repose, Measure::Slope, SETTING)
        .assuming(true, "The pile is taken to stand on level ground."),
    );
    taken.lines.push(
        line(
            "pile-height",
            "Pile, height",
            (heap.height, Measure::Length),
            shape,
            repose,
        )
        .on(On::Stockpile)
        .with("pile on the lot, loose", heap.volume, VOLUME)
        .given("slope of repose", spoil.repose, Measure::Slope, SETTING)
        .given(
            "greatest height",
            spoil.most_height,
            Measure::Length,
            SETTING,
        ),
    );
}

fn bank_cut(works: &Works, dig: &Dig) -> Line {
    let slope_source = match works.dig.side_slope {
        Some(_) => ENTERED,
        None => SIDE_SLOPE_SOURCE,
    };
    let line = Line::new(
        "bank-cut",
        Group::Dig,
        "Bank cut",
        (dig.bank_volume, Measure::EarthVolume),
        "volume between the ground and the hole: underside of the base, widened by the over-dig, \
         its sides rising at the side slope",
        "geometry of the shell, its settings and the ground; rounded outer corners",
    )
    .on(On::Opening)
    .paying_for("dig")
    .given("over-dig", works.dig.over_dig, Measure::Length, SETTING)
    .given(
        "base thickness",
        works.dig.base_thickness,
        Measure::Length,
        SETTING,
    )
    .given(
        "side slope",
        works.dig.slope(),
        Measure::Slope,
        slope_source,
    );
    let unsurveyed = dig.unsurveyed_volume > 0.0;
    let line = if unsurveyed {
        line.with(
            "of it under unsurveyed ground",
            dig.unsurveyed_volume,
            Measure::EarthVolume,
        )
    } else {
        line
    };
    line.assuming(unsurveyed, UNSURVEYED)
        .assuming(dig.area_above_ground > 0.0, LOW_GROUND)
        .assuming(!dig.closed, NOT_CLOSED)
}

/// How wide and how deep the hole opens.
fn opening(dig: &Dig) -> [Line; 3] {
    let source = "geometry of the hole and the ground";
    let unsurveyed = dig.unsurveyed_volume > 0.0;
    [
        Line::new(
            "dig-top-area",
            Group::Dig,
            "Opening at the ground",
            (dig.top_area, Measure::Area),
            "area inside the line where the sides meet the ground",
            source,
        )
        .on(On::Opening)
        .assuming(unsurveyed, UNSURVEYED),
        Line::new(
            "dig-depth",
            Group::Dig,
            "Greatest depth of the hole",
            (dig.greatest_depth, Measure::Length),
            "greatest height of the ground above the bottom, plumb",
            source,
        )
        .on(On::Bottom)
        .assuming(unsurveyed, UNSURVEYED),
        Line::new(
            "dig-bottom",
            Group::Dig,
            "Lowest point of the hole",
            (dig.bottom_elevation, Measure::Elevation),
            "elevation of the deepest point of the bottom",
            source,
        )
        .on(On::Deepest),
    ]
}

/// Loads by the box, by the scale, and the greater of the two.
fn loads(works: &Works, loose: f64, weight: f64, taken: &mut Takeoff) {
    let haul = &works.haul;
    let by_volume = whole_up(loose / haul.box_volume);
    let by_weight = whole_up(weight / haul.payload);
    taken.lines.push(
        Line::new(
            "loads-by-volume",
            Group::Haul,
            "Loads by volume",
            (by_volume, Measure::Count),
            "to haul, loose / volume of the box",
            "common practice",
        )
        .with("to haul, loose", loose, Measure::EarthVolume)
        .given(
            "volume of the box",
            haul.box_volume,
            Measure::EarthVolume,
            SETTING,
        )
        .rounded(WHOLE_UP),
    );
    taken.lines.push(
        Line::new(
            "loads-by-weight",
            Group::Haul,
            "Loads by weight",
            (by_weight, Measure::Count),
            "to haul, weight / payload",
            "common practice; axle limits of the road decide the payload",
        )
        .with("to haul, weight", weight, Measure::Mass)
        .given("payload", haul.payload, Measure::Weight, SETTING)
        .rounded(WHOLE_UP),
    );
    taken.lines.push(
        Line::new(
            "loads",
            Group::Haul,
            "Truck loads",
            (by_volume.max(by_weight), Measure::Count),
            "the greater of loads by volume and loads by weight",
            "common practice",
        )
        .on(On::Opening)
        .paying_for("haul")
        .with("loads by volume", by_volume, Measure::Count)
        .with("loads by weight", by_weight, Measure::Count),
    );
    let trips = whole_up(by_volume.max(by_weight) / haul.trucks);
    taken.lines.push(
        Line::new(
            "trips",
            Group::Haul,
            "Trips of each truck",
            (trips, Measure::Count),
            "truck loads / trucks",
            "common practice",
        )
        .on(On::Opening)
        .with("truck loads", by_volume.max(by_weight), Measure::Count)
        .given("trucks", haul.trucks, Measure::Count, SETTING)
        .rounded(WHOLE_UP),
    );
    taken.lines.push(
        Line::new(
            "haul-time",
            Group::Haul,
            "Time to haul",
            (trips * haul.cycle, Measure::Hours),
            "trips of each truck x time of a trip",
            "common practice",
        )
        .on(On::Opening)
        .paying_for("haul")
        .with("trips of each truck", trips, Measure::Count)
        .given("time of a trip", haul.cycle, Measure::Minutes, SETTING)
        .assuming(true, "No truck waits for another; breaks are not counted."),
    );
    // Compared before rounding: a box may be overloaded though the loads come out alike.
    if weight / haul.payload > loose / haul.box_volume {
        taken.findings.push(
            Finding::caution(
                "payload-governs",
                "A full box of this spoil weighs more than the payload.",
                "Load the trucks by weight, not to the top of the box; wet soil weighs more still.",
            )
            .about(Topic::Haul)
            .under("/works/haul/payload"),
        );
    }
}
