#include "report/paint.h"

#include <cairo-pdf.h>
#include <cairomm/cairomm.h>
#include <fmt/core.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <numbers>

#include "base/check.h"
#include "report/typeface.h"

namespace shimwright::report {
namespace {

using Context = Cairo::RefPtr<Cairo::Context>;

void set_color(const Context& cr, Token token, double opacity) {
  const Rgb c = colors(token).light;
  // paper stays the white of the sheet: a tint would cost the printer's ink
  if (token == Token::Paper)
    cr->set_source_rgba(1, 1, 1, opacity);
  else
    cr->set_source_rgba(c.r / 255.0, c.g / 255.0, c.b / 255.0, opacity);
}

std::vector<double> dashes(Dash dash) {
  switch (dash) {
    case Dash::Solid:
      return {};
    case Dash::Long:
      return {7, 3};
    case Dash::Short:
      return {3, 2};
    case Dash::Dots:
      return {0.1, 3};
    case Dash::Chain:
      return {9, 2.5, 1.5, 2.5};
  }
  return {};
}

/// Parallel lines over the box of the current path, cut to the path. Drawn as lines, so that they print
/// crisp.
void hatch(const Context& cr, const Fill& fill) {
  const Hatch& h = *fill.hatch;
  double x0, y0, x1, y1;
  cr->save();
  cr->get_path_extents(x0, y0, x1, y1);
  cr->clip();
  const double reach = std::hypot(x1 - x0, y1 - y0) / 2.0 + h.spacing;
  cr->translate((x0 + x1) / 2.0, (y0 + y1) / 2.0);
  cr->rotate(-h.angle * std::numbers::pi / 180.0);
  for (double y = -reach; y <= reach; y += h.spacing) {
    cr->move_to(-reach, y);
    cr->line_to(reach, y);
  }
  set_color(cr, fill.token, fill.opacity);
  cr->set_line_width(h.width);
  cr->set_dash(std::vector<double>{}, 0.0);
  cr->stroke();
  cr->restore();
}

void fill_and_stroke(const Context& cr, const std::optional<Fill>& fill,
                     const std::optional<Stroke>& stroke) {
  const auto path = std::unique_ptr<Cairo::Path>(cr->copy_path());
  if (fill && fill->hatch) {
    hatch(cr, *fill);
  } else if (fill) {
    set_color(cr, fill->token, fill->opacity);
    cr->fill();
  }
  cr->begin_new_path();
  if (!stroke) return;
  cr->append_path(*path);
  set_color(cr, stroke->token, stroke->opacity);
  cr->set_line_width(stroke->width);
  cr->set_dash(dashes(stroke->dash), 0.0);
  cr->stroke();
}

struct Painter {
  Context cr;

  void operator()(const Polyline& polyline) const {
    if (polyline.points.empty()) return;
    cr->begin_new_path();
    cr->move_to(polyline.points.front().x, polyline.points.front().y);
    for (const Point& p : polyline.points) cr->line_to(p.x, p.y);
    if (polyline.closed) cr->close_path();
    fill_and_stroke(cr, polyline.fill, polyline.stroke);
  }

  void operator()(const Circle& c) const {
    cr->begin_new_path();
    cr->arc(c.center.x, c.center.y, c.radius, 0.0, 2.0 * std::numbers::pi);
    cr->close_path();
    fill_and_stroke(cr, c.fill, c.stroke);
  }

  void operator()(const Label& label) const {
    const auto layout = internal::text_layout(label.text, label.size, label.weight);
    const double width = layout->get_logical_extents().get_width() / double(Pango::SCALE);
    const double shift = label.anchor == Anchor::Start    ? 0.0
                         : label.anchor == Anchor::Middle ? width / 2
                                                          : width;
    cr->save();
    cr->translate(label.at.x, label.at.y);
    if (label.turn != 0.0) cr->rotate(-label.turn * std::numbers::pi / 180.0);
    cr->move_to(-shift, -layout->get_baseline() / double(Pango::SCALE));
    set_color(cr, label.token, 1.0);
    pango_cairo_show_layout(cr->cobj(), layout->gobj());
    cr->restore();
  }

  void operator()(const ClipBegin& clip) const {
    cr->save();
    cr->rectangle(clip.min.x, clip.min.y, clip.max.x - clip.min.x, clip.max.y - clip.min.y);
    cr->clip();
  }

  void operator()(const ClipEnd&) const { cr->restore(); }

  void operator()(const Picture& picture) const {
    std::size_t done = 0;
    const auto pixels = Cairo::ImageSurface::create_from_png_stream(
        [&](unsigned char* data, unsigned int length) -> Cairo::ErrorStatus {
          if (done + length > picture.png.size()) return CAIRO_STATUS_READ_ERROR;
          std::copy_n(picture.png.data() + done, length, data);
          done += length;
          return CAIRO_STATUS_SUCCESS;
        });
    cr->save();
    cr->translate(picture.min.x, picture.min.y);
    cr->scale((picture.max.x - picture.min.x) / pixels->get_width(),
              (picture.max.y - picture.min.y) / pixels->get_height());
    cr->set_source(pixels, 0, 0);
    cr->paint();
    cr->restore();
  }

