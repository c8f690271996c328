//! `sheet`: a sheet of a site, or of every site in a folder, as PDF or SVG.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, anyhow, bail};
use batterboard_paper::{
    Document, Job, Language, Lie, Paper, PlanPart, Scale, SheetKind, SheetWish, make, pdf, svg,
};
use clap::{Args, ValueEnum};

use crate::{Units, input};

#[derive(Args)]
pub struct SheetArgs {
    /// The site file, or a folder whose site files each get a sheet; - reads standard input.
    site: PathBuf,
    /// Which sheet.
    #[arg(long, value_parser = named(SheetKind::ALL, SheetKind::name))]
    kind: SheetKind,
    /// The paper; without it tabloid for the permit plan, letter for the others; A3 and A4 where sites are metric.
    #[arg(long, value_parser = named(Paper::ALL, Paper::name))]
    paper: Option<Paper>,
    /// Which way the paper lies.
    #[arg(long = "orientation", value_enum)]
    lie: Option<Lies>,
    /// How large the plan is drawn: feet to an inch (20) or a ratio (1:200); without it the largest usual scale that fits.
    #[arg(long)]
    scale: Option<String>,
    /// The language: the dig sheet and the homeowner's sheet come in Spanish too.
    #[arg(long, value_enum, default_value = "en")]
    lang: Languages,
    /// What is left off the plan.
    #[arg(long, value_delimiter = ',', value_parser = named(PlanPart::ALL, PlanPart::name))]
    without: Vec<PlanPart>,
    /// Tell the price on the homeowner's sheet.
    #[arg(long)]
    price: bool,
    /// The day written on the sheet.
    #[arg(long)]
    day: Option<String>,
    /// The units to print, in place of the site's own.
    #[arg(long, value_enum)]
    units: Option<Units>,
    /// The file to write, .pdf or .svg; for a folder of sites the folder to write PDFs into.
    #[arg(short, long)]
    out: PathBuf,
}

#[derive(Clone, Copy, ValueEnum)]
enum Lies {
    Wide,
    Tall,
}

#[derive(Clone, Copy, ValueEnum)]
enum Languages {
    En,
    Es,
}

/// Reads one of these by its name.
fn named<T: Copy + Send + Sync + 'static, const N: usize>(
    all: [T; N],
    name: fn(T) -> &'static str,
) -> impl clap::builder::TypedValueParser<Value = T> {
    use clap::builder::{PossibleValuesParser, TypedValueParser};
    let names: Vec<&'static str> = all.iter().map(|it| name(*it)).collect();
    PossibleValuesParser::new(names).try_map(move |text| {
        let found = all.iter().find(|it| name(**it) == text);
        found.copied().ok_or("it is not one of them")
    })
}

/// Writes what was asked for and tells what was written.
pub fn run(args: &SheetArgs) -> Result<String> {
    if !args.site.is_dir() {
        return one(args, &args.site, &args.out);
    }
    fs::create_dir_all(&args.out)
        .with_context(|| format!("cannot make the folder {}", args.out.display()))?;
    let mut sites: Vec<PathBuf> = fs::read_dir(&args.site)
        .with_context(|| format!("cannot read {}", args.site.display()))?
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|it| it == "json"))
        .collect();
    sites.sort();
    let mut told = String::new();
    let mut written = 0;
    for site in &sites {
        let stem = site.file_stem().unwrap_or_default().to_string_lossy();
        let out = args.out.join(format!("{stem}.{}.pdf", args.kind.name()));
        match one(args, site, &out) {
            Ok(line) => {
                told += &line;
                written += 1;
            }
            Err(error) => told += &format!("{}: {error:#}\n", site.display()),
        }
    }
    if written == 0 {
        bail!("no sheet was written.\n{told}");
    }
    Ok(told)
}

fn one(args: &SheetArgs, site: &Path, out: &Path) -> Result<String> {
    let opened = input::open(site)?;
    let system = args.units.map(Into::into);
    let job = Job::of(opened, system);
    let scale = match &args.scale {
        None => None,
        Some(text) => Some(Scale::parse(text, job.system).map_err(|fault| anyhow!(fault))?),
    };
    let wanted = SheetWish {
        lie: args.lie.map(|it| match it {
            Lies::Wide => Lie::Wide,
            Lies::Tall => Lie::Tall,
        }),
        paper: args.paper,
        scale,
        language: match args.lang {
            Languages::En => Language::English,
            Languages::Es => Language::Spanish,
        },
        without: args.without.clone(),
        price: args.price,
        day: args.day.clone(),
        ..SheetWish::new(args.kind)
    };
    let (document, findings) =
        make(&job, &wanted).map_err(|fault| anyhow!("{} {}", fault.message, fault.remedy))?;
    let files = files(&document, out)?;
    let mut told = String::new();
    for (path, bytes) in files {
        fs::write(&path, bytes).with_context(|| format!("cannot write {}", path.display()))?;
        told += &format!("{}\n", path.display());
    }
    for finding in findings {
        told += &format!("  {} {}\n", finding.message, finding.remedy);
    }
    Ok(told)
}

/// The files of a document by the ending of the one asked for: one PDF, or one SVG to a page.
fn files(document: &Document, out: &Path) -> Result<Vec<(PathBuf, Vec<u8>)>> {
    match out.extension().and_then(|it| it.to_str()) {
        Some("pdf") => Ok(vec![(out.to_owned(), pdf::of(document))]),
        Some("svg") => Ok((0..document.pages.len())
            .filter_map(|page| {
                let text = svg::of(document, page)?;
                let path = if page == 0 {
                    out.to_owned()
                } else {
                    let stem = out.file_stem().unwrap_or_default().to_string_lossy();
                    out.with_file_name(format!("{stem}-{}.svg", page + 1))
                };
                Some((path, text.into_bytes()))
            })
            .collect()),
        _ => bail!(
            "{} ends in neither .pdf nor .svg; name the file for what it is to be",
            out.display()
        ),
    }
}
