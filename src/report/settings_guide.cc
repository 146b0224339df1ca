#include "report/settings_guide.h"

#include <fmt/format.h>

#include "report/build_sheet.h"
#include "report/figures.h"
#include "report/phrases.h"

namespace shimwright::report {
namespace {

using units::Kind;
using units::System;

std::string effect_text(const std::vector<job::ForceChange>& effect, System system) {
  std::string out;
  for (const job::ForceChange& c : effect)
    out +=
        fmt::format("{}{} at {}: {} \xE2\x86\x92 {}", out.empty() ? "" : "; ", job::word(c.stroke),
                    units::format(c.speed, Kind::Speed, system), units::format(c.before, Kind::Force, system),
                    units::format(c.after, Kind::Force, system));
  return out;
}

void add_guide(Article& article, const job::UnitResult& unit, const job::SettingsGuide& guide,
               System system) {
  BigNumbers big;
  for (const job::Setting& s : guide.settings) big.numbers.push_back({s.name, shown(s.value, system)});
  if (!big.numbers.empty()) {
    article.elements.push_back(Heading{unit.name + ": as set"});
    // four to a row: larger than that the numbers shrink below what can be read from a metre away
    for (std::size_t k = 0; k < big.numbers.size(); k += 4) {
      BigNumbers row;
      for (std::size_t i = k; i < std::min(k + 4, big.numbers.size()); ++i)
        row.numbers.push_back(big.numbers[i]);
      article.elements.push_back(std::move(row));
    }
  }
  if (!guide.advice.empty()) {
    article.elements.push_back(Heading{"When it feels so, turn this"});
    Rows rows{{"Feel", "Turn", "What that does"}, {0.25, 0.3, 0.45}, {false, false, false}, {}};
    for (const job::FeelAdvice& a : guide.advice) {
      std::string effect = effect_text(a.effect, system);
      rows.rows.push_back({a.feel, a.turn, effect.empty() ? a.why : effect});
    }
    article.elements.push_back(std::move(rows));
  }
  if (!guide.other.empty()) {
    article.elements.push_back(Heading{"Other weather, height or weight"});
    Rows rows{{"When", "What happens", "What restores it"}, {0.2, 0.42, 0.38}, {false, false, false}, {}};
    for (const job::OtherCondition& o : guide.other) rows.rows.push_back({o.condition, o.effect, o.action});
    article.elements.push_back(std::move(rows));
  }
}

}  // namespace

Article settings_guide(const job::ResultDocument& document, System system, double width) {
  Article article{"settings-guide", foot_of(document), {}};
  std::string below = "Settings guide";
  if (document.rider && !document.rider->name.empty()) below += " for " + document.rider->name;
  if (document.machine && !document.machine->name.empty()) below += ", " + document.machine->name;
  if (!document.header.scenario.empty()) below += ". " + document.header.scenario;
  article.elements.push_back(Title{document.header.title, below});
  if (!document.header.outcome.ok())
    article.elements.push_back(Paragraph{status_words(document.header.outcome), Token::Stop});
  article.elements.push_back(Paragraph{
      "Change one thing at a time, one or two clicks, and write down what you felt. Counted out from gently "
      "seated; never force a needle onto its seat.",
      Token::Steel});
  for (const job::UnitResult& unit : document.units)
    if (unit.settings) add_guide(article, unit, *unit.settings, system);
  for (const job::UnitResult& unit : document.units) {
    if (!unit.springs || unit.springs->points.empty()) continue;
    Plot plot = spring_plot(unit, system);
    plot.width = width;
    plot.height = 130;
    article.elements.push_back(Figure{plot_scene(plot), unit.name + ": " + plot.caption});
  }
  return article;
}

}  // namespace shimwright::report
