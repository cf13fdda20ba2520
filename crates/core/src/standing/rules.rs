//! The settings of a scheme's standing work: each a number, a name in files, a range.

use crate::range::Range;
use crate::row::{Limit, Status, Targets};
use crate::said::Quantity;
use crate::sorted::Map;

/// What the number of a rule is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RuleUnit {
    /// Whether the work is done: 1, or 0 where it is not.
    Done,
    /// A leaf of the tree, which is its growing season since it was planted; 0 where it never comes.
    Leaf,
    /// A share of 1.
    Share,
    /// Degrees.
    Deg,
}

impl RuleUnit {
    /// In what its values are typed.
    pub fn typed(self) -> Quantity {
        match self {
            Self::Done | Self::Leaf => Quantity::Count,
            Self::Share => Quantity::Share,
            Self::Deg => Quantity::Angle,
        }
    }
}

/// All there is to say about one rule.
#[derive(Clone, Copy, Debug)]
pub struct RuleInfo {
    /// Name in files.
    pub key: &'static str,
    /// What its number is.
    pub unit: RuleUnit,
    /// The default.
    pub default: f64,
    /// Least accepted value.
    pub min: f64,
    /// Largest accepted value.
    pub max: f64,
    /// How well founded the default is.
    pub status: Status,
    /// Its text's name.
    pub text: &'static str,
}

macro_rules! rules {
    ($($name:ident, $key:literal, $unit:ident, $default:literal, $min:literal..$max:literal, $status:ident, $doc:literal;)*) => {
        /// The rules by name.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Rule { $(#[doc = $doc] $name,)* }

        impl Rule {
            /// Every rule, in the order in which a panel shows them.
            pub const ALL: &'static [Rule] = &[$(Rule::$name,)*];

            /// What there is to say about it.
            pub fn info(self) -> &'static RuleInfo {
                match self {
                    $(Rule::$name => &RuleInfo {
                        key: $key, unit: RuleUnit::$unit, default: $default as f64, min: $min as f64, max: $max as f64,
                        status: Status::$status, text: concat!("standing-", $key),
                    },)*
                }
            }
        }
    };
}

rules! {
    BudsFrom, "buds_from", Leaf, 1, 0..20, CommonPractice,
        "The leaf from which buds are rubbed out and kept at bud swell: 1 where bud removal is done, a later one where it was \
         missed till then. Before the leaf after the first, side and underside shoots come off; before that of a later one, too.";
    Lay, "lay", Done, 1, 0..1, CommonPractice,
        "Whether the stock is laid in early summer.";
    LayShort, "lay_short", Leaf, 2, 1..6, CommonPractice,
        "The leaf in which headed or short stock is laid.";
    Rise, "rise_deg", Deg, 3, -10..30, FromMemory,
        "The rise at which it is laid.";
    CutEnds, "cut_ends", Done, 1, 0..1, CommonPractice,
        "Whether the end of the cordon is cut at the next tree.";
    CutBack, "cut_back", Done, 1, 0..1, CommonPractice,
        "Whether few uprights are cut back to 2 to 4 buds before the second leaf.";
    LateralsFrom, "laterals_from", Leaf, 3, 0..20, CommonPractice,
        "The leaf before which laterals come off the uprights, and before each later one.";
    TipShare, "tip_share", Share, 0.2, 0..0.5, CommonPractice,
        "Share of last year's growth that tipping takes; 0 for none.";
    TipFrom, "tip_from", Leaf, 2, 1..20, CommonPractice,
        "The first leaf before which is tipped.";
    TipUntil, "tip_until", Leaf, 0, 0..40, CommonPractice,
        "The last leaf before which is tipped, the last of all for every winter; 0 until the wall has its height or renewal \
         begins.";
    Hold, "hold", Done, 1, 0..1, CommonPractice,
        "Whether uprights are held at the wall's height.";
    RenewFrom, "renew_from", Leaf, 3, 0..20, CommonPractice,
        "The leaf before which renewal begins.";
    RenewShare, "renew_share", Share, 0.2, 0.1..0.25, CommonPractice,
        "Share of the uprights that is stubbed each winter.";
    Thin, "thin", Done, 1, 0..1, FromMemory,
        "Whether in early summer of the returns of a stub one is kept, and of the shoots of an upright that was held.";
    Wires, "wires", Done, 1, 0..1, CommonPractice,
        "Whether a wire is added each winter from the second leaf on until they reach the wall's height.";
}

