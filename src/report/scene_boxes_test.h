#pragma once
#include <algorithm>
#include <string>
#include <vector>

#include "report/scene.h"
#include "report/text_metrics.h"

/// What a drawing covers, for the tests that look for words on words and for ink outside the paper.
namespace shimwright::report {

struct InkBox {
  std::string what;
  Point min, max;

  bool touches(const InkBox& b, double slack) const {
    return min.x + slack < b.max.x && b.min.x + slack < max.x && min.y + slack < b.max.y &&
           b.min.y + slack < max.y;
  }
};

/// From cap height to descender of an unturned label.
inline InkBox box_of(const Label& l) {
  const double wide = text_width(l.text, l.size, l.weight);
  const double x = l.anchor == Anchor::Start    ? l.at.x
                   : l.anchor == Anchor::Middle ? l.at.x - wide / 2
                                                : l.at.x - wide;
  return {l.text, {x, l.at.y - 0.7 * l.size}, {x + wide, l.at.y + 0.22 * l.size}};
}

inline std::vector<InkBox> label_boxes(const Scene& scene) {
  std::vector<InkBox> boxes;
  for (const Item& item : scene.items)
    if (const auto* l = std::get_if<Label>(&item)) boxes.push_back(box_of(*l));
  return boxes;
}

/// Pairs of labels that cover each other, in words; empty when all is well.
inline std::string overlapping_labels(const Scene& scene) {
  const auto boxes = label_boxes(scene);
  std::string pairs;
  for (std::size_t i = 0; i < boxes.size(); ++i)
    for (std::size_t j = i + 1; j < boxes.size(); ++j)
      if (boxes[i].touches(boxes[j], 0.2)) pairs += "'" + boxes[i].what + "' on '" + boxes[j].what + "'\n";
  return pairs;
}

/// What reaches outside of [min, max], in words; what a clip cuts off does not count.
inline std::string ink_outside(const Scene& scene, Point min, Point max) {
  std::string found;
  int n_clips = 0;
  const auto check = [&](const std::string& what, Point low, Point high) {
    const double slack = 0.8;  // half of the widest line
    if (low.x < min.x - slack || low.y < min.y - slack || high.x > max.x + slack || high.y > max.y + slack)
      found += what + "\n";
  };
  for (const Item& item : scene.items) {
    if (std::holds_alternative<ClipBegin>(item)) ++n_clips;
    if (std::holds_alternative<ClipEnd>(item)) --n_clips;
    if (n_clips > 0) continue;
    if (const auto* l = std::get_if<Label>(&item)) {
      const InkBox box = box_of(*l);
      check(box.what, box.min, box.max);
    } else if (const auto* p = std::get_if<Polyline>(&item)) {
      for (const Point& at : p->points) check("a line", at, at);
    } else if (const auto* c = std::get_if<Circle>(&item)) {
      check("a circle", {c->center.x - c->radius, c->center.y - c->radius},
            {c->center.x + c->radius, c->center.y + c->radius});
    }
  }
  return found;
}

}  // namespace shimwright::report
