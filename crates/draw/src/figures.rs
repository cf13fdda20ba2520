//! The figures of a row as they are told, each beside what is asked of it.

use cordonry::check::Figures;
use cordonry::row::{Limit, Targets};
use cordonry::said::Arg;
use cordonry_words::Words;

/// A figure as it is told.
#[derive(Clone, Debug, PartialEq)]
pub struct FigureLine {
    /// Its name's text in the language file.
    pub key: &'static str,
    /// Its value, with its unit.
    pub value: String,
    /// What is asked of it; may be empty.
    pub asked: String,
    /// Whether it misses that.
    pub off: bool,
}

/// Figures that belong together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FigureTable {
    /// What they are of.
    pub title: String,
    /// The figures.
    pub lines: Vec<FigureLine>,
    /// What was taken for them, in a sentence; may be empty.
    pub assumed: String,
}

/// What there is of cordon and uprights. `fill_is_due` says that the cordon should have been filled by now.
pub fn row_figures(
    figures: &Figures,
    targets: &Targets,
    fill_is_due: bool,
    words: &Words,
) -> Vec<FigureLine> {
    let limit = |l| targets.get(l);
    let line = |key, value, asked, off| FigureLine {
        key,
        value: words.text("value", &[("value", value)]),
        asked,
        off,
    };
    let due = Arg::Number(limit(Limit::FillDueLeaf), 0);
    let target = Arg::Length(limit(Limit::UprightSpacing));
    let trees = Arg::Count(figures.trees as i64);
    vec![
        line(
            "figure-fill",
            Arg::Share(figures.cordon_fill_share),
            words.text("asked-fill", &[("leaf", due)]),
            fill_is_due,
        ),
        line(
            "figure-bare",
            Arg::Length(figures.gap_total),
            String::new(),
            false,
        ),
        line(
            "figure-twice",
            Arg::Length(figures.overlap_total),
            String::new(),
            false,
        ),
        line(
            "figure-uprights",
            Arg::Count(figures.uprights as i64),
            words.text("asked-trees", &[("trees", trees)]),
            false,
        ),
        line(
            "figure-apart",
            Arg::Length(figures.upright_spacing_mean),
            words.text("asked-apart", &[("target", target)]),
            figures.spacing_is_off(targets),
        ),
        line(
            "figure-uneven",
            Arg::Share(figures.upright_spacing_cv),
            words.plain("asked-uneven"),
            false,
        ),
    ]
}

/// What the figures of [`row_figures`] are of.
pub fn row_figures_title(leaf: u8, words: &Words) -> String {
    words.text("figures-title", &[("leaf", Arg::Count(leaf.into()))])
}
