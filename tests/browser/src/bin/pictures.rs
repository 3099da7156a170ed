//! README's pictures, taken from the real screens by touch: `cargo xtask pictures`. The same squad and the same taps each time, so a
//! picture changes only with its screen (and the date on it). Refuses to draw anything: what isn't on the screen isn't in a picture.

use browser_tests::{Error, PhoneKind, Result, Site, Stage};
use std::collections::HashMap;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

const SQUAD: &str =
    "7 Mira\\n9 Tove\\n11 Odile\\n4 Bram\\n5 Iva\\n6 Lasse\\n8 Juno\\n10 Pepe\\n12 Runa\\n14 Elif\\n15 Nilo\\n16 Wren";

/// What is done, and the name of the picture that is taken then.
const WALK: [(&str, &str); 18] = [
    // Time passes between the balls, or the pace would be a machine's.
    (
        "tap drill.0 | screen run | tap pass.0.3 x 3 | later 11s | tap pass.1.2 x 4 | later 12s | tap pass.2.3 x 2 | later 9s
         tap pass.0.1 | tap pass.1.3 x 2 | later 12s | tap pass.2.0 | tap no-chance | later 10s | tap pass.0.2 x 3 | later 13s
         tap pass.1.0 | later 8s | tap pass.2.2 x 3 | later 12s | tap pass.0.3 | later 4s | tap pass.1.1
         fig of = good of 22 | fig saved = saved",
        "floor",
    ),
    ("dark", "floor-dark"),
    ("light | later 6s | see Everyone", "pause"),
    (
        "tap effort | tap effort-kind.1 | tap effort-close | tap finish | screen run-report",
        "report",
    ),
    (
        "tap tab.today | screen today | tap drill.1 | screen run | tap pass.0.3 | tap pass.1.2 | tap pass.2.0 | tap pass.0.2
         tap pass.1.3 | tap pass.2.1 | fig call = Challenge 3 of 3 | fig saved = saved",
        "challenge",
    ),
    (
        "tap finish | screen run-report | tap tab.today | screen today | scroll drill.4 | tap drill.4 | screen run | tap serve-in x 3
         tap serve-long | tap serve-in-fast | tap serve-net | tap serve-in x 2 | tap serve-wide | tap serve-in-fast x 2
         fig saved = saved",
        "serves",
    ),
    (
        "tap finish | screen run-report | tap tab.today | screen today | scroll drill.5 | tap drill.5 | screen run | tap told.0.8
         tap told.1.6 | tap told.2.9 | fig saved = saved",
        "told",
    ),
    // Dealt in the order of the squad: a draw would make another picture each time.
    (
        "tap finish | screen run-report | tap tab.today | screen today | seek groups | screen groups | seek groups.hand
         seek groups-n-more | fig groups-n = 4 | tap groups-make | count .team = 4",
        "groups",
    ),
    (
        "seek back | screen today | scroll drill.10 | tap drill.10 | screen run | tap lane.0 x 6 | tap lane.1 x 4 | tap lane.2 x 7
         fig saved = saved",
        "lanes",
    ),
    (
        "tap finish | screen run-report | tap tab.today | screen today | scroll drill.12 | tap drill.12 | screen run | tap side.top
         tap side.bottom x 2 | tap side.top | tap side.bottom | fig saved = saved | later 3s",
        "winners-stay",
    ),
    (
        "tap finish | screen run-report | tap tab.today | screen today | scroll drill.6 | tap drill.6 | screen run | tap children
         tap station.0 | tap good | later 1s | tap good | fig saved = saved",
        "station",
    ),
    ("hold station-leave | there finish | let-go | tap finish | screen run-report | tap tab.today | screen today | fig saved = saved", "today"),
    ("seek plan | screen plan | tap plan-propose | there part.0", "plan"),
    // The demo has a season.
    (
        "tap tab.share | screen share | seek phone | screen phone | seek demo | screen today | fig saved = saved | seek calendar | screen calendar",
        "calendar",
    ),
    (
        "tap tab.after | screen after | seek weeks | screen weeks | count [data-fig=working] = 0 | seek child.0 | screen child-weeks | scroll days.0",
        "weeks",
    ),
    ("seek back | screen weeks", "squad-weeks"),
    ("tap tab.after | screen after | seek fair | screen fair", "fair"),
    ("tap tab.after | screen after | seek weeks | screen weeks | seek child.2 | screen child-weeks | seek home | screen home", "home"),
];

