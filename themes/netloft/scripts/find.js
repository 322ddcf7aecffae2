// Leads from a lot code to the lot's page, whose name is the digest of the house's salt and the code.
(() => {
  "use strict";
  const form = document.querySelector(".find-lot");
  const input = form.querySelector("input");
  const answers = [...document.querySelectorAll("[data-answer]")];
  const say = (which) => answers.forEach((one) => { one.hidden = one.dataset.answer !== which; });

  // As in generator/model/lots.py: capitals and digits alone.
  const plain = (code) => code.toUpperCase().replace(/[^A-Z0-9]/g, "");

  // SHA-256 after FIPS 180-4. Browsers offer theirs only over https, and a lot must be found over http too.
  const primes = [];
  for (let number = 2; primes.length < 64; number += 1) {
    if (primes.every((prime) => number % prime)) primes.push(number);
  }
  const fraction = (number) => ((number - Math.floor(number)) * 2 ** 32) | 0;
  const constants = primes.map((prime) => fraction(Math.cbrt(prime)));
  const beginning = primes.slice(0, 8).map((prime) => fraction(Math.sqrt(prime)));
  const turned = (word, by) => (word >>> by) | (word << (32 - by));

  const scheduled = (words) => {
    const w = words.slice();
    for (let t = 16; t < 64; t += 1) {
      const s0 = turned(w[t - 15], 7) ^ turned(w[t - 15], 18) ^ (w[t - 15] >>> 3);
      const s1 = turned(w[t - 2], 17) ^ turned(w[t - 2], 19) ^ (w[t - 2] >>> 10);
      w[t] = (w[t - 16] + s0 + w[t - 7] + s1) | 0;
    }
    return w;
  };

  const compressed = (state, words) => {
    let [a, b, c, d, e, f, g, h] = state;
    scheduled(words).forEach((word, t) => {
      const s1 = turned(e, 6) ^ turned(e, 11) ^ turned(e, 25);
      const first = (h + s1 + ((e & f) ^ (~e & g)) + constants[t] + word) | 0;
      const s0 = turned(a, 2) ^ turned(a, 13) ^ turned(a, 22);
      const second = (s0 + ((a & b) ^ (a & c) ^ (b & c))) | 0;
      [a, b, c, d, e, f, g, h] = [(first + second) | 0, a, b, c, (d + first) | 0, e, f, g];
    });
    return [a, b, c, d, e, f, g, h].map((word, at) => (word + state[at]) | 0);
  };

  const sha256 = (text) => {
    const bytes = new TextEncoder().encode(text);
    const padded = new DataView(new ArrayBuffer(Math.ceil((bytes.length + 9) / 64) * 64));
    bytes.forEach((byte, at) => padded.setUint8(at, byte));
    padded.setUint8(bytes.length, 0x80);
    padded.setUint32(padded.byteLength - 4, bytes.length * 8);
    let state = beginning;
    for (let block = 0; block < padded.byteLength; block += 64) {
      state = compressed(state, Array.from({ length: 16 }, (_, at) => padded.getInt32(block + at * 4)));
    }
    return state.map((word) => (word >>> 0).toString(16).padStart(8, "0")).join("");
  };

  // From disk a page cannot be requested, only shown: in a hidden frame it reports that it is there.
  const answersInAFrame = (address) =>
    new Promise((answer) => {
      const frame = document.createElement("iframe");
      frame.hidden = true;
      frame.src = address;
      addEventListener("message", (event) => event.source === frame.contentWindow && answer(true));
      frame.addEventListener("load", () => setTimeout(answer, 300, false));
      document.body.append(frame);
    });
  // Unless the answer is a clear no, go on: the host's own message is better than a wrong one of ours.
  const isThere = (address) =>
    location.protocol === "file:"
      ? answersInAFrame(address)
      : fetch(address, { method: "HEAD" }).then((found) => found.status !== 404, () => true);

  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const code = plain(input.value);
    say(code ? "" : "empty");
    if (!code) return;
    const address = `${form.dataset.lots}${sha256(form.dataset.salt + code)}.html`;
    if (await isThere(address)) location.href = address;
    else say("unknown");
  });
})();
