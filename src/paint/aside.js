// Paints packed drawings (src/paint/packed.rs) on a thread of its own, for a picture that is another with
// every frame: the page's thread only describes it. Both ends of the line are in this file.
import { paint } from "./canvas.js";

const NOTHING = { width: 1, height: 1, across: 1, down: 1, numbers: [], text: "" };

/** The page's end. */
export class Aside {
  #thread = null;
  /** Whether a drawing is on its way, and what comes after it: always the newest. */
  #busy = true;
  #next = null;
  /** Whether the canvas is to show something. */
  #shows = false;

  constructor(canvas, families) {
    // Old browsers paint on the page's thread only.
    if (!canvas.transferControlToOffscreen) return;
    let thread;
    try {
      thread = new Worker(import.meta.url, { type: "module" });
    } catch {
      return; // Where the page is kept may forbid threads.
    }
    thread.onmessage = () => {
      this.#thread = thread;
      this.#busy = false;
      if (this.#next) this.#send(this.#next);
    };
    thread.onerror = () => {
      this.#thread = null;
      // What stands on it would stay there.
      canvas.remove();
    };
    const offscreen = canvas.transferControlToOffscreen();
    thread.postMessage({ canvas: offscreen, families }, [offscreen]);
  }

  /** Whether the thread is there. */
  works() {
    return this.#thread !== null;
  }

  /** Paints over whatever was there; `numbers` is a view of the program's memory and dies with the call. */
  paint(width, height, across, down, numbers, text) {
    this.#shows = true;
    this.#send({ width, height, across, down, numbers: numbers.slice(), text });
  }

  /** Empties the canvas as soon as what lies under it has come to be seen. */
  clear() {
    if (!this.#shows) return;
    this.#shows = false;
    const empty = () => this.#shows || this.#send(NOTHING);
    requestAnimationFrame(() => requestAnimationFrame(empty));
  }

  #send(drawing) {
    this.#next = this.#busy ? drawing : null;
    if (this.#busy) return;
    this.#busy = true;
    this.#thread?.postMessage(drawing, drawing === NOTHING ? [] : [drawing.numbers.buffer]);
  }
}

/** The other thread's end. */
function listen() {
  let canvas, context, families;
  onmessage = ({ data }) => {
    if (data.canvas) {
      ({ canvas, families } = data);
      context = canvas.getContext("2d");
    } else {
      const { width, height, across, down, numbers, text } = data;
      // To be given a size empties a canvas, even if it is the one it has.
      if (canvas.width !== across) canvas.width = across;
      if (canvas.height !== down) canvas.height = down;
      context.setTransform(across / width, 0, 0, down / height, 0, 0);
      paint(context, width, height, numbers, text, families);
    }
    postMessage(null);
  };
}

if (!globalThis.document) listen();
