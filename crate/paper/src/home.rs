//! The homeowner's sheet: the plan in color, the section, size and depth, and nothing technical.

use batterboard_core::analysis::Standing;
use batterboard_core::drawing::{Item, Layer};
use batterboard_core::finding::Finding;
use batterboard_core::geom::Point;
use batterboard_core::report::ShellFigures;
use batterboard_core::section::{Section, standard};
use batterboard_core::shell::Shell;
use batterboard_core::site::FeatureKind;
use batterboard_core::units::{Measure, System, show};

use crate::binder::{self, MARGIN};
use crate::flow::Flow;
use crate::ink::Palette;
use crate::job::{Job, SheetWish};
use crate::mark::{Area, Color, Document, Ink, Mark, Page, Role, Stroke};
use crate::pen::{Lean, Pen, Style};
use crate::plan;
use crate::scale::{Lie, Scale};
use crate::section::{self, Extras};
use crate::site_plan;
use crate::words::Language;

/// What the sheet's text is written in.
const TEXT: Style = Style::plain(10.0);
const FIGURE: Style = Style::heavy(15.0);
const LABEL: Style = Style::plain(8.5).in_color(Color::GRAY);

/// Height of the head and of the foot, millimeters.
const HEAD: f64 = 18.0;
const FOOT: f64 = 14.0;

/// The sheet.
///
/// # Errors
/// When no shell is placed.
pub fn make(job: &Job, wanted: &SheetWish) -> Result<(Document, Vec<Finding>), Finding> {
    let (Some((shell, _)), Some(figures)) = (job.site.placed_shell(), &job.report.shell) else {
        return Err(crate::no_shell());
    };
    let language = wanted.language;
    let lie = wanted.lie.unwrap_or(Lie::Wide);
    let (width, height) = lie.of(wanted.paper(job));
    let page = Area {
        x: 0.0,
        y: 0.0,
        width,
        height,
    }
    .inset(MARGIN);
    let mut pen = Pen::default();
    let title = job.name();
    pen.text(
        Point::new(page.x, page.y + 8.0),
        Lean::Left,
        title,
        Style::heavy(20.0),
    );
    pen.told(Role::Title, 0);
    let second = &figures.name;
    pen.text(
        Point::new(page.x, page.y + 14.0),
        Lean::Left,
        second,
        Style::plain(11.0).in_color(Color::GRAY),
    );

    let body = Area {
        y: page.y + HEAD,
        height: page.height - HEAD - FOOT,
        ..page
    };
    let (plan_area, side) = match lie {
        Lie::Wide => site_plan::beside(body, (body.width * 0.34).clamp(70.0, 200.0)),
        Lie::Tall => {
            let plan = Area {
                height: body.height * 0.6,
                ..body
            };
            let rest = Area {
                y: plan.bottom() + 5.0,
                height: body.height - plan.height - 5.0,
                ..body
            };
            (plan, rest)
        }
    };
    let extent = site_plan::extent(job);
    // As large as it goes: nobody scales off this sheet.
    let (low, high) = extent;
    let span = high - low;
    let ratio =
        (span.x / (plan_area.width - 12.0)).max(span.y / (plan_area.height - 12.0)) * 1000.0;
    let wanted = &SheetWish {
        scale: wanted.scale.or(Some(Scale { ratio })),
        ..wanted.clone()
    };
    let window = site_plan::window(job, wanted, plan_area, extent);
    let drawing = site_plan::drawing(job, wanted, kept);
    let ground = Ink::filled(Color(0xf4, 0xf2, 0xea));
    pen.rectangle(plan_area, ground);
    let shows = wanted.kind.title(language).to_owned();
    let marks = plan::draw(&drawing, &window, Palette::Color, &[]).marks;
    pen.marks
        .push(Mark::Element(Role::Figure(shows), 1 << 16, marks));
    pen.rectangle(plan_area, Ink::line(Stroke::full(Color::RULE, 0.25)));

    // Size and depth, large.
    let facts = facts(job, shell, figures, wanted);
    let mut y = side.y;
    for (name, value) in &facts {
        pen.text(Point::new(side.x, y + 3.2), Lean::Left, name, LABEL);
        pen.text(Point::new(side.x, y + 9.6), Lean::Left, value, FIGURE);
        y += 15.0;
    }
    let note = fits(job.report.verdict.standing, language);
    let mut flow = Flow::new(side.width);
    flow.paragraph(note, TEXT);
    let column = Area {
        y,
        height: side.bottom() - y,
        ..side
    };
    let (marks, end) = flow.pour(|_| (0, column), 0);
    pen.marks
        .extend(marks.into_iter().flat_map(|(_, marks)| marks));
    let rest = Area {
        y: end.y + 5.0,
        height: side.bottom() - end.y - 5.0,
        ..side
    };
    if let Some(section) = along_pool(job).filter(|_| rest.height > 15.0) {
        draw_section(&mut pen, &section, rest, (job.system, language));
    }

    let mut foot = Pen::default();
    let y = page.bottom() - FOOT + 5.5;
    foot.line(
        Point::new(page.x, y - 3.5),
        Point::new(page.right(), y - 3.5),
        Stroke::full(Color::RULE, 0.25),
    );
    let (firm, _) = job.firm();
    foot.text(
        Point::new(page.x, y + 1.0),
        Lean::Left,
        &firm.join("  ·  "),
        Style::heavy(8.0),
    );
    foot.text(
        Point::new(page.x, y + 5.0),
        Lean::Left,
        caution(language),
        Style::plain(7.0).in_color(Color::GRAY),
    );
    let day = wanted.day.clone().unwrap_or_default();
    let right = format!("{day}  {}", job.revision);
    foot.text(
        Point::new(page.right(), y + 1.0),
        Lean::Right,
        right.trim(),
        Style::plain(7.0).in_color(Color::GRAY),
    );
    pen.marks.extend(foot.marks);
    let pages = vec![Page {
        width,
        height,
        marks: pen.marks,
    }];
    let kind = wanted.kind.title(language);
    let outside = site_plan::outside(job, &window, extent);
    Ok((
        binder::document((job, wanted), kind, Some(window), pages),
        outside.into_iter().collect(),
    ))
}

