// The picture under the drawing: painted anew at the screen's own pixels whenever the view moves,
// so that cells have sharp edges and hatches keep their width however near one looks.
const littleEndian = new Uint8Array(new Uint32Array([1]).buffer)[0] === 1;
const pixel = (hex) => {
  const rgb = parseInt(hex, 16);
  const [r, g, b] = [rgb >> 16 & 255, rgb >> 8 & 255, rgb & 255];
  return (littleEndian ? 255 << 24 | b << 16 | g << 8 | r : r << 24 | g << 16 | b << 8 | 255) >>> 0;
};
const tiles = facts.textures.map((rows) => rows.map((row) => parseInt(row, 16)));

// Two colours and a texture for every code of a map; made once.
const looksOf = (map) => {
  if (map.looks) return map.looks;
  const base = new Uint32Array(256);
  const ink = new Uint32Array(256);
  const texture = new Uint8Array(256);
  for (let code = 0; code < 256; code++) base[code] = pixel(map.base.substr(6 * code, 6));
  for (const [code, number, colour] of map.textured) {
    texture[code] = number;
    ink[code] = pixel(colour);
  }
  if (map.clear) base[0] = 0;
  return map.looks = { base, ink, texture };
};

// Which sample each pixel of a row or a column shows; -1 beyond the map.
const samplesAlong = (pixels, start, step, whole, samples) => Int32Array.from(
  { length: pixels }, (_, i) => {
    const sample = Math.floor((start + (i + 0.5) * step) / whole * samples);
    return sample < 0 || sample >= samples ? -1 : sample;
  });

// Paints the view {x, y, w, h} of a map whose codes are there; grain: pixels that one dot of a
// texture is wide.
const paint = (canvas, map, view, full, width, height, grain) => {
  canvas.width = width;
  canvas.height = height;
  const context = canvas.getContext("2d");
  const picture = context.createImageData(width, height);
  const out = new Uint32Array(picture.data.buffer);
  const { base, ink, texture } = looksOf(map);
  const cols = samplesAlong(width, view.x, view.w / width, full.w, facts.cols);
  const rows = samplesAlong(height, view.y, view.h / height, full.h, facts.rows);
  // Textures stay with the ground when the view moves.
  const shiftX = Math.round(view.x / view.w * width / grain);
  const shiftY = Math.round(view.y / view.h * height / grain);
  for (let y = 0, at = 0; y < height; y++) {
    const start = rows[y] * facts.cols;
    const tileRow = (Math.floor(y / grain) + shiftY) & 7;
    for (let x = 0; x < width; x++, at++) {
      if (rows[y] < 0 || cols[x] < 0) continue;
      const code = map.codes[start + cols[x]];
      const inked = texture[code] !== 0 &&
        tiles[texture[code]][tileRow] >> ((Math.floor(x / grain) + shiftX) & 7) & 1;
      out[at] = inked ? ink[code] : base[code];
    }
  }
  context.putImageData(picture, 0, 0);
};
