//! Bytes to text: UTF-8, with or without a byte-order mark.

use crate::{diagnostic::Diagnostic, load::Fault, load::Places};

/// The largest file that is read, in bytes.
pub const MOST_BYTES: usize = 64 * 1024 * 1024;

/// The text of a file's bytes; the byte-order mark of UTF-8 is left out.
///
/// # Errors
/// One problem, when the file is larger than [`MOST_BYTES`], holds UTF-16 or other than UTF-8, or a zero byte.
pub fn decode(file: &str, bytes: &[u8]) -> Result<String, Vec<Diagnostic>> {
    if bytes.len() > MOST_BYTES {
        let reason = format!("{} bytes are more than the {MOST_BYTES} that are read", bytes.len());
        return Err(fault(file, bytes, 0, reason, "split it into several files; parts of all files are laid over one another"));
    }
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
    let save = "save it as UTF-8";
    if bytes.starts_with(b"\xFF\xFE") || bytes.starts_with(b"\xFE\xFF") {
        return Err(fault(file, bytes, 0, "the text is UTF-16".to_owned(), save));
    }
    if let Some(at) = bytes.iter().position(|byte| *byte == 0) {
        let reason =
            if at < 4 { "zero bytes between the letters: the text is UTF-16 or UTF-32" } else { "a zero byte is no text" };
        return Err(fault(file, bytes, at, reason.to_owned(), save));
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => Ok(text.to_owned()),
        Err(error) => {
            let at = error.valid_up_to();
            let reason = format!("byte {:#04X} is no UTF-8", bytes.get(at).copied().unwrap_or_default());
            Err(fault(file, bytes, at, reason, save))
        }
    }
}

fn fault(file: &str, bytes: &[u8], at: usize, reason: String, hint: &str) -> Vec<Diagnostic> {
    let before = String::from_utf8_lossy(bytes.get(..at).unwrap_or_default());
    vec![Fault::new(before.len(), reason, Some(hint.to_owned())).placed(file, &Places::new(&before))]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_utf_8_with_and_without_mark() {
        assert_eq!(decode("f", "µ".as_bytes()).unwrap(), "µ");
        assert_eq!(decode("f", b"\xEF\xBB\xBF(a: 1)").unwrap(), "(a: 1)");
        assert_eq!(decode("f", b"").unwrap(), "");
    }

    #[test]
    fn names_what_is_no_utf_8() {
        for (bytes, place, word) in [
            (&b"\xFF\xFE(\0"[..], (1, 1), "UTF-16"),
            (&b"(\0v\0"[..], (1, 2), "UTF-16"),
            (&b"(version: 1,\n \0"[..], (2, 2), "zero byte"),
            (&b"(\n\xC3\xB6 \xFC"[..], (2, 3), "0xFC"),
        ] {
            let diagnostic = decode("f", bytes).unwrap_err().remove(0);
            assert_eq!((diagnostic.line, diagnostic.column), place);
            assert!(diagnostic.reason.contains(word) && diagnostic.hint.as_ref().is_some_and(|hint| hint.contains("UTF-8")));
        }
    }

    #[test]
    fn refuses_by_size_at_the_boundary() {
        let mut bytes = vec![b' '; MOST_BYTES];
        assert!(decode("f", &bytes).is_ok());
        bytes.push(b' ');
        assert!(decode("f", &bytes).unwrap_err()[0].reason.contains("67108865"));
    }
}
