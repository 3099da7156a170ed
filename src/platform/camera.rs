//! The phone's camera: its picture in a video of the page, and single pictures of it. It is on from [`Camera::open`] until the value is
//! dropped, which ends it at once. Keeps no picture.

use wasm_bindgen::prelude::*;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement, HtmlVideoElement, MediaStream, MediaStreamTrack};

use super::js::{self, Fault};

/// What the camera is asked for. It gives what it can.
const WIDTH: u32 = 1280;
const HEIGHT: u32 = 720;

pub struct Camera {
    stream: MediaStream,
    video: HtmlVideoElement,
    /// In no page: pictures are drawn here to be read.
    canvas: HtmlCanvasElement,
    pen: CanvasRenderingContext2d,
}

/// One picture, four bytes a point.
pub struct Still {
    pub width: u32,
    pub height: u32,
    pub rgba: js_sys::ArrayBuffer,
}

/// Why there is no picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoCamera {
    /// Not allowed, by the coach or the phone.
    Refused,
    /// There is none, or the browser offers none (on a page without https, for one).
    Absent,
    /// Another app has it, or it ended.
    Busy,
    Other(String),
}

impl Camera {
    /// Asks for the camera, the one at the back if there is one. Its picture is shown in the video with this id.
    pub async fn open(video_id: &str) -> Result<Camera, NoCamera> {
        let asked = async {
            let video = js::object(&[
                ("facingMode", js::object(&[("ideal", "environment".into())])?),
                ("width", js::object(&[("ideal", WIDTH.into())])?),
                ("height", js::object(&[("ideal", HEIGHT.into())])?),
            ])?;
            let wanted = js::object(&[("video", video), ("audio", false.into())])?;
            js::call_later(&js::of_navigator("mediaDevices")?, "getUserMedia", &[&wanted]).await
        };
        let stream: MediaStream =
            asked.await.map_err(NoCamera::from)?.dyn_into().map_err(|_| NoCamera::Other("no stream".to_owned()))?;
        // From here on whatever fails ends it.
        let shown = Camera::shown_in(video_id, &stream);
        if shown.is_err() {
            end(&stream);
        }
        shown.map_err(NoCamera::from)
    }

    fn shown_in(video_id: &str, stream: &MediaStream) -> Result<Camera, Fault> {
        let document = js::document()?;
        let video: HtmlVideoElement = document
            .get_element_by_id(video_id)
            .and_then(|found| found.dyn_into().ok())
            .ok_or_else(|| Fault::said("camera", "no video to show it in"))?;
        let canvas: HtmlCanvasElement =
            document.create_element("canvas")?.dyn_into().map_err(|_| Fault::said("camera", "no canvas"))?;
        let options = js::object(&[("willReadFrequently", true.into())])?;
        let pen = canvas.get_context_with_context_options("2d", &options)?.ok_or(Fault::Unsupported)?;
        let pen = pen.dyn_into().map_err(|_| Fault::Unsupported)?;
        video.set_muted(true); // nothing is heard of it; some browsers play nothing else unasked
        video.set_src_object(Some(stream)); // by `autoplay` it begins
        // Not the browser's own `clone`, whose tracks go on when these are stopped.
        Ok(Camera { stream: Clone::clone(stream), video, canvas, pen })
    }

    /// The picture at this moment; `None` before the first.
    pub fn still(&self) -> Result<Option<Still>, NoCamera> {
        let live = self.tracks().iter().any(|track| track.ready_state() == web_sys::MediaStreamTrackState::Live);
        if !live {
            return Err(NoCamera::Busy);
        }
        let (width, height) = (self.video.video_width(), self.video.video_height());
        if width == 0 || height == 0 || self.video.ready_state() < web_sys::HtmlMediaElement::HAVE_CURRENT_DATA {
            return Ok(None);
        }
        self.drawn(width, height).map(Some).map_err(NoCamera::from)
    }

    fn drawn(&self, width: u32, height: u32) -> Result<Still, Fault> {
        // A camera that gives more than it was asked for is read no slower for it.
        let by = (f64::from(WIDTH) / f64::from(width.max(height))).min(1.0);
        let (width, height) = ((f64::from(width) * by) as u32, (f64::from(height) * by) as u32);
        if (self.canvas.width(), self.canvas.height()) != (width, height) {
            self.canvas.set_width(width);
            self.canvas.set_height(height);
        }
        let (across, down) = (f64::from(width), f64::from(height));
        self.pen.draw_image_with_html_video_element_and_dw_and_dh(&self.video, 0.0, 0.0, across, down)?;
        let read = js::call(&self.pen, "getImageData", &[&0.into(), &0.into(), &width.into(), &height.into()])?;
        let rgba = js::member(&js::member(&read, "data")?, "buffer")?;
        let rgba = rgba.dyn_into().map_err(|_| Fault::said("camera", "no points"))?;
        Ok(Still { width, height, rgba })
    }

    fn tracks(&self) -> Vec<MediaStreamTrack> {
        tracks(&self.stream)
    }
}

impl Drop for Camera {
    fn drop(&mut self) {
        end(&self.stream);
        self.video.set_src_object(None);
    }
}

impl From<Fault> for NoCamera {
    fn from(fault: Fault) -> NoCamera {
        match &fault {
            Fault::Unsupported => NoCamera::Absent,
            Fault::Refused { name, message } => match name.as_str() {
                "NotAllowedError" | "SecurityError" => NoCamera::Refused,
                "NotFoundError" | "OverconstrainedError" => NoCamera::Absent,
                "NotReadableError" | "AbortError" => NoCamera::Busy,
                _ => NoCamera::Other(format!("{name}: {message}")),
            },
        }
    }
}

fn end(stream: &MediaStream) {
    tracks(stream).iter().for_each(MediaStreamTrack::stop);
}

fn tracks(stream: &MediaStream) -> Vec<MediaStreamTrack> {
    stream.get_tracks().iter().filter_map(|track| track.dyn_into().ok()).collect()
}
