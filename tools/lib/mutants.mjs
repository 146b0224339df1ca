// tools/mutants MODULE [--count N] [--seed S] [--tests "a_tests,b_tests --gtest_filter=One*"]
//
// How much do the tests of a module catch? Puts small faults into its code by rule, one at a time (a constant, a
// comparison, a sign, a call left out), builds and runs its tests, and says which faults no test has seen. It works
// in a tree of its own (build-mutants), of the last commit; yours stays as it is. Exit code 1 when fewer than 95 % of the faults
// that compile are caught.
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const home = join(root, "build-mutants");
const tree = join(home, "tree");
const build = join(home, "build");
const WANTED = 0.95;
const TEST_SECONDS = 120; // a fault that makes a loop endless is caught too ...
const TEST_BYTES = 6e9; // ... and one that fills the memory

/** The tests that look at a module, where they are not its own alone: a program, and of a large one the part meant. */
const TESTS = {
  judge: ["judge_tests", "job_tests --gtest_filter=Findings*:*Golden*:Settings*:KeyFigures*", "test/laws_tests --gtest_filter=DrawnGolden*"],
  assembly: ["assembly_tests", "job_tests --gtest_filter=Findings*:*Golden*:BuildPlan*:Fill*:PickList*:Reservoir*", "test/laws_tests --gtest_filter=DrawnGolden*"],
  resolve: ["resolve_tests", "job_tests"],
  store: ["store_tests", "test/durability_tests"],
};
const programs = (tests) => tests.map((test) => test.split(" ")[0]);

function usage(why) {
  console.error(`${why}\nusage: tools/mutants MODULE [--count N] [--seed S] [--tests "a_tests,b_tests --gtest_filter=One*"]`);
  process.exit(2);
}

function options(words) {
  const asked = { module: "", count: 40, seed: 1, tests: [] };
  for (let i = 0; i < words.length; i += 1) {
    if (words[i] === "--count") asked.count = Number(words[(i += 1)]);
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

/** The code alone: comments, texts and preprocessor lines become blanks of the same length. */
function codeOf(text) {
  const blank = (part) => part.replace(/[^\n]/g, " ");
  return text
    .replace(/R"([A-Za-z]*)\([\s\S]*?\)\1"|"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])'|\/\/[^\n]*|\/\*[\s\S]*?\*\//g, blank)
    .replace(/^#[^\n]*/gm, blank);
}

const RULES = [
  { name: "constant", find: /(?<![\w.])(?!0\.0\b)\d+(?:\.\d+)?(?:e-?\d+)?(?![\w.])/g, swap: (t) => (/[.e]/.test(t) ? `(1.1 * ${t} + 1e-9)` : `(${t} + 1)`) },
  { name: "comparison", find: / (<|>|<=|>=|==|!=) /g, swap: (t) => ` ${{ "<": ">=", ">": "<=", "<=": ">", ">=": "<", "==": "!=", "!=": "==" }[t.trim()]} ` },
  { name: "sign", find: / [+-] /g, swap: (t) => (t === " + " ? " - " : " + ") },
  { name: "and/or", find: / (&&|\|\|) /g, swap: (t) => (t === " && " ? " || " : " && ") },
  { name: "call left out", find: /(?<=^ +)(?!return|delete|throw|if|for|while|switch|else|const|auto|static|constexpr|case)[a-z_][\w.:>-]*\([^\n]*\);$/gm, swap: () => ";" },
];

/** Every fault that the rules can make in the module. */
function faultsOf(module) {
  const folder = join(tree, "src", module);
  const faults = [];
  for (const name of readdirSync(folder)) {
    if (!name.endsWith(".cc") || name.endsWith("_test.cc") || name === "main.cc") continue;
    const file = join(folder, name);
    const text = readFileSync(file, "utf8");
    const code = codeOf(text);
    for (const rule of RULES)
      for (const found of code.matchAll(rule.find)) {
        const line = text.slice(0, found.index).split("\n").length;
        faults.push({ file, rule: rule.name, line, at: found.index, old: found[0], now: rule.swap(found[0]) });
      }
  }
  return faults;
}

function chosen(faults, count, random) {
  const left = [...faults];
  const taken = [];
  while (left.length > 0 && taken.length < count) taken.push(...left.splice(Math.floor(random() * left.length), 1));
  return taken;
}

const quietly = (command, words, more = {}) => spawnSync(command, words, { stdio: "ignore", ...more }).status === 0;
const built = (tests) => quietly("cmake", ["--build", build, "--target", ...programs(tests).map((one) => one.split("/").at(-1))]);

function testsPass(tests) {
  for (const test of tests)
    if (!quietly("prlimit", [`--as=${TEST_BYTES}`, join(build, programs([test])[0]), "--gtest_brief=1", "--gtest_fail_fast", ...test.split(" ").slice(1)], { timeout: TEST_SECONDS * 1000, env: { ...process.env, RC_PARAMS: "seed=20261125" } }))
      return false;
  return true;
}

function prepare(tests) {
  if (!existsSync(tree)) execFileSync("git", ["-C", root, "worktree", "add", "--detach", tree], { stdio: "ignore" });
  execFileSync("git", ["-C", tree, "checkout", "--force", "--detach", execFileSync("git", ["-C", root, "rev-parse", "HEAD"]).toString().trim()], { stdio: "ignore" });
  execFileSync("cmake", ["-S", tree, "-B", build, "-G", "Ninja", "-DCMAKE_BUILD_TYPE=Release", "-DSHIMWRIGHT_WEB=OFF", "-DCMAKE_CXX_FLAGS=-D_GLIBCXX_ASSERTIONS"], { stdio: "ignore" });
  console.log(`building ${tests.join(", ")} ...`);
  if (!built(tests)) throw new Error("the tests do not build");
  if (!testsPass(tests)) throw new Error("the tests fail without any fault put in");
}

const asked = options(process.argv.slice(2));
prepare(asked.tests);
const faults = faultsOf(asked.module);
const draw = chosen(faults, asked.count, generator(asked.seed));
console.log(`${faults.length} faults can be made in ${asked.module}; ${draw.length} drawn with seed ${asked.seed}`);
let caught = 0;
let compiled = 0;
for (const fault of draw) {
  const text = readFileSync(fault.file, "utf8");
  writeFileSync(fault.file, text.slice(0, fault.at) + fault.now + text.slice(fault.at + fault.old.length));
  let verdict = "does not compile";
  if (built(asked.tests)) {
    compiled += 1;
    verdict = testsPass(asked.tests) ? "SURVIVES" : "caught";
    if (verdict === "caught") caught += 1;
  }
  writeFileSync(fault.file, text);
  const place = `${fault.file.slice(tree.length + 1)}:${fault.line}`;
  console.log(`${verdict}: ${place}: ${fault.rule}: ${text.split("\n")[fault.line - 1].trim()}${verdict === "SURVIVES" ? `  [${fault.old.trim()} -> ${fault.now.trim()}]` : ""}`);
}
console.log(`${caught} of ${compiled} caught (${compiled === 0 ? 0 : ((100 * caught) / compiled).toFixed(0)} %)`);
process.exit(compiled > 0 && caught >= WANTED * compiled ? 0 : 1);
