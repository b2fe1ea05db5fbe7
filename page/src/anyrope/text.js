// Numbers as Python writes them, and the browser's regular expressions, for the page's Python.

/** Rounds a tie to the even digit, as Python does; `toFixed` rounds it away from zero. @param {number} x @param {number} digits */
function fixed(x, digits) {
  const text = x.toFixed(digits);
  const exact = x.toFixed(Math.min(100, digits + 30));
  const rest = exact.slice(exact.length - Math.min(100 - digits, 30));
  if (!/^50*$/.test(rest)) return text;
  const down = exact.slice(0, exact.length - rest.length).replace(/\.$/, "");
  return Number(down.at(-1)) % 2 ? text : down;
}

/** @param {string} text */
const trimmed = (text) => (text.includes(".") ? text.replace(/\.?0+$/, "") : text);

/** @param {number} x @param {number} digits */
function general(x, digits) {
  if (x === 0) return Object.is(x, -0) ? "-0" : "0";
  const significant = Math.max(digits, 1);
  const [mantissa, power] = x.toExponential(significant - 1).split("e");
  const exponent = Number(power);
  if (exponent < -4 || exponent >= significant) {
    const sign = exponent < 0 ? "-" : "+";
    return `${trimmed(mantissa)}e${sign}${String(Math.abs(exponent)).padStart(2, "0")}`;
  }
  return trimmed(fixed(x, significant - 1 - exponent));
}

/** A number in a format of Python's such as `+.2f`, `.1%`, `g` or `8.3f`. @param {number} x @param {string} form */
export function formatted(x, form) {
  const found = /^([<>^]?)([+ ]?)(\d*)(,?)(?:\.(\d+))?([feg%])$/.exec(form);
  if (!found) throw new Error(`no format ${form}`);
  const [, align, sign, width, comma, precision, kind] = found;
  const digits = precision === undefined ? 6 : Number(precision);
  let text = Number.isFinite(x) ? number(x, kind, digits) : Number.isNaN(x) ? "nan" : x < 0 ? "-inf" : "inf";
  if (comma) text = text.replace(/^-?\d+/, (whole) => whole.replace(/\B(?=(\d{3})+$)/g, ","));
  if (sign && !text.startsWith("-")) text = sign + text;
  return align === "<" ? text.padEnd(Number(width)) : text.padStart(Number(width));
}

/** @param {number} x @param {string} kind @param {number} digits */
function number(x, kind, digits) {
  if (kind === "%") return `${fixed(x * 100, digits)}%`;
  if (kind === "g") return general(x, digits);
  if (kind === "f") return fixed(x, digits);
  return x.toExponential(digits).replace(/e([+-])(\d)$/, "e$10$2");
}

/** @type {Map<string, RegExp>} */
const known = new Map();

/** A match of a pattern here, anywhere from here on, or of the whole text. @param {string} source @param {string} text @param {number} at @param {string} way */
export function matched(source, text, at, way) {
  const key = `${way} ${source}`;
  const pattern = known.get(key) ?? new RegExp(way === "whole" ? `(?:${source})$` : source, way === "anywhere" ? "g" : "y");
  known.set(key, pattern);
  pattern.lastIndex = at;
  const found = pattern.exec(text);
  return found && { found, end: pattern.lastIndex };
}

/** @param {{ found: RegExpExecArray }} match @param {string | number} name */
export const group = ({ found }, name) => (typeof name === "number" ? found[name] : found.groups?.[name]) ?? null;
