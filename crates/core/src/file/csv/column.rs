//! The columns of a table: what they are called, and what they measure.

use crate::said::Arg;
use crate::units::{BareUnit, parse_length, parse_thickness};

/// The columns, in the order in which they are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Column {
    Tree,
    Place,
    Kind,
    Parent,
    Length,
    Diameter,
    Side,
    Pose,
    Season,
    Laterals,
    Rubbed,
    Cut,
    WhenCut,
    Origin,
    BendRadius,
    Diseased,
    Note,
}

impl Column {
    pub(super) const ALL: [Self; 17] = [
        Self::Tree,
        Self::Place,
        Self::Kind,
        Self::Parent,
        Self::Length,
        Self::Diameter,
        Self::Side,
        Self::Pose,
        Self::Season,
        Self::Laterals,
        Self::Rubbed,
        Self::Cut,
        Self::WhenCut,
        Self::Origin,
        Self::BendRadius,
        Self::Diseased,
        Self::Note,
    ];

    /// Its name, and what else people call it, in English, German and Spanish.
    fn names(self) -> &'static [&'static str] {
        match self {
            Self::Tree => &[
                "tree",
                "tree number",
                "tree no",
                "tree nr",
                "tree id",
                "no",
                "nr",
                "baum",
                "baumnummer",
                "baum nr",
                "árbol",
                "arbol",
                "árbol n°",
            ],
            Self::Place => &[
                "place",
                "position",
                "x",
                "at",
                "distance",
                "tape",
                "place along row",
                "stelle",
                "platz",
                "ort",
                "posición",
                "posicion",
                "lugar",
                "distancia",
            ],
            Self::Kind => &[
                "kind", "type", "part", "what", "art", "typ", "teil", "tipo", "clase", "parte",
            ],
            Self::Parent => &[
                "parent",
                "on",
                "from",
                "grows from",
                "wächst aus",
                "aus",
                "crece de",
                "sobre",
            ],
            Self::Length => &[
                "length",
                "len",
                "shoot length",
                "länge",
                "laenge",
                "trieblänge",
                "longitud",
                "largo",
            ],
            Self::Diameter => &[
                "diameter",
                "dia",
                "thickness",
                "caliper",
                "calliper",
                "ø",
                "durchmesser",
                "dicke",
                "diámetro",
                "diametro",
                "grosor",
            ],
            Self::Side => &[
                "side",
                "direction",
                "toward",
                "towards",
                "way",
                "seite",
                "richtung",
                "lado",
                "dirección",
                "direccion",
            ],
            Self::Pose => &[
                "pose", "angle", "lean", "held", "haltung", "winkel", "neigung", "postura",
                "ángulo", "angulo",
            ],
            Self::Season => &[
                "season",
                "leaf",
                "born",
                "year",
                "jahr",
                "saison",
                "laub",
                "temporada",
                "año",
                "hoja",
            ],
            Self::Laterals => &[
                "laterals",
                "side branches",
                "side shoots",
                "seitentriebe",
                "laterales",
                "ramas laterales",
            ],
            Self::Rubbed => &["rubbed", "rubbed out", "buds rubbed out"],
            Self::Cut => &[
                "cut",
                "cut off",
                "taken off",
                "abgeschnitten",
                "schnitt",
                "cortado",
                "corte",
            ],
            Self::WhenCut => &["when cut", "last cut"],
            Self::Origin => &["origin", "came from"],
            Self::BendRadius => &["bend radius", "radius"],
            Self::Diseased => &["diseased", "disease", "krank", "enfermo", "enferma"],
            Self::Note => &[
                "note",
                "notes",
                "remark",
                "remarks",
                "comment",
                "comments",
                "notiz",
                "bemerkung",
                "anmerkung",
                "nota",
                "notas",
                "observaciones",
            ],
        }
    }

    pub(super) fn name(self) -> &'static str {
        self.names()[0]
    }

    /// What a cell of it measures, to be told.
    pub(super) fn measured(self, cell: &str) -> Arg {
        let (read, arg): (_, fn(f64) -> Arg) = match self {
            Self::Diameter => (parse_thickness(cell, BareUnit::Millimetre), Arg::Thickness),
            _ => (parse_length(cell, BareUnit::Metre), Arg::Length),
        };
        read.map_or_else(|_| Arg::short(cell), arg)
    }

    pub(super) fn named(words: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|c| c.names().contains(&words))
    }

    pub(super) fn has_unit(self) -> bool {
        matches!(self, Self::Place | Self::Length | Self::Diameter)
    }
}

/// How a unit is written.
pub(super) fn sign(unit: BareUnit) -> &'static str {
    match unit {
        BareUnit::Millimetre => "mm",
        BareUnit::Centimetre => "cm",
        BareUnit::Metre => "m",
        BareUnit::Inch => "in",
        BareUnit::Foot => "ft",
    }
}
