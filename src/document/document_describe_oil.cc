#include "document/document_describe_list.h"
#include "document/document_oil.h"

namespace shimwright::document {

using units::Kind;

template <>
const StructInfo& describe<OilPoint>() {
  static constexpr FieldInfo fields[] = {
      field<&OilPoint::temperature>("temperature", Kind::Temperature, "The temperature."),
      field<&OilPoint::kinematic_viscosity>("kinematic_viscosity", Kind::KinematicViscosity,
                                            "Kinematic viscosity."),
      field<&OilPoint::dynamic_viscosity>("dynamic_viscosity", Kind::DynamicViscosity, "Dynamic viscosity."),
      field<&OilPoint::density>("density", Kind::Density, "Density."),
      field<&OilPoint::extrapolated>("extrapolated", "Outside the two measured viscosities."),
  };
  static constexpr auto info = structure<OilPoint>("OilPoint", "An oil at one temperature.", fields);
  return info;
}

template <>
const StructInfo& describe<OilResult>() {
  static constexpr FieldInfo fields[] = {
      field<&OilResult::name>("name", "As in the parts file."),
      field<&OilResult::used_in>("used_in", "Names of the units that hold it."),
      field<&OilResult::working>("working", "The oil at the job's oil temperature."),
      field<&OilResult::table>("table",
                               "Ascending in temperature: 0 degC to 100 degC and the working temperature."),
      field<&OilResult::viscosity_index>("viscosity_index", Kind::Number,
                                         "Viscosity index; absent where ASTM D2270 does not define one."),
      field<&OilResult::bulk_modulus>("bulk_modulus", Kind::Stress,
                                      "Stiffness with its entrained air, at `bulk_pressure`."),
      field<&OilResult::bulk_pressure>("bulk_pressure", kAbsolute, "Pressure of that stiffness."),
      field<&OilResult::air_release_pressure>("air_release_pressure", kAbsolute,
                                              "Pressure at which air comes out of the oil."),
      field<&OilResult::outcome>("outcome", "How the table was computed."),
  };
  static constexpr auto info = structure<OilResult>("OilResult", "One oil over temperature.", fields);
  return info;
}

template <>
const StructInfo& describe<OilSwapForce>() {
  static constexpr FieldInfo fields[] = {
      field<&OilSwapForce::stroke>("stroke", "The stroke."),
      field<&OilSwapForce::speed>("speed", Kind::Speed, "Damper speed."),
      field<&OilSwapForce::before>("before", Kind::Force, "Force with the unit's own oil."),
      field<&OilSwapForce::after>("after", Kind::Force, "Force with the other oil."),
  };
  static constexpr auto info =
      structure<OilSwapForce>("OilSwapForce", "What another oil does to one stroke.", fields);
  return info;
}

template <>
const StructInfo& describe<OilSwapClicks>() {
  static constexpr FieldInfo fields[] = {
      field<&OilSwapClicks::adjuster>("adjuster", "Name of the adjuster."),
      field<&OilSwapClicks::change>("change", "How many clicks; negative: in."),
  };
  static constexpr auto info = structure<OilSwapClicks>(
      "OilSwapClicks", "Clicks of one adjuster that bring the force at the slow speed back.", fields);
  return info;
}

template <>
const StructInfo& describe<OilSwap>() {
  static constexpr FieldInfo fields[] = {
      field<&OilSwap::unit>("unit", "Name of the unit."),
      field<&OilSwap::from>("from", "Oil of the job."),
      field<&OilSwap::to>("to", "The other oil."),
      field<&OilSwap::kinematic_ratio>("kinematic_ratio", Kind::Number,
                                       "Kinematic viscosity of the other oil over that of its own."),
      field<&OilSwap::density_ratio>("density_ratio", Kind::Number,
                                     "Density of the other oil over that of its own."),
      field<&OilSwap::same_viscosity_at>(
          "same_viscosity_at", Kind::Temperature,
          "Temperature at which the other oil is as thin as its own at the working temperature."),
      field<&OilSwap::forces>("forces", "Both strokes at three speeds."),
      field<&OilSwap::clicks>("clicks", "What each adjuster can do about it."),
      field<&OilSwap::outcome>("outcome", "The worst of both computations."),
  };
  static constexpr auto info = structure<OilSwap>(
      "OilSwap",
      "One unit with another oil of the parts files in place of its own, at the working temperature.",
      fields);
  return info;
}

}  // namespace shimwright::document
