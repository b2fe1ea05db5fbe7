// Lengths as people write them, and as they are shown.

const INCH = 25.4;
const NUMBER = "\\d+(?:[.,]\\d+)?";
const WRITTEN = new RegExp(`^(?:(${NUMBER})?(?:\\s+|^)(\\d+)/([1-9]\\d*)|(${NUMBER}))\\s*(mm|cm|m|in|"|inch|inches)?$`);
/** @type {Record<string, number>} */
const UNITS = { mm: 1, cm: 10, m: 1000, in: INCH, '"': INCH, inch: INCH, inches: INCH };

/**
 * A written length in mm: a number or a fraction, with its unit or in this one; NaN where it isn't one or isn't positive.
 * @param {string} text
 * @param {string} unit
 */
export function lengthIn(text, unit) {
  const found = WRITTEN.exec(text.trim());
  if (!found) return NaN;
  const number = (/** @type {string | undefined} */ part) => Number((part || "0").replace(",", "."));
  const [, whole, over, under, plain, own] = found;
  const value = over ? number(whole) + number(over) / number(under) : number(plain);
  return value > 0 ? value * UNITS[own || unit] : NaN;
}

/**
 * A length in the user's unit, as a caliper reads it: 0.1 mm, or 1/64 in; and the other beside it in figures.
 * @param {number} mm
 * @param {string} unit
 */
export function lengthShown(mm, unit) {
  if (unit === "mm") return `${mm.toFixed(1)} mm`;
  const parts = Math.round((mm / INCH) * 64);
  const [inches, rest] = [Math.floor(parts / 64), parts % 64];
  const by = rest ? greatest(rest, 64) : 1;
  const words = [inches || !rest ? String(inches) : "", rest ? `${rest / by}/${64 / by}` : ""].filter(Boolean);
  return `${words.join(" ")} in (${mm.toFixed(1)} mm)`;
}

/**
 * Greatest common divisor.
 * @param {number} a
 * @param {number} b
 * @returns {number}
 */
const greatest = (a, b) => (b ? greatest(b, a % b) : a);
