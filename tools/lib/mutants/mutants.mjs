// tools/mutants MODULE [--count N | --all] [--seed S] [--tests "a_tests,b_tests --gtest_filter=One*"]
//
// How much do the tests of a module catch? Puts small faults into its code by rule (a constant, a comparison, a sign, a
// call left out), runs its tests against each, and says which faults no test has seen. All faults are compiled at once,
// each behind a switch (switches.h); the few that cannot be, because the compiler needs a constant there, are built one
// at a time. A fault is tried against the tests that come by it. It works in a tree of its own (build-mutants), of the
// last commit; yours stays as it is. Exit code 1 when fewer than 95 % of the faults that compile are caught.
import { execFileSync, spawn, spawnSync } from "node:child_process";
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { availableParallelism } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { faultsIn, switched } from "./faults.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const root = dirname(dirname(dirname(here)));
const home = join(root, "build-mutants");
const tree = join(home, "tree");
const build = join(home, "build");
const WANTED = 0.95;
const TEST_SECONDS = 120; // a fault that makes a loop endless is caught too ...
const TEST_BYTES = 6e9; // ... and one that fills the memory
const NO_FAULT = 77; // how switches.h ends where a fault means nothing

/** The tests that look at a module, where they are not its own alone: a program, and of a large one the part meant. */
const TESTS = {
  judge: ["judge_tests", "job_tests", "test/laws_tests --gtest_filter=DrawnGolden*"],
  assembly: ["assembly_tests", "job_tests", "test/laws_tests --gtest_filter=DrawnGolden*"],
  resolve: ["resolve_tests", "job_tests"],
  store: ["store_tests", "test/durability_tests"],
};
const programs = (tests) => [...new Set(tests.map((test) => test.split(" ")[0]))];

function usage(why) {
  console.error(`${why}\nusage: tools/mutants MODULE [--count N | --all] [--seed S] [--tests "a_tests,b_tests --gtest_filter=One*"]`);
  process.exit(2);
}

function options(words) {
  const asked = { module: "", count: 40, seed: 1, tests: [] };
  for (let i = 0; i < words.length; i += 1) {
    if (words[i] === "--count") asked.count = Number(words[(i += 1)]);
    else if (words[i] === "--all") asked.count = Infinity;
    else if (words[i] === "--seed") asked.seed = Number(words[(i += 1)]);
    else if (words[i] === "--tests") asked.tests = words[(i += 1)].split(",");
    else if (asked.module === "") asked.module = words[i];
    else usage(`What is ${words[i]}?`);
  }
  if (!existsSync(join(root, "src", asked.module)) || asked.module === "") usage(`No module ${asked.module}.`);
  if (!(asked.count > 0) || !Number.isInteger(asked.seed)) usage("--count and --seed are whole numbers.");
  if (asked.tests.length === 0) asked.tests = TESTS[asked.module] ?? [`${asked.module}_tests`];
  return asked;
}

