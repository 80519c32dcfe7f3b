// Bundles the page into the folder named on the command line.
import { copyFile, mkdir, readdir, readFile, writeFile } from "node:fs/promises";
import { basename, join } from "node:path";
import { argv, exit } from "node:process";
import { build } from "esbuild";

const [out] = argv.slice(2);
if (!out) {
  console.error("usage: node build.mjs FOLDER");
  exit(2);
}

await mkdir(out, { recursive: true });
const { metafile } = await build({
  entryPoints: { app: "src/main.tsx", style: "src/style/main.css" },
  outdir: out,
  entryNames: "[name]-[hash]", // so that a browser may keep them
  bundle: true,
  format: "esm",
  splitting: true,
  target: ["es2022"],
  minify: true,
  legalComments: "none", // all licences go into a file of their own
  jsx: "automatic",
  jsxImportSource: "preact",
  external: ["/fonts/*"],
  metafile: true,
  logLevel: "warning",
});
await writeFile(join(out, "index.html"), named(await readFile("index.html", "utf8")));
await copyFile("src/icon.svg", join(out, "icon.svg"));
await writeFile(join(out, "libraries.txt"), await licences(Object.keys(metafile.inputs)));

/** The page with the names that its script and its style sheet got. */
function named(html) {
  const made = Object.keys(metafile.outputs).map((file) => basename(file));
  return ["app.js", "style.css"].reduce((text, plain) => {
    const [stem, ending] = plain.split(".");
    const name = made.find((file) => file.startsWith(`${stem}-`) && file.endsWith(`.${ending}`));
    return text.replace(`/${plain}"`, `/${name}"`);
  }, html);
}

/** What the page is made of besides its own code, with the licences that go with it. */
async function licences(files) {
  const found = files.map((f) => /^node_modules\/((@[^/]+\/)?[^/]+)\//.exec(f)?.[1]);
  const names = [...new Set(found.filter(Boolean))].sort();
  const parts = await Promise.all(names.map(licence));
  return parts.join(`\n${"-".repeat(72)}\n\n`);
}

async function licence(name) {
  const folder = join("node_modules", name);
  const about = JSON.parse(await readFile(join(folder, "package.json"), "utf8"));
  const file = (await readdir(folder)).find((f) => /^licen[cs]e/i.test(f));
  const text = file ? await readFile(join(folder, file), "utf8") : "";
  return `${name} ${about.version} (${about.license})\n\n${text.trim()}\n`;
}
