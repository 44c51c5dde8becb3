// SPDX-License-Identifier: MIT
// Run a WebAssembly program of the WASI preview 1 kind: node run.mjs PROGRAM.wasm
import { readFile } from "node:fs/promises";
import { WASI } from "node:wasi";

const wasi = new WASI({ version: "preview1", returnOnExit: true });
const program = await WebAssembly.compile(await readFile(process.argv[2]));
const imports = { wasi_snapshot_preview1: wasi.wasiImport };
process.exitCode = wasi.start(await WebAssembly.instantiate(program, imports));
