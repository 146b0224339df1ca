// Real results for the harness: node dev/make_data.mjs BINARY writes dev/data.json (not kept in the repository).
import { execFileSync } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const examples = join(here, "../../examples");
const [binary] = process.argv.slice(2);
if (!binary) throw new Error("say which binary: node dev/make_data.mjs path/to/shimwright");

const run = (...args) => JSON.parse(execFileSync(binary, args, { maxBuffer: 1 << 28 }));
const between = (xs, ys, x) => {
  const i = xs.findIndex((v) => v >= x);
  if (i <= 0) return i === 0 ? ys[0] : ys[ys.length - 1];
  return ys[i - 1] + ((x - xs[i - 1]) / (xs[i] - xs[i - 1])) * (ys[i] - ys[i - 1]);
};

/** The answer of /stack for one direction, from a result computed at one pressure. */
function view(direction, path) {
  const { stack, law = [] } = direction;
  const point = stack.points[stack.points.length - 1];
  const shape = stack.shapes[stack.shapes.length - 1];
  const drops = law.map((p) => p.drop);
  const at = (key) => (law.length ? between(drops, law.map((p) => p[key]), point.pressure) : 0);
  return {
    path,
    pressure: point.pressure,
    speed: at("speed"),
    flow: at("flow"),
    lift_at_seat: point.lift_at_seat,
    lift_at_rim: point.lift_at_rim,
    opening_area: point.opening_area,
    outcome: point.outcome,
    worst_disc: point.worst_disc,
    bleed_flow: at("bleed_flow"),
    stack_flow: at("stack_flow"),
    contacts: point.contacts,
    discs: shape.discs.map((d, i) => ({
      number: d.number,
      label: stack.geometry.discs[i].label,
      radius: d.radius,
      height: d.height,
      rest_height: d.radius.map(() => stack.geometry.discs[i].height),
      thickness: stack.geometry.discs[i].thickness,
      stress: d.stress,
      highest_stress: point.discs[i].stress,
      fatigue_margin: point.discs[i].fatigue_margin ?? null,
      carries: stack.geometry.discs[i].carries,
    })),
  };
}

const directionsOf = (document) =>
  document.stack
    ? [{ key: "stack", direction: { stack: document.stack } }]
    : document.units.flatMap((unit, u) =>
        unit.valves.flatMap((valve) =>
          valve.directions
            .filter((d) => d.stack)
            .map((d) => ({ key: `unit[${u}].${valve.place.replace(" ", "_")}.${d.stroke}`, direction: d })),
        ),
      );

const jobs = {};
for (const name of ["enduro-fork/enduro-fork", "enduro-shock/enduro-shock", "stack-only/two-stage", "stack-only/preloaded-ring", "stack-only/imperial"]) {
  const file = join(examples, `${name}.job.toml`);
  const result = run("check", file, "--json");
  const stacks = {};
  for (const { key, direction } of directionsOf(result)) {
    const top = direction.stack.points[direction.stack.points.length - 1].pressure;
    stacks[key] = { top, views: [] };
  }
  const steps = name.startsWith("stack-only") ? 12 : 24;
  for (let k = 1; k <= steps; ++k)
    for (const [key, stack] of Object.entries(stacks)) {
      const p = stack.top * (k / steps) ** 1.6;
      const document = run("stack", file, "--json", "--pressures", `${(p / 1e6).toPrecision(6)} MPa`);
      const found = directionsOf(document).find((d) => d.key === key);
      const law = directionsOf(result).find((d) => d.key === key).direction.law;
      stack.views.push(view({ ...found.direction, law }, key));
    }
  for (const unit of result.units ?? []) {
    delete unit.plan;
    delete unit.settings;
  }
  jobs[name.split("/")[1]] = { result, stacks };
}
// the shock with next to no gas pressure and a weak valve to its reservoir: it draws air
const folder = mkdtempSync(join(tmpdir(), "harness-"));
cpSync(join(examples, "enduro-shock"), folder, { recursive: true });
const job = join(folder, "enduro-shock.job.toml");
const weak = readFileSync(job, "utf8")
  .replace('pressure = "10 bar(g)"', 'pressure = "0.5 bar(g)"')
  .replace(/^stack = \["3 x 21 x 0.20 mm".*$/m, 'stack = ["1 x 21 x 0.10 mm"]')
  .replace(/^back_spring.*$/m, "");
writeFileSync(job, weak);
try {
  run("check", job, "--json");
} catch (stopped) {
  // a finding says stop, which is what it is for: the document is whole all the same
  jobs["airy-shock"] = { result: JSON.parse(stopped.stdout), stacks: {} };
}
rmSync(folder, { recursive: true });
for (const name of ["enduro-fork", "enduro-shock"])
  jobs[name].bench = run("bench", join(examples, name, `${name}.job.toml`), "--json");
writeFileSync(join(here, "data.json"), JSON.stringify(jobs));
