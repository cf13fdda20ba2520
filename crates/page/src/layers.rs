//! On what each layer of the wall is drawn on the screen. Which layers there are, and in what order they lie on each other,
//! is told in one place for screen and paper: [`cordonry_draw::Layer`].

pub use cordonry_draw::Layer;

/// What layers are drawn on; each is one element, with one measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surface {
    /// Behind the wall, in screen pixels: a picture, and a drawing over it.
    Behind,
    /// The drawing of the wall, in millimetres.
    Wall,
    /// A drawing in screen pixels over the wall.
    Over,
    /// A drawing in screen pixels over all else.
    Top,
}

/// What a layer is drawn on.
pub fn surface(layer: Layer) -> Surface {
    match layer {
        Layer::Light => Surface::Behind,
        Layer::Frame
        | Layer::Trees
        | Layer::Work
        | Layer::Notes
        | Layer::Ground
        | Layer::Numbers => Surface::Wall,
        Layer::Hand | Layer::Aim => Surface::Over,
        Layer::Probe => Surface::Top,
    }
}

impl Surface {
    /// Its name among the styles.
    pub fn class(self) -> &'static str {
        match self {
            Self::Behind | Self::Top => "light-over",
            Self::Wall => "scene wall",
            Self::Over => "overlay",
        }
    }
}

/// The names of a layer's element among the styles.
pub fn class(layer: Layer) -> String {
    let short = match layer {
        Layer::Trees => "trees",
        Layer::Work => "signs",
        Layer::Probe => "probe-mark",
        _ => return layer.name().to_string(),
    };
    format!("{} {short}", layer.name())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_surface_holds_neighbouring_layers() {
        let mut begun: Vec<Surface> = Vec::new();
        for on in Layer::ALL.map(surface) {
            if begun.last() != Some(&on) {
                assert!(!begun.contains(&on), "{on:?} is left and come back to");
                begun.push(on);
            }
        }
    }
}
