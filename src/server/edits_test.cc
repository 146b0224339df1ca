#include "server/edits.h"

#include <fmt/core.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "base/utf8.h"
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

TEST(Edits, EachKindOfEditHasItsNameForUndo) {
  const std::string long_text(60, 'x'), cut = printable(long_text, 40);
  ASSERT_LT(n_code_points(cut), 60u);
  const Edit drop{Edit::Kind::Drop, "unit[0].seal_friction", "", 0},
      text{Edit::Kind::Text, "", "format = 1", 0}, move{Edit::Kind::Move, "stack.discs[11]", "", 3};
  struct Named {
    std::vector<Edit> edits;
    std::string note;
  };
  for (const Named& named :
       {Named{{}, "nothing"}, Named{{set("title", "A")}, "title to A"},
        Named{{set("title", long_text)}, "title to " + cut},
        Named{{set("title", std::string(40, 'x'))}, "title to " + std::string(40, 'x')},
        Named{{set(long_text, "1")}, cut + " to 1"},
        Named{{set("a.stack_height_b[0]", "1")}, "stack height b 1 to 1"},
        Named{{insert("stack.discs[2]", "3 x 24")}, "add 3 x 24"},
        Named{{insert("stack.discs[2]", long_text)}, "add " + cut},
        Named{{take_out("stack.discs[2]")}, "remove discs 3"}, Named{{take_out("stack.land")}, "remove land"},
        Named{{move}, "move discs 12"}, Named{{drop}, "discard the draft of seal friction"},
        Named{{text}, "edit the text"}, Named{{text, text}, "edit the text, and 1 more"},
        Named{{set("title", "A"), text, drop}, "title to A, and 2 more"},
        Named{{insert("stack.discs[2]", "a"), text}, "add a, and 1 more"},
        Named{{move, text}, "move discs 12, and 1 more"},
        Named{{drop, text}, "discard the draft of seal friction, and 1 more"}})
    EXPECT_EQ(note_of(named.edits), named.note);
}

TEST(Edits, AnEditMeansTheSameWhileEachListThatItLeadsThroughIsAsLong) {
  const auto job = [](int n_units, int n_first, int n_second) {
    std::string text;
    for (int unit = 0; unit < n_units; ++unit) {
      text += "[[unit]]\nstack = [";
      for (int i = 0; i < (unit == 0 ? n_first : n_second); ++i) text += "\"1 x 20 x 0.1 mm\", ";
      text += "]\n";
    }
    return text;
  };
  const std::string base = job(2, 3, 3);
  const Edit first = set("unit[0].stack[1]", "x"), second = set("unit[1].stack[1]", "x"),
             unit = set("unit[0].name", "x"), whole = set("title", "x");
  struct Changed {
    std::string present;
    bool first, second, unit;
  };
  for (const Changed& changed :
       {Changed{base, true, true, true}, Changed{job(2, 4, 3), false, true, true},
        Changed{job(2, 2, 3), false, true, true}, Changed{job(2, 3, 4), true, false, true},
        Changed{job(3, 3, 3), false, false, false}, Changed{job(1, 3, 3), false, false, false},
        Changed{job(2, 12, 3), false, true, true}, Changed{"", false, false, false}}) {
    EXPECT_EQ(means_the_same({first}, base, changed.present), changed.first) << changed.present;
    EXPECT_EQ(means_the_same({second}, base, changed.present), changed.second) << changed.present;
    EXPECT_EQ(means_the_same({unit}, base, changed.present), changed.unit) << changed.present;
    EXPECT_EQ(means_the_same({whole, first}, base, changed.present), changed.first)
        << "the second edit counts too";
    EXPECT_TRUE(means_the_same({whole}, base, changed.present));
  }
  EXPECT_TRUE(means_the_same({set("stack.discs[0]", "x")}, base, job(1, 1, 1))) << "a list that neither has";
}

TEST(Edits, ADraftGoesWithWhatItLiesInAndWithNothingElse) {
  const std::vector<Draft> drafts = {{"stack.seat", "bad", false},
                                     {"stack.discs[0]", "bad", false},
                                     {"stack.discs[1]", "bad", true},
                                     {"stack.discs[1]", "bad", false},
                                     {"stack.pressures", "bad", false}};
  const auto left = [&](const Edit& edit) {
    std::string paths;
    for (const FaultyDraft& faulty : after({edit}, drafts).drafts)
      paths += faulty.draft.path.substr(6) + (faulty.draft.insert ? "+ " : " ");
    return paths;
  };
  EXPECT_EQ(left(take_out("stack.discs[1]")), "seat discs[0] discs[1]+ pressures ")
      << "what waits before it stays";
  EXPECT_EQ(left(take_out("stack.discs[0]")), "seat discs[0]+ discs[0] pressures ");
  EXPECT_EQ(left({Edit::Kind::Drop, "stack.discs[0]", "", 0}), "seat discs[1]+ discs[1] pressures ");
  EXPECT_EQ(left({Edit::Kind::Drop, "stack.discs[1]", "", 0}), "seat discs[0] pressures ");
  EXPECT_EQ(left({Edit::Kind::Drop, "stack.disc", "", 0}), "seat discs[0] discs[1]+ discs[1] pressures ");
  EXPECT_EQ(left(set("stack.discs[1]", "1 x 15 x 0.1 mm")), "seat discs[0] discs[1]+ pressures ");
  EXPECT_EQ(left(insert("stack.discs[1]", "1 x 15 x 0.1 mm")), "seat discs[0] discs[2] pressures ")
      << "the waiting one is the one that came";
  EXPECT_EQ(left(insert("stack.discs[0]", "1 x 20 x 0.1 mm")), "seat discs[1] discs[2]+ discs[2] pressures ");
}

