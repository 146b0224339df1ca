#pragma once
#include <optional>
#include <string>
#include <vector>

#include "file/spec_bench.h"
#include "file/spec_parts.h"

namespace shimwright::file {

// ---- stacks

/// Where the oil presses on the face disc.
struct PocketSpec {
  Quantity inner;  // Length, diameter
  Quantity outer;  // Length, diameter
  Quantity arc;    // Fraction of the circle that is open; all of it when left out
  Origin origin;
};

/// A stack that first slides on its collar and then bends.
struct FloatSpec {
  Quantity travel;        // Length, until it meets its stop
  Quantity spring_force;  // Force with the stack on its seat
  Quantity spring_rate;   // SpringRate
  Origin origin;
};

/// A coil spring that presses on the back of the stack.
struct BackSpringSpec {
  Quantity force;     // Force with the stack on its seat
  Quantity rate;      // SpringRate
  Quantity diameter;  // Length, where it presses
  Quantity gap;       // Length to the stack at rest; it touches when left out
  Origin origin;
};

/// One direction of a valve: ports, seat and stack. The lone `[stack]` of a file is one of these, with its
/// discs under the key `discs` instead of `stack`.
struct DirectionSpec {
  Count port_count;
  Quantity port_area;      // Area, each; or the bore
  Quantity port_bore;      // Length, each
  Quantity port_length;    // Length
  Number port_discharge;   // Cd of a port, when fixed by hand
  Number stack_discharge;  // Cd under the lifted disc, when fixed by hand

  Quantity seat;         // Length, diameter of the edge that the face disc seals on, and where lift is read
  Quantity land;         // Length, width of the seat's face outwards from there; a sharp edge when left out
  Quantity seat_height;  // Length above the clamp plane; below zero: open at rest
  Flag
      seat_support;  // false: nothing under the disc, the seat is only where lift is read; true when left out
  std::optional<PocketSpec> pocket;
  Quantity clamp;  // Length, diameter of the washer the discs bend over
  Quantity boss;   // Length, diameter of the raised face under the discs; that of the clamp when left out
  std::optional<FloatSpec> floating;
  std::optional<BackSpringSpec> back_spring;
  Named<MaterialSpec> material;  // of every disc that does not say its own; spring steel when left out

  std::vector<DiscSpec> stack;      // face shim first
  std::vector<Quantity> pressures;  // PressureDifference; of a lone stack
  Origin origin;
};

// ---- valves

enum class BleedKind { Needle, Bored, Notch, Leakage };
enum class ActsIn { Compression, Rebound, Both };

/// A way past the stack.
struct BleedSpec {
  Text name;
  Choice<BleedKind> kind;
  Choice<ActsIn> acts_in;
  Count count;       // of equal ones, 1 when left out
  Number discharge;  // Cd, when fixed by hand

  Quantity seat;              // needle: Length, diameter of the bore it closes
  Quantity half_angle;        // needle: Angle of the cone to its axis
  Quantity per_click;         // needle: Length it backs out for a click
  Quantity seated_clearance;  // needle: Length, gap at 0 clicks; left out: it seals
  Count clicks;               // needle: out from seated
  Count clicks_max;           // needle: the last one

