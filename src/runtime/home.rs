//! The note home on its way: copied, printed, shared, or as a picture.

use wasm_bindgen_futures::spawn_local;

use super::report;
use crate::app::effect::Report;
use crate::app::home::{Sheet, Way};
use crate::app::words::home as words;
use crate::domain::ids::PlayerId;
use crate::platform::files::{self, Sharing};
use crate::platform::{page, picture};

const PNG: &str = "image/png";

pub fn leave(way: Way, player: PlayerId, name: String, sheet: Sheet) {
    spawn_local(async move {
        let left = left(way, &name, &sheet).await;
        report(Report::HomeLeft { way, player, name, left });
    });
}

async fn left(way: Way, name: &str, sheet: &Sheet) -> Result<bool, String> {
    match way {
        Way::CopyText => files::copy_text(&sheet.text()).await.map(|()| true).map_err(|fault| fault.to_string()),
        Way::ShareText => shared(files::share_text(&sheet.text()).await),
        Way::Print => page::print().map(|()| true).map_err(|fault| fault.to_string()),
        Way::SavePicture => {
            let picture = drawn(sheet).await?;
            files::download(name, PNG, &picture).map(|()| true).map_err(|fault| fault.to_string())
        }
        Way::SharePicture => shared(files::share(name, PNG, &drawn(sheet).await?).await),
    }
}

async fn drawn(sheet: &Sheet) -> Result<web_sys::Blob, String> {
    let Sheet { band, name, date, lines, asks, foot } = sheet;
    let page = picture::Page { band, title: name, date, lines, asks: *asks, foot };
    picture::png(&page).await.map_err(|fault| fault.to_string())
}

fn shared(sharing: Sharing) -> Result<bool, String> {
    match sharing {
        Sharing::Shared => Ok(true),
        Sharing::Cancelled => Ok(false),
        Sharing::Unsupported => Err(words::NO_SHEET.to_owned()),
        Sharing::Refused(why) => Err(why),
    }
}
