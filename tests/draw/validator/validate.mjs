// Validates scenes with the Khronos validator: prints what it finds, and fails on anything but the
// remark that tangents are left to the viewer to make.
// npm ci --prefix tests/draw/validator && node tests/draw/validator/validate.mjs FILE.glb ...
import { readFile } from "node:fs/promises";
import process from "node:process";
import { validateBytes } from "gltf-validator";

const REMARK = "MESH_PRIMITIVE_GENERATED_TANGENT_SPACE";
let bad = 0;
for (const path of process.argv.slice(2)) {
  const { issues } = await validateBytes(new Uint8Array(await readFile(path)));
  const found = issues.messages.filter((m) => m.code !== REMARK);
  console.log(path, issues.numErrors, "errors", issues.truncated ? "truncated" : "");
  for (const m of found) console.log(" ", m.code, m.pointer, m.message);
  bad += found.length + (issues.truncated ? 1 : 0);
}
process.exit(bad ? 1 : 0);
