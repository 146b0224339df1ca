#include "job/findings.h"

namespace shimwright::job {
namespace {

constexpr const char* kTrade = "common practice, no source";

}  // namespace

const std::vector<FindingCode>& finding_codes() {
  static const std::vector<FindingCode> codes = {
      // posts and nuts
      {"F101", Severity::Stop,
       "The nut clamps the pile, not the end of the thread or the bottom of its own bore.",
       "geometry of the post"},
      {"F102", Severity::Stop, "All turns of the nut are on full thread of the post.", kTrade},
      {"F103", Severity::Look, "The end of the post stands neither deep inside the nut nor far out of it.",
       kTrade},
      {"F104", Severity::Look, "The spacers on the post are those with which the nut fits best.",
       "every combination of the spacers in hand is tried"},
      {"F105", Severity::Stop,
       "The torque keeps the post below 0.9 of its yield and the thread below its stripping force / 1.25.",
       "von Mises stress as in VDI 2230-1; stripping after FED-STD-H28 and Alexander (SAE 770420); shares: "
       "common "
       "practice, no source"},
      {"F106", Severity::Stop, "A torque is not twelve times what the thread carries.",
       "one foot-pound is twelve inch-pounds; a damper-post nut usually takes about 40 in.lbf with "
       "high-strength "
       "threadlocker (common practice, no source)"},
      {"F107", Severity::Stop, "The torque leaves a clamping force that keeps the pile together.", kTrade},
      {"F108", Severity::Look, "The torque holds at both ends of the thread's friction.", kTrade},
      {"F109", Severity::Look,
       "A torque that nobody published is marked as an estimate, with its derivation.", "house rule"},
      {"F110", Severity::Stop, "There is a torque that is both tight enough and safe.", kTrade},
      {"F111", Severity::Look, "The nut of a damper post is held by threadlocker.", kTrade},
      {"F112", Severity::Look, "A stack that floats has a collar among the pieces on its post.",
       "geometry of the post"},
      {"F113", Severity::Look, "One of the pieces on a post is the piston.",
       "which way round a stack goes on follows from the side of the piston it lies on"},

      // the damper
      {"F201", Severity::Stop, "The rod chamber keeps its oil in compression up to the working speed.",
       "continuity of flow and pressure balance; release pressure of the oil"},
      {"F202", Severity::Stop, "The compression chamber keeps its oil in rebound up to the working speed.",
       "continuity of flow and pressure balance; release pressure of the oil"},
      {"F203", Severity::Look, "20 kPa are left above air release at the working speed.", kTrade},
      {"F204", Severity::Look, "The ports hold back less than the stack they feed, up to the working speed.",
       kTrade},
      {"F205", Severity::Look, "A damping stack opens below the working speed.", kTrade},
      {"F206", Severity::Look, "The stack, not the bleed, carries the flow at the second of the four speeds.",
       kTrade},
      {"F207", Severity::Look, "A needle is set where a click still changes its opening.",
       "geometry of cone and bore"},
      {"F208", Severity::Stop,
       "Gas and air pressures stay where the trade keeps them: reservoirs to 20 bar(g), air springs to 15 "
       "bar(g).",
       kTrade},
      {"F209", Severity::Look, "The curve is drawn no further than the valves were solved.",
       "range of the computation"},

      // the stacks
      {"F301", Severity::Stop,
       "The stress of every shim stays below its yield strength at every pressure asked.",
       "von Mises; strength as the job states it"},
      {"F302", Severity::Stop,
       "The stress of every shim stays below its fatigue limit at every pressure asked.", "Goodman's line"},
      {"F303", Severity::Look, "A fifth is left to the fatigue limit.", kTrade},
      {"F304", Severity::Note, "Every disc carries at some pressure.", "contact forces of the solved stack"},
      {"F305", Severity::Look,
       "The shims slope less than 0.5 rad, up to which the large-deflection theory is good.",
       "house rule: up to there the strains of thin discs stay below some percent"},
      {"F306", Severity::Look, "The rim of no shim is compressed so far that it may go wavy.",
       "Rayleigh quotient of the flat disc under its hoop compression (energy as in Timoshenko and Gere, "
       "Theory "
       "of Elastic Stability, from memory), derived for the annulus; neighbours and dishing hold it longer"},
      {"F307", Severity::Note, "The strength of the shims is stated, so that stress can be judged.",
       "house rule"},
      {"F308", Severity::Look,
       "The linear theory is used for lifts below half the thickness of the face shim.",
       "thin discs stretch as they dish (Timoshenko and Woinowsky-Krieger, art. 97, from memory)"},

      // the springs
      {"F401", Severity::Stop, "No coil is solid before full travel.", "geometry of the spring"},
      {"F402", Severity::Look, "Static sag lies in its target.",
       "the job, or what is usual off the road (common practice, no source)"},
      {"F403", Severity::Look, "Rider sag lies in its target.",
       "the job, or what is usual off the road (common practice, no source)"},
      {"F404", Severity::Stop, "The air lasts to full travel: a leg full of oil stops dead.", "volumes"},

      // oil, fill, stock
      {"F501", Severity::Look, "The oil's data reach to the working temperature.",
       "range of the oil's own data"},
      {"F502", Severity::Look, "What is poured in is within 5 % of what the geometry takes.", kTrade},
      {"F503", Severity::Stop, "The compensator has room for the rod and for warm oil.", "volumes"},
      {"F504", Severity::Look, "The unit passes its test by hand.", kTrade},
      {"F505", Severity::Look, "Every part of the pick list is in hand.", "the parts files"},

      // the numbers themselves
      {"F601", Severity::Stop, "Every result converged.", "the solvers' own tolerances"},
      {"F602", Severity::Look, "Every result lies in the range of its model.", "the models' stated ranges"},

      // the damper in motion
      {"F701", Severity::Stop,
       "No chamber falls to the pressure at which air comes out, up to the working speed.",
       "release pressure of the oil; the damper in motion"},
      {"F702", Severity::Stop, "The free piston meets neither of its stops.",
       "volumes; the damper in motion"},
      {"F703", Severity::Stop, "The free piston keeps its port covered.", "volumes; the damper in motion"},
      {"F704", Severity::Look, "The oil lock stays below 200 bar.", kTrade},
      {"F705", Severity::Look,
       "A damper takes up as much in its last cycle as in its second, within a tenth.", kTrade},
      {"F706", Severity::Look, "After a turn the force comes as soon as without air.",
       "the same run of the same damper without the air that was left; 0.5 mm and 0.1 mL are told"},
      {"F707", Severity::Look, "20 kPa are left above air release in every run.", kTrade},
      {"F708", Severity::Look, "The loop has settled: its area changes by less than 1 % from cycle to cycle.",
       "house rule"},
      {"F709", Severity::Look, "Work in equals heat and what is stored, to 1e-4.", "energy"},
      {"F710", Severity::Look, "Every run that was asked for is finished.", "house rule"},

      // what the job does not say
      {"F901", Severity::Note, "The job says all that a part of the result needs.", "house rule"},
      {"F902", Severity::Note, "The job says how warm and how high it is ridden.", "house rule"},
      {"F903", Severity::Note, "A rider's complaints are also named as feels, which the guide answers.",
       "house rule"},
  };
  return codes;
}

}  // namespace shimwright::job
