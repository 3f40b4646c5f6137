//! What the tests share: reading reference tables, and keeping the largest deviation.

#![allow(dead_code, reason = "each test program uses its own part of this module")]
#![allow(unreachable_pub, reason = "a module of several test programs, not of a library")]

pub mod angles;
pub mod broken;
pub mod dial;
pub mod mesh;
pub mod picture;
pub mod schema;
pub mod table;
pub mod worst;
