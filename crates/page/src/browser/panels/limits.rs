//! Limits and site: settings of the plan, neither work nor measurements of trees.

use crate::browser::app::App;
use crate::browser::controls::field::{Apply, ValueField};
use crate::browser::panels::numbered::{Numbered, WayBack, listed, numbered};
use crate::desk::Desk;
use crate::document::Edit;
use cordonry::plan::Setting;
use cordonry::row::{Limit, Status};
use cordonry::said::Arg;
use cordonry::said::Quantity;
use cordonry::units::Mm;
use leptos::prelude::*;
use std::rc::Rc;

/// The text of how well founded a value is.
fn status_key(status: Status) -> &'static str {
    match status {
        Status::Published => "status-published",
        Status::Derived => "status-derived",
        Status::CommonPractice => "status-practice",
        Status::FromMemory => "status-memory",
        Status::Assumed => "status-assumed",
    }
}

/// How well founded a value is, and by whom.
pub fn source(app: App, status: Status, source: Option<&'static str>) -> String {
    let status = app.t(status_key(status));
    match source {
        None => status,
        Some(source) => app.text(
            "limit-source",
            &[("status", Arg::Text(status)), ("source", Arg::key(source))],
        ),
    }
}

/// Whether every limit is at its default.
fn all_usual(desk: &Desk) -> bool {
    let scheme = desk.look().scheme;
    let is_usual = |l: &Limit| desk.scene().targets.get(*l) == desk.plan().usual_limit(scheme, *l);
    Limit::ALL.iter().all(is_usual)
}

/// Where the row stands, the trellis, and every limit.
#[component]
pub fn LimitsAndSite(app: App) -> impl IntoView {
    view! {
        <div class="site">
            <h2>{app.t("site-title")}</h2>
            {Setting::ALL.map(|setting| view! { <OneSetting app setting/> }).collect_view()}
            <Posts app/>
        </div>
        {listed(
            app,
            ("limits-title", "limits-what"),
            WayBack { act: "limits-reset", all_usual, edit: Edit::default_limits },
            Limit::ALL.iter().map(|limit| one_limit(app, *limit)).collect(),
        )}
    }
}

#[component]
fn OneSetting(app: App, setting: Setting) -> impl IntoView {
    let value = Memo::new(move |_| app.read(|d| setting.of(d.plan())).flatten());
    let apply: Apply = Rc::new(move |v| {
        app.try_edit(Edit::setting(setting, v.first().copied()))
            .map(drop)
    });
    let key = setting.key();
    view! { <ValueField app label=app.t(key) name=key unit=setting.unit() value apply/> }
}

/// The posts' places, and the way to set them evenly.
#[component]
fn Posts(app: App) -> impl IntoView {
    let written = Memo::new(move |_| {
        app.style.track();
        app.read(|d| {
            let posts = d.plan().found.trellis.posts.iter().map(|p| p.f());
            app.worded(|w| w.field_list(Quantity::Length, posts))
        })
        .unwrap_or_default()
    });
    let wrong = RwSignal::new(None::<String>);
    let take = move |text: String| {
        if text == written.get_untracked() {
            wrong.set(None);
            return;
        }
        let Ok(posts) = app.worded(|w| w.read_list(Quantity::Length, &text)) else {
            wrong.set(Some(app.t("field-no-list")));
            return;
        };
        let at_mm = posts.into_iter().map(Mm::round).collect();
        let outcome = app.try_edit(Edit::posts(at_mm));
        wrong.set(outcome.err().map(|why| app.worded(|w| w.refusal(&why))));
    };
    let every: Apply = Rc::new(move |distance| {
        let Some(distance) = distance.first() else {
            return Ok(());
        };
        app.try_edit(Edit::posts_every(*distance)).map(drop)
    });
    view! {
        <label class="field wide" data-field="posts">
            <span>{app.t("setting-posts")}</span>
            " "
            <textarea
                rows="2"
                prop:value=written
                on:change=move |e| take(event_target_value(&e))
                aria-invalid=move || wrong.get().is_some().to_string()
            ></textarea>
            {move || wrong.get().map(|w| view! { <span class="wrong" role="alert">{w}</span> })}
        </label>
        <ValueField
            app
            label=app.t("setting-posts-every")
            name="posts-every"
            unit=Quantity::Length
            value=Signal::stored(None)
            apply=every
        />
        <p class="facts">{app.t("caution-trellis")}</p>
    }
}

fn one_limit(app: App, limit: Limit) -> AnyView {
    let info = limit.info();
    let value = Memo::new(move |_| {
        app.read(|d| d.scene().targets.get(limit))
            .filter(|v| *v <= info.max)
    });
    let usual = Memo::new(move |_| app.read(|d| d.plan().usual_limit(d.look().scheme, limit)));
    numbered(
        app,
        Numbered {
            key: info.key,
            name: info.text,
            unit: info.unit.typed(),
            behind: None,
            range: (info.min, info.max),
            source: source(app, info.status, info.source),
            value,
            usual,
            set: Rc::new(move |v| app.try_edit(Edit::limit(limit, v)).map(drop)),
        },
    )
}
