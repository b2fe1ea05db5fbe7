// What lies under a pixel: the nearest place of the drawn rope on a line of sight, found on its triangles.

/** The nearest hit of a line of sight on runs of a rope's columns: {place, station, strand, depth} or null. */
function hitRope(rope, { from, along }, runs, hidden) {
  const floats = new Float32Array(rope.vertices);
  const best = { depth: Infinity };
  for (const [first, last] of runs) {
    for (let i = first; i < last; i++) {
      if (!nearLine(rope, i, from, along)) continue;
      for (let k = 0; k < rope.strands; k++) {
        if (i + 1 < rope.count[k]) hitBand(rope, floats, k, i, from, along, hidden, best);
      }
    }
  }
  return best.depth < Infinity ? best : null;
}

function nearLine({ axis, radius }, i, from, along) {
  const away = minus([axis[3 * i], axis[3 * i + 1], axis[3 * i + 2]], from);
  const off = norm(minus(away, times(along, dot(away, along))));
  return off < 2.5 * radius[i];
}

function hitBand(rope, floats, k, i, from, along, hidden, best) {
  const { n, rays } = rope;
  const row = (k * n + i) * rays;
  for (let ray = 0; ray < rays; ray++) {
    const after = (ray + 1) % rays;
    const corners = [row + ray, row + after, row + rays + after, row + rays + ray];
    for (const [a, b, c] of [
      [0, 1, 2],
      [0, 2, 3],
    ]) {
      hitTriangle(floats, [corners[a], corners[b], corners[c]], k, from, along, hidden, best);
    }
  }
}

function hitTriangle(floats, corners, strand, from, along, hidden, best) {
  const [a, b, c] = corners.map((m) => [floats[5 * m], floats[5 * m + 1], floats[5 * m + 2]]);
  const hit = crossing(a, b, c, from, along);
  if (!hit || hit.depth >= best.depth) return;
  const place = add(from, times(along, hit.depth));
  const [u, v, w] = corners.map((m) => floats[5 * m + 4]);
  const station = u * (1 - hit.b - hit.c) + v * hit.b + w * hit.c;
  if (!hidden(place, station)) Object.assign(best, { place, station, strand, depth: hit.depth });
}

/** Where a line meets a triangle: depth along it and the weights of its second and third corner; null where not. */
function crossing(a, b, c, from, along) {
  const [u, v] = [minus(b, a), minus(c, a)];
  const across = cross(along, v);
  const size = dot(u, across);
  if (Math.abs(size) < 1e-12) return null;
  const away = minus(from, a);
  const second = dot(away, across) / size;
  const side = cross(away, u);
  const third = dot(along, side) / size;
  if (second < 0 || third < 0 || second + third > 1) return null;
  return { depth: dot(v, side) / size, b: second, c: third };
}

/** Depth at which a line of sight meets a hard body from corner points; Infinity where it doesn't. */
function hitBody({ points }, offset, from, along) {
  let best = Infinity;
  const start = minus(from, offset);
  for (let i = 0; i < points.length; i += 9) {
    const [a, b, c] = [0, 3, 6].map((j) => [points[i + j], points[i + j + 1], points[i + j + 2]]);
    const hit = crossing(a, b, c, start, along);
    if (hit && hit.depth < best) best = hit.depth;
  }
  return best;
}
