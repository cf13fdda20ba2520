//! A measured row, looked at before it is used: how far it is read, the row that comes out, what the table leaves open, what was
//! assumed, and which lines are bad and why.

use super::incoming::Incoming;
use crate::browser::controls::dialog::Dialog;
use crate::browser::controls::lines::Lines;
use crate::helper::{Ask, Looked};
use cordonry::said::Arg;
use leptos::prelude::*;

/// The table that comes in, over the page, with the two answers.
#[component]
pub fn Import(incoming: Incoming) -> impl IntoView {
    let Incoming { app, looked, .. } = incoming;
    let shown = Memo::new(move |_| incoming.shown.get());
    let told = move |tell: fn(&Looked) -> bool| looked.with(|l| l.as_ref().is_some_and(tell));
    let usable = move || told(|l| !l.plan().is_empty());
    // A table of which little is understood is rather not used: then that is the answer at hand.
    let likely = move || usable() && !told(Looked::is_mostly_bad);
    let title = move || {
        let named = looked.with(|l| l.as_ref().map(|l| l.title().to_string()));
        let row = named.unwrap_or_else(|| incoming.name.get());
        app.text("import-title", &[("row", Arg::Text(row))])
    };
    let there = Memo::new(move |_| looked.with(Option::is_some));
    move || {
        shown.get().then(|| {
            view! {
                <Dialog
                    labelled_by="import-title"
                    node=incoming.sheet
                    on_close=move || incoming.forget()
                >
                    <h2 id="import-title">{title}</h2>
                    <p aria-live="polite">{how_far(incoming)}</p>
                    {move || match there.get() {
                        true => view! { <Holds incoming/> }.into_any(),
                        false => view! { <Bar incoming/> }.into_any(),
                    }}
                    <p class="choices import-choices">
                        <button
                            class:main=likely
                            autofocus=likely
                            disabled=move || !usable()
                            data-act="import-use"
                            on:click=move |_| incoming.take()
                        >
                            {app.t("import-use")}
                        </button>
                        <button
                            class:main=move || !likely()
                            data-act="import-leave"
                            autofocus=move || !likely()
                            on:click=move |_| incoming.leave()
                        >
                            {app.t("import-leave")}
                        </button>
                    </p>
                </Dialog>
            }
        })
    }
}

/// How much was understood, or how far it is read: in steps of a tenth, which those who are read to can follow.
fn how_far(incoming: Incoming) -> Memo<String> {
    let Incoming {
        app, looked, read, ..
    } = incoming;
    let tenths = Memo::new(move |_| {
        let (read, of) = read.get();
        ((read * 10.0 / of.max(1.0)) as i64, of as i64)
    });
    Memo::new(move |_| {
        if let Some(taken) = looked.with(|l| l.as_ref().map(|l| l.taken().to_string())) {
            return taken;
        }
        let (tenths, of) = tenths.get();
        let share = Arg::Share(tenths as f64 / 10.0);
        app.text(
            "import-reading",
            &[("share", share), ("lines", Arg::Count(of))],
        )
    })
}

/// How far a table is read.
#[component]
fn Bar(incoming: Incoming) -> impl IntoView {
    let share = move || {
        let (read, of) = incoming.read.get();
        (of > 0.0).then_some(read / of)
    };
    view! { <progress aria-labelledby="import-title" value=share></progress> }
}

/// What a table holds: its row, what it leaves open, what was assumed and what is left out.
#[component]
fn Holds(incoming: Incoming) -> impl IntoView {
    let Incoming { app, looked, .. } = incoming;
    let of = move |tell: fn(&Looked) -> String| {
        looked.with(|l| l.as_ref().map(tell)).unwrap_or_default()
    };
    let drawing = Memo::new(move |_| of(|l| l.drawing().to_string()));
    let keys = Memo::new(move |_| {
        looked.with(|l| {
            let asks = l.iter().flat_map(Looked::asks);
            asks.map(|a| a.key.to_string()).collect::<Vec<_>>()
        })
    });
    let asks = Memo::new(move |_| keys.with(|k| !k.is_empty()));
    view! {
        {move || {
            let drawn = drawing.get();
            (!drawn.is_empty())
                .then(|| {
                    view! {
                        <div
                            class="import-row"
                            tabindex="0"
                            role="img"
                            aria-label=app.t("import-drawing")
                            inner_html=drawn
                        ></div>
                    }
                })
        }}
        <Slips incoming/>
        {move || {
            asks.get()
                .then(|| {
                    view! {
                        <fieldset class="import-asks">
                            <legend>{app.t("import-asks")}</legend>
                            <For
                                each=move || keys.get()
                                key=String::clone
                                children=move |key| question(incoming, key)
                            />
                        </fieldset>
                    }
                })
        }}
        {move || looked.get().map(|looked| view! { <Details looked/> })}
    }
}

