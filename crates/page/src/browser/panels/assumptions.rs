//! The rules of the scheme that is looked at, and every value that the model works with.

use super::limits::source;
use super::numbered::{Numbered, WayBack, listed, numbered};
use crate::browser::app::App;
use crate::browser::device::helper::Helper;
use crate::desk::Desk;
use crate::document::{Edit, Request, last_leaf};
use cordonry::forecast::{FIRST_BEARING, SHARES};
use cordonry::model::Parameter;
use cordonry::plan::{Plan, Scheme};
use cordonry::refusal::Refusal;
use cordonry::row::Status;
use cordonry::said::Arg;
use cordonry::standing::{Rule, RuleUnit};
use leptos::prelude::*;
use std::rc::Rc;

/// What stands, and what is assumed.
#[component]
pub fn Assumptions(app: App, helper: Helper) -> impl IntoView {
    let stands = Memo::new(move |_| {
        app.read(|d| d.scheme().is_some_and(|s| s.standing.is_some()))
            .unwrap_or(false)
    });
    view! {
        <div class="limits standing">
            <h2>{app.t("standing-title")}</h2>
            <p class="facts">{app.t("standing-what")}</p>
            <label>
                <input
                    type="checkbox"
                    data-field="standing"
                    prop:checked=stands
                    on:change=move |e| {
                        app.edit(Edit::assumed(Request::Standing(event_target_checked(&e))));
                    }
                />
                " "
                {app.t("standing-on")}
            </label>
            <ul>
                {crop_from(app)}
                {move || {
                    stands.get().then(|| Rule::ALL.iter().map(|rule| one_rule(app, *rule)).collect_view())
                }}
            </ul>
            <Shares app helper/>
        </div>
        {listed(
            app,
            ("parameters-title", "parameters-what"),
            WayBack { act: "assumptions-reset", all_usual, edit: reset_all },
            Parameter::ALL.iter().map(|p| one_parameter(app, *p)).collect(),
        )}
    }
}

/// What each share of renewal costs in crop.
#[component]
fn Shares(app: App, helper: Helper) -> impl IntoView {
    helper.with_shares.set(true);
    on_cleanup(move || helper.with_shares.set(false));
    let told = Memo::new(move |_| app.read(|d| helper.shares(d)).unwrap_or_default());
    let ends = Memo::new(move |_| {
        let of = |d: &Desk| (d.plan().found.leaf.max(FIRST_BEARING), last_leaf(d.plan()));
        app.read(of).unwrap_or_default()
    });
    let leaf = |leaf: u8| Arg::Count(leaf.into());
    let head = move || {
        let crop = app.text("shares-crop", &[("from", leaf(ends.get().0))]);
        let rest = ["shares-late", "shares-oldest", "shares-uprights"].map(|key| app.t(key));
        let all = [app.t("shares-share"), crop].into_iter().chain(rest);
        all.map(|name| view! { <th scope="col">{name}</th> })
            .collect_view()
    };
    let one = move |(share, values): (f64, [f64; 4])| {
        let of = Arg::Count((1.0 / share + 0.5) as i64);
        let cell = |(at, value): (usize, f64)| {
            let places = usize::from(at < 2);
            let value = app.worded(|w| w.arg(&Arg::Number(value, places)));
            view! { <td>{value}</td> }
        };
        view! {
            <tr>
                <th scope="row">{app.text("shares-of", &[("of", of)])}</th>
                {values.into_iter().enumerate().map(cell).collect_view()}
            </tr>
        }
    };
    view! {
        <h3>{app.t("shares-title")}</h3>
        <p class="facts">{move || app.text("shares-what", &[("last", leaf(ends.get().1))])}</p>
        <table class="shares">
            <thead>
                <tr>{head}</tr>
            </thead>
            <tbody>
                {move || SHARES.into_iter().flatten().zip(told.get()).map(one).collect_view()}
            </tbody>
        </table>
        <p class="facts" role="status">
            {move || told.with(Vec::is_empty).then(|| app.t("shares-waits"))}
        </p>
    }
}

/// Whether every value of the model is at its default.
fn all_usual(desk: &Desk) -> bool {
    desk.plan().assumptions.overrides().next().is_none()
}

fn reset_all() -> Edit {
    Edit::assumed(Request::DefaultAssumptions)
}

/// Sets something by an edit.
fn set(app: App, request: Request) -> Result<(), Refusal> {
    app.try_edit(Edit::assumed(request)).map(drop)
}

/// What is read of a scheme.
type OfScheme = Rc<dyn Fn(&Scheme) -> Option<f64>>;

/// A number of the scheme that is looked at.
fn of_scheme(app: App, read: OfScheme) -> Memo<Option<f64>> {
    let read = StoredValue::new_local(read);
    Memo::new(move |_| {
        app.read(|d| read.with_value(|read| read(d.scheme()?)))
            .flatten()
    })
}

fn crop_from(app: App) -> AnyView {
    numbered(
        app,
        Numbered {
            key: "crop_from",
            name: "standing-crop_from",
            unit: RuleUnit::Leaf.typed(),
            behind: None,
            range: (1.0, Plan::MAX_LEAF.into()),
            source: source(app, Status::CommonPractice, None),
            value: of_scheme(app, Rc::new(|s| s.crop_from.map(f64::from))),
            usual: Memo::new(|_| None),
            set: Rc::new(move |leaf| set(app, Request::CropFrom(leaf))),
        },
    )
}

fn one_rule(app: App, rule: Rule) -> AnyView {
    let info = rule.info();
    let value = move |s: &Scheme| Some(s.standing.as_ref()?.rules.get(rule));
    let value = of_scheme(app, Rc::new(value));
    let usual = Memo::new(move |_| Some(info.default));
    let source = source(app, info.status, None);
    if info.unit == RuleUnit::Done {
        let done = move || value.get().is_some_and(|done| done > 0.0);
        return view! {
            <li data-limit=info.key class:changed=move || value.get() != usual.get()>
                <label>
                    <input
                        type="checkbox"
                        data-field=info.key
                        prop:checked=done
                        on:change=move |e| {
                            let done = f64::from(u8::from(event_target_checked(&e)));
                            let _ = set(app, Request::Rule(rule, Some(done)));
                        }
                    />
                    " "
                    {app.t(info.text)}
                </label>
                <span class="source">{source}</span>
            </li>
        }
        .into_any();
    }
    numbered(
        app,
        Numbered {
            key: info.key,
            name: info.text,
            unit: info.unit.typed(),
            behind: None,
            range: rule.range(),
            source,
            value,
            usual,
            set: Rc::new(move |value| set(app, Request::Rule(rule, value))),
        },
    )
}

fn one_parameter(app: App, parameter: Parameter) -> AnyView {
    let info = parameter.info();
    numbered(
        app,
        Numbered {
            key: info.key,
            name: info.texts.0,
            unit: info.unit.typed(),
            behind: info.unit.text(),
            range: (info.low, info.high),
            source: source(app, info.status, Some(info.texts.1)),
            value: Memo::new(move |_| app.read(|d| d.plan().assumptions[parameter])),
            usual: Memo::new(move |_| Some(info.default)),
            set: Rc::new(move |value| set(app, Request::Assumption(parameter, value))),
        },
    )
}
