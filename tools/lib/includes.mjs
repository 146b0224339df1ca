// What tools/check_includes looks for: a C++ file that uses a name of the standard library whose header neither it nor
// any of our own headers that it reads includes. Another compiler's headers need not bring it along, and a build that
// compiles many files as one would not notice.
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";

const std = (names) => new RegExp(`\\bstd::(?:ranges::)?(?:${names})\\b`);
const NAMES = {
  algorithm: /\bstd::(?:ranges::)?(?:any_of|all_of|none_of|find_if|find|sort|stable_sort|count_if|count|max_element|min_element|minmax_element|transform|copy_if|copy|fill|lower_bound|upper_bound|remove_if|unique|reverse|rotate|max|min|clamp|minmax|equal|replace|for_each|partition_point|binary_search|adjacent_find|is_sorted|stable_partition|unique)(?:<[^>]*>)?\(/,
  array: std("array"),
  atomic: std("atomic(?:_\\w+)?"),
  chrono: /\bstd::chrono::/,
  cmath: std("(?:abs|sqrt|pow|exp|log|log10|sin|cos|tan|atan2?|hypot|floor|ceil|round|lround|isfinite|isinf|isnan|copysign|cbrt|fmod)(?=\\()"),
  filesystem: /\bstd::filesystem::/,
  fstream: std("[io]?fstream"),
  functional: std("function|hash|reference_wrapper"),
  initializer_list: std("initializer_list"),
  iterator: std("back_inserter|istreambuf_iterator|ostream_iterator"),
  limits: std("numeric_limits"),
  map: std("map|multimap"),
  memory: std("unique_ptr|make_unique|shared_ptr|make_shared|weak_ptr"),
  mutex: std("mutex|lock_guard|unique_lock|scoped_lock"),
  numbers: /\bstd::numbers::/,
  numeric: std("accumulate|iota|inner_product|partial_sum"),
  optional: std("optional|nullopt"),
  set: std("set|multiset"),
  span: std("span"),
  sstream: std("[io]?stringstream"),
  string: std("string|to_string|stod|stoi"),
  string_view: std("string_view"),
  thread: std("thread|jthread|this_thread"),
  tuple: std("tuple|tie|make_tuple"),
  unordered_map: std("unordered_map"),
  variant: std("variant|visit|get_if|holds_alternative|monostate"),
  vector: std("vector"),
};
// a header that is promised to bring another
const BRINGS = { string: ["string_view", "initializer_list"], vector: ["initializer_list"], map: ["initializer_list"], set: ["initializer_list"], fstream: ["string"], sstream: ["string"], filesystem: ["string"], array: [], span: ["array"], thread: [], optional: [], variant: [] };

const files = execFileSync("git", ["ls-files", "--cached", "--others", "--exclude-standard", "*.cc", "*.h"]).toString().trim().split("\n").filter((file) => existsSync(file));
const texts = new Map(files.map((file) => [file, readFileSync(file, "utf8")]));
const roots = ["src/", "test/", "fuzz/", "bench/"];

function included(file, seen, found) {
  if (seen.has(file)) return;
  seen.add(file);
  for (const [, system, own] of texts.get(file).matchAll(/^#include (?:<([^>]+)>|"([^"]+)")/gm)) {
    if (system) [system, ...(BRINGS[system] ?? [])].forEach((one) => found.add(one));
    else {
      const beside = file.slice(0, file.lastIndexOf("/") + 1) + own;
      const path = [beside, ...roots.map((root) => root + own)].find((one) => texts.has(one));
      if (path) included(path, seen, found);
    }
  }
}

let n_faults = 0;
for (const [file, text] of texts) {
  const found = new Set();
  included(file, new Set(), found);
  const code = text.replace(/"(?:\\.|[^"\\\n])*"|\/\/[^\n]*|\/\*[\s\S]*?\*\//g, "");
  for (const [header, name] of Object.entries(NAMES)) {
    if (found.has(header) || !name.test(code)) continue;
    console.log(`${file}: uses ${name.exec(code)[0].replace("(", "")}, but <${header}> comes from no header of ours`);
    n_faults += 1;
  }
}
process.exit(n_faults > 0 ? 1 : 0);