  // of the whole PDF, not of one page
  void operator()(const Bookmark&) const {}
  void operator()(const Jump&) const {}
};

void paint(const Context& cr, const Scene& scene) {
  cr->set_line_cap(Cairo::Context::LineCap::ROUND);
  cr->set_line_join(Cairo::Context::LineJoin::ROUND);
  for (const Item& item : scene.items) std::visit(Painter{cr}, item);
}

auto append_to(std::string& bytes) {
  return [&bytes](const unsigned char* data, unsigned int length) -> Cairo::ErrorStatus {
    bytes.append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
  };
}

/// Where a bookmark stands, in the words of cairo.
std::string destination(const Bookmark& bookmark, std::size_t page) {
  return fmt::format("page={} pos=[{:.1f} {:.1f}]", page + 1, bookmark.at.x, bookmark.at.y);
}

using Destinations = std::map<std::string, std::string>;  // by title

/// The outline of the PDF, from the bookmarks of all pages.
Destinations add_outline(cairo_surface_t* surface, std::span<const Scene> pages) {
  Destinations destinations;
  int chapter = CAIRO_PDF_OUTLINE_ROOT;
  for (std::size_t k = 0; k < pages.size(); ++k)
    for (const Item& item : pages[k].items) {
      const auto* bookmark = std::get_if<Bookmark>(&item);
      if (bookmark == nullptr) continue;
      const std::string at = destinations[bookmark->title] = destination(*bookmark, k);
      const int added =
          cairo_pdf_surface_add_outline(surface, bookmark->level == 0 ? CAIRO_PDF_OUTLINE_ROOT : chapter,
                                        bookmark->title.c_str(), at.c_str(), CAIRO_PDF_OUTLINE_FLAG_OPEN);
      if (bookmark->level == 0) chapter = added;
    }
  return destinations;
}

void add_jumps(const Context& cr, const Scene& page, const Destinations& destinations) {
  for (const Item& item : page.items) {
    const auto* jump = std::get_if<Jump>(&item);
    if (jump == nullptr) continue;
    const auto found = destinations.find(jump->to);
    SW_CHECK(found != destinations.end(), jump->to);
    const std::string link = fmt::format("rect=[{:.1f} {:.1f} {:.1f} {:.1f}] {}", jump->min.x, jump->min.y,
                                         jump->max.x - jump->min.x, jump->max.y - jump->min.y, found->second);
    cairo_tag_begin(cr->cobj(), CAIRO_TAG_LINK, link.c_str());
    cairo_tag_end(cr->cobj(), CAIRO_TAG_LINK);
  }
}

}  // namespace

std::string pdf_bytes(std::span<const Scene> pages, const PdfInfo& info) {
  SW_CHECK(!pages.empty());
  std::string bytes;
  auto surface = Cairo::PdfSurface::create_for_stream(append_to(bytes), pages[0].width, pages[0].height);

  // cairomm has no call for these
  const auto set = [&](cairo_pdf_metadata_t key, const std::string& value) {
    cairo_pdf_surface_set_metadata(surface->cobj(), key, value.c_str());
  };
  set(CAIRO_PDF_METADATA_TITLE, info.title);
  set(CAIRO_PDF_METADATA_SUBJECT, info.subject);
  set(CAIRO_PDF_METADATA_CREATOR, "Shimwright");
  set(CAIRO_PDF_METADATA_CREATE_DATE, (info.date.empty() ? "2000-01-01" : info.date) + "T00:00:00Z");

  const Destinations destinations = add_outline(surface->cobj(), pages);
  const auto cr = Cairo::Context::create(surface);
  for (const Scene& page : pages) {
    surface->set_size(page.width, page.height);
    paint(cr, page);
    add_jumps(cr, page, destinations);
    cr->show_page();
  }
  surface->finish();
  return bytes;
}

std::string png_bytes(const Scene& scene, double dpi) {
  SW_CHECK(dpi > 0, dpi);
  const double scale = dpi / 72.0;
  auto surface =
      Cairo::ImageSurface::create(Cairo::Surface::Format::RGB24, int(std::ceil(scene.width * scale)),
                                  int(std::ceil(scene.height * scale)));
  const auto cr = Cairo::Context::create(surface);
  cr->set_source_rgb(1, 1, 1);
  cr->paint();
  cr->scale(scale, scale);
  paint(cr, scene);
  std::string bytes;
  surface->write_to_png_stream(append_to(bytes));
  return bytes;
}

}  // namespace shimwright::report
