//! What a tip takes, while its share is chosen: a curve with the place that it stands at, which a slider moves.

use crate::browser::app::App;
use crate::browser::parts::part;
use cordonry::check::Part;
use cordonry::nodes::sites_removed;
use cordonry::said::{Arg, Quantity};
use cordonry::tipping::MOST;
use cordonry_draw::tip_curve;
use leptos::prelude::*;

part! {panels:
    /// The curve for a shoot; `text` is the share as it is typed.
    pub fn curve(app: App, part: Part, text: RwSignal<String>) -> AnyView {
        let tipping = Memo::new(move |_| app.read(|d| d.tipping(part)).flatten());
        let share = move || text.with(|text| app.worded(|w| w.read(Quantity::Share, text)).ok());
        let percent = move || share().map(|share| share * 100.0);
        let drawn = move || {
            tipping.get().map(|t| app.worded(|w| tip_curve(&t, share(), w)))
        };
        let told = move || {
            let (tipping, share) = (tipping.get()?, share()?);
            let crop = tipping.crop_removed(share);
            let values = [
                ("leaf", Arg::Count(tipping.harvest.into())),
                ("length", Arg::Share(share)),
                ("sites", Arg::Share(sites_removed(share))),
                ("crop", Arg::Share(crop.unwrap_or_default())),
            ];
            Some(match crop {
                Some(_) => app.text("tip-acts-crop", &values),
                None => app.text("tip-acts", &values[..3]),
            })
        };
        view! {
            <div class="tip">
                <div inner_html=drawn></div>
                <input
                    type="range"
                    min="1"
                    max=MOST
                    aria-label=app.t("tip-slide")
                    prop:value=percent
                    on:input=move |e| {
                        if let Ok(percent) = event_target_value(&e).parse::<f64>() {
                            text.set(app.worded(|w| w.field(Quantity::Share, percent / 100.0)));
                        }
                    }
                />
                <p class="facts">{told}</p>
            </div>
        }
        .into_any()
    }
}
