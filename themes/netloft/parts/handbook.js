// The search box of the handbook: lists the sections that hold every word, from the index beside the page.
document.addEventListener("DOMContentLoaded", () => {
  const box = document.getElementById("search");
  const answers = document.getElementById("answers");
  const none = document.getElementById("none");
  const most = 30;
  const plain = SECTIONS.map((one) => `${one.page} ${one.title} ${one.text}`.toLowerCase());
  const line = (one, words) => {
    const lines = one.text.split(/\n|(?<=[.?!]) /);
    const held = (text) => words.filter((word) => text.toLowerCase().includes(word)).length;
    return lines.reduce((best, next) => (held(next) > held(best) ? next : best), "");
  };
  const answer = (one, words) => {
    const item = document.createElement("li");
    const link = document.createElement("a");
    const said = document.createElement("p");
    link.href = one.address;
    link.textContent = one.title ? `${one.page}: ${one.title}` : one.page;
    said.textContent = line(one, words);
    item.append(link, said);
    return item;
  };
  box.closest("form").hidden = false;
  box.addEventListener("input", () => {
    const words = box.value.toLowerCase().split(/\s+/).filter(Boolean);
    const found = words.length ? SECTIONS.filter((_, at) => words.every((word) => plain[at].includes(word))) : [];
    answers.replaceChildren(...found.slice(0, most).map((one) => answer(one, words)));
    none.hidden = !words.length || found.length > 0;
  });
  box.closest("form").addEventListener("submit", (event) => event.preventDefault());
});
