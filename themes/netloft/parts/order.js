// Adds the order up as it is typed, in whole coins and grams, and hands it over as text, table or message.
(() => {
  "use strict";
  const LONGEST_MAIL = 1800;
  const sheet = JSON.parse(document.querySelector("[data-sheet]").textContent);
  const { words } = sheet;
  const at = (name) => document.querySelector(`[data-${name}]`);
  const filled = (text, values) => text.replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
  const textOf = (row, kind) => row.querySelector(kind)?.textContent ?? "";

  const lines = [...document.querySelectorAll("input[data-code]")].map((input) => {
    const row = input.closest("tr");
    const given = input.dataset;
    return {
      row,
      input,
      given,
      code: given.code,
      coins: Number(given.coins),
      pieces: Number(given.case) || 1,
      isCase: given.case !== "",
      least: Number(given.least),
      packG: given.packG === "" ? null : Number(given.packG),
      scent: textOf(row.closest("tbody"), "th"),
      size: textOf(row, ".size b"),
      cost: row.querySelector(".cost"),
    };
  });
  const fields = [...document.querySelectorAll(".fields [name]")];

  const packs = (line) => Math.min(Math.max(0, Math.trunc(Number(line.input.value) || 0)), 9999);
  const candles = (line) => packs(line) * line.pieces;
  const cost = (line) => candles(line) * line.coins;
  const ordered = () => lines.filter((line) => packs(line) > 0);
  const sum = (numbers) => numbers.reduce((all, one) => all + one, 0);

  const plain = (coins) => {
    const digits = String(coins).padStart(sheet.places + 1, "0");
    return sheet.places ? `${digits.slice(0, -sheet.places)}.${digits.slice(-sheet.places)}` : digits;
  };
  const signed = (number) => {
    const [whole, places] = number.split(".");
    const apart = whole.replace(/\B(?=(\d{3})+(?!\d))/g, sheet.signs.thousands);
    return places ? `${apart}${sheet.signs.decimal}${places}` : apart;
  };
  const money = (coins) => sheet.around_money.join(signed(plain(coins)));
  const forms = new Intl.PluralRules(document.documentElement.lang || undefined);
  const counted = (count, sentences) => filled(sentences[forms.select(count)] ?? sentences.other, { count });
  const parcel = (grams) => {
    const tenths = String(Math.floor(grams * 10 / Number(sheet.unit_g) + 0.5)).padStart(2, "0");
    return `${signed(`${tenths.slice(0, -1)}.${tenths.slice(-1)}`)}\u00a0${sheet.unit}`;
  };

  const totals = () => {
    const taken = ordered();
    const weights = taken.map((line) => line.packG === null ? NaN : line.packG * packs(line));
    return {
      candles: sum(taken.map(candles)),
      cases: sum(taken.filter((line) => line.isCase).map(packs)),
      loose: sum(taken.filter((line) => !line.isCase).map(packs)),
      coins: sum(taken.map(cost)),
      grams: sum(weights),
      tooFew: taken.filter((line) => candles(line) < line.least),
    };
  };

  const parcelText = (order) => [
    counted(order.candles, sheet.counted.candles),
    ...order.cases ? [counted(order.cases, sheet.counted.cases)] : [],
    ...order.loose ? [filled(words.loose_pieces, { count: order.loose })] : [],
    Number.isNaN(order.grams) ? words.weight_unknown : filled(words.weight, { weight: parcel(order.grams) }),
  ].join(" · ");

  const lacks = (order) => [
    ...sheet.smallest.map((each) => {
      const lack = Math.max(each.coins - order.coins, 0);
      return filled(lack ? words.to_reach : words.reached, { ...each, lack: money(lack) });
    }),
    ...order.tooFew.length ? [filled(words.too_few, { codes: order.tooFew.map((line) => line.code).join(", ") })] : [],
  ];

  const show = () => {
    const order = totals();
    lines.forEach((line) => {
      line.cost.textContent = packs(line) ? money(cost(line)) : "";
      line.row.classList.toggle("ordered", packs(line) > 0);
      line.row.classList.toggle("too-few", order.tooFew.includes(line));
    });
    fields.forEach((field) => field.classList.toggle("empty", !field.value));
    at("total").textContent = money(order.coins);
    at("parcel").textContent = order.candles ? parcelText(order) : words.total_empty;
    at("lacks").replaceChildren(...lacks(order).map((text) => Object.assign(document.createElement("li"), { textContent: text })));
  };

  // Browsers that store nothing for a page throw.
  const keep = () => {
    const typed = Object.fromEntries(ordered().map((line) => [line.code, packs(line)]));
    const written = Object.fromEntries(fields.filter((field) => field.value !== field.dataset.given).map((field) => [field.name, field.value]));
    try {
      localStorage.setItem(sheet.kept_as, JSON.stringify({ typed, written }));
    } catch {
      at("kept").textContent = words.not_kept;
    }
  };
  const kept = () => {
    try {
      return JSON.parse(localStorage.getItem(sheet.kept_as)) ?? {};
    } catch {
      at("kept").textContent = words.not_kept;
      return {};
    }
  };

  const lineText = (line) => filled(words.text_line, {
    ...line,
    count: line.isCase ? filled(words.text_cases, { packs: packs(line), case: line.pieces, pieces: candles(line) }) : candles(line),
    price: money(line.coins),
    cost: money(cost(line)),
  });
  const labelled = (field) => `${field.labels[0].textContent}: ${field.value.trim().split("\n").join(", ")}`;
  const orderText = () => {
    const order = totals();
    return [
      sheet.title, "",
      ...fields.filter((field) => field.value.trim()).map(labelled), "",
      ...ordered().map(lineText), "",
      parcelText(order),
      `${words.total}: ${money(order.coins)}`,
    ].join("\n");
  };

  // An apostrophe keeps a spreadsheet from reading a formula, also where it parts lines at semicolons or tabs.
  const cell = (text, place) => {
    const isNumber = place > 0 && /^[+-]?[0-9]+(\.[0-9]+)?$/.test(text);
    const harmless = isNumber ? text : text.replace(/(^|[;\t\r\n])(?=[\s"]*[=+\-@])|^(?=[\t\r])/g, "$1'");
    return /[,;\t"\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
  };
  const shelfOf = (row) => document.getElementById(row.closest("table").getAttribute("aria-labelledby")).textContent;
  const cells = (line) => ({
    stock_code: line.code,
    barcode: textOf(line.row, ".barcode"),
    collection: shelfOf(line.row),
    scent: line.scent,
    size: line.size,
    remark: textOf(line.row, ".remark"),
    net_quantity: textOf(line.row, ".net"),
    burn_hours: textOf(line.row, ".hours b"),
    burn_hours_basis: textOf(line.row, ".hours i"),
    case: line.given.case,
    case_g: line.given.packG,
    minimum: line.given.least,
    currency: sheet.currency,
    trade_price: plain(line.coins),
    retail_price: line.given.retail,
    retail_tax_percent: line.given.tax,
    margin_percent: line.given.margin,
    packs: packs(line) || "",
    candles: candles(line) || "",
    cost: packs(line) ? plain(cost(line)) : "",
  });
  const table = () => {
    const rows = lines.map(cells).map((row) => sheet.columns.map((column, place) => cell(String(row[column]), place)).join(","));
    return `\ufeff${[sheet.columns.join(","), ...rows].join("\n")}\n`;
  };

  const tell = (text) => { at("told").textContent = text; };
  const copy = async () => {
    const box = at("text");
    box.value = orderText();
    try {
      await navigator.clipboard.writeText(box.value);
      box.hidden = true;
      return true;
    } catch {
      box.hidden = false;
      box.select();
      return false;
    }
  };
  const mail = async () => {
    const number = document.querySelector(".fields [name=number]").value.trim();
    const subject = number ? filled(sheet.subject_number, { number }) : sheet.subject;
    const address = (body) => `mailto:${sheet.mail_to}?subject=${encodeURIComponent(subject)}&body=${encodeURIComponent(body.replaceAll("\n", "\r\n"))}`;
    const whole = address(orderText());
    const isLong = whole.length > LONGEST_MAIL;
    if (isLong) tell(await copy() ? words.mail_long : words.not_copied);
    location.href = isLong ? address(words.mail_paste) : whole;
  };
  const download = () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([table()], { type: "text/csv;charset=utf-8" }));
    link.download = sheet.file;
    link.click();
    URL.revokeObjectURL(link.href);
  };
  const fill = ({ typed = {}, written = {} }) => {
    lines.forEach((line) => { line.input.value = typed[line.code] ?? ""; });
    fields.forEach((field) => { field.value = written[field.name] ?? field.dataset.given; });
  };
  const clear = () => {
    if (!confirm(words.clear_sure)) return;
    fill({});
    keep();
    show();
    tell("");
  };
  const ways = { mail, table: download, clear, print: () => print(), copy: async () => tell(await copy() ? words.copied : words.not_copied) };

  document.querySelectorAll("[data-without-script]").forEach((one) => { one.hidden = true; });
  document.querySelectorAll("[data-with-script]").forEach((one) => { one.hidden = false; });
  document.querySelectorAll("[data-do]").forEach((button) => button.addEventListener("click", () => ways[button.dataset.do]()));
  fields.forEach((field) => { field.dataset.given = field.value; });
  fill(kept());
  document.addEventListener("input", () => { keep(); show(); });
  show();
})();
