// Carries out packed drawings (src/paint/packed.rs) on a canvas: one call out of WebAssembly a picture,
// where a call for every point would cost more than the painting.

const FILL = 0;
const GRADIENT = 1;
const LINE = 2;
const TEXT = 3;
const CLIP = 4;
const ALIGN = ["left", "center", "right"];
/** Letters written from right to left; their digits are not. */
const LEFTWARDS = /[\u0590-\u065f\u066e-\u06ef\u06fa-\u08ff]/;

/** Colours as CSS, by their number 0xRRGGBBAA. */
const colours = new Map();

function css(colour) {
  let text = colours.get(colour);
  if (text === undefined) {
    // A picture that fades through all colours must not fill the memory.
    if (colours.size > 4096) colours.clear();
    text = "#" + colour.toString(16).padStart(8, "0");
    colours.set(colour, text);
  }
  return text;
}

/**
 * Paints over whatever was there. `numbers` is a view of the program's memory and dies with the call;
 * `text` holds all letters; `families` the typefaces as CSS.
 */
export function paint(context, width, height, numbers, text, families) {
  let at = 0;
  let font = "";
  const path = (closed) => {
    context.beginPath();
    for (let contours = numbers[at++]; contours > 0; contours--) {
      let points = numbers[at++];
      context.moveTo(numbers[at++], numbers[at++]);
      while (--points > 0) context.lineTo(numbers[at++], numbers[at++]);
      if (closed) context.closePath();
    }
  };
  const fill = () => (context.fillStyle = css(numbers[at++]));
  const stroke = () => {
    context.strokeStyle = css(numbers[at++]);
    context.lineWidth = numbers[at++];
  };
  context.clearRect(0, 0, width, height);
  context.lineJoin = "round";
  context.lineCap = "butt";
  context.textBaseline = "alphabetic";
  // Whichever way the page runs, each text runs as its own letters do.
  context.direction = "ltr";
  const mixed = LEFTWARDS.test(text);
  while (at < numbers.length) {
    switch (numbers[at++]) {
      case FILL:
        fill();
        path(true);
        context.fill();
        break;
      case GRADIENT: {
        const gradient = context.createLinearGradient(numbers[at++], numbers[at++], numbers[at++], numbers[at++]);
        for (let stops = numbers[at++]; stops > 0; stops--) gradient.addColorStop(numbers[at++], css(numbers[at++]));
        path(true);
        context.fillStyle = gradient;
        context.fill();
        break;
      }
      case LINE: {
        const closed = numbers[at++] === 1;
        stroke();
        const [dash, gap] = [numbers[at++], numbers[at++]];
        if (dash > 0) context.setLineDash([dash, gap]);
        path(closed);
        context.stroke();
        if (dash > 0) context.setLineDash([]);
        break;
      }
      case TEXT: {
        const [x, y] = [numbers[at++], numbers[at++]];
        let letters = text.slice(numbers[at++], numbers[at++]);
        if (mixed && LEFTWARDS.test(letters)) letters = "\u2067" + letters;
        const wanted = numbers[at++] + "px " + families[numbers[at++]];
        // Setting a font is dear, even to what it is.
        if (font !== wanted) context.font = font = wanted;
        context.textAlign = ALIGN[numbers[at++]];
        fill();
        const haloed = numbers[at++] === 1;
        if (haloed) {
          stroke();
          context.strokeText(letters, x, y);
        }
        context.fillText(letters, x, y);
        break;
      }
      case CLIP:
        context.save();
        path(true);
        context.clip();
        break;
      default:
        context.restore();
        font = "";
    }
  }
}
