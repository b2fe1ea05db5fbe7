// Words kept on this device.

const WHILE_OPEN = new Map(); // words kept while the page is open, where the browser keeps nothing for files

/**
 * A word kept on this device from before; null where none is.
 * @param {string} name
 * @returns {string | null}
 */
export function recall(name) {
  try {
    return localStorage.getItem(name);
  } catch (refused) {
    return WHILE_OPEN.get(name) || null;
  }
}

/**
 * Keeps a word on this device, as far as the browser lets it.
 * @param {string} name
 * @param {string} word
 */
export function remember(name, word) {
  try {
    localStorage.setItem(name, word);
  } catch (refused) {
    WHILE_OPEN.set(name, word);
  }
}
