# shellcheck shell=bash disable=SC2034  # the scripts that source it use the names
# What every script starts with: the project's folder, the tools' folder, and two ways to speak.

cd "$(dirname "${BASH_SOURCE[0]}")/.." || exit
# shellcheck source=scripts/versions.sh
source scripts/versions.sh

# Outside the clone and outside target/: compiled tools outlive both, and a second clone finds them.
TOOLS=${NOONWEDGE_TOOLS:-${XDG_CACHE_HOME:-$HOME/.cache}/noonwedge}
TRUNK_HOME=$TOOLS/trunk-$TRUNK_VERSION
WASM_BINDGEN_HOME=$TOOLS/wasm-bindgen-cli-$WASM_BINDGEN_VERSION
DEBIAN_RUST_HOME=$TOOLS/debian-rust

say() { printf '==> %s\n' "$*"; }

die() {
  printf 'error: %s\n' "$1" >&2
  shift
  [ $# -eq 0 ] || printf '       %s\n' "$@" >&2
  exit 1
}

have() { command -v "$1" >/dev/null 2>&1; }

# Where rustc would look for the wasm32 standard library.
wasm_target_present() {
  [ -d "$(rustc --print target-libdir --target wasm32-unknown-unknown 2>/dev/null)" ]
}

# Which compiler builds wasm: "rustup" when the toolchain has the target, otherwise "debian".
# NOONWEDGE_WASM_RUST=debian forces the second, to test it where the first works.
wasm_rust() {
  if [ -n "${NOONWEDGE_WASM_RUST:-}" ]; then
    printf '%s\n' "$NOONWEDGE_WASM_RUST"
  elif wasm_target_present; then
    printf 'rustup\n'
  else
    printf 'debian\n'
  fi
}

# The browser of the tests: CHROME if set, else the first that the system has.
find_chrome() {
  local name
  for name in "${CHROME:-}" chromium chromium-browser google-chrome google-chrome-stable; do
    if [ -n "$name" ] && have "$name"; then
      command -v "$name"
      return
    fi
  done
  return 1
}

find_chromedriver() {
  local name
  for name in "${CHROMEDRIVER:-}" chromedriver /usr/lib/chromium-browser/chromedriver "${CHROMEWEBDRIVER:-/nonexistent}/chromedriver"; do
    if [ -n "$name" ] && have "$name"; then
      command -v "$name"
      return
    fi
  done
  return 1
}
