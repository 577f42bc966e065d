//! Groups from YAML and tables.

use super::{Child, Group, Known};
use crate::bank::Bank;
use crate::packet::plan::{FocusNames, StepName};
use crate::sequence::Sequence;
use crate::sounds::Counting;

fn read(file: &str, text: &str) -> Result<Group, String> {
    let bank = Bank::builtin(Counting::default()).unwrap();
    let sequence = Sequence::builtin().unwrap();
    Group::read(file, text, &Known { bank: &bank, sequence: &sequence }).map_err(|error| error.to_string())
}

fn ana() -> Child {
    Child {
        name: "Ana".to_owned(),
        step: Some(StepName("13".to_owned())),
        focus: Some(FocusNames(vec!["bl".to_owned(), "cl".to_owned()])),
        words: vec!["lamp".to_owned()],
        leave_out: vec!["ghost".to_owned()],
        left_hand: true,
        set: Some(4),
        ..Child::default()
    }
}

#[test]
fn yaml_and_tables_say_the_same() {
    let yaml = "children:\n  - {name: ' Ana', step: 13, focus: bl cl, words: [Lamp], leave-out: [ghost], left-hand: true, set: 4}\n  - 7\n";
    let csv = "name,step,focus,words,leave-out,left-hand,set\nAna,13,bl cl,lamp,ghost,yes,4\n7,,,,,,\n";
    let seven = Child { name: "7".to_owned(), ..Child::default() };
    for (file, text) in [("g.yaml", yaml), ("g.csv", csv), ("g.csv", &csv.replace(',', ";"))] {
        assert_eq!(read(file, text).unwrap().children, [ana(), seven.clone()], "{file}");
    }
}

#[test]
fn everything_that_is_wrong_is_told_with_its_place() {
    let csv = "name,step,focus,words,large-print\nAna,99,blx,zzyzx,perhaps\nana,3,,,\n,3,,,\nBen,99,blx,lampp,\n";
    let told = read("g.csv", csv).unwrap_err();
    for part in ["g.csv:2:", "neither yes nor no", "g.csv:5:5:", "`99`", "`blx`", "did you mean `bl`?", "`lamp`"] {
        assert!(told.contains(part), "{part}: {told}");
    }
    let yaml = "children:\n  - {name: Ana, words: [cat, lampp]}\n  - {name: ANA}\n";
    let told = read("g.yaml", yaml).unwrap_err();
    for part in ["g.yaml:2:", "did you mean `lamp`?", "g.yaml:3:", "is the name of child 1 too"] {
        assert!(told.contains(part), "{part}: {told}");
    }
    assert!(read("g.yaml", "children: []\n").unwrap_err().contains("there is no child"));
    assert!(read("g.yaml", "children: [{name: A, away: true}]\n").unwrap_err().contains("every child is away"));
    assert!(read("g.yaml", "chidren: [A]\n").unwrap_err().contains("did you mean `children`?"));
}
