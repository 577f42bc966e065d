//! A packet with a lesson script, a record and a note to the family: what its sheets owe each other, and in which language.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

mod support;

use std::collections::BTreeSet;

use sheafling::layout::Library;
use sheafling::packet::{FocusNames, Made, Materials, PacketRequest, Plan, PlanSheet, StepName, contents, make};
use sheafling::page::Mark;
use sheafling::seed::Seed;
use sheafling::sheet::{Kind, Sheet};
use support::{materials, sheafling};

const SHEETS: [&str; 6] = ["sound-boxes", "lesson-script", "blend-sort", "dictation", "progress-record", "home-note"];

fn plan(step: &str, focus: &str, sheets: &[&str]) -> Plan {
    let sheet = |name: &&str| PlanSheet { layout: (*name).to_owned(), ..PlanSheet::default() };
    Plan {
        title: "Test".to_owned(),
        step: Some(StepName(step.to_owned())),
        focus: Some(FocusNames::parse(focus)),
        sheets: sheets.iter().map(sheet).collect(),
        ..Plan::default()
    }
}

fn request(plan: &Plan, seed: &str) -> PacketRequest {
    PacketRequest::new(plan, materials(), Seed::new(seed).unwrap()).unwrap()
}

fn sheets(step: &str, focus: &str, seed: &str) -> Vec<Sheet> {
    contents(&request(&plan(step, focus, &SHEETS), seed), materials()).unwrap()
}

/// The words of a sheet's items, with those of its parts; the frames of phrases, *the* and *on*, may come again.
fn words(sheet: &Sheet) -> BTreeSet<String> {
    let items = sheet.items.iter().chain(sheet.parts.iter().flat_map(|part| &part.items));
    let of_phrase = |item: &&sheafling::sheet::Item| item.kind != Kind::Phrase;
    items.filter(of_phrase).flat_map(|item| item.words(&materials().bank)).collect()
}

#[test]
fn pages_have_other_words_than_the_script() {
    for seed in ["a", "b", "c"] {
        let sheets = sheets("ai-ay", "bl cl fl st", seed);
        let script = words(&sheets[1]);
        assert!(script.len() > 30, "{script:?}");
        assert_eq!(sheets[1].remarks, [""; 0]);
        for sheet in sheets.iter().filter(|sheet| !["lesson-script", "home-note"].contains(&&*sheet.layout)) {
            let again: Vec<_> = words(sheet).intersection(&script).cloned().collect();
            assert!(again.is_empty(), "{}: {again:?}", sheet.layout);
        }
    }
}

/// Where the bank is too small, words come again, and the script says on which pages.
#[test]
fn too_few_words_come_again_and_it_is_said() {
    let sheets = sheets("l-blends", "gl bl cl", "a");
    let script = words(&sheets[1]);
    let [remark] = sheets[1].remarks.as_slice() else { panic!("{:?}", sheets[1].remarks) };
    for sheet in sheets.iter().filter(|sheet| !["lesson-script", "home-note"].contains(&&*sheet.layout)) {
        let again = words(sheet).intersection(&script).count();
        assert_eq!(again > 0, remark.contains(&sheet.title), "{}: {again} in {remark}", sheet.title);
    }
    assert!(remark.contains("Sound boxes"), "{remark}");
}

/// Without a script, a sheet is the same alone and beside others.
#[test]
fn a_sheet_without_a_script_depends_on_no_other() {
    let of = |names: &[&str]| contents(&request(&plan("ai-ay", "bl cl fl", names), "a"), materials()).unwrap();
    assert!(of(&["blend-sort"])[0] == of(&["sound-boxes", "blend-sort", "progress-record"])[1]);
    assert!(of(&["blend-sort"])[0].items != of(&["lesson-script", "blend-sort"])[1].items);
    // The script itself is the same with and without the others, wherever it stands.
    assert!(of(&["lesson-script"])[0].parts == of(&["blend-sort", "lesson-script"])[1].parts);
}

