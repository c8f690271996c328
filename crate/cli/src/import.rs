//! `import`: brings a map, a list of points or a surveyor's LandXML onto a site.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, anyhow, bail};
use batterboard_core::exchange::import::{
    Changes, Columns, Draft, Frame, Order, Placed, Role, Settings, Shape, read,
};
use batterboard_core::exchange::landxml;
use batterboard_core::finding::Finding;
use batterboard_core::lot::LotRecord;
use batterboard_core::session::{Command, Session};
use batterboard_core::site::{GeoOrigin, GridUnit};
use clap::{Args, ValueEnum};
use serde_json::{Value, json};

use crate::input;

/// What is brought in, and how it is meant.
#[derive(Args)]
pub struct ImportArgs {
    /// The text: GeoJSON, LandXML, or a list of points; - reads standard input. Which one it is shows.
    file: PathBuf,
    /// The site it is brought onto; without it, a new one.
    #[arg(long, value_name = "SITE")]
    onto: Option<PathBuf>,
    /// What something is to be, as WHICH=ROLE: its number in the list, its name or its group; and
    /// leave-out, lot, corner, monument, spot, breakline, benchmark or a kind of feature.
    #[arg(long = "as", value_name = "WHICH=ROLE")]
    roles: Vec<String>,
    /// The number of the parcel that is the lot; only what stands on it is proposed.
    #[arg(long, value_name = "NUMBER")]
    lot: Option<usize>,
    /// The number of the ring that is the boundary of the lot, where it has several.
    #[arg(long, value_name = "NUMBER")]
    ring: Option<usize>,
    /// What the coordinates are, in place of what they seem to be.
    #[arg(long, value_enum)]
    frame: Option<FrameArg>,
    /// Which coordinate comes first.
    #[arg(long, value_enum)]
    order: Option<OrderArg>,
    /// The unit of elevations.
    #[arg(long, value_enum)]
    heights: Option<UnitArg>,
    /// The columns of a list without a heading besides the coordinates.
    #[arg(long, value_enum, value_delimiter = ',')]
    columns: Option<Vec<ColumnArg>>,
    /// Choose the site's origin anew, though it has one.
    #[arg(long)]
    fresh: bool,
    /// New spots take the place of those that are there.
    #[arg(long)]
    replace_spots: bool,
    /// Whatever comes in with an elevation is a spot too.
    #[arg(long)]
    spots_of_all: bool,
    /// Print what was found and what it is proposed to be; change nothing.
    #[arg(long)]
    list: bool,
    /// Print that as JSON.
    #[arg(long, requires = "list")]
    json: bool,
}

/// What coordinates are.
#[derive(Clone, Copy, ValueEnum)]
pub enum FrameArg {
    /// WGS 84 degrees.
    Degrees,
    /// Meters.
    Metres,
    /// International feet.
    Feet,
    /// US survey feet.
    SurveyFeet,
}

impl From<FrameArg> for Frame {
    fn from(frame: FrameArg) -> Self {
        match frame {
            FrameArg::Degrees => Self::Degrees,
            FrameArg::Metres => Self::Metres,
            FrameArg::Feet => Self::Feet,
            FrameArg::SurveyFeet => Self::SurveyFeet,
        }
    }
}

/// Which coordinate comes first.
#[derive(Clone, Copy, ValueEnum)]
pub enum OrderArg {
    /// Northing or latitude.
    NorthFirst,
    /// Easting or longitude.
    EastFirst,
}

impl From<OrderArg> for Order {
    fn from(order: OrderArg) -> Self {
        match order {
            OrderArg::NorthFirst => Self::NorthFirst,
            OrderArg::EastFirst => Self::EastFirst,
        }
    }
}

/// A unit of elevations.
#[derive(Clone, Copy, ValueEnum)]
enum UnitArg {
    /// Meters.
    Metres,
    /// International feet.
    Feet,
    /// US survey feet.
    SurveyFeet,
}

/// A column besides the coordinates.
#[derive(Clone, Copy, PartialEq, ValueEnum)]
enum ColumnArg {
    /// A point's number or name comes first.
    Point,
    /// An elevation follows the coordinates.
    Elevation,
}

/// What the command prints, and what is said beside it.
pub struct Imported {
    /// The new site file, or the list.
    pub text: String,
    /// What happened and what there is to say of it.
    pub told: String,
}

