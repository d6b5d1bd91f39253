// SPDX-License-Identifier: Apache-2.0
// Looks at a page in Debian's Chromium and prints what it saw as JSON, for the tests to judge:
//   node look.js TASK FILE [ARGUMENT]
// The network is off, every request is told, and so is every line of the console.
"use strict";
const { chromium } = require("playwright-core");
const fs = require("fs");
const { pathToFileURL } = require("url");

const [task, file, argument] = process.argv.slice(2);
const address = pathToFileURL(fs.realpathSync(file)).href;
const sizes = {
  desktop: { viewport: { width: 1280, height: 900 } },
  phone: { viewport: { width: 390, height: 844 }, deviceScaleFactor: 3, hasTouch: true,
    isMobile: true },
  projector: { viewport: { width: 1024, height: 768 } },
  wide: { viewport: { width: 1400, height: 1800 } },
};
const seen = { console: [], requests: [] };

const open = async (browser, size) => {
  const context = await browser.newContext({ ...sizes[size], offline: true });
  const page = await context.newPage();
  page.setDefaultTimeout(60000);
  page.on("console", (message) => seen.console.push(message.text()));
  page.on("pageerror", (error) => seen.console.push(String(error)));
  page.on("request", (request) => seen.requests.push(request.url().slice(0, 80)));
  await page.goto(address);
  if (await page.locator("#map").count() > 0) {
    await page.waitForSelector("html[data-ready]", { state: "attached" });
  }
  return page;
};
const text = (page, selector) => page.locator(selector).innerText();
const viewBox = (page) => page.locator("#map").getAttribute("viewBox");
const frame = (page) => page.evaluate(() => new Promise((done) =>
  requestAnimationFrame(() => requestAnimationFrame(done))));

// The colours of the picture: how many, and how many pixels are painted at all.
const picture = (page) => page.evaluate(() => {
  const canvas = document.getElementById("picture");
  const copy = new OffscreenCanvas(canvas.width, canvas.height)
    .getContext("2d", { willReadFrequently: true });
  copy.drawImage(canvas, 0, 0);
  const { data } = copy.getImageData(0, 0, canvas.width, canvas.height);
  const colours = new Map();
  for (let i = 0; i < data.length; i += 4) {
    const colour = data[i + 3] === 0 ? "clear" : `${data[i]},${data[i + 1]},${data[i + 2]}`;
    colours.set(colour, (colours.get(colour) || 0) + 1);
  }
  return { colours: colours.size, clear: colours.get("clear") || 0, pixels: data.length / 4 };
});

// Boxes of visible text that lie over one another: [[text, text], ...]. Only text counts, by the
// lines that it is set in; a mark drawn over the map may cover the map.
const overlaps = (page) => page.evaluate(() => {
  const boxes = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const parent = node.parentElement;
    if (!node.data.trim() || parent.closest("script, style, title, [hidden], [display=none]")) continue;
    if (!parent.checkVisibility({ checkVisibilityCSS: true })) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const map = parent.closest("#map");  // what lies beyond the map's frame is cut off by it
    const frame = map && map.getBoundingClientRect();
    for (const box of range.getClientRects()) {
      const cut = frame && (box.right < frame.left || box.left > frame.right ||
        box.bottom < frame.top || box.top > frame.bottom);
      if (box.width > 1 && box.height > 1 && !cut) {
        boxes.push({ words: node.data.trim().slice(0, 40), parent, box });
      }
    }
  }
  const found = [];
  boxes.sort((a, b) => a.box.top - b.box.top);
  boxes.forEach((a, i) => {
    for (let k = i + 1; k < boxes.length && boxes[k].box.top < a.box.bottom; k++) {
      const b = boxes[k];
      if (a.parent === b.parent) continue;
      const wide = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
      const high = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
      const least = Math.min(a.box.height, b.box.height);
      if (wide > 1.5 && high > 0.35 * least) found.push([a.words, b.words]);
    }
  });
  return found;
});

// Every piece of text, and what screen readers and the pointer are told, but for names of keys,
// layers and files, and what is marked as another language.
const texts = (page) => page.evaluate(() => {
  const found = [document.title];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const named = "#sources td, #sources tbody th, #assumptions td, #assumptions tbody th, " +
    "#warnings li, code, [lang]";
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const parent = node.parentElement;
    const inside = parent.closest("script, style") || parent.closest(`:is(${named}):not(html)`);
    if (node.data.trim() && !inside) found.push(node.data.trim());
  }
  for (const part of document.body.querySelectorAll("[aria-label], [alt], [title]")) {
    for (const name of ["aria-label", "alt", "title"]) {
      if (part.getAttribute(name)) found.push(part.getAttribute(name));
    }
  }
  return found;
});

