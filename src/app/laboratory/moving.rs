//! What was made in memory is written to another place, entry by entry.

use super::Laboratory;
use super::memory::MemoryPlace;
use super::place::Place;
use super::problem::Problem;
use crate::people::Passphrase;
use crate::record::entry::Entry;
use crate::record::log::Appended;

impl Laboratory<MemoryPlace> {
    /// Writes everything to a place that has no record yet: title, names, keys, attachments, entries.
    ///
    /// # Errors
    ///
    /// There is a record there already, or something cannot be written. What was written by then stays, and opens as a shorter record.
    pub fn write_to<P: Place>(&self, place: &mut P) -> Result<(), Problem> {
        if !place.log().strands()?.is_empty() {
            return Err(Problem::OpenedAlready);
        }
        let own = self.place();
        if let Some(title) = own.title()? {
            place.keep_title(&title)?;
        }
        place.keep_register(&own.register()?)?;
        for (key, passphrase) in own.keys() {
            let typed = String::from_utf8_lossy(passphrase).into_owned();
            place.keep_key(&key, &Passphrase::typed(typed))?;
        }
        for (content, keeping) in own.attachments() {
            place.attach(content, keeping)?;
        }
        let entries = self.ledger().entries();
        let mut ordered: Vec<&Entry> = entries.iter().collect();
        ordered.sort_by_key(|entry| (entry.frame().strand.clone(), entry.frame().number));
        for entry in ordered {
            let head = place.log().head(&entry.frame().strand)?;
            match place.log_mut().append(head.as_ref(), entry) {
                Appended::Stored => {}
                Appended::NotStored(why) => return Err(Problem::NotStored(why)),
                Appended::Unknown => return Err(Problem::Unknown(entry.seal())),
            }
        }
        Ok(place.follow()?)
    }
}
