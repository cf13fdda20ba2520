//! What is told of a scheme's work from the row, in words and back.

use super::dto::{ExtraDto, FieldDto, NoteDto, PieceDto};
use super::number::{leaf, number, rule, text_of, twice};
use super::work::{seasons, work_of, works_of};
use crate::file::json::UpTo;
use crate::plan::{Field, Plan};
use crate::refusal::Refusal;
use crate::row::{Moment, TreeId, Window};
use crate::sorted::Map;
use crate::work::{Subject, Work};

pub(super) fn read(file: FieldDto, path: &str) -> Result<Field, Refusal> {
    let mut out = Field {
        done: works_of(file.done.0, &format!("{path}.done"))?
            .into_iter()
            .collect(),
        ..Field::default()
    };
    for (n, p) in file.skipped.0.into_iter().enumerate() {
        let path = format!("{path}.skipped[{n}]");
        let (moment, work) = piece(&p, &path)?;
        let subject = work.subject();
        let done = out.done.work_on(moment, subject.tree);
        // A piece is done or left.
        if done.iter().any(|w| w.subject() == subject) {
            return Err(twice(format!("{path}.work"), "done"));
        }
        let reason = text_of(p.reason.unwrap_or_default(), Field::MAX_TEXT, &|| {
            format!("{path}.reason")
        })?;
        once(&mut out.skipped, (moment, subject), (work, reason), &path)?;
    }
    for (n, p) in file.seen.0.into_iter().enumerate() {
        let path = format!("{path}.seen[{n}]");
        let (moment, work) = piece(&p, &path)?;
        let Some(is) = p.is else {
            return Err(rule(format!("{path}.is"), "rule-seen"));
        };
        let key = (moment, work.subject());
        once(&mut out.seen, key, (work, is.into()), &path)?;
    }
    for (n, e) in file.extra.0.into_iter().enumerate() {
        let path = format!("{path}.extra[{n}]");
        let cuts = number(e.cuts, Field::EXTRA, &|| format!("{path}.cuts"))?;
        let moment = moment(e.leaf, e.window.into(), &path)?;
        let key = (moment, e.job.into(), TreeId(e.tree));
        once(&mut out.extra, key, cuts as u16, &path)?;
    }
    for (n, note) in file.notes.0.into_iter().enumerate() {
        let path = format!("{path}.notes[{n}]");
        let text = text_of(note.text, Field::MAX_TEXT, &|| format!("{path}.text"))?;
        let moment = moment(note.leaf, note.window.into(), &path)?;
        let key = (moment, note.tree.map(TreeId));
        once(&mut out.notes, key, text, &path)?;
    }
    Ok(out)
}

fn once<K: Ord, V>(map: &mut Map<K, V>, key: K, value: V, path: &str) -> Result<(), Refusal> {
    match map.insert(key, value) {
        None => Ok(()),
        Some(_) => Err(twice(path.into(), "it")),
    }
}

fn moment(number: i64, window: Window, path: &str) -> Result<Moment, Refusal> {
    let leaf = leaf(number, 1, Plan::MAX_LEAF, &|| format!("{path}.leaf"))?;
    Ok(Moment { leaf, window })
}

fn piece(piece: &PieceDto, path: &str) -> Result<(Moment, Work), Refusal> {
    let moment = moment(piece.leaf, piece.window.into(), path)?;
    let work = work_of(piece.work.clone(), &|| format!("{path}.work"))?;
    Ok((moment, work))
}

pub(super) fn write(field: &Field) -> Option<FieldDto> {
    let piece = |(moment, _): &(Moment, Subject), work: &Work| PieceDto {
        leaf: moment.leaf.into(),
        window: moment.window.into(),
        work: work.clone().into(),
        reason: None,
        is: None,
    };
    let skipped = field.skipped.iter().map(|(at, (work, why))| PieceDto {
        reason: Some(why.clone()).filter(|why| !why.is_empty()),
        ..piece(at, work)
    });
    let seen = field.seen.iter().map(|(at, (work, is))| PieceDto {
        is: Some((*is).into()),
        ..piece(at, work)
    });
    let extra = field.extra.iter().map(|((at, job, tree), cuts)| ExtraDto {
        leaf: at.leaf.into(),
        window: at.window.into(),
        job: (*job).into(),
        tree: tree.0,
        cuts: (*cuts).into(),
    });
    let notes = field.notes.iter().map(|((at, tree), text)| NoteDto {
        leaf: at.leaf.into(),
        window: at.window.into(),
        tree: tree.map(|t| t.0),
        text: text.clone(),
    });
    (!field.is_empty()).then(|| FieldDto {
        done: seasons(&field.done),
        skipped: UpTo(skipped.collect()),
        seen: UpTo(seen.collect()),
        extra: UpTo(extra.collect()),
        notes: UpTo(notes.collect()),
    })
}
