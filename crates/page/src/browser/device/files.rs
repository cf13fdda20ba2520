//! Files in and out.

use crate::browser::app::App;
use crate::browser::parts::{NotLoaded, part};
use cordonry::file::csv::Style;
use cordonry::plan::Plan;
use cordonry::said::Arg;
use cordonry_draw::{DocumentOptions, Time};
use leptos::prelude::*;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Blob, BlobPropertyBag, Event, File, HtmlAnchorElement, HtmlInputElement, Url};

/// The file that was chosen in the field of an event, which can be chosen there again.
pub fn chosen(event: &Event) -> Option<File> {
    let input: HtmlInputElement = event_target(event);
    let file = input.files().and_then(|f| f.get(0));
    input.set_value("");
    file
}

/// What a file holds.
pub async fn bytes_of(file: &File) -> Result<Vec<u8>, JsValue> {
    let buffer = JsFuture::from(file.array_buffer()).await?;
    Ok(js_sys::Uint8Array::new(&buffer).to_vec())
}

/// Has `then` read the file that was chosen in the field of an event; one that can't be read is empty.
pub fn read_chosen(event: &Event, then: impl FnOnce(Vec<u8>) + 'static) {
    if let Some(file) = chosen(event) {
        spawn_local(async move { then(bytes_of(&file).await.unwrap_or_default()) });
    }
}

/// Hands a text, or bytes, to the user as a file.
pub fn download(name: &str, kind: &str, content: &JsValue) -> Result<(), JsValue> {
    let url = object_url(content, kind)?;
    give_link(name, &url)?;
    // The browser has taken the address long before.
    set_timeout(
        move || {
            let _ = Url::revoke_object_url(&url);
        },
        std::time::Duration::from_secs(10),
    );
    Ok(())
}

/// An address under which the browser holds a text, or bytes.
fn object_url(content: &JsValue, kind: &str) -> Result<String, JsValue> {
    let parts = js_sys::Array::of1(content);
    let bag = BlobPropertyBag::new();
    bag.set_type(kind);
    let blob = Blob::new_with_blob_sequence_and_options(&parts, &bag)?;
    Url::create_object_url_with_blob(&blob)
}

/// Presses a link to an address that is to be saved as a file.
fn give_link(name: &str, url: &str) -> Result<(), JsValue> {
    let link: HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(url);
    link.set_download(name);
    link.click();
    Ok(())
}

/// A plan's name as a file's, with an ending such as `json` or, to say what of the plan is in it, `as-found.csv`.
pub fn file_name(plan: &Plan, ending: &str) -> String {
    named(&plan.name, ending)
}

/// The same of a row's name.
pub fn named(name: &str, ending: &str) -> String {
    let stem: String = name
        .trim()
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .collect();
    let stem = stem.trim_matches('-');
    let join = if ending.contains('.') { '-' } else { '.' };
    let stem = if stem.is_empty() { "row" } else { stem };
    format!("{stem}{join}{ending}")
}

/// Hands the user as a file what a part has written of the desk; whether the browser took it.
fn give_written(
    app: App,
    ending: &str,
    kind: &str,
    written: Result<Option<String>, NotLoaded>,
) -> bool {
    match written {
        Ok(Some(text)) => give(app, ending, kind, text),
        Ok(None) => false,
        Err(_) => {
            app.say(app.t("part-missing"), true);
            false
        }
    }
}

/// Hands a text of the desk to the user as a file; whether the browser took it.
pub fn give(app: App, ending: &str, kind: &str, text: String) -> bool {
    let Some(name) = app.peek(|d| file_name(d.plan(), ending)) else {
        return false;
    };
    let taken = download(&name, kind, &text.into()).is_ok();
    if !taken {
        app.say(app.t("download-refused"), true);
    }
    taken
}

/// Saves the plan as a file.
pub fn save_plan(app: App) {
    if let Some(text) = app.peek(|d| cordonry::file::write_plan(d.plan())) {
        give_plan(app, text);
    }
}

/// Gives a plan's text as a file of the row's name.
pub fn give_plan(app: App, text: String) {
    give(app, "json", "application/json", text);
}

/// Which row a table holds. Its name says so too: what is planned is no measurement, and a table has no column that
/// could tell them apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TableOf {
    /// The row as it was found, whatever is shown.
    Found,
    /// The row as it is shown: before the work of this time, or after it.
    Shown,
}

