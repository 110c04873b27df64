//! Reading a strand page by page, by number: memory does not grow with the record, and no transaction stays open between pages.
//!
//! Rows are never changed, so pages that are read one after the other fit together.

use rusqlite::{Connection, params};

use super::trouble;
use crate::record::log::Trouble;
use crate::record::scope::Id;

/// So many rows are read at once. Our default: about 200 kB.
const PAGE: usize = 256;

const SELECT: &str = "SELECT number, bytes FROM entries
    WHERE strand = ?1 AND number BETWEEN ?2 AND ?3 ORDER BY number LIMIT ?4";

/// The stored bytes of a strand.
pub(super) struct Pages<'a> {
    connection: &'a Connection,
    strand: Id,
    /// The smallest number that has not been read yet; none when all have.
    next: Option<i64>,
    last: i64,
    page: std::vec::IntoIter<Vec<u8>>,
}

impl<'a> Pages<'a> {
    /// The rows of a strand from one number to another, both included.
    pub(super) fn new(connection: &'a Connection, strand: Id, first: i64, last: i64) -> Pages<'a> {
        Pages {
            connection,
            strand,
            next: Some(first),
            last,
            page: Vec::new().into_iter(),
        }
    }

    fn read(&self, first: i64) -> rusqlite::Result<Vec<(i64, Vec<u8>)>> {
        let most = i64::try_from(PAGE).unwrap_or(i64::MAX);
        let mut rows = self.connection.prepare(SELECT)?;
        rows.query_map(
            params![self.strand.to_string(), first, self.last, most],
            |row| Ok((row.get(0)?, row.get(1)?)),
        )?
        .collect()
    }
}

impl Iterator for Pages<'_> {
    type Item = Result<Vec<u8>, Trouble>;

    fn next(&mut self) -> Option<Result<Vec<u8>, Trouble>> {
        if let Some(bytes) = self.page.next() {
            return Some(Ok(bytes));
        }
        let first = self.next.take()?;
        let rows = match self.read(first) {
            Ok(rows) => rows,
            Err(error) => return Some(Err(trouble(&error))),
        };
        if rows.len() == PAGE {
            let last = rows.last().map(|(number, _)| *number);
            self.next = last.and_then(|last| last.checked_add(1));
        }
        let bytes: Vec<Vec<u8>> = rows.into_iter().map(|(_, bytes)| bytes).collect();
        self.page = bytes.into_iter();
        self.page.next().map(Ok)
    }
}
