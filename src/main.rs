//! The program of the page. It is one of its own, not the library itself, because only a program is
//! optimised as a whole (a tenth smaller and faster).

/// Starts the page.
#[cfg(target_arch = "wasm32")]
fn main() {
    // The page has told the reader what went wrong.
    let _: Result<(), wasm_bindgen::JsValue> = noonwedge::web::start();
}

/// Away from a browser there is no page to start.
#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("This program runs in a web page: `make serve` builds and serves it.");
    std::process::exit(1);
}
