//! What the finished wall takes, what its wires bear, and trees as they are delivered: which goes where, and the sheet to plant by.

use super::numbered::{Numbered, numbered};
use super::offer::Offer;
use super::pdf::{Drawing, pdf_press};
use super::print::PaperChoice;
use super::spoken::{learn_handed, spoken_choice, spoken_words};
use crate::browser::app::App;
use crate::browser::controls::dialog::Dialog;
use crate::browser::controls::field::{Apply, ValueField};
use crate::browser::device::files::give;
use crate::browser::device::pdf::Drawn;
use crate::browser::device::settings;
use crate::browser::dom;
use crate::browser::parts::part;
use crate::document::Edit;
use cordonry::materials::wire::Wire;
use cordonry::materials::{
    Ask, Delivered, Item, Needs, Placed, Prices, just_planted, listed, needs, place, recorded,
};
use cordonry::range::{self, Range};
use cordonry::refusal::Refusal;
use cordonry::said::{Arg, Quantity};
use cordonry_draw::{Laid, Order, is_headed, placed_line};
use cordonry_words::Words;
use leptos::html;
use leptos::prelude::*;
use std::rc::Rc;
use std::sync::Arc;
use wasm_bindgen_futures::spawn_local;

/// What opens it, and where it opens.
pub const OFFER: Offer = Offer {
    act: "order",
    does: "order-do",
    what: "order-what-for",
    opened: |app, open| Box::pin(opened(app, open)),
};

part! {crew:
    fn opened(app: App, open: RwSignal<bool>) -> AnyView {
        Sheet::new(app, learn_handed(app)).view(open)
    }
}

/// What is printed.
#[derive(Clone, Copy)]
enum Printed {
    Order,
    Planting,
}

/// Trees that were delivered, and which place gets which.
#[derive(Clone, Debug, Default, PartialEq)]
struct Delivery {
    trees: Vec<Delivered>,
    placed: Vec<Placed>,
    lacking: i64,
}

/// The sheet with what is typed on it.
#[derive(Clone, Copy)]
struct Sheet {
    app: App,
    ask: RwSignal<Ask>,
    prices: RwSignal<Prices>,
    currency: RwSignal<String>,
    needs: Memo<Option<Needs>>,
    /// The list of delivered trees, what is wrong with it, and where they go.
    list: RwSignal<String>,
    bad: RwSignal<Vec<String>>,
    delivery: RwSignal<Option<Delivery>>,
    /// The language of what is printed.
    spoken: RwSignal<String>,
    /// Why nothing is printed.
    wrong: RwSignal<Option<String>>,
}

impl Sheet {
    fn new(app: App, code: &str) -> Self {
        let ask = RwSignal::new(Ask::default());
        let (prices, currency) = kept_prices();
        Self {
            app,
            ask,
            prices: RwSignal::new(prices),
            currency: RwSignal::new(currency),
            needs: Memo::new(move |_| {
                let ask = ask.get();
                app.read(|d| needs(d.plan(), d.look().scheme, &ask))
            }),
            list: RwSignal::new(String::new()),
            bad: RwSignal::new(Vec::new()),
            delivery: RwSignal::new(None),
            spoken: RwSignal::new(code.to_string()),
            wrong: RwSignal::new(None),
        }
    }

