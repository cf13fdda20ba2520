//! Buds that a notch is to bring on: they fill a place once they grow, which is uncertain.

use super::seen::Seen;
use crate::cover::Laid;
use crate::row::{Limit, Shoot, ShootId, TreeId, notch_take};
use crate::said::{Arg, Said};
use crate::units::Mm;
use crate::work::{Work, budded};

impl Seen<'_> {
    /// Whether a bud stands at the place at `i` that a notch is to bring on.
    pub fn is_notched(&self, i: usize) -> bool {
        self.shoot_at(i).is_some_and(|s| s.is_notched())
    }

    /// The work that brings a bud on so far along laid wood; `None` where none is, or no wood is beyond it to be notched.
    pub fn budded(&self, tree: TreeId, shoot: ShootId, at: Mm) -> Option<Work> {
        let wood = self.tree(tree)?.tree.shoot(shoot)?;
        wood.brings_on(at.f(), self.moment.leaf, self.limit(Limit::BlindBase))?;
        Some(budded(tree, wood, at, self.moment.leaf))
    }

    /// The place along laid wood nearest to `at` mm that brings a bud, at most `room` mm from there.
    pub fn bud_near(&self, laid: &Laid, at: f64, room: f64) -> Option<f64> {
        let wood = self.tree(laid.tree)?.tree.shoot(laid.shoot)?;
        let near = wood.bud_near(at, self.limit(Limit::BlindBase), room)?;
        let brings = |at: f64| wood.brings_on(at, self.moment.leaf, self.limit(Limit::BlindBase));
        // Older wood is notched beyond the bud, a little before its end.
        let last = wood.length() - Shoot::BEYOND_NOTCHED;
        let near = match brings(near) {
            Some(_) => near,
            None => Some(last).filter(|s| {
                (s - at).abs() <= room.max(Shoot::BEYOND_NOTCHED) && brings(*s).is_some()
            })?,
        };
        // Whole millimetres beyond the blind base and before the tip.
        Some(if near > at {
            libm::ceil(near)
        } else if near < at {
            libm::floor(near)
        } else {
            at
        })
    }

    fn bud_wood(&self, wood: &Shoot, at: f64) -> Option<u8> {
        wood.bud_wood(at, self.moment.leaf, self.limit(Limit::BlindBase))
    }

    /// What a finding says of those of the row's places that are notched buds; nothing where none is.
    pub fn notched(&self, places: &[usize]) -> Arg {
        let mut notched = places.iter().filter_map(|i| {
            let bud = self.shoot_at(*i).filter(|s| s.is_notched())?;
            let wood = self.tree_at(*i).tree.shoot(bud.parent?)?;
            wood.bud_wood(bud.at, self.moment.leaf, 0.0)
        });
        told("finding-notched", &mut notched)
    }

    /// What a remedy says of its notches; nothing where none is.
    pub fn notches(&self, work: &[Work]) -> Arg {
        let mut notches = work.iter().filter_map(|w| match *w {
            Work::Notch { tree, shoot, at_mm } => {
                self.bud_wood(self.tree(tree)?.tree.shoot(shoot)?, at_mm.f())
            }
            _ => None,
        });
        told("remedy-notched", &mut notches)
    }
}

/// How many there are, in wood of so many seasons each, and which share of them is to be expected.
fn told(key: &'static str, seasons: &mut dyn Iterator<Item = u8>) -> Arg {
    let (mut count, mut take) = (0, 0.0);
    for old in seasons {
        count += 1;
        take += notch_take(old);
    }
    if count == 0 {
        return Arg::Text(String::new());
    }
    let args = vec![
        ("count", Arg::Count(count)),
        ("share", Arg::Share(take / count as f64)),
    ];
    Said::new(key, args).into()
}
