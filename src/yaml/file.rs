//! Reading YAML from disk.

use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::Path;

use serde::de::DeserializeOwned;

use super::{MAX_BYTES, YamlError, from_str};

/// Fills a `T` from the YAML file at `path`.
///
/// # Errors
/// As [`read_text`] and [`from_str`].
pub fn read_file<T: DeserializeOwned>(path: &Path) -> Result<T, YamlError> {
    from_str(&path.to_string_lossy(), &read_text(path)?)
}

/// The text of the file at `path`, for [`from_str`] and, later, [`YamlError::in_file`].
///
/// # Errors
/// When there is no such file, it is a folder, it can't be read, it is longer than [`MAX_BYTES`], or it is not UTF-8.
pub fn read_text(path: &Path) -> Result<String, YamlError> {
    let name = path.to_string_lossy();
    let failed = |error: &std::io::Error| match error.kind() {
        ErrorKind::NotFound => YamlError::new(&name, "there is no such file"),
        ErrorKind::PermissionDenied => YamlError::new(&name, "this file may not be read by you"),
        _ => YamlError::new(&name, &format!("this file can't be read: {error}")),
    };
    if path.metadata().map_err(|error| failed(&error))?.is_dir() {
        return Err(YamlError::new(&name, "this is a folder, not a file"));
    }
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(|error| failed(&error))?;
    file.take(MAX_BYTES as u64 + 1).read_to_end(&mut bytes).map_err(|error| failed(&error))?;
    if bytes.len() > MAX_BYTES {
        return Err(too_long(&name));
    }
    String::from_utf8(bytes).map_err(|error| not_utf8(&name, error.as_bytes(), error.utf8_error().valid_up_to()))
}

/// The error for a text longer than [`MAX_BYTES`].
pub(super) fn too_long(name: &str) -> YamlError {
    YamlError::new(name, &format!("this file is larger than {} MiB, the most that is read", MAX_BYTES >> 20))
}

/// The error for bytes of which only the first `valid` are text.
fn not_utf8(name: &str, bytes: &[u8], valid: usize) -> YamlError {
    let hint = "save the file again as UTF-8, which text editors offer under \"Save as\" or \"Encoding\"";
    if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
        return YamlError::new(name, "this file is UTF-16, not UTF-8").with_hint(hint);
    }
    let line = 1 + bytes.iter().take(valid).filter(|&&byte| byte == b'\n').count();
    let byte = bytes.get(valid).copied().unwrap_or_default();
    let message = format!(
        "this file is not UTF-8 text: byte {} (0x{byte:02X}), in line {line}, is the first that isn't",
        valid + 1
    );
    YamlError::new(name, &message).with_hint(hint)
}

#[cfg(test)]
#[allow(clippy::expect_used, reason = "a test may stop at once")]
mod tests {
    use std::collections::BTreeMap;
    use std::fs;

    use super::{read_file, read_text};
    use crate::yaml::MAX_BYTES;

    /// The message and hint for a file of these bytes, without the folder it was in.
    fn error_for(bytes: &[u8]) -> String {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.yaml");
        fs::write(&path, bytes).expect("written");
        let error = read_file::<BTreeMap<String, u8>>(&path).expect_err("an error").to_string();
        error.replace(&folder.path().to_string_lossy().into_owned(), "").replace(['/', '\\'], "")
    }

    #[test]
    fn a_good_file_is_read_with_or_without_a_byte_order_mark() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("a.yaml");
        for text in ["gap: 4\n", "\u{feff}gap: 4\r\n"] {
            fs::write(&path, text).expect("written");
            assert_eq!(read_file::<BTreeMap<String, u8>>(&path).expect("read")["gap"], 4);
        }
    }

    #[test]
    fn what_is_not_a_file_is_said() {
        let folder = tempfile::tempdir().expect("a folder");
        let message = |path: &std::path::Path| read_text(path).expect_err("an error").message().to_owned();
        assert_eq!(message(folder.path()), "this is a folder, not a file");
        assert_eq!(message(&folder.path().join("no.yaml")), "there is no such file");
    }

    #[test]
    fn bytes_that_are_not_text_are_counted_from_one() {
        let utf8 = "help: save the file again as UTF-8, which text editors offer under \"Save as\" or \"Encoding\"";
        assert_eq!(
            error_for(b"a: 1\ncaf\xe9: 2\n"),
            format!("a.yaml: this file is not UTF-8 text: byte 9 (0xE9), in line 2, is the first that isn't\n{utf8}")
        );
        assert_eq!(error_for(b"\xff\xfea\0:\0"), format!("a.yaml: this file is UTF-16, not UTF-8\n{utf8}"));
    }

    #[test]
    fn four_mebibytes_are_read_and_a_byte_more_is_not() {
        let mut bytes = b"a: 300 #".to_vec();
        bytes.resize(MAX_BYTES, b'x');
        assert!(error_for(&bytes).contains("300 is too large"));
        bytes.push(b'x');
        assert_eq!(error_for(&bytes), "a.yaml: this file is larger than 4 MiB, the most that is read");
    }
}
