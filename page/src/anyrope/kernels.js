// Compiled loops of the settling (any_rope/settling_module.py) on the page's arrays.

import { Ndarray } from "./arrays.js";

/** @typedef {{ arguments: [string, string, string?, number?][], returns: string }} Signature */

const [STACK, FIRST, PAGE] = [1 << 16, 1 << 17, 1 << 16];
const BYTES = { float64: 8, int64: 8, bool: 1 };

export class Kernels {
  /** @param {WebAssembly.Module} module @param {Record<string, Signature>} signatures */
  constructor(module, signatures) {
    this.signatures = signatures;
    this.memory = new WebAssembly.Memory({ initial: 4 });
    const pointer = new WebAssembly.Global({ value: "i32", mutable: true }, STACK);
    const env = { __linear_memory: this.memory, __stack_pointer: pointer };
    this.exports = new WebAssembly.Instance(module, { env }).exports;
  }

  /** What a loop returns; arrays among what it is given are changed. @param {string} name @param {(Ndarray | number | boolean)[]} given */
  call(name, ...given) {
    const { arguments: about, returns } = this.signatures[name];
    if (about.length !== given.length) throw new Error(`${name} takes ${about.length} arguments, not ${given.length}`);
    /** @type {[Ndarray, string, number][]} */
    const laid = [];
    /** @type {(number | bigint)[]} */
    const numbers = [];
    let at = FIRST;
    about.forEach(([, kind, type = kind], k) => {
      const value = given[k];
      if (!(value instanceof Ndarray)) numbers.push(kind === "int64" ? BigInt(value) : Number(value));
      else {
        const size = BYTES[/** @type {keyof typeof BYTES} */ (type)];
        laid.push([value, type, at]);
        numbers.push(0, 0, BigInt(value.data.length), BigInt(size), at, ...layout(value.shape, size));
        at = (at + value.data.length * size + 15) & ~15;
      }
    });
    const lack = at - this.memory.buffer.byteLength;
    if (lack > 0) this.memory.grow(Math.ceil(lack / PAGE));
    for (const one of laid) this.#write(...one);
    const status = /** @type {Function} */ (this.exports[name])(STACK, STACK + 64, ...numbers);
    if (status) throw new Error(`${name}: ${status}`);
    for (const one of laid) this.#read(...one);
    const view = new DataView(this.memory.buffer);
    return returns === "float64" ? view.getFloat64(STACK, true) : Number(view.getBigInt64(STACK, true));
  }

  /** @param {Ndarray} array @param {string} type @param {number} at */
  #write(array, type, at) {
    const { buffer } = this.memory;
    if (type === "float64") new Float64Array(buffer, at, array.data.length).set(array.data);
    else if (type === "bool") new Uint8Array(buffer, at, array.data.length).set(array.data);
    else {
      // whole numbers are below 2^31: the high word is the sign's
      const words = new Int32Array(buffer, at, 2 * array.data.length);
      array.data.forEach((value, i) => {
        words[2 * i] = value;
        words[2 * i + 1] = value < 0 ? -1 : 0;
      });
    }
  }

  /** @param {Ndarray} array @param {string} type @param {number} at */
  #read(array, type, at) {
    const { buffer } = this.memory;
    if (type === "float64") array.data.set(new Float64Array(buffer, at, array.data.length));
    else if (type === "int64") {
      const words = new Int32Array(buffer, at, 2 * array.data.length);
      for (let i = 0; i < array.data.length; i++) array.data[i] = words[2 * i];
    }
  }
}

/** Shape, then strides. @param {number[]} shape @param {number} size */
function layout(shape, size) {
  const strides = shape.map((_, k) => shape.slice(k + 1).reduce((product, n) => product * n, size));
  return [...shape, ...strides].map(BigInt);
}
