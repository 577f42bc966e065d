//! The file around the pages: objects in one fixed order, title, language, outline, identity.

use lopdf::xref::XrefType;
use lopdf::{Dictionary, Object, ObjectId, Stream, StringFormat, dictionary, text_string};

use super::content::resource_name;
use super::shapes::milli;
use super::text::Glyphs;
use super::{PdfError, fonts};
use crate::page::{Bookmark, Document, Length, Page};

/// What the file says made it. No version, so that a release that draws the same page writes the same bytes.
const PRODUCER: &str = "sheafling";

/// The objects of a file under way, numbered as they are added.
pub(super) struct Parts(lopdf::Document);

impl Parts {
    fn new() -> Self {
        let mut file = lopdf::Document::with_version("1.7");
        file.reference_table.cross_reference_type = XrefType::CrossReferenceTable;
        Self(file)
    }

    /// Keeps a number for an object that others refer to before it is known.
    fn reserve(&mut self) -> ObjectId {
        self.0.new_object_id()
    }

    /// Adds a dictionary and returns a reference to it.
    pub(super) fn add(&mut self, entries: Dictionary) -> Object {
        self.0.add_object(entries).into()
    }

    /// Adds a stream, compressed unless it is so short that this would make it longer, and returns a reference to it.
    pub(super) fn stream(&mut self, entries: Dictionary, content: Vec<u8>) -> Result<Object, PdfError> {
        let mut stream = Stream::new(entries, content);
        stream.compress().map_err(std::io::Error::other)?;
        Ok(self.0.add_object(stream).into())
    }

    /// Writes the file, with a hash of everything else in it as its identity (ISO 32000-1, 14.4).
    fn finish(mut self, catalog: ObjectId, information: Object) -> Result<Vec<u8>, PdfError> {
        self.0.trailer = dictionary! { "Root" => catalog, "Info" => information };
        let mut bytes = Vec::new();
        self.0.save_to(&mut bytes)?;
        let hash = blake3::hash(&bytes);
        let half = hash.as_bytes().iter().take(16).copied().collect();
        let identity = Object::String(half, StringFormat::Hexadecimal);
        self.0.trailer.set("ID", vec![identity.clone(), identity]);
        bytes.clear();
        self.0.save_to(&mut bytes)?;
        Ok(bytes)
    }
}

/// A name object.
pub(super) fn name(text: &str) -> Object {
    Object::Name(text.into())
}

/// Puts a document together from the content streams of its pages.
pub(super) fn assemble(document: &Document, contents: Vec<Vec<u8>>, glyphs: &Glyphs) -> Result<Vec<u8>, PdfError> {
    let mut parts = Parts::new();
    let catalog = parts.reserve();
    let information = parts.add(dictionary! {
        "Title" => text_string(&document.title),
        "Producer" => text_string(PRODUCER),
    });
    let tree = parts.reserve();
    let mut faces = Dictionary::new();
    for (face, used) in glyphs.faces() {
        faces.set(resource_name(face), fonts::add(&mut parts, face, used)?);
    }
    let resources = parts.add(dictionary! { "Font" => faces });
    let mut pages = Vec::with_capacity(document.pages.len());
    for (page, content) in document.pages.iter().zip(contents) {
        let content = parts.stream(Dictionary::new(), content)?;
        pages.push(parts.add(dictionary! {
            "Type" => name("Page"),
            "Parent" => tree,
            "MediaBox" => media_box(page),
            "Resources" => resources.clone(),
            "Contents" => content,
        }));
    }
    let outline = outline(&mut parts, document, &pages);
    parts.0.set_object(
        tree,
        dictionary! {
            "Type" => name("Pages"),
            "Count" => count(pages.len()),
            "Kids" => pages,
        },
    );
    let mut root = dictionary! {
        "Type" => name("Catalog"),
        "Pages" => tree,
        "ViewerPreferences" => dictionary! { "DisplayDocTitle" => true },
    };
    if !document.language.is_empty() {
        root.set("Lang", text_string(&document.language));
    }
    if let Some(outline) = outline {
        root.set("Outlines", outline);
        root.set("PageMode", name("UseOutlines"));
    }
    parts.0.set_object(catalog, root);
    parts.finish(catalog, information)
}

/// The page from corner to corner, in points.
fn media_box(page: &Page) -> Vec<Object> {
    let side = |length: Length| Object::Real(milli(length.to_milli_pt()).0);
    vec![0.into(), 0.into(), side(page.size.width), side(page.size.height)]
}

/// The outline, one level deep, or `None` without bookmarks. Each entry leads to the top of its page and leaves the zoom.
fn outline(parts: &mut Parts, document: &Document, pages: &[Object]) -> Option<Object> {
    let goals: Vec<(&Bookmark, &Object, &Page)> = document
        .bookmarks
        .iter()
        .filter_map(|mark| Some((mark, pages.get(mark.page)?, document.pages.get(mark.page)?)))
        .collect();
    if goals.is_empty() {
        return None;
    }
    let root = parts.reserve();
    let ids: Vec<ObjectId> = goals.iter().map(|_| parts.reserve()).collect();
    let (first, last) = (*ids.first()?, *ids.last()?);
    for (at, ((mark, reference, page), id)) in goals.iter().zip(&ids).enumerate() {
        let top = Object::Real(milli(page.size.height.to_milli_pt()).0);
        let mut entry = dictionary! {
            "Title" => text_string(&mark.title),
            "Parent" => root,
            "Dest" => vec![(*reference).clone(), name("XYZ"), 0.into(), top, Object::Null],
        };
        if let Some(before) = at.checked_sub(1).and_then(|before| ids.get(before)) {
            entry.set("Prev", *before);
        }
        if let Some(after) = ids.get(at + 1) {
            entry.set("Next", *after);
        }
        parts.0.set_object(*id, entry);
    }
    parts.0.set_object(
        root,
        dictionary! { "Type" => name("Outlines"), "First" => first, "Last" => last, "Count" => count(ids.len()) },
    );
    Some(root.into())
}

/// A number of things, as PDF counts.
fn count(things: usize) -> i64 {
    i64::try_from(things).unwrap_or(i64::MAX)
}
