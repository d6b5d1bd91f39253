// What part of the map is seen: wheel, buttons, keys, fingers. x runs east, y south, in metres of
// the grid from its north-west corner.
const svg = document.getElementById("map");
const canvas = document.getElementById("picture");
const cross = document.getElementById("cross");
const full = { x: 0, y: 0, w: svg.viewBox.baseVal.width, h: svg.viewBox.baseVal.height };
const levels = Number(svg.dataset.levels);  // levels of the scale bar, each twice as near
const deepest = 2 ** (levels - 1);
let zoom = 1;
let centre = { x: full.w / 2, y: full.h / 2 };
let shown = "suitability";
let pixelSize = 0;

const place = (group, x, y, scale) =>
  group.setAttribute("transform", `translate(${x} ${y}) scale(${scale})`);
const show = (part, on) => on ? part.removeAttribute("display") :
  part.setAttribute("display", "none");
const view = () => {
  const w = full.w / zoom;
  const h = full.h / zoom;
  centre.x = Math.min(Math.max(centre.x, w / 2), full.w - w / 2);
  centre.y = Math.min(Math.max(centre.y, h / 2), full.h - h / 2);
  return { x: centre.x - w / 2, y: centre.y - h / 2, w, h };
};

const pinned = {
  top: (v, x) => [x, v.y],
  left: (v, x, y) => [v.x, y],
  corner: (v) => [v.x + v.w - 30 * pixelSize, v.y + 62 * pixelSize],
};
// A label keeps clear of the corners, where the arrow, the bar and the other labels are.
const crowded = (pin, v, x, y) => pin === "top" ?
  x > v.x + v.w - 120 * pixelSize || x < v.x + 30 * pixelSize :
  pin === "left" && (y < v.y + 40 * pixelSize || y > v.y + v.h - 8 * pixelSize);
const placeLabels = (v) => {
  for (const group of svg.querySelectorAll(".px")) {
    const pin = group.dataset.pin;
    const home = [Number(group.dataset.x), Number(group.dataset.y)];
    const [x, y] = pinned[pin] ? pinned[pin](v, ...home) : home;
    place(group, x, y, pixelSize);
    if (pin && pin !== "corner") show(group, !crowded(pin, v, ...home));
  }
};
// The numbers of sites stand beside them so that none lies over another: the first free place on
// rings of growing radius, as flag_places.cpp does for paper.
const angles = 16;
const placeOn = (ring, nth, width) => {
  const angle = 2 * Math.PI * ((14 + nth) % angles) / angles;
  const radius = 28 + 14 * ring;
  return [Math.cos(angle) * (radius + (width - 22) / 2), Math.sin(angle) * radius];
};
const placeNumbers = (v) => {
  const flags = [...svg.querySelectorAll(".site > .px")].map((flag) => ({
    parts: flag.children,
    x: (flag.dataset.x - v.x) / pixelSize,
    y: (flag.dataset.y - v.y) / pixelSize,
    width: Number(flag.children[1].getAttribute("width")),
  }));
  const taken = flags.map(({ x, y }) => ({ x, y, width: 10, height: 10 }));
  const [right, bottom] = [v.w / pixelSize, v.h / pixelSize];
  const free = (x, y, width) => taken.every((other) =>
    Math.abs(x - other.x) >= (width + other.width) / 2 + 3 ||
    Math.abs(y - other.y) >= (22 + other.height) / 2 + 3) &&
    x >= width / 2 && x <= right - width / 2 && y >= 11 && y <= bottom - 11;
  for (const flag of flags) {
    const seen = flag.x >= 0 && flag.x <= right && flag.y >= 0 && flag.y <= bottom;
    let best = placeOn(0, 0, flag.width);
    for (let i = 0; seen && i < 16 * angles; i++) {
      const [dx, dy] = placeOn(Math.floor(i / angles), i % angles, flag.width);
      if (free(flag.x + dx, flag.y + dy, flag.width)) {
        best = [dx, dy];
        break;
      }
    }
    const [dx, dy] = best;
    taken.push({ x: flag.x + dx, y: flag.y + dy, width: flag.width, height: 22 });
    const [leader, disc, number] = flag.parts;
    const reach = 1 - 10 / Math.hypot(dx, dy);
    leader.setAttribute("d", `M0 0L${dx * reach} ${dy * reach}`);
    disc.setAttribute("x", dx - flag.width / 2);
    disc.setAttribute("y", dy - 11);
    number.setAttribute("x", dx);
    number.setAttribute("y", dy + 4);
  }
};
const placeBar = (bar, v) => {
  const width = Number(bar.dataset.length);
  place(bar, v.x + v.w - width - 14 * pixelSize, v.y + v.h - 30 * pixelSize, 1);
  for (const part of bar.children) {
    part.setAttribute("transform", part.classList.contains("tall") ? `scale(1 ${pixelSize})` :
      `translate(${Number(part.dataset.x)} 0) scale(${pixelSize})`);
  }
};
const draw = (paperPixel, grain) => {
  const v = view();
  svg.setAttribute("viewBox", `${v.x} ${v.y} ${v.w} ${v.h}`);
  const width = svg.getBoundingClientRect().width || 1;
  pixelSize = paperPixel || v.w / width;
  placeLabels(v);
  placeNumbers(v);
  const level = Math.min(Math.floor(Math.log2(zoom) + 1e-9), levels - 1);
  for (const part of svg.querySelectorAll("[data-level]")) {
    const here = Number(part.dataset.level) === level;
    show(part, here);
    if (here && part.classList.contains("scale-bar")) placeBar(part, v);
  }
  svg.classList.toggle("near", zoom > 1);
  document.getElementById("zoom-in").disabled = zoom >= deepest;
  document.getElementById("zoom-out").disabled = zoom <= 1;
  document.getElementById("zoom-all").disabled = zoom <= 1;
  const map = facts.maps[shown];
  if (!map.codes) return;
  const sharp = grain || Math.min(devicePixelRatio || 1, 2);
  const across = Math.round(grain ? 1400 : width * sharp);
  paint(canvas, map, v, full, across, Math.round(across * full.h / full.w),
    Math.max(1, Math.round(sharp)));
};
let asked = 0;
const redraw = () => {
  if (!asked) asked = requestAnimationFrame(() => {
    asked = 0;
    draw();
  });
};

