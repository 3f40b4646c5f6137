import { readFileSync } from "node:fs";
import { launch } from "./browser.mjs";
const browser = await launch(); const page = await browser.newPage();
for (const tag of ["ar","hi"]) {
  const words = JSON.parse(readFileSync(`src/words/${tag}.json`,"utf8"));
  const letters = [...new Set(Object.values(words).join("").replace(/[\x00-\x7f]/g,""))];
  const fams = { sans: "system-ui,'Segoe UI',Roboto,'Noto Sans',sans-serif", serif: "'Iowan Old Style','Palatino Linotype',Palatino,'Noto Serif',Georgia,serif", dejavu: "DejaVu Sans"};
  const out = await page.evaluate(([letters, fams]) => {
    const c = document.createElement("canvas").getContext("2d");
    return letters.map((l) => [l, ...Object.values(fams).map((f) => { c.font = `100px ${f}`; return Math.round(c.measureText(l).width); }), ...(/[\u0600-\u06ff]/.test(l) ? [c.font=`100px ${fams.sans}`, Math.round(c.measureText("ـ"+l+"ـ").width-2*c.measureText("ـ").width)]:[])]);
  }, [letters, fams]);
  console.log(tag, out.map((o)=>o.join(" ")).join("\n"));
}
await browser.close();
