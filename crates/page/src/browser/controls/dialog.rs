//! A sheet over the page that waits for an answer. The browser keeps focus and keys in it, closes it at Escape,
//! and gives the focus back to where it was.

use leptos::html;
use leptos::prelude::*;

/// Something asked over the page; `on_close` is told when it goes, whichever way it is closed.
#[component]
pub fn Dialog(
    /// The element that names it.
    labelled_by: &'static str,
    /// The dialog, for those who close it themselves.
    node: NodeRef<html::Dialog>,
    on_close: impl Fn() + 'static,
    children: Children,
) -> impl IntoView {
    Effect::new(move |_| {
        if let Some(dialog) = node.get()
            && !dialog.open()
        {
            // Only once it stands in the page can it be shown.
            request_animation_frame(move || {
                let _ = dialog.show_modal();
            });
        }
    });
    view! {
        <dialog class="sheet" aria-labelledby=labelled_by node_ref=node on:close=move |_| on_close()>
            {children()}
        </dialog>
    }
}

/// Whether such a sheet is open: the keys are its own then.
pub fn is_open() -> bool {
    document()
        .query_selector("dialog[open]")
        .is_ok_and(|d| d.is_some())
}
