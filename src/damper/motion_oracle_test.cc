#include <cvode/cvode.h>
#include <gtest/gtest.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <vector>

#include "damper/motion.h"
#include "damper/motion_stepper.h"
#include "damper/test_motions.h"

// The same motions by another integrator: SUNDIALS CVODE, backward differences of variable order with its own
// numerical derivatives and its own root finder. The first three cases compare integrators and events; the
// others have their own equations as well.

namespace shimwright::damper {
namespace {

using motion::FullState;

/// An initial value problem for CVODE.
struct Oracle {
  std::function<void(double t, const double* y, double* f)> rates;
  int n_events = 0;
  std::function<void(double t, const double* y, double* g)> events;
};

int call_rates(realtype t, N_Vector y, N_Vector f, void* oracle) {
  static_cast<Oracle*>(oracle)->rates(t, N_VGetArrayPointer(y), N_VGetArrayPointer(f));
  return 0;
}

int call_events(realtype t, N_Vector y, realtype* g, void* oracle) {
  static_cast<Oracle*>(oracle)->events(t, N_VGetArrayPointer(y), g);
  return 0;
}

struct OracleEvent {
  double time = 0.0;
  int which = 0;
  int sign = 0;
};

struct OracleRun {
  std::vector<double> y;
  std::vector<OracleEvent> events;
};

/// From t to t_end at a tolerance a thousandth of ours.
OracleRun solve(Oracle& oracle, double t, double t_end, std::vector<double> y0, double tolerance = 1e-9) {
  SUNContext context = nullptr;
  SUNContext_Create(nullptr, &context);
  const auto n = static_cast<sunindextype>(y0.size());
  N_Vector y = N_VNew_Serial(n, context);
  std::copy(y0.begin(), y0.end(), N_VGetArrayPointer(y));
  void* memory = CVodeCreate(CV_BDF, context);
  SUNMatrix matrix = SUNDenseMatrix(n, n, context);
  SUNLinearSolver solver = SUNLinSol_Dense(y, matrix, context);
  CVodeInit(memory, call_rates, t, y);
  CVodeSStolerances(memory, tolerance, tolerance);
  CVodeSetUserData(memory, &oracle);
  CVodeSetMaxNumSteps(memory, 2000000);
  CVodeSetLinearSolver(memory, solver, matrix);
  if (oracle.n_events > 0) CVodeRootInit(memory, oracle.n_events, call_events);
  CVodeSetNoInactiveRootWarn(memory);
  CVodeSetStopTime(memory, t_end);

  OracleRun run;
  realtype now = t;
  int status = 0;
  std::vector<int> found(static_cast<std::size_t>(oracle.n_events));
  while (now < t_end && (status = CVode(memory, t_end, y, &now, CV_NORMAL)) >= 0) {
    if (status != CV_ROOT_RETURN) continue;
    CVodeGetRootInfo(memory, found.data());
    for (int i = 0; i < oracle.n_events; ++i)
      if (found[i] != 0) run.events.push_back({now, i, found[i]});
  }
  EXPECT_GE(status, 0);
  run.y.assign(N_VGetArrayPointer(y), N_VGetArrayPointer(y) + n);
  CVodeFree(&memory);
  SUNLinSolFree(solver);
  SUNMatDestroy(matrix);
  N_VDestroy(y);
  SUNContext_Free(&context);
  return run;
}

/// Our equations of a damper, all states and integrals, scaled, for CVODE.
struct DamperOracle {
  motion::MotionSystem& system;
  const DriveClock* clock;
  FullState base;
  int segment = 0;
  std::vector<int> places;

