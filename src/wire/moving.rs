//! A copy as a moving code: cut into pieces that are shown one after another, round after round, and put together again by whoever
//! sees them, in any order, with gaps, seen twice or more. Knows bytes alone; how a piece looks is [`picture`]'s business.
//!
//! A piece, all numbers big-endian: `PT`, the version, four bytes that name the transfer (the CRC-32 of all that is sent), its number
//! and how many there are (two bytes each), its share of the bytes, and the CRC-32 of all that stands before. Sent is the copy, gzipped.

pub mod picture; // a piece as a code of ISO/IEC 18004, and back

use std::io::{self, Read};

use flate2::read::{GzDecoder, GzEncoder};
use flate2::{Compression, Crc};

/// So many bytes of a gzipped copy are shown at most. More would take minutes, for which a file is the better way.
pub const MOST_BYTES: usize = 64 * 1024;

const MARK: [u8; 2] = *b"PT";
const VERSION: u8 = 1;
const HEAD: usize = MARK.len() + 1 + 4 + 2 + 2;
const END: usize = 4;
/// Bytes of the copy in a piece: the fewer, the coarser its picture and the more easily it is read. Taken are the first with which a
/// round is short; the last, where none is.
const SHARES: [usize; 3] = [215, 410, 625];
const SHORT_ROUND: usize = 24;
const MOST_PIECES: usize = 512;
/// What is larger once unpacked was never shown by this app.
const MOST_UNPACKED: u64 = 16_000_000;
/// Transfers that are put together side by side.
const MOST_TRANSFERS: usize = 3;

/// Why a copy isn't shown.
#[derive(Debug)]
pub enum NotCut {
    /// So many bytes, gzipped.
    TooLarge(usize),
    Failed(io::Error),
}

/// A copy's bytes as pieces.
///
/// # Errors
/// [`NotCut`], where it is to be sent in another way.
pub fn cut(copy: &[u8]) -> Result<Vec<Vec<u8>>, NotCut> {
    let mut all = Vec::new();
    GzEncoder::new(copy, Compression::best()).read_to_end(&mut all).map_err(NotCut::Failed)?;
    if all.len() > MOST_BYTES {
        return Err(NotCut::TooLarge(all.len()));
    }
    let [.., last] = SHARES;
    let most = SHARES.into_iter().find(|most| all.len().div_ceil(*most) <= SHORT_ROUND).unwrap_or(last);
    // Shared out evenly: no picture is finer than it has to be.
    let share = all.len().div_ceil(all.len().div_ceil(most));
    let (id, n) = (crc(&all), all.len().div_ceil(share));
    Ok(all.chunks(share).zip(0..).map(|(share, number)| written(id, number, n as u16, share)).collect())
}

/// Which piece is shown when in a round: each once, in another order every time, so that no beat of losses meets the same ones
/// again and again.
pub fn round(n: u16, nth: u64) -> Vec<u16> {
    let mut order: Vec<u16> = (0..n).collect();
    if nth > 0 {
        fastrand::Rng::with_seed(nth).shuffle(&mut order);
    }
    order
}

/// What became of something that was seen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Taken {
    /// It was missing until now.
    New,
    /// It is here already.
    Again,
    /// With it everything is here: the copy's bytes.
    Whole(Vec<u8>),
    /// Some other code than a piece of a copy.
    Foreign,
    /// A newer version of the app shows it.
    Newer,
    /// It says that it is a piece and isn't whole.
    Damaged,
    /// All pieces are here and make no copy. Nothing is kept of them.
    Broken,
}

/// What was seen so far. Transfers are put together side by side and never mixed.
#[derive(Debug, Default)]
pub struct Gathering {
    /// The one that was seen last stands last.
    transfers: Vec<Transfer>,
}

#[derive(Debug)]
struct Transfer {
    id: u32,
    shares: Vec<Option<Vec<u8>>>,
}

impl Gathering {
    pub fn take(&mut self, seen: &[u8]) -> Taken {
        let piece = match read(seen) {
            Ok(piece) => piece,
            Err(taken) => return taken,
        };
        let known = |t: &Transfer| t.id == piece.id && t.shares.len() == piece.n;
        let mut transfer = match self.transfers.iter().position(known) {
            Some(at) => self.transfers.remove(at),
            None => Transfer { id: piece.id, shares: vec![None; piece.n] },
        };
        let slot = &mut transfer.shares[piece.number];
        let taken = if slot.is_none() { Taken::New } else { Taken::Again };
        slot.get_or_insert_with(|| piece.share.to_vec());
        if transfer.shares.iter().all(Option::is_some) {
            return transfer.whole();
        }
        if self.transfers.len() == MOST_TRANSFERS {
            self.transfers.remove(0);
        }
        self.transfers.push(transfer);
        taken
    }

    /// Which pieces are here of the transfer that was seen last. Empty where nothing was seen.
    pub fn here(&self) -> Vec<bool> {
        self.transfers.last().map(|t| t.shares.iter().map(Option::is_some).collect()).unwrap_or_default()
    }
}

impl Transfer {
    fn whole(self) -> Taken {
        let all = self.shares.into_iter().flatten().flatten().collect::<Vec<u8>>();
        let mut copy = Vec::new();
        let unpacked = GzDecoder::new(all.as_slice()).take(MOST_UNPACKED + 1).read_to_end(&mut copy);
        match unpacked {
            Ok(n) if crc(&all) == self.id && n as u64 <= MOST_UNPACKED => Taken::Whole(copy),
            _ => Taken::Broken,
        }
    }
}

struct Piece<'a> {
    id: u32,
    number: usize,
    n: usize,
    share: &'a [u8],
}

fn written(id: u32, number: u16, n: u16, share: &[u8]) -> Vec<u8> {
    let mut piece = [&MARK[..], &[VERSION], &id.to_be_bytes(), &number.to_be_bytes(), &n.to_be_bytes(), share].concat();
    piece.extend(crc(&piece).to_be_bytes());
    piece
}

fn read(seen: &[u8]) -> Result<Piece<'_>, Taken> {
    let Some(rest) = seen.strip_prefix(&MARK) else { return Err(Taken::Foreign) };
    match rest.first() {
        Some(&VERSION) => {}
        Some(later) if *later > VERSION => return Err(Taken::Newer),
        _ => return Err(Taken::Foreign),
    }
    let Some((said, end)) = seen.split_last_chunk::<END>() else { return Err(Taken::Damaged) };
    let (Some((head, share)), true) = (said.split_first_chunk::<HEAD>(), crc(said) == u32::from_be_bytes(*end)) else {
        return Err(Taken::Damaged);
    };
    let [_, _, _, a, b, c, d, number_high, number_low, n_high, n_low] = *head;
    let id = u32::from_be_bytes([a, b, c, d]);
    let number = usize::from(u16::from_be_bytes([number_high, number_low]));
    let n = usize::from(u16::from_be_bytes([n_high, n_low]));
    let is_sound = number < n && n <= MOST_PIECES && !share.is_empty();
    if is_sound { Ok(Piece { id, number, n, share }) } else { Err(Taken::Damaged) }
}

fn crc(bytes: &[u8]) -> u32 {
    let mut crc = Crc::new();
    crc.update(bytes);
    crc.sum()
}