/// Two units, and drafts in both: the second one's follow it, the first one's go with it.
TEST(Edits, DraftsInsideAnElementFollowItAndGoWithIt) {
  const std::string text =
      "format = 1\ntitle = \"T\"\n[machine]\nname = \"m\"\nfront_mass = \"42 kg\"\n"
      "front_sag = { static = \"15 to 30 mm\", rider = \"40 to 58 mm\" }\n"
      "[[unit]]\nname = \"a\"\ntravel = \"300 mm\"\n[[unit]]\nname = \"b\"\ntravel = \"300 mm\"\n"
      "[unit.piston_valve.rebound]\nstack = [\"3 x 20 x 0.1 mm\", \"1 x 15 x 0.1 mm\"]\n";
  const std::vector<Draft> drafts = {{"unit[0].travel", "bad", false},
                                     {"unit[1].travel", "bad", false},
                                     {"unit[1].piston_valve.rebound.stack[1]", "bad", false},
                                     {"machine.front_mass", "bad", false},
                                     {"machine.front_sag.static", "bad", false}};
  const auto left = [&](const std::vector<Edit>& edits) {
    std::string paths;
    const auto next = edited(text, drafts, edits);
    EXPECT_TRUE(next.has_value()) << (next ? "" : next.error().message);
    if (next)
      for (const FaultyDraft& faulty : next->drafts) paths += faulty.draft.path + " ";
    return paths;
  };
  const std::string machine = "machine.front_mass machine.front_sag.static ";
  const std::string stack = ".piston_valve.rebound.stack[";
  EXPECT_EQ(left({}), "unit[0].travel unit[1].travel unit[1]" + stack + "1] " + machine)
      << "each waits in its place";
  EXPECT_EQ(left({take_out("unit[0]")}), "unit[0].travel unit[0]" + stack + "1] " + machine);
  EXPECT_EQ(left({take_out("unit[1]")}), "unit[0].travel " + machine);
  EXPECT_EQ(left({take_out("unit[1].piston_valve.rebound.stack[0]")}),
            "unit[0].travel unit[1].travel unit[1]" + stack + "0] " + machine);
  EXPECT_EQ(left({take_out("unit[1].piston_valve.rebound.stack")}).find("stack"), std::string::npos);
  EXPECT_EQ(left({take_out("machine.front_sag")}),
            "unit[0].travel unit[1].travel unit[1]" + stack + "1] machine.front_mass ");
  EXPECT_EQ(left({take_out("machine")}), "unit[0].travel unit[1].travel unit[1]" + stack + "1] ");
  EXPECT_EQ(left({take_out("machine.name")}), left({})) << "what lies beside it stays";
}

TEST(Edits, ADraftTypedAgainIsOneDraft) {
  const auto drafts =
      after({set("stack.seat", "5 wt"), insert("stack.discs[0]", "3 x"), set("stack.discs[0]", "4 x"),
             insert("stack.discs[0]", "5 x"), set("stack.seat", "6 wt")})
          .drafts;
  ASSERT_EQ(drafts.size(), 3u);
  EXPECT_EQ(drafts[0].draft, (Draft{"stack.seat", "6 wt", false}));
  EXPECT_EQ(drafts[1].draft, (Draft{"stack.discs[0]", "5 x", true}));
  EXPECT_EQ(drafts[2].draft, (Draft{"stack.discs[0]", "4 x", false}));
}

TEST(Edits, AKeyThatNoJobHasIsSaidByItsNameCutToTwoHundredCharacters) {
  for (const std::size_t n : {std::size_t{3}, std::size_t{200}, std::size_t{201}, std::size_t{300}}) {
    const std::string key(n, 'k');
    const auto refused = edited(kStackJob, {}, {set(key, "1")});
    ASSERT_FALSE(refused.has_value());
    EXPECT_EQ(refused.error().status, 422);
    EXPECT_EQ(refused.error().code, "no_such_key");
    EXPECT_THAT(refused.error().message, testing::StartsWith(printable(key, 200) + ": ")) << n;
    EXPECT_FALSE(refused.error().remedy.empty());
  }
  for (const Edit& edit : {take_out("stack.discs[2]"), Edit{Edit::Kind::Move, "stack.discs[2]", "", 0},
                           insert("stack.discs[3]", "x")})
    EXPECT_EQ(edited(kStackJob, {}, {edit}).error().code, "no_such_key") << edit.path;
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
