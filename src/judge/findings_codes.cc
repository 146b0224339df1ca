#include "judge/findings.h"

namespace shimwright::judge {
namespace {

constexpr const char* kTrade = "common practice, no source";

}  // namespace

const std::vector<FindingCode>& finding_codes() {
  static const std::vector<FindingCode> codes = {
      // posts and nuts
      {"F101", Severity::Stop, Station::Fit,
       "The nut clamps the pile. It does not stop at the end of the thread or at the bottom of its own bore.",
       "geometry of the post"},
      {"F102", Severity::Stop, Station::Fit, "Every turn of the nut sits on full thread of the post.",
       kTrade},
      {"F103", Severity::Look, Station::Fit,
       "The end of the post is close to the end of the nut: not deep inside, not far out.", kTrade},
      {"F104", Severity::Look, Station::Fit, "The post has the spacers with which the nut fits best.",
       "the program tries every combination of the spacers in hand"},
      {"F105", Severity::Stop, Station::Fit,
       "At this torque and the usual friction of the thread, the stress in the post stays below 0.9 of "
       "yield, and "
       "the force on the thread below its stripping force / 1.25.",
       "von Mises stress as in VDI 2230-1; stripping after FED-STD-H28 and Alexander (SAE 770420); shares: "
       "common "
       "practice, no source"},
      {"F106", Severity::Stop, Station::Fit, "The torque is not twelve times what the thread can carry.",
       "one foot-pound is twelve inch-pounds; a damper-post nut usually takes about 40 in.lbf with "
       "high-strength "
       "threadlocker (common practice, no source)"},
      {"F107", Severity::Stop, Station::Fit,
       "The torque gives enough clamping force to hold the pile together.", kTrade},
      {"F108", Severity::Look, Station::Fit,
       "Even with the lowest friction that the thread may have, the post does not yield and the thread does "
       "not "
       "strip: both margins stay above 1.",
       kTrade},
      {"F109", Severity::Look, Station::Fit,
       "A torque without a source is marked as an estimate, and the job shows how it is calculated.",
       "house rule"},
      {"F110", Severity::Stop, Station::Fit, "At least one torque is both tight enough and safe.", kTrade},
      {"F111", Severity::Look, Station::Fit, "The nut on a damper post has threadlocker.", kTrade},
      {"F112", Severity::Look, Station::Fit, "A floating stack has its collar beside it on the post.",
       "geometry of the post"},
      {"F113", Severity::Look, Station::Fit, "One of the pieces on a post is the piston.",
       "the side of the piston decides which way round a stack goes"},
      {"F114", Severity::Look, Station::Fit, "A valve with a stack has its post in the job.", "house rule"},
      {"F115", Severity::Stop, Station::Fit,
       "The collar of a floating stack is as long as the stack and its float together, within the tolerances "
       "and 0.05 mm.",
       "geometry of the post; 0.05 mm with a feeler gauge: common practice, no source"},

      // the damper
      {"F201", Severity::Stop, Station::Effect,
       "In compression the rod chamber stays full of oil up to the working speed.",
       "continuity of flow and pressure balance; release pressure of the oil"},
      {"F202", Severity::Stop, Station::Effect,
       "In rebound the compression chamber stays full of oil up to the working speed.",
       "continuity of flow and pressure balance; release pressure of the oil"},
      {"F203", Severity::Look, Station::Effect,
       "At the working speed the pressure is at least 20 kPa above the pressure at which air leaves the oil.",
       kTrade},
      {"F204", Severity::Look, Station::Effect,
       "Up to the working speed the ports restrict the oil less than their stack does.", kTrade},
      {"F205", Severity::Look, Station::Effect, "A damping stack opens below the working speed.", kTrade},
      {"F206", Severity::Look, Station::Effect,
       "At the second of the four speeds most of the oil flows through the stack, not through the bleed.",
       kTrade},
      {"F207", Severity::Look, Station::Effect, "The needle is set where a click still changes its opening.",
       "geometry of cone and bore"},
      {"F208", Severity::Stop, Station::Effect,
       "Gas and air pressures are in the usual range: reservoirs up to 20 bar(g), air springs up to 15 "
       "bar(g).",
       kTrade},
      {"F209", Severity::Look, Station::Effect,
       "The whole curve is inside the range for which the valves were solved.", "range of the calculation"},
      {"F210", Severity::Stop, Station::Effect,
       "With the rod fully in and the oil warm, the reservoir stays below 40 bar(g) at rest.",
       "ideal gas law, or the rate of the spring; a stop above 70 bar(g), twice what a reservoir may be set "
       "to: "
       "common practice, no source"},

      // the stacks
      {"F301", Severity::Stop, Station::Valving,
       "The stress in every shim stays below its yield strength at every pressure of the job.",
       "von Mises stress; strength from the job"},
      {"F302", Severity::Stop, Station::Valving,
       "The stress in every shim stays below its fatigue limit at every pressure of the job.",
       "Goodman's line"},
      {"F303", Severity::Look, Station::Valving, "The margin to the fatigue limit is at least 1.2.", kTrade},
      {"F304", Severity::Note, Station::Valving, "Every disc carries load at some pressure.",
       "contact forces of the solved stack"},
      {"F305", Severity::Look, Station::Valving,
       "The slope of the shims stays below 0.5 rad, the limit of the large-deflection theory.",
       "house rule: below this slope the strain in thin discs is at most a few percent"},
      {"F306", Severity::Look, Station::Valving,
       "No shim is compressed so much at its rim that the rim may go wavy.",
       "Rayleigh quotient of the flat disc under its membrane forces (energy as in Timoshenko and Gere, "
       "Theory of Elastic Stability, from memory), derived for the annulus; eight flat discs buckle at 0.76 "
       "to 0.79 of it by finite elements; the dished shape and the neighbours, which steady a rim, are left "
       "out"},
      {"F307", Severity::Note, Station::Valving,
       "The job gives the strength of the shims, so that the program can judge their stress.", "house rule"},
      {"F308", Severity::Look, Station::Valving,
       "The linear theory is used only for lifts below half the thickness of the face shim.",
       "thin discs stretch as they dish (Timoshenko and Woinowsky-Krieger, art. 97, from memory)"},

      // the springs
      {"F401", Severity::Stop, Station::Springs, "No coil spring goes solid before full travel.",
       "geometry of the spring"},
      {"F402", Severity::Look, Station::Springs, "Static sag is inside its target range.",
       "target from the job, or what is usual off road (common practice, no source)"},
      {"F403", Severity::Look, Station::Springs, "Rider sag is inside its target range.",
       "target from the job, or what is usual off road (common practice, no source)"},
      {"F404", Severity::Stop, Station::Springs,
       "Some air is left at full travel: a leg full of oil stops dead.", "volumes"},

      // oil, fill, stock
      {"F501", Severity::Look, Station::Build,
       "The working temperature is inside the range of the oil's data.", "range of the oil's own data"},
      {"F502", Severity::Look, Station::Build,
       "The stated oil is what the geometry gives, within 1 % and within a tenth of what the rod displaces; "
       "with "
       "half of that missing it is a stop. In the leg around a cartridge it is within 2 %.",
       "volumes; 1 % is what a measuring cylinder reads (common practice, no source)"},
      {"F503", Severity::Stop, Station::Build,
       "The reservoir has room for the volume of the rod and for the expansion of warm oil, and gas is left.",
       "volumes"},
      {"F504", Severity::Look, Station::Build, "The unit passes the hand test.", kTrade},
      {"F505", Severity::Look, Station::Build, "Every part on the pick list is in hand.", "the parts files"},
      {"F506", Severity::Look, Station::Build,
       "Where the job states the oil level of a leg twice, both agree within 1 mm.", "house rule"},

      // the numbers themselves
      {"F601", Severity::Stop, Station::Effect, "Every calculation converged.",
       "the solvers' own tolerances"},
      {"F602", Severity::Look, Station::Effect, "Every result is inside the range of its model.",
       "the models' stated ranges"},

      // the damper in motion
      {"F701", Severity::Stop, Station::Effect,
       "Up to the working speed no chamber drops to the pressure at which air leaves the oil.",
       "release pressure of the oil; the damper in motion"},
      {"F702", Severity::Stop, Station::Effect, "The free piston does not hit either of its stops.",
       "volumes; the damper in motion"},
      {"F703", Severity::Stop, Station::Effect, "The free piston keeps its port covered.",
       "volumes; the damper in motion"},
      {"F704", Severity::Look, Station::Effect, "The pressure in the oil lock stays below 200 bar.", kTrade},
      {"F705", Severity::Look, Station::Effect,
       "The damper absorbs as much energy in its last cycle as in its second, within 10 %.", kTrade},
      {"F706", Severity::Look, Station::Effect,
       "After the stroke turns round, the force builds up as soon as it does without air.",
       "the same run of the same damper without air; reported above 0.5 mm of lost travel, or for a measured "
       "loop "
       "above 0.1 mL of air and two standard errors"},
      {"F707", Severity::Look, Station::Effect,
       "In every run the pressure is at least 20 kPa above the pressure at which air leaves the oil.",
       kTrade},
      {"F708", Severity::Look, Station::Effect,
       "The loop has settled: its area changes by less than 1 % from cycle to cycle.", "house rule"},
      {"F709", Severity::Look, Station::Effect,
       "The work put in equals the heat plus the stored energy, within 1e-4.", "energy"},
      {"F710", Severity::Look, Station::Effect, "Every run of the bench job is finished.", "house rule"},

      // what the job does not say
      {"F901", Severity::Note, Station::Effect, "The job gives every value that the result needs.",
       "house rule"},
      {"F902", Severity::Note, Station::Effect, "The job gives the oil temperature and the altitude.",
       "house rule"},
      {"F903", Severity::Note, Station::Effect,
       "The job also gives the rider's complaints as feels, because the settings guide answers feels.",
       "house rule"},
  };
  return codes;
}

}  // namespace shimwright::judge
