#include "cli/asked.h"

#include <fmt/core.h>

#include <algorithm>
#include <sstream>

#include "units/quantity.h"

namespace shimwright::cli {

job::JobFile read_job(const Streams& s, const std::string& name) {
  if (name != kStandardInput) return job::read_job_file(name);
  std::ostringstream text;
  text << s.in.rdbuf();
  return job::read_job_text("standard input", text.str());
}

bool one_quantity(const Streams& s, const char* option, const std::string& text, units::Kind kind,
                  std::optional<double>& value) {
  if (text.empty()) return true;
  const auto values = quantities(s, option, text, kind);
  if (values && values->size() == 1)
    value = values->front();
  else if (values)
    s.err << fmt::format("{} \"{}\": expected one value\n", option, text);
  return value.has_value();
}

void print_faults(const Streams& s, Diagnostics diagnostics, const job::JobFile& file) {
  sort_by_place(diagnostics);
  for (const Diagnostic& d : diagnostics) {
    std::string_view source;
    for (const auto& text : file.job.files)
      if (text.name == d.file) source = text.text;
    s.err << render(d, source) << '\n';
  }
  const auto n = std::count_if(diagnostics.begin(), diagnostics.end(),
                               [](const Diagnostic& d) { return d.severity == Severity::Stop; });
  if (n > 0) s.err << fmt::format("{} fault{}: nothing was calculated.\n", n, n == 1 ? "" : "s");
}

std::optional<std::vector<double>> quantities(const Streams& s, const std::string& option,
                                              const std::string& text, units::Kind kind) {
  const auto list = units::parse_list(text, kind);
  if (!list) {
    const units::UnitFault& f = list.error();
    s.err << fmt::format(
        "{} \"{}\"\n{}\n{}, got {}\n{}\n", option, text,
        std::string(option.size() + 2 + f.offset, ' ') + std::string(std::max<std::size_t>(1, f.length), '^'),
        f.what, f.got, f.remedy);
    return std::nullopt;
  }
  std::vector<double> values;
  for (const units::Quantity& q : *list) values.push_back(q.si);
  std::sort(values.begin(), values.end());
  return values;
}

std::optional<job::ClickSetting> click_setting(const Streams& s, const std::string& text) {
  const std::size_t equals = text.find('=');
  const auto trimmed = [](std::string word) {
    word.erase(0, word.find_first_not_of(' '));
    word.erase(word.find_last_not_of(' ') + 1);
    return word;
  };
  if (equals != std::string::npos) {
    const std::string number = trimmed(text.substr(equals + 1));
    if (!number.empty() && number.size() < 5 && number.find_first_not_of("0123456789") == std::string::npos)
      return job::ClickSetting{trimmed(text.substr(0, equals)), std::stoi(number)};
  }
  s.err << fmt::format(
      "--clicks \"{}\": expected the name of a needle, an equals sign and a whole number of clicks\n"
      "write --clicks \"compression needle = 8\"\n",
      text);
  return std::nullopt;
}

}  // namespace shimwright::cli
