"use strict";
(() => {
  const facts = JSON.parse(document.getElementById("map-data").textContent);
  const svg = document.getElementById("map");
  const readOut = document.getElementById("read-out");
  const cross = document.getElementById("cross");
  const whole = svg.viewBox.baseVal;
  const full = { x: 0, y: 0, w: whole.width, h: whole.height };
  const deepest = 16;
  let zoom = 1;
  let centre = { x: full.w / 2, y: full.h / 2 };
  let shown = "suitability";
  let pixelSize = 0;

  // --- values -------------------------------------------------------------------------------------
  const unpack = (text) => {
    const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
    if (bytes[0] === 0) return bytes.subarray(1);
    const codes = new Uint8Array(facts.cols * facts.rows);
    for (let i = 1, at = 0; i < bytes.length; i += 2) {
      codes.fill(bytes[i + 1], at, at + bytes[i]);
      at += bytes[i];
    }
    return codes;
  };
  for (const map of Object.values(facts.maps)) map.codes = unpack(map.codes);

  const value = (map, code) => map.low + (code - facts.first) / (255 - facts.first) *
      (map.high - map.low);
  const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
  const months = ["January", "February", "March", "April", "May", "June", "July", "August",
    "September", "October", "November", "December"];
  const date = (day) => {
    let left = (Math.round(day) - 1) % 365 + 1;
    let month = 0;
    while (left > monthDays[month]) left -= monthDays[month++];
    return left + " " + months[month];
  };
  const words = (map, sample) => {
    const code = map.codes[sample];
    if (map.classes) return facts.reasons[code] || "";
    if (code === 0) return "outside the area";
    if (code === 1) return "land";
    if (code === 2) return "not known";
    if (code === 3) return map.special;
    const text = value(map, code).toFixed(map.decimals);
    return map.unit ? text + " " + map.unit : text;
  };
  const season = (sample) => {
    const first = facts.maps.outplant.codes[sample];
    const last = facts.maps.last_haul.codes[sample];
    return first < facts.first || last < facts.first ? "" :
      date(value(facts.maps.outplant, first)) + " to " + date(value(facts.maps.last_haul, last));
  };

  // --- positions ----------------------------------------------------------------------------------
  const lonLat = (p) => {
    const u = p.x / full.w;
    const v = p.y / full.h;
    const [nw, ne, se, sw] = facts.corners;
    return [0, 1].map((i) => (1 - v) * ((1 - u) * nw[i] + u * ne[i]) +
        v * ((1 - u) * sw[i] + u * se[i]));
  };
  const minutes = (degrees, marks) => {
    const parts = Math.round(Math.abs(degrees) * 60000);
    const rest = ((parts % 60000) / 1000).toFixed(3).padStart(6, "0");
    return Math.floor(parts / 60000) + "\u00b0 " + rest + "\u2032 " + marks[degrees < 0 ? 1 : 0];
  };

  const line = (tag, text) => {
    const element = document.createElement(tag);
    element.textContent = text;
    return element;
  };
  const read = (p) => {
    const col = Math.floor(p.x / full.w * facts.cols);
    const row = Math.floor(p.y / full.h * facts.rows);
    if (col < 0 || row < 0 || col >= facts.cols || row >= facts.rows) return;
    const sample = row * facts.cols + col;
    const map = facts.maps[shown];
    const [lon, lat] = lonLat(p);
    const parts = [line("b", map.title + ": " + words(map, sample))];
    if (shown === "season" && season(sample)) parts.push(line("span", season(sample)));
    if (!map.classes && map.codes[sample] > 1) {
      parts.push(line("span", "Reason: " + words(facts.maps.reason, sample)));
    }
    parts.push(line("span", minutes(lat, "NS") + ", " + minutes(lon, "EW")));
    parts.push(line("span", lat.toFixed(5) + ", " + lon.toFixed(5)));
    readOut.replaceChildren(...parts);
    place(cross, p.x, p.y, pixelSize);
    cross.dataset.x = p.x;
    cross.dataset.y = p.y;
    cross.removeAttribute("hidden");
  };

  // --- the view -----------------------------------------------------------------------------------
  const place = (group, x, y, scale) =>
    group.setAttribute("transform", `translate(${x} ${y}) scale(${scale})`);
  const view = () => {
    const w = full.w / zoom;
    const h = full.h / zoom;
    centre.x = Math.min(Math.max(centre.x, w / 2), full.w - w / 2);
    centre.y = Math.min(Math.max(centre.y, h / 2), full.h - h / 2);
    return { x: centre.x - w / 2, y: centre.y - h / 2, w, h };
  };
  const draw = (paperPixel) => {
    const v = view();
    svg.setAttribute("viewBox", `${v.x} ${v.y} ${v.w} ${v.h}`);
    const box = svg.getBoundingClientRect();
    pixelSize = paperPixel || Math.max(v.w / box.width, v.h / box.height);
    for (const group of svg.querySelectorAll(".px")) {
      const x = Number(group.dataset.x);
      const y = Number(group.dataset.y);
      const pin = group.dataset.pin;
      if (pin === "bar") place(group, x, y, pixelSize * zoom);
      else if (pin === "top") place(group, x, v.y, pixelSize);
      else if (pin === "left") place(group, v.x, y, pixelSize);
      else if (pin === "corner") place(group, v.x + v.w - 30 * pixelSize, v.y + 62 * pixelSize,
        pixelSize);
      else place(group, x, y, pixelSize);
    }
    for (const bar of svg.querySelectorAll(".scale-bar")) {
      const here = Number(bar.dataset.zoom) === zoom;
      bar.toggleAttribute("hidden", !here);
      if (here) place(bar, v.x, v.y, 1 / zoom);
    }
    svg.classList.toggle("near", zoom > 1);
    document.getElementById("zoom-in").disabled = zoom >= deepest;
    document.getElementById("zoom-out").disabled = zoom <= 1;
    document.getElementById("zoom-all").disabled = zoom <= 1;
  };
  const atPointer = (event) => {
    const point = new DOMPoint(event.clientX, event.clientY)
      .matrixTransform(svg.getScreenCTM().inverse());
    return { x: point.x, y: point.y };
  };
  // The place under the pointer stays under it.
  const zoomBy = (factor, about) => {
    const next = Math.min(Math.max(zoom * factor, 1), deepest);
    if (next === zoom) return;
    const held = about || centre;
    centre = { x: held.x + (centre.x - held.x) * zoom / next,
      y: held.y + (centre.y - held.y) * zoom / next };
    zoom = next;
    draw();
  };
  document.getElementById("zoom-in").addEventListener("click", () => zoomBy(2));
  document.getElementById("zoom-out").addEventListener("click", () => zoomBy(0.5));
  document.getElementById("zoom-all").addEventListener("click", () => zoomBy(1 / deepest));

  // A wheel scrolls the page; with the control key, as pinching on a touch pad sends it, it zooms.
  let turned = 0;
  svg.addEventListener("wheel", (event) => {
    if (!event.ctrlKey && !event.metaKey) return;
    event.preventDefault();
    turned += event.deltaY;
    if (Math.abs(turned) < 40) return;
    zoomBy(turned < 0 ? 2 : 0.5, atPointer(event));
    turned = 0;
  }, { passive: false });

  const fingers = new Map();
  let spread = 0;
  let dragged = false;
  const between = () => {
    const [a, b] = [...fingers.values()];
    return { d: Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY),
      clientX: (a.clientX + b.clientX) / 2, clientY: (a.clientY + b.clientY) / 2 };
  };
  svg.addEventListener("pointerdown", (event) => {
    fingers.set(event.pointerId, event);
    dragged = false;
    if (fingers.size === 2) spread = between().d;
  });
  svg.addEventListener("pointermove", (event) => {
    const before = fingers.get(event.pointerId);
    if (!before) {
      if (event.pointerType === "mouse") read(atPointer(event));
      return;
    }
    fingers.set(event.pointerId, event);
    if (fingers.size === 2) {
      const now = between();
      if (now.d > spread * 1.5 || now.d < spread / 1.5) {
        zoomBy(now.d > spread ? 2 : 0.5, atPointer(now));
        spread = now.d;
      }
      dragged = true;
    } else if (zoom > 1) {
      const moved = Math.hypot(event.clientX - before.clientX, event.clientY - before.clientY);
      if (moved > 0) {
        centre.x -= (event.clientX - before.clientX) * pixelSize;
        centre.y -= (event.clientY - before.clientY) * pixelSize;
        dragged = dragged || moved > 3;
        draw();
      }
    }
  });
  for (const end of ["pointerup", "pointercancel", "pointerleave"]) {
    svg.addEventListener(end, (event) => fingers.delete(event.pointerId));
  }
  svg.addEventListener("click", (event) => {
    if (dragged) event.preventDefault();
    else read(atPointer(event));
  });
  const steps = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  svg.addEventListener("keydown", (event) => {
    if (event.target !== svg) return;
    if (event.key === "+" || event.key === "=") zoomBy(2);
    else if (event.key === "-") zoomBy(0.5);
    else if (steps[event.key] && zoom > 1) {
      centre.x += steps[event.key][0] * full.w / zoom / 8;
      centre.y += steps[event.key][1] * full.h / zoom / 8;
      draw();
      event.preventDefault();
    }
  });

  // --- what the map shows ------------------------------------------------------------------------
  const buttons = [...document.querySelectorAll(".choices button")];
  const choose = (key) => {
    shown = key;
    for (const button of buttons) {
      button.setAttribute("aria-pressed", String(button.dataset.map === key));
    }
    for (const part of document.querySelectorAll("#map > [data-map], .legends > [data-map]")) {
      part.toggleAttribute("hidden", part.dataset.map !== key);
    }
    if (!cross.hasAttribute("hidden")) {
      read({ x: Number(cross.dataset.x), y: Number(cross.dataset.y) });
    }
  };
  for (const button of buttons) button.addEventListener("click", () => choose(button.dataset.map));

  // --- sites: rows and the map light each other ----------------------------------------------------
  for (const site of svg.querySelectorAll(".site")) {
    const name = site.id.slice("on-map-".length);
    const link = document.querySelector(`a.to-sheet[href="#site-${name}"]`);
    const row = link && link.closest("tr");
    const light = (on) => {
      site.classList.toggle("lit", on);
      if (row) row.classList.toggle("lit", on);
    };
    for (const element of row ? [site, row] : [site]) {
      element.addEventListener("pointerenter", () => light(true));
      element.addEventListener("pointerleave", () => light(false));
      element.addEventListener("focusin", () => light(true));
      element.addEventListener("focusout", () => light(false));
    }
    for (const to of document.querySelectorAll(`a[href="#on-map-${name}"]`)) {
      to.addEventListener("click", (event) => {
        event.preventDefault();
        svg.scrollIntoView({ block: "center" });
        site.focus({ preventScroll: true });
      });
    }
  }

  // --- paper shows the whole bay, with labels that fit it ------------------------------------------
  let kept = null;
  addEventListener("beforeprint", () => {
    kept = { zoom, centre };
    zoom = 1;
    draw(Math.max(full.w / 690, full.h / 620));
  });
  addEventListener("afterprint", () => {
    ({ zoom, centre } = kept);
    draw();
  });
  addEventListener("resize", () => draw());
  draw();
})();
