//! Messages as they are read, and texts that no one meant to write.

use std::collections::BTreeMap;

use proptest::prelude::*;
use serde::Deserialize;

use super::{MAX_BYTES, NamedChoice, YamlError, from_str, named_choice};
use crate::seed::Seed;

#[derive(Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
struct Layout {
    title: String,
    #[serde(default)]
    key: Option<Place>,
    #[serde(default)]
    tall: bool,
    #[serde(default)]
    words: Vec<String>,
    #[serde(default)]
    weights: BTreeMap<String, f64>,
    #[serde(default)]
    seed: Option<Seed>,
    #[serde(default, deserialize_with = "super::parsed")]
    #[schemars(with = "String")]
    letter: char,
    #[serde(default)]
    page: Vec<Block>,
}

#[derive(Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum Place {
    Below,
    OwnPage,
}

#[derive(Debug, Default, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
struct Title {
    size: i8,
}

#[derive(Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
struct Grid {
    columns: u8,
    #[serde(default)]
    cell: Vec<Block>,
}

named_choice! {
    /// A part of a page.
    #[derive(Debug, PartialEq)]
    enum Block: "block" {
        /// The title.
        Title(Title) = "title",
        /// A grid of boxes.
        Grid(Grid) = "grid",
    }
}

fn error(text: &str) -> YamlError {
    match from_str::<Layout>("a.yaml", text) {
        Ok(layout) => panic!("no error but {layout:?}"),
        Err(error) => error,
    }
}

/// `line:column message | hint`.
fn said(text: &str) -> String {
    let error = error(text);
    let place = match (error.line(), error.column()) {
        (Some(line), Some(column)) => format!("{line}:{column}"),
        _ => "-".to_owned(),
    };
    format!("{place} {} | {}", error.message(), error.hint().unwrap_or_default())
}

#[test]
fn names_stand_for_structs() {
    let text = "title: T\npage:\n  - title\n  - title: {size: 3}\n  - title:\n  - grid:\n      columns: 2\n      cell: [title]\n";
    let layout: Layout = from_str("a.yaml", text).unwrap_or_else(|error| panic!("{error}"));
    let plain = || Block::Title(Title::default());
    let grid = Block::Grid(Grid { columns: 2, cell: vec![plain()] });
    assert_eq!(layout.page, [plain(), Block::Title(Title { size: 3 }), plain(), grid]);
    assert_eq!(layout.page.iter().map(NamedChoice::name).collect::<Vec<_>>(), ["title", "title", "title", "grid"]);
}

#[test]
fn a_whole_message_shows_the_line() {
    assert_eq!(
        error("title: T\npage:\n  - grid:\n      colums: 2\n").to_string(),
        "a.yaml:4:7: there is no key `colums` here\n  \
           |\n\
         4 |       colums: 2\n  \
           |       ^^^^^^\n\
         help: did you mean `columns`? The keys are: `columns`, `cell`."
    );
}

#[test]
fn a_wrong_name_is_said_at_its_place() {
    let blocks = "did you mean `grid`? The blocks are: `title`, `grid`.";
    assert_eq!(said("title: T\npage:\n  - title\n  - gird\n"), format!("4:5 there is no block `gird` | {blocks}"));
    assert_eq!(said("title: T\npage: [title, gird: {}]\n"), format!("2:15 there is no block `gird` | {blocks}"));
    assert_eq!(
        said("title: T\npage:\n  - grid:\n      columns: 1\n      cell:\n        - gird:\n            columns: 2\n"),
        format!("6:11 there is no block `gird` | {blocks}")
    );
    assert_eq!(
        said("title: T\nkey: own_page\n"),
        "2:6 `own_page` is not one of the choices here | did you mean `own-page`? The choices are: `below`, `own-page`."
    );
    assert_eq!(
        said("title: T\nlines: 3\n"),
        "2:1 there is no key `lines` here | the keys are: `title`, `key`, `tall`, `words`, `weights`, `seed`, `letter`, `page`"
    );
}

#[test]
fn an_entry_holds_one_thing() {
    assert_eq!(
        said("title: T\npage:\n  - grid:\n    columns: 2\n"),
        "3:10 the key `columns` is missing in `grid` | add a line `columns: …`"
    );
    assert_eq!(
        said("title: T\npage:\n  - title:\n    size: 2\n"),
        "4:5 `size` stands beside `title`, not in it | \
         if it belongs to `title`, move it further in; if not, begin a new entry with `- size`"
    );
    assert_eq!(said("title: T\npage: [{}]\n"), "2:8 there is no block here, only empty brackets | ");
    assert_eq!(said("title: T\npage: [4]\n"), "2:8 expected the name of a block, found the number 4 | ");
    assert_eq!(said("title: T\npage: [[title]]\n"), "2:8 expected the name of a block, found a list | ");
}

