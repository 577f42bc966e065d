//! Reference pictures: reading and writing them, and telling two apart.

use std::fs::{self, File};
use std::io::BufReader;
use std::path::{Path, PathBuf};

use super::picture::{GREYS, Picture};

/// Greys may differ by this much where a machine rounds otherwise.
const SMALL: u8 = 2;

/// This many dots may differ by more: fewer than a letter of the smallest print has.
pub const FEW: usize = 6;

/// The most bytes of a reference picture, so that the repository stays small.
const MOST_BYTES: u64 = 40 * 1024;

impl Picture {
    /// The picture as PNG, four bits a dot.
    pub fn to_png(&self) -> Vec<u8> {
        let mut bytes = Vec::new();
        let mut encoder = png::Encoder::new(&mut bytes, self.width as u32, self.height as u32);
        encoder.set_color(png::ColorType::Grayscale);
        encoder.set_depth(png::BitDepth::Four);
        encoder.set_compression(png::Compression::High);
        let two = |pair: &[u8]| pair[0] << 4 | pair.get(1).copied().unwrap_or(0);
        let rows: Vec<u8> = self.greys.chunks(self.width).flat_map(|row| row.chunks(2).map(two)).collect();
        encoder.write_header().unwrap().write_image_data(&rows).unwrap();
        bytes
    }

    /// Reads what [`Picture::to_png`] wrote.
    pub fn from_png(path: &Path) -> Option<Self> {
        let mut reader = png::Decoder::new(BufReader::new(File::open(path).ok()?)).read_info().ok()?;
        let mut bytes = vec![0; reader.output_buffer_size()?];
        let info = reader.next_frame(&mut bytes).ok()?;
        if (info.color_type, info.bit_depth) != (png::ColorType::Grayscale, png::BitDepth::Four) {
            return None;
        }
        let (width, height) = (info.width as usize, info.height as usize);
        let row = |row: &[u8]| row.iter().flat_map(|b| [b >> 4, b & 15]).take(width).collect::<Vec<u8>>();
        let greys = bytes.chunks(info.line_size).take(height).flat_map(row).collect();
        Some(Self { width, height, greys })
    }

    /// Pictures side by side, with a grey line between.
    pub fn in_a_row(pictures: &[Self]) -> Self {
        let height = pictures.iter().map(|picture| picture.height).max().unwrap_or(0);
        let width = pictures.iter().map(|picture| picture.width + 1).sum::<usize>().saturating_sub(1);
        let row = |y: usize| {
            let mut row: Vec<u8> = Vec::with_capacity(width);
            for (nth, picture) in pictures.iter().enumerate() {
                row.extend((nth > 0).then_some(GREYS / 2));
                row.extend((0..picture.width).map(|x| picture.at(x, y).unwrap_or(GREYS - 1)));
            }
            row
        };
        Self { width, height, greys: (0..height).flat_map(row).collect() }
    }

    /// How many dots differ visibly from another picture's; all when the sizes differ.
    pub fn differing(&self, other: &Self) -> usize {
        if (self.width, self.height) != (other.width, other.height) {
            return self.greys.len().max(other.greys.len());
        }
        self.greys.iter().zip(&other.greys).filter(|(one, other)| one.abs_diff(**other) > SMALL).count()
    }

    /// This picture, another, and where they differ (black on white), side by side.
    pub fn beside(&self, other: &Self) -> Self {
        let height = self.height.max(other.height);
        let gap = 8;
        let between = self.width.max(other.width);
        let width = self.width + other.width + between + 2 * gap;
        let mut greys = vec![GREYS / 2; width * height];
        for y in 0..height {
            for x in 0..between {
                let (one, two) = (self.at(x, y), other.at(x, y));
                let row = y * width;
                if let Some(grey) = one {
                    greys[row + x] = grey;
                }
                if let Some(grey) = two {
                    greys[row + self.width + gap + x] = grey;
                }
                let same = one.zip(two).is_some_and(|(one, two)| one.abs_diff(two) <= SMALL);
                greys[row + self.width + other.width + 2 * gap + x] = if same { GREYS - 1 } else { 0 };
            }
        }
        Self { width, height, greys }
    }

    fn at(&self, x: usize, y: usize) -> Option<u8> {
        (x < self.width && y < self.height).then(|| self.greys[y * self.width + x])
    }
}

/// Whether references are to be written anew.
pub fn blessing() -> bool {
    #[allow(clippy::disallowed_methods, reason = "a test is told what to do by the environment; a sheet is not")]
    std::env::var("SHEAFLING_BLESS").is_ok_and(|value| value == "1")
}

/// Holds a picture against its reference, or writes the reference anew. Gives what is wrong.
pub fn hold(reference: &Path, name: &str, actual: &Picture) -> Option<String> {
    if blessing() {
        fs::create_dir_all(reference.parent().unwrap()).unwrap();
        let kept = Picture::from_png(reference).is_some_and(|before| before.differing(actual) == 0);
        if !kept {
            fs::write(reference, actual.to_png()).unwrap();
        }
    }
    let Some(expected) = Picture::from_png(reference) else {
        return Some(format!("{name}: there is no such reference picture"));
    };
    let size = fs::metadata(reference).unwrap().len();
    if size > MOST_BYTES {
        return Some(format!("{name}: {size} bytes are more than {MOST_BYTES}"));
    }
    let dots = expected.differing(actual);
    (dots > FEW).then(|| {
        let seen = seen_in().join(name);
        fs::create_dir_all(seen.parent().unwrap()).unwrap();
        fs::write(&seen, expected.beside(actual).to_png()).unwrap();
        format!("{name}: {dots} dots differ; expected, actual and difference are in {}", seen.display())
    })
}

/// Where pictures that differ are put.
fn seen_in() -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).join("pages")
}
