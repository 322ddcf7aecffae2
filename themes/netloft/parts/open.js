// Opens the sheet with the key behind the '#' of the address. The key stays in this browser: nothing is fetched or sent.
(() => {
  "use strict";
  const KEY_LETTERS = 52;
  const NONCE_BYTES = 12;
  const LENGTH_BYTES = 4;
  const form = document.querySelector("form");
  const box = form.querySelector("input");
  const sheet = document.querySelector("[data-path]");
  const said = [...document.querySelectorAll("[data-said]")];

  const say = (which) => {
    said.forEach((one) => { one.hidden = one.dataset.said !== which; });
    form.hidden = which === "opening" || which === "insecure" || which === "too_old";
  };

  // What follows the last '#', even if a mail program re-encoded, wrapped or capitalised it.
  const keyIn = (text) => text.split(/#|%23/).pop().toLowerCase().replace(/[^a-z2-7]/g, "");

  const bytesOf = (key) => {
    const bits = [...key].map((letter) => "abcdefghijklmnopqrstuvwxyz234567".indexOf(letter).toString(2).padStart(5, "0")).join("");
    return Uint8Array.from(bits.match(/.{8}/g), (byte) => parseInt(byte, 2));
  };

  const decrypted = async (key) => {
    const bytes = Uint8Array.from(atob(sheet.textContent), (letter) => letter.charCodeAt(0));
    const imported = await crypto.subtle.importKey("raw", bytesOf(key), "AES-GCM", false, ["decrypt"]);
    const how = { name: "AES-GCM", iv: bytes.subarray(0, NONCE_BYTES), additionalData: new TextEncoder().encode(sheet.dataset.path) };
    return crypto.subtle.decrypt(how, imported, bytes.subarray(NONCE_BYTES));
  };

  const unpacked = (plain) => {
    const packed = new Uint8Array(plain, LENGTH_BYTES, new DataView(plain).getUint32(0));
    return new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"))).text();
  };

  const open = async (key) => {
    if (!key) return say("missing");
    if (key.length !== KEY_LETTERS) return say("cut");
    say("opening");
    let text;
    try {
      text = await unpacked(await decrypted(key));
    } catch {
      return say("wrong");
    }
    // With the key in the address the sheet can be loaded again and kept as a bookmark.
    history.replaceState(null, "", `#${key}`);
    // Written and not shown in a frame, so that the sheet is the page: it prints, and its own script runs.
    document.open();
    document.write(text);
    document.close();
  };

  document.querySelector("[data-without-script]").hidden = true;
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    open(keyIn(box.value));
  });
  addEventListener("hashchange", () => open(keyIn(location.hash)));
  if (!globalThis.crypto?.subtle) say("insecure");
  else if (!globalThis.DecompressionStream) say("too_old");
  else open(keyIn(location.hash));
})();
