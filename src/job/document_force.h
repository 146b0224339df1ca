#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/document_valve.h"

namespace shimwright::job {

/// The damper at one steady speed in one stroke. Forces are against the motion, the static rod force apart.
struct ForcePoint {
  double speed = 0;                 // magnitude [m/s]
  double force = 0;                 // damping and friction together [N]
  double damping = 0;               // of the oil alone [N]
  double friction = 0;              // of the seals [N]
  double compression_pressure = 0;  // absolute [Pa]
  double rod_pressure = 0;          // rod chamber, absolute [Pa]
  double reservoir_pressure = 0;    // absolute [Pa]
  double piston_flow = 0;           // [m3/s]
  double foot_flow = 0;             // [m3/s]
  double margin = 0;  // of the chamber at risk over the air-release pressure; negative: lost by so much [Pa]
  bool cavitated = false;  // the chamber is held at its release pressure: draw this part dotted
  Carrier piston_carrier = Carrier::Bleed;
  Carrier foot_carrier = Carrier::Bleed;
};

/// Force over speed in one stroke at one setting of the clickers.
struct ForceCurve {
  Stroke stroke = Stroke::Compression;
  std::vector<ForcePoint> points;  // ascending in speed, from the lowest asked
  Outcome outcome;
};

/// Forces of one stroke at one number of clicks of one adjuster, the others as set.
struct FamilyMember {
  int clicks = 0;               // out from seated
  bool present = false;         // the setting of the job
  std::vector<double> force;    // [N] (as ClickFamily::speed)
  std::vector<bool> cavitated;  // (as ClickFamily::speed)
};

/// The fan of curves over one adjuster's clicks.
struct ClickFamily {
  std::string adjuster;  // "compression needle"
  ValvePlace place = ValvePlace::Foot;
  Stroke stroke = Stroke::Compression;
  std::vector<double> speed;          // [m/s]
  std::vector<FamilyMember> members;  // ascending in clicks
};

/// How far one stroke is from drawing air out of the oil.
struct CavitationResult {
  Stroke stroke = Stroke::Compression;
  std::string chamber;                 // "rod chamber" or "compression chamber"
  double release_pressure = 0;         // absolute [Pa]
  double working_speed = 0;            // up to which the margin is demanded [m/s]
  double margin_at_working_speed = 0;  // negative: lost by so much [Pa]
  double top_speed = 0;                // highest speed computed [m/s]
  double margin_at_top_speed = 0;      // negative: lost by so much [Pa]
  std::optional<double> speed_lost;    // empty: kept over the whole range [m/s]
  std::optional<ValvePlace> stiffen;  // the valve to stiffen; empty: none helps, raise the reservoir pressure
  double missing_drop = 0;   // drop that the foot valve lacks at the working speed, compression only [Pa]
  double margin_wanted = 0;  // at the working speed [Pa]
  double foot_drop = 0;      // at the working speed [Pa]
  double piston_drop = 0;    // at the working speed [Pa]
  std::optional<double> needed_reservoir_pressure;  // that alone would keep the margin, absolute [Pa]
  std::string advice;                               // one sentence; empty while the margin is kept
};

/// The four-speed table every face shows first.
struct KeyForce {
  double speed = 0;        // [m/s]
  double compression = 0;  // [N]
  double rebound = 0;      // [N]
  bool compression_cavitated = false;
  bool rebound_cavitated = false;
};

/// Force of one unit's damper over speed.
struct ForceResult {
  double temperature = 0;          // of the oil [K]
  double static_rod_force = 0;     // reservoir pressure on the rod, pushing out, at rest with the rod out [N]
  double seal_friction = 0;        // in every force here [N]
  std::vector<ForceCurve> curves;  // compression, then rebound, at the present clicks
  std::vector<ClickFamily> families;
  std::vector<CavitationResult> cavitation;  // compression, then rebound
  std::vector<KeyForce> key_forces;          // at four speeds
  Outcome outcome;
};

}  // namespace shimwright::job
