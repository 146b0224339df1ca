#include "server/edits.h"

#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "server/test_bench.h"

namespace shimwright::server {
namespace {

using store::Draft;
using ::testing::HasSubstr;

Drafted after(const std::vector<Edit>& edits, const std::vector<Draft>& drafts = {}) {
  auto next = edited(kStackJob, drafts, edits);
  EXPECT_TRUE(next.has_value()) << (next ? "" : next.error().message);
  return next ? *next : Drafted{};
}

TEST(Edits, AValueThatCanBeTakenStandsInTheText) {
  const Drafted next = after({set("stack.seat", "18.5 mm")});
  EXPECT_THAT(next.text, HasSubstr("seat      = \"18.5 mm\""));
  EXPECT_TRUE(next.drafts.empty());
}

TEST(Edits, AValueThatCannotBeTakenIsKeptAsTypedWithItsRemedy) {
  const Drafted next = after({set("stack.seat", "5 wt"), set("title", "Other")});
  ASSERT_EQ(next.drafts.size(), 1u);
  EXPECT_EQ(next.drafts[0].draft, (Draft{"stack.seat", "5 wt", false}));
  EXPECT_FALSE(next.drafts[0].diagnostic.remedy.empty());
  EXPECT_THAT(next.text, HasSubstr("\"18 mm\"")) << "the last good value stays";
  EXPECT_THAT(next.text, HasSubstr("\"Other\"")) << "and the rest goes on";
}

TEST(Edits, ADraftGoesWhenItsValueIsMendedOrItIsDropped) {
  const std::vector<Draft> drafts = {{"stack.seat", "5 wt", false}};
  EXPECT_TRUE(after({set("stack.seat", "17 mm")}, drafts).drafts.empty());
  EXPECT_TRUE(after({{Edit::Kind::Drop, "stack.seat", "", 0}}, drafts).drafts.empty());
  EXPECT_EQ(after({set("stack.seat", "6 wt")}, drafts).drafts.at(0).draft.typed, "6 wt");
}

TEST(Edits, ADraftIsTakenWhenAnotherEditMakesItGood) {
  // a clamp as wide as the face shim cannot be; with a wider face shim it can
  const Drafted first = after({set("stack.clamp", "19 mm")});
  ASSERT_EQ(first.drafts.size(), 1u);
  auto next = edited(first.text, plain(first.drafts),
                     {set("stack.seat", "24 mm"), set("stack.discs[0]", "3 x 26 x 0.15 mm"),
                      set("stack.discs[1]", "1 x 25 x 0.15 mm")});
  ASSERT_TRUE(next.has_value());
  EXPECT_TRUE(next->drafts.empty()) << next->drafts[0].diagnostic.what;
  EXPECT_THAT(next->text, HasSubstr("clamp     = \"19 mm\""));
}

TEST(Edits, AShimThatCannotBeTakenWaitsBeforeItsPlace) {
  const Drafted next = after({insert("stack.discs[1]", "3 x 24")});
  ASSERT_EQ(next.drafts.size(), 1u);
  EXPECT_EQ(next.drafts[0].draft, (Draft{"stack.discs[1]", "3 x 24", true}));
  EXPECT_EQ(next.text, kStackJob);
}

TEST(Edits, DraftsMoveAlongWithTheirShim) {
  const std::vector<Draft> drafts = {{"stack.discs[1]", "bad", false}};
  EXPECT_EQ(after({insert("stack.discs[0]", "19 x 0.15 mm")}, drafts).drafts.at(0).draft.path,
            "stack.discs[2]");
  EXPECT_EQ(after({{Edit::Kind::Move, "stack.discs[1]", "", 0}}, drafts).drafts.at(0).draft.path,
            "stack.discs[0]");
  const std::vector<Draft> last = {{"stack.discs[1]", "bad", false}};
  EXPECT_EQ(after({{Edit::Kind::Move, "stack.discs[0]", "", 1}}, last).drafts.at(0).draft.path,
            "stack.discs[0]");
  const std::vector<Draft> first = {{"stack.discs[0]", "bad", false}};
  EXPECT_EQ(after({{Edit::Kind::Move, "stack.discs[0]", "", 1}}, first).drafts.at(0).draft.path,
            "stack.discs[1]");
  EXPECT_EQ(after({{Edit::Kind::Move, "stack.discs[1]", "", 0}}, first).drafts.at(0).draft.path,
            "stack.discs[1]");
  // of five shims the fourth goes to the second place: who lies between goes one back, who lies outside stays
  const Edit up{Edit::Kind::Move, "stack.discs[3]", "", 1}, down{Edit::Kind::Move, "stack.discs[1]", "", 3};
  const std::size_t went_up[] = {0, 2, 3, 1, 4}, went_down[] = {0, 3, 1, 2, 4};
  for (std::size_t i = 0; i < 5; ++i) {
    std::vector<Edit> edits(3, insert("stack.discs[0]", "19 x 0.15 mm"));
    edits.push_back({Edit::Kind::Set, fmt::format("stack.discs[{}]", i), "bad", 0});
    edits.push_back(up);
    EXPECT_EQ(after(edits, {}).drafts.at(0).draft.path, fmt::format("stack.discs[{}]", went_up[i]));
    edits.back() = down;
    EXPECT_EQ(after(edits, {}).drafts.at(0).draft.path, fmt::format("stack.discs[{}]", went_down[i]));
  }
  EXPECT_EQ(after({take_out("stack.discs[0]")}, drafts).drafts.at(0).draft.path, "stack.discs[0]");
  EXPECT_TRUE(after({take_out("stack.discs[1]")}, drafts).drafts.empty()) << "it goes with its shim";
}

TEST(Edits, APathThatLeadsNowhereIsRefusedAndNothingIsDone) {
  for (const char* path : {"stack.seet", "stack.discs[9]", "", "stack..seat", "stack.seat[0]"}) {
    const auto next = edited(kStackJob, {}, {set("title", "Other"), set(path, "1 mm")});
    ASSERT_FALSE(next.has_value()) << path;
    EXPECT_EQ(next.error().status, 422) << path;
    EXPECT_EQ(next.error().code, "no_such_key") << path;
  }
  EXPECT_FALSE(edited(kStackJob, {}, {take_out("stack.land")}).has_value());
}

TEST(Edits, OverATextThatIsNoTomlEveryValueIsADraftUntilTheTextIsMended) {
  auto broken = edited(
      kStackJob, {},
      {{Edit::Kind::Text, "", "title = \"open\n[stack]\nseat = \"18 mm\"\n", 0}, set("stack.seat", "17 mm")});
  ASSERT_TRUE(broken.has_value());
  ASSERT_EQ(broken->drafts.size(), 1u);
  auto mended = edited(broken->text, plain(broken->drafts), {{Edit::Kind::Text, "", kStackJob, 0}});
  ASSERT_TRUE(mended.has_value());
  EXPECT_TRUE(mended->drafts.empty());
  EXPECT_THAT(mended->text, HasSubstr("\"17 mm\"")) << "what was typed meanwhile is taken";
}

TEST(Edits, AnOlderViewStillMeansTheSameUnlessItsListGrew) {
  const std::string grown = after({insert("stack.discs[0]", "19 x 0.15 mm")}).text;
  EXPECT_TRUE(means_the_same({set("stack.seat", "17 mm")}, kStackJob, grown));
  EXPECT_FALSE(means_the_same({set("stack.discs[1]", "18 x 0.15 mm")}, kStackJob, grown));
}

TEST(Edits, UndoIsNamedAfterWhatWasDone) {
  EXPECT_EQ(note_of({set("unit[0].seal_friction", "15 N")}), "seal friction to 15 N");
  EXPECT_EQ(note_of({take_out("unit[0].x.stack[2]"), set("title", "x")}), "remove stack 3, and 1 more");
}

RC_GTEST_PROP(EditsProperty, AnyTypedTextIsTakenOrKeptWordForWord, ()) {
  const auto typed = *rc::gen::string<std::string>();
  const auto path =
      *rc::gen::element<std::string>("title", "stack.seat", "stack.discs[0]", "stack.pressures");
  const auto next = edited(kStackJob, {}, {set(path, typed)});
  if (!next) RC_DISCARD("refused");
  for (const FaultyDraft& faulty : next->drafts) RC_ASSERT(faulty.draft.typed == typed);
  if (next->drafts.empty()) return;
  RC_ASSERT(next->text == kStackJob);
}

}  // namespace
}  // namespace shimwright::server
