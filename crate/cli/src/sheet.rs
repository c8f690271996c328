//! `sheet`: a sheet of a site, or of every site in a folder, as PDF, SVG or PNG.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, anyhow, bail};
use batterboard_paper::{
    Document, Job, Language, Lie, Paper, PlanPart, Scale, SheetKind, SheetWish, make, pdf, png, svg,
};
use clap::{Args, ValueEnum};

use crate::{Units, folder, input};

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
    /// The language: the dig sheet, the homeowner's sheet and the record come in Spanish too.
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
    /// How fine a picture is: dots to an inch of paper.
    #[arg(long, default_value_t = png::USUAL_DOTS, value_parser = dots)]
    dots_per_inch: u32,
    /// The file to write, .pdf, .svg or .png (the last two one file to a page: plan.png, plan-2.png); for a folder of sites the folder to write PDFs into.
    #[arg(short, long)]
    out: PathBuf,
}

/// Reads a resolution.
fn dots(text: &str) -> Result<u32, String> {
    let dots = text.parse().ok().filter(|it| png::DOTS.contains(it));
    dots.ok_or_else(|| {
        let (least, most) = (png::DOTS.start(), png::DOTS.end());
        format!("give a whole number from {least} to {most}")
    })
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
    let sites = folder::json_files(&args.site)?;
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
    let files = files(&document, out, args.dots_per_inch)?;
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

/// The files of a document by the ending of the one asked for: one PDF, or one SVG or PNG to a page.
fn files(document: &Document, out: &Path, dots: u32) -> Result<Vec<(PathBuf, Vec<u8>)>> {
    let pages = 0..document.pages.len();
    match out.extension().and_then(|it| it.to_str()) {
        Some("pdf") => Ok(vec![(out.to_owned(), pdf::of(document))]),
        Some("svg") => Ok(pages
            .filter_map(|page| Some((paged(out, page), svg::of(document, page)?.into_bytes())))
            .collect()),
        Some("png") => pages
            .filter_map(|page| {
                let made = png::of(document, page, dots)?;
                let made = made.map_err(|fault| anyhow!("{} {}", fault.message, fault.remedy));
                Some(made.map(|bytes| (paged(out, page), bytes)))
            })
            .collect(),
        _ => bail!(
            "{} ends in none of .pdf, .svg and .png; name the file for what it is to be",
            out.display()
        ),
    }
}

/// The file of a page: the second of `plan.svg` is `plan-2.svg`.
fn paged(out: &Path, page: usize) -> PathBuf {
    if page == 0 {
        return out.to_owned();
    }
    let [stem, ending] = [out.file_stem(), out.extension()]
        .map(|it| it.unwrap_or_default().to_string_lossy().into_owned());
    out.with_file_name(format!("{stem}-{}.{ending}", page + 1))
}
