//! What is marked on the wall, and which copies were sent, in words and back.

use super::dto::{MarkDto, PinDto, PinnedTo};
use super::number::{id_of, rule, whole, words};
use crate::plan::{self, Mark, MarkShape, Pin};
use crate::range;
use crate::refusal::Refusal;
use crate::row::TreeId;

pub(super) fn read(file: Vec<MarkDto>) -> Result<Vec<Mark>, Refusal> {
    let mut out = Vec::with_capacity(file.len());
    for (n, m) in file.into_iter().enumerate() {
        let path = format!("marks[{n}]");
        let kind = m.kind.map_or(MarkShape::Note, Into::into);
        let at = PinDto {
            x_mm: m.x_mm,
            z_mm: m.z_mm,
            on: m.on,
        };
        let to = m.to.map(|to| pin(&to, &format!("{path}.to"))).transpose()?;
        if kind.has_two() != to.is_some() {
            return Err(rule(format!("{path}.to"), "rule-mark-ends"));
        }
        out.push(Mark {
            kind,
            at: pin(&at, &path)?,
            to,
            text: words(m.text, &|| format!("{path}.text"))?,
        });
    }
    Ok(out)
}

fn pin(file: &PinDto, path: &str) -> Result<Pin, Refusal> {
    let place = |value: i64, name: &str| whole(value, range::PLACE, &|| format!("{path}.{name}"));
    let along = |on: &PinnedTo| {
        Ok(plan::PinnedTo {
            tree: TreeId(on.tree),
            shoot: id_of(on.shoot, &|| format!("{path}.on.shoot"))?,
            along: whole(on.along_mm, (0.0, range::PLACE.1), &|| {
                format!("{path}.on.along_mm")
            })?,
        })
    };
    Ok(Pin {
        x: place(file.x_mm, "x_mm")?,
        z: place(file.z_mm, "z_mm")?,
        on: file.on.as_ref().map(along).transpose()?,
    })
}

pub(super) fn write(mark: &Mark) -> MarkDto {
    let at = pinned(&mark.at);
    MarkDto {
        kind: mark.kind.has_two().then(|| mark.kind.into()),
        x_mm: at.x_mm,
        z_mm: at.z_mm,
        on: at.on,
        to: mark.to.as_ref().map(pinned),
        text: mark.text.clone(),
    }
}

fn pinned(pin: &Pin) -> PinDto {
    PinDto {
        x_mm: pin.x.0.into(),
        z_mm: pin.z.0.into(),
        on: pin.on.map(|on| PinnedTo {
            tree: on.tree.0,
            shoot: on.shoot.number(),
            along_mm: on.along.0.into(),
        }),
    }
}

pub(super) fn read_sent(file: &[String]) -> Result<Vec<u64>, Refusal> {
    let mut out = Vec::with_capacity(file.len());
    for (n, digits) in file.iter().enumerate() {
        let read = u64::from_str_radix(digits, 16).ok();
        let read = read.filter(|_| digits.len() == 16 && !digits.starts_with('+'));
        out.push(read.ok_or_else(|| rule(format!("sent[{n}]"), "rule-fingerprint"))?);
    }
    Ok(out)
}
