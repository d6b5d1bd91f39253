// Which quantity is shown; sites and their sheets; paper.
const buttons = [...document.querySelectorAll(".choices button")];
const choose = async (key) => {
  shown = key;
  for (const button of buttons) {
    button.setAttribute("aria-pressed", String(button.dataset.map === key));
  }
  for (const part of document.querySelectorAll(".legends > [data-map]")) {
    part.toggleAttribute("hidden", part.dataset.map !== key);
  }
  await codesOf(facts.maps[key]);
  if (shown !== key) return;  // another was chosen in the meantime
  draw();
  if (!cross.hasAttribute("display")) read(crossAt());
};
for (const button of buttons) button.addEventListener("click", () => choose(button.dataset.map));

// Rows of the table and boxes on the map light each other, and lead to each other.
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

// Paper shows the whole bay, with labels that fit it, and every map.
const paperPixel = () => Math.max(full.w / 690, full.h / 620);
const paintSmall = (small) => {
  const map = facts.maps[small.dataset.map];
  if (map.codes) {
    paint(small, map, full, full, 700, Math.round(700 * full.h / full.w), 2);
  }
};
let kept = null;
const onPaper = () => {
  if (kept) return;
  kept = { zoom, centre };
  zoom = 1;
  draw(paperPixel(), 2);
  document.querySelectorAll("canvas.small").forEach(paintSmall);
};
const offPaper = () => {
  if (!kept) return;
  ({ zoom, centre } = kept);
  kept = null;
  draw();
};
addEventListener("beforeprint", onPaper);
addEventListener("afterprint", offPaper);
addEventListener("resize", redraw);

// The map that stands there without the script gives way to the painted one, which can be read.
const begin = async () => {
  await choose(shown);
  document.getElementById("still").remove();
  for (const map of Object.values(facts.maps)) {
    await codesOf(map);
    await new Promise((done) => setTimeout(done));
  }
  document.documentElement.dataset.ready = "";
};
draw();
if (typeof DecompressionStream === "undefined") {
  readOut.textContent = say("too_old");
} else {
  begin();
}
