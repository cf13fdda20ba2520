//! The schemes: which is looked at, what can be done with them, and which stands beside it.

use crate::actions::{self, Action, Shown};
use crate::browser::app::App;
use crate::browser::commands;
use crate::browser::controls::menu::Menu;
use crate::document::{Edit, Schemes};
use leptos::prelude::*;

/// The line of schemes.
#[component]
pub fn SchemeLine(app: App) -> impl IntoView {
    let names = Memo::new(move |_| {
        app.read(|d| {
            d.plan()
                .schemes
                .iter()
                .map(|s| s.name.clone())
                .collect::<Vec<_>>()
        })
        .unwrap_or_default()
    });
    let here = Memo::new(move |_| app.read(|d| d.look().scheme).unwrap_or(0));
    let beside = Memo::new(move |_| app.read(|d| d.scheme_beside()).flatten());
    let one = move |(number, name): (usize, String)| {
        view! {
            <label class:here=move || here.get() == number>
                <input
                    type="radio"
                    name="scheme"
                    data-scheme=number
                    prop:checked=move || here.get() == number
                    on:change=move |_| app.turn(|d| d.look_under(number))
                />
                <span title=name.clone()>{name.clone()}</span>
            </label>
        }
    };
    let option = move |(number, name): (usize, String)| {
        (number != here.get()).then(|| {
            let selected = beside.get() == Some(number);
            view! { <option value=number selected=selected>{name}</option> }
        })
    };
    let button = move |action: &'static Action| {
        let name = action.name;
        view! {
            <button
                class="link"
                data-act=name
                disabled=move || !app.read(action.offered).unwrap_or(false)
                on:click=move |_| commands::act(app, name)
            >
                {app.t(name)}
            </button>
        }
    };
    let each = move || names.get().into_iter().enumerate();
    view! {
        <fieldset class="schemes">
            <legend class="visually-hidden">{app.t("schemes-title")}</legend>
            <span class="scheme-names">{move || each().map(one).collect_view()}</span>
            {move || app.naming.get().then(|| view! { <NameField app/> })}
            <Menu name=app.t("schemes-menu")>
            {actions::shown_at(Shown::Schemes).map(button).collect_view()}
            {move || {
                (names.with(Vec::len) > 1)
                    .then(|| {
                        view! {
                            <span class="two-choice">
                                <span id="two-choice">{app.t("two-choice")}</span>
                                " "
                                <select
                                    data-field="beside"
                                    aria-labelledby="two-choice"
                                    on:change=move |e| {
                                        let number = event_target_value(&e).parse().ok();
                                        app.turn(|d| d.set_beside(number));
                                    }
                                >
                                    <option value="" selected=move || beside.get().is_none()>
                                        {app.t("two-none")}
                                    </option>
                                    {move || each().filter_map(option).collect_view()}
                                </select>
                            </span>
                        }
                    })
            }}
            </Menu>
        </fieldset>
    }
}

/// The name of the scheme that is looked at, to be written over.
#[component]
fn NameField(app: App) -> impl IntoView {
    let name = app.peek(|d| d.scheme().map(|s| s.name.clone())).flatten();
    view! {
        <input
            class="scheme-name"
            aria-label=app.t("scheme-name")
            maxlength="100"
            autocomplete="off"
            prop:value=name
            on:change=move |e| app.edit(Edit::schemes(Schemes::Name(event_target_value(&e))))
            on:blur=move |_| app.naming.set(false)
            on:keydown=move |e| {
                if ["Enter", "Escape"].contains(&e.key().as_str()) {
                    crate::browser::dom::focus("[data-act=scheme-rename]");
                }
            }
        />
    }
}