const atPointer = (event) => {
  const box = svg.getBoundingClientRect();
  const v = view();
  return { x: v.x + (event.clientX - box.left) / box.width * v.w,
    y: v.y + (event.clientY - box.top) / box.height * v.h };
};
// The place under the pointer stays under it.
const zoomBy = (factor, about) => {
  const next = Math.min(Math.max(zoom * factor, 1), deepest);
  if (next === zoom) return;
  const held = about || centre;
  centre = { x: held.x + (centre.x - held.x) * zoom / next,
    y: held.y + (centre.y - held.y) * zoom / next };
  zoom = next;
  redraw();
};
document.getElementById("zoom-in").addEventListener("click", () => zoomBy(2));
document.getElementById("zoom-out").addEventListener("click", () => zoomBy(0.5));
document.getElementById("zoom-all").addEventListener("click", () => zoomBy(1 / deepest));

// A wheel scrolls the page until the map is clicked or reached by the keyboard; then it zooms.
svg.addEventListener("wheel", (event) => {
  const meant = event.ctrlKey || event.metaKey || svg.contains(document.activeElement);
  const atEnd = event.deltaY > 0 ? zoom <= 1 : zoom >= deepest;
  if (!meant || atEnd) return;
  event.preventDefault();
  zoomBy(Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.05 : 0.002)), atPointer(event));
}, { passive: false });

const fingers = new Map();
let dragged = false;
const between = () => {
  const [a, b] = [...fingers.values()];
  return { d: Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY),
    clientX: (a.clientX + b.clientX) / 2, clientY: (a.clientY + b.clientY) / 2 };
};
const move = (from, to) => {
  centre.x -= (to.clientX - from.clientX) * pixelSize;
  centre.y -= (to.clientY - from.clientY) * pixelSize;
  dragged = dragged || Math.hypot(to.clientX - from.clientX, to.clientY - from.clientY) > 3;
  redraw();
};
svg.addEventListener("pointerdown", (event) => {
  if (fingers.size === 0) dragged = false;
  fingers.set(event.pointerId, event);
});
svg.addEventListener("pointermove", (event) => {
  const before = fingers.get(event.pointerId);
  if (!before) {
    if (event.pointerType === "mouse") read(atPointer(event));
    return;
  }
  if (fingers.size === 2) {
    const last = between();
    fingers.set(event.pointerId, event);
    const now = between();
    move(last, now);
    zoomBy(now.d / (last.d || 1), atPointer(now));
    dragged = true;
  } else {
    const far = Math.hypot(event.clientX - before.clientX, event.clientY - before.clientY);
    if (far < 4 && !dragged) return;  // a tap that trembles
    fingers.set(event.pointerId, event);
    if (zoom > 1) {
      move(before, event);
      if (!svg.hasPointerCapture(event.pointerId)) svg.setPointerCapture(event.pointerId);
    }
  }
});
for (const end of ["pointerup", "pointercancel", "pointerleave"]) {
  svg.addEventListener(end, (event) => fingers.delete(event.pointerId));
}
svg.addEventListener("click", (event) => {
  if (dragged) event.preventDefault();
  else ask(atPointer(event));
});

// Arrows move the cross, and the view with it; Enter asks about the place.
const steps = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
const crossAt = () => cross.hasAttribute("display") ? { ...centre } :
  { x: Number(cross.dataset.x), y: Number(cross.dataset.y) };
const step = ([right, down], fine) => {
  const share = fine ? full.w / facts.cols : full.w / zoom / 16;
  const at = crossAt();
  const to = { x: Math.min(Math.max(at.x + right * share, 0), full.w * 0.999999),
    y: Math.min(Math.max(at.y + down * share, 0), full.h * 0.999999) };
  if (zoom > 1) centre = { ...to };
  draw();
  read(to);
};
svg.addEventListener("keydown", (event) => {
  if (event.target !== svg || event.ctrlKey || event.metaKey || event.altKey) return;
  if (event.key === "+" || event.key === "=") zoomBy(2, crossAt());
  else if (event.key === "-") zoomBy(0.5, crossAt());
  else if (event.key === "0") zoomBy(1 / deepest);
  else if (event.key === "Enter" || event.key === " ") ask(crossAt());
  else if (steps[event.key]) step(steps[event.key], event.shiftKey);
  else return;
  event.preventDefault();
});
