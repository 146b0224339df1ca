#include "job/asked_values.h"

#include <fmt/core.h>

#include <cmath>
#include <span>

#include "base/check.h"
#include "file/schema.h"
#include "units/format.h"

namespace shimwright::job {
namespace {

/// One kind of value that may be asked for, and the key that says what it may be.
struct AskedValue {
  const char* what;         // "the speed"
  std::string_view path;    // of the key in a job file
  bool above_zero = false;  // none would be computed at nothing
};

constexpr AskedValue kSpeed{"the speed", "bench.drive.speed"};
constexpr AskedValue kPressure{"the pressure drop", "stack.pressures", true};
constexpr AskedValue kOilTemperature{"the temperature of the oil", "bench.oil_temperature"};
constexpr AskedValue kAirTemperature{"the temperature of the air", "conditions.air_temperature"};
constexpr AskedValue kAir{"the air left in the rod chamber", "bench.air_left.rod"};

void judge(const AskedValue& asked, std::span<const double> values, units::System system,
           Diagnostics& diagnostics) {
  const file::KeySchema* key = file::key_at(file::job_schema(), asked.path);
  SW_CHECK(key != nullptr, asked.path);
  for (const double value : values) {
    const bool too_low = asked.above_zero ? !(value > 0.0) : !(value >= key->bounds.low);
    if (!too_low && value <= key->bounds.high) continue;
    Diagnostic diagnostic;
    diagnostic.code = "E0905";
    diagnostic.what = fmt::format("{} is outside its range: {}", asked.what, key->bounds.reason);
    diagnostic.got =
        std::isfinite(value) ? units::format_plain(value, key->unit, system) : "no finite number";
    diagnostic.expected = fmt::format("{}{} to {}", asked.above_zero ? "more than " : "",
                                      units::format_plain(key->bounds.low, key->unit, system),
                                      units::format_plain(key->bounds.high, key->unit, system));
    diagnostic.remedy = "check the number and its unit";
    diagnostics.push_back(std::move(diagnostic));
  }
}

void judge(const AskedValue& asked, const std::optional<double>& value, units::System system,
           Diagnostics& diagnostics) {
  if (value) judge(asked, std::span(&*value, 1), system, diagnostics);
}

}  // namespace

void judge_asked(const RunOptions& options, Diagnostics& diagnostics) {
  judge(kSpeed, options.speeds, options.system, diagnostics);
  judge(kPressure, options.pressures, options.system, diagnostics);
  judge(kOilTemperature, options.oil_temperatures, options.system, diagnostics);
  judge(kOilTemperature, options.oil_temperature, options.system, diagnostics);
  judge(kAirTemperature, options.air_temperature, options.system, diagnostics);
}

void judge_asked(const BenchOptions& options, Diagnostics& diagnostics) {
  judge(kOilTemperature, options.oil_temperature, options.system, diagnostics);
  judge(kAir, options.air_in_rod_chamber, options.system, diagnostics);
}

void set_conditions(file::JobSpec& job, const RunOptions& options) {
  const auto set = [&](file::Quantity file::ConditionsSpec::* member, const std::optional<double>& value) {
    if (!value) return;
    if (!job.conditions) job.conditions.emplace();
    file::Quantity& quantity = (*job.conditions).*member;
    quantity.si = *value;
    quantity.given = true;
    quantity.kind = units::Kind::Temperature;
    quantity.text = units::format_plain(*value, units::Kind::Temperature, options.system);
  };
  set(&file::ConditionsSpec::oil_temperature, options.oil_temperature);
  set(&file::ConditionsSpec::air_temperature, options.air_temperature);
}

}  // namespace shimwright::job
