() => {
  // What is wrong with the words over the page's picture and beside it: in words, empty where all is right.
  const found = [];
  const box = (node) => node.getBoundingClientRect();
  const seen = (node) => box(node).width > 0 && box(node).height > 0;
  const meet = (a, b) => a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;
  const all = (query) => [...document.querySelectorAll(query)].filter(seen);
  const named = (node) => JSON.stringify((node.textContent || node.id).trim().slice(0, 40));
  const lettered = all("#labels .label").map((label) => {
    const range = document.createRange();
    range.selectNodeContents(label);
    return { named: named(label), box: range.getBoundingClientRect() };
  });
  const others = all("#corner button, #sides .side, #note, #over .chip-text").map((node) => ({ named: named(node), box: box(node) }));
  const picture = box(document.getElementById("picture"));
  lettered.forEach((label, i) => {
    [...lettered.slice(0, i), ...others].filter((other) => meet(label.box, other.box))
      .forEach((other) => found.push(`${label.named} and ${other.named} overlap`));
    const { left, top, right, bottom } = label.box;
    if (left < picture.left - 1 || right > picture.right + 1 || top < picture.top - 1 || bottom > picture.bottom + 1) {
      found.push(`${label.named} runs over the picture's edge`);
    }
  });
  const origin = box(document.getElementById("canvas"));
  const lines = all("#over line.leader").map((line) => ["x1", "y1", "x2", "y2"].map((name) => Number(line.getAttribute(name))));
  for (const [x1, y1, x2, y2] of lines) {
    for (const label of lettered) {
      let through = false;
      for (let step = 0; step <= 400; step++) {
        const x = origin.left + x1 + (x2 - x1) * step / 400;
        const y = origin.top + y1 + (y2 - y1) * step / 400;
        const { left, top, right, bottom } = label.box;
        through ||= x > left + 1 && x < right - 1 && y > top + 1 && y < bottom - 1;
      }
      if (through) found.push(`a leader runs through ${label.named}`);
    }
  }
  const wide = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth > wide) found.push("the page is wider than its window");
  for (const panel of all("[role=tabpanel], header, #steer, #tabs")) {
    const scrolls = panel.id === "tabs";
    if (!scrolls && panel.scrollWidth > panel.clientWidth + 1) found.push(`${panel.id || panel.tagName} is wider than its room`);
  }
  for (const node of all("[role=tabpanel] *, header *, #steer *")) {
    if (box(node).right > wide + 1) found.push(`${named(node)} runs over the window's edge`);
    if (node.children.length === 0 && node.scrollWidth > node.clientWidth + 1 && getComputedStyle(node).display !== "inline") {
      found.push(`${named(node)} is cut off`);
    }
  }
  return found;
}