#[test]
fn what_is_missing_and_where_is_said() {
    assert_eq!(said("tall: true\n"), "1:1 the key `title` is missing in this file | add a line `title: …`");
    assert_eq!(said(""), "1:1 the key `title` is missing in this file | add a line `title: …`");
    assert_eq!(
        said("title: T\npage:\n  - grid: {cell: []}\n"),
        "3:11 the key `columns` is missing in `grid` | add a line `columns: …`"
    );
    assert_eq!(
        said("title: T\npage:\n  - grid\n"),
        "3:5 the key `columns` is missing in entry 1 of `page` | add a line `columns: …`"
    );
}

#[test]
fn values_of_another_kind_are_said_plainly() {
    let grid = |value: &str| said(&format!("title: T\npage: [grid: {{columns: {value}}}]\n"));
    assert_eq!(grid("two"), "2:24 expected a whole number, found text \"two\" | ");
    assert_eq!(grid("'2'"), "2:24 expected a whole number, found text \"2\" | leave out the quotes");
    assert_eq!(grid("2.5"), "2:24 expected a whole number, found the number 2.5 | ");
    assert_eq!(grid("300"), "2:24 300 is too large here | the most is 255");
    assert_eq!(grid("-3"), "2:24 -3 is too small here | the least is 0");
    assert_eq!(grid("[2]"), "2:24 expected a whole number, found a list | ");
    assert_eq!(grid("{a: 2}"), "2:24 expected a whole number, found keys with values | ");
    assert_eq!(grid("~"), "2:24 expected a whole number, found nothing | ");
    assert_eq!(grid(""), "2:24 expected a whole number, found nothing | ");
    assert_eq!(said("title: [T]\n"), "1:8 expected text, found a list | ");
    assert_eq!(said("title: T\ntall: yes\n"), "2:7 expected `true` or `false`, found text \"yes\" | write `true`");
    assert_eq!(
        said("title: T\nwords: map\n"),
        "2:8 expected a list, found text \"map\" | write a list as `[a, b]`, or each entry on its own line after `- `"
    );
    assert_eq!(said("title: T\nweights: {a: x}\n"), "2:14 expected a number, found text \"x\" | ");
    assert_eq!(said("title: T\npage: [title: 3]\n"), "2:15 expected keys with values, found the number 3 | ");
    assert_eq!(said("title: T\npage: [title: {size: -200}]\n"), "2:22 -200 is too small here | the least is -128");
    assert_eq!(said("title: T\nkey: {below: 1}\n"), "2:6 expected a single word, found keys with values | ");
    assert_eq!(said("- title\n"), "1:1 expected keys with values, found a list | ");
}

#[test]
fn a_value_with_rules_of_its_own_keeps_its_place() {
    assert_eq!(said("title: T\nseed: ''\n"), "2:7 the seed is empty | ");
    assert_eq!(said("title: T\nletter: ab\n"), "2:9 too many characters in string | ");
    let layout: Layout = from_str("a.yaml", "title: T\nseed: 007\n").unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(layout.seed.map(|seed| seed.to_string()).as_deref(), Some("007"));
}

#[test]
fn a_key_given_twice_is_said_whatever_holds_it() {
    assert_eq!(said("title: T\ntall: true\ntitle: U\n"), "3:1 the key `title` is given twice | keep one of them");
    assert_eq!(said("title: T\nweights: {a: 1, b: 2, 'a': 3}\n"), "2:23 the key `a` is given twice | keep one of them");
    assert_eq!(said("title: T\nweights: {1: 1, '1': 3}\n"), "2:17 the key `1` is given twice | keep one of them");
}

#[test]
fn indentation_is_explained() {
    let tab = "a tab is used to indent this line; YAML allows only spaces | use spaces: two for each step further in";
    assert_eq!(said("title: T\npage:\n\t- title\n"), format!("3:1 {tab}"));
    assert_eq!(said("title: T\npage:\n  - grid:\n  \t  columns: 2\n"), format!("4:3 {tab}"));
    let colon = "text with a colon needs quotes, as in `title: \"Read: short a\"`; a key on its own line must line up with those \
                 above it";
    assert_eq!(said("title: T\n  tall: true\n"), format!("2:7 a `:` is not expected here | {colon}"));
    assert_eq!(said("title: Read: short a\n"), format!("1:12 a `:` is not expected here | {colon}"));
    assert_eq!(
        said("  title: T\ntall: true\n"),
        "2:1 this belongs to nothing above it | keys that belong together begin in the same column; if the line before is text, put it \
         all in quotes"
    );
    assert_eq!(
        said("title: T\npage:\n  - title\n tall: true\n"),
        "4:2 a key was expected here | keys that belong together begin in the same column; if the line before is text, put it \
         all in quotes"
    );
}

