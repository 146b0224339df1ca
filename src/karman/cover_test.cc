#include "karman/cover.h"

#include <gtest/gtest.h>

#include <functional>

#include "karman/pile.h"
#include "karman/test_random_stacks.h"

namespace shimwright::karman {
namespace {

TEST(Cover, SaysWhatItLeavesToTheFullSolver) {
  const DiscTable table = test_table(kTestValves[0]);
  plate::Stack plain = RandomStacks(3).stack(StackClass::TwoStage, kTestValves[0], 4, 8);
  EXPECT_EQ(covers(table, plain), Cover::Covered);

  struct Case {
    Cover why;
    std::function<void(plate::Stack&)> change;
  };
  const Case cases[] = {
      {Cover::Covered, [](auto& s) { s.seat.height = 0.1e-3; }},
      {Cover::Covered, [](auto& s) { s.seat.present = false; }},
      {Cover::Covered, [](auto& s) { s.washer_radius = s.clamp_radius; }},
      {Cover::Ring, [](auto& s) { s.discs[1].bore_radius = 8e-3; }},
      {Cover::Float, [](auto& s) { s.slide = {1e-3, 1.0, 100.0}; }},
      {Cover::BackSpring, [](auto& s) { s.back_spring.present = true; }},
      {Cover::Notches, [](auto& s) { s.discs[0].notches = {4, 1e-3, 1e-3}; }},
      {Cover::SlippingClamp, [](auto& s) { s.clamp_slips = true; }},
      {Cover::Washer, [](auto& s) { s.washer_radius = 7e-3; }},
      {Cover::OtherValve, [](auto& s) { s.clamp_radius = 5.5e-3; }},
      {Cover::OtherValve, [](auto& s) { s.load.land_outer_radius = 11e-3; }},
      {Cover::OtherValve, [](auto& s) { s.seat.radius = 10.75e-3; }},
      {Cover::Material, [](auto& s) { s.discs[1].youngs_modulus = 190e9; }},
      {Cover::Material, [](auto& s) { s.discs[1].poisson_ratio = 0.29; }},
      {Cover::Rim, [](auto& s) { s.discs.back().outer_radius = 10.1e-3; }},
      {Cover::Rim, [](auto& s) { s.discs.insert(s.discs.begin(), s.discs[0])->outer_radius = 9e-3; }},
      {Cover::Layers, [](auto& s) { s.discs.clear(); }},
      {Cover::Layers,
       [](auto& s) {
         while (s.discs.size() <= 2 * kMostLayers) {
           s.discs.push_back(s.discs[0]);
           s.discs.back().thickness *= 1.0 + 0.01 * static_cast<double>(s.discs.size());
         }
       }},
  };
  for (const Case& c : cases) {
    plate::Stack stack = plain;
    c.change(stack);
    EXPECT_EQ(covers(table, stack), c.why) << word(c.why) << ", got " << word(covers(table, stack));
    EXPECT_FALSE(word(c.why).empty());
  }
}

}  // namespace
}  // namespace shimwright::karman
