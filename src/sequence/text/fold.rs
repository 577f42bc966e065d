//! Spellings as they are looked up: small letters, straight apostrophes, no marks.

/// The apostrophes that are read as one: straight, curly (both, since the opening one is a common slip), letter and wide.
pub fn is_apostrophe(c: char) -> bool {
    matches!(c, '\'' | '\u{2018}' | '\u{2019}' | '\u{2bc}' | '\u{ff07}')
}

/// Signs inside a word that are not seen: soft hyphen, joiners, variation selectors, and marks set on a letter.
pub fn is_unseen(c: char) -> bool {
    matches!(c, '\u{ad}' | '\u{200b}'..='\u{200d}' | '\u{2060}' | '\u{fe00}'..='\u{fe0f}') || is_mark(c)
}

/// A combining mark of the Latin script (Unicode's blocks of combining diacritical marks).
fn is_mark(c: char) -> bool {
    matches!(c, '\u{300}'..='\u{36f}' | '\u{1ab0}'..='\u{1aff}' | '\u{1dc0}'..='\u{1dff}')
}

/// Whether a letter belongs to the Latin script (by Unicode's Latin blocks, with ligatures and wide letters).
pub fn is_latin(c: char) -> bool {
    matches!(c, 'a'..='z' | 'A'..='Z' | '\u{aa}' | '\u{ba}' | '\u{c0}'..='\u{24f}' | '\u{1e00}'..='\u{1eff}')
        || matches!(c, '\u{fb00}'..='\u{fb06}' | '\u{ff21}'..='\u{ff3a}' | '\u{ff41}'..='\u{ff5a}' | '\u{2bc}')
}

/// The spelling under which a piece of text is looked up. Letters that have no plain form stay as they are.
pub fn fold(text: &str) -> String {
    let mut folded = String::with_capacity(text.len());
    for c in text.chars().filter(|&c| !is_unseen(c)) {
        if is_apostrophe(c) {
            folded.push('\'');
        } else {
            for small in c.to_lowercase().filter(|&small| !is_unseen(small)) {
                plain(small, &mut folded);
            }
        }
    }
    folded
}

/// A small letter without its marks; ligatures and wide letters taken apart. Vietnamese and other rarer letters stay.
fn plain(c: char, into: &mut String) {
    let letters = match c {
        'à'..='å' | 'ā' | 'ă' | 'ą' => "a",
        'æ' => "ae",
        'ç' | 'ć' | 'ĉ' | 'ċ' | 'č' => "c",
        'ď' | 'đ' => "d",
        'è'..='ë' | 'ē' | 'ĕ' | 'ė' | 'ę' | 'ě' => "e",
        'ĝ' | 'ğ' | 'ġ' | 'ģ' => "g",
        'ì'..='ï' | 'ĩ' | 'ī' | 'ĭ' | 'į' | 'ı' => "i",
        'ñ' | 'ń' | 'ņ' | 'ň' => "n",
        'ò'..='ö' | 'ø' | 'ō' | 'ŏ' | 'ő' => "o",
        'œ' => "oe",
        'ŕ' | 'ř' => "r",
        'ś' | 'ŝ' | 'ş' | 'š' | 'ș' => "s",
        'ß' => "ss",
        'ţ' | 'ť' | 'ț' => "t",
        'ù'..='ü' | 'ũ' | 'ū' | 'ŭ' | 'ů' | 'ű' => "u",
        'ý' | 'ÿ' | 'ŷ' => "y",
        'ź' | 'ż' | 'ž' => "z",
        'ł' => "l",
        '\u{fb00}' => "ff",
        '\u{fb01}' => "fi",
        '\u{fb02}' => "fl",
        '\u{fb03}' => "ffi",
        '\u{fb04}' => "ffl",
        '\u{fb05}' | '\u{fb06}' => "st",
        '\u{ff41}'..='\u{ff5a}' => {
            let offset = u32::from(c) - 0xff41;
            into.push(char::from_u32(u32::from('a') + offset).unwrap_or(c));
            return;
        }
        other => {
            into.push(other);
            return;
        }
    };
    into.push_str(letters);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_are_plain() {
        for (text, expected) in [
            ("Dog", "dog"),
            ("DON’T", "don't"),
            ("donʼt", "don't"),
            ("café", "cafe"),
            ("cafe\u{301}", "cafe"),
            ("naïve", "naive"),
            ("ﬁsh", "fish"),
            ("ｄｏｇ", "dog"),
            ("rain\u{ad}bow", "rainbow"),
            ("Zoë", "zoe"),
            ("İ", "i"),
            ("ạ", "ạ"),
            ("", ""),
        ] {
            assert_eq!(fold(text), expected, "{text}");
        }
    }

    #[test]
    fn scripts_are_told_apart() {
        assert!("aZéßﬁｄﬀ".chars().all(is_latin));
        assert!(!"дωא犬".chars().any(is_latin));
    }
}
