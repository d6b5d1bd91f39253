// What the page knows of every cell, and how it is told in words. Each map is a grey PNG whose
// pixels are codes: the picture is painted from them and the values are read from them, so that
// the two never differ.
const facts = JSON.parse(document.getElementById("map-data").textContent);
const say = (name, ...parts) =>
  parts.reduce((text, part, i) => text.replace(`{${i}}`, () => part), facts.labels[name]);

// --- unpacking: PNG, 8 bits of grey (ISO/IEC 15948, sections 5, 9 and 10) --------------------------
const pixelData = (png) => {
  const view = new DataView(png.buffer);
  const parts = [];
  for (let at = 8; at < png.length; at += 12 + view.getUint32(at)) {
    if (view.getUint32(at + 4) === 0x49444154) {  // "IDAT"
      parts.push(png.subarray(at + 8, at + 8 + view.getUint32(at)));
    }
  }
  return new Blob(parts);
};
const inflated = async (blob) => new Uint8Array(await new Response(
  blob.stream().pipeThrough(new DecompressionStream("deflate"))).arrayBuffer());
const nearest = (left, up, corner) => {
  const guess = left + up - corner;
  const toLeft = Math.abs(guess - left);
  const toUp = Math.abs(guess - up);
  const toCorner = Math.abs(guess - corner);
  return toLeft <= toUp && toLeft <= toCorner ? left : toUp <= toCorner ? up : corner;
};
const unfiltered = (raw, cols, rows) => {
  const codes = new Uint8Array(cols * rows);
  for (let row = 0, from = 0, at = 0; row < rows; row++) {
    const filter = raw[from++];
    for (let col = 0; col < cols; col++, at++) {
      const left = col > 0 ? codes[at - 1] : 0;
      const up = row > 0 ? codes[at - cols] : 0;
      const corner = col > 0 && row > 0 ? codes[at - cols - 1] : 0;
      const guess = filter === 0 ? 0 : filter === 1 ? left : filter === 2 ? up :
        filter === 3 ? (left + up) >> 1 : nearest(left, up, corner);
      codes[at] = raw[from++] + guess;
    }
  }
  return codes;
};
const unpack = async (text) => {
  const png = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
  return unfiltered(await inflated(pixelData(png)), facts.cols, facts.rows);
};
// Asked for once; a map that nobody looks at is unpacked while the reader reads.
const codesOf = (map) => map.ready || (map.ready = unpack(map.png).then((codes) => {
  map.codes = codes;
  map.png = "";
  return codes;
}));

// --- words ----------------------------------------------------------------------------------------
const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const date = (day) => {
  let left = (Math.round(day) - 1) % 365 + 1;
  let month = 0;
  while (left > monthDays[month]) left -= monthDays[month++];
  return say("day_month", left, facts.months[month]);
};
const value = (map, code) =>
  map.low + (code - facts.first) / (255 - facts.first) * (map.high - map.low);
const figure = (map, code) => {
  const texts = map.units.map((unit) =>
    (value(map, code) * unit.factor).toFixed(unit.decimals) + (unit.name ? " " + unit.name : ""));
  return texts.length > 1 ? say("two_units", texts[0], texts[1]) : texts[0];
};
const stateNames = ["outside", "land", "not_known"];
const words = (map, sample) => {
  const code = map.codes[sample];
  if (map.classes) return facts.reasons[code] || "";
  if (code < 3) return say(stateNames[code]);
  return code === 3 ? map.special : figure(map, code);
};
const season = (sample) => {
  const { outplant, last_haul: last } = facts.maps;
  if (!outplant.codes || !last.codes) return "";
  const codes = [outplant.codes[sample], last.codes[sample]];
  return Math.min(...codes) < facts.first ? "" :
    say("from_to", date(value(outplant, codes[0])), date(value(last, codes[1])));
};

// --- positions ------------------------------------------------------------------------------------
const lonLat = (u, v) => {
  const [nw, ne, se, sw] = facts.corners;
  return [0, 1].map((i) => (1 - v) * ((1 - u) * nw[i] + u * ne[i]) +
      v * ((1 - u) * sw[i] + u * se[i]));
};
const minutes = (degrees, marks) => {
  const parts = Math.round(Math.abs(degrees) * 60000);
  const rest = ((parts % 60000) / 1000).toFixed(3).padStart(6, "0");
  return Math.floor(parts / 60000) + "\u00b0 " + rest + "\u2032 " + marks[degrees < 0 ? 1 : 0];
};
