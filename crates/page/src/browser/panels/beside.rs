//! A second scheme beside the one that is worked on: its wall under the other at the same scale and place, the figures of
//! both, and what differs.

use crate::beside::{self, Line};
use crate::browser::app::App;
use crate::browser::device::helper::Helper;
use crate::browser::dom;
use crate::browser::parts::part;
use crate::browser::wall::WallScreen;
use crate::browser::wall::layers::Layers;
use cordonry::said::Arg;
use leptos::prelude::*;

/// Under one scheme: its name, and the work of the moment that is done under it alone, with how much more there is.
type Work = (String, Vec<String>, usize);

/// The names of both schemes; none while one stands alone.
pub fn names(app: App) -> Option<[String; 2]> {
    app.read(|d| beside::both(d).map(|both| both.map(|(_, name)| name.to_string())))
        .flatten()
}

part! {panels:
    /// The other wall.
    pub fn wall(app: App) -> AnyView {
        view! { <BesideWall app/> }.into_any()
    }
}

part! {panels:
    /// What is told of both.
    pub fn told(app: App, helper: Helper) -> AnyView {
        view! { <BesideTold app helper/> }.into_any()
    }
}

#[component]
fn BesideWall(app: App) -> impl IntoView {
    let host = NodeRef::<leptos::html::Div>::new();
    let band = NodeRef::<leptos::html::Div>::new();
    Effect::new(move |_| {
        if let (Some(host), Some(band)) = (host.get(), band.get())
            && let Some(layers) = Layers::new(&host)
        {
            app.set_wall_beside(WallScreen::new(&layers, &host, &band));
        }
    });
    on_cleanup(move || app.set_wall_beside(None));
    let other = move || names(app).map(|[_, other]| other);
    let label = move || {
        let scheme = Arg::Text(other().unwrap_or_default());
        app.text("two-wall", &[("scheme", scheme)])
    };
    view! {
        <p class="beside-name">
            <b>{other}</b>
            <button
                class="link"
                data-act="two-swap"
                on:click=move |_| {
                    app.turn(|d| {
                        if let Some(number) = d.scheme_beside() {
                            d.look_under(number);
                        }
                    });
                }
            >
                {app.t("two-swap")}
            </button>
            <button
                class="link"
                data-act="two-close"
                on:click=move |_| {
                    app.turn(|d| d.set_beside(None));
                    dom::focus(".schemes summary");
                }
            >
                {app.t("two-close")}
            </button>
        </p>
        <div class="stage-beside" node_ref=host role="img" aria-label=label></div>
        <div class="band" node_ref=band aria-hidden="true"></div>
        <p class="under-band">{app.t("two-key")}</p>
    }
}

#[component]
fn BesideTold(app: App, helper: Helper) -> impl IntoView {
    helper.with_effort.set(true);
    on_cleanup(move || helper.with_effort.set(false));
    let names = Memo::new(move |_| names(app).unwrap_or_default());
    let told = Memo::new(
        move |old: Option<&(Vec<Line>, Vec<Work>, Option<String>)>| {
            app.style.track();
            let now = app.read(|d| match old {
                // While a hand is on the wall what is told waits.
                Some(old) if d.is_holding() => old.clone(),
                _ => app.worded(|w| {
                    let names = names.get().into_iter().zip(beside::works(d, w));
                    let works = names.map(|(name, (lines, more))| (name, lines, more));
                    let works: Vec<Work> = works.collect();
                    let same = works.iter().all(|w| w.1.is_empty());
                    let apart = same.then(|| beside::apart(d, w)).flatten();
                    (beside::figures(d, &helper.far(d), w), works, apart)
                }),
            });
            now.unwrap_or_default()
        },
    );
    let line = |line: Line| {
        let [own, other] = line.values;
        let differs = own != other;
        view! {
            <tr class:differs=differs>
                <th scope="row">{line.name}</th>
                <td>{own}</td>
                <td>{differs.then_some("≠ ")} {other}</td>
            </tr>
        }
    };
    let work = move |(name, lines, more): Work| {
        (!lines.is_empty()).then(|| {
            let more =
                (more > 0).then(|| app.text("two-more", &[("count", Arg::Count(more as i64))]));
            let lines = lines.into_iter().chain(more);
            view! {
                <div>
                    <h3>{app.text("two-work", &[("scheme", Arg::Text(name))])}</h3>
                    <ul>{lines.map(|l| view! { <li>{l}</li> }).collect_view()}</ul>
                </div>
            }
        })
    };
    view! {
        <section class="beside" aria-labelledby="two-title">
            // What a lesson asks and answers stands by its two walls.
            <p class="facts">{move || app.read(|d| d.plan().note.clone())}</p>
            <h2 id="two-title">
                {move || {
                    let [one, other] = names.get().map(Arg::Text);
                    app.text("two-title", &[("one", one), ("other", other)])
                }}
            </h2>
            <div class="beside-told">
                <table>
                    <thead>
                        <tr>
                            <th scope="col">{app.t("two-figure")}</th>
                            {move || {
                                names.get().map(|name| view! { <th scope="col">{name}</th> }).collect_view()
                            }}
                        </tr>
                    </thead>
                    <tbody>{move || told.get().0.into_iter().map(line).collect_view()}</tbody>
                </table>
                {move || {
                    let works = told.get().1;
                    match works.iter().all(|w| w.1.is_empty()) {
                        true => view! {
                            <p class="facts">{app.t("two-same")} " " {told.get().2}</p>
                        }.into_any(),
                        false => works.into_iter().map(work).collect_view().into_any(),
                    }
                }}
            </div>
        </section>
    }
}
