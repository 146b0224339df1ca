#include <gtest/gtest.h>

#include <fmt/core.h>

#include <algorithm>
#include <numbers>

#include "assembly/acceptance.h"

// What speaks for a cause and how much, typed a second time (common practice, no source): each observation,
// and what it says of each cause that something speaks for.

namespace shimwright::assembly {
namespace {

TriedCartridge weak_spring() {
  return {.rod_diameter = 12e-3, .stroke = 0.1, .oil_volume = 150e-6, .return_force = 60, .seal_drag = 15};
}

/// "air +2 stops short by 0.005 (0)", one line for each evidence, the weightiest first.
std::string told(const Observation& seen, const TriedCartridge& cartridge = weak_spring()) {
  const char* causes[] = {"air", "oil", "seal", "much", "push", "tight"};
  std::string lines;
  for (const LikelyCause& likely : diagnose_acceptance(seen, cartridge).causes) {
    lines += fmt::format("{} {}\n", causes[static_cast<int>(likely.cause)], likely.score);
    for (const Evidence& one : likely.evidence)
      lines +=
          fmt::format("  {:+d} {} {:.6g} {:.6g}\n", one.weight, words(one.fact), one.found, one.expected);
  }
  return lines;
}

Observation stops(double by) {
  return {.comes_out = ComesOut::StopsShort, .short_by = by};
}

TEST(AcceptanceEvidence, OfARodThatStopsShort) {
  EXPECT_EQ(told(stops(2e-3)), "");
  EXPECT_EQ(told(stops(2.001e-3)),
            "air 2\n  +2 stops short by 0.002001 0\noil 1\n  +1 stops short by 0.002001 0\n");
  EXPECT_EQ(told(stops(5.99e-3)),
            "air 2\n  +2 stops short by 0.00599 0\noil 1\n  +1 stops short by 0.00599 0\n");
  for (const char* by : {"0.006", "0.02"})
    EXPECT_EQ(
        told(stops(std::stod(by))),
        fmt::format("air 3\n  +2 stops short by {0} 0\n  +1 trapped air usually leaves it about half an inch "
                    "short {0} 0.0127\noil 1\n  +1 stops short by {0} 0\n",
                    by));
  const std::string beyond =
      "oil 3\n  +2 it stops short by more than trapped bubbles usually cause {0} 0.02\n"
      "  +1 stops short by {0} 0\nair 2\n  +2 stops short by {0} 0\n";
  EXPECT_EQ(told(stops(0.0201)), fmt::format(fmt::runtime(beyond), "0.0201"));
  EXPECT_EQ(told(stops(0.05)), fmt::format(fmt::runtime(beyond), "0.05"));
  EXPECT_EQ(told(stops(0.0501)), fmt::format(fmt::runtime(beyond), "0.0501") +
                                     "seal 2\n  +2 short by more than half of the stroke 0.0501 0.05\n");
}

TEST(AcceptanceEvidence, OfARodThatStaysIn) {
  const Observation stays{.comes_out = ComesOut::NotAtAll};
  EXPECT_EQ(told(stays),
            "seal 3\n  +3 the rod does not come out at all 0 0\n"
            "push 1\n  +1 the rod does not come out at all 0 0\n"
            "tight 1\n  +1 the rod does not come out at all 0 0\n");
  TriedCartridge weak = weak_spring();
  weak.return_force = 15;
  EXPECT_EQ(told(stays, weak),
            "push 4\n  +3 the return force is not larger than the usual drag 15 15\n"
            "  +1 the rod does not come out at all 0 0\n"
            "seal 3\n  +3 the rod does not come out at all 0 0\n"
            "tight 1\n  +1 the rod does not come out at all 0 0\n");
  weak.return_force = 15.01;
  EXPECT_EQ(told(stays, weak), told(stays));
}

TEST(AcceptanceEvidence, OfBubbles) {
  Observation seen{.bubbles = Bubbles::Continue};
  EXPECT_EQ(told(seen),
            "seal 2\n  +2 the bubbles do not stop 0 0\nair 1\n  +1 the bubbles do not stop 0 0\n");
  seen.bled_for = 299;
  EXPECT_EQ(told(seen),
            "air 3\n  +2 the unit was bled for less time than usual 299 300\n"
            "  +1 the bubbles do not stop 0 0\nseal 2\n  +2 the bubbles do not stop 0 0\n");
  seen.bled_for = 300;
  EXPECT_EQ(told(seen),
            "seal 2\n  +2 the bubbles do not stop 0 0\nair 1\n  +1 the bubbles do not stop 0 0\n");
  seen.bled_for = 600;
  EXPECT_EQ(told(seen),
            "seal 3\n  +2 the bubbles do not stop 0 0\n  +1 the unit was bled for the usual time 600 600\n");
  seen = stops(5e-3);
  seen.bubbles = Bubbles::Stopped;
  EXPECT_EQ(told(seen),
            "oil 3\n  +2 the bubbles have stopped, but the rod still stops short 0.005 0\n"
            "  +1 stops short by 0.005 0\n"
            "air 1\n  +2 stops short by 0.005 0\n  -1 the bubbles have stopped 0 0\n");
  seen = stops(0.01);
  seen.bubbles = Bubbles::Continue;
  seen.bled_for = 600;
  EXPECT_EQ(told(seen).substr(0, 6), "air 3\n") << "what speaks against it counts";
}

TEST(AcceptanceEvidence, OfWhatIsPurgedAndHowItDrags) {
  // 2 mm of a 12 mm rod
  const double accepted = 2e-3 * 0.25 * std::numbers::pi * 12e-3 * 12e-3;
  Observation seen{.purged = 0.999 * accepted};
  EXPECT_EQ(told(seen), "");
  seen.purged = 1e-6;
  EXPECT_EQ(
      told(seen),
      fmt::format("much 3\n  +3 it pushes out more oil than a correct fill does 1e-06 {:.6g}\n", accepted));
  Observation both = stops(0.0501);
  both.purged = 1e-6;
  EXPECT_NE(told(both).find("oil 1\n  +2 it stops short by more"), std::string::npos);
  EXPECT_NE(told(both).find("  -2 it pushes out more oil than a correct fill does 1e-06"), std::string::npos);
  EXPECT_EQ(told({.oil_outside = true}), "seal 3\n  +3 there is oil outside after wiping 0 0\n");
  EXPECT_EQ(told({.drag = Drag::Tight}), "tight 2\n  +2 it is tight all the way 0 0\n");
  EXPECT_EQ(told({.drag = Drag::Notchy}), "tight 3\n  +3 it is tight in places 0 0\n");
  EXPECT_EQ(told({.drag = Drag::Smooth}), "");
  EXPECT_EQ(told({.comes_out = ComesOut::NotAtAll, .drag = Drag::Smooth}).find("tight"), std::string::npos);
}

}  // namespace
}  // namespace shimwright::assembly
