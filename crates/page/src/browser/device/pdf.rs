//! Pages as a PDF. What writes it is a part of its own, which is loaded when it is first asked for.

use super::files::{download, file_name};
use crate::browser::app::App;
use crate::browser::parts::part;
use cordonry_pdf::{About, pdf};
use wasm_bindgen::JsValue;

/// Pages that are to be saved.
pub struct Drawn {
    /// What the file's name says behind that of the row.
    pub ending: String,
    pub pages: Vec<String>,
    /// The code of the language that they are in.
    pub language: String,
}

/// Saves them as a file; or tells why not.
pub async fn save(app: App, drawn: Drawn) -> Result<(), String> {
    let named = |d: &crate::desk::Desk| (file_name(d.plan(), &drawn.ending), d.plan().name.clone());
    let Some((name, title)) = app.peek(named) else {
        return Ok(());
    };
    let why = match written(drawn.pages, title, drawn.language).await {
        Ok(Some(bytes)) => {
            let bytes = js_sys::Uint8Array::from(bytes.as_slice());
            match download(&name, "application/pdf", &JsValue::from(bytes)) {
                Ok(()) => return Ok(()),
                Err(_) => "download-refused",
            }
        }
        Ok(None) => "pdf-failed",
        Err(_) => "pdf-missing",
    };
    Err(app.t(why))
}

part! {pdf:
    /// The file; `None` where the pages hold what it can't tell.
    fn written(pages: Vec<String>, title: String, language: String) -> Option<Vec<u8>> {
        let about = About {
            title: &title,
            language: &language,
        };
        pdf(&pages, about).ok()
    }
}
