// Opens a sealed page with the WebCrypto of Node, and prints what was in it: node open_sealed.mjs PAGE KEY [PATH]
import { readFileSync } from "node:fs";

const [page, key, path] = process.argv.slice(2);
const [, written, text] = readFileSync(page, "utf8").match(/data-path="([^"]*)">([^<]*)</);
const sealed = Buffer.from(text, "base64");
const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";
const bits = [...key.toUpperCase()].map((letter) => letters.indexOf(letter).toString(2).padStart(5, "0")).join("");
const raw = Uint8Array.from({ length: 32 }, (_, at) => parseInt(bits.slice(8 * at, 8 * at + 8), 2));
const aes = await crypto.subtle.importKey("raw", raw, { name: "AES-GCM" }, false, ["decrypt"]);
const how = { name: "AES-GCM", iv: sealed.subarray(0, 12), additionalData: Buffer.from(path ?? written), tagLength: 128 };
try {
  const plain = Buffer.from(await crypto.subtle.decrypt(how, aes, sealed.subarray(12)));
  const packed = plain.subarray(4, 4 + plain.readUInt32BE(0));
  const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
  process.stdout.write(await new Response(stream).text());
} catch (fault) {
  process.stdout.write(`refused: ${fault.name}`);
}
