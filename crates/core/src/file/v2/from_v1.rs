//! From the words of version 1: nothing is told of cuts, origins and bends.

use crate::file::json::UpTo;
use crate::file::v1::dto as v1;
use crate::file::v5::dto::{File, Found, MarkDto, SchemeDto, Shoot, Tree, Unit};

impl From<v1::File> for File {
    fn from(old: v1::File) -> Self {
        Self {
            format: old.format,
            version: 2,
            name: old.name,
            note: old.note,
            site: old.site,
            targets: old.targets,
            assumptions: v1::Targets::default(),
            found: old.found.into(),
            schemes: all(old.schemes),
            marks: all(old.marks),
            sent: UpTo::default(),
            left: UpTo::default(),
            counts: UpTo::default(),
            crew: None,
        }
    }
}

impl From<v1::MarkDto> for MarkDto {
    fn from(old: v1::MarkDto) -> Self {
        Self {
            kind: None,
            x_mm: old.x_mm,
            z_mm: old.z_mm,
            on: None,
            to: None,
            text: old.text,
        }
    }
}

impl From<v1::SchemeDto> for SchemeDto {
    fn from(old: v1::SchemeDto) -> Self {
        Self {
            name: old.name,
            seasons: old.seasons,
            ..Self::default()
        }
    }
}

impl From<v1::Found> for Found {
    fn from(old: v1::Found) -> Self {
        Self {
            leaf: old.leaf,
            tipped: None,
            from_mm: old.from_mm,
            to_mm: old.to_mm,
            trellis: old.trellis,
            trees: all(old.trees),
        }
    }
}

impl From<v1::Tree> for Tree {
    fn from(old: v1::Tree) -> Self {
        Self {
            id: old.id,
            foot_mm: old.foot_mm,
            planted: old.planted,
            vigour: None,
            like: None,
            diseased: false,
            note: old.note,
            shoots: all(old.shoots),
        }
    }
}

impl From<v1::Shoot> for Shoot {
    fn from(old: v1::Shoot) -> Self {
        Self {
            id: old.id,
            parent: old.parent,
            at_mm: old.at_mm,
            face: old.face,
            origin: None,
            pose: old.pose,
            toward: old.toward,
            rise_deg: old.rise_deg,
            lean_deg: old.lean_deg,
            bend_radius_dmm: None,
            diameter_dmm: old.diameter_dmm,
            units: all(old.units),
            laterals: old.laterals,
            rubbed: old.rubbed,
            note: String::new(),
        }
    }
}

impl From<v1::Unit> for Unit {
    fn from(old: v1::Unit) -> Self {
        Self {
            leaf: old.leaf,
            grown_mm: old.grown_mm,
            kept_mm: old.kept_mm,
            cut: None,
        }
    }
}

fn all<A, B: From<A>, const N: usize>(old: UpTo<A, N>) -> UpTo<B, N> {
    UpTo(old.0.into_iter().map(B::from).collect())
}
