//! The year strip: what each leaf brings, and the way to be in it.

use crate::browser::app::App;
use crate::browser::controls::dialog::Dialog;
use crate::browser::device::helper::Helper;
use crate::browser::dom;
use crate::desk::Desk;
use crate::helper::OfScheme;
use crate::years::{Cell, cells};
use cordonry::plan::Moment;
use cordonry::said::Arg;
use cordonry_draw::{Chart, charts};
use cordonry_words::Words;
use leptos::prelude::*;

/// A text of a leaf.
type Line = fn(&Cell) -> &String;

/// What is told of a leaf, by the class of its line.
const LINES: [(&str, Line); 5] = [
    ("year-crop", |c| &c.crop),
    ("year-range", |c| &c.range),
    ("year-fill", |c| &c.fill),
    ("year-oldest", |c| &c.oldest),
    ("year-work", |c| &c.work),
];

/// The leaves; pressing one looks at the row in it, at the same time of the year.
#[component]
pub fn YearStrip(app: App, helper: Helper) -> impl IntoView {
    let told = Memo::new(move |_| {
        app.style.track();
        let mut told = Vec::new();
        with_ranges(app, helper, &mut |d, ranges, words| {
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
        let lines = LINES.map(|(class, what)| {
            view! { <span class=class title=move || of(at, what)>{move || of(at, what)}</span> }
        });
        view! {
            <label
                class="year"
                class:here=move || here.get() == leaf
                data-leaf=leaf
                data-work=planned
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
                {lines.collect_view()}
            </label>
        }
    };
    view! {
        <fieldset class="years">
            <legend class="visually-hidden">{app.t("years-title")}</legend>
            {move || leaves.get().into_iter().enumerate().map(cell).collect_view()}
            <button class="link" data-act="charts" on:click=move |_| open.set(true)>
                {app.t("charts-open")}
            </button>
        </fieldset>
        {move || open.get().then(|| view! { <Charts app helper open/> })}
    }
}

/// What reads the desk, its crop's ranges and the words.
type Reader<'a> = &'a mut dyn FnMut(&Desk, Option<&[(f64, f64)]>, &Words);

/// Reads the desk with what is known of its crop's ranges, and is told of changes of both.
fn with_ranges(app: App, helper: Helper, read: Reader<'_>) {
    helper.crop.with(|known| {
        app.read(|d| {
            let now = OfScheme::whole(d);
            let known = known.as_ref().filter(|(of, _)| *of == now);
            app.worded(|w| read(d, known.map(|(_, ranges)| &**ranges), w));
        });
    });
}

/// The figures by leaf as charts, with a table beside each.
#[component]
fn Charts(app: App, helper: Helper, open: RwSignal<bool>) -> impl IntoView {
    let node = NodeRef::<leptos::html::Dialog>::new();
    let all = Memo::new(move |_| {
        let mut all = Vec::new();
        with_ranges(app, helper, &mut |d, ranges, words| {
            all = charts(&d.years(), ranges, words);
        });
        all
    });
    let row = |cells: Vec<String>| {
        let mut cells = cells.into_iter();
        let name = cells.next();
        let rest = cells.map(|cell| view! { <td>{cell}</td> });
        view! { <tr><th scope="row">{name}</th>{rest.collect_view()}</tr> }
    };
    let one = move |chart: Chart| {
        view! {
            <figure>
                <h3>{chart.title}</h3>
                <div inner_html=chart.drawing></div>
                <table>{chart.table.into_iter().map(row).collect_view()}</table>
            </figure>
        }
    };
    view! {
        <Dialog labelled_by="charts-title" node on_close=move || open.set(false)>
            <h2 id="charts-title">{app.t("charts-title")}</h2>
            <p class="facts">{app.t("charts-what")}</p>
            <div class="charts">{move || all.get().into_iter().map(one).collect_view()}</div>
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
