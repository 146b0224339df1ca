// The small faults that can be put into a C++ file by rule, and the file with all of them in it, each behind a switch
// (switches.h), so that a module is compiled once and not once for each fault.

/** The code alone: what `away` finds becomes blanks of the same length. */
const blanked = (text, away) => text.replace(away, (part) => part.replace(/[^\n]/g, " "));
const WORDS = /R"(?<tag>[A-Za-z]*)\([\s\S]*?\)\k<tag>"|"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])'/.source;
const REMARKS = /\/\/[^\n]*|\/\*[\s\S]*?\*\//.source;

/** Without comments, texts and preprocessor lines. */
const codeOf = (text) => blanked(blanked(text, new RegExp(`${WORDS}|${REMARKS}`, "g")), /^#[^\n]*/gm);
/** Without comments. */
const saidOf = (text) => text.replace(new RegExp(`(?<word>${WORDS})|${REMARKS}`, "g"), (part, ...more) => (more.at(-1).word ? part : part.replace(/[^\n]/g, " ")));

const OTHER = { "<": ">=", ">": "<=", "<=": ">", ">=": "<", "==": "!=", "!=": "==" };
const SWITCHED = {
  "<": ["Less", ">"], ">": ["More", "<"], "<=": ["LessEqual", ">="], ">=": ["MoreEqual", "<="],
  "==": ["Equal", "=="], "!=": ["Unequal", "!="], "+": ["Plus", "+"], "-": ["Minus", "-"],
};
const joined = (t, n) => {
  const [name, close] = SWITCHED[t.trim()];
  return ` ${t.trim()} (::sw::${name}<${n}>{}) ${close} `;
};

const RULES = [
  { name: "constant", find: /(?<![\w.])(?!0\.0\b)\d+(?:\.\d+)?(?:e-?\d+)?(?![\w.])/g,
    swap: (t) => (/[.e]/.test(t) ? `(1.1 * ${t} + 1e-9)` : `(${t} + 1)`),
    both: (t, n, now) => `(::sw::on(${n}) ? ${now} : ${t})` },
  { name: "comparison", find: / (<|>|<=|>=|==|!=) /g, swap: (t) => ` ${OTHER[t.trim()]} `, both: joined },
  { name: "sign", find: / [+-] /g, swap: (t) => (t === " + " ? " - " : " + "), both: joined },
  { name: "and/or", find: / (&&|\|\|) /g, swap: (t) => (t === " && " ? " || " : " && ") },
  { name: "call left out", swap: () => ";",  // a statement of its own, not the last line of one
    find: /(?<=[;{}):]\s*\n\s*|\belse\n\s*)(?<=^ +)(?!return|delete|throw|if|for|while|switch|else|const|auto|static|constexpr|case)[a-z_][\w.:>-]*\([^\n]*\);$/gm },
];

const lineOf = (text, at) => text.slice(0, at).split("\n").length;

/** Every fault that the rules can make in a text: {rule, at, line, old, now}, in the order of the text. */
export function faultsIn(text) {
  const code = codeOf(text);
  return RULES.flatMap((rule) =>
    [...code.matchAll(rule.find)].map((found) => {
      const old = text.slice(found.index, found.index + found[0].length);
      return { rule: rule.name, at: found.index, line: lineOf(text, found.index), old, now: rule.swap(old) };
    }),
  ).sort((a, b) => a.at - b.at);
}

const OPEN = "([{";
const CLOSE = ")]}";

