//! stand-in
use crate::people::{NameVersion, Register, Salt};
use crate::record::log::Trouble;
use crate::units::{Instant, from_hex, hex};
use std::path::{Path, PathBuf};
/// r
#[derive(Debug)]
pub struct RegisterFile {
    path: PathBuf,
}
impl RegisterFile {
    /// o
    ///
    /// # Errors
    /// t
    pub fn open(path: &Path) -> Result<RegisterFile, Trouble> {
        Ok(RegisterFile {
            path: path.to_owned(),
        })
    }
    /// r
    ///
    /// # Errors
    /// t
    pub fn read(&self) -> Result<Register, Trouble> {
        let mut register = Register::new();
        let Ok(text) = std::fs::read_to_string(&self.path) else {
            return Ok(register);
        };
        for line in text.lines() {
            let mut parts = line.splitn(4, ' ');
            let code = parts
                .next()
                .unwrap_or_default()
                .parse()
                .map_err(|_| Trouble::Damaged)?;
            let names = match (parts.next(), parts.next(), parts.next()) {
                (Some(since), Some(salt), Some(name)) => vec![NameVersion {
                    name: name.parse().map_err(|_| Trouble::Damaged)?,
                    salt: Salt(from_hex(salt).map_err(|_| Trouble::Damaged)?),
                    since: Instant::from_epoch(since.parse().map_err(|_| Trouble::Damaged)?),
                }],
                _ => Vec::new(),
            };
            register
                .restore(code, names)
                .map_err(|_| Trouble::Damaged)?;
        }
        Ok(register)
    }
    /// w
    ///
    /// # Errors
    /// t
    pub fn write(&mut self, register: &Register) -> Result<(), Trouble> {
        let mut text = String::new();
        for (code, names) in register.rows() {
            match names.last() {
                Some(n) => text.push_str(&format!(
                    "{code} {} {} {}\n",
                    n.since.since_epoch(),
                    hex(&n.salt.0),
                    n.name.as_str()
                )),
                None => text.push_str(&format!("{code}\n")),
            }
        }
        std::fs::write(&self.path, text).map_err(|_| Trouble::Unreachable)
    }
}
