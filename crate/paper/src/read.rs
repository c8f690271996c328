//! The site back out of a sheet: the file that was attached to its PDF.

use batterboard_core::exchange::SIZE_LIMIT;
use batterboard_core::finding::Finding;
use lopdf::{Object, Stream};

/// What a PDF begins with (ISO 32000-2, 7.5.2).
const MARK: &[u8] = b"%PDF-";

/// Whether bytes are those of a PDF.
pub fn is_pdf(bytes: &[u8]) -> bool {
    bytes.starts_with(MARK)
}

/// The text of the site file in a PDF that was saved here, whoever saved it again since. It is checked when it is opened,
/// like any other.
///
/// # Errors
/// When the PDF cannot be read or there is no site in it.
pub fn site_in(bytes: &[u8]) -> Result<String, Finding> {
    let file = lopdf::Document::load_mem(bytes).map_err(|error| {
        Finding::fault(
            "pdf-not-read",
            format!("The PDF cannot be read: {error}."),
            "Open the file as it was saved, or the site file itself.",
        )
    })?;
    let streams = file.objects.values().filter_map(|object| match object {
        Object::Stream(stream) => Some(stream),
        _ => None,
    });
    let mut attached = streams.filter_map(attached);
    attached.find(|text| text.contains("\"batterboard-site\"")).ok_or_else(|| {
        Finding::fault(
            "no-site-in-pdf",
            "There is no site in this PDF.",
            "Sheets that this planner saved hold their site; one that was printed to PDF does not. Open the site file.",
        )
    })
}

/// The text of an attached file, no longer than a site file may be.
fn attached(stream: &Stream) -> Option<String> {
    let name = |key: &[u8]| stream.dict.get(key).ok()?.as_name().ok();
    if name(b"Type")? != b"EmbeddedFile" {
        return None;
    }
    let bytes = match name(b"Filter") {
        None => stream.content.clone(),
        Some(b"FlateDecode") => {
            miniz_oxide::inflate::decompress_to_vec_zlib_with_limit(&stream.content, SIZE_LIMIT)
                .ok()?
        }
        Some(_) => return None,
    };
    String::from_utf8(bytes).ok()
}