/** Where the run of operands joined by "&&" and "||" around a place begins and ends, and where its joints are. */
function chainAround(code, at) {
  let depth = 0;
  let from = at;
  for (; from > 0; from -= 1) {
    const c = code[from - 1];
    if (CLOSE.includes(c)) depth += 1;
    else if (OPEN.includes(c)) {
      if (depth === 0) break;
      depth -= 1;
    } else if (depth === 0) {
      if (",;?".includes(c)) break;
      if (c === ":" && code[from - 2] !== ":" && code[from] !== ":") break;
      if (c === "=" && !"=!<>".includes(code[from - 2]) && code[from] !== "=") break;
      if (/(?<!\w)return $/.test(code.slice(Math.max(0, from - 8), from))) break;
    }
  }
  const joints = [];
  let to = from;
  for (depth = 0; to < code.length; to += 1) {
    const c = code[to];
    if (OPEN.includes(c)) depth += 1;
    else if (CLOSE.includes(c)) {
      if (depth === 0) break;
      depth -= 1;
    } else if (depth === 0) {
      if (",;?".includes(c)) break;
      if (c === ":" && code[to - 1] !== ":" && code[to + 1] !== ":") break;
      if (/^ (&&|\|\|) /.test(code.slice(to, to + 4))) joints.push(to);
    }
  }
  return { from, to, joints };
}

/**
 * The text with every fault of `faults` (each with its `number`) behind its switch; lines stay where they are. A
 * constant of the translation becomes one of the run, but not on the lines `fixed`.
 */
export function switched(text, faults, fixed) {
  const code = codeOf(text);
  const said = saidOf(text);
  const at = new Map(faults.map((fault) => [fault.at, fault]));
  const oneLine = (part) => part.replace(/\s*\n\s*/g, " ");

  function render(from, to, outer) {
    let out = "";
    let i = from;
    while (i < to) {
      const chain = chainsFrom.get(i);
      if (chain && chain !== outer) {
        out += renderChain(chain);
        i = chain.to;
        continue;
      }
      const fault = at.get(i);
      if (fault && fault.rule === "call left out") {
        at.delete(i);  // what it is called with may have faults of its own
        out += `::sw::on(${fault.number}) ? void() : void(${render(i, i + fault.old.length - 1, outer)});`;
        i += fault.old.length;
        continue;
      }
      const rule = fault && RULES.find((one) => one.name === fault.rule);
      if (rule && rule.both) {
        out += rule.both(fault.old, fault.number, fault.now);
        i += fault.old.length;
        continue;
      }
      out += said[i];
      i += 1;
    }
    return out;
  }

  function renderChain(chain) {
    const cuts = [chain.from, ...chain.joints, chain.to];
    const operands = chain.joints.map((_, k) => [k === 0 ? cuts[0] : cuts[k] + 4, cuts[k + 1]]);
    operands.push([cuts[chain.joints.length] + 4, chain.to]);
    const texts = operands.map(([a, b]) => oneLine(render(a, b, chain)));
    const all = (swapped) =>
      texts.map((one, k) => (k === 0 ? "" : ` ${jointText(chain.joints[k - 1], k - 1 === swapped)} `) + one).join("");
    const jointText = (where, other) => {
      const old = code.slice(where + 1, where + 3);
      return other ? { "&&": "||", "||": "&&" }[old] : old;
    };
    let out = `(${all(-1)})`;
    chain.joints.forEach((where, k) => {
      const fault = at.get(where);
      if (fault) out = `(::sw::on(${fault.number}) ? static_cast<bool>(${all(k)}) : static_cast<bool>(${out}))`;
    });
    const lead = /^\s*/.exec(said.slice(chain.from, chain.to))[0];
    return lead.replace(/\n/g, "") + out + "\n".repeat(said.slice(chain.from, chain.to).split("\n").length - 1);
  }

  const chainsFrom = new Map();
  for (const fault of faults)
    if (fault.rule === "and/or") {
      const chain = chainAround(code, fault.at);
      const known = chainsFrom.get(chain.from);
      if (!known || known.to < chain.to) chainsFrom.set(chain.from, chain);
    }
  return render(0, text.length, null)
    .split("\n")
    .map((line, k) => (fixed.has(k + 1) ? line : line.replace(/^( *)(?:static )?constexpr (?!bool|int|std::size_t|auto)/, (_, indent) => (indent === "" ? "const " : `${indent}static const `))))
    .join("\n");
}