  DamperOracle(motion::MotionSystem& s, const DriveClock* c, const FullState& start)
      : system(s), clock(c), base(start) {
    system.let_air_out();
    places = system.places();
    for (int i = motion::kPlaces; i < motion::kAllPlaces; ++i) places.push_back(i);
  }
  void place(double t, const double* y) {
    if (clock != nullptr) system.set_drive(clock->at(t, segment));
    for (std::size_t i = 0; i < places.size(); ++i) base[places[i]] = y[i] * motion::kScale[places[i]];
  }
  std::vector<double> packed() const {
    std::vector<double> y;
    for (const int p : places) y.push_back(base[p] / motion::kScale[p]);
    return y;
  }
  Oracle oracle() {
    return {[this](double t, const double* y, double* f) {
              place(t, y);
              FullState rate;
              system.rates(base, rate);
              for (std::size_t i = 0; i < places.size(); ++i)
                f[i] = rate[places[i]] / motion::kScale[places[i]];
            },
            motion::kEvents,
            [this](double t, const double* y, double* g) {
              place(t, y);
              std::array<double, motion::kEvents> all;
              system.events(base, all);
              std::copy(all.begin(), all.end(), g);
            }};
  }
};

/// Both integrators from one start to one end, piece by piece; every state and every event compared.
void compare(const MotionModel& model, const Drive* drive, const FullState* free_start, double t_end_free,
             std::size_t least_events) {
  motion::MotionSystem ours(model, drive ? 0.0 : 0.8), theirs(model, drive ? 0.0 : 0.8);
  std::optional<DriveClock> clock;
  if (drive) clock.emplace(*drive);
  const FullState start = drive ? ours.rest_state(clock->at(clock->t_begin(), 0).travel) : *free_start;
  const std::vector<double> corners =
      drive ? std::vector<double>(clock->corners().begin(), clock->corners().end())
            : std::vector{0.0, t_end_free};
  const double length = corners.back() - corners.front();

  // ours
  const auto stepper = motion::make_stepper(ours, drive ? &*clock : nullptr, corners[0], start,
                                            {.tolerance = 1e-7, .step_max = length / 100.0});
  std::vector<OracleEvent> events;
  for (int k = 0; k + 1 < static_cast<int>(corners.size()); ++k) {
    stepper->enter_segment(k);
    while (stepper->t() < corners[k + 1]) {
      ASSERT_EQ(stepper->step(corners[k + 1]), Status::Converged);
      for (int i = 0; i < motion::kEvents; ++i)
        if (stepper->fired()[i] != 0) events.push_back({stepper->t(), i, stepper->fired()[i]});
    }
  }
  FullState end;
  stepper->state(end);

  // theirs
  DamperOracle problem(theirs, drive ? &*clock : nullptr, start);
  Oracle oracle = problem.oracle();
  std::vector<double> y = problem.packed();
  std::vector<OracleEvent> their_events;
  for (int k = 0; k + 1 < static_cast<int>(corners.size()); ++k) {
    problem.segment = k;
    const OracleRun run = solve(oracle, corners[k], corners[k + 1], y);
    y = run.y;
    their_events.insert(their_events.end(), run.events.begin(), run.events.end());
  }

  // end state: 1e-4 of each state's size, which is what the second integrator is asked for
  for (std::size_t i = 0; i < y.size(); ++i) {
    const int p = problem.places[i];
    const double mine = end[p] / motion::kScale[p];
    EXPECT_NEAR(mine, y[i], 1e-4 * std::max(std::abs(y[i]), 1e-2)) << "place " << p;
  }
  EXPECT_GE(events.size(), least_events);
  ASSERT_EQ(events.size(), their_events.size());
  for (std::size_t i = 0; i < events.size(); ++i) {
    EXPECT_EQ(events[i].which, their_events[i].which) << i;
    EXPECT_EQ(events[i].sign, their_events[i].sign) << i;
    EXPECT_NEAR(events[i].time, their_events[i].time, 1e-5 * length) << i;
  }
}

TEST(MotionOracle, ASprungCartridgeOnASine) {
  const Drive drive = SineDrive{.middle = 0.1, .amplitude = 0.05, .frequency = 2.0, .n_cycles = 2};
  compare(sprung_cartridge(), &drive, nullptr, 0.0, 6);
}

TEST(MotionOracle, ACartridgeWithEverythingPushedIntoItsOilLock) {
  const Drive drive = StepDrive{.from = 0.02, .to = 0.19, .rise_time = 0.15};
  compare(crowded_cartridge(), &drive, nullptr, 0.0, 4);
}

TEST(MotionOracle, ARodLetGoWithAirInTheChamber) {
  MotionModel model = sprung_cartridge();
  model.seal_friction = 5.0;
  model.compression.trapped_air = 2e-6;
  motion::MotionSystem system(model, 0.8);
  const FullState start = system.rest_state(0.12);
  compare(model, nullptr, &start, 3.0, 1);
}

// Textbook monotube, written out here: piston with a law, gas behind the compression chamber,
// p_C' = (A_p v - q) / (V_C / K + V_g / (n p)), p_R' = (q - (A_p - A_r) v) K / V_R ([merritt1967] ch. 3 in
// form). The same shape as the monotube of [schickhofer2022], whose own numbers could not be read. Left out
// here: that oil gets denser on its way, p / K = 0.2 %.
TEST(MotionOracle, ATextbookMonotubeOfItsOwnEquations) {
  TestDamper damper = cartridge();
  damper.model.foot_valve.reset();
  damper.solved.laws.foot.reset();
  MotionModel model = motion_of(damper);
  model.reservoir.gas = GasCushion{.pressure = 1.5e6, .volume = 60e-6};
  model.reservoir.oil.volume = 1e-9;
  const double w = 2 * std::numbers::pi * 4.0;
  const double ring = model.piston_area - model.rod_area;
  const double k = model.oil.bulk_modulus;
  Oracle oracle;
  oracle.rates = [&](double t, const double* y, double* f) {
    const double x = 0.1 - 0.04 * std::cos(w * t);
    const double v = 0.04 * w * std::sin(w * t);
    const double pc = y[0] * 1e5, pr = y[1] * 1e5;
    const double q = valve::flow_at(damper.solved.laws.piston, pc - pr).q;
    const double gas = 60e-6 * std::pow(1.5e6 / pc, 1.0 / 1.4);
    const double room = model.compression.volume - model.piston_area * x + (60e-6 - gas);
    f[0] = (model.piston_area * v - q) / (room / k + gas / (1.4 * pc)) / 1e5;
    f[1] = (q - ring * v) * k / (model.rod.volume + ring * x) / 1e5;
  };
  const double rest = rest_at(model, 0.06).pressure / 1e5;
  const MotionResult result =
      run_motion(model, SineDrive{.middle = 0.1, .amplitude = 0.04, .frequency = 4.0, .n_cycles = 1});
  std::vector<double> y{rest, rest};
  double t = 0.0;
  double peak = 0.0;
  for (const MotionSample& s : result.samples) peak = std::max(peak, std::abs(s.p_compression - s.p_rod));
  for (std::size_t i = 10; i < result.samples.size(); i += 10) {
    const MotionSample& s = result.samples[i];
    y = solve(oracle, t, s.time, y, 1e-8).y;
    t = s.time;
    EXPECT_NEAR((s.p_compression - s.p_rod) / peak, (y[0] - y[1]) * 1e5 / peak, 3e-3) << i;
    EXPECT_NEAR(s.p_compression / (y[0] * 1e5), 1.0, 3e-3) << i;
  }
}

// The same monotube with bubbles in its oil, which go where the oil goes: each chamber has the stiffness of
// oil/air.h, the form of [gholizadeh2011], over all of its volume. Deep in the stroke little oil is left in
// the compression chamber, and with it few bubbles.
TEST(MotionOracle, BubblesGoWithTheOilOfATextbookMonotube) {
  TestDamper damper = cartridge();
  damper.model.foot_valve.reset();
  damper.solved.laws.foot.reset();
  MotionModel model = motion_of(damper);
  model.reservoir.gas = GasCushion{.pressure = 1.5e6, .volume = 60e-6};
  model.reservoir.oil.volume = 1e-9;
  model.oil.entrained_air = 0.01;
  oil::OilModel mixed;
  mixed.bulk_modulus = model.oil.bulk_modulus;
  mixed.entrained_air = 0.01;
  const double w = 2 * std::numbers::pi * 4.0, middle = 0.13, amplitude = 0.05;
  const double ring = model.piston_area - model.rod_area;
  const double liquid = 0.99 * std::exp((oil::kAtmosphere - 1.5e6) / mixed.bulk_modulus);
  Oracle oracle;
  oracle.rates = [&](double t, const double* y, double* f) {
    const double x = middle - amplitude * std::cos(w * t), v = amplitude * w * std::sin(w * t);
    const double pc = y[0] * 1e5, pr = y[1] * 1e5;
    // oil with its bubbles at one atmosphere; the valve's law tells the oil alone
    const double amount = valve::flow_at(damper.solved.laws.piston, pc - pr).q / liquid;
    const double gas = 60e-6 * std::pow(1.5e6 / pc, 1.0 / 1.4);
    const double room = model.compression.volume - model.piston_area * x + (60e-6 - gas);
    f[0] = (model.piston_area * v - amount * oil::pressure_volume_ratio(mixed, pc)) /
           (room / oil::effective_bulk_modulus(mixed, pc) + gas / (1.4 * pc)) / 1e5;
    f[1] = (amount * oil::pressure_volume_ratio(mixed, pr) - ring * v) *
           oil::effective_bulk_modulus(mixed, pr) / (model.rod.volume + ring * x) / 1e5;
  };
  const MotionResult result =
      run_motion(model, SineDrive{.middle = middle, .amplitude = amplitude, .frequency = 4.0, .n_cycles = 1});
  const double rest = rest_at(model, middle - amplitude).pressure / 1e5;
  std::vector<double> y{rest, rest};
  double t = 0.0, peak = 0.0;
  for (const MotionSample& s : result.samples) peak = std::max(peak, std::abs(s.p_compression - s.p_rod));
  for (std::size_t i = 10; i < result.samples.size(); i += 10) {
    const MotionSample& s = result.samples[i];
    y = solve(oracle, t, s.time, y, 1e-9).y;
    t = s.time;
    EXPECT_NEAR((s.p_compression - s.p_rod) / peak, (y[0] - y[1]) * 1e5 / peak, 1e-4) << i;
    EXPECT_NEAR(s.p_compression / (y[0] * 1e5), 1.0, 1e-4) << i;
    const double room = model.compression.volume - model.piston_area * s.travel + 60e-6 -
                        60e-6 * std::pow(1.5e6 / s.p_compression, 1.0 / 1.4);
    const double bubbles = 0.01 * room / oil::pressure_volume_ratio(mixed, s.p_compression) *
                           std::pow(oil::kAtmosphere / s.p_compression, 1.0 / 1.4);
    EXPECT_NEAR(s.gas_compression, bubbles, 1e-4 * bubbles) << "no more than its oil brings along";
  }
}

// A rod pushed in and let go, written out here too: Newton's second law for the rod, and for each of three
// rooms what flows in against what its oil and its gas give way by.
TEST(MotionOracle, ARodLetGoOverAFootValveByItsOwnEquations) {
  TestDamper damper = cartridge();
  MotionModel model = motion_of(damper);
  model.reservoir.gas = GasCushion{.pressure = 0.6e6, .volume = 80e-6, .exponent = 1.3};
  const double mass = 0.8, from = 0.12;
  const double ring = model.piston_area - model.rod_area;
  const double k = model.oil.bulk_modulus;
  const valve::ValveLaw& piston = damper.solved.laws.piston;
  const valve::ValveLaw& foot = *damper.solved.laws.foot;
  Oracle oracle;
  oracle.rates = [&](double, const double* y, double* f) {
    const double x = y[0] * 1e-2, v = y[1];
    const double pc = y[2] * 1e5, pr = y[3] * 1e5, ps = y[4] * 1e5;
    const double through_piston = valve::flow_at(piston, pc - pr).q;
    const double through_foot = valve::flow_at(foot, pc - ps).q;
    const double gas = 80e-6 * std::pow(0.6e6 / ps, 1.0 / 1.3);
    const double outwards = pc * model.piston_area - pr * ring - model.atmospheric_pressure * model.rod_area;
    f[0] = v / 1e-2;
    f[1] = -outwards / mass;
    f[2] = (model.piston_area * v - through_piston - through_foot) * k /
           (model.compression.volume - model.piston_area * x) / 1e5;
    f[3] = (through_piston - ring * v) * k / (model.rod.volume + ring * x) / 1e5;
    f[4] = through_foot / (model.reservoir.oil.volume / k + gas / (1.3 * ps)) / 1e5;
  };
  motion::MotionSystem system(model, mass);
  const FullState start = system.rest_state(from);
  const double rest = 0.6e6 * std::pow(80e-6 / (80e-6 - model.rod_area * from), 1.3);
  EXPECT_NEAR(start[motion::kPressureS] / rest, 1.0, 3e-3);
  const auto stepper =
      motion::make_stepper(system, nullptr, 0.0, start, {.tolerance = 1e-8, .step_max = 1e-3});
  stepper->enter_segment(0);
  std::vector<double> y{from / 1e-2, 0.0, rest / 1e5, rest / 1e5, rest / 1e5};
  double t = 0.0, way = 0.0;
  for (const double until : {2e-3, 0.02, 0.1, 0.2, 0.3}) {
    while (stepper->t() < until) ASSERT_EQ(stepper->step(until), Status::Converged);
    FullState ours;
    stepper->state(ours);
    y = solve(oracle, t, until, y, 1e-10).y;
    t = until;
    way = from - y[0] * 1e-2;
    EXPECT_NEAR(from - ours[motion::kTravel], way, 4e-3 * way) << until;
    EXPECT_NEAR(ours[motion::kSpeed], y[1], 4e-3 * std::abs(y[1])) << until;
    EXPECT_NEAR(ours[motion::kPressureR] / 1e5, y[3], 4e-3 * y[3]) << until;
    EXPECT_NEAR(ours[motion::kPressureS] / 1e5, y[4], 4e-3 * y[4]) << until;
  }
  EXPECT_GT(way, 0.02) << "it comes a good way out";
}

// A cartridge on a sine, written out here too: a free piston of some mass on a spring behind the foot valve
// (Newton's second law), and a bubble of air in the compression chamber that follows p V^n.
TEST(MotionOracle, ASprungCartridgeWithABubbleByItsOwnEquations) {
  TestDamper damper = cartridge();
  MotionModel model = sprung_cartridge();
  model.seal_friction = 0.0;
  model.reservoir.piston->friction = 0.0;
  model.reservoir.piston->mass = 0.2;
  model.heat.reset();
  model.compression.trapped_air = 1.5e-6;
  model.oil.bunsen = 0.0;  // none dissolves and none comes out
  const FreePiston& held = *model.reservoir.piston;
  const double ring = model.piston_area - model.rod_area;
  const double k = model.oil.bulk_modulus, n = model.oil.air_exponent;
  const double dry = model.reservoir.dry_pressure;
  const valve::ValveLaw& piston = damper.solved.laws.piston;
  const valve::ValveLaw& foot = *damper.solved.laws.foot;
  const double w = 2 * std::numbers::pi * 3.0;
  const double middle = 0.1, amplitude = 0.03;
  Oracle oracle;
  oracle.rates = [&](double t, const double* y, double* f) {
    const double x = middle - amplitude * std::cos(w * t), v = amplitude * w * std::sin(w * t);
    const double pc = y[0] * 1e5, pr = y[1] * 1e5, ps = y[2] * 1e5;
    const double z = y[3] * 1e-2, speed = y[4];
    const double through_piston = valve::flow_at(piston, pc - pr).q;
    const double through_foot = valve::flow_at(foot, pc - ps).q;
    const double bubble = 1.5e-6 * std::pow(oil::kAtmosphere / pc, 1.0 / n);
    const double oil_c = model.compression.volume - model.piston_area * x - bubble;
    f[0] = (model.piston_area * v - through_piston - through_foot) / (oil_c / k + bubble / (n * pc)) / 1e5;
    f[1] = (through_piston - ring * v) * k / (model.rod.volume + ring * x) / 1e5;
    f[2] = (through_foot - held.area * speed) * k / (model.reservoir.oil.volume + held.area * z) / 1e5;
    f[3] = speed / 1e-2;
    f[4] = ((ps - dry) * held.area - held.spring_force - held.spring_rate * z) / held.mass;
  };
  const MotionResult result =
      run_motion(model, SineDrive{.middle = middle, .amplitude = amplitude, .frequency = 3.0, .n_cycles = 1});
  const double from = middle - amplitude;
  const double rest = rest_at(model, from).pressure;
  const double z0 = ((rest - dry) * held.area - held.spring_force) / held.spring_rate;
  // the rod's volume, less what the bubble has given way by since it took the place of oil at one atmosphere
  const double given = 1.5e-6 * (1.0 - std::pow(oil::kAtmosphere / rest, 1.0 / n));
  EXPECT_NEAR(held.area * z0, model.rod_area * from - given, 0.01 * model.rod_area * from);
  std::vector<double> y{rest / 1e5, rest / 1e5, rest / 1e5, z0 / 1e-2, 0.0};
  double t = 0.0, peak = 0.0, way = 0.0;
  for (const MotionSample& s : result.samples) peak = std::max(peak, std::abs(s.p_compression - s.p_rod));
  for (std::size_t i = 10; i < result.samples.size(); i += 10) {
    const MotionSample& s = result.samples[i];
    y = solve(oracle, t, s.time, y, 1e-9).y;
    t = s.time;
    way = std::max(way, y[3] * 1e-2 - z0);
    EXPECT_NEAR((s.p_compression - s.p_rod) / peak, (y[0] - y[1]) * 1e5 / peak, 4e-3) << i;
    EXPECT_NEAR(s.p_reservoir / (y[2] * 1e5), 1.0, 4e-3) << i;
    EXPECT_NEAR(s.piston_travel, y[3] * 1e-2, 4e-3 * y[3] * 1e-2) << i;
  }
  EXPECT_GT(way, 5e-3) << "the piston goes a good way";
}

}  // namespace
}  // namespace shimwright::damper
