//! The files, read by another library: the PDF by lopdf (text, attachment). `check_sheets.py` has qpdf check them.

use batterboard_core::exchange;
use batterboard_paper::{Job, Language, SheetKind, SheetWish, pdf, read, svg};
use lopdf::{Dictionary, Object};

use crate::{DEMOS, demo, sheet};

fn sheets(job: &Job) -> Vec<(SheetWish, Vec<u8>)> {
    let english = SheetKind::ALL.map(|kind| SheetWish {
        price: true,
        ..SheetWish::new(kind)
    });
    let spanish = SheetKind::ALL.map(|kind| SheetWish {
        language: Language::Spanish,
        ..SheetWish::new(kind)
    });
    let wanted = english.into_iter().chain(spanish);
    wanted
        .filter_map(|it| {
            let document = sheet(job, &it)?;
            Some((it, pdf::of(&document)))
        })
        .collect()
}

fn dictionary<'a>(file: &'a lopdf::Document, object: &'a Object) -> &'a Dictionary {
    match object {
        Object::Reference(id) => file.get_dictionary(*id).unwrap(),
        other => other.as_dict().unwrap(),
    }
}

#[test]
fn every_sheet_has_title_language_text_and_the_site_inside() {
    for name in DEMOS {
        let job = demo(name);
        for (wanted, bytes) in sheets(&job) {
            let file = lopdf::Document::load_mem(&bytes).unwrap();
            let catalog = file.catalog().unwrap();
            let tag = catalog.get(b"Lang").unwrap().as_str().unwrap();
            assert_eq!(tag, wanted.language.tag().as_bytes());
            let names = dictionary(&file, catalog.get(b"Names").unwrap());
            let tree = dictionary(&file, names.get(b"EmbeddedFiles").unwrap());
            let list = tree.get(b"Names").unwrap().as_array().unwrap();
            assert_eq!(list[0].as_str().unwrap(), b"site.json");
            let spec = dictionary(&file, &list[1]);
            let held = dictionary(&file, spec.get(b"EF").unwrap());
            let id = held.get(b"F").unwrap().as_reference().unwrap();
            let stream = file.get_object(id).unwrap().as_stream().unwrap();
            let site = String::from_utf8(stream.decompressed_content().unwrap()).unwrap();
            assert_eq!(site, job.file);
            assert_eq!(read::site_in(&bytes).unwrap(), job.file);
            let again = exchange::open(&site).unwrap();
            assert_eq!(exchange::save(again.site.site(), &again.unknown), job.file);
            // Selectable text: the job's name stands on the page as text.
            let text = file.extract_text(&[1]).unwrap();
            assert!(text.contains(&job.revision), "{name} {wanted:?}: {text}");
        }
    }
}

#[test]
fn a_pdf_without_a_site_and_a_broken_one_are_told() {
    let job = demo("level-suburban");
    let mut document = sheet(&job, &SheetWish::new(SheetKind::Home)).unwrap();
    document.attachments.clear();
    let bytes = pdf::of(&document);
    assert!(read::is_pdf(&bytes) && !read::is_pdf(job.file.as_bytes()));
    assert_eq!(read::site_in(&bytes).unwrap_err().code, "no-site-in-pdf");
    assert_eq!(
        read::site_in(&bytes[..bytes.len() / 2]).unwrap_err().code,
        "pdf-not-read"
    );
}

#[test]
fn the_same_site_gives_the_same_bytes() {
    let (a, b) = (demo("creek-side-deed"), demo("creek-side-deed"));
    for ((wanted, one), (_, other)) in sheets(&a).into_iter().zip(sheets(&b)) {
        assert!(one == other, "{wanted:?}");
    }
}

#[test]
fn markup_in_a_name_is_text_in_an_svg() {
    let mut site = batterboard_core::site::Site::clone(demo("level-suburban").site.site());
    site.name = "<script>alert(1)</script> & \"Oak\"".to_owned();
    let text = exchange::save(&site, &exchange::Unknown::default());
    let job = Job::of(exchange::open(&text).unwrap(), None);
    let document = sheet(&job, &SheetWish::new(SheetKind::Permit)).unwrap();
    for page in 0..document.pages.len() {
        let text = svg::of(&document, page).unwrap();
        assert!(!text.contains("<script") && text.contains("&lt;script&gt;"));
    }
    assert!(svg::of(&document, 99).is_none());
}
