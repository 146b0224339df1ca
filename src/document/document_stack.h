#pragma once
#include <optional>
#include <string>
#include <vector>

#include "document/document_plot.h"
#include "document/document_value.h"

// What each struct and each member means: document_describe_stack.cc

namespace shimwright::document {

struct DiscDrawing {
  int number = 0;
  int group = 0;
  std::string label;
  double outer_radius = 0;
  double bore_radius = 0;
  double thickness = 0;
  double height = 0;
  bool ring = false;
  bool carries = true;
};

struct DiscGroup {
  int count = 0;
  int first = 1;
  std::string label;
};

struct StackGeometry {
  std::vector<DiscDrawing> discs;
  std::vector<DiscGroup> groups;
  double height = 0;

  double clamp_radius = 0;
  double boss_radius = 0;
  double bore_radius = 0;
  double seat_radius = 0;
  double seat_height = 0;
  double pocket_inner_radius = 0;
  double pocket_outer_radius = 0;
  double pocket_arc = 1;
  double land_outer_radius = 0;
  bool seat_supports = true;
  double float_travel = 0;
};

struct ContactForce {
  int lower = 0;
  int upper = 0;
  double radius = 0;
  double force = 0;
};

struct DiscStress {
  int number = 0;
  double stress = 0;
  double radius = 0;
  std::optional<double> yield_margin;
  std::optional<double> fatigue_margin;
  double share = 0;
};

struct StackPoint {
  double pressure = 0;
  double float_used = 0;
  double lift_at_seat = 0;
  double lift_at_rim = 0;
  double opening_area = 0;
  double face_stress = 0;
  double highest_stress = 0;
  int worst_disc = 0;
  std::vector<DiscStress> discs;
  std::vector<ContactForce> contacts;
  double largest_slope = 0;
  double slope_ratio = 0;
  double rim_compression = 0;
  double buckling_ratio = 0;
  int buckling_disc = 0;
  double mesh_error = 0;
  double iteration_error = 0;
  double contact_error = 0;
  Outcome outcome;
};

struct DiscShape {
  int number = 0;
  std::vector<double> radius;
  std::vector<double> height;
  std::vector<double> stress;
};

struct StackShape {
  std::string name;
  double pressure = 0;
  std::vector<DiscShape> discs;
};

struct PathBreak {
  double pressure = 0;
  double lift_at_seat = 0;
  bool closes = true;
  int lower = 0;
  int upper = 0;
  double radius = 0;
  bool physical = true;
  std::string what;
};

struct LiftLine {
  std::vector<double> pressure;
  std::vector<double> lift_at_seat;
  std::vector<double> lift_at_rim;
};

struct DiscInfluence {
  int number = 0;
  double lift_per_thickness = 0;
  std::optional<double> lift_without;
  bool could_be_left_out = false;
};

struct GroupInfluence {
  int group = 0;
  double stiffness_share = 0;
  std::optional<double> lift_thicker;
  std::optional<double> change;
};

struct StageShare {
  int first_disc = 1;
  int last_disc = 1;
  double stiffness_share = 0;
};

struct StackInfluence {
  double pressure = 0;
  double lift_at_seat = 0;
  double thicker_by = 0;
  std::vector<DiscInfluence> discs;
  std::vector<GroupInfluence> groups;
  std::vector<StageShare> stages;
  std::vector<std::string> sentences;
  Outcome outcome;
};

struct StackRelief {
  int first_disc = 1;
  int last_disc = 1;
  int count = 0;
  double thickness = 0;
  double drop = 0;
  std::optional<double> yield_margin;
  std::optional<double> fatigue_margin;
};

struct StackResult {
  std::string name;
  Theory theory = Theory::Large;
  StackGeometry geometry;

  std::optional<double> opening_pressure;
  std::vector<StackPoint> points;
  std::vector<double> unsolved;
  bool pressures_assumed = false;
  std::vector<StackShape> shapes;
  LiftLine line;
  std::vector<PathBreak> path;

  int worst_disc = 0;
  std::optional<double> yield_margin;
  std::optional<double> fatigue_margin;
  std::string fatigue_rule;
  std::vector<int> idle_discs;
  std::optional<StackInfluence> influence;
  std::optional<StackRelief> relief;
  double largest_slope = 0;
  Outcome outcome;
  std::vector<PlotSpec> plots;
};

}  // namespace shimwright::document
