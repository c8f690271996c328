//! The catalogue as a table, and one shell of it in full.

use std::fmt::Write as _;

use anyhow::{Result, anyhow, bail};
use batterboard_core::exchange::save_shell;
use batterboard_core::shell::{Shell, ShellRecord, catalogue};
use batterboard_core::units::{Measure, System, show};
use clap::Args;
use serde_json::{Value, json};

use crate::Units;
use crate::names::meant;

/// Which shells, and how they are told.
#[derive(Args)]
pub struct ShellsArgs {
    /// Only this shell, whatever the case of its letters.
    name: Option<String>,
    /// Print JSON: of one shell its shell file, with outline and floor; of all a list of their sizes.
    #[arg(long)]
    json: bool,
    /// The units to print.
    #[arg(long, value_enum, default_value = "feet")]
    units: Units,
}

/// The catalogue, or one shell of it.
///
/// # Errors
/// When no shell has the name, with the nearest one that has.
pub fn run(args: &ShellsArgs) -> Result<String> {
    let units = args.units.into();
    match (&args.name, args.json) {
        (None, false) => table(units),
        (None, true) => sizes(),
        (Some(name), true) => Ok(save_shell(named(name)?)),
        (Some(name), false) => one(named(name)?, units),
    }
}

/// The shell of the catalogue that is meant.
fn named(typed: &str) -> Result<&'static ShellRecord> {
    let names = catalogue::all().iter().map(|it| it.name.as_str());
    match meant(typed, names) {
        Ok(name) => {
            catalogue::find(name).ok_or_else(|| anyhow!("the catalogue has lost \"{name}\""))
        }
        Err(instead) => {
            bail!(
                "no shell of the catalogue is called \"{typed}\"{instead}\n  batterboard shells lists them all"
            )
        }
    }
}

fn checked(record: &ShellRecord) -> Result<Shell> {
    let (shell, _) = Shell::check(record)
        .map_err(|_| anyhow!("the catalogue's shell \"{}\" is faulty", record.name))?;
    Ok(shell)
}

/// Length and width at the water's edge, meters.
fn size(shell: &Shell) -> (f64, f64) {
    let (low, high) = shell.footprint.bounds().unwrap_or_default();
    (high.x - low.x, high.y - low.y)
}

/// One line to a shell: name, size, depth, water.
fn table(units: System) -> Result<String> {
    let mut out = format!(
        "{:<24} {:>12} {:>12} {:>12} {:>14}\n",
        "Name", "Length", "Width", "Deepest", "Water"
    );
    for record in catalogue::all() {
        let shell = checked(record)?;
        let (long, wide) = size(&shell);
        let length = |meters| show(Measure::Length, meters, units).text;
        writeln!(
            out,
            "{:<24} {:>12} {:>12} {:>12} {:>14}",
            record.name,
            length(long),
            length(wide),
            length(shell.deepest()),
            show(Measure::WaterVolume, shell.water_volume(), units).text
        )?;
    }
    Ok(out)
}

/// Every shell with its sizes, in SI units.
fn sizes() -> Result<String> {
    let row = |record: &ShellRecord| -> Result<Value> {
        let shell = checked(record)?;
        let (length, width) = size(&shell);
        Ok(json!({
            "name": record.name, "length": length, "width": width, "deepest": shell.deepest(),
            "area": shell.water_area(), "water": shell.water_volume(), "weight": record.weight,
        }))
    };
    let rows = catalogue::all()
        .iter()
        .map(row)
        .collect::<Result<Vec<Value>>>()?;
    Ok(batterboard_core::json::to_string(&rows))
}

/// One shell: its sizes, and its floor facet by facet.
fn one(record: &ShellRecord, units: System) -> Result<String> {
    let shell = checked(record)?;
    let (long, wide) = size(&shell);
    let told = |measure, value| show(measure, value, units).to_string();
    let length = |meters| told(Measure::Length, meters);
    let mut out = format!("{}\n{}\n\n", record.name, record.note);
    let weight = record.weight.map(|it| told(Measure::Weight, it));
    let rows = [
        ("Length", length(long)),
        ("Width", length(wide)),
        (
            "Area at the water's edge",
            told(Measure::Area, shell.outline.area()),
        ),
        ("Length round it", length(shell.outline.perimeter())),
        ("Deepest, below the rim", length(shell.deepest())),
        ("Coping", length(record.coping_width)),
        ("Water stands below the rim", length(record.waterline)),
        ("Water", told(Measure::WaterVolume, shell.water_volume())),
        (
            "Weight, empty",
            weight.unwrap_or_else(|| "not told".to_owned()),
        ),
    ];
    for (name, value) in rows {
        writeln!(out, "  {name:<28} {value}")?;
    }
    if !record.floor.is_empty() {
        out.push_str("\nFloor, depths below the rim\n");
    }
    for facet in &record.floor {
        let depths = facet.depths.iter().copied();
        let least = length(depths.clone().fold(f64::INFINITY, f64::min));
        let most = length(depths.fold(0.0, f64::max));
        let depths = if least == most {
            least
        } else {
            format!("{least} to {most}")
        };
        writeln!(out, "  {:<28} {depths}", facet.kind.words())?;
    }
    out.push_str("\nWith --json: outline and floor as a shell file.\n");
    Ok(out)
}
