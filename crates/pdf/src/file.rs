//! The file: its pages, and what they share.

use crate::About;
use crate::font::{Used, Weight, weights};
use kurbo::Size;
use miniz_oxide::deflate::compress_to_vec_zlib;
use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish as _, Name, Pdf, Rect, Ref, Settings, Str, TextStr};
use subsetter::GlyphRemapper;

/// What pages call the two weights.
pub const FONTS: [&str; 2] = ["F0", "F1"];

/// How hard streams are packed, of 10.
const PACKED: u8 = 6;

const UNICODE: SystemInfo<'static> = SystemInfo {
    registry: Str(b"Adobe"),
    ordering: Str(b"Identity"),
    supplement: 0,
};

/// What the pages of a file need beside their own content.
#[derive(Default)]
pub struct Kept {
    /// The signs of each weight.
    pub used: [Used; 2],
    /// Opacities, in thousandths.
    opacities: Vec<u32>,
}

impl Kept {
    /// The name of an opacity.
    pub fn opacity(&mut self, share: f64) -> String {
        let own = (share.clamp(0.0, 1.0) * 1000.0).round() as u32;
        if !self.opacities.contains(&own) {
            self.opacities.push(own);
        }
        format!("O{own}")
    }
}

/// Gives out numbers of objects.
struct Numbers(i32);

impl Numbers {
    fn next(&mut self) -> Ref {
        self.0 += 1;
        Ref::new(self.0)
    }
}

/// Writes pages with their size in points.
pub fn write(pages: &[(Size, Vec<u8>)], kept: &Kept, about: About<'_>) -> Vec<u8> {
    let mut numbers = Numbers(0);
    let mut pdf = Pdf::with_settings(Settings { pretty: false });
    let [catalog, tree, info, shared] = std::array::from_fn(|_| numbers.next());
    let mut root = pdf.catalog(catalog);
    root.pages(tree).lang(TextStr(about.language));
    // Printed as large as it is, unless the reader's hand says otherwise.
    root.viewer_preferences()
        .display_doc_title(true)
        .pair(Name(b"PrintScaling"), Name(b"None"));
    root.finish();
    pdf.document_info(info)
        .title(TextStr(about.title))
        .producer(TextStr("Cordonry"));

    let fonts: Vec<(&str, Ref)> = FONTS
        .into_iter()
        .zip(weights())
        .zip(&kept.used)
        .filter(|(_, used)| !used.signs.is_empty())
        .map(|((name, weight), used)| (name, font(&mut pdf, &mut numbers, weight, used)))
        .collect();
    let mut resources = pdf.indirect(shared).dict();
    let mut dict = resources.insert(Name(b"Font")).dict();
    for (name, at) in &fonts {
        dict.pair(Name(name.as_bytes()), *at);
    }
    dict.finish();
    let mut states = resources.insert(Name(b"ExtGState")).dict();
    for own in &kept.opacities {
        let share = *own as f32 / 1000.0;
        let name = format!("O{own}");
        let mut state = states.insert(Name(name.as_bytes())).dict();
        state.pair(Name(b"ca"), share).pair(Name(b"CA"), share);
    }
    states.finish();
    resources.finish();

    let mut kids = Vec::new();
    for (size, content) in pages {
        let [at, drawn] = [numbers.next(), numbers.next()];
        kids.push(at);
        let [wide, high] = [size.width, size.height].map(|v| v as f32);
        let mut page = pdf.page(at);
        page.parent(tree)
            .media_box(Rect::new(0.0, 0.0, wide, high))
            .contents(drawn)
            .pair(Name(b"Resources"), shared);
        page.finish();
        packed(&mut pdf, drawn, content);
    }
    let count = i32::try_from(kids.len()).unwrap_or(i32::MAX);
    pdf.pages(tree).kids(kids).count(count);
    pdf.finish()
}

fn packed(pdf: &mut Pdf, at: Ref, bytes: &[u8]) {
    let packed = compress_to_vec_zlib(bytes, PACKED);
    pdf.stream(at, &packed).filter(Filter::FlateDecode);
}

/// A weight with the letters that are used.
fn font(pdf: &mut Pdf, numbers: &mut Numbers, weight: &Weight, used: &Used) -> Ref {
    let [top, letters, described, file, found, drawn] = std::array::from_fn(|_| numbers.next());
    let mut kept = GlyphRemapper::new();
    let mut to_letter = vec![0, 0];
    let mut widths = Vec::new();
    let mut names = UnicodeCmap::<u16>::new(Name(b"Custom"), UNICODE);
    for (n, c) in (1..).zip(&used.signs) {
        let glyph = weight.glyph(*c);
        to_letter.extend(kept.remap(glyph).to_be_bytes());
        widths.push(weight.advance(glyph) as f32);
        names.pair(n, *c);
    }
    // A font that can't be cut down goes along whole, and its letters keep their numbers.
    let data = subsetter::subset(weight.data, 0, &kept).unwrap_or_else(|_| {
        let whole = used
            .signs
            .iter()
            .flat_map(|c| weight.glyph(*c).to_be_bytes());
        to_letter = [0, 0].into_iter().chain(whole).collect();
        weight.data.to_vec()
    });
    // A subset bears a name of its own.
    let name = format!("{}+{}", tag(&data), weight.name);
    let name = Name(name.as_bytes());
    pdf.type0_font(top)
        .base_font(name)
        .encoding_predefined(Name(b"Identity-H"))
        .descendant_font(letters)
        .to_unicode(found);
    let mut cid = pdf.cid_font(letters);
    cid.subtype(CidFontType::Type2)
        .base_font(name)
        .system_info(UNICODE)
        .font_descriptor(described)
        .default_width(0.0)
        .cid_to_gid_map_stream(drawn);
    cid.widths().consecutive(1, widths);
    cid.finish();
    let ([x0, y0, x1, y1], [capital, up, down]) = weight.measures();
    pdf.font_descriptor(described)
        .name(name)
        .flags(FontFlags::NON_SYMBOLIC)
        .bbox(Rect::new(x0 as f32, y0 as f32, x1 as f32, y1 as f32))
        .italic_angle(0.0)
        .ascent(up as f32)
        .descent(down as f32)
        .cap_height(capital as f32)
        .stem_v(if weight.bold { 180.0 } else { 90.0 })
        .font_file2(file);
    let whole = i32::try_from(data.len()).unwrap_or(i32::MAX);
    let cut = compress_to_vec_zlib(&data, PACKED);
    pdf.stream(file, &cut)
        .filter(Filter::FlateDecode)
        .pair(Name(b"Length1"), whole);
    packed(pdf, found, names.finish().as_slice());
    packed(pdf, drawn, &to_letter);
    top
}

/// Six capitals that hang on what a subset holds.
fn tag(data: &[u8]) -> String {
    let sum = |h: u64, b: &u8| (h ^ u64::from(*b)).wrapping_mul(0x0100_0000_01b3);
    let mut hash = data.iter().fold(0xcbf2_9ce4_8422_2325, sum);
    let letter = |_| {
        let own = b'A' + (hash % 26) as u8;
        hash /= 26;
        char::from(own)
    };
    (0..6).map(letter).collect()
}
