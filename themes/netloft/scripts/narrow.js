// Filters the shelves as you type. The address keeps the filters, so that a filtered view can be shared; it is updated
// when the typing pauses, because browsers let a page change its address only so often.
(() => {
  "use strict";
  const panel = document.querySelector(".narrow");
  const shelves = [...document.querySelectorAll(".shelf")];
  const links = [...panel.querySelectorAll("a[data-way]")];
  const find = panel.querySelector("input");
  const status = panel.querySelector("[role=status]");
  const clear = panel.querySelector(".clear");
  const nothing = document.querySelector(".nothing");
  const AT_ONCE = 24;
  let waiting = 0;
  let revealing = 0;
  const ways = ["collection", "vessel", "season", "note"];
  // As people type it without the letter on their keyboard: cafe for café, weiss for weiß, coeur for cœur.
  const TYPED = { ß: "ss", œ: "oe", æ: "ae", ø: "o" };
  const plain = (text) =>
    text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/[ßœæø]/g, (letter) => TYPED[letter]);
  // Read only when the box or a filter is used: most visits never do.
  let read;
  const pieces = () => read ??= [...document.querySelectorAll(".shelf .piece")].map((piece) => ({
    piece,
    shelf: piece.closest(".shelf"),
    words: plain(`${piece.textContent} ${piece.dataset.words}`),
    choices: Object.fromEntries(ways.map((way) => [way, new Set(piece.dataset[way].split("|"))])),
  }));

  const wanted = () => {
    const given = new URLSearchParams(location.search);
    return new URLSearchParams([...ways, "find"].map((key) => [key, given.get(key)]).filter(([, value]) => value));
  };

  // Punctuation around a word is ignored; within one, as in a stock code, it counts.
  const asked = (query) =>
    plain(query.get("find") || "").split(/\s+/).map((word) => word.replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, ""));

  const answering = (query) => {
    const words = asked(query), given = ways.filter((way) => query.has(way)).map((way) => [way, query.get(way)]);
    return (one) => given.every(([way, choice]) => one.choices[way].has(choice)) && words.every((word) => one.words.includes(word));
  };

  const hide = (element, hidden) => {
    if (element.hidden !== hidden) element.hidden = hidden;
  };

  const addressOf = (query) => {
    const text = query.toString();
    return location.pathname + (text ? `?${text}` : "");
  };

  const turned = (query, way, choice) => {
    const next = new URLSearchParams(query);
    if (next.get(way) === choice) next.delete(way);
    else next.set(way, choice);
    return next;
  };

  // The first ones at once and the others after them, so that no key waits for candles far down the page.
  const reveal = (coming) => {
    for (const piece of coming.splice(0, AT_ONCE)) piece.hidden = false;
    if (coming.length) revealing = setTimeout(reveal, 0, coming);
  };

  const show = (query) => {
    const answered = pieces().filter(answering(query));
    const listed = answered.length, shown = new Set(answered), standing = new Set(answered.map((one) => one.shelf));
    for (const one of pieces()) if (!shown.has(one)) hide(one.piece, true);
    for (const shelf of shelves) hide(shelf, !standing.has(shelf));
    clearTimeout(revealing);
    reveal(answered.map((one) => one.piece).filter((piece) => piece.hidden));
    const narrowed = query.toString() !== "";
    const said = narrowed
      ? panel.dataset.countOf.replace("{shown}", listed).replace("{all}", pieces().length)
      : panel.dataset.all;
    if (status.textContent !== said) status.textContent = said;
    hide(clear, !narrowed);
    hide(nothing, listed > 0);
  };

  const lead = (query) => {
    for (const link of links) {
      const { way, choice } = link.dataset;
      link.href = addressOf(turned(query, way, choice));
      if (query.get(way) === choice) link.setAttribute("aria-current", "true");
      else link.removeAttribute("aria-current");
    }
  };

  // The present filters: those in the address, and the words in the box.
  const typed = () => {
    const query = wanted();
    if (find.value.trim()) query.set("find", find.value.trim());
    else query.delete("find");
    return query;
  };

  const follow = () => {
    clearTimeout(waiting);
    const query = wanted();
    find.value = query.get("find") || "";
    show(query);
    lead(query);
  };

  const go = (query, keep) => {
    clearTimeout(waiting);
    history[keep ? "pushState" : "replaceState"](null, "", addressOf(query));
    show(query);
    lead(query);
  };

  panel.addEventListener("click", (event) => {
    const link = event.target.closest("a");
    if (!link || event.metaKey || event.ctrlKey || event.shiftKey) return;
    event.preventDefault();
    go(link === clear ? new URLSearchParams() : turned(typed(), link.dataset.way, link.dataset.choice), true);
    if (link !== clear) return;
    find.value = "";
    find.focus();
  });

  const keep = () => {
    const query = typed();
    // The first search is its own step in the history, so that going back ends the search, not the visit.
    go(query, query.has("find") && !wanted().has("find"));
  };
  find.addEventListener("focus", pieces);
  find.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(keep, 250);
    show(typed());
  });
  panel.querySelector("form").addEventListener("submit", (event) => {
    event.preventDefault();
    keep();
  });

  addEventListener("popstate", follow);
  if (ways.some((way) => wanted().has(way))) panel.querySelector("details").open = true;
  if (wanted().toString()) follow();
  else find.value = "";
})();