// A page as wide as the window: nothing to scroll sideways.
const sideways = (page) => page.evaluate(() => document.documentElement.scrollWidth -
  document.documentElement.clientWidth);

const tasks = {
  // Every quantity, by its button.
  async quantities(browser) {
    const page = await open(browser, "desktop");
    seen.quantities = [];
    for (const button of await page.locator(".choices button").all()) {
      await button.click();
      await frame(page);
      seen.quantities.push({ key: await button.getAttribute("data-map"),
        pressed: await page.locator(".choices button[aria-pressed=true]").allInnerTexts(),
        legends: await page.locator(".legends > [data-map]:visible").count(),
        ...await picture(page) });
    }
  },
  // What the page says of places, given as shares of the map from its north-west corner.
  async places(browser) {
    const page = await open(browser, "desktop");
    seen.places = [];
    for (const [u, v] of JSON.parse(argument)) {
      // Browsers tell the place of a click in whole pixels: the share that is clicked is told, too.
      const clicked = await page.locator("#map").evaluate((map, [x, y]) => {
        const at = map.getBoundingClientRect();
        const clientX = Math.floor(at.left + x * at.width);
        const clientY = Math.floor(at.top + y * at.height);
        map.dispatchEvent(new MouseEvent("click", { bubbles: true, clientX, clientY }));
        return [(clientX - at.left) / at.width, (clientY - at.top) / at.height];
      }, [u, v]);
      await page.waitForFunction(() => document.getElementById("why").children.length > 0);
      await frame(page);
      seen.places.push({ clicked,
        sample: Number(await page.locator("#why").getAttribute("data-sample")),
        heading: await text(page, "#why h3"),
        reason: await page.locator("#why p").first().innerText(),
        rules: await page.locator("#why li").allInnerTexts(),
        values: Object.fromEntries(await page.locator("#why tr").evaluateAll((rows) =>
          rows.map((row) => [row.cells[0].textContent, row.cells[1].textContent]))),
        read: await text(page, "#read-out") });
    }
  },
  // Wheel and drag with the mouse.
  async mouse(browser) {
    const page = await open(browser, "desktop");
    const map = page.locator("#map");
    await map.scrollIntoViewIfNeeded();
    const box = await map.boundingBox();
    const at = [box.x + box.width * 0.4, box.y + box.height * 0.6];
    await page.mouse.move(...at);
    seen.views = [await viewBox(page)];
    await page.mouse.wheel(0, -240);  // not asked for yet: the page may scroll, the map stays
    await frame(page);
    seen.views.push(await viewBox(page));
    await map.scrollIntoViewIfNeeded();
    await map.focus();
    const now = await map.boundingBox();
    await page.mouse.move(now.x + now.width * 0.4, now.y + now.height * 0.6);
    seen.before = await text(page, "#read-out");
    await page.mouse.wheel(0, -400);
    await page.waitForTimeout(200);
    await frame(page);
    seen.views.push(await viewBox(page));
    seen.after = await text(page, "#read-out");
    await page.mouse.down();
    await page.mouse.move(now.x + now.width * 0.3, now.y + now.height * 0.6, { steps: 5 });
    await page.mouse.up();
    await frame(page);
    seen.views.push(await viewBox(page));
    seen.bars = await page.locator("#map .scale-bar:not([display]) text").allTextContents();
    await page.locator("#zoom-all").click();
    await frame(page);
    seen.views.push(await viewBox(page));
  },
  // Everything by the keyboard alone: to the map, about it, into a site and to its sheet and back.
  async keys(browser) {
    const page = await open(browser, "desktop");
    const focused = () => page.evaluate(() => {
      const e = document.activeElement;
      return e.id || e.getAttribute("data-map") || e.className || e.tagName;
    });
    const tabTo = async (wanted) => {
      for (let i = 0; i < 200; i++) {
        await page.keyboard.press("Tab");
        seen.tour.push(await focused());
        if (seen.tour.at(-1) === wanted) return;
      }
    };
    seen.tour = [];
    await tabTo("nitrogen");
    await page.keyboard.press("Enter");
    seen.pressed = await page.locator(".choices button[aria-pressed=true]").allInnerTexts();
    await tabTo("map");
    seen.views = [await viewBox(page)];
    for (const key of ["+", "+", "ArrowLeft", "ArrowUp", "-", "0"]) {
      await page.keyboard.press(key);
      await frame(page);
      seen.views.push(await viewBox(page));
    }
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.getElementById("why").children.length > 0);
    seen.why = await text(page, "#why");
    await page.keyboard.press("Tab");
    seen.site = await focused();
    seen.outline = await page.evaluate(() =>
      getComputedStyle(document.activeElement.querySelector(".edge")).strokeWidth);
    await page.keyboard.press("Enter");
    seen.sheet = await page.evaluate(() => location.hash);
    await page.locator(`${seen.sheet} a[href^="#on-map-"]`).first().focus();
    await page.keyboard.press("Enter");
    seen.back = await focused();
  },
  // Taps, a drag and a pinch on a phone.
  async touch(browser) {
    const page = await open(browser, "phone");
    const map = page.locator("#map");
    await map.scrollIntoViewIfNeeded();
    seen.sideways = await sideways(page);
    seen.small = await page.locator("button").evaluateAll((buttons) => buttons.map((b) =>
      b.getBoundingClientRect()).filter((b) => b.width < 44 || b.height < 44).length);
    await page.locator(".choices button").nth(1).tap();
    seen.pressed = await page.locator(".choices button[aria-pressed=true]").allInnerTexts();
    const box = await map.boundingBox();
    await page.touchscreen.tap(box.x + box.width * 0.5, box.y + box.height * 0.55);
    await page.waitForFunction(() => document.getElementById("why").children.length > 0);
    seen.why = await text(page, "#why");
    await map.scrollIntoViewIfNeeded();
    const client = await page.context().newCDPSession(page);
    const now = await map.boundingBox();
    const at = (u, v, id) => ({ x: now.x + u * now.width, y: now.y + v * now.height, id });
    const touch = (type, touchPoints) => client.send("Input.dispatchTouchEvent",
      { type, touchPoints });
    const glide = async (from) => {
      await touch("touchStart", from(0));
      for (let i = 1; i <= 8; i++) await touch("touchMove", from(i / 8));
      await touch("touchEnd", []);
      await frame(page);
      seen.views.push(await viewBox(page));
    };
    seen.views = [await viewBox(page)];
    await glide((t) => [at(0.45 - 0.2 * t, 0.5, 0), at(0.55 + 0.2 * t, 0.5, 1)]);  // pinch
    await glide((t) => [at(0.6 - 0.3 * t, 0.5, 0)]);  // drag
    seen.overlaps = await overlaps(page);
  },
  // Text over text at three sizes, with every quantity and some zooms.
  async overlaps(browser) {
    seen.overlaps = {};
    seen.sideways = {};
    for (const size of ["desktop", "phone", "projector"]) {
      const page = await open(browser, size);
      seen.sideways[size] = await sideways(page);
      seen.overlaps[size] = await overlaps(page);
      for (let i = 0; i < 4; i++) {
        await page.locator("#zoom-in").click();
        await frame(page);
        seen.overlaps[size].push(...await overlaps(page));
      }
      await page.context().close();
    }
  },
  // What became of script and style that are not the page's own.
  async strangers(browser) {
    const page = await open(browser, "desktop");
    seen.title = await page.title();
    seen.hidden = await page.locator("h1").first().isHidden();
    seen.ready = await page.locator("html[data-ready]").count();
    await page.locator("#stranger").click();
    seen.clicked = await page.title();
  },
  async axe(browser) {
    const source = fs.readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
    seen.violations = {};
    for (const size of ["desktop", "phone"]) {
      const page = await open(browser, size);
      if (await page.locator("#map").count() > 0) {
        await page.locator("#map").press("Enter");
        await page.waitForFunction(() => document.getElementById("why").children.length > 0);
      }
      await page.evaluate(source);
      const result = await page.evaluate(() => axe.run(document, { resultTypes: ["violations"] }));
      seen.violations[size] = result.violations.map((v) => ({ id: v.id, help: v.help,
        nodes: v.nodes.slice(0, 3).map((n) => n.html.slice(0, 160) + " " + n.failureSummary) }));
      seen.passed = result.passes.map((p) => p.id);
      await page.context().close();
    }
  },
  // Text over text at three sizes, and whether the page scrolls sideways, as it is opened.
  async fits(browser) {
    seen.overlaps = {};
    seen.sideways = {};
    for (const size of Object.keys(sizes)) {
      const page = await open(browser, size);
      seen.sideways[size] = await sideways(page);
      seen.overlaps[size] = await overlaps(page);
      await page.context().close();
    }
  },
  // Every piece of text of the page, with what screen readers and the pointer are told; of a page
  // with a map after a place was asked about with every quantity shown.
  async texts(browser) {
    const page = await open(browser, "desktop");
    const map = page.locator("#map");
    seen.texts = await texts(page);
    for (const button of await page.locator(".choices button").all()) {
      await button.click();
      const box = await map.boundingBox();
      await map.click({ position: { x: box.width * 0.5, y: box.height * 0.55 } });
      await frame(page);
      seen.texts.push(...await texts(page));
    }
  },
  // The folds of the site sheets: which are open as the page comes, after a box on the map was
  // clicked, after a key on the fold itself, with a sheet in the address, and after printing.
  async folds(browser) {
    const page = await open(browser, "desktop");
    const openOnes = () => page.locator(".site-sheet > details").evaluateAll((folds) =>
      folds.filter((fold) => fold.open).map((fold) => fold.parentElement.id));
    seen.atFirst = await openOnes();
    await page.locator("#on-map-S03 rect").click();
    seen.clicked = await openOnes();
    await frame(page);
    seen.top = await page.locator("#site-S03").evaluate((e) => e.getBoundingClientRect().top);
    const summary = page.locator("#site-S02 > details > summary");
    seen.said = await summary.innerText();
    await summary.focus();
    await page.keyboard.press("Enter");
    seen.byKey = await openOnes();
    await page.keyboard.press("Space");
    seen.bySpace = await openOnes();
    await page.pdf({ path: argument, format: "Letter" });
    seen.printed = await openOnes();
    const other = await page.context().newPage();
    await other.goto(`${address}#site-S04`);
    await other.waitForSelector("html[data-ready]", { state: "attached" });
    seen.addressed = await other.locator("#site-S04 > details").evaluate((fold) => fold.open);
    const phone = await open(browser, "phone");
    const height = () => phone.evaluate(() => document.documentElement.scrollHeight);
    seen.folded = await height();
    await phone.evaluate(() => document.querySelectorAll(".site-sheet > details").forEach(
      (fold) => { fold.open = true; }));
    seen.unfolded = await height();
    seen.fingers = await phone.locator("summary").evaluateAll((all) =>
      all.map((one) => one.getBoundingClientRect().height));
  },
  // Every text that can be read, for what it says and in which language.
  async rules(browser) {
    const page = await open(browser, "desktop");
    seen.text = await page.locator("body").innerText();
    seen.markup = await page.evaluate(() => ({
      scripts: document.scripts.length,
      strange: [...document.querySelectorAll("img:not([src^='data:']), iframe, object, form, " +
        "link, base, [onerror], [onload], [onclick]")].map((e) => e.outerHTML.slice(0, 100)),
      titles: document.title,
    }));
  },
  // How long it takes until the map can be read, and how long a frame takes while it is dragged.
  async pace(browser) {
    const context = await browser.newContext({ ...sizes.desktop, offline: true });
    const page = await context.newPage();
    const start = Date.now();
    await page.goto(address);
    await page.waitForFunction(() => !document.getElementById("still"));
    seen.shown = Date.now() - start;
    await page.waitForSelector("html[data-ready]", { state: "attached" });
    seen.ready = Date.now() - start;
    await page.locator("#zoom-in").click();
    await page.locator("#zoom-in").click();
    seen.frames = await page.evaluate(async () => {
      const map = document.getElementById("map");
      const box = map.getBoundingClientRect();
      const send = (type, x) => map.dispatchEvent(new PointerEvent(type, { pointerId: 1,
        bubbles: true, clientX: box.left + x, clientY: box.top + 200 }));
      map.setPointerCapture = () => {};
      send("pointerdown", 300);
      const times = [];
      let last = performance.now();
      for (let i = 0; i < 40; i++) {
        send("pointermove", 300 - 3 * i);
        await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
        times.push(performance.now() - last);
        last = performance.now();
      }
      send("pointerup", 200);
      return times.sort((a, b) => a - b).map((t) => Math.round(t));
    });
  },
  // The printed pages, into the file that is named; on another paper: "FILE|A4".
  async print(browser) {
    const page = await open(browser, "desktop");
    const [path, format = "Letter"] = argument.split("|");
    await page.pdf({ path, preferCSSPageSize: false, format, printBackground: false });
  },
  // A picture at a size: "wide|#the-map|FILE" of a part, "wide||FILE" of the window as it opens,
  // "phone|>#the-map|FILE" of the window with the part at its top.
  async picture(browser) {
    const [size, selector, to] = argument.split("|");
    const page = await open(browser, size);
    if (selector.startsWith(">")) {
      await page.locator(selector.slice(1)).evaluate((part) => part.scrollIntoView());
      await frame(page);
      await page.screenshot({ path: to });
    } else if (selector) {
      await page.locator(selector).screenshot({ path: to });
    } else {
      await page.screenshot({ path: to });
    }
  },
};

(async () => {
  const browser = await chromium.launch({ executablePath: "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu"] });
  try {
    await tasks[task](browser);
    console.log(JSON.stringify(seen));
  } finally {
    await browser.close();
  }
})();