/// Brings a text onto a site.
///
/// # Errors
/// When a file cannot be read, or with every fault of what is in it.
pub fn run(args: &ImportArgs) -> Result<Imported> {
    let text = input::text(&args.file)?;
    let name = input::name(&args.file);
    let refused = |faults: Vec<Finding>| {
        let chosen = faults.iter().all(|it| it.code != "nothing-chosen");
        let how = match chosen {
            true => "",
            false => "\n    --list shows what was found; --as WHICH=ROLE says what it is to be.",
        };
        anyhow!("{name} was not brought in.\n{}{how}", input::told(&faults))
    };
    let columns = args.columns.as_ref().map(|all| Columns {
        point: all.contains(&ColumnArg::Point),
        elevation: all.contains(&ColumnArg::Elevation),
    });
    let survey = match landxml::is_xml(&text) {
        true => Some(landxml::read(&text).map_err(refused)?),
        false => None,
    };
    let draft = match &survey {
        Some(survey) => survey.draft.clone(),
        None => read(&text, columns).map_err(refused)?,
    };
    let Onto {
        mut session,
        lot_is_lent,
    } = Onto::open(args.onto.as_deref())?;
    let settings = args.settings(&draft)?;
    let site = session.site().site().clone();
    let placed = Placed::of(&draft, &settings, &[], &site);
    if args.list {
        let text = if args.json {
            let origin = placed.origin.or(site.origin);
            listed_json(&draft, &placed, &settings, origin)
        } else {
            listed(&draft, &placed)
        };
        let mut findings = draft.findings;
        findings.extend(placed.findings);
        return Ok(Imported {
            text,
            told: input::told(&findings),
        });
    }
    let mut roles: Vec<Role> = placed.items.iter().map(|i| i.proposed).collect();
    for told in &args.roles {
        assign(told, &draft, &mut roles)?;
    }
    if lot_is_lent
        && !roles
            .iter()
            .any(|it| matches!(it, Role::Lot | Role::Corner))
    {
        bail!(
            "no-lot: The site has no courses, and nothing that is brought in is its lot.\n    \
             --list shows what was found; --as WHICH=lot says which of it is the lot, --as WHICH=corner which points are its corners."
        );
    }
    let mut changes = Changes::of(&draft, &settings, &roles, &site).map_err(|faults| {
        let mut all = draft.findings.clone();
        all.extend(faults);
        refused(all)
    })?;
    if let Some(survey) = &survey {
        survey.complete(&mut changes, &settings, &roles, &site);
    }
    let mut told = changes.told.join("\n");
    let mut findings = draft.findings;
    findings.extend(changes.findings.iter().cloned());
    session.apply(Command::from(changes)).map_err(refused)?;
    if !findings.is_empty() {
        let _ = write!(told, "\n{}", input::told(&findings));
    }
    Ok(Imported {
        text: session.save(),
        told,
    })
}

/// What something is brought onto.
pub struct Onto {
    /// The site, or a new one.
    pub session: Session,
    /// Whether the site has no courses yet: that of a new one stands for its lot, until another is brought.
    pub lot_is_lent: bool,
}

impl Onto {
    /// A session on a site, or on a new one.
    ///
    /// # Errors
    /// When the site cannot be read.
    pub fn open(path: Option<&Path>) -> Result<Self> {
        let mut session = Session::new().map_err(|f| anyhow!("{}", input::told(&f)))?;
        let Some(path) = path else {
            return Ok(Self {
                session,
                lot_is_lent: false,
            });
        };
        let mut text = input::text(path)?;
        let lent = with_a_lot(&text, &session.site().site().lot);
        let lot_is_lent = lent.is_some();
        if let Some(lent) = lent {
            text = lent;
        }
        session.open(&text).map_err(|faults| {
            let (name, told) = (path.display(), input::told(&faults));
            anyhow!("{name} was not opened.\n{told}")
        })?;
        Ok(Self {
            session,
            lot_is_lent,
        })
    }
}

/// The text of a site that has no courses, with a lot that is lent to it.
fn with_a_lot(text: &str, lot: &LotRecord) -> Option<String> {
    let mut file: Value = serde_json::from_str(text).ok()?;
    let own = file.pointer("/lot/courses").and_then(Value::as_array);
    if own.is_some_and(|courses| !courses.is_empty()) {
        return None;
    }
    file.as_object_mut()?
        .insert("lot".to_owned(), serde_json::to_value(lot).ok()?);
    Some(file.to_string())
}

