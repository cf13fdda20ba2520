//! A short form on the page: its fields, with what is wrong beside each, and choices of a few words.

use crate::browser::app::App;
use crate::browser::dom;
use cordonry::arrange::Gather;
use cordonry::make::{Field, Form};
use cordonry::units::LengthStyle;
use leptos::prelude::*;
use std::collections::BTreeMap;

/// A form being filled in: what was typed is kept, whatever it is.
pub struct FormSheet<F: Form + Send + Sync + 'static> {
    app: App,
    form: RwSignal<F>,
    texts: RwSignal<BTreeMap<&'static str, String>>,
    wrong: RwSignal<BTreeMap<&'static str, String>>,
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
            wrong: RwSignal::new(BTreeMap::new()),
        }
    }

    /// Reads the form's choices.
    pub fn read<T>(self, f: impl FnOnce(&F) -> T) -> T {
        self.form.with(f)
    }

    /// Changes one of the form's choices.
    pub fn choose(self, f: impl FnOnce(&mut F)) {
        self.form.update(f);
    }

    fn text(self, field: Field) -> String {
        self.texts
            .with(|t| t.get(field.key()).cloned().unwrap_or_default())
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
        self.wrong.set(BTreeMap::new());
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
    pub fn fields(self) -> impl IntoView {
        F::FIELDS
            .iter()
            .map(|field| self.field(*field))
            .collect_view()
    }

    fn field(self, field: Field) -> impl IntoView {
        let key = field.key();
        let id = format!("made-{key}");
        let why = format!("wrong-{key}");
        let described = why.clone();
        let wrong = move || self.wrong.with(|w| w.get(key).cloned());
        let label = self.app.t(&id);
        view! {
            <p class="field" hidden=move || !self.read(|f| f.asks(field))>
                <label for=id.clone()>{label}</label>
                <input
                    id=id
                    autocomplete="off"
                    inputmode=if field.is_number() { "decimal" } else { "text" }
                    aria-invalid=move || wrong().is_some().to_string()
                    aria-describedby=described
                    prop:value=move || self.text(field)
                    on:input=move |e| {
                        self.texts.update(|t| {
                            t.insert(key, event_target_value(&e));
                        });
                    }
                    on:change=move |_| {
                        self.take(field);
                    }
                />
                <span id=why class="wrong" role="alert">{wrong}</span>
            </p>
        }
    }
}

/// A choice of a few words.
pub fn radios<T: Copy + PartialEq + Send + Sync + 'static>(
    name: &'static str,
    legend: String,
    options: Vec<(String, T)>,
    now: impl Fn() -> T + Copy + Send + Sync + 'static,
    choose: impl Fn(T) + Copy + 'static,
) -> impl IntoView {
    view! {
        <fieldset class="choice">
            <legend>{legend}</legend>
            {options
                .into_iter()
                .map(|(label, value)| {
                    view! {
                        <label>
                            <input
                                type="radio"
                                name=name
                                prop:checked=move || now() == value
                                on:change=move |_| choose(value)
                            />
                            <span>{label}</span>
                        </label>
                    }
                })
                .collect_view()}
        </fieldset>
    }
}
