#include "assembly/directions.h"

#include <algorithm>
#include <array>

namespace shimwright::assembly {
namespace {

constexpr std::array kDirections = {
    Direction{"piston", "piston", "the side with the compression ports' mouths", "the compression chamber",
              "the open pockets of one stroke lie under the other stroke's shims; compare with the drawing",
              "each stroke is damped by the other one's stack"},
    Direction{"face-shim", "face shim", "the smooth side, without burr", "the seat",
              "draw a fingernail outwards over the edge: the burr catches",
              "the burr holds the shim off its seat and the valve leaks at low speed"},
    Direction{"check-plate", "check plate", "the flat, lapped side", "the seat",
              "the lapped side mirrors; the other one carries the spring's ring or a step",
              "the check does not seal: no damping in one stroke until the leak chokes"},
    Direction{"check-spring", "check spring", "the small end", "the check plate",
              "a cone: the small coil guides on the collar",
              "the spring tips the plate and it opens on one side"},
    Direction{"wave-spring", "light spring of a floating stack", "the crests", "the clamp shim of the stack",
              "the flat ring lies on the collar's shoulder",
              "the float is uneven and the stack sticks on its collar"},
    Direction{"collar", "collar of a floating stack", "the shoulder", "away from the piston",
              "the stack slides on the thin end", "the stack is pinched: no float, harsh at once"},
    Direction{"clamp-shim", "clamp shim with one bevelled edge", "the flat side", "the stack",
              "the bevel gives the shims room to bend",
              "the bend starts at another diameter and the stack is softer"},
    Direction{"dished-washer", "dished or cupped washer", "the hollow side", "the stack",
              "lay it on glass: it rocks on its crown", "the washer bears on its rim and bends the shims"},
    Direction{"disc-springs", "disc spring", "the hollow side", "as the drawing shows for series or parallel",
              "lay it on glass: a gap under the bore or under the rim",
              "series for parallel halves the force, parallel for series halves the stroke"},
    Direction{"nut", "nut with a collar or a smooth face", "the collar or smooth face", "the pile",
              "the other side carries the size or the locking ring",
              "the nut cuts into the last washer and loosens"},
    Direction{"rod-seal", "rod seal with a lip", "the lip's open side, with its spring", "the oil",
              "the groove with the spring is the pressure side", "it leaks at once under pressure"},
    Direction{"dust-wiper", "dust wiper", "the scraping lip", "the outside",
              "the thin edge points away from the oil", "it carries dirt in and holds oil out"},
    Direction{"seal-head", "seal head", "the side with the dust wiper", "the eye or the fork cap",
              "the bush is on the oil side",
              "the seal stands backwards; the rod is wet after the first stroke"},
    Direction{"backup-ring", "back-up ring", "the ring", "on the side away from the pressure",
              "pressure pushes the O-ring against it", "the O-ring creeps into the gap and is nibbled"},
    Direction{"piston-band", "piston band", "the bevel at its cut", "so that the cut overlaps flat",
              "run a finger round: no edge stands proud", "the band's edge shaves the tube and drags"},
    Direction{"needle", "needle of the rebound bleed", "the cone", "the jet", "the thin end goes in first",
              "the clicker does nothing"},
    Direction{"free-piston", "free piston", "the hollow side", "as the maker drew it, usually the gas",
              "the cup gives gas volume", "the gas room is smaller and the pressure rises sooner"},
    Direction{"snap-ring", "snap ring with one sharp edge", "the sharp edge", "away from the load it holds",
              "stamping leaves one round and one sharp edge", "it can climb out of its groove"},
    Direction{"top-out-spring", "top-out spring", "the closed, ground end", "the seal head",
              "the ground end stands square", "it cocks on the rod and marks it"},
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