  Quantity diameter;      // bored: Length; leakage: Length, of the band
  Quantity length;        // bored, leakage: Length along the flow
  Quantity width;         // notch: Length along the seat
  Quantity depth;         // notch: Length
  Quantity clearance;     // leakage: Length, bore minus band, in diameter
  Quantity eccentricity;  // leakage: Fraction, 0 in the middle, 100 % touching
  Origin origin;
};

/// The threaded end that carries a valve.
struct PostSpec {
  Thread thread;
  Quantity length;          // Length, from the shoulder to its end
  Quantity thread_length;   // Length, from its end, run-out included
  Quantity runout;          // Length of incomplete turns at the inner end of the thread
  Quantity chamfer;         // Length without full thread at the free end
  Quantity tolerance;       // Length, plus and minus, of both lengths
  Quantity bore;            // Length, of a hollow post
  Quantity neck;            // Length, smallest outer diameter below the thread
  Text strength_class;      // "8.8", or the next two
  Quantity yield_strength;  // Stress
  Quantity strength;        // Stress, tensile
  Origin origin;
};

enum class PieceKind { Piece, CompressionStack, ReboundStack, Spacers };

/// What a piece does on the post. Its name says nothing: a piece is what its role says.
enum class PieceRole {
  Piston,
  Collar,  // a stack that floats slides on it
  Washer,
  DishedWasher,
  Spacer,
  ClampShim,
  CheckPlate,
  DiscSpring,
  Other
};

/// The words of the roles, in their order.
const std::vector<std::string>& role_words();

/// One thing on the post, in order from the shoulder.
struct PieceSpec {
  Choice<PieceKind> kind;   // Piece unless it is one of the three reserved words
  Choice<PieceRole> role;   // Other when left out; of a part, Spacer
  Text name;                // what the shop calls it, "base piston"; the word of its role when left out
  Text part;                // of [spacer.NAME], when named
  Count count;              // 1 when left out
  Quantity height;          // Length, nominal
  Quantity measured;        // Length
  Quantity tolerance;       // Length, plus and minus
  Quantity outer_diameter;  // Length
  Quantity bore;            // Length
  Text direction;           // of a directional part, in words: "chamfer to the nut"
  std::string text;         // the entry as typed; "" for a table
  Origin origin;
};

/// What a piece is called: its name, or the word of its role.
std::string piece_name(const PieceSpec& piece);

struct ValveSpec;

/// The collar that a stack slides on: the piece with that role beside the stack on the post, with no more
/// than disc springs between them; null without one.
const PieceSpec* collar_of(const ValveSpec& valve, PieceKind stack);

struct ValveSpec {
  std::optional<PostSpec> post;
  std::optional<NutSpec> nut;
  std::vector<PieceSpec> pieces;    // shoulder first
  std::vector<SpacerSpec> spacers;  // in hand for this post; all of the parts files that fit when left out
  std::optional<DirectionSpec> compression;
  std::optional<DirectionSpec> rebound;
  std::vector<BleedSpec> bleeds;
  Origin origin;
};

// ---- reservoir and springs

enum class ReservoirKind { Gas, SprungPiston, AirOverOil };

struct ReservoirSpec {
  Choice<ReservoirKind> kind;
  Quantity piston;        // Length, diameter of the free piston; of gas: a bladder when left out
  Quantity stroke;        // Length it can move
  Quantity pressure;      // Pressure of the gas with the rod fully out
  Quantity volume;        // Volume of the gas with the rod fully out
  Quantity spring_force;  // Force with the rod fully out
  Quantity spring_rate;   // SpringRate
  Quantity friction;      // Force of the free piston's seal
  Origin origin;
};

/// One air chamber, as it is with the unit fully out.
struct AirChamberSpec {
  Quantity pressure;  // Pressure when it was set
  Quantity bore;      // Length, diameter the air presses on
  Quantity rod;       // Length, diameter of a rod that runs through it; none when left out
  Quantity length;    // Length of the chamber
  Quantity oil;       // Volume standing in it
  Origin origin;
};

/// Where the gauge was read.
struct SetAtSpec {
  Quantity temperature;
  Quantity altitude;  // Length
  Origin origin;
};

struct AirSpringSpec {
  std::optional<AirChamberSpec> positive;
  std::optional<AirChamberSpec> negative;
  std::optional<SetAtSpec> set_at;  // the fill temperature and altitude of [conditions] when left out
  Origin origin;
};

/// The air above the oil of an open leg.
struct TrappedAirSpec {
  Quantity bore;           // Length, diameter of the tube that slides in
  Quantity level;          // Length from the top of the tube down to the oil: leg fully in, spring out; that
                           // of the fill's tube when left out
  Quantity spring_volume;  // Volume of the steel that is later in the air
  Quantity pressure;       // Pressure when closed, fully out; the air outside when left out
  Origin origin;
};

/// A spring that acts near fully out.
struct TopOutSpec {
  Quantity rate;    // SpringRate
  Quantity length;  // Length of travel it acts over
  Origin origin;
};

/// A rubber stop near fully in.
struct BumpStopSpec {
  Quantity rate;    // SpringRate at first touch
  Quantity length;  // Length of travel it acts over
  Origin origin;
};

/// One measured position of a rear linkage. Shock travel or leverage, the same one in every row.
struct LinkagePoint {
  Quantity wheel;   // Length of wheel travel from fully out
  Quantity shock;   // Length of shock travel from fully out
  Number leverage;  // wheel travel for a shock travel, here
  Origin origin;
};

struct LinkageSpec {
  std::vector<LinkagePoint> table;
  Origin origin;
};

// ---- fill

enum class RodAt { FullyOut, FullyIn };

/// The inside of a cartridge or shock body, filled all the way, with the rod where `rod_at` says.
struct FillSpaceSpec {
  Quantity bore;        // Length
  Quantity length;      // Length, foot valve to seal head
  Quantity rod_bore;    // Length, of a hollow rod that fills with oil; solid when left out
  Quantity rod_inside;  // Length of rod inside
  Quantity solids;      // Volume of piston, valves, nut, springs
  Quantity elsewhere;   // Volume outside that belongs to it: reservoir, bladder, hose
  Origin origin;
};

/// A closed body in the outer tube.
struct StandingSpec {
  Quantity diameter;  // Length, outside
  Quantity bottom;    // Length above the tube's floor
  Quantity top;       // Length above the tube's floor
  Origin origin;
};

/// The outer tube of a leg, upright, as when the level is measured.
struct FillTubeSpec {
  Quantity bore;    // Length
  Quantity height;  // Length, floor to the rim that the level is measured from
  Quantity level;   // Length from the rim down to the oil; from the volume of the outer oil when left out
  std::vector<StandingSpec> standing;
  Origin origin;
};

enum class ComesOut { Fully, StopsShort, NotAtAll };
enum class BubblesSeen { None, Stopped, Continue };
enum class DragFelt { Smooth, Tight, Notchy };

/// What was seen when the finished unit was tried by hand.
struct AcceptanceSpec {
  Choice<ComesOut> rod_comes_out;
  Quantity short_by;  // Length missing at the end of the stroke
  Choice<BubblesSeen> bubbles;
  Choice<DragFelt> drag;
  Quantity purged;    // Volume that came out in the last full stroke
  Quantity bled_for;  // Time
  Flag oil_outside;   // wet rod or seal head after wiping
  Origin origin;
};

struct FillSpec {
  Quantity cartridge;  // Volume, what the maker or the last build took
  Quantity outer;      // Volume
  Quantity reservoir;  // Volume
  Choice<RodAt> rod_at;
  std::optional<FillSpaceSpec> space;
  std::optional<FillTubeSpec> tube;
  Quantity capacity;        // Volume that the compensator takes before it vents or stops
  Quantity body_expansion;  // ThermalExpansion of the body, by length
  std::optional<AcceptanceSpec> acceptance;
  Origin origin;
};

// ---- unit

enum class UnitKind { ForkLeg, Shock };
enum class Layout { ClosedCartridge, OpenBath, ReservoirShock };

std::string word(UnitKind kind);  // "fork leg", "shock"
std::string word(Layout layout);  // "closed cartridge", "open bath", "reservoir shock"

/// One fork leg (or both, when alike) or one shock.
struct UnitSpec {
  Text name;
  Choice<UnitKind> kind;
  Choice<Layout> layout;
  Count count;      // of equal ones on the machine, 1 when left out
  Quantity travel;  // Length, of the unit itself
  Quantity piston;  // Length, bore that the piston runs in
  Quantity rod;     // Length, diameter
  Named<OilSpec> oil;
  Quantity seal_friction;  // Force

  std::optional<ValveSpec> piston_valve;
  std::optional<ValveSpec> foot_valve;
  std::optional<ReservoirSpec> reservoir;

  std::vector<CoilSpringSpec> coil_springs;
  std::optional<AirSpringSpec> air_spring;
  std::optional<TrappedAirSpec> trapped_air;
  std::optional<TopOutSpec> top_out;
  std::optional<BumpStopSpec> bump_stop;
  std::optional<LinkageSpec> linkage;
  std::optional<FillSpec> fill;
  std::optional<MotionSpec> motion;
  Origin origin;
};

}  // namespace shimwright::file