/// Size and depth, and the price where that is told: a name and a value each.
pub fn facts(
    job: &Job,
    shell: &Shell,
    figures: &ShellFigures,
    wanted: &SheetWish,
) -> Vec<(&'static str, String)> {
    let language = wanted.language;
    let length = |metres: f64| show(Measure::Length, metres, job.system).text;
    let mut facts = vec![
        (
            language.say("Water", "Agua"),
            format!(
                "{} × {}",
                figures.length.shown.text, figures.width.shown.text
            ),
        ),
        (
            language.say("Depth", "Profundidad"),
            format!(
                "{} – {}",
                length(shell.shallowest()),
                figures.deepest.shown.text
            ),
        ),
    ];
    let mut quantities = job.report.quantities.iter();
    if let Some(deck) = quantities.find(|it| it.key == "deck-area") {
        facts.push((language.say("Deck", "Piso"), deck.shown.text.clone()));
    }
    if let Some(cost) = job.report.cost.as_ref().filter(|_| wanted.price) {
        facts.push((language.say("Price", "Precio"), cost.total.text.clone()));
    }
    facts
}

/// The verdict as a homeowner reads it.
pub fn fits(standing: Standing, language: Language) -> &'static str {
    match standing {
        Standing::Holds | Standing::Reserved => language.say(
            "It fits here by the rules entered so far.",
            "Cabe aquí según las reglas anotadas hasta ahora.",
        ),
        Standing::NotPlaced | Standing::Unchecked => language.say(
            "Whether it may stand here is not checked yet.",
            "Aún no se ha revisado si puede ir aquí.",
        ),
        Standing::Short | Standing::Conflict => language.say(
            "It does not fit here yet: it stands too close to something.",
            "Todavía no cabe aquí: queda demasiado cerca de algo.",
        ),
    }
}

/// What a picture for the homeowner is: a sketch, and who decides.
pub fn caution(language: Language) -> &'static str {
    language.say(
        "A sketch to talk it over: a planning aid, not a survey. The local authority decides what may be built.",
        "Un dibujo para platicarlo: ayuda para planear, no un levantamiento. La autoridad local decide qué se puede construir.",
    )
}

/// What a homeowner looks for.
pub fn kept(item: &Item, layer: Layer) -> bool {
    use FeatureKind as F;
    let label = matches!(item, Item::Label { .. });
    match layer {
        Layer::Lot | Layer::Swing | Layer::Gap | Layer::Trunk => true,
        Layer::LotLine | Layer::Coping | Layer::Deck | Layer::Water { .. } => !label,
        Layer::Feature(F::House | F::Outbuilding) => true,
        Layer::Feature(
            F::Driveway
            | F::Walk
            | F::Tree
            | F::Fence
            | F::Wall
            | F::Deck
            | F::DeckSteps
            | F::DeckOpening
            | F::Watercourse,
        ) => !label,
        _ => false,
    }
}

/// The section along the pool.
pub fn along_pool(job: &Job) -> Option<Section> {
    let line = standard(&job.site, &job.analysis);
    line.and_then(|line| job.section(line))
}

/// How high a section stands where it fills an area, without the room that axes take, millimeters.
pub fn section_height(section: &Section, area: Area) -> f64 {
    section::height(section, section::filling(section, area)) - section::BELOW
}

/// Draws a section as large as it goes, at the foot of an area.
pub fn draw_section(
    pen: &mut Pen,
    section: &Section,
    area: Area,
    (system, language): (System, Language),
) {
    let scale = section::filling(section, area);
    let height = section_height(section, area).min(area.height);
    let area = Area {
        x: area.x - section::LEFT,
        width: area.width + section::LEFT,
        y: area.bottom() - height,
        height,
    };
    let mut drawn = Pen::default();
    section::draw(
        &mut drawn,
        section,
        area,
        scale,
        (system, language),
        &Extras::default(),
    );
    let shows = language.say("Section", "Corte").to_owned();
    pen.marks
        .push(Mark::Element(Role::Figure(shows), 2 << 16, drawn.marks));
}
