#include <gtest/gtest.h>

#include "assembly/test_units.h"
#include "assembly/torque.h"

// VDI 2230 tables, the Motosh formula computed independently, and typical nut factors.

namespace shimwright::assembly {
namespace {

constexpr double kYield88 = 640e6;

NutJoint joint_of(double diameter_mm, double pitch_mm, double face_outer_mm, double face_inner_mm) {
  return {.thread = nominal_thread(diameter_mm * kMm, pitch_mm * kMm),
          .face_outer = face_outer_mm * kMm,
          .face_inner = face_inner_mm * kMm};
}

struct VdiRow {
  const char* id;
  double diameter_mm, pitch_mm, face_outer_mm, face_inner_mm;
  double mu;
  double preload_kn, torque;
  double tolerance;
};

// TH-02, 03, 05, 06: fine-thread table of VDI 2230, class 8.8, 90 % of R_p0.2; TH-08: the same formula,
// coarse
constexpr VdiRow kVdi[] = {
    // last printed digit
    {"TH-02", 8, 1, 11.63, 9, 0.10, 20.7, 22.8, 0.003},
    {"TH-02", 8, 1, 11.63, 9, 0.12, 20.2, 26.1, 0.003},
    {"TH-02", 8, 1, 11.63, 9, 0.14, 19.7, 29.2, 0.003},
    // whole newton-metres are 1 % here
    {"TH-03", 10, 1.25, 14.63, 11, 0.10, 32.4, 44.5, 0.01},
    {"TH-03", 10, 1.25, 14.63, 11, 0.12, 31.6, 50.9, 0.01},
    {"TH-03", 10, 1.25, 14.63, 11, 0.14, 30.8, 56.8, 0.01},
    {"TH-05", 14, 1.5, 19.64, 15.5, 0.10, 66.4, 124, 0.01},
    {"TH-05", 14, 1.5, 19.64, 15.5, 0.12, 64.8, 142, 0.01},
    {"TH-05", 14, 1.5, 19.64, 15.5, 0.14, 63.2, 159, 0.01},
    {"TH-06", 16, 1.5, 22.49, 17.5, 0.10, 89.6, 189, 0.01},
    {"TH-06", 16, 1.5, 22.49, 17.5, 0.12, 87.6, 218, 0.01},
    {"TH-06", 16, 1.5, 22.49, 17.5, 0.14, 85.5, 244, 0.01},
    {"TH-08", 6, 1, 8.88, 6.6, 0.12, 10.2, 10.1, 0.01},
    {"TH-08", 8, 1.25, 11.63, 9, 0.12, 18.6, 24.6, 0.01},
    {"TH-08", 10, 1.5, 14.63, 11, 0.12, 29.6, 48.5, 0.01},
    {"TH-08", 12, 1.75, 16.63, 13.5, 0.12, 43.1, 83.6, 0.01},
};

TEST(TorqueReference, PreloadAndTorqueAreThoseOfVdi2230) {
  for (const VdiRow& row : kVdi) {
    SCOPED_TRACE(testing::Message() << row.id << " M" << row.diameter_mm << " mu " << row.mu);
    const NutJoint joint = joint_of(row.diameter_mm, row.pitch_mm, row.face_outer_mm, row.face_inner_mm);
    const double preload = yield_preload(joint, kYield88, row.mu);
    EXPECT_NEAR(preload, row.preload_kn * 1e3, row.tolerance * row.preload_kn * 1e3);
    EXPECT_NEAR(vdi_tightening_torque(joint, preload, {row.mu, row.mu}), row.torque,
                row.tolerance * row.torque);
    // the rounded coefficients of VDI against the unrounded ones
    EXPECT_NEAR(tightening_torque(joint, preload, {row.mu, row.mu}).total, row.torque, 0.012 * row.torque);
  }
}

// cases TH-09 and TH-10, M8 x 1.25 at 15 kN; printed to six digits
TEST(TorqueReference, TighteningAndLooseningFollowMotosh) {
  struct Row {
    double mu, torque, factor, loosening;
  };
  const NutJoint joint = joint_of(8, 1.25, 11.63, 9);
  for (const Row& row : {Row{0.08, 14.1532, 0.11794, 8.1849}, Row{0.10, 16.9455, 0.14121, 10.9772},
                         Row{0.12, 19.7377, 0.16448, 13.7694}, Row{0.14, 22.5300, 0.18775, 16.5617},
                         Row{0.16, 25.3223, 0.21102, 19.3540}, Row{0.20, 30.9068, 0.25756, 24.9385}}) {
    const Friction friction{row.mu, row.mu};
    EXPECT_NEAR(tightening_torque(joint, 15e3, friction).total, row.torque, 1e-4);
    EXPECT_NEAR(nut_factor(joint, friction), row.factor, 1e-5);
    EXPECT_NEAR(loosening_torque(joint, 15e3, friction), row.loosening, 1e-4);
  }
  const TorqueSplit split = tightening_torque(joint, 15e3, {0.12, 0.12});
  EXPECT_NEAR(split.stretch, 2.98416, 1e-5);
  EXPECT_NEAR(split.thread, 7.47009, 1e-5);
  EXPECT_NEAR(split.face, 9.28350, 1e-5);
  EXPECT_NEAR(split.stretch / split.total, 0.151, 0.0005);
}

// cases TH-11 and TH-12: T = K d F, K turned into friction and back
TEST(TorqueReference, NutFactorsGiveTheTorquesOfTradeTables) {
  const NutJoint m12 = joint_of(12, 1.75, 16.63, 13.5);
  const double mu = friction_at_nut_factor(m12, 0.20);
  const double preload = 0.7 * 580e6 * 84.3e-6;
  EXPECT_NEAR(preload, 34.23e3, 0.002 * 34.23e3);
  EXPECT_NEAR(tightening_torque(m12, preload, {mu, mu}).total, 82.1, 0.002 * 82.1);

  struct Row {
    double factor, preload;
  };
  const NutJoint m8 = joint_of(8, 1.25, 11.63, 9);
  for (const Row& row : {Row{0.10, 12500}, Row{0.12, 10416.7}, Row{0.15, 8333.3}, Row{0.18, 6944.4},
                         Row{0.20, 6250}, Row{0.22, 5681.8}}) {
    const double coefficient = friction_at_nut_factor(m8, row.factor);
    EXPECT_NEAR(preload_at_torque(m8, 10.0, {coefficient, coefficient}), row.preload, 1e-4 * row.preload);
  }
}

// case TH-13, several trade torque tables
TEST(TorqueReference, FrictionStatesHoldThePublishedRanges) {
  const auto holds = [](ThreadState state, double low, double high) {
    const Band& band = friction_of(state).nut_factor;
    return band.low <= low && band.high >= high && band.typical >= low && band.typical <= high;
  };
  EXPECT_TRUE(holds(ThreadState::Dry, 0.20, 0.25));
  EXPECT_TRUE(holds(ThreadState::Oiled, 0.15, 0.18));
  EXPECT_TRUE(holds(ThreadState::Oiled, 0.15, 0.22));
  EXPECT_TRUE(holds(ThreadState::Threadlocker, 0.14, 0.14));
  EXPECT_TRUE(holds(ThreadState::AntiSeize, 0.10, 0.14));
}

}  // namespace
}  // namespace shimwright::assembly
