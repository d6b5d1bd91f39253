// One place read out: shortly under the pointer, in full where one clicks.
const readOut = document.getElementById("read-out");
const why = document.getElementById("why");
const line = (tag, text) => {
  const element = document.createElement(tag);
  element.textContent = text;
  return element;
};
const sampleAt = (p) => {
  const col = Math.floor(p.x / full.w * facts.cols);
  const row = Math.floor(p.y / full.h * facts.rows);
  return col < 0 || row < 0 || col >= facts.cols || row >= facts.rows ? -1 :
    row * facts.cols + col;
};
const position = (p) => {
  const [lon, lat] = lonLat(p.x / full.w, p.y / full.h);
  return [minutes(lat, facts.labels.north_south) + ", " + minutes(lon, facts.labels.east_west),
    lat.toFixed(5) + ", " + lon.toFixed(5)];
};
const markCross = (p) => {
  cross.dataset.x = p.x;
  cross.dataset.y = p.y;
  place(cross, p.x, p.y, pixelSize);
  show(cross, true);
};

const read = (p) => {
  const sample = sampleAt(p);
  const map = facts.maps[shown];
  if (sample < 0 || !map.codes) return;
  const parts = [line("b", say("value", map.title, words(map, sample)))];
  if (shown === "season" && season(sample)) parts.push(line("span", season(sample)));
  const reasons = facts.maps.reason;
  if (!map.classes && map.codes[sample] > 1 && reasons.codes) {
    parts.push(line("span", say("because", words(reasons, sample))));
  }
  readOut.replaceChildren(...parts, ...position(p).map((text) => line("span", text)));
  markCross(p);
};

// "Why not here?" The reason, every rule that closes the place, and all that the page knows of it.
const closing = (sample) => {
  const { codes, sets } = facts.maps.closed;
  const set = sets[codes[sample]];
  return set ? set.map((bit) => facts.rules[bit]) : [say("many_rules")];
};
const heading = (sample) => {
  const state = facts.maps.reason.codes[sample];
  if (state < 2) return say("no_water_here");
  if (facts.unknown.includes(state)) return say("not_known_here");
  return closing(sample).length > 0 ? say("why_not_here") : say("how_good_here");
};
const knownHere = (sample) => facts.order.filter((key) => key !== "reason").map((key) => {
  const row = document.createElement("tr");
  const map = facts.maps[key];
  const text = key === "season" && season(sample) ?
    words(map, sample) + ", " + season(sample) : words(map, sample);
  const head = line("th", map.title);
  head.scope = "row";
  row.append(head, line("td", text));
  return row;
});
const ask = async (p) => {
  const sample = sampleAt(p);
  if (sample < 0) return;
  await Promise.all(Object.values(facts.maps).map(codesOf));
  read(p);
  const parts = [line("h3", heading(sample)),
    line("p", say("reason", words(facts.maps.reason, sample)))];
  const rules = closing(sample);
  if (rules.length > 0) {
    const list = document.createElement("ul");
    list.append(...rules.map((rule) => line("li", rule)));
    parts.push(line("p", say("closed_by")), list);
  }
  const table = document.createElement("table");
  table.append(document.createElement("tbody"));
  table.tBodies[0].append(...knownHere(sample));
  parts.push(table, ...position(p).map((text) => line("p", text)));
  if (facts.sampled) parts.push(line("p", say("sampled")));
  why.replaceChildren(...parts);
  why.dataset.sample = sample;
};
