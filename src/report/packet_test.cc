#include "report/packet.h"

#include <gmock/gmock.h>

#include <algorithm>

#include "report/pdf_text_test.h"
#include "report/phrases.h"
#include "report/sample_document_test.h"
#include "report/scene_boxes_test.h"
#include "report/sheets.h"

namespace shimwright::report {
namespace {

using ::testing::AllOf;
using ::testing::ContainsRegex;
using ::testing::HasSubstr;
using ::testing::Not;
using units::System;

/// A document with so much in it that tables and steps run over pages.
document::ResultDocument long_document() {
  document::ResultDocument d = sample::document();
  for (int i = 0; i < 90; ++i)
    d.pick_list.lines.push_back({.part = "shim " + std::to_string(i), .where = "fork leg", .count = 1});
  d.units.push_back(d.units[0]);
  d.units[1].name = "shock";
  return d;
}

std::vector<std::string> texts(const Scene& page) {
  std::vector<std::string> found;
  for (const InkBox& box : label_boxes(page)) found.push_back(box.what);
  return found;
}

TEST(Pages, KeepTheirMarginsAndNoWordsCoverOthers) {
  for (const Paper paper : {Paper::A4, Paper::Letter})
    for (const document::ResultDocument& d : {sample::document(), long_document()}) {
      const Article sheet = build_sheet(d, System::Imperial, content_width(paper));
      const Article guide = one_page_guide(d, System::Metric, paper);
      for (const Article* article : {&sheet, &guide})
        for (const Scene& page : article_pages(*article, paper)) {
          EXPECT_EQ(ink_outside(page, {kMargin, kMargin}, {page.width - kMargin, page.height - kMargin + 3}),
                    "");
          EXPECT_EQ(overlapping_labels(page), "");
        }
    }
}

TEST(Pages, NinetyShimsAThousandWordsAndAWordWithoutEndStayOnThePaper) {
  document::ResultDocument d = sample::document();
  d.header.title = std::string(300, 'W') + " \xC3\xA4\xC3\xA4";
  d.pick_list.lines[0].part = std::string(120, 'm');
  std::vector<sample::Shim> shims;
  for (int i = 0; i < 90; ++i) shims.push_back({1, 24.0 - 0.1 * i, 0.1, "a shim of 0.10 mm"});
  *d.units[0].valves[0].directions[0].stack = sample::stack("tall", shims);
  for (int i = 0; i < 1000; ++i) d.units[0].plan->steps[3].text += " word";
  for (int i = 0; i < 1000; ++i) d.units[0].fill->symptoms[0].causes[0].remedy += " word";
  for (const Scene& page :
       article_pages(build_sheet(d, System::Metric, content_width(Paper::Letter)), Paper::Letter)) {
    EXPECT_EQ(overlapping_labels(page), "");
    EXPECT_EQ(ink_outside(page, {kMargin, kMargin}, {page.width - kMargin, page.height - kMargin + 3}), "");
  }
}

TEST(Pages, NoHeadingOrCautionStandsLastOnItsPage) {
  for (const Paper paper : {Paper::A4, Paper::Letter}) {
    const Article sheet = build_sheet(long_document(), System::Metric, content_width(paper));
    std::vector<std::string> headings = {"CAUTION"};
    for (const Element& e : sheet.elements)
      if (const auto* heading = std::get_if<Heading>(&e)) headings.push_back(heading->text);
    const auto pages = article_pages(sheet, paper);
    ASSERT_GT(pages.size(), 4u);
    for (const Scene& page : pages) {
      // the lowest words above the foot
      InkBox lowest{"", {0, 0}, {0, 0}};
      for (const Item& item : page.items)
        if (const auto* l = std::get_if<Label>(&item);
            l && l->at.y < page.height - kMargin - 13 && box_of(*l).max.y > lowest.max.y) {
          lowest = box_of(*l);
        }
      EXPECT_THAT(headings, Not(::testing::Contains(lowest.what)));
    }
  }
}

TEST(Pages, ATableSaysItsHeadingAgainOnEachPage) {
  const auto pages =
      article_pages(build_sheet(long_document(), System::Metric, content_width(Paper::A4)), Paper::A4);
  int n_with_lines = 0;
  for (const Scene& page : pages) {
    const auto words = texts(page);
    const bool lines =
        std::any_of(words.begin(), words.end(), [](const std::string& w) { return w.starts_with("shim "); });
    n_with_lines += lines;
    if (lines) {
      EXPECT_THAT(words, ::testing::Contains("Picked"));
    }
  }
  EXPECT_GE(n_with_lines, 2);
}

TEST(Pages, StepsAreNumberedWithoutABreakAndEachCautionComesBeforeItsStep) {
  const Article sheet = build_sheet(sample::document(), System::Metric, content_width(Paper::A4));
  int expected = 1;
  for (std::size_t k = 0; k < sheet.elements.size(); ++k) {
    if (const auto* step = std::get_if<Step>(&sheet.elements[k])) {
      EXPECT_EQ(step->number, expected++);
    }
    if (std::holds_alternative<Caution>(sheet.elements[k])) {
      ASSERT_LT(k + 1, sheet.elements.size());
      EXPECT_TRUE(std::holds_alternative<Step>(sheet.elements[k + 1]));
    }
  }
  EXPECT_EQ(expected - 1, int(sample::plan().steps.size()));
}

TEST(Pages, APictureStandsAtTheFirstStepThatNeedsItAndNotAgain) {
  document::ResultDocument d = sample::document();
  d.units[0].plan->steps.back().picture = document::StepPicture{ValvePlace::Piston, {}};
  int n_pictures = 0;
  for (const Element& e : build_sheet(d, System::Metric, 510).elements)
    if (const auto* step = std::get_if<Step>(&e)) n_pictures += step->picture.has_value();
  EXPECT_EQ(n_pictures, 3);  // post, compression stack, rebound stack
}

TEST(Guide, IsOnePageWithItsFigureWhereThereIsRoomAndWithoutWhereThereIsNone) {
  for (const Paper paper : {Paper::A4, Paper::Letter}) {
    document::ResultDocument d = sample::document();
    const auto has_figure = [](const Article& a) {
      return std::any_of(a.elements.begin(), a.elements.end(),
                         [](const Element& e) { return std::holds_alternative<Figure>(e); });
    };
    const Article roomy = one_page_guide(d, System::Metric, paper);
    EXPECT_EQ(article_pages(roomy, paper).size(), 1u);
    EXPECT_TRUE(has_figure(roomy));

    d.units.push_back(d.units[0]);
    const Article full = one_page_guide(d, System::Metric, paper);
    EXPECT_EQ(article_pages(full, paper).size(), 1u);
    EXPECT_FALSE(has_figure(full));
  }
}

TEST(Packet, GivesTheSameBytesOnEveryRun) {
  const auto first = packet_files(sample::document(), {});
  const auto second = packet_files(sample::document(), {});
  ASSERT_EQ(first.size(), second.size());
  for (std::size_t k = 0; k < first.size(); ++k) {
    EXPECT_EQ(first[k].name, second[k].name);
    EXPECT_TRUE(first[k].bytes == second[k].bytes) << first[k].name;
  }
}

TEST(Packet, ShowsAHoldPointToTheDigitsOfItsRange) {
  document::ResultDocument d = sample::document();
  document::HoldPoint& hold = *d.units[0].plan->steps[12].hold;
  hold.expected.si = 61.493e-3;
  hold.low->si = 55e-3;
  hold.high->si = 65e-3;
  const std::string text = [&] {
    std::string all;
    for (const Element& e : build_sheet(d, System::Metric, 510).elements)
      if (const auto* step = std::get_if<Step>(&e); step && step->box)
        all += step->box->expected + "|" + step->box->range + "\n";
    return all;
  }();
  EXPECT_THAT(text, HasSubstr("61\xE2\x80\x89mm|from 55\xE2\x80\x89mm to 65\xE2\x80\x89mm"));
  hold = *sample::plan().steps[12].hold;
  EXPECT_THAT(range_words(hold, System::Metric), "from 16.13\xE2\x80\x89mm to 16.37\xE2\x80\x89mm");
  EXPECT_THAT(range_words(hold, System::Imperial), HasSubstr("0.6350\xE2\x80\x89in"));
}

TEST(Packet, OfALoneStackIsASheetWithItsDrawingAndNoGuide) {
  document::ResultDocument d;
  d.header.title = "lone stack";
  d.stack = *sample::unit().valves[0].directions[0].stack;
  std::vector<std::string> names;
  for (const PacketFile& f : packet_files(d, {})) names.push_back(f.name);
  EXPECT_THAT(names, ::testing::ElementsAre("build-sheet.pdf", "packet.html", "stack-lift.svg",
                                            "stack-closed.svg", "stack-working.svg", "stack-most.svg"));
}

TEST(Packet, NamesNoFileTwice) {
  std::vector<std::string> names;
  for (const PacketFile& f : packet_files(long_document(), {})) names.push_back(f.name);
  std::sort(names.begin(), names.end());
  EXPECT_TRUE(std::adjacent_find(names.begin(), names.end()) == names.end());
}

TEST(Packet, ThePdfCarriesItsTextAndTheTorqueInBothUnits) {
  const std::string text = text_of_pdf(packet_files(sample::document(), {})[0].bytes);
  EXPECT_THAT(
      text, AllOf(HasSubstr("N\xC2\xB7m"), HasSubstr("in\xC2\xB7lbf"), HasSubstr("4.50"), HasSubstr("39.8")));
  EXPECT_THAT(text, HasSubstr("Invented for the manual"));
  EXPECT_THAT(text, HasSubstr("How the program estimates it"));
  EXPECT_THAT(text, HasSubstr("page 1 of"));
}

TEST(Packet, SaysTroubleWhereTheNumberStandsAndThatAStopIsAStop) {
  document::ResultDocument d = sample::document();
  d.findings[0].severity = Severity::Stop;
  d.units[0].valves[0].directions[0].stack->outcome = {Status::Stalled, 9, 0.1, "disc 3 does not settle"};
  d.units[0].valves[0].post->torque->refused = true;
  const std::string text = text_of_pdf(packet_files(d, {})[0].bytes);
  EXPECT_THAT(text, HasSubstr("disc 3 does not settle"));
  EXPECT_THAT(text, HasSubstr("REFUSED"));
  EXPECT_THAT(text, HasSubstr("Do not build this unit"));
}

std::string html_of(const document::ResultDocument& d) {
  for (const PacketFile& f : packet_files(d, {}))
    if (f.name == "packet.html") return f.bytes;
  return "";
}

/// Tags that open and do not close, or close in the wrong order; empty when all is well.
std::string unbalanced(const std::string& html) {
  static const std::vector<std::string> kVoid = {"meta", "input", "br", "link"};
  std::vector<std::string> open;
  for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
    const std::size_t end = html.find('>', at);
    const std::string tag = html.substr(at + 1, end - at - 1);
    if (tag.starts_with("!") || tag.starts_with("?") || tag.ends_with("/")) continue;
    const bool closes = tag.starts_with("/");
    const std::string name = tag.substr(closes, tag.find_first_of(" \n", closes) - closes);
    if (std::find(kVoid.begin(), kVoid.end(), name) != kVoid.end()) continue;
    if (!closes)
      open.push_back(name);
    else if (open.empty() || open.back() != name)
      return "</" + name + "> at " + html.substr(at, 60);
    else
      open.pop_back();
  }
  return open.empty() ? "" : open.back() + " stays open";
}

TEST(Html, IsBalancedAndAsksNothingOfAnyMachine) {
  const std::string html = html_of(sample::document());
  EXPECT_EQ(unbalanced(html), "");
  for (const char* outside :
       {"src=\"", "href=\"http", "href=\"//", "url(http", "url(//", "@import", "<script", "<link", "<iframe"})
    EXPECT_THAT(html, Not(HasSubstr(outside)));
  // the only addresses are names of the drawing language
  std::string rest = html;
  const std::string name = "http://www.w3.org/2000/svg";
  for (std::size_t at; (at = rest.find(name)) != std::string::npos;) rest.erase(at, name.size());
  EXPECT_THAT(rest, Not(HasSubstr("http://")));
  EXPECT_THAT(rest, Not(HasSubstr("https://")));
}

TEST(Html, EscapesWhatTheUserWrote) {
  document::ResultDocument d = sample::document();
  const std::string evil = "<script>alert(\"1\")</script> & 'more'";
  d.header.title = d.header.scenario = d.header.revision = evil;
  d.rider->name = d.machine->name = d.units[0].name = evil;
  d.pick_list.lines[0].part = d.units[0].plan->steps[0].text = d.findings[0].title = evil;
  d.units[0].plan->steps[12].hold->what = d.units[0].valves[0].post->ledger[0].name = evil;
  const std::string html = html_of(d);
  EXPECT_THAT(html, Not(HasSubstr("<script")));
  EXPECT_THAT(html, HasSubstr("&lt;script&gt;"));
  EXPECT_EQ(unbalanced(html), "");
}

TEST(Html, EveryInputHasANameAndEveryDrawingWords) {
  const std::string html = html_of(sample::document());
  for (std::size_t at = html.find("<input"); at != std::string::npos; at = html.find("<input", at + 1)) {
    const std::string tag = html.substr(at, html.find('>', at) - at);
    const std::string before = html.substr(at - std::min<std::size_t>(at, 40), std::min<std::size_t>(at, 40));
    EXPECT_TRUE(tag.find("aria-label") != std::string::npos || before.find("<label") != std::string::npos)
        << tag;
  }
  for (std::size_t at = html.find("<svg"); at != std::string::npos; at = html.find("<svg", at + 1)) {
    const std::string drawing = html.substr(at, html.find("</svg>", at) - at);
    EXPECT_THAT(drawing, AllOf(HasSubstr("role=\"img\""), Not(HasSubstr("\"></title>"))));
    EXPECT_THAT(drawing, ContainsRegex("<desc id=\"[^\"]+\">[^<]+</desc>"));
  }
  EXPECT_THAT(html, AllOf(HasSubstr("lang=\"en\""), HasSubstr("name=\"viewport\""), HasSubstr("<h1>"),
                          HasSubstr("scope=\"col\""), HasSubstr("prefers-color-scheme:dark")));
}

TEST(Html, NoLineBreaksBetweenANumberAndItsUnit) {
  const std::string html = html_of(sample::document());
  EXPECT_THAT(html, Not(HasSubstr("\xE2\x80\x89")));
  EXPECT_THAT(html, HasSubstr("39.8\xE2\x80\xAFin\xC2\xB7lbf"));
}

TEST(Html, NoIdStandsTwice) {
  const std::string html = html_of(long_document());
  std::vector<std::string> ids;
  for (std::size_t at = html.find(" id=\""); at != std::string::npos; at = html.find(" id=\"", at + 1))
    ids.push_back(html.substr(at + 5, html.find('"', at + 5) - at - 5));
  std::sort(ids.begin(), ids.end());
  const auto twice = std::adjacent_find(ids.begin(), ids.end());
  EXPECT_TRUE(twice == ids.end()) << *twice;
}

TEST(Packet, NamesCharactersThatWouldPrintAsEmptyBoxes) {
  document::ResultDocument d = sample::document();
  EXPECT_EQ(unprintable(d), "");
  d.rider->name = "\xF0\x93\x80\x80";
  EXPECT_EQ(unprintable(d), "\xF0\x93\x80\x80");
}

}  // namespace
}  // namespace shimwright::report
