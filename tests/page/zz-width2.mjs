import { readFileSync } from "node:fs";
import { launch } from "./browser.mjs";
const browser = await launch(); const page = await browser.newPage();
const adv = (l) => {
  const c = l.codePointAt(0);
  if ((c>=0x64b&&c<=0x65f)||(c>=0x900&&c<=0x902)||c==0x93c||(c>=0x941&&c<=0x948)||c==0x94d||(c>=0x2066&&c<=0x2069)) return 0;
  if ("اأإآ".includes(l)) return 0.31;
  if ("سشصضطظ".includes(l)) return 1.0;
  if ("بتثنيئل".includes(l)) return 0.5;
  if ("ـ،؛٫".includes(l)) return 0.34;
  if ("ािीोौ".includes(l)) return 0.28;
  if ("।".includes(l)) return 0.34;
  if (c>=0x904&&c<=0x939) return "अकणखआऔफऊओइभछज".includes(l)? 0.8: 0.66;
  const m = {" ":0.27};
  if (l==" ") return .27; if ("ijl.,:;’′".includes(l)) return .34; if (l=="I") return .35; if ("ftr-()°″".includes(l)) return .47; if ("scz".includes(l)) return .52; if ("mM".includes(l)) return .98; if ("w−+".includes(l)) return .86; if (l=="W") return 1.05; if (/[A-Z]/.test(l)) return .78; return .63;
};
for (const tag of ["ar","hi"]) {
  const words = JSON.parse(readFileSync(`src/words/${tag}.json`,"utf8"));
  const all = Object.entries(words).filter(([k,v])=>/^(lens|noon|scale|day|sizes|guide|court|year|plots)/.test(k)&&v.length>2&&!/^year.months/.test(k)).map(([,v])=>v.replace(/\{\w+\}/g, tag=="ar"?"٩:٥٢":"9:52"));
  for (const font of ["100px system-ui,sans-serif", "100px Noto Serif,Georgia,serif", "100px DejaVu Sans", "100px Noto Naskh Arabic"]) {
  const real = await page.evaluate(([all, font]) => { const c = document.createElement("canvas").getContext("2d"); c.font = font; return all.map((t)=>c.measureText(t).width/100); }, [all, font]);
  const ratios = all.map((t,i)=>[[...t].reduce((s,l)=>s+adv(l),0)/real[i], t]).sort((a,b)=>a[0]-b[0]);
  console.log(tag, font, "min", ratios.slice(0,4).map(([r,t])=>r.toFixed(2)+" "+t).join(" | "), "median", ratios[ratios.length>>1][0].toFixed(2), "max", ratios.at(-1)[0].toFixed(2));
  }
}
await browser.close();
