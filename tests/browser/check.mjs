// Looks at pages of reviews in a real browser, as a phone, a desk and a printer show them. Usage: node check.mjs PAGE...
// Each PAGE may be followed by names that must arrive as text, as PAGE=NAME.

import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";
import puppeteer from "puppeteer-core";

const require = createRequire(import.meta.url);
const axe = await readFile(require.resolve("axe-core/axe.min.js"), "utf8");
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const WIDTHS = [390, 1280];
// Printable sizes in CSS pixels (96 an inch) within the page's own margins of 12 and 11 mm.
const MM = 96 / 25.4;
const PAPERS = { a4: [210, 297], letter: [215.9, 279.4] };
const MOST_PAGES = 4;

const problems = [];
const tell = (page, where, what) => problems.push(`${page}: ${where}: ${what}`);

async function open(browser, page, width) {
  const tab = await browser.newPage();
  await tab.setViewport({ width, height: 900 });
  tab.on("dialog", async (dialog) => { tell(page, `${width} px`, `a script ran: ${dialog.message()}`); await dialog.dismiss(); });
  tab.on("pageerror", (error) => tell(page, `${width} px`, `error: ${error.message}`));
  tab.on("request", (request) => {
    const url = request.url();
    if (url !== pathToFileURL(page).href && !url.startsWith("data:")) tell(page, `${width} px`, `fetches ${url}`);
  });
  await tab.goto(pathToFileURL(page).href, { waitUntil: "load" });
  await tab.evaluate(() => document.fonts.ready.then(() => true));
  return tab;
}

async function onScreen(browser, page, width, scheme, names) {
  const where = `${width} px, ${scheme}`;
  const tab = await open(browser, page, width);
  await tab.emulateMediaFeatures([{ name: "prefers-color-scheme", value: scheme }]);
  const seen = await tab.evaluate(() => {
    const root = document.documentElement;
    const leaves = [...document.querySelectorAll("body *")].filter((element) => {
      const scroller = element.closest(".wide");
      const right = element.getBoundingClientRect().right;
      return right > root.clientWidth + 1 && (!scroller || scroller === element);
    });
    return {
      over: root.scrollWidth - root.clientWidth,
      leaves: leaves.slice(0, 3).map((element) => `<${element.tagName.toLowerCase()}> ${element.textContent.slice(0, 40)}`),
      scripts: document.scripts.length,
      text: document.body.innerText + [...document.querySelectorAll("svg")].map((svg) => svg.textContent).join("\n"),
      ids: [...document.querySelectorAll("[id]")].map((element) => element.id),
      pictures: [...document.querySelectorAll("figure svg")].map((svg) => {
        const box = svg.getBoundingClientRect();
        const words = [svg.getAttribute("aria-label"), svg.querySelector("title")?.textContent].filter(Boolean).join(" ");
        return { wide: box.width, high: box.height, role: svg.getAttribute("role"), words };
      }),
    };
  });
  if (seen.over > 0) tell(page, where, `scrolls sideways by ${seen.over} px`);
  for (const leaf of seen.leaves) tell(page, where, `reaches over the edge: ${leaf}`);
  if (seen.scripts > 0) tell(page, where, `holds ${seen.scripts} scripts`);
  const twice = seen.ids.filter((id, at) => seen.ids.indexOf(id) !== at);
  if (twice.length > 0) tell(page, where, `the same id twice: ${[...new Set(twice)].join(", ")}`);
  if (seen.pictures.length < 2) tell(page, where, `has ${seen.pictures.length} pictures`);
  for (const [at, picture] of seen.pictures.entries()) {
    if (picture.wide < 200 || picture.high < 60) tell(page, where, `picture ${at + 1} is ${picture.wide} × ${picture.high}`);
    if (picture.role !== "img" || picture.words.length < 20) tell(page, where, `picture ${at + 1} says nothing to those who cannot see it`);
  }
  for (const name of names) if (!seen.text.includes(name)) tell(page, where, `does not show ${name}`);
  // Put in from outside: the page itself holds no script.
  await tab.evaluate(axe);
  const found = await tab.evaluate((rules) => globalThis.axe.run(document, { runOnly: { type: "tag", values: rules } }), RULES);
  if (found.passes.length < 20) tell(page, where, `only ${found.passes.length} accessibility rules were tried`);
  for (const violation of found.violations) {
    tell(page, where, `${violation.id}: ${violation.help}: ${violation.nodes.slice(0, 3).map((node) => node.html.slice(0, 120)).join(" | ")}`);
  }
  await tab.close();
}

async function onPaper(browser, page, paper) {
  const [width, height] = PAPERS[paper];
  const tab = await open(browser, page, Math.round((width - 24) * MM));
  await tab.emulateMediaType("print");
  const answer = await tab.evaluate(() => document.querySelector(".answer-side").getBoundingClientRect().height);
  const room = (height - 22) * MM;
  // What is wider than the paper makes a browser print everything smaller.
  const over = await tab.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  if (over > 0) tell(page, paper, `is ${over} px wider than the paper`);
  if (answer > room) tell(page, paper, `the answer takes ${Math.round(answer)} px of the ${Math.round(room)} on one side`);
  const pdf = Buffer.from(await tab.pdf({ format: paper, preferCSSPageSize: false })).toString("latin1");
  const pages = pdf.match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;
  if (pages < 2 || pages > MOST_PAGES) tell(page, paper, `prints on ${pages} sides`);
  console.log(`${page}: ${paper}: ${pages} sides, the answer takes ${Math.round((100 * answer) / room)} % of one`);
  await tab.close();
}

const asked = new Map();
for (const argument of process.argv.slice(2)) {
  const [page, ...name] = argument.split("=");
  asked.set(page, [...(asked.get(page) ?? []), ...(name.length > 0 ? [name.join("=")] : [])]);
}
if (asked.size === 0) throw new Error("name a page");
const browser = await puppeteer.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
try {
  for (const [page, names] of asked) {
    for (const width of WIDTHS) for (const scheme of ["light", "dark"]) await onScreen(browser, page, width, scheme, names);
    for (const paper of Object.keys(PAPERS)) await onPaper(browser, page, paper);
  }
} finally {
  await browser.close();
}
for (const problem of problems) console.error(problem);
if (problems.length > 0) process.exit(1);
console.log(`${asked.size} pages: nothing to mend`);