#[tokio::main]
async fn main() -> ExitCode {
    match take(&PathBuf::from(concat!(env!("CARGO_MANIFEST_DIR"), "/pictures"))).await {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("pictures: {error}");
            ExitCode::FAILURE
        }
    }
}

async fn take(folder: &Path) -> Result<()> {
    let mut stage = Stage::of(Site::of_the_app()?, PhoneKind::default()).await?;
    let squad = format!(
        "open | screen today | tap roster | screen roster | type roster = {SQUAD} | see 12 children | tap roster-take | screen today
         tap close | gone close"
    );
    stage.check("pictures", &squad).await?;
    for (script, name) in WALK {
        stage.check("pictures", script).await?;
        stage
            .phone
            .wait_until("the screen to be still", "document.getAnimations().every(a => a.playState === 'finished')")
            .await?;
        stage.phone.screenshot(&folder.join(format!("{name}.png"))).await?;
    }
    // Afterwards, because a board that waits covers itself.
    for (_, name) in WALK {
        let made = make_small(&folder.join(format!("{name}.png")));
        let n_bytes = made.map_err(|source| Error::Io { doing: format!("making {name}.png small"), source })?;
        println!("{name}.png, {:.0} kB", n_bytes as f64 / 1000.0);
    }
    Ok(())
}

/// Writes the picture again with its 256 most frequent colours, the others as the nearest of them: our screens are flat, so only
/// edges of letters change, and nobody sees it. Says how many bytes are left.
fn make_small(file: &Path) -> std::io::Result<usize> {
    let mut decoder = png::Decoder::new(std::io::BufReader::new(std::fs::File::open(file)?));
    decoder.set_transformations(png::Transformations::EXPAND | png::Transformations::STRIP_16);
    let mut reader = decoder.read_info()?;
    let mut pixels = vec![0; reader.output_buffer_size().unwrap_or_default()];
    let info = reader.next_frame(&mut pixels)?;
    let n_channels = info.color_type.samples();
    let colours: Vec<[u8; 3]> = pixels.chunks_exact(n_channels).map(|p| [p[0], p[1], p[2]]).collect();

    let mut counts: HashMap<[u8; 3], usize> = HashMap::new();
    for colour in &colours {
        *counts.entry(*colour).or_default() += 1;
    }
    let mut by_count: Vec<[u8; 3]> = counts.keys().copied().collect();
    // The colour itself settles a tie, so that the same screen gives the same file.
    by_count.sort_unstable_by_key(|colour| (std::cmp::Reverse(counts[colour]), *colour));
    let palette = &by_count[..by_count.len().min(256)];
    let nearest = |colour: &[u8; 3]| {
        let far = |other: &[u8; 3]| (0..3).map(|i| i32::from(colour[i].abs_diff(other[i])).pow(2)).sum::<i32>();
        (0..palette.len()).min_by_key(|i| far(&palette[*i])).and_then(|i| u8::try_from(i).ok()).unwrap_or(0)
    };
    let index_of: HashMap<[u8; 3], u8> = by_count.iter().map(|colour| (*colour, nearest(colour))).collect();
    let indexed: Vec<u8> = colours.iter().map(|colour| index_of[colour]).collect();

    let mut bytes = Vec::new();
    let mut encoder = png::Encoder::new(&mut bytes, info.width, info.height);
    encoder.set_color(png::ColorType::Indexed);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_palette(palette.concat());
    encoder.set_compression(png::Compression::High);
    encoder.set_filter(png::Filter::NoFilter);
    encoder.write_header()?.write_image_data(&indexed)?;
    std::fs::write(file, &bytes)?;
    Ok(bytes.len())
}
