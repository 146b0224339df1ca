// What each calculation of this module refuses to take: every bound from both sides. Just inside it nothing
// is said, just outside it the member is named, with what it was.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <string>
#include <vector>

#include "assembly/acceptance.h"
#include "assembly/fill.h"
#include "assembly/ledger.h"
#include "assembly/reservoir.h"
#include "assembly/spacers.h"
#include "assembly/stripping.h"
#include "assembly/torque.h"

namespace shimwright::assembly {
namespace {

constexpr double kNotANumber = std::numeric_limits<double>::quiet_NaN();
constexpr double kHair = 1e-9;

template <typename Case>
struct Bound {
  const char* field;
  std::function<double&(Case&)> member;
  double inside;
  double outside;
};

/// Of a bound that may be reached itself, and of one that may not.
template <typename Case>
Bound<Case> from(const char* field, std::function<double&(Case&)> member, double least) {
  return {field, std::move(member), least, least - kHair};
}
template <typename Case>
Bound<Case> above(const char* field, std::function<double&(Case&)> member, double bound) {
  return {field, std::move(member), bound + kHair, bound};
}
template <typename Case>
Bound<Case> up_to(const char* field, std::function<double&(Case&)> member, double most) {
  return {field, std::move(member), most, most * (1.0 + kHair)};
}
template <typename Case>
Bound<Case> below(const char* field, std::function<double&(Case&)> member, double bound) {
  return {field, std::move(member), bound * (1.0 - kHair), bound};
}
template <typename Case>
Bound<Case> a_number(const char* field, std::function<double&(Case&)> member) {
  return {field, std::move(member), -1.0, kNotANumber};
}

template <typename Case>
void look_at(const Case& good, const std::vector<Bound<Case>>& bounds) {
  EXPECT_TRUE(problems_in(good).empty());
  for (const Bound<Case>& bound : bounds) {
    Case inside = good, outside = good, nowhere = good;
    bound.member(inside) = bound.inside;
    bound.member(outside) = bound.outside;
    bound.member(nowhere) = kNotANumber;
    const auto named = [&](const Case& one) {
      const Problems problems = problems_in(one);
      return std::ranges::find(problems, bound.field, &Problem::field) != problems.end();
    };
    EXPECT_FALSE(named(inside)) << bound.field << " = " << bound.inside;
    EXPECT_TRUE(named(outside)) << bound.field << " = " << bound.outside;
    EXPECT_TRUE(named(nowhere)) << bound.field << " is no number";
    for (const Problem& problem : problems_in(outside)) {
      EXPECT_FALSE(problem.allowed.empty());
      if (problem.field == bound.field && !std::isnan(bound.outside)) {
        EXPECT_NEAR(problem.got, bound.outside, 2.0 * kHair * std::abs(bound.outside) + 2.0 * kHair);
      }
    }
  }
}

TEST(Problems, OfACartridge) {
  using Case = CartridgeFill;
  const Case good{.bore = 0.025,
                  .length = 0.3,
                  .rod_diameter = 0.012,
                  .rod_bore = 0.008,
                  .rod_inside = 0.04,
                  .solids = 8e-6};
  const double room = oil_volume(good) + good.solids;
  look_at<Case>(good, {above<Case>(
                           "bore", [](Case& c) -> double& { return c.bore; }, 0.0),
                       above<Case>(
                           "length", [](Case& c) -> double& { return c.length; }, 0.0),
                       from<Case>(
                           "rod_diameter", [](Case& c) -> double& { return c.rod_diameter; }, 0.0),
                       below<Case>(
                           "rod_diameter", [](Case& c) -> double& { return c.rod_diameter; }, 0.025),
                       from<Case>(
                           "rod_bore", [](Case& c) -> double& { return c.rod_bore; }, 0.0),
                       up_to<Case>(
                           "rod_bore", [](Case& c) -> double& { return c.rod_bore; }, 0.012),
                       from<Case>(
                           "rod_inside", [](Case& c) -> double& { return c.rod_inside; }, 0.0),
                       up_to<Case>(
                           "rod_inside", [](Case& c) -> double& { return c.rod_inside; }, 0.3),
                       from<Case>(
                           "elsewhere", [](Case& c) -> double& { return c.elsewhere; }, 0.0),
                       from<Case>(
                           "solids", [](Case& c) -> double& { return c.solids; }, 0.0),
                       below<Case>("solids", [](Case& c) -> double& { return c.solids; }, room)});
}

TEST(Problems, OfATubeAndWhatStandsInIt) {
  using Case = OuterTube;
  const Case good{.bore = 0.05, .height = 0.5, .standing = {{.diameter = 0.03, .bottom = 0.1, .top = 0.4}}};
  look_at<Case>(
      good,
      {above<Case>(
           "bore", [](Case& c) -> double& { return c.bore; }, 0.0),
       above<Case>(
           "height", [](Case& c) -> double& { return c.height; }, 0.0),
       above<Case>(
           "standing[0].diameter", [](Case& c) -> double& { return c.standing[0].diameter; }, 0.0),
       below<Case>(
           "standing[0].diameter", [](Case& c) -> double& { return c.standing[0].diameter; }, 0.05),
       from<Case>(
           "standing[0].bottom", [](Case& c) -> double& { return c.standing[0].bottom; }, 0.0),
       below<Case>("standing[0].bottom", [](Case& c) -> double& { return c.standing[0].bottom; }, 0.4)});
}

TEST(Problems, OfWarmingAndPurging) {
  using Warm = Warming;
  look_at<Warm>({.oil_volume = 1e-4, .oil_expansion = 8e-4, .body_expansion = 12e-6, .rise = 40.0},
                {from<Warm>(
                     "oil_volume", [](Warm& c) -> double& { return c.oil_volume; }, 0.0),
                 from<Warm>(
                     "body_expansion", [](Warm& c) -> double& { return c.body_expansion; }, 0.0),
                 above<Warm>(
                     "oil_expansion", [](Warm& c) -> double& { return c.oil_expansion; }, 0.0),
                 a_number<Warm>("rise", [](Warm& c) -> double& { return c.rise; })});
  using Purged = PurgeCase;
  look_at<Purged>({.rod_diameter = 0.012, .stroke = 0.3, .capacity = 2e-5},
                  {above<Purged>(
                       "rod_diameter", [](Purged& c) -> double& { return c.rod_diameter; }, 0.0),
                   above<Purged>(
                       "stroke", [](Purged& c) -> double& { return c.stroke; }, 0.0),
                   from<Purged>(
                       "capacity", [](Purged& c) -> double& { return c.capacity; }, 0.0),
                   a_number<Purged>("extra_oil", [](Purged& c) -> double& { return c.extra_oil; }),
                   a_number<Purged>("growth", [](Purged& c) -> double& { return c.growth; })});
}

PostAssembly post_assembly() {
  return {.post = {.thread = nominal_thread(6e-3, 1e-3),
                   .length = 20e-3,
                   .thread_length = 9e-3,
                   .runout = 1e-3,
                   .end_chamfer = 0.5e-3},
          .nut = {.height = 5e-3, .face_chamfer = 0.5e-3, .top_chamfer = 0.5e-3},
          .pieces = {{.id = "piston", .thickness = 10e-3, .tolerance = 0.05e-3, .measured = 10e-3}}};
}

TEST(Problems, OfAPileOnAPost) {
  using Case = PostAssembly;
  look_at<Case>(post_assembly(),
                {above<Case>(
                     "post.thread.diameter", [](Case& c) -> double& { return c.post.thread.diameter; }, 0.0),
                 above<Case>(
                     "post.thread.pitch", [](Case& c) -> double& { return c.post.thread.pitch; }, 0.0),
                 below<Case>(
                     "post.thread.pitch", [](Case& c) -> double& { return c.post.thread.pitch; }, 3e-3),
                 above<Case>(
                     "post.length", [](Case& c) -> double& { return c.post.length; }, 0.0),
                 above<Case>(
                     "post.thread_length", [](Case& c) -> double& { return c.post.thread_length; }, 0.0),
                 up_to<Case>(
                     "post.thread_length", [](Case& c) -> double& { return c.post.thread_length; }, 20e-3),
                 from<Case>(
                     "post.runout", [](Case& c) -> double& { return c.post.runout; }, 0.0),
                 below<Case>(
                     "post.runout", [](Case& c) -> double& { return c.post.runout; }, 8.5e-3),
                 from<Case>(
                     "post.end_chamfer", [](Case& c) -> double& { return c.post.end_chamfer; }, 0.0),
                 from<Case>(
                     "post.tolerance", [](Case& c) -> double& { return c.post.tolerance; }, 0.0),
                 above<Case>(
                     "nut.height", [](Case& c) -> double& { return c.nut.height; }, 0.0),
                 from<Case>(
                     "nut.face_chamfer", [](Case& c) -> double& { return c.nut.face_chamfer; }, 0.0),
                 Bound<Case>{"nut.face_chamfer", [](Case& c) -> double& { return c.nut.face_chamfer; },
                             4.4999e-3, 4.5001e-3},
                 from<Case>(
                     "nut.top_chamfer", [](Case& c) -> double& { return c.nut.top_chamfer; }, 0.0),
                 from<Case>(
                     "nut.blind_depth", [](Case& c) -> double& { return c.nut.blind_depth; }, 0.0),
                 up_to<Case>(
                     "nut.blind_depth", [](Case& c) -> double& { return c.nut.blind_depth; }, 5e-3),
                 from<Case>(
                     "engaged_needed", [](Case& c) -> double& { return c.engaged_needed; }, 0.0),
                 a_number<Case>("protrusion_needed", [](Case& c) -> double& { return c.protrusion_needed; }),
                 from<Case>(
                     "protrusion_allowed", [](Case& c) -> double& { return c.protrusion_allowed; }, 0.0),
                 above<Case>(
                     "pieces[0].thickness", [](Case& c) -> double& { return c.pieces[0].thickness; }, 0.0),
                 from<Case>(
                     "pieces[0].tolerance", [](Case& c) -> double& { return c.pieces[0].tolerance; }, 0.0),
                 below<Case>(
                     "pieces[0].tolerance", [](Case& c) -> double& { return c.pieces[0].tolerance; }, 10e-3),
                 above<Case>(
                     "pieces[0].measured", [](Case& c) -> double& { return *c.pieces[0].measured; }, 0.0),
                 from<Case>(
                     "pieces[0].measured_tolerance",
                     [](Case& c) -> double& { return c.pieces[0].measured_tolerance; }, 0.0)});
  PostAssembly none = post_assembly();
  none.pieces[0].count = 0;
  ASSERT_EQ(problems_in(none).size(), 1u);
  EXPECT_EQ(problems_in(none)[0].field, "pieces[0].count");
}

TEST(Problems, OfADrawerOfSpacers) {
  const auto count = [](int in_hand, int fitted) {
    SpacerCase drawer{.assembly = post_assembly()};
    drawer.stock.push_back(
        {.piece = {.id = "spacer", .thickness = 1e-3}, .in_hand = in_hand, .fitted = fitted});
    return problems_in(drawer).size();
  };
  EXPECT_EQ(count(0, 0), 0u);
  EXPECT_EQ(count(-1, 0), 2u) << "less than none, and more fitted than there are";
  EXPECT_EQ(count(3, 3), 0u);
  EXPECT_EQ(count(3, 4), 1u);
  EXPECT_EQ(count(3, -1), 1u);
  EXPECT_EQ(count(kMostSpacers, 0), 0u);
  SpacerCase with_none{.assembly = post_assembly()};
  with_none.stock.assign(2, {.piece = {.id = "spacer", .thickness = 1e-3}, .in_hand = kMostSpacers});
  with_none.stock[1].in_hand = 0;
  EXPECT_TRUE(problems_in(with_none).empty()) << "an empty place in the drawer is no spacer";
  EXPECT_EQ(count(kMostSpacers + 1, 0), 1u);
}

TEST(Problems, OfAReservoir) {
  using Case = Reservoir;
  look_at<Case>({.rod_area = 1e-4, .gas_volume = 1e-4, .spring_force = 10.0, .spring_rate = 10.0},
                {above<Case>(
                     "rod_area", [](Case& c) -> double& { return c.rod_area; }, 0.0),
                 from<Case>(
                     "leg_area", [](Case& c) -> double& { return c.leg_area; }, 0.0),
                 above<Case>(
                     "gas_volume", [](Case& c) -> double& { return c.gas_volume; }, 0.0),
                 above<Case>(
                     "gas_pressure", [](Case& c) -> double& { return c.gas_pressure; }, 0.0),
                 above<Case>(
                     "set_temperature", [](Case& c) -> double& { return c.set_temperature; }, 0.0),
                 from<Case>(
                     "spring_force", [](Case& c) -> double& { return c.spring_force; }, 0.0),
                 from<Case>(
                     "spring_rate", [](Case& c) -> double& { return c.spring_rate; }, 0.0),
                 from<Case>("capacity", [](Case& c) -> double& { return c.capacity; }, 0.0)});
  EXPECT_TRUE(problems_in(Case{.rod_area = 1e-4, .piston_area = 1e-3}).empty()) << "a piston on a spring";
  EXPECT_EQ(problems_in(Case{.rod_area = 1e-4}).size(), 1u);
}

const Strength kSteel{.yield = 640e6, .ultimate = 800e6};

TEST(Problems, OfAPairOfThreads) {
  using Case = ThreadPair;
  look_at<Case>({.thread = nominal_thread(6e-3, 1e-3),
                 .engaged_length = 4e-3,
                 .post = kSteel,
                 .nut = kSteel,
                 .nut_width = 10e-3},
                {above<Case>(
                     "post.ultimate", [](Case& c) -> double& { return c.post.ultimate; }, 0.0),
                 above<Case>(
                     "post.yield", [](Case& c) -> double& { return c.post.yield; }, 0.0),
                 up_to<Case>(
                     "post.yield", [](Case& c) -> double& { return c.post.yield; }, 800e6),
                 above<Case>(
                     "nut.ultimate", [](Case& c) -> double& { return c.nut.ultimate; }, 0.0),
                 up_to<Case>(
                     "nut.yield", [](Case& c) -> double& { return c.nut.yield; }, 800e6),
                 from<Case>(
                     "engaged_length", [](Case& c) -> double& { return c.engaged_length; }, 0.0),
                 above<Case>("nut_width", [](Case& c) -> double& { return c.nut_width; }, 6e-3)});
}

TEST(Problems, OfATorque) {
  using Case = TorqueCase;
  const NutJoint joint{.thread = nominal_thread(6e-3, 1e-3),
                       .bore = 2e-3,
                       .neck = 4e-3,
                       .face_outer = 9e-3,
                       .face_inner = 6.2e-3};
  look_at<Case>(
      {.joint = joint, .post = kSteel, .nut = kSteel, .engaged_length = 4.5e-3},
      {from<Case>(
           "joint.neck", [](Case& c) -> double& { return c.joint.neck; }, 0.0),
       from<Case>(
           "joint.bore", [](Case& c) -> double& { return c.joint.bore; }, 0.0),
       below<Case>(
           "joint.bore", [](Case& c) -> double& { return c.joint.bore; }, 4e-3),
       from<Case>(
           "joint.face_inner", [](Case& c) -> double& { return c.joint.face_inner; }, 0.0),
       above<Case>(
           "joint.face_outer", [](Case& c) -> double& { return c.joint.face_outer; }, 6.2e-3),
       from<Case>(
           "engaged_length", [](Case& c) -> double& { return c.engaged_length; }, 0.0),
       from<Case>(
           "clamp_needed", [](Case& c) -> double& { return c.clamp_needed; }, 0.0),
       from<Case>(
           "face_pressure_allowed", [](Case& c) -> double& { return c.face_pressure_allowed; }, 0.0),
       from<Case>(
           "wrench_error", [](Case& c) -> double& { return c.wrench_error; }, 0.0),
       below<Case>("wrench_error", [](Case& c) -> double& { return c.wrench_error; }, 0.5)});
}

TEST(Problems, OfACartridgeThatWasTried) {
  using Case = TriedCartridge;
  const Case good{.rod_diameter = 0.012, .stroke = 0.3, .oil_volume = 2e-4};
  look_at<Case>(good,
                {above<Case>(
                     "rod_diameter", [](Case& c) -> double& { return c.rod_diameter; }, 0.0),
                 above<Case>(
                     "stroke", [](Case& c) -> double& { return c.stroke; }, 0.0),
                 above<Case>(
                     "oil_volume", [](Case& c) -> double& { return c.oil_volume; }, 0.0),
                 from<Case>(
                     "return_force", [](Case& c) -> double& { return c.return_force; }, 0.0),
                 from<Case>(
                     "seal_drag", [](Case& c) -> double& { return c.seal_drag; }, 0.0),
                 from<Case>("well_bled_stop", [](Case& c) -> double& { return c.well_bled_stop; }, 0.0)});
  const auto seen = [&](ComesOut how, double short_by, double purged, double bled_for) {
    Observation one;
    one.comes_out = how;
    one.short_by = short_by;
    one.purged = purged;
    one.bled_for = bled_for;
    return problems_in(one, good).size();
  };
  EXPECT_EQ(seen(ComesOut::StopsShort, 0.3, 0.0, 0.0), 0u);
  EXPECT_EQ(seen(ComesOut::StopsShort, 0.3001, 0.0, 0.0), 1u);
  EXPECT_EQ(seen(ComesOut::StopsShort, 0.0, 0.0, 0.0), 1u);
  EXPECT_EQ(seen(ComesOut::Fully, 0.0, -1e-9, 0.0), 1u);
  EXPECT_EQ(seen(ComesOut::Fully, 0.0, 0.0, -1.0), 1u);
}

}  // namespace
}  // namespace shimwright::assembly