    /// Something of the order as it stands.
    fn order<T: Default>(self, words: &Words, f: impl FnOnce(&Order<'_>) -> T) -> T {
        let (ask, prices, currency) = (self.ask.get(), self.prices.get(), self.currency.get());
        let told = self.needs.with(|needs| {
            let needs = needs.as_ref()?;
            self.app.peek(|d| {
                f(&Order {
                    plan: d.plan(),
                    needs,
                    ask: &ask,
                    prices: &prices,
                    currency: &currency,
                    words,
                })
            })
        });
        told.unwrap_or_default()
    }

    fn told<T: Default>(self, f: impl FnOnce(&Order<'_>) -> T) -> T {
        self.app.worded(|words| self.order(words, f))
    }

    /// The sheets that are asked for, in the language that is chosen.
    async fn sheets(self, what: Printed) -> Result<Vec<String>, String> {
        let app = self.app;
        let code = self.spoken.get_untracked();
        let Some(words) = spoken_words(app, &code).await else {
            return Err(app.t("part-missing"));
        };
        let paper = app.paper.get_untracked();
        Ok(untrack(|| {
            self.laid_out(|laid| {
                self.order(&words, |order| match what {
                    Printed::Order => order.sheets(paper),
                    Printed::Planting => order.planting(laid, paper),
                })
            })
        }))
    }

    fn print(self, what: Printed) {
        self.wrong.set(None);
        spawn_local(async move {
            match self.sheets(what).await {
                Ok(pages) => {
                    self.app.handed.set_value(pages);
                    dom::print();
                }
                Err(why) => self.wrong.set(Some(why)),
            }
        });
    }

    /// The same as a file.
    async fn drawn(self, what: Printed) -> Result<Drawn, String> {
        let name = match what {
            Printed::Order => "order-table-name",
            Printed::Planting => "planting-file",
        };
        let pages = self.sheets(what).await?;
        Ok(Drawn {
            ending: self.app.t(name) + ".pdf",
            pages,
            language: self.spoken.get_untracked(),
        })
    }

    fn save(self, what: Printed) {
        let (name, table) = match what {
            Printed::Order => ("order-table-name", untrack(|| self.told(|o| o.table()))),
            Printed::Planting => {
                let table = |laid: Option<Laid<'_>>| self.told(|o| o.planting_table(laid));
                ("planting-file", untrack(|| self.laid_out(table)))
            }
        };
        let ending = format!("{}.csv", self.app.t(name));
        give(self.app, &ending, "text/csv", table);
    }

    /// Keeps the prices on the device: they are whoever buys', not the row's.
    fn keep(self) {
        let of = |item: Item| {
            let price = self.prices.with_untracked(|p| p.of(item))?;
            Some(format!("{}={price}\n", item.name()))
        };
        let lines: String = Item::ALL.into_iter().filter_map(of).collect();
        let currency = self.currency.get_untracked();
        settings::keep(settings::PRICES, &format!("{lines}{CURRENCY}={currency}"));
    }

    /// Something of the delivered trees as they are laid out, where they are.
    fn laid_out<T>(self, f: impl FnOnce(Option<Laid<'_>>) -> T) -> T {
        self.delivery.with(|delivery| {
            f(delivery.as_ref().map(|d| Laid {
                trees: &d.trees,
                placed: &d.placed,
            }))
        })
    }

    /// What is asked beside the plan, each with its range and the way back.
    fn asks(self) -> AnyView {
        type Get = fn(&Ask) -> f64;
        type Set = fn(&mut Ask, f64);
        let crop: (Get, Set) = (|a| a.crop, |a, n| a.crop = n);
        let spare: (Get, Set) = (|a| a.spare_share, |a, n| a.spare_share = n);
        let wire: (Get, Set) = (|a| a.wire.diameter, |a, n| a.wire = Wire { diameter: n });
        let judged = "order-source-memory-judged";
        [
            (
                "spares",
                "order-spares",
                Quantity::Share,
                None,
                Ask::SPARE,
                "order-source-memory",
                spare,
            ),
            (
                "crop",
                "order-crop",
                Quantity::Number,
                Some("order-crop-unit"),
                Ask::CROP,
                judged,
                crop,
            ),
            (
                "wire",
                "order-wire",
                Quantity::Thickness,
                None,
                Wire::DIAMETER,
                "order-source-memory",
                wire,
            ),
        ]
        .map(|(key, name, unit, behind, range, source, (get, set))| {
            let usual = get(&Ask::default());
            let put = move |typed: Option<f64>| {
                let value = within(unit, range, typed.unwrap_or(usual))?;
                self.ask.update(|ask| set(ask, value));
                Ok(())
            };
            numbered(
                self.app,
                Numbered {
                    key,
                    name,
                    unit,
                    behind,
                    range,
                    source: self.app.t(source),
                    value: Memo::new(move |_| Some(self.ask.with(get))),
                    usual: Memo::new(move |_| Some(usual)),
                    set: Rc::new(put),
                },
            )
        })
        .into_any()
    }

    fn priced(self) -> AnyView {
        let app = self.app;
        let price = |item: Item| {
            let label = app.text("order-price", &[("item", Arg::Text(item.name().into()))]);
            let apply: Apply = Rc::new(move |typed| {
                let price = typed.first().copied();
                let price = price.map(|p| within(Quantity::Number, Prices::RANGE, p));
                let price = price.transpose()?;
                self.prices.update(|p| p.set(item, price));
                self.keep();
                Ok(())
            });
            let value = Signal::derive(move || self.prices.with(|p| p.of(item)));
            view! { <li><ValueField app label name=item.name() unit=Quantity::Number value apply/></li> }
        };
        view! {
            <details class="limits">
                <summary>{app.t("order-prices")}</summary>
                <p class="facts">{app.t("order-prices-what")}</p>
                <ul>{Item::ALL.map(price)}</ul>
                <label>
                    {app.t("order-currency")} " "
                    <input
                        type="text"
                        maxlength="12"
                        autocomplete="off"
                        data-field="currency"
                        prop:value=move || self.currency.get()
                        on:input=move |e| {
                            self.currency.set(event_target_value(&e));
                            self.keep();
                        }
                    />
                </label>
            </details>
        }
        .into_any()
    }

    /// A table: its columns, its lines.
    fn table(
        self,
        key: &'static str,
        columns: &[&'static str],
        lines: Signal<Vec<Vec<String>>>,
    ) -> AnyView {
        let head = columns
            .iter()
            .map(|c| view! { <th scope="col">{self.app.t(c)}</th> });
        let cell = |cell: String| view! { <td>{cell}</td> };
        let line = move |line: Vec<String>| {
            let mut cells = line.into_iter();
            let name = cells.next();
            view! { <tr><th scope="row">{name}</th>{cells.map(cell).collect_view()}</tr> }
        };
        view! {
            <table class="order-table" data-table=key>
                <thead><tr>{head.collect_view()}</tr></thead>
                <tbody>{move || lines.get().into_iter().map(line).collect_view()}</tbody>
            </table>
        }
        .into_any()
    }

    fn listed(self) -> AnyView {
        let app = self.app;
        let lines = Signal::derive(move || {
            self.told(|o| {
                let lines = o.lines().into_iter();
                lines.map(|l| vec![l.name, l.told, l.cost]).collect()
            })
        });
        let loads =
            Signal::derive(move || self.told(|o| o.loads().into_iter().map(Vec::from).collect()));
        let note = move |at: usize| self.told(|o| o.notes()[at].clone());
        let columns = [
            "order-column-what",
            "order-column-amount",
            "order-column-cost",
        ];
        let of_loads = [
            "order-height",
            "order-crop-on",
            "order-tension",
            "order-sag",
        ];
        let cautions = self.told(|o| o.cautions().to_vec());
        view! {
            {self.table("order", &columns, lines)}
            <p class="order-sum" role="status">{move || self.told(|o| o.sum())}</p>
            <p class="facts">{move || note(1)}</p>
            {self.priced()}
            <h3>{app.t("order-loads")}</h3>
            {self.table("loads", &of_loads, loads)}
            <p class="facts">{move || note(2)}</p>
            {cautions.into_iter().map(|c| view! { <p class="caution">{c}</p> }).collect_view()}
        }
        .into_any()
    }

    /// Reads the list and lays its trees out; or says what is wrong with it.
    fn lay(self) {
        let app = self.app;
        let text = self.list.get_untracked();
        let (trees, bad) = app.worded(|words| {
            let headed = |word: &str| is_headed(words, word);
            let read = |length: &str| words.read(Quantity::Length, length);
            let (trees, bad) = listed(&text, &headed, &read);
            (
                trees,
                bad.iter().map(|why| words.say(why)).collect::<Vec<_>>(),
            )
        });
        let none = (trees.is_empty() && bad.is_empty()).then(|| app.t("delivered-none"));
        let fine = bad.is_empty() && none.is_none();
        self.bad.set(bad.into_iter().chain(none).collect());
        let laid = fine.then(|| {
            let wanted = self.needs.with_untracked(|needs| {
                let needs = needs.as_ref();
                needs.map_or_else(Vec::new, |n| n.stocks.iter().map(|s| s.need()).collect())
            });
            let (placed, lacking) = place(&wanted, &trees);
            Delivery {
                trees,
                placed,
                lacking,
            }
        });
        self.delivery.set(laid);
    }

    /// The trees that were laid out, in a sentence, and place by place.
    fn laid(self, delivery: &Delivery) -> (String, Vec<String>) {
        let Delivery {
            trees,
            placed,
            lacking,
        } = delivery;
        let count = |n: usize| Arg::Count(n as i64);
        let of = |f: fn(&Placed) -> bool| count(placed.iter().filter(|p| f(p)).count());
        let args = [
            ("trees", count(trees.len())),
            ("places", count(placed.len())),
            ("lacking", Arg::Length(*lacking as f64)),
            ("short", of(|p| p.short > 0)),
            ("headed", of(|p| p.headed)),
            ("empty", of(|p| p.tree.is_none())),
            ("over", count(trees.len().saturating_sub(placed.len()))),
        ];
        let lines = self.told(|o| {
            let each = o.needs.stocks.iter().zip(placed);
            let line = |(stock, placed)| {
                let stock: &cordonry::materials::Stock = stock;
                let args = [
                    ("tree", Arg::Count(stock.tree.0.into())),
                    ("length", Arg::Length(stock.length)),
                    (
                        "placed",
                        Arg::Text(placed_line(stock, placed, trees, o.words)),
                    ),
                ];
                o.words.text("placed-line", &args)
            };
            each.map(line).collect()
        });
        (self.app.text("delivered-told", &args), lines)
    }

    /// Puts the delivered trees into the record; whether that was done.
    fn take(self) -> bool {
        let app = self.app;
        let plan = self.delivery.with_untracked(|delivery| {
            let delivery = delivery.as_ref()?;
            self.needs.with_untracked(|needs| {
                let stocks = &needs.as_ref()?.stocks;
                app.peek(|d| recorded(d.plan(), stocks, &delivery.placed, &delivery.trees))
            })
        });
        let done = match plan {
            Some(Ok(plan)) => app.try_edit(Edit::delivered(Arc::new(plan))).map(drop),
            Some(Err(why)) => Err(why),
            None => return false,
        };
        match done {
            Ok(()) => app.say(app.t("delivered-taken"), false),
            Err(why) => self.wrong.set(Some(app.worded(|w| w.refusal(&why)))),
        }
        self.wrong.with_untracked(Option::is_none)
    }

    fn delivered(self, close: impl Fn() + Copy + Send + 'static) -> AnyView {
        let app = self.app;
        let planted = app
            .peek(|d| just_planted(&d.plan().found))
            .unwrap_or_default();
        let one = [("one", Arg::Length(1650.0))];
        let told = move || {
            let delivery = self.delivery.get()?;
            let (told, lines) = self.laid(&delivery);
            let take = move |_| {
                if self.take() {
                    close();
                }
            };
            Some(view! {
                <p role="status" class="delivered-told"><b>{told}</b></p>
                <ul class="placed">{lines.into_iter().map(|l| view! { <li>{l}</li> }).collect_view()}</ul>
                {match planted {
                    true => view! {
                        <p class="facts">{app.t("delivered-take-what")}</p>
                        <button class="main" data-act="delivered-take" on:click=take>{app.t("delivered-take")}</button>
                    }
                    .into_any(),
                    false => view! { <p class="facts">{app.t("delivered-not-planted")}</p> }.into_any(),
                }}
            })
        };
        view! {
            <h3>{app.t("delivered-title")}</h3>
            <p class="facts">{app.text("delivered-what", &one)}</p>
            <textarea
                rows="5"
                aria-label=app.t("delivered-lengths")
                data-field="delivered"
                on:input=move |e| self.list.set(event_target_value(&e))
            ></textarea>
            <p><button data-act="delivered-lay" on:click=move |_| self.lay()>{app.t("delivered-lay")}</button></p>
            {move || self.bad.get().into_iter().map(|b| view! { <p class="refusal" role="alert">{b}</p> }).collect_view()}
            {told}
        }
        .into_any()
    }

    fn view(self, open: RwSignal<bool>) -> AnyView {
        let app = self.app;
        let node = NodeRef::<html::Dialog>::new();
        let close = move || {
            if let Some(dialog) = node.get_untracked() {
                dialog.close();
            }
        };
        let row = app
            .peek(|d| d.plan().name.clone())
            .filter(|n| !n.is_empty());
        let row = ("row", Arg::Text(row.unwrap_or_else(|| app.t("unnamed"))));
        let does = move |act: &'static str, what: Printed| {
            let draw = Rc::new(move || -> Drawing { Box::pin(self.drawn(what)) });
            view! {
                <button data-act=act on:click=move |_| self.print(what)>{app.t(act)}</button>
                {pdf_press(app, Some(app.t(act)), draw)}
            }
        };
        view! {
            <Dialog labelled_by="order-title" node on_close=move || open.set(false)>
                <div class="hand-out order">
                    <h2 id="order-title">{app.text("order-title", &[row])}</h2>
                    <p>{self.told(|o| o.notes()[0].clone())}</p>
                    <p class="hand-acts">
                        {spoken_choice(app.t("hand-language"), self.spoken)}
                        <PaperChoice app/>
                        {does("order-print", Printed::Order)}
                        {does("planting-print", Printed::Planting)}
                        <button data-act="order-save" on:click=move |_| self.save(Printed::Order)>{app.t("order-save")}</button>
                        <button data-act="planting-save" on:click=move |_| self.save(Printed::Planting)>{app.t("planting-save")}</button>
                    </p>
                    <div class="limits"><ul>{self.asks()}</ul></div>
                    {self.listed()}
                    {self.delivered(close)}
                    {move || self.wrong.get().map(|w| view! { <p class="refusal" role="alert">{w}</p> })}
                    <p class="choices">
                        <button data-act="order-close" on:click=move |_| close()>{app.t("charts-close")}</button>
                    </p>
                </div>
            </Dialog>
        }
        .into_any()
    }
}

/// What the currency stands behind where prices are kept.
const CURRENCY: &str = "currency";

/// The prices that the device keeps, and what they are in; what is none any more is left out.
fn kept_prices() -> (Prices, String) {
    let (mut prices, mut currency) = (Prices::default(), String::new());
    let kept = settings::kept(settings::PRICES).unwrap_or_default();
    for (name, value) in kept.lines().filter_map(|line| line.split_once('=')) {
        let price = value.parse().ok().filter(|p| range::has(Prices::RANGE, *p));
        match Item::ALL.into_iter().find(|item| item.name() == name) {
            Some(item) => prices.set(item, price),
            None if name == CURRENCY => currency = value.into(),
            None => {}
        }
    }
    (prices, currency)
}

/// A value in its range, or why it is none.
fn within(unit: Quantity, (low, high): Range, value: f64) -> Result<f64, Refusal> {
    match range::has((low, high), value) {
        true => Ok(value),
        false => {
            let args = [("low", low), ("high", high), ("value", value)];
            let args = args.map(|(name, n)| (name, unit.arg(n)));
            Err(Refusal::new("order-refused", args.into()))
        }
    }
}
