//! One full evaluation of the timing wall with its map, for runners that time `main` from outside (WebAssembly has no
//! clock of its own). The exit status is the mean share let through, in two-hundredths, so that a runner can check it.

use std::process::ExitCode;

use cordonry::light::bench_case;
use cordonry::light::state::{LightState, Settings};

fn main() -> ExitCode {
    let wall = bench_case();
    let view = 0..wall.columns();
    let state = LightState::new(wall, &Settings::dragging(Some(view)));
    ExitCode::from((200.0 * cordonry_tests::mean_through(&state)).round() as u8)
}
