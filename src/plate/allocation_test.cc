// Counts what the solver allocates: nothing, once its workspace has seen a stack of that size.
#include <gtest/gtest.h>

#include <atomic>
#include <cstdlib>
#include <new>

#include "plate/lift_curve.h"
#include "plate/solver.h"
#include "plate/test_stacks.h"

namespace {
std::atomic<long> n_allocations{0};
}  // namespace

// the whole test program counts; only differences are read. Not inlined: the compiler would see `new` end in
// `free`
[[gnu::noinline]] void* operator new(std::size_t size, const std::nothrow_t&) noexcept {
  ++n_allocations;
  return std::malloc(size == 0 ? 1 : size);
}
[[gnu::noinline]] void* operator new(std::size_t size) {
  if (void* memory = operator new(size, std::nothrow)) return memory;
  throw std::bad_alloc();
}
[[gnu::noinline]] void operator delete(void* memory) noexcept {
  std::free(memory);
}
[[gnu::noinline]] void operator delete(void* memory, std::size_t) noexcept {
  std::free(memory);
}
[[gnu::noinline]] void operator delete(void* memory, const std::nothrow_t&) noexcept {
  std::free(memory);
}

namespace shimwright::plate {
namespace {

Stack many_discs() {
  Stack stack = test_stack(
      {{12, 0.10}, {12, 0.10}, {7, 0.10}, {11.5, 0.10}, {11, 0.15}, {10, 0.10}, {9, 0.15}, {8, 0.2}});
  stack.seat = {true, 11e-3, 0.02e-3};
  stack.discs[5].notches = {4, 1e-3, 0.5e-3};
  return stack;
}

void solve_all(const Stack& stack, const Options& options, StackSolver& solver,
               std::vector<Section>& sections) {
  solver.set_up(stack, options);
  for (int i = 0; i <= 10; ++i) {
    solver.solve(1e5 * i);
    solver.find_rate();
    double energy = 0.0;
    for (int l = 0; l < solver.layout().n_layers(); ++l) solver.sections(l, sections, energy);
  }
}

TEST(Allocation, SecondSolutionOfAStackAllocatesNothing) {
  for (const Theory theory : {Theory::Linear, Theory::Large}) {
    Options options;
    options.theory = theory;
    const Stack stack = many_discs();
    StackSolver solver;
    std::vector<Section> sections;
    solve_all(stack, options, solver, sections);
    const long before = n_allocations;
    solve_all(stack, options, solver, sections);
    EXPECT_EQ(n_allocations - before, 0) << (theory == Theory::Linear ? "linear" : "large");
  }
}

TEST(Allocation, SecondRunOfPressuresAllocatesNothing) {
  const Stack stack = many_discs();
  StackSolver solver;
  const auto run = [&] {
    solver.set_up(stack, Options{});
    for (int i = 1; i <= 30; ++i) {
      EXPECT_TRUE(solver.follow(3e4 * i));
      EXPECT_GT(solver.find_seat_slope(), -1.0);
    }
  };
  run();
  const long before = n_allocations;
  run();
  EXPECT_EQ(n_allocations - before, 0);
}

TEST(Allocation, SecondCurveAllocatesItsResultOnly) {
  const Stack stack = many_discs();
  Workspace workspace;
  (void)lift_curve(stack, 1e6, Options{}, workspace);
  const long before = n_allocations;
  const LiftCurve curve = lift_curve(stack, 1e6, Options{}, workspace);
  // three vectors and a list of knots that grow by doubling, and the copy of the stack that bends
  EXPECT_LT(n_allocations - before, 40) << curve.pressure.size();
}

}  // namespace
}  // namespace shimwright::plate