/** Numbers in [0, 1), the same for the same seed (mulberry32). */
function generator(seed) {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

// ---- the tree and its build

const git = (...words) => execFileSync("git", words, { stdio: ["ignore", "pipe", "ignore"] }).toString().trim();

function prepare() {
  if (!existsSync(tree)) git("-C", root, "worktree", "add", "--detach", tree);
  git("-C", tree, "checkout", "--force", "--detach", git("-C", root, "rev-parse", "HEAD"));
  execFileSync("cmake", ["-S", tree, "-B", build, "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Release", "-DSHIMWRIGHT_WEB=OFF", "-DSHIMWRIGHT_WERROR=OFF", "-DCMAKE_CXX_FLAGS=-D_GLIBCXX_ASSERTIONS"], { stdio: "ignore" });
  copyFileSync(join(here, "switches.h"), join(tree, "src", "base", "switches.h"));
}

/** What the compiler says; empty when all is built. */
function built(tests) {
  const run = spawnSync("cmake", ["--build", build, "--target", ...programs(tests).map((one) => one.split("/").at(-1)), "--", "-k0"], { maxBuffer: 1 << 28 });
  return run.status === 0 ? "" : `${run.stdout}${run.stderr}`;
}

/** Every file of the module that faults can be put in, with its faults; `number` counts them through. */
function sourcesOf(module) {
  const folder = join(tree, "src", module);
  let number = 0;
  return readdirSync(folder)
    .filter((name) => name.endsWith(".cc") && !name.endsWith("_test.cc") && name !== "main.cc")
    .map((name) => {
      const path = join(folder, name);
      const text = readFileSync(path, "utf8");
      const faults = faultsIn(text).map((fault) => ({ ...fault, path, number: (number += 1), alone: false }));
      return { path, text, faults, fixed: new Set() };
    });
}

/** Takes the switches off every line that the compiler refused: those faults are built alone. Whether there were any. */
function giveWay(sources, said) {
  let any = false;
  for (const [, path, line] of said.matchAll(/^(\/[^:\n]*):(\d+):\d+: (?:error|note:\s+in)/gm)) {
    const source = sources.find((one) => one.path === path);
    if (!source) continue;
    const refused = Number(line);
    const words = new Set(source.text.split("\n")[refused - 1]?.match(/\w+/g) ?? []);
    source.text.split("\n").forEach((one, k) => {
      const name = /constexpr [^=({[]*?(\w+)(?:\[\])? *[={[]/.exec(one)?.[1];
      if (k + 1 !== refused && !(name && words.has(name))) return;
      if (!source.fixed.has(k + 1)) any = true;
      source.fixed.add(k + 1);
    });
    for (const fault of source.faults) {
      const last = fault.line + (fault.rule === "and/or" ? 6 : 0); // its operands may go on
      const first = fault.line - (fault.rule === "and/or" ? 6 : 0);
      const hit = source.fixed.has(fault.line) || (refused >= first && refused <= last);
      if (hit && !fault.alone) any = fault.alone = true;
    }
  }
  return any;
}

function buildSwitched(sources, tests) {
  for (let round = 0; round < 40; round += 1) {
    for (const { path, text, faults, fixed } of sources) {
      const body = switched(text, faults.filter((fault) => !fault.alone), fixed);
      const now = `#include "base/switches.h"\n#line 1 "${path}"\n${body}`;
      if (readFileSync(path, "utf8") !== now) writeFileSync(path, now);
    }
    const said = built(tests);
    if (said === "") return;
    if (!giveWay(sources, said)) {
      writeFileSync(join(home, "refused.log"), said);
      throw new Error(`the faults do not compile: ${join(home, "refused.log")}`);
    }
  }
  throw new Error("the faults do not compile, however many of them are left out");
}

// ---- runs

/** Runs one test program; resolves to "passed", "failed" or "nothing". */
function run(program, filter, environment, seconds = TEST_SECONDS) {
  return new Promise((done) => {
    const child = spawn("prlimit", [`--as=${TEST_BYTES}`, join(build, program), "--gtest_brief=1", "--gtest_fail_fast", `--gtest_filter=${filter}`], {
      stdio: "ignore", detached: true, env: { ...process.env, RC_PARAMS: "seed=20261125", ...environment },
    });
    const late = setTimeout(() => process.kill(-child.pid, "SIGKILL"), seconds * 1000);
    child.on("exit", (code) => {
      clearTimeout(late);
      try { process.kill(-child.pid, "SIGKILL"); } catch { /* nothing of it was left */ }
      done(code === 0 ? "passed" : code === NO_FAULT ? "nothing" : "failed");
    });
  });
}

async function each(list, work) {
  let next = 0;
  const worker = async () => {
    while (next < list.length) await work(list[(next += 1) - 1]);
  };
  await Promise.all(Array.from({ length: availableParallelism() }, worker));
}

/** Every single test of the programs: {program, filter}. */
function singleTests(tests) {
  return tests.flatMap((test) => {
    const [program, ...more] = test.split(" ");
    const said = execFileSync(join(build, program), [...more, "--gtest_list_tests"]).toString();
    let suite = "";
    return said.split("\n").flatMap((line) => {
      if (/^\S+\.(\s|$)/.test(line)) suite = line.split(/\s/)[0];
      else if (line.startsWith("  ")) return [{ program, filter: suite + line.trim().split(/\s/)[0] }];
      return [];
    });
  });
}

/** Which faults each test comes by, and how long it takes; those that fail by themselves are told and left out. */
async function cover(tests) {
  mkdirSync(join(home, "cover"), { recursive: true });
  const good = [];
  await each(tests, async (test) => {
    const file = join(home, "cover", `${tests.indexOf(test)}`);
    writeFileSync(file, Buffer.alloc(1 << 16));
    const begun = Date.now();
    if ((await run(test.program, test.filter, { SW_COVER: file })) !== "passed") {
      console.log(`fails without any fault, left out: ${test.filter}`);
      return;
    }
    good.push({ ...test, milliseconds: Date.now() - begun, reached: readFileSync(file) });
  });
  return good.sort((a, b) => a.milliseconds - b.milliseconds);
}

async function trySwitched(fault, tests) {
  let nothing = false;
  for (const test of tests) {
    if (test.reached[fault.number] === 0) continue;
    const seconds = Math.min(TEST_SECONDS, 10 + 0.02 * test.milliseconds);
    const verdict = await run(test.program, test.filter, { SW_FAULT: `${fault.number}` }, seconds);
    if (verdict === "failed") return "caught";
    if (verdict === "nothing") nothing = true;
  }
  return nothing ? "means nothing" : "SURVIVES";
}

async function tryAlone(fault, source, asked) {
  writeFileSync(fault.path, source.text.slice(0, fault.at) + fault.now + source.text.slice(fault.at + fault.old.length));
  const compiles = built(asked.tests) === "";
  let verdict = compiles ? "SURVIVES" : "does not compile";
  for (const test of compiles ? asked.tests : []) {
    const [program, ...more] = test.split(" ");
    const filter = more.join(" ").replace("--gtest_filter=", "") || "*";
    if ((await run(program, filter, {})) !== "passed") verdict = "caught";
    if (verdict === "caught") break;
  }
  writeFileSync(fault.path, source.text);
  return verdict;
}

const asked = options(process.argv.slice(2));
prepare();
const sources = sourcesOf(asked.module);
console.log(`building ${programs(asked.tests).join(", ")} with every fault in it ...`);
buildSwitched(sources, asked.tests);
const tests = await cover(singleTests(asked.tests));
const faults = sources.flatMap((source) => source.faults);
const random = generator(asked.seed);
const left = [...faults];
const drawn = [];
while (left.length > 0 && drawn.length < asked.count) drawn.push(...left.splice(Math.floor(random() * left.length), 1));
console.log(`${faults.length} faults can be made in ${asked.module}; ${drawn.length} drawn with seed ${asked.seed}; ${drawn.filter((one) => one.alone).length} of them are built alone`);

const count = { caught: 0, SURVIVES: 0 };
let n_told = 0;
function tell(fault, verdict) {
  count[verdict] = (count[verdict] ?? 0) + 1;
  if ((n_told += 1) % 50 === 0) console.error(`${n_told} of ${drawn.length}`);
  if (verdict === "caught") return;
  const source = sources.find((one) => one.path === fault.path);
  console.log(`${verdict}: ${fault.path.slice(tree.length + 1)}:${fault.line}: ${fault.rule}: ${source.text.split("\n")[fault.line - 1].trim()}  [${fault.old.trim()} -> ${fault.now.trim()}]`);
}
await each(drawn.filter((one) => !one.alone), async (fault) => tell(fault, await trySwitched(fault, tests)));
for (const source of sources) writeFileSync(source.path, source.text);
for (const fault of drawn.filter((one) => one.alone)) tell(fault, await tryAlone(fault, sources.find((one) => one.path === fault.path), asked));
const compiled = count.caught + count.SURVIVES;
console.log(`${count.caught} of ${compiled} caught (${compiled === 0 ? 0 : ((100 * count.caught) / compiled).toFixed(1)} %)`);
process.exit(compiled > 0 && count.caught >= WANTED * compiled ? 0 : 1);
