//! Secrets as somebody types them, unseen, or as another program hands them over.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};

use zeroize::Zeroizing;

use crate::app::Secret;
use crate::app::fault::{Fault, Happened, Remedy};

/// A secret may be this long, in bytes. Far above what a passphrase may have.
const SECRET_MOST: usize = 4_096;

/// Files that secrets came from: opened a second time, a file would begin anew.
static OPEN: Mutex<BTreeMap<u32, File>> = Mutex::new(BTreeMap::new());

/// Reads one line, unseen.
pub(super) fn read(from: Secret) -> Result<Option<String>, Fault> {
    match from {
        Secret::Terminal => match rpassword::read_password() {
            Ok(typed) => Ok(Some(typed)),
            Err(error) if error.kind() == ErrorKind::UnexpectedEof => Ok(None),
            Err(error) => Err(Fault::reading(&error, &PathBuf::from("-"))),
        },
        Secret::From(number) => {
            let path = PathBuf::from(format!("/dev/fd/{number}"));
            let reading = |error: std::io::Error| Fault::reading(&error, &path);
            let mut open = OPEN.lock().unwrap_or_else(PoisonError::into_inner);
            let file = match open.entry(number) {
                Entry::Occupied(file) => file.into_mut(),
                Entry::Vacant(place) => place.insert(File::open(&path).map_err(reading)?),
            };
            let line = line_of(file).map_err(reading)?;
            let Some(line) = line else { return Ok(None) };
            String::from_utf8(line.to_vec())
                .map(Some)
                .map_err(|_| Fault::harmless(Happened::NotText, &path, Remedy::OtherFile))
        }
    }
}

/// Takes bytes one by one up to the end of the line: the next secret may follow, and has to stay where it is.
fn line_of(file: &mut impl Read) -> std::io::Result<Option<Zeroizing<Vec<u8>>>> {
    let mut line = Zeroizing::new(Vec::with_capacity(SECRET_MOST));
    let mut byte = [0];
    let mut any = false;
    while line.len() < SECRET_MOST && file.read(&mut byte)? == 1 {
        any = true;
        if byte[0] == b'\n' {
            break;
        }
        line.push(byte[0]);
    }
    if line.last() == Some(&b'\r') {
        line.pop();
    }
    Ok(any.then_some(line))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_line_is_taken_and_the_next_stays() {
        let mut lines: &[u8] = b"first one\r\nsecond\n\nlast";
        let mut next = || line_of(&mut lines).unwrap().map(|line| line.to_vec());
        assert_eq!(next().as_deref(), Some(&b"first one"[..]));
        assert_eq!(next().as_deref(), Some(&b"second"[..]));
        assert_eq!(next().as_deref(), Some(&b""[..]));
        assert_eq!(next().as_deref(), Some(&b"last"[..]));
        assert_eq!(next(), None);
    }
}
