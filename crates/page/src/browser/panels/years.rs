//! The year strip: what each leaf brings, and the way to be in it.

use crate::beside::Known;
use crate::browser::app::App;
use crate::browser::controls::dialog::Dialog;
use crate::browser::device::helper::Helper;
use crate::browser::dom;
use crate::browser::parts::{part, shown};
use crate::desk::Desk;
use crate::years::{Cell, cells, doubt_key};
use cordonry::arrange::Gather;
use cordonry::plan::Moment;
use cordonry::said::Arg;
use cordonry_draw::{Chart, Series, charts};
use cordonry_words::Words;
use leptos::prelude::*;
use std::rc::Rc;

/// A text of a leaf.
type Line = fn(&Cell) -> &String;

/// What is told of a leaf: the class of the line, what stands at the head of its like, what it says, and what it says where
/// the pointer rests: a text by name that is the same for every leaf, or one of the leaf.
type OneLine = (&'static str, &'static str, Line, Result<&'static str, Line>);

const LINES: [OneLine; 5] = [
    (
        "year-crop",
        "year-head-crop",
        |c| &c.crop,
        Err(|c| &c.crop_whole),
    ),
    (
        "year-range",
        "year-head-range",
        |c| &c.range,
        Ok("year-when-range"),
    ),
    (
        "year-fill",
        "year-head-fill",
        |c| &c.fill,
        Ok("year-when-fill"),
    ),
    (
        "year-oldest",
        "year-head-oldest",
        |c| &c.oldest,
        Err(|c| &c.oldest_whole),
    ),
    (
        "year-work",
        "year-head-work",
        |c| &c.work,
        Err(|c| &c.work_whole),
    ),
];

/// The leaves; pressing one looks at the row in it, at the same time of the year.
#[component]
pub fn YearStrip(app: App, helper: Helper) -> impl IntoView {
    let told = Memo::new(move |_| {
        app.style.track();
        let mut told = Vec::new();
        with_far(app, helper, &mut |d, far, words| {
            let ranges = far.first().and_then(|[ranges, ..]| ranges.as_deref());
            told = cells(d, ranges, words);
        });
        told
    });
    let open = RwSignal::new(false);
    // What comes and goes are the leaves of another plan alone; else a text changes where it is another one.
    let leaves = Memo::new(move |_| told.with(|t| t.iter().map(|c| c.leaf).collect::<Vec<_>>()));
    let here = Memo::new(move |_| app.read(|d| d.look().moment.leaf).unwrap_or(0));
    let of = move |at: usize, what: Line| told.with(|t| t.get(at).map(|c| what(c).clone()));
    Effect::new(move |_| {
        here.track();
        leaves.track();
        request_animation_frame(|| dom::show_within(".years", ".year.here"));
    });
    let cell = move |(at, leaf): (usize, u8)| {
        let planned = move || told.with(|t| t.get(at).map_or("", |c| c.planned));
        let off = move || told.with(|t| t.get(at).map_or("", |c| c.off));
        let lines = LINES.map(|(class, _, what, whole)| {
            let whole = move || match whole {
                Ok(same) => Some(app.t(same)),
                Err(own) => of(at, own),
            };
            view! { <span class=class title=whole>{move || of(at, what)}</span> }
        });
        view! {
            <label
                class="year"
                class:here=move || here.get() == leaf
                data-leaf=leaf
                data-work=planned
                data-off=off
            >
                <input
                    type="radio"
                    name="leaf"
                    prop:checked=move || here.get() == leaf
                    on:change=move |_| {
                        app.turn(|d| {
                            let window = d.look().moment.window;
                            d.look_at(Moment { leaf, window });
                        });
                    }
                />
                <b>{app.text("season-leaf", &[("leaf", Arg::Count(leaf.into()))])}</b>
                <i class="year-bar" style:width=move || of(at, |c| &c.bar)></i>
                <i class="year-bar beside" style:width=move || of(at, |c| &c.beside)></i>
                {lines.collect_view()}
            </label>
        }
    };
    view! {
        <fieldset class="years">
            <legend class="visually-hidden">{app.t("years-title")}</legend>
            <div class="years-head">
                <button class="link" data-act="charts" on:click=move |_| open.set(true)>
                    {app.t("charts-open")}
                </button>
                {LINES.map(|(class, head, ..)| view! { <span class=class>{app.t(head)}</span> }).collect_view()}
            </div>
            {move || leaves.get().into_iter().enumerate().map(cell).collect_view()}
        </fieldset>
        {move || open.get().then(|| shown(app, Rc::new(move || Box::pin(opened(app, helper, open)))))}
    }
}

/// What reads the desk, what is known of its leaves and the words.
type Reader<'a> = &'a mut dyn FnMut(&Desk, &[Known], &Words);

/// Reads the desk with what is known of the leaves of the scheme that is looked at, and of the one beside it; is told of changes
/// of both.
fn with_far(app: App, helper: Helper, read: Reader<'_>) {
    app.read(|d| {
        let far = helper.far(d);
        app.worded(|w| read(d, &far, w));
    });
}

part! {panels:
    fn opened(app: App, helper: Helper, open: RwSignal<bool>) -> AnyView {
        view! { <Charts app helper open/> }.into_any()
    }
}

/// The figures by leaf as charts, with a table beside each.
#[component]
fn Charts(app: App, helper: Helper, open: RwSignal<bool>) -> impl IntoView {
    let node = NodeRef::<leptos::html::Dialog>::new();
    helper.with_light.set(true);
    on_cleanup(move || helper.with_light.set(false));
    let all = Memo::new(move |_| {
        let mut all = (Vec::new(), true);
        with_far(app, helper, &mut |d, far, words| {
            let schemes = [d.look().scheme].into_iter().chain(d.scheme_beside());
            let years: Vec<_> = schemes.map(|n| (d.scheme_name(n), d.years_of(n))).collect();
            let series = years.iter().zip(far);
            let series = series.map(|((name, years), [ranges, light, _])| Series {
                name,
                years,
                ranges: ranges.as_deref(),
                light: light.as_deref(),
            });
            let series: Vec<Series<'_>> = series.collect();
            all = (
                charts(&series, words),
                series.iter().all(|s| s.light.is_some()),
            );
        });
        all
    });
    // What the strip says of a crop where the pointer rests is said here whole.
    let doubts = Memo::new(move |_| {
        let told = app.read(|d| {
            let schemes = [d.look().scheme].into_iter().chain(d.scheme_beside());
            let doubts = schemes.flat_map(|n| {
                let years = d.years_of(n);
                let limits = d.plan().limits(n);
                let doubts = years.iter().filter_map(|y| y.doubt(d.plan(), n, &limits));
                doubts.map(doubt_key).collect::<Vec<_>>()
            });
            doubts.gathered_set()
        });
        told.unwrap_or_default()
    });
    let row = |cells: Vec<String>| {
        let mut cells = cells.into_iter();
        let name = cells.next();
        let rest = cells.map(|cell| view! { <td>{cell}</td> });
        view! { <tr><th scope="row">{name}</th>{rest.collect_view()}</tr> }
    };
    let one = move |chart: Chart| {
        let named = chart.title.clone();
        view! {
            <figure>
                <h3>{chart.title}</h3>
                <div inner_html=chart.drawing></div>
                <div class="chart-table" tabindex="0" role="group" aria-label=named>
                    <table>{chart.table.into_iter().map(row).collect_view()}</table>
                </div>
            </figure>
        }
    };
    view! {
        <Dialog labelled_by="charts-title" node on_close=move || open.set(false)>
            <h2 id="charts-title">{app.t("charts-title")}</h2>
            <p class="facts">{app.t("charts-what")} " " {app.t("charts-when")}</p>
            {move || doubts.get().into_iter().map(|key| view! { <p class="caution">{app.t(key)}</p> }).collect_view()}
            <div class="charts">{move || all.get().0.into_iter().map(one).collect_view()}</div>
            <p class="facts" role="status">
                {move || all.with(|(_, lit)| (!lit).then(|| app.t("charts-light-waits")))}
            </p>
            <p class="choices">
                <button
                    class="main"
                    on:click=move |_| {
                        if let Some(dialog) = node.get() {
                            dialog.close();
                        }
                    }
                >
                    {app.t("charts-close")}
                </button>
            </p>
        </Dialog>
    }
}
