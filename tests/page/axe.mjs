// Accessibility checks of a page as it stands, against WCAG 2.2 A and AA.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const SOURCE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/**
 * The violations on the page, one readable line each; none is an empty list. The checker is handed to
 * the page by the browser's debugger, so the page's own content security policy stays in force.
 */
export async function violations(page, { disable = [] } = {}) {
  const session = await page.context().newCDPSession(page);
  const run = async (expression) => {
    const { result, exceptionDetails } = await session.send("Runtime.evaluate", {
      expression,
      awaitPromise: true,
      returnByValue: true,
    });
    if (exceptionDetails) throw new Error(exceptionDetails.exception?.description ?? exceptionDetails.text);
    return result.value;
  };
  const options = {
    runOnly: { type: "tag", values: TAGS },
    rules: Object.fromEntries(disable.map((rule) => [rule, { enabled: false }])),
    resultTypes: ["violations"],
  };
  // A page that has been checked before has it still.
  if (!(await run("typeof axe === 'object'"))) await run(`${SOURCE}; void 0`);
  const results = await run(`axe.run(document, ${JSON.stringify(options)})`);
  await session.detach();
  return results.violations.flatMap(({ id, help, nodes }) =>
    nodes.map((node) => `${id}: ${help}: ${node.target.join(" ")}\n  ${node.failureSummary}`),
  );
}
