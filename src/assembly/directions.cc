#include "assembly/directions.h"

#include <algorithm>
#include <array>

namespace shimwright::assembly {
namespace {

constexpr std::array kDirections = {
    Direction{
        "piston", "piston", "the side where the compression ports begin", "the compression chamber",
        "the open pockets of one stroke are under the shims of the other stroke; compare with the drawing",
        "each stroke is damped by the stack of the other stroke"},
    Direction{"face-shim", "face shim", "the smooth side without a burr", "the seat",
              "move a fingernail outwards over the edge: the burr catches it",
              "the burr lifts the shim off its seat, and the valve leaks at low speed"},
    Direction{
        "check-plate", "check plate", "the flat, lapped side", "the seat",
        "the lapped side is like a mirror; the other side has the ring of the spring or a step",
        "the check valve does not seal: one stroke has no damping until the leak itself restricts the oil"},
    Direction{"check-spring", "check spring", "the small end", "the check plate",
              "the spring is a cone: the collar guides the small coil",
              "the spring tilts the plate, and it opens on one side"},
    Direction{"wave-spring", "light spring of a floating stack", "the crests", "the clamp shim of the stack",
              "the flat ring sits on the shoulder of the collar",
              "the float is uneven, and the stack sticks on its collar"},
    Direction{"collar", "collar of a floating stack", "the shoulder", "away from the piston",
              "the stack slides on the thin end",
              "the stack is clamped: it has no float and is harsh at once"},
    Direction{"clamp-shim", "clamp shim with one bevelled edge", "the flat side", "the stack",
              "the bevel gives the shims room to bend",
              "the shims bend from another diameter, and the stack is softer"},
    Direction{"dished-washer", "dished or cupped washer", "the hollow side", "the stack",
              "put it on glass: it rocks on its high side",
              "the washer presses with its rim and bends the shims"},
    Direction{"disc-springs", "disc spring", "the hollow side",
              "as the drawing shows, for springs in series or in parallel",
              "put it on glass: there is a gap under the bore or under the rim",
              "two springs in series in place of parallel have half the force; in parallel in place of "
              "series, half the stroke"},
    Direction{"nut", "nut with a collar or a smooth face", "the collar or smooth face", "the pile",
              "the other side has the size marking or the locking ring",
              "the nut cuts into the last washer and comes loose"},
    Direction{"rod-seal", "rod seal with a lip", "the open side of the lip with its spring", "the oil",
              "the groove with the spring is the pressure side", "it leaks at once under pressure"},
    Direction{"dust-wiper", "dust wiper", "the scraping lip", "the outside",
              "the thin edge points away from the oil", "it lets dirt in and keeps oil out"},
    Direction{"seal-head", "seal head", "the side with the dust wiper", "the eye or the fork cap",
              "the bush is on the oil side", "the seal is backwards: the rod is wet after the first stroke"},
    Direction{"backup-ring", "back-up ring", "the ring", "on the side away from the pressure",
              "pressure pushes the O-ring against it",
              "the pressure pushes the O-ring into the gap and damages it"},
    Direction{"piston-band", "piston band", "the bevel at its cut", "so that the two ends overlap flat",
              "run a finger round it: no edge sticks out", "the edge of the band scrapes the tube and drags"},
    Direction{"needle", "needle of a clicker", "the cone", "the jet", "the thin end goes in first",
              "the clicker does nothing"},
    Direction{"free-piston", "free piston", "the hollow side", "as the maker drew it, usually the gas",
              "the hollow side adds gas volume", "there is less room for gas, and the pressure rises sooner"},
    Direction{"snap-ring", "snap ring with one sharp edge", "the sharp edge", "away from the load",
              "stamping leaves one rounded edge and one sharp edge", "it can climb out of its groove"},
    Direction{"top-out-spring", "top-out spring", "the closed, ground end", "the seal head",
              "the ground end is square", "the spring tilts on the rod and marks it"},
};

}  // namespace

std::span<const Direction> directions() {
  return kDirections;
}

const Direction* find_direction(std::string_view id) {
  const auto found = std::ranges::find(kDirections, id, &Direction::id);
  return found == kDirections.end() ? nullptr : &*found;
}

}  // namespace shimwright::assembly
