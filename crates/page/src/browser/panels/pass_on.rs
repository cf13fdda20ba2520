//! The plan on the desk as a link: to be copied, read by a camera, or, where it is too long, saved as a file.

use crate::browser::app::App;
use crate::browser::controls::dialog::Dialog;
use crate::browser::device::files::give_plan;
use crate::browser::device::sent;
use crate::browser::panels::answers;
use crate::browser::parts::{part, shown};
use crate::browser::ways::linked::{learn_pass_on, page_address};
use cordonry::file::link::link_to;
use cordonry::file::sent_copy;
use cordonry::said::Arg;
use cordonry_draw::{MAX_QR, qr};
use leptos::html;
use leptos::prelude::*;
use std::rc::Rc;
use wasm_bindgen_futures::{JsFuture, spawn_local};

/// From so many characters on some programs cut an address off (common practice, no source).
const LONG: usize = 8_000;

/// The sheet over the page, while it is open.
#[component]
pub fn PassOn(app: App) -> impl IntoView {
    let kept = StoredValue::new_local(None);
    move || {
        app.passing
            .get()
            .then(|| shown(app, Rc::new(move || Box::pin(opened(app, kept)))))
    }
}

part! {pass_on:
    fn opened(app: App, kept: answers::CameBack) -> AnyView {
        learn_pass_on(app);
        sheet(app, kept)
    }
}

fn sheet(app: App, kept: answers::CameBack) -> AnyView {
    // What comes back is compared with it.
    let Some((copy, text)) = app.peek(|d| sent_copy(d.plan())) else {
        return ().into_any();
    };
    let (name, made) = (copy.name.clone(), link_to(&text));
    if let Some(own) = copy.sent.last().copied() {
        let text = text.clone();
        spawn_local(async move {
            sent::keep(own, text).await;
        });
    }
    let node = NodeRef::<html::Dialog>::new();
    let close = move || {
        if let Some(dialog) = node.get_untracked() {
            dialog.close();
        }
    };
    let ways = match made {
        Ok(link) => linked(app, &name, format!("{}#{link}", page_address())),
        Err(why) => {
            let why = app.worded(|w| w.refusal(&why));
            view! { <p class="refusal">{why}</p> }.into_any()
        }
    };
    view! {
        <Dialog labelled_by="pass-on-title" node on_close=move || app.passing.set(false)>
            <div class="pass-on">
                <h2 id="pass-on-title">{app.t("pass-on-title")}</h2>
                <p>{app.t("pass-on-carries")}</p>
                {ways}
                <section>
                    <h3>{app.t("pass-on-file")}</h3>
                    <p>{app.t("pass-on-file-how")}</p>
                    <button data-act="pass-on-save" on:click=move |_| give_plan(app, text.clone())>{app.t("save-plan")}</button>
                </section>
                {answers::answers(app, kept)}
                <p class="choices">
                    <button data-act="pass-on-close" on:click=move |_| close()>{app.t("charts-close")}</button>
                </p>
            </div>
        </Dialog>
    }
    .into_any()
}

/// The link, and its code.
fn linked(app: App, name: &str, address: String) -> AnyView {
    let length = address.len();
    let count = [
        ("count", Arg::Count(length as i64)),
        ("high", Arg::Count(LONG as i64)),
        ("most", Arg::Count(MAX_QR as i64)),
    ];
    let told = RwSignal::new(None::<String>);
    let field = NodeRef::<html::Textarea>::new();
    let copied = address.clone();
    let copy = move |_| {
        let address = copied.clone();
        spawn_local(async move {
            let key = match to_clipboard(&address).await {
                true => "pass-on-copied",
                false => {
                    if let Some(field) = field.get_untracked() {
                        let _ = field.focus();
                        field.select();
                    }
                    "pass-on-selected"
                }
            };
            told.try_set(Some(app.t(key)));
        });
    };
    let long = (length >= LONG).then(|| {
        let warning = app.text("pass-on-long", &count);
        view! { <p class="refusal" data-is="long">{warning}</p> }
    });
    let local = address.starts_with("file:");
    let here = local.then(|| view! { <p class="assumed">{app.t("pass-on-here")}</p> });
    let code = match qr(&address, name) {
        Some(drawn) => view! {
            <p>{app.t("pass-on-code-how")}</p>
            <div class="qr" inner_html=drawn></div>
        }
        .into_any(),
        None => view! { <p>{app.text("pass-on-code-long", &count)}</p> }.into_any(),
    };
    view! {
        <section>
            <h3><label for="pass-on-link">{app.t("pass-on-link")}</label></h3>
            <textarea id="pass-on-link" node_ref=field readonly rows="3" spellcheck="false" prop:value=address></textarea>
            <p>
                <button class="main" data-act="pass-on-copy" on:click=copy>{app.t("pass-on-copy")}</button>
                " " <span data-is="length">{app.text("pass-on-length", &count)}</span>
                " " <span role="status">{told}</span>
            </p>
            {long}
            {here}
        </section>
        <section>
            <h3>{app.t("pass-on-code")}</h3>
            {code}
        </section>
    }
    .into_any()
}

async fn to_clipboard(text: &str) -> bool {
    // A page that did not come over a safe line has no such thing, whatever its type says.
    let navigator = window().navigator();
    let has = js_sys::Reflect::get(&navigator, &"clipboard".into());
    if !has.is_ok_and(|clipboard| clipboard.is_object()) {
        return false;
    }
    JsFuture::from(navigator.clipboard().write_text(text))
        .await
        .is_ok()
}
