// Narrows the shelves. The address's query is the only state, so that a narrowed view can be kept and shared.
(() => {
  "use strict";
  const panel = document.querySelector(".narrow");
  const pieces = [...document.querySelectorAll(".piece")];
  const links = [...panel.querySelectorAll("a[data-way]")];
  const find = panel.querySelector("input");
  const status = panel.querySelector("[role=status]");
  const clear = panel.querySelector(".clear");
  const nothing = document.querySelector(".nothing");
  let waiting = 0;
  const ways = ["collection", "vessel", "season", "note"];
  const plain = (text) => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();
  const spoken = new Map(pieces.map((piece) => [piece, plain(`${piece.textContent} ${piece.dataset.words}`)]));

  const wanted = () => {
    const given = new URLSearchParams(location.search);
    return new URLSearchParams([...ways, "find"].map((key) => [key, given.get(key)]).filter(([, value]) => value));
  };

  // Signs around a word are not looked for; those within one, as in a stock code, are.
  const asked = (query) =>
    plain(query.get("find") || "").split(/\s+/).map((word) => word.replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, ""));

  const answers = (piece, query) =>
    ways.every((way) => !query.get(way) || piece.dataset[way].split("|").includes(query.get(way))) &&
    asked(query).every((word) => spoken.get(piece).includes(word));

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

  const show = () => {
    const query = wanted();
    for (const piece of pieces) piece.hidden = !answers(piece, query);
    const listed = pieces.filter((piece) => !piece.hidden).length;
    for (const shelf of document.querySelectorAll(".shelf")) {
      shelf.hidden = !shelf.querySelector(".piece:not([hidden])");
    }
    for (const link of links) {
      const { way, choice } = link.dataset;
      link.href = addressOf(turned(query, way, choice));
      if (query.get(way) === choice) link.setAttribute("aria-current", "true");
      else link.removeAttribute("aria-current");
    }
    const narrowed = query.toString() !== "";
    const said = narrowed
      ? panel.dataset.countOf.replace("{shown}", listed).replace("{all}", pieces.length)
      : panel.dataset.all;
    if (status.textContent !== said) status.textContent = said;
    clear.hidden = !narrowed;
    nothing.hidden = listed > 0;
  };

  const follow = () => {
    clearTimeout(waiting);
    find.value = wanted().get("find") || "";
    show();
  };

  const go = (query, keep) => {
    clearTimeout(waiting);
    history[keep ? "pushState" : "replaceState"](null, "", addressOf(query));
    show();
  };

  panel.addEventListener("click", (event) => {
    const link = event.target.closest("a");
    if (!link || event.metaKey || event.ctrlKey || event.shiftKey) return;
    event.preventDefault();
    go(link === clear ? new URLSearchParams() : turned(wanted(), link.dataset.way, link.dataset.choice), true);
    if (link !== clear) return;
    find.value = "";
    find.focus();
  });

  const search = () => {
    const query = wanted();
    if (find.value.trim()) query.set("find", find.value.trim());
    else query.delete("find");
    // The first search is a step of its own, so that going back ends it and does not leave the page.
    go(query, query.has("find") && !wanted().has("find"));
  };
  find.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(search, 150);
  });
  panel.querySelector("form").addEventListener("submit", (event) => {
    event.preventDefault();
    search();
  });

  addEventListener("popstate", follow);
  if (links.some((link) => wanted().get(link.dataset.way))) panel.querySelector("details").open = true;
  follow();
})();