#[test]
fn the_note_tells_of_the_childrens_sheets_and_has_their_words() {
    let sheets = sheets("ai-ay", "bl cl fl", "a");
    let note = sheets.last().unwrap();
    let titles: Vec<&str> = note.practised.iter().map(|sheet| sheet.title.as_str()).collect();
    assert_eq!(titles, ["Sound boxes", "Blend sort", "Listen and write"]);
    let theirs: BTreeSet<String> =
        sheets.iter().filter(|sheet| titles.contains(&&*sheet.title)).flat_map(words).collect();
    assert_eq!(note.items.len(), 12);
    assert!(words(note).is_subset(&theirs), "{:?}", words(note));
    // With fewer words there, it has as many as there are; alone, words of the focus.
    let small = plan("ai-ay", "bl cl fl", &["home-note", "word-ladder"]);
    let few = contents(&request(&small, "a"), materials()).unwrap();
    assert!(words(&few[0]).is_subset(&words(&few[1])) && few[0].items.len() < 12);
    let alone = contents(&request(&plan("ai-ay", "bl cl fl", &["home-note"]), "a"), materials()).unwrap();
    assert_eq!((alone[0].items.len(), alone[0].practised.len()), (12, 0));
}

#[test]
fn pages_for_adults_have_no_key() {
    let pages = |names: &[&str]| -> Made { make(&request(&plan("ai-ay", "bl", names), "a"), materials()).unwrap() };
    assert_eq!(pages(&["lesson-script", "progress-record", "home-note"]).document.pages.len(), 3);
    assert_eq!(pages(&["lesson-script", "sound-boxes"]).document.pages.len(), 3);
    let apart = Plan { key: Some(sheafling::packet::KeyPlace::Apart), ..plan("ai-ay", "bl", &["home-note"]) };
    assert_eq!(make(&request(&apart, "a"), materials()).unwrap().key, None);
}

fn text(mark: &Mark) -> Option<&str> {
    match mark {
        Mark::Text { text, .. } => Some(text.as_str()),
        _ => None,
    }
}

fn texts(made: &Made) -> Vec<Vec<&str>> {
    made.document.pages.iter().map(|page| page.marks.iter().filter_map(text).collect()).collect()
}

/// No word of the English note is left on the Spanish one but the words to read and the titles of the sheets.
#[test]
fn a_note_is_all_in_its_language() {
    let names = ["home-note", "sound-boxes"];
    let english = make(&request(&plan("ai-ay", "bl cl", &names), "a"), materials()).unwrap();
    let spanish = Plan { language: Some("es".to_owned()), ..plan("ai-ay", "bl cl", &names) };
    let spanish = make(&request(&spanish, "a"), materials()).unwrap();
    let (before, after) = (texts(&english), texts(&spanish));
    let allowed: BTreeSet<&str> =
        spanish.sheets[0].items.iter().map(|item| item.word.as_str()).chain(["•", "Sound boxes:"]).collect();
    let same: Vec<&&str> =
        after[0].iter().filter(|text| before[0].contains(text) && !allowed.contains(**text)).collect();
    assert!(same.is_empty(), "{same:?}");
    assert!(after[0].contains(&"página 1 de 3  ·  semilla a"), "{:?}", after[0]);
    // The sheet stays as it is, and each page says its language.
    assert_eq!(before[1], after[1]);
    assert_eq!(spanish.document.language, "en-US");
    let languages: Vec<_> = spanish.document.pages.iter().map(|page| page.language.as_deref()).collect();
    assert_eq!(languages, [Some("es"), None, None]);
    let alone = Plan { language: Some("es".to_owned()), ..plan("ai-ay", "bl cl", &["home-note"]) };
    let alone = make(&request(&alone, "a"), materials()).unwrap();
    assert_eq!((alone.document.language.as_str(), alone.document.pages[0].language.as_deref()), ("es", None));
    let file = sheafling::pdf::write(&spanish.document).unwrap();
    let file = lopdf::Document::load_mem(&file).unwrap();
    let marked = |page: u32| {
        let content = file.get_page_content(file.get_pages()[&page]);
        String::from_utf8_lossy(&content).contains("/Span <</Lang (es)>> BDC")
    };
    assert_eq!([marked(1), marked(2)], [true, false]);
}

