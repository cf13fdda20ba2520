//! A row that this device keeps is opened, unless the program has stopped at it before.

use crate::browser::app::{App, Found};
use crate::browser::device::{records, tried};
use cordonry::refusal::Refusal;

/// Has a row put on the desk by `lay`: why it was refused; `None` where it is not there, or is set aside.
pub async fn lay(
    app: App,
    id: &str,
    lay: fn(App, Found) -> Result<(), Refusal>,
) -> Option<Result<(), Refusal>> {
    if !tried::begins(id).await {
        return None;
    }
    let laid = records::found(id).await.map(|found| lay(app, found));
    match laid {
        Some(Ok(())) => tried::ends_once_drawn(),
        _ => tried::ends(),
    }
    laid
}
