// Keeps what has been made of the states: tubes coarse and fine, bodies; makes the wanted ones first, one at a time.

import { bodyOnCard } from "./card/painter.js";
import { dropRope, ropeOnCard } from "./card/ropes.js";
import { byId, saidBy } from "./dom.js";
import { meshOf } from "./geometry/decode.js";
import { make } from "./geometry/make.js";
import { creased } from "./geometry/tubes.js";

/** @import { BodiesRecord, Body, Maker, Making, Only, Order, PageData, Rope, Store, Tubes } from "./types" */

const MOST_COARSE = 60e6; // bytes of coarse tubes kept
const MOST_FINE = 48e6; // bytes of fine ones

/**
 * A store of made states. It begins to make before there is a painter: making takes longer than finding one.
 * `changed(kind)` is told whenever a state is there, `failed(words)` where one can't be made.
 * @param {PageData} data
 * @param {Store["changed"]} changed
 * @param {Store["failed"]} failed
 * @returns {Store}
 */
export function storeOf(data, changed, failed) {
  return {
    ...{ painter: null, maker: makerOf(), changed, failed, data, kept: new Map(), bodies: new Map() },
    ...{ queue: [], making: null, refused: new Set(), unpacking: new Set(), former: new Map() },
  };
}

/**
 * What makes tubes: a worker with the page's own script, or the page itself where no worker can be had.
 * @returns {Maker}
 */
function makerOf() {
  try {
    const script = new Blob([byId("script").textContent], { type: "text/javascript" });
    const worker = new Worker(URL.createObjectURL(script));
    return { kind: "worker", make: (order) => askWorker(worker, order) };
  } catch (refused) {
    return { kind: "page", reason: String(refused), make };
  }
}

/**
 * @param {Worker} worker
 * @param {Making} order
 * @returns {Promise<Tubes>}
 */
function askWorker(worker, order) {
  return new Promise((resolve, reject) => {
    worker.onmessage = ({ data }) => (data.problem ? reject(new Error(data.problem)) : resolve(data.tubes));
    worker.onerror = (event) => reject(new Error(event.message || "the worker stopped"));
    worker.postMessage(order);
  });
}

/**
 * The card that made things are put on; it is found before any is made.
 * @param {Store} store
 */
function cardOf({ painter }) {
  if (!painter) throw new Error("there is no graphics card");
  return painter.gl;
}

/**
 * Other data: what was made of a state that is still the same stays. Of the states shown the tubes before stay besides,
 * to be seen until the new ones are made; all the rest is dropped.
 * @param {Store} store
 * @param {PageData} data
 * @param {string[]} shown
 */
export function refill(store, data, shown) {
  if (data === store.data) return;
  const gl = cardOf(store);
  for (const [key, { rope }] of store.kept) {
    const [kind, level] = key.split(" ");
    if (level !== "part" && isSame(store.data, data, kind)) continue;
    store.kept.delete(key);
    if (shown.includes(kind) && data.states[kind] && !store.former.has(kind)) store.former.set(kind, rope);
    else dropRope(gl, rope);
  }
  store.bodies.clear();
  store.refused.clear();
  store.unpacking.clear();
  store.queue = [];
  store.data = data;
}

/**
 * Whether a state's tubes come out alike from both.
 * @param {PageData} before
 * @param {PageData} data
 * @param {string} kind
 */
function isSame(before, data, kind) {
  const [one, other] = [before, data].map(({ states, law }) => JSON.stringify([states[kind], law]));
  return Boolean(data.states[kind]) && one === other;
}

/**
 * Whether what is made to an order is of the data that are shown now.
 * @param {Store} store
 * @param {Order} order
 */
const isWanted = (store, order) => order.data === store.data || isSame(order.data, store.data, order.kind);

/**
 * The tubes of a state as it was before, where the new ones are still being made.
 * @param {Store} store
 * @param {string} kind
 */
export const formerRope = (store, kind) => store.former.get(kind) || null;

/**
 * @param {string} kind
 * @param {string} level
 */
export const keyOf = (kind, level) => `${kind} ${level}`;
/**
 * @param {boolean} fine
 * @param {Only} [only]
 */
const levelOf = (fine, only) => (only ? "part" : fine ? "fine" : "coarse");

/**
 * The best tubes there are of a state, fine ones if they are wanted and there; null where none are.
 * @param {Store} store
 * @param {string} kind
 * @param {boolean} fine
 * @returns {Rope | null}
 */
