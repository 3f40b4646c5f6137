//! The page's second program, loaded when something of it is first asked for: what a guide prepares,
//! compares and tells beside the court. It reads the moment from the page's address.

/// Starts the desk.
#[cfg(target_arch = "wasm32")]
fn main() {
    // Whoever has loaded it tells the reader what went wrong.
    if let Err(error) = noonwedge::web::desk::start() {
        wasm_bindgen::throw_val(error);
    }
}

/// Away from a browser there is no page to start it on.
#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("This program runs in a web page: `make serve` builds and serves it.");
    std::process::exit(1);
}
