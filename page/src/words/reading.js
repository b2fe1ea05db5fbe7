// What is read aloud, in what order, and when it goes on by itself: a table, and nothing that speaks.
//
//   silent   nothing is read
//   saying   a sentence is being said
//   pausing  it is said; after the pause comes the next one, or the next step

/** @import { Reading, ReadingDeed, ReadingHappening } from "../types" */

/** @type {Reading} */
export const SILENT = { name: "silent", at: 0, pause: 0 };

/**
 * What a happening leads to, among so many sentences of a step. With a pause it goes on to the next step by itself;
 * without one, the reading ends with the step.
 * @param {Reading} reading
 * @param {ReadingHappening} happening
 * @param {number} sentences
 * @returns {{ reading: Reading, deed: ReadingDeed }}
 */
export function nextReading(reading, happening, sentences) {
  const { name, at, pause } = reading;
  if (happening.is === "start") return { reading: { name: "saying", at: 0, pause: happening.pause }, deed: "say" };
  if (name === "silent") return { reading, deed: "none" };
  if (happening.is === "stop") return { reading: SILENT, deed: "hush" };
  if (happening.is === "moved") return { reading: { ...reading, name: "saying", at: 0 }, deed: "say" };
  if (happening.is === "said" && name === "saying") {
    const last = at + 1 >= sentences;
    if (last && pause === 0) return { reading: SILENT, deed: "hush" };
    return { reading: { ...reading, name: "pausing" }, deed: "wait" };
  }
  if (happening.is === "waited" && name === "pausing") {
    if (at + 1 >= sentences) return { reading, deed: "go on" };
    return { reading: { ...reading, name: "saying", at: at + 1 }, deed: "say" };
  }
  return { reading, deed: "none" };
}

/**
 * What the words of a step say aloud, one after the other: its title, each instruction, its check, its caution.
 * @param {HTMLElement} words
 * @returns {HTMLElement[]}
 */
export const sentencesIn = (words) => [...words.querySelectorAll(/** @type {"p"} */ ("h2, ol > li, ul:not(.key) > li, .check label, p"))];
