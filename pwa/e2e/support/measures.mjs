// What look.md asks of every screen and axe does not measure: targets for a thumb,
// room for large and for widely set text, focus in view, and rest for whoever asks
// for it. Each gives a line for every finding.
import { unroll } from "./audit.mjs";
import { focusIn } from "./focus.mjs";

const LEAST_TARGET = 56, LEAST_GAP = 8; // px

/** In the page: targets that are too small for a thumb or too near to another. */
function targetsOf([least, gap]) {
  const wanted = "a[href], button, input, select, textarea, summary, [role=button], [tabindex='0']";
  /** What shows and takes a touch: not what comes with the focus alone, as the way past the head, nor the plan's plants, whose drawing is touched as a whole. */
  const seen = (element) => element.checkVisibility({ visibilityProperty: true }) && element.getBoundingClientRect().width > 1 && getComputedStyle(element).pointerEvents !== "none";
  /** In a sentence a link is as high as its line (WCAG 2.2, 2.5.8: the exception for inline targets). */
  const inSentence = (element) => element.matches("a") && getComputedStyle(element).display === "inline" && element.parentElement.textContent.trim().length > element.textContent.trim().length;
  const felt = (element) => {
    const box = element.closest("label") ?? element;
    const { left, top, right, bottom } = box.getBoundingClientRect();
    return { box, left, top, right, bottom, words: (box.textContent.trim() || box.getAttribute("aria-label") || element.name || element.tagName).replace(/\s+/g, " ").slice(0, 40) };
  };
  const all = [...document.querySelectorAll(wanted)].filter((element) => !element.disabled && !element.closest("[inert]") && !element.closest("[role=application]") && !inSentence(element)).map(felt).filter(({ box }) => seen(box));
  const targets = all.filter(({ box }, i) => all.findIndex((other) => other.box === box) === i);
  const small = targets.filter(({ left, top, right, bottom }) => Math.min(right - left, bottom - top) < least - 0.5)
    .map(({ left, top, right, bottom, words }) => `target of ${Math.round(right - left)}×${Math.round(bottom - top)}: ${words}`);
  /** What is left between two along an axis when each gives up what it has above the least. */
  const between = (a, b, from, to) => Math.max(b[from] - a[to], a[from] - b[to]) + Math.max(0, a[to] - a[from] - least) / 2 + Math.max(0, b[to] - b[from] - least) / 2;
  const near = targets.flatMap((a, i) => targets.slice(i + 1).filter((b) =>
    !a.box.contains(b.box) && !b.box.contains(a.box) && Math.max(between(a, b, "left", "right"), between(a, b, "top", "bottom")) < gap - 0.5)
    .map((b) => `${a.words} and ${b.words} are too near`));
  return [...small, ...near];
}

/** Targets as a thumb finds them, over the whole length of the page. */
export async function targets(page) {
  const size = page.viewportSize();
  await unroll(page);
  const found = await page.evaluate(targetsOf, [LEAST_TARGET, LEAST_GAP]);
  await page.setViewportSize(size);
  return found;
}

/** In the page: what is wider than the screen, and words that their box cuts. */
function cutIn() {
  const { documentElement: root } = document;
  const scrolls = (element) => /auto|scroll/.test(getComputedStyle(element).overflowX);
  const inScroller = (element) => element !== root && element !== document.body && (scrolls(element) || inScroller(element.parentElement));
  const name = (element) => `${element.tagName.toLowerCase()}.${element.getAttribute("class") ?? ""} ${element.textContent.trim().replace(/\s+/g, " ").slice(0, 40)}`;
  const all = [...document.body.querySelectorAll("*")].filter((element) => element.checkVisibility({ visibilityProperty: true }) && !element.closest("svg") && !inScroller(element));
  const hidden = (element) => element.getBoundingClientRect().width <= 1 || element.closest(".unseen");
  const wide = root.scrollWidth > root.clientWidth ? all.filter((element) => element.getBoundingClientRect().right > root.clientWidth + 0.5) : [];
  const cut = all.filter((element) => !hidden(element) && /hidden|clip/.test(getComputedStyle(element).overflow) && (element.scrollWidth > element.clientWidth + 1 || element.scrollHeight > element.clientHeight + 1) && getComputedStyle(element).textOverflow !== "ellipsis" && element.textContent.trim() !== "");
  return [...wide.slice(-2).map((element) => `${root.scrollWidth} px wide in ${root.clientWidth}: ${name(element)}`), ...cut.slice(0, 3).map((element) => `cut: ${name(element)}`)];
}

/** As who sees little sets a page: twice the type (WCAG 2.2, 1.4.4), or lines, words and letters apart (1.4.12). */
const settings = {
  "twice the type": "html { font-size: calc(2 * var(--type)) !important; }",
  "text set apart": "* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } p { margin-block-end: 2em !important; }",
};

const NARROW = { width: 320, height: 640 }; // four times the size on a screen 1280 wide (1.4.10)

const drawn = (page) => page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));

/** Room for text as people set it, and for a narrow screen. */
export async function room(page) {
  const found = [];
  for (const [name, content] of Object.entries(settings)) {
    const style = await page.evaluateHandle((css) => {
      const sheet = new CSSStyleSheet();
      sheet.replaceSync(css);
      document.adoptedStyleSheets.push(sheet);
      return sheet;
    }, content);
    await drawn(page);
    found.push(...(await page.evaluate(cutIn)).map((line) => `${name}: ${line}`));
    await style.evaluate((sheet) => (document.adoptedStyleSheets = document.adoptedStyleSheets.filter((other) => other !== sheet)));
  }
  const size = page.viewportSize();
  await page.setViewportSize(NARROW);
  await drawn(page);
  found.push(...(await page.evaluate(cutIn)).map((line) => `${NARROW.width} wide: ${line}`));
  await page.setViewportSize(size);
  return found;
}

const FARTHEST = 250; // presses of Tab: more than any screen of the demo garden has stops

/** The way of the Tab key through a screen: a ring around each stop, and each in sight. */
export async function focus(page) {
  const found = [];
  await page.evaluate(() => (document.activeElement?.blur?.(), scrollTo(0, 0)));
  for (let presses = 0; presses < FARTHEST; presses++) {
    await page.keyboard.press("Tab");
    const wrong = await page.evaluate(focusIn);
    if (wrong === null && presses > 0) return found;
    if (wrong) found.push(wrong);
  }
  return [...found, `the Tab key does not come through in ${FARTHEST} presses`];
}

/** In the page: what would still move. */
function movingIn() {
  const LONGEST_S = 0.02;
  const longest = (list) => Math.max(...list.split(",").map((time) => parseFloat(time) * (time.includes("ms") ? 0.001 : 1)));
  return [...document.querySelectorAll("*")].filter((element) => {
    const { transitionDuration, animationName, animationDuration } = getComputedStyle(element);
    return longest(transitionDuration) > LONGEST_S || (animationName !== "none" && longest(animationDuration) > LONGEST_S);
  }).slice(0, 3).map((element) => `moves: ${element.tagName.toLowerCase()}.${element.getAttribute("class") ?? ""}`);
}

/** Nothing moves for who asked for rest. */
export async function rest(page) {
  await page.emulateMedia({ reducedMotion: "reduce" });
  const found = await page.evaluate(movingIn);
  await page.emulateMedia({ reducedMotion: null });
  return found;
}
