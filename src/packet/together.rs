//! What the sheets of one packet owe each other: pages leave aside the words of a lesson script, and a note to the family tells of
//! all of them.
//!
//! Scripts are made first, then the sheets, then the notes. So a sheet of a packet with a script has other words than the same sheet
//! alone; all else depends on its own request only.

use super::request::SheetRequest;
use crate::bank::Bank;
use crate::fill::FillError;
use crate::sheet::{Practised, Reader, Sheet, with_homophones};

/// What a sheet is given from the others of its packet.
#[derive(Clone, Debug, Default)]
pub(super) struct Given {
    /// Words to leave aside.
    pub avoid: Vec<String>,
    /// The only words it may have; empty for any.
    pub among: Vec<String>,
    /// How many items, when it is not the request's number.
    pub count: Option<usize>,
}

/// Makes the sheets of a packet by `one`, each with what the others give it, in the order of the packet.
///
/// # Errors
/// The first sheet, in the order of making, that can't be filled: its place from 0, and why.
pub(super) fn all(
    sheets: &[SheetRequest],
    bank: &Bank,
    one: &dyn Fn(&SheetRequest, &Given) -> Result<Sheet, FillError>,
) -> Result<Vec<Sheet>, (usize, FillError)> {
    let turn = |sheet: &SheetRequest| match sheet.layout.reader {
        _ if sheet.layout.is_script() => 0,
        Reader::Family => 2,
        Reader::Child | Reader::Teacher => 1,
    };
    let mut order: Vec<usize> = (0..sheets.len()).collect();
    order.sort_by_key(|&at| turn(&sheets[at]));
    let mut made: Vec<Option<Sheet>> = vec![None; sheets.len()];
    let mut script: Vec<String> = Vec::new();
    let mut again: Vec<usize> = Vec::new();
    for at in order {
        let sheet = &sheets[at];
        let done = match turn(sheet) {
            0 => one(sheet, &Given::default()),
            1 => apart(sheet, &script, one).map(|(done, avoided)| {
                if done.words(bank).iter().any(|word| script[avoided..].contains(word)) {
                    again.push(at);
                }
                done
            }),
            _ => note(sheet, sheets, &made, bank, one),
        };
        let done = done.map_err(|error| (at, error))?;
        if turn(sheet) == 0 {
            // What is read in print is avoided first, and it stands at the end of a lesson.
            let words = done.words(bank).into_iter().rev();
            script = with_homophones(script.into_iter().chain(words), bank);
        }
        made[at] = Some(done);
    }
    let mut made: Vec<Sheet> = made.into_iter().flatten().collect();
    let script = sheets.iter().position(|sheet| sheet.layout.is_script());
    if let (Some(script), false) = (script, again.is_empty()) {
        let titles: Vec<String> = again.iter().map(|&at| made[at].title.clone()).collect();
        made[script].remarks.push(format!(
            "Too few other words can be read at this step, so words of this lesson come again on: {}.",
            titles.join(", ")
        ));
    }
    Ok(made)
}

/// A sheet that leaves aside the words of the script, as far as the bank allows: all of them, half of them, or none. With it, how many.
fn apart(
    sheet: &SheetRequest,
    script: &[String],
    one: &dyn Fn(&SheetRequest, &Given) -> Result<Sheet, FillError>,
) -> Result<(Sheet, usize), FillError> {
    for most in [script.len(), script.len() / 2].into_iter().filter(|most| *most > 0) {
        let given = Given { avoid: script[..most].to_vec(), ..Given::default() };
        match one(sheet, &given) {
            // A record that lacks a part because of the script had better have it.
            Ok(done) if done.parts.iter().all(|part| part.left_out.is_none()) => return Ok((done, most)),
            Err(error) if error.in_short().is_none() => return Err(error),
            Ok(_) | Err(_) => {}
        }
    }
    one(sheet, &Given::default()).map(|done| (done, 0))
}

/// A note to the family: its words are those that can be read on the children's sheets; where those are too few, it has as many as there
/// are, and alone in a packet any.
fn note(
    sheet: &SheetRequest,
    sheets: &[SheetRequest],
    made: &[Option<Sheet>],
    bank: &Bank,
    one: &dyn Fn(&SheetRequest, &Given) -> Result<Sheet, FillError>,
) -> Result<Sheet, FillError> {
    let for_child = || sheets.iter().zip(made).filter(|(of, _)| of.layout.reader == Reader::Child);
    let among: Vec<String> =
        for_child().filter_map(|(_, done)| done.as_ref()).flat_map(|done| done.words(bank)).collect();
    let mut done = one(sheet, &Given { among: among.clone(), ..Given::default() });
    if let Err(FillError::TooFew(short)) = &done {
        let count = Some(short.at_most).filter(|count| *count > 0 && !among.is_empty());
        if count.is_some() {
            done = one(sheet, &Given { among, count, ..Given::default() });
        }
    }
    let mut done = match done {
        Err(error) if error.in_short().is_some() => one(sheet, &Given::default())?,
        other => other?,
    };
    for (of, _) in for_child() {
        let practised = Practised { title: of.title.clone(), skill: of.practises.clone() };
        if !done.practised.contains(&practised) {
            done.practised.push(practised);
        }
    }
    Ok(done)
}
