//! The binary form of glTF: one chunk of JSON, one of numbers (Khronos, glTF 2.0, chapter 4).

use serde_json::{Value, json};

/// What the numbers of an accessor are (chapter 3.6.2.2 and 5.11.5).
const FLOAT: u32 = 5126;
const UNSIGNED_SHORT: u32 = 5123;
const CORNERS: u32 = 34962;
const TRIANGLES: u32 = 34963;

/// The numbers of a model, one after the other, and where each list of them begins.
#[derive(Default)]
pub struct Numbers {
    bytes: Vec<u8>,
    views: Vec<Value>,
    accessors: Vec<Value>,
}

impl Numbers {
    /// Adds places, with the box they lie in; gives the number of their accessor.
    pub fn places(&mut self, list: &[[f32; 3]]) -> usize {
        // As JSON numbers they are to be the very same.
        let ends = |end: fn(f32, f32) -> f32, from: f32| {
            let found = list.iter().fold([from; 3], |a, b| [end(a[0], b[0]), end(a[1], b[1]), end(a[2], b[2])]);
            found.map(f64::from)
        };
        let (low, high) = (ends(f32::min, f32::INFINITY), ends(f32::max, f32::NEG_INFINITY));
        let bytes = list.iter().flatten().flat_map(|x| x.to_le_bytes());
        self.add(
            bytes,
            CORNERS,
            json!({ "componentType": FLOAT, "count": list.len(), "type": "VEC3", "min": low, "max": high }),
        )
    }

    /// Adds directions; gives the number of their accessor.
    pub fn directions(&mut self, list: &[[f32; 3]]) -> usize {
        let bytes = list.iter().flatten().flat_map(|x| x.to_le_bytes());
        self.add(bytes, CORNERS, json!({ "componentType": FLOAT, "count": list.len(), "type": "VEC3" }))
    }

    /// Adds triangles; gives the number of their accessor.
    pub fn triangles(&mut self, list: &[u16]) -> usize {
        let bytes = list.iter().flat_map(|n| n.to_le_bytes());
        self.add(bytes, TRIANGLES, json!({ "componentType": UNSIGNED_SHORT, "count": list.len(), "type": "SCALAR" }))
    }

    fn add(&mut self, bytes: impl Iterator<Item = u8>, target: u32, mut accessor: Value) -> usize {
        pad(&mut self.bytes, 0);
        let start = self.bytes.len();
        self.bytes.extend(bytes);
        let length = self.bytes.len() - start;
        if let Some(accessor) = accessor.as_object_mut() {
            accessor.insert("bufferView".to_owned(), self.views.len().into());
        }
        self.views.push(json!({ "buffer": 0, "byteOffset": start, "byteLength": length, "target": target }));
        self.accessors.push(accessor);
        self.accessors.len() - 1
    }

    /// The whole file: `json` with the lists of these numbers added to it, then the numbers.
    pub fn file(mut self, mut json: Value) -> Vec<u8> {
        pad(&mut self.bytes, 0);
        if let Some(json) = json.as_object_mut() {
            json.insert("accessors".to_owned(), self.accessors.into());
            json.insert("bufferViews".to_owned(), self.views.into());
            json.insert("buffers".to_owned(), json!([{ "byteLength": self.bytes.len() }]));
        }
        let mut words = json.to_string().into_bytes();
        pad(&mut words, b' ');
        // Head, and the heads of two chunks.
        let whole = 12 + 8 + words.len() + 8 + self.bytes.len();
        let mut file = Vec::with_capacity(whole);
        file.extend(b"glTF");
        file.extend(2_u32.to_le_bytes());
        file.extend(length(whole));
        for (kind, chunk) in [(b"JSON", words), (b"BIN\0", self.bytes)] {
            file.extend(length(chunk.len()));
            file.extend(kind);
            file.extend(chunk);
        }
        file
    }
}

/// Chunks, and the lists in them, begin at every fourth byte.
fn pad(bytes: &mut Vec<u8>, with: u8) {
    bytes.resize(bytes.len().next_multiple_of(4), with);
}

/// Four bytes of length. What a model may hold ends far below what they can say.
fn length(bytes: usize) -> [u8; 4] {
    u32::try_from(bytes).unwrap_or(u32::MAX).to_le_bytes()
}
