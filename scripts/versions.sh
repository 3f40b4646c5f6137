# shellcheck shell=bash disable=SC2034  # sourced by the other scripts, which use the names
# Every version the tools are pinned to, or the file that pins it.

TRUNK_VERSION=0.21.14

# Has to match the wasm-bindgen library to the last digit, so the library's entry in Cargo.lock decides.
WASM_BINDGEN_VERSION=$(awk '/^name = "wasm-bindgen"$/ { getline; gsub(/"/, "", $3); print $3; exit }' Cargo.lock)

# wasm-opt, playwright-core and axe-core: package.json and package-lock.json.
# The Rust toolchain: rust-toolchain.toml.

# Debian's own Rust, used for wasm32 only where rustup can't fetch that target.
DEBIAN_RUST_PACKAGES=(rustc-web cargo-web rust-web-src rust-web-clippy lld-22)
DEBIAN_WASM_LINKER=/usr/bin/wasm-ld-22
