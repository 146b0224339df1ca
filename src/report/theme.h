#pragma once
#include <array>
#include <cstdint>

namespace shimwright::report {

/// The colours by what they are for, never by what they look like: print uses the light values, the HTML page
/// turns each into a custom property that has a dark value too.
enum class Token { Paper, Ink, Steel, Line, Copper, Compression, Rebound, Fine, Look, Stop };

struct Rgb {
  std::uint8_t r, g, b;
};

struct TokenColors {
  const char* name;  // of the CSS custom property, without the dashes
  Rgb light, dark;
};

/// In the order of Token. Text on paper has a contrast of at least 4.5 to 1, lines at least 3 to 1, in both.
inline constexpr std::array<TokenColors, 10> kTokens = {{
    {"paper", {0xF8, 0xF5, 0xEE}, {0x15, 0x1C, 0x22}},
    {"ink", {0x1C, 0x27, 0x30}, {0xE9, 0xE4, 0xD8}},
    {"steel", {0x52, 0x61, 0x6C}, {0xA9, 0xB4, 0xBC}},
    {"line", {0x8C, 0x86, 0x74}, {0x6F, 0x7A, 0x82}},
    {"copper", {0x9C, 0x44, 0x16}, {0xE8, 0x95, 0x5C}},
    {"compression", {0x1B, 0x57, 0x96}, {0x7F, 0xB4, 0xEC}},
    {"rebound", {0x7A, 0x2E, 0x7D}, {0xD5, 0x9A, 0xD8}},
    {"fine", {0x1A, 0x6B, 0x5A}, {0x5F, 0xC7, 0xAF}},
    {"look", {0x85, 0x56, 0x0A}, {0xE0, 0xB0, 0x4C}},
    {"stop", {0xA3, 0x21, 0x1B}, {0xF2, 0x87, 0x7F}},
}};

constexpr const TokenColors& colors(Token token) {
  return kTokens[static_cast<std::size_t>(token)];
}

// type sizes in print [pt]
inline constexpr double kSmall = 8.5, kBody = 10.0, kLead = 12.0, kHead = 16.0, kTitle = 22.0;

// line widths [pt]: 0.5 mm for outlines, 0.25 mm for everything that explains them (ISO 128-2 ratio 2:1)
inline constexpr double kPointsPerMillimetre = 72.0 / 25.4;
inline constexpr double kOutline = 0.5 * kPointsPerMillimetre, kThin = 0.25 * kPointsPerMillimetre;

}  // namespace shimwright::report
