//! The row's light on the page: which light is looked at, what is shown of it at once, and the exact answer.

mod colour;
mod exact;
mod figures;
mod lighting;
mod row_light;

pub use colour::colour;
pub use exact::{Exact, exact};
pub use figures::LightFigures;
pub use lighting::{Lighting, When};
pub use row_light::RowLight;