/// Every built-in layout for a child has its line in each language, so that no note falls back to a general one.
#[test]
fn every_sheet_has_its_line_in_spanish() {
    let library = Library::builtin().unwrap();
    let spanish = library.language("es").unwrap().unwrap();
    let child = |layout: &&sheafling::layout::Layout| layout.reader == sheafling::sheet::Reader::Child;
    let missing: Vec<&str> = library
        .all()
        .map(|stored| &stored.layout)
        .filter(child)
        .filter(|layout| !spanish.skills.contains_key(&layout.name))
        .map(|layout| layout.name.as_str())
        .collect();
    assert!(missing.is_empty(), "add them under `skills` in layouts/languages/es.yaml: {missing:?}");
}

#[test]
fn languages_of_ones_own_and_their_errors() {
    let folder = tempfile::tempdir().unwrap();
    let languages = folder.path().join("languages");
    std::fs::create_dir(&languages).unwrap();
    let layouts = folder.path().to_str().unwrap();
    let run = |language: &str, layout: &str| {
        sheafling(&[
            "sheet",
            layout,
            "--language",
            language,
            "--layouts",
            layouts,
            "--seed",
            "a",
            "--format",
            "json",
            "--out",
            "-",
        ])
    };
    let unknown = run("fr", "home-note");
    assert_eq!(unknown.code, 2);
    assert!(unknown.err.contains("there are no texts in `fr`") && unknown.err.contains("en, es"), "{}", unknown.err);
    // A file of one's own says one thing otherwise; the rest stays as it is built in.
    std::fs::write(languages.join("es.yaml"), "language: es\nlayouts: {home-note: {title: Otro título}}\n").unwrap();
    let other = run("es", "home-note");
    let text = String::from_utf8(other.out).unwrap();
    assert!(text.contains("Otro título") && text.contains("Cinco minutos"), "{} {text}", other.err);
    // A sheet can be translated too; what is missing is named.
    let none = run("es", "sound-boxes");
    assert!(none.code == 2 && none.err.contains("`layouts.sound-boxes`"), "{}", none.err);
    std::fs::write(languages.join("es.yaml"), "language: es\nlayouts: {sound-boxes: {title: Cajas}}\n").unwrap();
    let part = run("es", "sound-boxes");
    assert!(part.code == 2 && part.err.contains("`layouts.sound-boxes.directions`"), "{}", part.err);
    std::fs::write(languages.join("es.yaml"), "language: es\nlayuots: {}\n").unwrap();
    let slip = run("es", "home-note");
    assert!(slip.code == 2 && slip.err.contains("es.yaml:2:1") && slip.err.contains("`layouts`"), "{}", slip.err);
    assert_eq!(run("en", "sound-boxes").code, 2, "the file is still wrong");
}

/// In a packet, a layout without an own line of what it practises has the general one.
#[test]
fn a_layout_of_ones_own_has_a_general_line() {
    let mut library = Library::builtin().unwrap();
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(
        folder.path().join("mine.yaml"),
        "name: mine\ntitle: Mine\nskill: Reads.\nfill: words\npage: [title, {rows: {cell: [text: {of: \"{word}\"}]}}]\n",
    )
    .unwrap();
    library.lay_over(folder.path()).unwrap();
    let own = Materials::new(
        sheafling::bank::Bank::builtin(sheafling::sounds::Counting::default()).unwrap(),
        sheafling::sequence::Sequence::builtin().unwrap(),
        library,
    );
    let plan = Plan { language: Some("es".to_owned()), ..plan("ai-ay", "bl cl", &["mine", "home-note"]) };
    let request = PacketRequest::new(&plan, &own, Seed::new("a").unwrap()).unwrap();
    let note = contents(&request, &own).unwrap().remove(1);
    assert_eq!(note.practised[0].skill, "Practica la lectura y la escritura de palabras en inglés.");
}
