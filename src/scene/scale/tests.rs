//! Tests of the declination scale as a picture.