impl Rule {
    /// Least and largest accepted value.
    pub fn range(self) -> Range {
        let info = self.info();
        (info.min, info.max)
    }

    /// The limit that says the same where a scheme has no rules. Both have one default.
    pub fn limit(self) -> Option<Limit> {
        match self {
            Self::LateralsFrom => Some(Limit::LateralsLeaf),
            Self::TipShare => Some(Limit::TippingShare),
            Self::TipFrom => Some(Limit::TippingLeaf),
            Self::RenewFrom => Some(Limit::RenewalLeaf),
            Self::RenewShare => Some(Limit::RenewalShare),
            _ => None,
        }
    }

    /// Whether its values are whole numbers: all but shares and angles.
    pub fn is_whole(self) -> bool {
        matches!(self.info().unit, RuleUnit::Done | RuleUnit::Leaf)
    }

    /// Whether a value is one that the rule can have: in its range, and whole where it must be.
    pub fn accepts(self, value: f64) -> bool {
        let info = self.info();
        let fits = !self.is_whole() || libm::trunc(value) == value;
        value >= info.min && value <= info.max && fits
    }
}

/// The rules of a scheme: the defaults, but for what was set.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rules {
    set: Map<Rule, f64>,
}

impl Rules {
    /// The value in force.
    pub fn get(&self, rule: Rule) -> f64 {
        self.set.get(&rule).copied().unwrap_or(rule.info().default)
    }

    /// Sets a value; `None` puts the default back. Whether it was accepted.
    pub fn set(&mut self, rule: Rule, value: Option<f64>) -> bool {
        let value = value.unwrap_or(rule.info().default);
        let fits = rule.accepts(value);
        if fits && value == rule.info().default {
            self.set.remove(&rule);
        } else if fits {
            self.set.insert(rule, value);
        }
        fits
    }

    /// The same rules but for one, if it can be so.
    #[must_use]
    pub fn with(mut self, rule: Rule, value: f64) -> Self {
        self.set(rule, Some(value));
        self
    }

    /// The limits by which a row is judged that is trained by these rules: where there is a rule of what a limit says, it holds.
    pub fn limits(&self, of_plan: &Targets) -> Targets {
        let mut out = of_plan.clone();
        let never = f64::from(u8::MAX);
        for rule in Rule::ALL {
            let value = self.get(*rule);
            match rule.limit() {
                // The share that is usual is still the plan's.
                Some(Limit::TippingShare) if value == 0.0 => {}
                Some(Limit::TippingLeaf) if !self.does(Rule::TipShare) => {
                    out.rule(Limit::TippingLeaf, never);
                }
                Some(limit) if value == 0.0 => out.rule(limit, never),
                Some(limit) => out.rule(limit, value),
                None => {}
            }
        }
        out.rule_tip_until(self.get(Rule::TipUntil));
        out
    }

    /// The values that differ from the defaults, in a fixed order.
    pub fn overrides(&self) -> impl Iterator<Item = (Rule, f64)> + '_ {
        self.set.iter().map(|(r, v)| (*r, *v))
    }

    /// Whether work of that rule is done.
    pub(super) fn does(&self, rule: Rule) -> bool {
        self.get(rule) > 0.0
    }

    /// Whether what begins with a leaf has begun.
    pub(super) fn begun(&self, rule: Rule, leaf: u8) -> bool {
        let from = self.get(rule);
        from > 0.0 && f64::from(leaf) >= from
    }
}