/// A question with its answer: a field with its range, or a choice. It stays while the table is read with the answer.
fn question(incoming: Incoming, key: String) -> AnyView {
    let Incoming { app, looked, .. } = incoming;
    let id = format!("wrong-{}", key.replace(char::is_whitespace, "-"));
    let name = key.clone();
    let told = move |tell: fn(&Ask<'_>) -> String| {
        looked.with(|l| {
            let mut asks = l.iter().flat_map(Looked::asks);
            asks.find(|a| a.key == name).map(|a| tell(&a))
        })
    };
    let of = move |tell: fn(&Ask<'_>) -> String| {
        let told = told.clone();
        Memo::new(move |was: Option<&String>| {
            // A question that goes says nothing any more.
            told(tell).or_else(|| was.cloned()).unwrap_or_default()
        })
    };
    let (label, shown, range) = (
        of(|a| a.label.to_string()),
        of(|a| a.shown().to_string()),
        of(|a| a.range.to_string()),
    );
    let (wrong, follows) = (of(|a| a.wrong.to_string()), of(|a| a.follows.to_string()));
    let choices = looked.with_untracked(|l| {
        let mut asks = l.iter().flat_map(Looked::asks);
        asks.find(|a| a.key == key).map_or(&[][..], |a| a.choices())
    });
    let (asked, answered) = (key.clone(), key);
    let answer = move |typed: String| {
        if typed != shown.get_untracked() {
            incoming.answer(&answered, &typed);
        }
    };
    let invalid = move || wrong.with(|w| !w.is_empty()).to_string();
    let entry = match choices.is_empty() {
        true => view! {
            <input
                type="text"
                autocomplete="off"
                data-ask=asked
                aria-describedby=id.clone()
                aria-invalid=invalid
                prop:value=shown
                on:change=move |e| answer(event_target_value(&e))
            />
        }
        .into_any(),
        false => {
            let options = choices.iter().map(|(word, text)| {
                view! { <option value=*word selected=move || shown.with(|s| s == word)>{app.t(text)}</option> }
            });
            view! {
                <select data-ask=asked on:change=move |e| answer(event_target_value(&e))>
                    {options.collect_view()}
                </select>
            }
            .into_any()
        }
    };
    view! {
        <p>
            <label>{label} " " {entry}</label>
            " "
            <small>{range}</small>
            <small class="follows" aria-live="polite">{follows}</small>
            <span id=id class="wrong" role="alert">{wrong}</span>
        </p>
    }
    .into_any()
}

/// Lines that look like slips, with a press that takes what was likely meant and one that takes that back.
#[component]
fn Slips(incoming: Incoming) -> impl IntoView {
    let Incoming { app, looked, .. } = incoming;
    let lines = Lines::new(".slips li", ".slips li button");
    let all = Memo::new(move |_| {
        looked.with(|l| {
            let said = l
                .iter()
                .flat_map(Looked::said)
                .filter(|a| !a.cell.is_empty());
            said.map(|a| [a.said, a.cell, a.reads, a.button].map(String::from))
                .collect::<Vec<_>>()
        })
    });
    Effect::new(move |_| {
        all.track();
        lines.changed();
    });
    let one = move |[said, cell, reads, button]: [String; 4]| {
        let asked = cell.clone();
        view! {
            <li>
                {said} " "
                <button
                    data-cell=asked
                    on:click=move |_| incoming.read_as(&[cell.clone(), reads.clone()])
                >
                    {button}
                </button>
            </li>
        }
    };
    let likely = Memo::new(move |_| {
        looked
            .with(|l| l.as_ref().map(|l| l.slips().to_vec()))
            .unwrap_or_default()
    });
    let together = move || {
        let slips = likely.get();
        (slips.len() > 2).then(|| {
            let count = Arg::Count(slips.len() as i64 / 2);
            view! {
                <button data-act="import-take-all" on:click=move |_| incoming.read_as(&slips)>
                    {app.text("import-take-all", &[("count", count)])}
                </button>
            }
        })
    };
    let there = Memo::new(move |_| all.with(|a| !a.is_empty()));
    move || {
        there.get().then(|| {
            view! {
                <div
                    class="slips"
                    on:focusin=move |e| lines.entered(&e)
                    on:focusout=move |e| lines.left(&e)
                >
                    <h3>{app.t("import-slips")}</h3>
                    <ul>{move || all.get().into_iter().map(one).collect_view()}</ul>
                    {together}
                </div>
            }
        })
    }
}

/// What else was assumed of a table, and which lines are left out.
#[component]
fn Details(looked: Looked) -> impl IntoView {
    let said = looked.said().filter(|a| a.cell.is_empty());
    let said = said.map(|a| view! { <li>{a.said.to_string()}</li> });
    let lines = looked.bad().chunks_exact(3).map(|line| {
        view! {
            <tr>
                <th scope="row">{line[0].clone()}</th>
                <td>{line[1].clone()}</td>
                <td>
                    <code>{line[2].clone()}</code>
                </td>
            </tr>
        }
    });
    let bad_lines = (!looked.bad().is_empty()).then(|| {
        view! {
            <h3>{looked.left_out().to_string()}</h3>
            <div class="bad-lines" tabindex="0" role="region" aria-labelledby="import-title">
                <table>
                    <tbody>{lines.collect_view()}</tbody>
                </table>
            </div>
        }
    });
    view! {
        <ul class="said">{said.collect_view()}</ul>
        {bad_lines}
    }
}
