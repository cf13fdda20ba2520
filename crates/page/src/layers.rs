//! The layers of the wall on the screen, in the one order in which they lie on each other.

/// A layer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// The map of the light.
    LightMap,
    /// The beam of an hour's sun.
    Beam,
    /// The ground, wires and posts.
    Backdrop,
    /// The trees, a group each.
    Trees,
    /// The signs for work.
    Signs,
    /// What stands before the trees: measures and numbers.
    Front,
    /// Lengths, handles, the choice.
    Marks,
    /// The bud that a press would keep.
    Ghost,
    /// The place whose light is told.
    Probe,
}

/// What layers are drawn on; each is one element, with one measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surface {
    /// A picture, laid under all else.
    Picture,
    /// A drawing in screen pixels behind the wall.
    Behind,
    /// The drawing of the wall, in millimetres.
    Wall,
    /// A drawing in screen pixels over the wall.
    Over,
    /// A drawing in screen pixels over all else.
    Top,
}

impl Layer {
    /// From the lowest to the highest.
    pub const ALL: [Self; 9] = [
        Self::LightMap,
        Self::Beam,
        Self::Backdrop,
        Self::Trees,
        Self::Signs,
        Self::Front,
        Self::Marks,
        Self::Ghost,
        Self::Probe,
    ];

    /// What it is drawn on.
    pub fn surface(self) -> Surface {
        match self {
            Self::LightMap => Surface::Picture,
            Self::Beam => Surface::Behind,
            Self::Backdrop | Self::Trees | Self::Signs | Self::Front => Surface::Wall,
            Self::Marks | Self::Ghost => Surface::Over,
            Self::Probe => Surface::Top,
        }
    }

    /// Its name among the styles.
    pub fn class(self) -> &'static str {
        match self {
            Self::LightMap => "light-map",
            Self::Beam => "beam",
            Self::Backdrop => "frame",
            Self::Trees => "trees",
            Self::Signs => "signs",
            Self::Front => "front",
            Self::Marks => "marks",
            Self::Ghost => "ghost",
            Self::Probe => "probe-mark",
        }
    }
}

impl Surface {
    /// Its name among the styles.
    pub fn class(self) -> &'static str {
        match self {
            Self::Picture => "light-clip",
            Self::Behind | Self::Top => "light-over",
            Self::Wall => "scene wall",
            Self::Over => "overlay",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_surface_holds_neighbouring_layers() {
        let surfaces = Layer::ALL.map(Layer::surface);
        let mut begun: Vec<Surface> = Vec::new();
        for surface in surfaces {
            if begun.last() != Some(&surface) {
                assert!(
                    !begun.contains(&surface),
                    "{surface:?} is left and come back to"
                );
                begun.push(surface);
            }
        }
        assert!(
            Layer::ALL.is_sorted(),
            "the list is in the order of the names"
        );
    }
}