#[test]
fn signs_left_open_are_said_where_they_open() {
    assert_eq!(
        said("title: \"T\ntall: true\n"),
        "1:8 the quotes that open here are not closed | close them with the same sign"
    );
    assert_eq!(
        said("title: T\nwords: [map, net\ntall: true\n"),
        "2:8 this list is not closed, or a `,` is missing in it | write a list as `[a, b]`"
    );
    assert_eq!(
        said("title: T\npage: [grid: {columns: 2]\n"),
        "2:14 these keys are not closed, or a `,` is missing between them | write them as `{columns: 2, gap: 4}`"
    );
    let quotes = "put the whole text in quotes, as in `title: \"Read: short a\"`";
    assert_eq!(said("title: @T\n"), format!("1:8 a value can't begin with `@` | {quotes}"));
    assert_eq!(said("title: *T\n"), format!("1:8 this alias (`*name`) has no anchor (`&name`) before it | {quotes}"));
    assert_eq!(said("title: T\ntall\n"), "2:1 there is no `:` after this key | write it as `key: value`");
    assert_eq!(said("title: T\n---\ntitle: U\n"), "2:1 the file has a second document | take out the line `---`");
    assert_eq!(said("# a\n---\ntitle: T\n---\n"), "4:1 the file has a second document | take out the line `---`");
    assert_eq!(said("title: a\u{7}b\n"), "1:9 there is a character here that YAML doesn't allow (U+0007) | ");
}

#[test]
fn lines_count_the_same_for_every_line_end() {
    for end in ["\n", "\r\n", "\r"] {
        let text = ["\u{feff}title: T", "# Ä", "tall: no"].join(end);
        assert_eq!(said(&text), "3:7 expected `true` or `false`, found text \"no\" | write `false`");
        assert!(error(&text).to_string().contains("3 | tall: no\n"));
    }
}

#[test]
fn keys_that_look_like_messages_do_no_harm() {
    for key in [
        "a: unknown field `x`, expected `y`",
        "missing field `",
        "invalid type: map, expected ",
        "x\": ",
        "`, expected `",
    ] {
        let quoted = key.replace('"', "\\\"");
        let error = error(&format!("title: T\n\"{quoted}\": 1\n"));
        assert_eq!((error.line(), error.column()), (Some(2), Some(1)), "{error}");
        let error = from_str::<BTreeMap<String, u8>>("a.yaml", &format!("\"{quoted}\": x\n"));
        assert_eq!(error.map_err(|error| error.line()), Err(Some(1)));
    }
}

mod bombs {
    use super::{BTreeMap, MAX_BYTES, error, from_str};

    #[test]
    fn deep_nesting_is_refused() {
        assert_eq!(error(&"[".repeat(MAX_BYTES)).message(), "more than 128 brackets are open here");
        assert_eq!(error(&"{a: ".repeat(100_000)).message(), "more than 128 brackets are open here");
        assert_eq!(error(&"- ".repeat(100_000)).message(), "this nests deeper than can be read");
        assert_eq!(error(&"? ".repeat(100_000)).message(), "this nests deeper than can be read");
        let steps: String = (0..500).flat_map(|depth| [" ".repeat(depth), "a:\n".to_owned()]).collect();
        assert_eq!(error(&steps).message(), "this nests deeper than can be read");
    }

    #[test]
    fn as_deep_as_is_read_fits_the_stack() {
        let nested =
            |depth: usize| format!("{}title{}", "[grid: {columns: 1, cell: ".repeat(depth), "}]".repeat(depth));
        let read =
            |depth| from_str::<Vec<super::Block>>("a.yaml", &nested(depth)).map_err(|error| error.message().to_owned());
        assert_eq!(read(40).err().as_deref(), Some("expected a list, found text \"title\""));
        assert_eq!(read(43).err().as_deref(), Some("this nests deeper than can be read"));
    }