/// Saves a row as a table.
pub fn save_table(app: App, of: TableOf) {
    let style = Style {
        lengths: app.style.get_untracked(),
        decimal_comma: false,
    };
    let Some((leaf, before)) = app.peek(|d| match of {
        TableOf::Found => (d.plan().found.leaf, false),
        TableOf::Shown => (d.scene().row.leaf, d.scene().is_before()),
    }) else {
        return;
    };
    let args = [
        ("leaf", Arg::Count(leaf.into())),
        (
            "work",
            Arg::Text(if before { "before" } else { "after" }.into()),
        ),
    ];
    let (name, said) = match of {
        TableOf::Found => ("table-found-name", "table-found-saved"),
        TableOf::Shown => ("table-shown-name", "table-shown-saved"),
    };
    let ending = format!("{}.csv", app.text(name, &args));
    let said = app.text(said, &args);
    spawn_local(async move {
        let written = table(app, of, style).await;
        if give_written(app, &ending, "text/csv", written) {
            app.say(said, false);
        }
    });
}

part! {tables:
    fn table(app: App, of: TableOf, style: Style) -> Option<String> {
        app.peek(|d| {
            let plan = d.plan();
            let (row, tipped) = match of {
                TableOf::Found => (&*plan.found, plan.tipped),
                // What grew since tells itself whether it was cut.
                TableOf::Shown => (&*d.scene().row, None),
            };
            cordonry::file::csv::write(row, &plan.name, &plan.site, tipped, style)
        })
    }
}

part! {paper:
    /// The whole row as it is shown, in the units in use; before the work, with the signs for it.
    fn drawing(app: App) -> Option<String> {
        app.peek(|desk| {
            app.worded(|words| {
                let options = DocumentOptions {
                    words,
                    foliage: false,
                    time: time_of(desk),
                    work: &desk.scene().works(),
                    field: desk.scheme().map(|s| &s.field),
                };
                cordonry_draw::document_with(desk.plan(), &desk.scene().row, &options)
            })
        })
    }
}

/// When the row on the desk is as it is shown; `None` while its record is corrected.
pub fn time_of(desk: &crate::desk::Desk) -> Option<Time> {
    (!desk.is_found()).then(|| desk.scene().time())
}

/// Saves the drawing of the whole row.
pub fn save_drawing(app: App) {
    spawn_local(async move {
        let drawn = drawing(app).await;
        give_written(app, "svg", "image/svg+xml", drawn);
    });
}

/// Saves the drawing of the whole row as a picture.
pub fn save_picture(app: App) {
    let Some(name) = app.peek(|d| file_name(d.plan(), "png")) else {
        return;
    };
    spawn_local(async move {
        match drawing(app).await {
            Ok(Some(svg)) if paint(&name, &svg).await.is_ok() => {}
            Ok(_) => app.say(app.t("download-refused"), true),
            Err(_) => app.say(app.t("part-missing"), true),
        }
    });
}

/// Largest side of a picture, px: browsers refuse larger canvases.
const PICTURE_SIDE: f64 = 8_000.0;

async fn paint(name: &str, svg: &str) -> Result<(), JsValue> {
    let url = object_url(&svg.into(), "image/svg+xml")?;
    let image = web_sys::HtmlImageElement::new()?;
    image.set_src(&url);
    let decoded = JsFuture::from(image.decode()).await;
    Url::revoke_object_url(&url)?;
    decoded?;
    let (width, height) = (
        f64::from(image.natural_width()),
        f64::from(image.natural_height()),
    );
    // Twice the drawing's size, for print.
    let scale = (PICTURE_SIDE / width.max(height).max(1.0)).min(2.0);
    let canvas: web_sys::HtmlCanvasElement = document().create_element("canvas")?.unchecked_into();
    canvas.set_width((width * scale) as u32);
    canvas.set_height((height * scale) as u32);
    let pen: web_sys::CanvasRenderingContext2d = canvas
        .get_context("2d")?
        .ok_or(JsValue::NULL)?
        .unchecked_into();
    pen.draw_image_with_html_image_element_and_dw_and_dh(
        &image,
        0.0,
        0.0,
        width * scale,
        height * scale,
    )?;
    let picture = canvas.to_data_url_with_type("image/png")?;
    give_link(name, &picture)
}
