#include "report/sheets.h"

#include <fmt/core.h>

#include "document/document_plots.h"
#include "report/phrases.h"
#include "report/plot.h"

namespace shimwright::report {
namespace {

using units::Kind;
using units::System;

/// "compression 55 → 62 N at 0.05 m/s; 131 → 142 N at 0.2 m/s"; a line breaks only between the speeds.
std::string effect_text(const std::vector<document::ForceChange>& effect, System system) {
  static const std::string kTie = "\xC2\xA0";  // no-break space
  std::string out;
  for (std::size_t k = 0; k < effect.size(); ++k) {
    const document::ForceChange& c = effect[k];
    if (!out.empty()) out += "; ";
    if (k == 0 || effect[k - 1].stroke != c.stroke) out += word(c.stroke) + kTie;
    out += units::number_text(c.before, Kind::Force, system) + kTie + "\xE2\x86\x92" + kTie +
           units::format(c.after, Kind::Force, system) + kTie + "at" + kTie +
           units::format_round(c.speed, Kind::Speed, system);
  }
  return out;
}

void add_guide(Article& article, const document::UnitResult& unit, const document::SettingsGuide& guide,
               System system, const GuideRoom& room) {
  BigNumbers big;
  for (const document::Setting& s : guide.settings) big.numbers.push_back({s.name, shown(s.value, system)});
  if (!big.numbers.empty()) {
    article.elements.push_back(Heading{capitalised(unit.name) + ": the settings"});
    big.columns = 4;  // with more the numbers shrink below what can be read from a metre away
    article.elements.push_back(std::move(big));
  }
  if (!guide.advice.empty()) {
    if (room.headings) article.elements.push_back(Heading{"If it feels like this, turn this"});
    Rows rows{{"Feel", "Turn", "Effect"}, {0.22, 0.3, 0.48}, {false, false, false}, {}};
    for (const document::FeelAdvice& a : guide.advice) {
      std::string effect = effect_text(a.effect, system);
      rows.rows.push_back(
          {a.complaint ? a.feel + " (your words)" : a.feel, a.turn, effect.empty() ? a.why : effect});
    }
    article.elements.push_back(std::move(rows));
  }
  if (room.per_click && !guide.per_click.empty()) {
    Rows rows{{"One click", "Effect"}, {0.3, 0.7}, {false, false}, {}};
    for (const document::ClickEffect& c : guide.per_click)
      rows.rows.push_back(
          {c.adjuster + (c.clicks_change < 0 ? ", in" : ", out"), effect_text(c.effect, system)});
    article.elements.push_back(std::move(rows));
  }
  if (!guide.other.empty()) {
    if (room.headings) article.elements.push_back(Heading{"Other weather, altitude or rider weight"});
    Rows rows{{"When", "What happens", "How to correct it"}, {0.2, 0.42, 0.38}, {false, false, false}, {}};
    for (const document::OtherCondition& o : guide.other)
      rows.rows.push_back({o.condition, o.effect, o.action});
    article.elements.push_back(std::move(rows));
  }
}

}  // namespace

Article settings_guide(const document::ResultDocument& document, System system, double width,
                       const GuideRoom& room) {
  Article article{"settings-guide", foot_of(document), room.gap_scale, {}};
  std::string below = "Settings guide";
  if (document.rider && !document.rider->name.empty()) below += " for " + document.rider->name;
  if (document.machine && !document.machine->name.empty()) below += ", " + document.machine->name;
  if (!document.header.scenario.empty()) below += ". " + document.header.scenario;
  article.elements.push_back(Title{document.header.title, below});
  if (!document.header.outcome.ok())
    article.elements.push_back(Paragraph{document::status_words(document.header.outcome), Token::Stop});
  article.elements.push_back(
      Paragraph{"Change one thing at a time, one or two clicks, and write down what you felt. Count the "
                "clicks out from seated. Seat a needle gently, never with force.",
                Token::Steel});
  for (const document::UnitResult& unit : document.units)
    if (unit.settings) add_guide(article, unit, *unit.settings, system, room);
  for (const document::UnitResult& unit : document.units) {
    const document::PlotSpec* plot = document::find_plot(unit.plots, document::PlotId::SpringsOverTravel);
    if (room.figure_height <= 0 || !plot) continue;
    article.elements.push_back(Figure{plot_scene(*plot, system, {width, room.figure_height}),
                                      capitalised(unit.name) + ": " + plot->caption});
  }
  return article;
}

Article one_page_guide(const document::ResultDocument& document, System system, Paper paper) {
  // the figure shrinks, the white shrinks, then what the reader can do without goes
  static constexpr GuideRoom kTries[] = {
      {200, 1.0, true}, {160, 1.0, true}, {120, 1.0, true}, {120, 0.7, true},      {120, 0.7, false},
      {0, 1.0, true},   {0, 0.7, true},   {0, 0.7, false},  {0, 0.7, true, false}, {0, 0.5, false, false}};
  for (const GuideRoom& room : kTries) {
    Article article = settings_guide(document, system, content_width(paper), room);
    if (article_pages(article, paper).size() == 1) return article;
  }
  return settings_guide(document, system, content_width(paper), {0, 0.25, false, false});
}

}  // namespace shimwright::report
