//! Photos as the customer's report shows them: upright, small, and without what a camera writes beside the picture,
//! such as the place where it was taken.

use image::codecs::jpeg::JpegEncoder;
use image::{DynamicImage, ImageDecoder, ImageReader, Limits, RgbImage, Rgba};
use std::io::Cursor;
use typst::foundations::Bytes;

/// The largest file that is read, bytes.
pub const MAX_PHOTO_BYTES: u64 = 32 << 20;

/// Longest side that is printed, pixels: a photo half as wide as the page has then some 400 to the inch.
const MAX_SIDE: u32 = 1400;
/// Longest side that is read, pixels.
const MAX_SIDE_READ: u32 = 20_000;
/// Memory for a photo while it is read, bytes.
const MAX_MEMORY: u64 = 512 << 20;
/// Quality of the printed picture, of 100.
const QUALITY: u8 = 82;

/// A photo, ready to be set.
#[derive(Debug, Clone)]
pub struct Photo {
    pub(crate) caption: String,
    pub(crate) jpeg: Bytes,
}

/// Why a photo cannot be shown.
#[derive(Debug, thiserror::Error)]
pub enum PhotoError {
    /// The caption is empty.
    #[error("the photo has no caption: write caption = \"...\" with what it shows")]
    NoCaption,
    /// The file cannot be decoded.
    #[error("the photo cannot be shown: {}; save it as JPEG, PNG or WebP", one_line(.0))]
    Unreadable(#[from] image::ImageError),
}

/// A decoder's message, which may end its lines, in one.
fn one_line(error: &image::ImageError) -> String {
    let words = error.to_string();
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

impl Photo {
    /// Prepares the photo of a file's content.
    ///
    /// # Errors
    /// When there is no caption, the content is no JPEG, PNG or WebP image, or it is damaged or too large.
    pub fn new(caption: &str, content: &[u8]) -> Result<Photo, PhotoError> {
        let caption = caption.trim();
        if caption.is_empty() {
            return Err(PhotoError::NoCaption);
        }
        let mut limits = Limits::default();
        (limits.max_image_width, limits.max_image_height) =
            (Some(MAX_SIDE_READ), Some(MAX_SIDE_READ));
        limits.max_alloc = Some(MAX_MEMORY);
        let mut reader = ImageReader::new(Cursor::new(content));
        reader.limits(limits.clone());
        let mut decoder = reader
            .with_guessed_format()
            .map_err(image::ImageError::IoError)?
            .into_decoder()?;
        limits.reserve(decoder.total_bytes())?;
        let orientation = decoder.orientation()?;
        let mut picture = DynamicImage::from_decoder(decoder)?;
        if picture.width().max(picture.height()) > MAX_SIDE {
            picture = picture.thumbnail(MAX_SIDE, MAX_SIDE);
        }
        picture.apply_orientation(orientation);
        Photo::of(caption, &on_white(&picture))
    }

    /// A photo of nothing, to try a template on.
    pub(crate) fn blank(caption: &str) -> Result<Photo, PhotoError> {
        Photo::of(caption, &RgbImage::from_pixel(4, 3, image::Rgb([255; 3])))
    }

    fn of(caption: &str, picture: &RgbImage) -> Result<Photo, PhotoError> {
        let mut jpeg = Vec::new();
        picture.write_with_encoder(JpegEncoder::new_with_quality(&mut jpeg, QUALITY))?;
        Ok(Photo {
            caption: caption.to_owned(),
            jpeg: Bytes::new(jpeg),
        })
    }
}

/// Puts a picture on white where it is transparent.
fn on_white(picture: &DynamicImage) -> RgbImage {
    if !picture.color().has_alpha() {
        return picture.to_rgb8();
    }
    let rgba = picture.to_rgba8();
    RgbImage::from_fn(rgba.width(), rgba.height(), |x, y| {
        let Rgba([r, g, b, a]) = *rgba.get_pixel(x, y);
        let over = |c: u8| ((u32::from(c) * u32::from(a) + 255 * (255 - u32::from(a))) / 255) as u8;
        image::Rgb([r, g, b].map(over))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::ImageFormat;

    fn png(width: u32, height: u32) -> Vec<u8> {
        let picture = DynamicImage::new_rgba8(width, height);
        let mut content = Cursor::new(Vec::new());
        picture.write_to(&mut content, ImageFormat::Png).unwrap();
        content.into_inner()
    }

    fn size(photo: &Photo) -> (u32, u32) {
        let picture = image::load_from_memory(&photo.jpeg).unwrap();
        (picture.width(), picture.height())
    }

    #[test]
    fn a_photo_is_made_small_and_keeps_its_shape() {
        assert_eq!(
            size(&Photo::new("x", &png(2800, 1400)).unwrap()),
            (1400, 700)
        );
        assert_eq!(size(&Photo::new("x", &png(30, 20)).unwrap()), (30, 20));
    }

    /// What is transparent is white: the pixel of a JPEG is within its rounding of 255.
    #[test]
    fn what_is_transparent_becomes_white() {
        let photo = Photo::new("x", &png(8, 8)).unwrap();
        let picture = image::load_from_memory(&photo.jpeg).unwrap().to_rgb8();
        assert!(picture.pixels().all(|p| p.0.iter().all(|&c| c > 250)));
    }

    /// Orientation 6 of Exif 2.3, 4.6.4 (tag 274): the camera was turned, and the picture is shown a quarter turn to the
    /// right. The tag's block is written by hand after TIFF 6.0, section 2, in an APP1 segment of JPEG.
    #[test]
    fn a_photo_is_set_upright_and_loses_what_the_camera_wrote() {
        let mut jpeg = Vec::new();
        let picture = RgbImage::new(40, 20);
        picture
            .write_with_encoder(JpegEncoder::new(&mut jpeg))
            .unwrap();
        let mut exif =
            b"Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0".to_vec();
        let length = u16::try_from(exif.len() + 2).unwrap().to_be_bytes();
        let mut segment = vec![0xFF, 0xE1, length[0], length[1]];
        segment.append(&mut exif);
        jpeg.splice(2..2, segment);
        let photo = Photo::new("x", &jpeg).unwrap();
        assert_eq!(size(&photo), (20, 40));
        assert!(!photo.jpeg.windows(4).any(|w| w == b"Exif"));
    }

    #[test]
    fn what_is_no_photo_is_refused() {
        for content in [&b""[..], b"\xFF\xD8\xFF\xE0 no more", b"text"] {
            let wrong = Photo::new("x", content).map(|_| ()).unwrap_err();
            assert!(wrong.to_string().contains("JPEG, PNG or WebP"), "{wrong}");
        }
        let wrong = Photo::new(" ", &png(1, 1)).map(|_| ()).unwrap_err();
        assert!(matches!(wrong, PhotoError::NoCaption));
        let wrong = Photo::new("x", &png(20_001, 1)).map(|_| ()).unwrap_err();
        assert!(matches!(wrong, PhotoError::Unreadable(_)), "{wrong}");
    }
}
