use super::*;

#[test]
fn sorts_are_even_distinct_and_fit_one_column_each() {
    for (name, reader) in READERS {
        for names in ["bl cl", "bl cl fl", "st str sp", "sk sm sn st", "br pr tr fr"] {
            for seed in 0..10 {
                let filled = match run(&spec("columns: {count: 10}"), reader, names, &seed.to_string()) {
                    Ok(filled) => filled,
                    Err(FillError::TooFew(_)) if name != "everything" => continue,
                    Err(error) => panic!("{name} {names}: {error}"),
                };
                assert_distinct(&filled);
                let sizes: Vec<usize> = filled.columns.iter().map(|column| column.words.len()).collect();
                assert!(sizes.iter().max().unwrap() - sizes.iter().min().unwrap() <= 1, "{sizes:?}");
                assert_eq!(sizes.iter().sum::<usize>(), 10);
                assert!(filled.columns.iter().all(|column| column.words.is_sorted()));
                assert_eq!(filled.word_bank, shown(&filled));
                for item in &filled.items {
                    let word = word(&item.word);
                    assert!(reader(word));
                    let places: usize = focus(names).iter().map(|blend| word.places_of(blend).count()).sum();
                    assert_eq!(places, 1, "{}", word.spelling);
                }
            }
        }
    }
}

#[test]
fn a_sort_by_the_end_takes_the_final_blend_of_a_name_that_is_both() {
    let end = run(&spec("columns: {side: end, count: 9}"), |_| true, "sk sp -st", "a").unwrap();
    assert_eq!(end.columns.iter().map(|c| c.blend.as_str()).collect::<Vec<_>>(), ["sk", "sp", "st"]);
    for item in &end.items {
        let code = item.blend.as_deref().unwrap().to_uppercase();
        let last: String = item.sounds[item.sounds.len() - 2..].concat();
        assert_eq!(last, code, "{}", item.word);
    }
    let both = [focus("sk st"), focus("-sk -st")].concat();
    let reader: Reader = |_| true;
    let start = spec("columns").run(&Request { focus: both, ..request(&reader, "", "a") }).unwrap();
    assert_eq!(start.columns.len(), 2);
    assert!(start.items.iter().all(|item| item.sounds[0] == "S"));
}

#[test]
fn the_order_of_the_words_gives_nothing_away() {
    for seed in 0..60 {
        for names in ["bl st", "bl cl fl"] {
            let filled = run(&spec("columns"), |_| true, names, &seed.to_string()).unwrap();
            let blends: Vec<&str> = filled.items.iter().map(|item| item.blend.as_deref().unwrap()).collect();
            let changes = blends.windows(2).filter(|pair| pair[0] != pair[1]).count();
            assert!(changes >= filled.columns.len(), "column by column: {blends:?}");
            let n = filled.columns.len();
            assert!(blends.iter().zip(&blends[n..]).any(|(a, b)| a != b), "in turn: {blends:?}");
            assert!(!filled.word_bank.is_sorted());
        }
    }
}

#[test]
fn a_short_column_is_an_error_unless_the_others_may_take_over() {
    let reader: Reader = |word| !word.spelling.starts_with("gl") || ["glad", "globe"].contains(&&*word.spelling);
    assert!(matches!(run(&spec("columns"), reader, "gl fl bl", "a"), Err(FillError::TooFew(_))));
    let filled = run(&spec("columns: {even: false}"), reader, "gl fl bl", "a").unwrap();
    assert_eq!(filled.columns.iter().map(|c| c.words.len()).collect::<Vec<_>>(), [2, 5, 5]);
    let reader: Reader = |word| !word.spelling.starts_with("gl");
    assert!(matches!(run(&spec("columns: {even: false}"), reader, "gl fl bl", "a"), Err(FillError::TooFew(_))));
}
