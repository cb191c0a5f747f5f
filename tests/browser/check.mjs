// Looks at pages of reviews in a real browser, as a phone, a desk and a printer show them. Usage: node check.mjs PAGE...
// Each PAGE may be followed by names that must arrive as text, as PAGE=NAME.

import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { pathToFileURL } from "node:url";
import puppeteer from "puppeteer-core";

const require = createRequire(import.meta.url);
const axe = await readFile(require.resolve("axe-core/axe.min.js"), "utf8");
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
const WIDTHS = [320, 390, 768, 1280];
// From this width on the page shows a chart's wide picture, and below it the narrow one.
const WIDE_FROM = 704;
// From this width on the page shows every cell of a large table, and below it what decides.
const CELLS_FROM = 992;
// Printable sizes in CSS pixels (96 an inch) within the page's own margins of 12 and 11 mm.
const MM = 96 / 25.4;
const PAPERS = { a4: [210, 297], letter: [215.9, 279.4] };
const MOST_PAGES = 4;
// Smallest letters of a chart on a screen, in CSS pixels: on a phone held in the hand, and elsewhere.
const LEAST_LETTERS = 9;
const LEAST_LETTERS_ON_A_PHONE = 11;
const leastLetters = (width) => (width >= 390 && width < WIDE_FROM ? LEAST_LETTERS_ON_A_PHONE : LEAST_LETTERS);

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
  const [isWide, isFolded] = [width >= WIDE_FROM, width < CELLS_FROM];
  const seen = await tab.evaluate(() => {
    const isSeen = (element) => element.getClientRects().length > 0;
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
      pairs: [...document.querySelectorAll("figure")].map((figure) => {
        const seen = (selector) => [...figure.querySelectorAll(selector)].map(isSeen).join();
        return { id: figure.id, wide: seen(".chart-wide svg"), narrow: seen(".chart-narrow svg"), all: figure.querySelectorAll("svg").length };
      }),
      // What has to be swiped to be seen whole.
      swiped: [...document.querySelectorAll("body *")]
        .filter((element) => isSeen(element) && element.scrollWidth > element.clientWidth + 1)
        .filter((element) => ["auto", "scroll"].includes(getComputedStyle(element).overflowX))
        .map((element) => `${element.getAttribute("aria-label") ?? element.tagName} by ${element.scrollWidth - element.clientWidth} px`),
      tables: [...document.querySelectorAll("table")].map((table) => {
        const columns = [...table.tHead.rows[0].cells].filter(isSeen).map((cell) => cell.textContent);
        return { caption: table.caption.textContent, columns, right: table.getBoundingClientRect().right, folds: table.querySelectorAll("details").length > 0 };
      }),
      room: root.clientWidth,
      pictures: [...document.querySelectorAll("figure svg")].filter(isSeen).map((svg) => {
        const box = svg.getBoundingClientRect();
        const words = [svg.getAttribute("aria-label"), svg.querySelector("title")?.textContent].filter(Boolean).join(" ");
        const scale = svg.getScreenCTM().a;
        const letters = Math.min(...[...svg.querySelectorAll("text")].map((text) => parseFloat(getComputedStyle(text).fontSize) * scale));
        return { name: svg.closest("figure").id, letters, wide: box.width, high: box.height, left: box.left, right: box.right, role: svg.getAttribute("role"), words };
      }),
    };
  });
  if (seen.over > 0) tell(page, where, `scrolls sideways by ${seen.over} px`);
  for (const leaf of seen.leaves) tell(page, where, `reaches over the edge: ${leaf}`);
  if (seen.scripts > 0) tell(page, where, `holds ${seen.scripts} scripts`);
  const twice = seen.ids.filter((id, at) => seen.ids.indexOf(id) !== at);
  if (twice.length > 0) tell(page, where, `the same id twice: ${[...new Set(twice)].join(", ")}`);
  if (seen.pictures.length < 2) tell(page, where, `has ${seen.pictures.length} pictures`);
  for (const { id, wide, narrow, all } of seen.pairs) {
    if (all !== 2 || wide !== String(isWide) || narrow !== String(!isWide)) {
      tell(page, where, `${id} has ${all} pictures; the wide one is seen: ${wide}, the narrow one: ${narrow}`);
    }
  }
  for (const { name, letters, wide, high, left, right, role, words } of seen.pictures) {
    if (wide < 200 || high < 60) tell(page, where, `${name} is ${wide} × ${high}`);
    if (left < 0 || right > seen.room + 0.5) tell(page, where, `${name} reaches from ${left} to ${right} of ${seen.room} px`);
    if (letters < leastLetters(width)) tell(page, where, `${name} has letters of ${letters.toFixed(1)} px, under ${leastLetters(width)}`);
    if (role !== "img" || words.length < 20) tell(page, where, `${name} says nothing to those who cannot see it`);
  }
  for (const swiped of seen.swiped) tell(page, where, `has to be swiped: ${swiped}`);
  for (const { caption, columns, right, folds } of seen.tables) {
    if (right > seen.room + 0.5) tell(page, where, `the table "${caption}" reaches to ${right} of ${seen.room} px`);
    const most = folds && isFolded ? 3 : Infinity;
    if (columns.length < 2 || columns.length > most) tell(page, where, `the table "${caption}" shows ${columns.join(", ")}`);
  }
  for (const name of names) if (!seen.text.includes(name)) tell(page, where, `does not show ${name}`);
  // Put in from outside: the page itself holds no script.
  await tab.evaluate(axe);
  const found = await tab.evaluate((rules) => globalThis.axe.run(document, { runOnly: { type: "tag", values: rules } }), RULES);
  if (found.passes.length < 20) tell(page, where, `only ${found.passes.length} accessibility rules were tried`);
  for (const violation of found.violations) {
    tell(page, where, `${violation.id}: ${violation.help}: ${violation.nodes.slice(0, 3).map((node) => node.html.slice(0, 120)).join(" | ")}`);
  }
  if (isFolded) await opensRows(tab, page, where, seen.tables.filter(({ folds }) => folds).length);
  await tab.close();
}

