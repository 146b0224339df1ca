#include "job/run.h"

#include "job/asked_values.h"

#include <fmt/core.h>

#include <algorithm>
#include <optional>
#include <tuple>
#include <utility>

#include "document/document_json.h"
#include "document/document_plots.h"
#include "job/build_plan.h"
#include "job/run_header.h"
#include "job/run_memo.h"
#include "job/run_oil.h"
#include "job/run_stack.h"
#include "job/run_unit.h"
#include "job/settings.h"
#include "judge/findings.h"
#include "judge/key_figures.h"
#include "resolve/resolve_oil.h"

namespace shimwright::job {
namespace {

/// Asked pressure for the oil's bulk modulus where no unit says one [Pa]: some way into the working range.
constexpr double kUsualOilPressure = 1e6;

/// Pressures of a lone stack that states none [Pa].
const std::vector<double> kUsualPressures = {0.1e6, 0.2e6, 0.5e6, 1.0e6};

/// One run: what it works on, and what it has found so far.
struct Run {
  const file::JobSpec& job;  // with the clicks and temperatures of the options
  RunOptions options;
  document::Phrase phrase;
  resolve::Conditions conditions;
  resolve::ResolveReport report;
  std::vector<file::Missing> left_out;  // what is computed where the job has it, and never asked for
  document::ResultDocument document;
  std::vector<UnitModels> models;
  std::optional<EndModel> front;
  std::optional<EndModel> rear;
  LentWorkspace workspace{options.memo};
};

/// Speeds and pressures ascending, without what cannot be computed.
void tidy(std::vector<double>& values) {
  std::erase_if(values, [](double value) { return !(value > 0.0); });
  std::ranges::sort(values);
  const auto twins = std::ranges::unique(values);
  values.erase(twins.begin(), twins.end());
}

// resolving

void resolve_all(Run& run) {
  const Needs needs = needs_of(run.options.sections);
  for (const file::UnitSpec& unit : run.job.units) {
    run.models.push_back(resolve_unit(run.job, unit, run.conditions, needs, run.report));
  }
  if (!needs.springs) return;
  std::vector<std::optional<resolve::SpringModel>> springs;
  for (const UnitModels& models : run.models) springs.push_back(models.springs);
  // a file without a machine asks for no sag
  if (!run.job.machine) return;
  // the curve of a spring does not wait for what only the sag needs
  resolve::ResolveReport sag;
  run.front = resolve_end(run.job, file::UnitKind::ForkLeg, springs, sag);
  run.rear = resolve_end(run.job, file::UnitKind::Shock, springs, sag);
  run.report.diagnostics.insert(run.report.diagnostics.end(), sag.diagnostics.begin(), sag.diagnostics.end());
  run.left_out = std::move(sag.missing);
}

/// A requested section for which the file has nothing.
void ask_for_absent_sections(Run& run) {
  const auto none_has = [&](auto&& has) { return std::ranges::none_of(run.job.units, has); };
  const auto miss = [&](const char* part, const char* what, const char* key) {
    run.report.missing.push_back({part, what, key, file::Origin{}});
  };
  const Sections& sections = run.options.sections;
  if ((sections.force || sections.valves) &&
      none_has([](const file::UnitSpec& unit) { return unit.piston_valve.has_value(); })) {
    miss("the force curve", "a unit with its valves", "unit");
  }
  if (sections.stacks && !run.job.stack && none_has([](const file::UnitSpec& unit) {
        return unit.piston_valve.has_value() || unit.foot_valve.has_value();
      })) {
    miss("the stack", "a stack, alone or in a unit's valve", "stack");
  }
  if (sections.springs && none_has([](const file::UnitSpec& unit) {
        return !unit.coil_springs.empty() || unit.air_spring || unit.trapped_air;
      })) {
    miss("the spring curve", "a unit with a spring", "unit");
  }
  if (sections.assembly && none_has([](const file::UnitSpec& unit) {
        return (unit.piston_valve && unit.piston_valve->post) || (unit.foot_valve && unit.foot_valve->post);
      })) {
    miss("the ledger", "a valve with its post", "unit");
  }
  if (sections.oils && run.job.parts.oils.empty() &&
      none_has([](const file::UnitSpec& unit) { return bool(unit.oil); })) {
    miss("the oil table", "an oil", "oil");
  }
}

void drop_doubles(Diagnostics& diagnostics) {
  const auto key = [](const Diagnostic& d) {
    return std::tie(d.code, d.file, d.line, d.column, d.path, d.what, d.got);
  };
  Diagnostics single;
  for (Diagnostic& diagnostic : diagnostics) {
    const bool told =
        std::ranges::any_of(single, [&](const Diagnostic& other) { return key(other) == key(diagnostic); });
    if (!told) single.push_back(std::move(diagnostic));
  }
  diagnostics = std::move(single);
}

bool has_faults(Run& run) {
  if (run.options.must_have) {
    ask_for_absent_sections(run);
    for (const file::Missing& missing : run.report.missing) {
      run.report.diagnostics.push_back(resolve::missing_fault(run.job, missing));
    }
  }
  drop_doubles(run.report.diagnostics);
  sort_by_place(run.report.diagnostics);
  return !run.report.diagnostics.empty();
}

// computing

void add_lone_stack(Run& run) {
  if (!run.job.stack || !(run.options.sections.stacks || run.options.sections.findings)) return;
  auto model = resolve::resolve_stack(run.job, *run.job.stack, {"stack", 0.0}, run.report);
  if (!model) return;
  StackRun stack_run;
  stack_run.theory = run.options.theory;
  stack_run.phrase = run.phrase;
  stack_run.pressures = run.options.pressures;
  if (stack_run.pressures.empty()) {
    for (const file::Quantity& pressure : run.job.stack->pressures)
      stack_run.pressures.push_back(pressure.si);
  }
  tidy(stack_run.pressures);
  stack_run.pressures_assumed = stack_run.pressures.empty();
  if (stack_run.pressures_assumed) stack_run.pressures = kUsualPressures;
  stack_run.working_pressure = stack_run.pressures[stack_run.pressures.size() / 2];
  stack_run.greatest_pressure = stack_run.pressures.back();
  stack_run.details = run.options.sections.stack_details;
  stack_run.curves = run.options.sections.curves;
  run.document.stack = stack_result(*model, stack_run, *run.workspace);
}

double mean_pressure(const UnitModels& models) {
  return models.damper ? models.damper->model.chambers.reservoir_pressure : kUsualOilPressure;
}

void add_oils(Run& run) {
  if (!run.options.sections.oils && !run.options.sections.findings) return;
  const auto add = [&](const file::OilSpec& spec) {
    const auto done = std::ranges::find(run.document.oils, spec.name, &document::OilResult::name);
    if (done != run.document.oils.end()) return;
    resolve::ResolveReport faults;
    const auto model = resolve::resolve_oil(run.job, spec, run.conditions.ambient_pressure, faults);
    if (!model) return;  // a unit that uses it has reported it; an unused oil stops nothing
    OilRun oil_run{
        spec.name, {}, run.conditions.oil_temperature, kUsualOilPressure, run.options.oil_temperatures};
    for (const UnitModels& models : run.models) {
      if (!models.spec->oil || models.spec->oil->name != spec.name) continue;
      oil_run.used_in.push_back(models.spec->name.value);
      oil_run.pressure = mean_pressure(models);
    }
    run.document.oils.push_back(oil_result(*model, oil_run));
  };
  for (const UnitModels& models : run.models) {
    if (models.spec->oil) add(*models.spec->oil);
  }
  for (const file::OilSpec& spec : run.job.parts.oils) add(spec);
}

/// Every other oil of the parts files in each unit that could take it.
void add_oil_swaps(Run& run) {
  if (!run.options.sections.oils) return;
  for (const UnitModels& models : run.models) {
    if (!models.damper || !models.solved || !models.spec->oil) continue;
    for (const file::OilSpec& spec : run.job.parts.oils) {
      if (spec.name == models.spec->oil->name) continue;
      resolve::ResolveReport faults;
      const auto other = resolve::resolve_oil(run.job, spec, run.conditions.ambient_pressure, faults);
      if (other) run.document.oil_swaps.push_back(oil_swap(models, *other, spec.name));
    }
  }
}

void add_sag(Run& run) {
  const auto add = [&](const std::optional<EndModel>& end, file::UnitKind kind) {
    if (!end) return;
    const std::vector<document::SagResult> sag = sag_results(run.job, *end, kind);
    for (const EndUnit& unit : end->units) {
      auto& springs = run.document.units[unit.index].springs;
      if (springs) springs->sag = sag;
    }
  };
  add(run.front, file::UnitKind::ForkLeg);
  add(run.rear, file::UnitKind::Shock);
}

void add_plans_and_guides(Run& run) {
  for (std::size_t i = 0; i < run.models.size(); ++i) {
    document::UnitResult& unit = run.document.units[i];
    if (run.options.sections.plan) {
      unit.plan = build_plan(*run.models[i].spec, unit, run.document.conditions, run.phrase);
    }
    if (run.options.sections.settings) {
      const bool fork = run.models[i].spec->kind.value_or(file::UnitKind::ForkLeg) == file::UnitKind::ForkLeg;
      const auto& end = fork ? run.front : run.rear;
      unit.settings =
          settings_guide(run.job, run.models[i], unit, {run.phrase, run.conditions, end ? &*end : nullptr});
    }
  }
}

/// The plots of each unit, and with them only what else is wanted of their numbers.
void add_plots(Run& run) {
  for (document::UnitResult& unit : run.document.units) {
    unit.plots = document::unit_plots(unit, run.options.system);
    if (run.options.sections.curves || !unit.force) continue;
    unit.force->families.clear();
    for (document::ForceCurve& curve : unit.force->curves) curve.points.clear();
  }
}

bool stalls(const document::UnitResult& unit) {
  return std::ranges::any_of(unit.valves, [](const document::ValveResult& valve) {
    return std::ranges::any_of(valve.directions, [](const document::DirectionResult& direction) {
      return direction.outcome.status == Status::Stalled;
    });
  });
}

/// The worst outcome of everything, and what is not to be trusted.
void close(Run& run) {
  Outcome outcome;
  for (const document::UnitResult& unit : run.document.units) {
    if (unit.force) outcome = worse(outcome, unit.force->outcome);
    if (unit.springs) outcome = worse(outcome, unit.springs->outcome);
    for (const document::ValveResult& valve : unit.valves) {
      for (const document::DirectionResult& direction : valve.directions) {
        outcome = worse(outcome, direction.outcome);
        if (direction.stack) outcome = worse(outcome, direction.stack->outcome);
      }
    }
  }
  if (run.document.stack) outcome = worse(outcome, run.document.stack->outcome);
  const std::vector<std::string> broken = document::non_finite_paths(run.document);
  if (!broken.empty()) {
    outcome = {Status::Stalled, 0, 0.0, "The number " + broken[0] + " could not be calculated."};
    if (broken.size() > 1) outcome.note += fmt::format(" Nor could {} more.", broken.size() - 1);
    run.document.header.warnings.push_back(outcome.note);
  }
  for (std::size_t i = 0; i < run.models.size(); ++i) {
    const bool left_out =
        run.models[i].damper && !run.document.units[i].force && stalls(run.document.units[i]);
    if (!left_out) continue;
    run.document.header.warnings.push_back(fmt::format(
        "The forces of {} are left out: a stack of it could not be solved.", run.document.units[i].name));
  }
  run.document.header.outcome = outcome;
  for (const file::Missing& missing : run.report.missing) {
    run.document.header.warnings.push_back(
        fmt::format("{} is left out: it needs {}.", document::sentence_case(missing.part), missing.what));
  }
}

}  // namespace

Result<document::ResultDocument, RunFault> run_job(const file::JobSpec& spec, const RunOptions& options) {
  Diagnostics click_faults;
  std::optional<file::JobSpec> asked;  // the job as it would be with what was asked for beside it
  if (!options.clicks.empty() || options.oil_temperature || options.air_temperature) {
    set_clicks(asked.emplace(spec), options.clicks, click_faults);
    set_conditions(*asked, options);
  }

  Run run{.job = asked ? *asked : spec, .options = options, .phrase = {options.system}};
  run.report.diagnostics = std::move(click_faults);
  judge_asked(options, run.report.diagnostics);
  run.conditions = resolve::resolve_conditions(run.job);
  const auto go_on = [&](double done, std::string_view next) {
    return !options.progress || options.progress(done, next);
  };
  tidy(run.options.speeds);
  tidy(run.options.pressures);

  // from the spec to models, with all faults at once
  resolve_all(run);
  if (!go_on(0.0, "stacks")) return failure(RunFault{{}, true});
  add_lone_stack(run);
  if (has_faults(run)) return failure(RunFault{run.report.diagnostics, false});
  run.report.missing.insert(run.report.missing.end(), run.left_out.begin(), run.left_out.end());

  // from models to results
  run.document.header = header_of(run.job, run.options);
  run.document.rider = rider_of(run.job);
  run.document.machine = machine_of(run.job);
  run.document.conditions = condition_summary(run.job, run.conditions);
  const UnitRun unit_run{&run.job,           run.conditions,     run.options.sections,  run.options.theory,
                         run.phrase,         run.options.speeds, run.options.pressures, run.options.memo,
                         run.options.run_all};
  for (std::size_t i = 0; i < run.models.size(); ++i) {
    const double done = static_cast<double>(i) / static_cast<double>(run.models.size());
    if (!go_on(done, run.models[i].spec->name.value)) return failure(RunFault{{}, true});
    run.document.units.push_back(unit_result(run.models[i], unit_run, *run.workspace));
  }
  add_oils(run);
  add_oil_swaps(run);
  add_sag(run);

  // what people do with it
  if (!go_on(0.9, "findings")) return failure(RunFault{{}, true});
  if (run.options.sections.pick_list || run.options.sections.findings) {
    run.document.pick_list = pick_list(run.job, run.document, run.options.system);
  }
  add_plans_and_guides(run);
  close(run);
  if (run.options.sections.findings) {
    run.document.findings = judge::judge(run.job, run.document, run.report.missing, run.phrase);
    judge::add_key_figures(run.document);
  }
  add_plots(run);
  return std::move(run.document);
}

}  // namespace shimwright::job
