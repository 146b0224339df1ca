#include <fmt/core.h>

#include <iterator>

#include "report/html_text.h"
#include "report/scene.h"

namespace shimwright::report {
namespace {

std::string color(Token token) {
  const TokenColors& c = colors(token);
  return fmt::format("var(--{},#{:02x}{:02x}{:02x})", c.name, c.light.r, c.light.g, c.light.b);
}

const char* dash_array(Dash dash) {
  switch (dash) {
    case Dash::Solid:
      return "";
    case Dash::Long:
      return "7 3";
    case Dash::Short:
      return "3 2";
    case Dash::Dots:
      return "0.1 3";
    case Dash::Chain:
      return "9 2.5 1.5 2.5";
  }
  return "";
}

std::string stroke_style(const std::optional<Stroke>& stroke) {
  if (!stroke) return "stroke:none;";
  std::string style = fmt::format("stroke:{};stroke-width:{:.3g};", color(stroke->token), stroke->width);
  if (stroke->dash != Dash::Solid) style += fmt::format("stroke-dasharray:{};", dash_array(stroke->dash));
  if (stroke->opacity < 1.0) style += fmt::format("stroke-opacity:{:.3g};", stroke->opacity);
  return style;
}

/// Hatches are patterns; each kind that a scene uses is defined once, before its first use.
struct SvgWriter {
  std::string body;
  std::string defs;
  std::vector<std::string> pattern_keys;
  int n_clips = 0;
  std::string id_prefix;

  std::string fill_style(const std::optional<Fill>& fill) {
    if (!fill) return "fill:none;";
    if (fill->hatch) return fmt::format("fill:url(#{});fill-opacity:{:.3g};", pattern(*fill), fill->opacity);
    std::string style = fmt::format("fill:{};", color(fill->token));
    if (fill->opacity < 1.0) style += fmt::format("fill-opacity:{:.3g};", fill->opacity);
    return style;
  }

  std::string pattern(const Fill& fill) {
    const Hatch& h = *fill.hatch;
    const std::string key = fmt::format("{}-{}-{:.0f}-{:.0f}-{:.0f}", id_prefix, colors(fill.token).name,
                                        h.angle, h.spacing * 100, h.width * 100);
    for (const std::string& known : pattern_keys)
      if (known == key) return key;
    pattern_keys.push_back(key);
    defs += fmt::format(
        "<pattern id=\"{}\" width=\"{:.3g}\" height=\"{:.3g}\" patternUnits=\"userSpaceOnUse\" "
        "patternTransform=\"rotate({:.4g})\"><line x1=\"0\" y1=\"0\" x2=\"{:.3g}\" y2=\"0\" "
        "style=\"stroke:{};stroke-width:{:.3g}\"/></pattern>",
        key, h.spacing, h.spacing, -h.angle, h.spacing, color(fill.token), 2.0 * h.width);
    return key;
  }

  void operator()(const Polyline& polyline) {
    std::string points;
    points.reserve(polyline.points.size() * 12);
    for (const Point& p : polyline.points)
      fmt::format_to(std::back_inserter(points), "{:.2f},{:.2f} ", p.x, p.y);
    if (!points.empty()) points.pop_back();
    fmt::format_to(std::back_inserter(body), "<{} points=\"{}\" style=\"{}{}\"/>\n",
                   polyline.closed ? "polygon" : "polyline", points, fill_style(polyline.fill),
                   stroke_style(polyline.stroke));
  }

  void operator()(const Circle& c) {
    fmt::format_to(std::back_inserter(body),
                   "<circle cx=\"{:.2f}\" cy=\"{:.2f}\" r=\"{:.2f}\" style=\"{}{}\"/>\n", c.center.x,
                   c.center.y, c.radius, fill_style(c.fill), stroke_style(c.stroke));
  }

  void operator()(const Label& label) {
    static constexpr const char* kAnchors[] = {"start", "middle", "end"};
    std::string turn;
    if (label.turn != 0.0)
      turn = fmt::format(" transform=\"rotate({:.4g} {:.2f} {:.2f})\"", -label.turn, label.at.x, label.at.y);
    fmt::format_to(
        std::back_inserter(body),
        "<text x=\"{:.2f}\" y=\"{:.2f}\"{} style=\"font-size:{:.3g}px;font-weight:{};text-anchor:{};"
        "fill:{}\">{}</text>\n",
        label.at.x, label.at.y, turn, label.size, label.weight == Weight::Semibold ? 600 : 400,
        kAnchors[static_cast<int>(label.anchor)], color(label.token), escaped(label.text));
  }

  void operator()(const ClipBegin& clip) {
    const std::string id = fmt::format("{}-clip-{}", id_prefix, n_clips++);
    defs += fmt::format(
        "<clipPath id=\"{}\"><rect x=\"{:.2f}\" y=\"{:.2f}\" width=\"{:.2f}\" height=\"{:.2f}\"/></clipPath>",
        id, clip.min.x, clip.min.y, clip.max.x - clip.min.x, clip.max.y - clip.min.y);
    body += fmt::format("<g clip-path=\"url(#{})\">\n", id);
  }

  void operator()(const ClipEnd&) { body += "</g>\n"; }

  void operator()(const Picture& picture) {
    body += fmt::format(
        "<image x=\"{:.2f}\" y=\"{:.2f}\" width=\"{:.2f}\" height=\"{:.2f}\" "
        "href=\"data:image/png;base64,{}\"/>\n",
        picture.min.x, picture.min.y, picture.max.x - picture.min.x, picture.max.y - picture.min.y,
        base64(picture.png));
  }

  // one drawing has no other pages to jump to
  void operator()(const Bookmark&) {}
  void operator()(const Jump&) {}
};

/// Drawings that a person puts on one page must not share ids; the content decides, so that reruns give the
/// same bytes.
std::string prefix_of(const Scene& scene) {
  std::size_t hash = 1469598103934665603ull;
  const auto mix = [&](std::string_view text) {
    for (const unsigned char c : text) hash = (hash ^ c) * 1099511628211ull;
  };
  mix(scene.title);
  mix(scene.description);
  mix(std::to_string(scene.items.size()));
  return fmt::format("s{:x}", hash & 0xffffffffu);
}

}  // namespace

std::string to_svg(const Scene& scene, bool standalone, const std::string& id_prefix) {
  SvgWriter writer;
  writer.id_prefix = id_prefix.empty() ? prefix_of(scene) : id_prefix;
  for (const Item& item : scene.items) std::visit(writer, item);

  std::string out;
  if (standalone) out += "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
  out += fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.2f} {1:.2f}\"{2} role=\"img\" "
      "aria-labelledby=\"{3}-t {3}-d\" style=\"font-family:'Source Sans 3',sans-serif;"
      "font-feature-settings:'tnum';stroke-linecap:round;stroke-linejoin:round\">\n"
      "<title id=\"{3}-t\">{4}</title><desc id=\"{3}-d\">{5}</desc>\n",
      scene.width, scene.height,
      standalone ? fmt::format(" width=\"{:.2f}pt\" height=\"{:.2f}pt\"", scene.width, scene.height) : "",
      writer.id_prefix, escaped(scene.title), escaped(scene.description));
  if (!writer.defs.empty()) out += "<defs>" + writer.defs + "</defs>\n";
  if (standalone)
    out += fmt::format("<rect width=\"100%\" height=\"100%\" style=\"fill:{}\"/>\n", color(Token::Paper));
  return out + writer.body + "</svg>\n";
}

}  // namespace shimwright::report