export function ropeIn(store, kind, fine) {
  const [finer, coarser, part] = ["fine", "coarse", "part"].map((level) => store.kept.get(keyOf(kind, level)));
  const found = (fine && finer) || coarser || finer || part;
  if (!found) return null;
  found.used = performance.now();
  return found.rope;
}

/**
 * Wants a state made: before all others if `now`, else after them; `only` a part of it, for the very first picture.
 * @param {Store} store
 * @param {string} kind
 * @param {boolean} fine
 * @param {boolean} now
 * @param {Only} [only]
 */
export function want(store, kind, fine, now, only) {
  const key = keyOf(kind, levelOf(fine, only));
  if (!store.data.states[kind] || store.kept.has(key) || store.refused.has(key)) return;
  if (store.making && store.making.key === key && isWanted(store, store.making)) return;
  store.queue = store.queue.filter((order) => order.key !== key);
  const order = { key, kind, fine, only, data: store.data };
  if (now) store.queue.unshift(order);
  else store.queue.push(order);
  work(store);
}

/** @param {Store} store */
async function work(store) {
  if (store.making) return;
  const order = store.queue.shift();
  if (!order) return;
  store.making = order;
  try {
    const { law, states } = order.data;
    const { kind, fine, only } = order;
    const tubes = await store.maker.make({ record: states[kind], fine, law, only });
    store.making = null;
    if (isWanted(store, order)) keep(store, order, tubes);
  } catch (problem) {
    store.making = null;
    if (isWanted(store, order)) refuse(store, order, problem);
  }
  work(store);
}

/**
 * @param {Store} store
 * @param {Order} order
 * @param {unknown} problem
 */
function refuse(store, { key, kind }, problem) {
  store.refused.add(key);
  store.changed(kind);
  store.failed(`This step can't be drawn: ${saidBy(problem)}`);
}

/**
 * @param {Store} store
 * @param {Order} order
 * @param {Tubes} tubes
 */
function keep(store, { key, kind, fine }, tubes) {
  const rope = ropeOnCard(cardOf(store), tubes);
  store.kept.set(key, { rope, fine, bytes: tubes.vertices.byteLength, used: performance.now() });
  const former = store.former.get(kind);
  if (former) dropRope(cardOf(store), former);
  store.former.delete(kind);
  thinOut(store, fine, key);
  store.changed(kind);
}

/**
 * Drops what was used longest ago, until the rest is within its bound.
 * @param {Store} store
 * @param {boolean} fine
 * @param {string} latest
 */
function thinOut(store, fine, latest) {
  const same = [...store.kept].filter(([, kept]) => kept.fine === fine).sort((a, b) => a[1].used - b[1].used);
  let total = same.reduce((sum, [, kept]) => sum + kept.bytes, 0);
  for (const [key, kept] of same) {
    if (total <= (fine ? MOST_FINE : MOST_COARSE) || key === latest) continue;
    dropRope(cardOf(store), kept.rope);
    store.kept.delete(key);
    total -= kept.bytes;
  }
}

/**
 * The bodies of a packed record, put on the card; [] until they are there.
 * @param {Store} store
 * @param {BodiesRecord | null} record
 * @returns {Body[]}
 */
export function bodiesIn(store, record) {
  if (!record) return [];
  if (!store.bodies.has(record)) {
    store.bodies.set(record, []);
    store.unpacking.add(record);
    unpackBodies(store, record).then((found) => {
      store.unpacking.delete(record);
      store.bodies.set(record, found);
      store.changed(null);
    }, (problem) => {
      store.unpacking.delete(record);
      store.changed(null);
      store.failed(`The tools can't be drawn: ${saidBy(problem)}`);
    });
  }
  return store.bodies.get(record) || [];
}

/**
 * @param {Store} store
 * @param {BodiesRecord} record
 * @returns {Promise<Body[]>}
 */
async function unpackBodies(store, record) {
  const mesh = await meshOf(record, record.points, record.faces);
  let from = 0;
  return record.parts.map((part) => {
    const faces = mesh.faces.subarray(3 * from, 3 * (from + part.faces));
    from += part.faces;
    const shape = creased({ points: mesh.points, faces }, CREASE);
    return { ...part, shape, onCard: bodyOnCard(cardOf(store), shape) };
  });
}

const CREASE = (25 * Math.PI) / 180;
