#pragma once
#include <ostream>

#include "base/diagnostic.h"

// For each finding one change of a test job that brings it.

namespace shimwright::job::testing_jobs {

/// One change of a job that is otherwise in order, and the finding it must bring.
struct Trigger {
  const char* code;
  const char* job;  // test/jobs/
  const char* from;
  const char* to;
  Severity severity;
};

inline std::ostream& operator<<(std::ostream& out, const Trigger& trigger) {
  return out << trigger.code << " by \"" << trigger.to << "\"";
}

inline constexpr const char* kFork = "fork";
inline constexpr const char* kShock = "shock";
inline constexpr const char* kLone = "lone-stack";
inline constexpr const char* kLoneStack =
    "discs     = [\"4 x 22 x 0.15 mm\", \"1 x 13 x 0.10 mm\", \"1 x 20 x 0.15 mm\", \"1 x 17 x 0.15 mm\", "
    "\"1 x 14 x 0.20 mm\"]\npressures = \"0.1 MPa, 0.3 MPa, 0.8 MPa\"";

inline const Trigger kTriggers[] = {
    // posts and nuts
    {"F101", kFork, R"(length = "25.5 mm", thread_length = "9 mm")",
     R"(length = "25.5 mm", thread_length = "4 mm")", Severity::Stop},
    {"F102", kFork, R"(length = "25.5 mm", thread_length)", R"(length = "20 mm", thread_length)",
     Severity::Stop},
    {"F104", kFork, "in_hand        = 4\n", "in_hand = 4\nfitted = 2\n", Severity::Look},
    {"F104", kFork, "in_hand        = 4\n", "in_hand = 4\nfitted = 1\n", Severity::Look},
    {"F105", kFork, R"(torque = "4.5 N.m")", R"(torque = "8.5 N.m")", Severity::Stop},
    {"F106", kFork, R"(torque = "4.5 N.m")", R"(torque = "40 ft.lbf")", Severity::Stop},
    {"F107", kFork, R"(torque = "4.5 N.m")", R"(torque = "0.3 N.m")", Severity::Stop},
    {"F108", kFork, R"(torque = "4.5 N.m")", R"(torque = "6.5 N.m")", Severity::Look},
    {"F111", kFork, R"(on_the_thread = "high-strength threadlocker")", R"(on_the_thread = "dry")",
     Severity::Look},
    {"F112", kFork, R"({ role = "collar", name = "float collar")", R"({ name = "float collar")",
     Severity::Look},
    // 3.3 mm for a stack of 0.85 and a float of 0.45, and a collar no higher than its stack
    {"F115", kFork, R"(height = "1.30 mm")", R"(height = "3.3 mm")", Severity::Look},
    {"F115", kFork, R"(height = "1.30 mm")", R"(height = "0.85 mm")", Severity::Stop},
    {"F113", kFork, R"({ role = "piston", height)", R"({ name = "piston", height)", Severity::Look},

    // the damper
    {"F201", kFork, R"(travel = "0.45 mm")", R"(travel = "0.01 mm")", Severity::Stop},
    {"F202", kFork, R"(port_area   = "30 mm2")", R"(port_area   = "1.5 mm2")", Severity::Stop},
    {"F204", kFork, R"(port_area   = "18 mm2")", R"(port_area   = "3 mm2")", Severity::Look},
    {"F205", kFork, R"(seat        = "19.2 mm")", "seat        = \"19.2 mm\"\nseat_height = \"2 mm\"",
     Severity::Look},
    {"F206", kFork, "seat       = \"2.5 mm\"\nhalf_angle = \"10 deg\"\nper_click  = \"0.06 mm\"",
     "seat = \"6 mm\"\nhalf_angle = \"20 deg\"\nper_click = \"0.12 mm\"", Severity::Look},
    {"F207", kFork, R"(per_click  = "0.06 mm")", R"(per_click  = "1.2 mm")", Severity::Look},
    {"F208", kFork, "positive = { pressure = \"4.1 bar(g)\"", "positive = { pressure = \"18 bar(g)\"",
     Severity::Look},
    {"F208", kShock, "pressure = \"10 bar(g)\"", "pressure = \"38 bar(g)\"", Severity::Stop},

    // the stacks
    {"F301", kLone, R"("1700 MPa")", R"("200 MPa")", Severity::Stop},
    {"F302", kLone, R"("780 MPa")", R"("60 MPa")", Severity::Stop},
    {"F304", kLone, R"("1 x 13 x 0.10 mm")", R"("3 x 10 x 0.50 mm")", Severity::Note},
    {"F305", kLone, kLoneStack,
     "discs = [\"1 x 22 x 0.05 mm\"]\npressures = \"40 MPa\"\n# (the strength is passed too)",
     Severity::Look},
    {"F306", kLone, kLoneStack, "discs = [\"1 x 22 x 0.05 mm\"]\npressures = \"0.1 MPa\"", Severity::Look},
    {"F307", kLone, "material  = \"spring-steel\"\n", "", Severity::Note},

    // the springs
    {"F401", kShock, R"(solid_length = "128 mm")", R"(solid_length = "200 mm")", Severity::Stop},
    {"F402", kFork, R"("25 to 40 mm")", R"("50 to 60 mm")", Severity::Look},
    {"F403", kFork, R"("65 to 80 mm")", R"("90 to 99 mm")", Severity::Look},
    {"F404", kFork, "[unit.top_out]",
     "[unit.trapped_air]\nbore = \"45 mm\"\nlevel = \"5 mm\"\n[unit.top_out]", Severity::Stop},

    // oil, fill, stock
    {"F501", kFork, R"(oil_temperature  = "45 degC")", R"(oil_temperature  = "125 degC")", Severity::Look},
    {"F502", kFork, R"(cartridge = "210 mL")", R"(cartridge = "300 mL")", Severity::Look},
    {"F503", kFork, R"(stroke       = "85 mm")", R"(stroke       = "20 mm")", Severity::Stop},
    {"F504", kFork, "[unit.fill]\n",
     "[unit.fill]\nacceptance = { rod_comes_out = \"stops short\", short_by = \"12 mm\" }\n", Severity::Look},
    {"F505", kFork, "in_hand        = 18", "in_hand        = 1", Severity::Look},

    // what is missing
    {"F902", kFork, "altitude         = \"200 m\"\n", "", Severity::Note},
    {"F903", kFork, "feels      = [\"harsh\", \"dives\"]\n", "", Severity::Note},
    {"F901", kFork, "rod    = \"12 mm\"\n", "", Severity::Note},
};

}  // namespace shimwright::job::testing_jobs
