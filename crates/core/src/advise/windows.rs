//! Which work belongs in which window: common practice, no source.

use crate::row::Window;
use crate::work::Work;

/// Whether a remedy's work, all of it together, is of a window's kind. Buds are rubbed out and kept at bud swell, stock is laid and
/// returns are thinned in early summer; after harvest the height is held, for the wall reacts less to it than in winter. In the dormant
/// season all is planned but what waits for the sap: a bud is chosen then, too, and marked.
pub(super) fn belongs(window: Window, works: &[Work]) -> bool {
    let lays = works.iter().any(|w| matches!(w, Work::Lay { .. }));
    works.iter().all(|work| match work {
        Work::Plant { .. } | Work::RemoveTree { .. } | Work::ReplaceTree { .. } => {
            window == Window::Dormant
        }
        Work::Lay { .. } | Work::Stand { .. } => window != Window::AfterHarvest,
        Work::CutBack { .. } => window == Window::Dormant || lays && window != Window::AfterHarvest,
        Work::CutToBuds { .. } | Work::Stub { .. } | Work::Tip { .. } => window == Window::Dormant,
        Work::Remove { .. } => matches!(window, Window::Dormant | Window::EarlySummer),
        Work::Thin { .. } => matches!(window, Window::Dormant | Window::EarlySummer),
        Work::RubOut { .. } => matches!(window, Window::BudSwell | Window::Dormant),
        Work::KeepBud { .. } | Work::Notch { .. } | Work::MoveBud { .. } => {
            matches!(window, Window::Dormant | Window::BudSwell)
        }
        Work::TakeLaterals { .. } | Work::HoldHeight { .. } => {
            matches!(window, Window::Dormant | Window::AfterHarvest)
        }
        Work::AddWire { .. }
        | Work::MoveWire { .. }
        | Work::RemoveWire { .. }
        | Work::CoverWire { .. } => true,
    })
}
