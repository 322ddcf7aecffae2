// Judges style sheets by the CSS grammar: reads [{name, text}] as JSON, writes the faults as a JSON list of sentences.
// node check_styles.mjs FOLDER_OF_NODE_MODULES < styles.json
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";

const { lexer, parse, walk, generate, find } = createRequire(`${process.argv[2]}/`)("css-tree");
const faults = [];

for (const { name, text } of JSON.parse(readFileSync(0, "utf8"))) {
  const told = (node, what) => faults.push(`${name}:${node.loc?.start.line ?? "?"}: ${what}`);
  const sheet = parse(text, {
    positions: true,
    parseCustomProperty: false,
    onParseError: (fault) => faults.push(`${name}:${fault.line}: ${fault.message}`),
  });
  walk(sheet, function (node) {
    if (node.type === "Raw" && this.declaration === null) told(node, `cannot be read: ${node.value}`);
    if (node.type !== "Declaration" || node.property.startsWith("--")) return;
    // Values that hold a variable are known only when it is; their property is looked up all the same.
    const hasVariable = find(node.value, (part) => part.type === "Function" && part.name === "var");
    const isDescriptor = this.atrule !== null && ["font-face", "page"].includes(this.atrule.name) && this.rule === null;
    if (isDescriptor && this.atrule.name === "font-face") return;
    if (hasVariable) {
      if (!lexer.getProperty(node.property)) told(node, `no property ${node.property}`);
      return;
    }
    const { error } = lexer.matchDeclaration(node);
    if (error) told(node, `${node.property}: ${generate(node.value)}: ${error.message.split("\n")[0]}`);
  });
}
process.stdout.write(JSON.stringify(faults));
