#pragma once
#include <optional>
#include <string>
#include <vector>

#include "file/spec_value.h"

namespace shimwright::file {

/// What shims and springs are made of. `[material.NAME]`
struct MaterialSpec {
  std::string name;
  Quantity youngs_modulus;    // Stress
  Number poisson_ratio;       //
  Quantity shear_modulus;     // Stress; spring wire
  Quantity density;           // Density
  Quantity yield_strength;    // Stress
  Quantity strength;          // Stress, tensile
  Quantity fatigue_strength;  // Stress, amplitude about a mean of zero
  Text note;                  // where the values come from
  Origin origin;
};

/// One measured viscosity.
struct ViscosityPoint {
  Quantity at;     // Temperature
  Quantity value;  // KinematicViscosity
  Origin origin;
};

/// `[oil.NAME]`
struct OilSpec {
  std::string name;
  std::vector<ViscosityPoint> viscosity;  // two points, or one with an index
  Number viscosity_index;
  Quantity density_15;            // Density at 15 degC
  Quantity expansion;             // ThermalExpansion, of volume
  Quantity bulk_modulus;          // Stress; of the oil without air
  Quantity entrained_air;         // Fraction of the volume at atmospheric pressure
  Quantity air_release_pressure;  // Pressure
  Quantity air_return_time;       // Time in which air that came out goes back
  Number price;                   // a litre, in the shop's own currency
  Text note;
  Origin origin;
};

/// Notches cut into the face disc: a bleed that never closes.
struct NotchSpec {
  Count count;
  Quantity width;  // Length, along the rim
  Quantity depth;  // Length, inwards from the rim
  Origin origin;
};

/// One entry of a stack: a run of equal discs, face first. Also `[shim.NAME]`.
struct DiscSpec {
  std::string name;         // of the part, "" when stated in place
  Text part;                // as named in the stack
  Count count;              // 1 when left out
  Quantity outer_diameter;  // Length
  Quantity thickness;       // Length
  Quantity bore;            // Length; larger than the clamp: a ring shim. Left out: the post's thread
  Named<MaterialSpec> material;
  std::optional<NotchSpec> notches;
  Count in_hand;
  Number price;      // each
  std::string text;  // the entry as typed, "3 x 24 x 0.15 mm"; "" for a table
  Origin origin;
};

/// A coil spring, by its rate or by its wire. Also `[spring.NAME]`.
struct CoilSpringSpec {
  std::string name;
  Text part;
  Quantity rate;           // SpringRate; or the next five
  Quantity wire;           // Length, diameter of the wire
  Quantity mean_diameter;  // Length, of the coil, middle to middle of the wire
  Number active_coils;
  Quantity shear_modulus;  // Stress; or from the material
  Named<MaterialSpec> material;

  Quantity free_length;   // Length
  Quantity solid_length;  // Length, coils touching
  Quantity preload;       // Length, squeezed with the unit fully out
  Flag stacked;           // on the spring listed before it (in series), not beside it
  Count in_hand;
  Number price;
  Origin origin;
};

/// A spacer or washer that may fill the post. `[spacer.NAME]`
struct SpacerSpec {
  std::string name;
  Quantity thickness;       // Length, nominal
  Quantity measured;        // Length
  Quantity tolerance;       // Length, plus and minus
  Quantity outer_diameter;  // Length
  Quantity bore;            // Length
  Count in_hand;
  Count fitted;  // how many are on the post now; 0 when left out
  Number price;
  Origin origin;
};

enum class OnThread { Dry, Oiled, AntiSeize, Threadlocker, HighStrengthThreadlocker };

/// The nut that holds a valve on its post. Also `[fastener.NAME]`.
struct NutSpec {
  std::string name;
  Text part;
  Thread thread;
  Quantity height;          // Length
  Quantity width;           // Length across flats, or outside of a round one
  Quantity face_diameter;   // Length, outside of the ring that turns on the washer
  Quantity chamfer;         // Length of the countersink at the clamping face, without full thread
  Quantity blind_depth;     // Length from face to bottom of a closed nut; an open one when left out
  Text strength_class;      // "8", or the next two
  Quantity yield_strength;  // Stress
  Quantity strength;        // Stress, tensile
  Quantity torque;          // Torque, what this build asks for
  Text torque_source;       // who published it; left out: no source, and the page says so
  Choice<OnThread> on_the_thread;
  Number nut_factor;  // K of T = K d F, when measured
  Count in_hand;
  Number price;
  Origin origin;
};

/// Everything that can be named, of the job and of all its parts files. Names are unique in their kind.
struct PartsSpec {
  std::vector<MaterialSpec> materials;
  std::vector<OilSpec> oils;
  std::vector<DiscSpec> shims;
  std::vector<CoilSpringSpec> springs;
  std::vector<SpacerSpec> spacers;
  std::vector<NutSpec> fasteners;
};

}  // namespace shimwright::file
