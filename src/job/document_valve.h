#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/document_post.h"
#include "job/document_stack.h"
#include "job/document_value.h"

namespace shimwright::job {

/// What carries most of the flow, or holds most of the pressure back.
enum class Carrier { Bleed, Stack, Port };

/// One point of a valve's law in one direction.
struct LawPoint {
  double flow = 0;            // in the valve's own direction [m3/s]
  double drop = 0;            // [Pa]
  double speed = 0;           // damper speed at which the valve passes this flow [m/s]
  double lift_at_seat = 0;    // [m]
  double bleed_flow = 0;      // through bleeds and leakage [m3/s]
  double stack_flow = 0;      // under the stack [m3/s]
  double port_drop = 0;       // lost in the ports, part of `drop` [Pa]
  bool beyond_table = false;  // past the end of what was solved: goes on as an open orifice would
  Carrier carrier = Carrier::Bleed;
};

/// One direction of a valve.
struct DirectionResult {
  Stroke stroke = Stroke::Compression;
  bool check = false;                   // a plate that only refills: light spring, no damping wanted
  std::optional<StackResult> stack;     // empty: this direction has no stack, only bleeds
  std::vector<LawPoint> law;            // ascending in flow
  double bleed_area = 0;                // open at rest in this direction [m2]
  double port_area = 0;                 // all ports together [m2]
  std::optional<double> opening_speed;  // damper speed at which the stack begins to lift [m/s]
  std::optional<double> choking_speed;  // at which the ports hold back more than the stack [m/s]
  Outcome outcome;
};

/// One bleed with its setting.
struct BleedResult {
  std::string name;  // "rebound needle"
  std::string kind;  // "needle", "bored", "notch", "leakage"
  bool acts_in_compression = true;
  bool acts_in_rebound = true;
  std::optional<int> clicks;               // out from seated; empty: not adjustable
  std::optional<int> clicks_max;           // as stated
  double area = 0;                         // at the present setting [m2]
  std::vector<double> area_by_click;       // [m2], index = clicks from 0; empty when not adjustable
  std::optional<double> full_area_clicks;  // beyond these clicks the bore is all there is; empty: no needle
};

/// One valve: both directions, its bleeds, and the post it sits on.
struct ValveResult {
  ValvePlace place = ValvePlace::Piston;
  std::vector<DirectionResult> directions;  // compression first
  std::vector<BleedResult> bleeds;
  std::optional<PostResult> post;
};

std::string word(Carrier carrier);  // "bleed", "stack", "port"

}  // namespace shimwright::job
