//! Tests of the pass through noon as a picture.
