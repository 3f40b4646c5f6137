//! Tests of the lens as a picture.

use super::*;