// Opens every row of the tables, the first one by key, and looks for what is then to be seen.
async function opensRows(tab, page, where, tables) {
  if (tables === 0) tell(page, where, "has no table whose rows open");
  const closed = await tab.evaluate(() => [...document.querySelectorAll("table details dd")].filter((figure) => figure.checkVisibility()).length);
  if (closed > 0) tell(page, where, `shows ${closed} figures of rows that nobody opened`);
  await tab.focus("table summary");
  await tab.keyboard.press("Enter");
  if (!(await tab.evaluate(() => document.querySelector("table details").open))) tell(page, where, "a row does not open by key");
  const { hidden, over, outside } = await tab.evaluate(() => {
    for (const details of document.querySelectorAll("details")) details.open = true;
    const figures = [...document.querySelectorAll("table details :is(dt, dd)")];
    const root = document.documentElement;
    const reaches = (element) => element.getBoundingClientRect().right > root.clientWidth + 0.5;
    return {
      hidden: figures.filter((figure) => !figure.checkVisibility()).length + (figures.length === 0 ? 1 : 0),
      over: root.scrollWidth - root.clientWidth,
      outside: figures.filter(reaches).map((figure) => figure.textContent),
    };
  });
  if (hidden > 0) tell(page, where, `${hidden} figures of open rows are not shown`);
  if (over > 0) tell(page, where, `scrolls sideways by ${over} px when its rows are open`);
  if (outside.length > 0) tell(page, where, `open rows reach over the edge: ${outside.slice(0, 3).join(", ")}`);
}

async function onPaper(browser, page, paper) {
  const [width, height] = PAPERS[paper];
  const tab = await open(browser, page, Math.round((width - 24) * MM));
  await tab.emulateMediaType("print");
  const answer = await tab.evaluate(() => document.querySelector(".answer-side").getBoundingClientRect().height);
  const room = (height - 22) * MM;
  // Paper cannot be tapped: every cell is there, and the wide picture of each chart that is.
  const missing = await tab.evaluate(() => {
    const isSeen = (element) => element.getClientRects().length > 0;
    const cells = [...document.querySelectorAll("table :is(th, td)")].filter((cell) => !isSeen(cell));
    const narrow = [...document.querySelectorAll("figure .chart-narrow, table details")].filter(isSeen);
    return [...cells, ...narrow].map((element) => element.outerHTML.slice(0, 60));
  });
  if (missing.length > 0) tell(page, paper, `shows what a phone shows: ${missing.slice(0, 3).join(" | ")}`);
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
