#include "report/typeface.h"

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>
#include <pangomm/init.h>
#include <sys/mman.h>
#include <unistd.h>

#include <mutex>
#include <string>

#include "base/check.h"
#include "report_assets.h"

namespace shimwright::report::internal {
namespace {

/// Fontconfig takes a path only; an anonymous file in memory has one and leaves nothing on the disk.
void add_embedded_font(FcConfig* config, const char* name) {
  const auto bytes = asset(name);
  SW_CHECK(!bytes.empty(), name);
  const int fd = memfd_create(name, 0);  // stays open: the renderer maps it when the first glyph is drawn
  SW_CHECK(fd >= 0, name);
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t n = write(fd, bytes.data() + done, bytes.size() - done);
    SW_CHECK(n > 0, name, done);
    done += static_cast<std::size_t>(n);
  }
  const std::string path = "/proc/self/fd/" + std::to_string(fd);
  SW_CHECK(FcConfigAppFontAddFile(config, reinterpret_cast<const FcChar8*>(path.c_str())) == FcTrue, path);
}

/// The embedded faces come first; the machine's own fonts only fill in for characters that they lack.
PangoContext* make_context() {
  Pango::init();
  FcConfig* config = FcInitLoadConfigAndFonts();
  SW_CHECK(config != nullptr);
  add_embedded_font(config, "sans-regular.ttf");
  add_embedded_font(config, "sans-semibold.ttf");

  PangoFontMap* map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
  SW_CHECK(map != nullptr);
  pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(map), 72.0);  // one unit is one point
  pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map), config);
  PangoContext* context = pango_font_map_create_context(map);

  // glyphs sit where they do on paper, whatever the screen: no hinting, no rounding to pixels
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context, options);
  cairo_font_options_destroy(options);
  pango_context_set_round_glyph_positions(context, FALSE);
  return context;
}

}  // namespace

Glib::RefPtr<Pango::Layout> text_layout(std::string_view text, double size, Weight weight) {
  static PangoContext* const context = make_context();  // read-only after the first call
  auto layout = Glib::wrap(pango_layout_new(context));
  Pango::FontDescription font;
  font.set_family("Source Sans 3");  // not through the constructor, which reads the 3 as a size
  font.set_size(static_cast<int>(size * Pango::SCALE + 0.5));
  font.set_weight(weight == Weight::Semibold ? Pango::Weight::SEMIBOLD : Pango::Weight::NORMAL);
  layout->set_font_description(font);

  PangoAttrList* attributes = pango_attr_list_new();
  pango_attr_list_insert(attributes, pango_attr_font_features_new("tnum=1"));
  pango_layout_set_attributes(layout->gobj(), attributes);
  pango_attr_list_unref(attributes);
  layout->set_text(Glib::ustring(std::string(text)));
  return layout;
}

}  // namespace shimwright::report::internal