    #[test]
    fn aliases_cannot_multiply() {
        let mut lines = vec!["l0: &l0 [x, x, x, x, x, x, x, x, x]".to_owned()];
        for level in 1..20 {
            let before = format!("*l{}", level - 1);
            lines.push(format!("l{level}: &l{level} [{}]", [&before[..]; 9].join(", ")));
        }
        let too_much = "aliases (`*name`) repeat more than can be read";
        assert_eq!(error(&lines.join("\n")).message(), too_much);
        assert_eq!(error("title: &a [*a]\n").message(), "this nests deeper than can be read");
        assert_eq!(error("title: &a [*a, *a]\n").message(), "this nests deeper than can be read");
    }

    #[test]
    fn a_long_text_cannot_be_repeated_without_end() {
        let text = format!("a: &a {}\nb: [{}]\n", "x".repeat(1 << 20), vec!["*a"; 100].join(", "));
        let said = from_str::<serde_json::Value>("a.yaml", &text).map_err(|error| error.message().to_owned());
        assert_eq!(said.err().as_deref(), Some("aliases (`*name`) repeat more than can be read"));
    }

    #[test]
    fn an_alias_used_with_measure_is_followed() {
        let read = from_str::<BTreeMap<String, Vec<u8>>>("a.yaml", "a: &a [1, 2]\nb: *a\n");
        assert_eq!(read.map(|read| read["b"].clone()), Ok(vec![1, 2]));
    }

    #[test]
    fn a_text_longer_than_a_file_may_be_is_refused() {
        assert_eq!(
            error(&" ".repeat(MAX_BYTES + 1)).message(),
            "this file is larger than 4 MiB, the most that is read"
        );
    }
}

const GOOD: &str = "\
title: Read & circle
key: own-page
tall: false
words: [map, 'net', \"p\\u00efg\"]
weights: {a: 1.5, b: 2}
seed: maple-otter-42
letter: a
page:
  - title: &t {size: 3}
  - grid:
      columns: 2
      cell:
        - title: *t
        - title
";

/// What can be done to a text by hand or by accident.
fn mutated() -> impl Strategy<Value = String> {
    let piece = prop_oneof![
        "[\\[\\]{}:,&*!|>'\"%@`#?~\t \n-]{1,3}",
        Just("---\n".to_owned()),
        Just("!!int ".to_owned()),
        Just("!x ".to_owned()),
        Just("&t ".to_owned()),
        Just("*t".to_owned()),
        Just("<<: ".to_owned()),
        "\\PC",
        any::<char>().prop_map(String::from),
    ];
    let edit = (0..GOOD.len(), 0..8usize, piece);
    (prop::collection::vec(edit, 0..6), 0..=GOOD.len()).prop_map(|(edits, length)| {
        let mut text: Vec<char> = GOOD.chars().take(length.max(40)).collect();
        for (at, removed, piece) in edits {
            let at = at.min(text.len());
            let end = (at + removed).min(text.len());
            text.splice(at..end, piece.chars());
        }
        text.into_iter().collect()
    })
}

/// Every reader, with what must hold of its error.
fn read_every_way(text: &str) -> Result<(), TestCaseError> {
    let errors = [
        from_str::<Layout>("a.yaml", text).err(),
        from_str::<Vec<Block>>("a.yaml", text).err(),
        from_str::<BTreeMap<String, Vec<Option<u8>>>>("a.yaml", text).err(),
        from_str::<Option<Place>>("a.yaml", text).err(),
        from_str::<(bool, char, f32)>("a.yaml", text).err(),
        from_str::<Seed>("a.yaml", text).err(),
        from_str::<serde_json::Value>("a.yaml", text).err(),
    ];
    for error in errors.into_iter().flatten() {
        let shown = error.to_string();
        prop_assert!(shown.starts_with("a.yaml:"));
        prop_assert!(shown.chars().count() < 2500 && shown.lines().count() <= 5, "{}", shown);
        prop_assert!(!error.message().is_empty());
        let lines = super::excerpt::lines(text).count();
        prop_assert!(error.line().is_none_or(|line| (1..=lines.max(1)).contains(&line)), "{} in {:?}", shown, text);
    }
    Ok(())
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(text: String) {
        read_every_way(&text)?;
    }

    #[test]
    fn any_signs_are_read_or_refused(text in "[a1 \n\t:,&*!|>'\"%@`#?~\\[\\]{}<=\\-]{0,60}") {
        read_every_way(&text)?;
    }

    #[test]
    fn a_spoilt_layout_is_read_or_refused(text in mutated()) {
        read_every_way(&text)?;
    }
}

#[test]
fn the_layout_that_is_spoilt_is_good() {
    assert_eq!(from_str::<Layout>("a.yaml", GOOD).err(), None);
}
