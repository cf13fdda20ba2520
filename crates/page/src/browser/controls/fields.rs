//! A short form on the page: its fields, with what is wrong beside each, and choices of a few words.

use crate::browser::app::App;
use crate::browser::dom;
use cordonry::arrange::Gather;
use cordonry::make::{Field, Form};
use cordonry::sorted::Map;
use cordonry::units::LengthStyle;
use leptos::prelude::*;
use std::rc::Rc;
use std::sync::Arc;

/// A form being filled in: what was typed is kept, whatever it is.
pub struct FormSheet<F: Form + Send + Sync + 'static> {
    app: App,
    form: RwSignal<F>,
    texts: Texts,
    wrong: Texts,
}

impl<F: Form + Send + Sync + 'static> Clone for FormSheet<F> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<F: Form + Send + Sync + 'static> Copy for FormSheet<F> {}

impl<F: Form + Send + Sync + 'static> FormSheet<F> {
    /// The form as it is before anybody has written in it.
    pub fn new(app: App) -> Self {
        let form = F::usual(app.style.get_untracked());
        let shown = |f: &Field| (f.key(), app.worded(|w| w.entries(&form.shown(*f))));
        let texts = F::FIELDS.iter().map(shown).gathered_map();
        Self {
            app,
            form: RwSignal::new(form),
            texts: RwSignal::new(texts),
            wrong: RwSignal::new(Map::new()),
        }
    }

    /// The page.
    pub fn app(self) -> App {
        self.app
    }

    /// Reads the form's choices.
    pub fn read<T>(self, f: impl FnOnce(&F) -> T) -> T {
        self.form.with(f)
    }

    /// Changes one of the form's choices.
    pub fn choose(self, f: impl FnOnce(&mut F)) {
        self.form.update(f);
    }

    /// Takes one field as it stands; whether it is accepted. What is wrong is said beside it.
    fn take(self, field: Field) -> bool {
        let style = self.app.style.get_untracked();
        // A field that goes while it has the focus says once more that it has changed.
        let Some(text) = self
            .texts
            .try_with_untracked(|t| t.get(field.key()).cloned())
        else {
            return true;
        };
        let set = |typed: String| {
            self.form
                .try_update(|f| f.set(field, &typed, style))
                .unwrap_or(Ok(()))
                .map_err(|why| why.0)
        };
        let taken = self
            .app
            .worded(|w| w.typed(&text.unwrap_or_default()))
            .and_then(set);
        self.wrong.update(|w| match &taken {
            Ok(()) => {
                w.remove(field.key());
            }
            Err(why) => {
                w.insert(field.key(), self.app.said(why));
            }
        });
        taken.is_ok()
    }

    /// The form, where every field is accepted; else the first that isn't has the focus.
    pub fn done(self) -> Option<F> {
        let mut first = None;
        for field in F::FIELDS {
            let asked = self.form.with_untracked(|f| f.asks(*field));
            if asked && !self.take(*field) && first.is_none() {
                first = Some(*field);
            }
        }
        match first {
            None => Some(self.form.get_untracked()),
            Some(field) => {
                dom::focus(&format!("#made-{}", field.key()));
                None
            }
        }
    }

    /// Shows lengths the other way from now on; what was typed is kept where it can't be read.
    pub fn set_style(self, style: LengthStyle) {
        let old = self.app.style.get_untracked();
        let (before, after) = (F::usual(old), F::usual(style));
        let mut form = self.form.get_untracked();
        let words = |style| self.app.worded(|w| w.styled(style));
        let (then, now) = (words(old), words(style));
        self.texts.update(|texts| {
            for field in F::FIELDS {
                let Some(text) = texts.get_mut(field.key()) else {
                    continue;
                };
                if *text == then.entries(&before.shown(*field)) {
                    *text = now.entries(&after.shown(*field));
                } else if then
                    .typed(text)
                    .is_ok_and(|typed| form.set(*field, &typed, old).is_ok())
                {
                    *text = now.entries(&form.shown(*field));
                }
            }
        });
        self.wrong.set(Map::new());
        self.app.set_style(style);
    }

    /// The choice of how lengths are written.
    pub fn lengths(self) -> impl IntoView {
        let app = self.app;
        radios(
            "lengths",
            app.t("made-lengths"),
            vec![
                (app.t("made-lengths-metres"), LengthStyle::Metric),
                (app.t("made-lengths-feet"), LengthStyle::FeetInches),
            ],
            move || app.style.get(),
            move |style| self.set_style(style),
        )
    }

    /// The fields.
    pub fn fields(self) -> Vec<AnyView> {
        let one = |field: &Field| {
            let field = *field;
            let asks = Arc::new(move || self.read(|f| f.asks(field)));
            let take = Rc::new(move || {
                self.take(field);
            });
            one_field(self.app, field, (self.texts, self.wrong), asks, take)
        };
        F::FIELDS.iter().map(one).collect()
    }
}

/// By key of a field what was typed, or what is wrong with it.
type Texts = RwSignal<Map<&'static str, String>>;

/// A field of any form.
fn one_field(
    app: App,
    field: Field,
    (texts, wrong): (Texts, Texts),
    asks: Arc<dyn Fn() -> bool + Send + Sync>,
    take: Rc<dyn Fn()>,
) -> AnyView {
    let key = field.key();
    let id = format!("made-{key}");
    let why = format!("wrong-{key}");
    let described = why.clone();
    let wrong = move || wrong.with(|w| w.get(key).cloned());
    let label = app.t(&id);
    view! {
        <p class="field" hidden=move || !asks()>
            <label for=id.clone()>{label}</label>
            <input
                id=id
                autocomplete="off"
                inputmode=if field.is_number() { "decimal" } else { "text" }
                aria-invalid=move || wrong().is_some().to_string()
                aria-describedby=described
                prop:value=move || texts.with(|t| t.get(key).cloned().unwrap_or_default())
                on:input=move |e| {
                    texts.update(|t| {
                        t.insert(key, event_target_value(&e));
                    });
                }
                on:change=move |_| take()
            />
            <span id=why class="wrong" role="alert">{wrong}</span>
        </p>
    }
    .into_any()
}

/// A choice of a few words.
pub fn radios<T: Copy + PartialEq + Send + Sync + 'static>(
    name: &'static str,
    legend: String,
    options: Vec<(String, T)>,
    now: impl Fn() -> T + Copy + Send + Sync + 'static,
    choose: impl Fn(T) + Copy + 'static,
) -> impl IntoView {
    let (labels, values): (Vec<String>, Vec<T>) = options.into_iter().unzip();
    let buttons = labels.into_iter().zip(values).map(|(label, value)| {
        let is = Arc::new(move || now() == value);
        radio(name, label, is, Rc::new(move || choose(value)))
    });
    let buttons: Vec<AnyView> = buttons.collect();
    view! {
        <fieldset class="choice">
            <legend>{legend}</legend>
            {buttons}
        </fieldset>
    }
}

fn radio(
    name: &'static str,
    label: String,
    is: Arc<dyn Fn() -> bool + Send + Sync>,
    choose: Rc<dyn Fn()>,
) -> AnyView {
    view! {
        <label>
            <input
                type="radio"
                name=name
                prop:checked=move || is()
                on:change=move |_| choose()
            />
            <span>{label}</span>
        </label>
    }
    .into_any()
}
