//! One full evaluation of the timing wall and then twenty edits of an upright, for runners that time `main` from outside:
//! the time beyond that of `wasm-light-full` is the edits'.

use std::process::ExitCode;

use cordonry::light::state::{LightState, Settings};
use cordonry::light::{bench_case, bench_edit};

fn main() -> ExitCode {
    let wall = bench_case();
    let view = 0..wall.columns();
    let mut state = LightState::new(wall, &Settings::dragging(Some(view)));
    let (columns, leaves) = bench_edit();
    for _ in 0..20 {
        state.edit(columns.clone(), &leaves);
    }
    ExitCode::from((200.0 * cordonry_tests::mean_through(&state)).round() as u8)
}
