//! The catalogue as a table.

use anyhow::{Result, anyhow};
use batterboard_core::shell::{Shell, catalogue};
use batterboard_core::units::{Measure, System, show};

/// One line to a shell: name, size, depth, water.
///
/// # Errors
/// When a shell of the catalogue is faulty, which its tests rule out.
pub fn table(units: System) -> Result<String> {
    let mut out = format!(
        "{:<24} {:>12} {:>12} {:>12} {:>14}\n",
        "Name", "Length", "Width", "Deepest", "Water"
    );
    for record in catalogue::all() {
        let (shell, _) = Shell::check(record)
            .map_err(|_| anyhow!("the catalogue's shell \"{}\" is faulty", record.name))?;
        let (low, high) = shell.footprint.bounds().unwrap_or_default();
        let length = |metres| show(Measure::Length, metres, units).text;
        out.push_str(&format!(
            "{:<24} {:>12} {:>12} {:>12} {:>14}\n",
            record.name,
            length(high.x - low.x),
            length(high.y - low.y),
            length(shell.deepest()),
            show(Measure::WaterVolume, shell.water_volume(), units).text
        ));
    }
    Ok(out)
}