impl ImportArgs {
    /// The proposed settings with what was asked for.
    fn settings(&self, draft: &Draft) -> Result<Settings> {
        let mut settings = draft.proposed;
        if let Some(frame) = self.frame {
            settings.frame = frame.into();
            // A list's elevations are in the unit of its coordinates unless it says otherwise.
            if let Some(unit) = settings.frame.unit() {
                settings.heights = unit;
            }
        }
        if let Some(order) = self.order {
            settings.order = order.into();
        }
        if let Some(unit) = self.heights {
            settings.heights = match unit {
                UnitArg::Metres => GridUnit::Metres,
                UnitArg::Feet => GridUnit::Feet,
                UnitArg::SurveyFeet => GridUnit::SurveyFeet,
            };
        }
        settings.lot = self.lot.map(|n| index(n, draft.items.len())).transpose()?;
        settings.ring = self.ring.map(|n| n.saturating_sub(1));
        settings.fresh = self.fresh;
        settings.keep_spots = !self.replace_spots;
        settings.spots_of_all = self.spots_of_all;
        Ok(settings)
    }
}

/// The place of a thing by its number in the list.
fn index(number: usize, count: usize) -> Result<usize> {
    match number.checked_sub(1).filter(|i| *i < count) {
        Some(i) => Ok(i),
        None => bail!("there is no number {number}: {count} things were found"),
    }
}

/// Gives a role to a thing by its number, or to all of a name or group.
fn assign(told: &str, draft: &Draft, roles: &mut [Role]) -> Result<()> {
    let (which, word) = told
        .rsplit_once('=')
        .with_context(|| format!("--as \"{told}\" is not WHICH=ROLE"))?;
    let role = Role::named(word).with_context(|| {
        format!(
            "\"{word}\" is no role; say leave-out, lot, corner, monument, spot, breakline, benchmark \
             or a kind of feature such as house"
        )
    })?;
    if let Ok(number) = which.parse::<usize>()
        && number >= 1
        && let Some(slot) = roles.get_mut(number - 1)
    {
        *slot = role;
        return Ok(());
    }
    let wanted = which.to_lowercase();
    let mut any = false;
    for (item, slot) in draft.items.iter().zip(roles) {
        let is_it = item.name.to_lowercase() == wanted || item.group.to_lowercase() == wanted;
        if which == "all" || is_it {
            *slot = role;
            any = true;
        }
    }
    if !any {
        bail!("nothing was found that is numbered, named or grouped \"{which}\"; see --list");
    }
    Ok(())
}

fn form(shape: &Shape) -> &'static str {
    match shape {
        Shape::Points(_) => "points",
        Shape::Lines(_) => "lines",
        Shape::Areas(_) => "areas",
    }
}

/// What was found, a line each.
fn listed(draft: &Draft, placed: &Placed) -> String {
    let mut out = format!(
        "{:>5}  {:<28} {:<24} {:>12} {:>12}  {}\n",
        "", "Name", "Group", "Area m2", "Length m", "Proposed"
    );
    for (i, (item, on_site)) in draft.items.iter().zip(&placed.items).enumerate() {
        let short = |text: &str, most: usize| text.chars().take(most).collect::<String>();
        let _ = writeln!(
            out,
            "{:>5}  {:<28} {:<24} {:>12.3} {:>12.3}  {}",
            i + 1,
            short(&item.name, 28),
            short(&item.group, 24),
            on_site.area,
            on_site.length,
            on_site.proposed.word()
        );
    }
    out
}

/// What was found, as JSON, with every position in site meters.
fn listed_json(
    draft: &Draft,
    placed: &Placed,
    settings: &Settings,
    origin: Option<GeoOrigin>,
) -> String {
    let items: Vec<_> = draft
        .items
        .iter()
        .zip(&placed.items)
        .map(|(item, on_site)| {
            let positions = on_site.shape.as_ref().map(|shape| {
                let all = shape.positions();
                all.iter()
                    .map(|s| json!([s.at.x, s.at.y, s.height]))
                    .collect::<Vec<_>>()
            });
            json!({ "place": item.place, "name": item.name, "group": item.group,
                    "words": item.words, "form": form(&item.shape), "area": on_site.area,
                    "length": on_site.length, "proposed": on_site.proposed.word(),
                    "positions": positions })
        })
        .collect();
    batterboard_core::json::to_string(
        &json!({ "settings": settings, "origin": origin, "items": items }),
    )
}
