//! Locks a copy with words and opens what was locked with words: the age file format, version 1, with a scrypt recipient
//! (age-encryption.org/v1, published at c2sp.org/age), binary or in its armor of text. Owns how much work and memory that may cost. Keeps no
//! words, touches no storage, and knows no sentence: a [`Fault`] is told by its name.

use std::io::{self, Read, Write};
use std::iter;

use age::armor::{ArmoredReader, ArmoredWriter, Format};
use age::secrecy::SecretString;
use age::{DecryptError, Decryptor, Encryptor, scrypt};
use flate2::Compression;
use flate2::write::GzEncoder;

/// What locking costs: scrypt with N = 2^16, 64 MiB and some seconds of a phone. Each guess costs the same.
pub const WORK: u8 = 16;
/// The most that is spent on opening: N = 2^18, 256 MiB. It is what other programs of this format take by themselves.
pub const MOST_WORK: u8 = 18;

/// How a locked file begins, and its armor.
const BINARY: &[u8] = b"age-encryption.org/";
const ARMOR: &[u8] = b"-----BEGIN AGE ENCRYPTED FILE-----";

/// How a locked file is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    Binary,
    /// Plain text, a third longer: for ways that take nothing else.
    Text,
}

/// Why it was not done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Other words, or the lock itself was changed on its way: the two can't be told apart.
    Words,
    /// It asks for more work than [`MOST_WORK`].
    Work,
    /// Cut off, or changed on its way.
    Damaged,
    /// Locked with a key and not with words.
    Key,
    /// No locked file, or of a version that isn't known.
    Format,
    /// What is in it is larger than allowed.
    Large,
    /// The machine has no random numbers.
    Chance,
}

impl Fault {
    pub const fn name(self) -> &'static str {
        match self {
            Fault::Words => "words",
            Fault::Work => "work",
            Fault::Damaged => "damaged",
            Fault::Key => "key",
            Fault::Format => "format",
            Fault::Large => "large",
            Fault::Chance => "chance",
        }
    }
}

/// Whether these bytes begin as a locked file.
pub fn is_locked(bytes: &[u8]) -> bool {
    bytes.starts_with(BINARY) || bytes.trim_ascii_start().starts_with(ARMOR)
}

/// A copy's text packed (gzip, RFC 1952) and then locked: locked bytes can't be packed any more.
///
/// # Errors
/// [`Fault::Chance`] alone.
pub fn pack_and_lock(content: &[u8], words: &str, shape: Shape) -> Result<Vec<u8>, Fault> {
    let mut packer = GzEncoder::new(Vec::new(), Compression::best());
    let packed = packer.write_all(content).and_then(|()| packer.finish());
    // Writing into memory doesn't fail.
    lock(&packed.map_err(|_| Fault::Damaged)?, words, shape, WORK)
}

/// Locks these bytes as they are.
///
/// # Errors
/// [`Fault::Work`] where the work is none or beyond what is opened again; [`Fault::Chance`].
pub fn lock(content: &[u8], words: &str, shape: Shape, work: u8) -> Result<Vec<u8>, Fault> {
    if work == 0 || work > MOST_WORK {
        return Err(Fault::Work);
    }
    let mut recipient = scrypt::Recipient::new(SecretString::from(words));
    recipient.set_work_factor(work);
    let encryptor = Encryptor::with_recipients(iter::once(&recipient as _)).map_err(|_| Fault::Chance)?;
    let format = match shape {
        Shape::Binary => Format::Binary,
        Shape::Text => Format::AsciiArmor,
    };
    let written = ArmoredWriter::wrap_output(Vec::new(), format).and_then(|output| {
        let mut writer = encryptor.wrap_output(output)?;
        writer.write_all(content)?;
        writer.finish()?.finish()
    });
    written.map_err(|_| Fault::Chance)
}

/// What was locked, at most so many bytes of it. All of it was checked before any of it is given.
///
/// # Errors
/// [`Fault`]. Nothing is allocated from a number that the file merely claims, but for the work, which is held to [`MOST_WORK`].
pub fn open(locked: &[u8], words: &str, most_bytes: u64) -> Result<Vec<u8>, Fault> {
    if !is_locked(locked) {
        return Err(Fault::Format);
    }
    let decryptor = Decryptor::new(ArmoredReader::new(locked.trim_ascii_start())).map_err(fault)?;
    if !decryptor.is_scrypt() {
        return Err(Fault::Key);
    }
    let mut identity = scrypt::Identity::new(SecretString::from(words));
    identity.set_max_work_factor(MOST_WORK);
    let reader = decryptor.decrypt(iter::once(&identity as _)).map_err(fault)?;
    let mut content = Vec::new();
    reader.take(most_bytes + 1).read_to_end(&mut content).map_err(|_| Fault::Damaged)?;
    if content.len() as u64 > most_bytes { Err(Fault::Large) } else { Ok(content) }
}

/// The same with words as somebody typed them: where they open nothing, they are tried once more without the space at their ends that
/// phones put after a word.
///
/// # Errors
/// As [`open`].
pub fn open_typed(locked: &[u8], words: &str, most_bytes: u64) -> Result<Vec<u8>, Fault> {
    match open(locked, words, most_bytes) {
        Err(Fault::Words) if words.trim() != words => open(locked, words.trim(), most_bytes),
        opened => opened,
    }
}

fn fault(error: DecryptError) -> Fault {
    match error {
        DecryptError::DecryptionFailed | DecryptError::KeyDecryptionFailed => Fault::Words,
        DecryptError::ExcessiveWork { .. } => Fault::Work,
        DecryptError::NoMatchingKeys => Fault::Key,
        DecryptError::UnknownFormat => Fault::Format,
        DecryptError::InvalidHeader | DecryptError::InvalidMac => Fault::Damaged,
        DecryptError::Io(error) if error.kind() == io::ErrorKind::OutOfMemory => Fault::Work,
        DecryptError::Io(_) => Fault::Damaged,
    }
}
