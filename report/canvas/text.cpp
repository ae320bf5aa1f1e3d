#include <glib.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>

#include "report/canvas/canvas.hpp"

namespace brakewright::report {

namespace {

constexpr double kMmPerPoint = 25.4 / 72;

struct FreeObject {
  void operator()(void* object) const { g_object_unref(object); }
};
using LayoutHandle = std::unique_ptr<PangoLayout, FreeObject>;

bool is_break_or_control(gunichar c) {
  return c < 0x20 || (c >= 0x7f && c < 0xa0) || c == 0x2028 || c == 0x2029 || c == 0xfeff ||
         (c >= 0x202a && c <= 0x202e) || (c >= 0x2066 && c <= 0x2069);
}

}  // namespace

std::string drawable(std::string_view text, std::size_t max_bytes) {
  const bool cut = text.size() > max_bytes;
  if (cut) {
    std::size_t end = max_bytes;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
    text = text.substr(0, end);
  }
  gchar* valid = g_utf8_make_valid(text.data(), static_cast<gssize>(text.size()));
  std::string clean;
  for (const gchar* at = valid; *at != '\0'; at = g_utf8_next_char(at)) {
    if (is_break_or_control(g_utf8_get_char(at))) {
      clean += ' ';
    } else {
      clean.append(at, static_cast<std::size_t>(g_utf8_next_char(at) - at));
    }
  }
  g_free(valid);
  if (cut) clean += "…";
  return clean;
}

struct Canvas::Letters {
  std::unique_ptr<PangoContext, FreeObject> context;

  LayoutHandle layout(std::string_view utf8, const Type& type, double width_mm, int max_lines) const {
    LayoutHandle handle(pango_layout_new(context.get()));
    PangoLayout* layout = handle.get();
    PangoFontDescription* font = pango_font_description_new();
    pango_font_description_set_family(
        font, type.mono ? "B612 Mono,DejaVu Sans Mono,monospace" : "B612,DejaVu Sans,sans-serif");
    pango_font_description_set_weight(font, type.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_style(font, type.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
    pango_font_description_set_absolute_size(font, type.size_pt * kMmPerPoint * PANGO_SCALE);
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);

    const std::string clean = drawable(utf8);
    pango_layout_set_text(layout, clean.data(), static_cast<int>(clean.size()));
    const PangoLayoutLine* first = pango_layout_get_line_readonly(layout, 0);
    const bool right_to_left = first != nullptr && first->resolved_dir == PANGO_DIRECTION_RTL;
    PangoAlignment align = PANGO_ALIGN_CENTER;
    if (type.align != Align::centre) {
      align = (type.align == Align::left) != right_to_left ? PANGO_ALIGN_LEFT : PANGO_ALIGN_RIGHT;
    }
    pango_layout_set_alignment(layout, align);
    pango_layout_set_line_spacing(layout, 0.98F);
    if (width_mm > 0) {
      pango_layout_set_width(layout, std::max(1, static_cast<int>(std::lround(width_mm * PANGO_SCALE))));
      pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
      pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
      pango_layout_set_height(layout, -std::max(1, max_lines));
      if (max_lines <= 1) pango_layout_set_single_paragraph_mode(layout, TRUE);
    }
    return handle;
  }
};

Canvas::Canvas(cairo_t* cairo) : cairo_(cairo), letters_(std::make_unique<Letters>()) {
  cairo_scale(cairo_, 72 / 25.4, 72 / 25.4);
  cairo_set_line_cap(cairo_, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(cairo_, CAIRO_LINE_JOIN_MITER);
  letters_->context.reset(pango_cairo_create_context(cairo_));
  PangoContext* context = letters_->context.get();
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context, options);
  cairo_font_options_destroy(options);
  pango_cairo_context_set_resolution(context, 72);
  pango_context_set_round_glyph_positions(context, FALSE);
  pango_cairo_update_context(cairo_, context);
}

Canvas::~Canvas() = default;

double Canvas::text(Point baseline, double width_mm, std::string_view utf8, const Type& type) {
  if (utf8.empty() || width_mm <= 0) return 0;
  const LayoutHandle layout = letters_->layout(utf8, type, width_mm, 1);
  PangoRectangle logical;
  pango_layout_get_extents(layout.get(), nullptr, &logical);
  const double above = static_cast<double>(pango_layout_get_baseline(layout.get())) / PANGO_SCALE;
  cairo_set_source_rgb(cairo_, type.colour.red, type.colour.green, type.colour.blue);
  cairo_move_to(cairo_, baseline.x_mm, baseline.y_mm - above);
  pango_cairo_show_layout(cairo_, layout.get());
  cairo_new_path(cairo_);
  return static_cast<double>(logical.width) / PANGO_SCALE;
}

double Canvas::paragraph(Point upper_left, double width_mm, int max_lines, std::string_view utf8, const Type& type) {
  if (utf8.empty() || width_mm <= 0 || max_lines <= 0) return 0;
  const LayoutHandle layout = letters_->layout(utf8, type, width_mm, max_lines);
  PangoRectangle logical;
  pango_layout_get_extents(layout.get(), nullptr, &logical);
  cairo_set_source_rgb(cairo_, type.colour.red, type.colour.green, type.colour.blue);
  cairo_move_to(cairo_, upper_left.x_mm, upper_left.y_mm);
  pango_cairo_show_layout(cairo_, layout.get());
  cairo_new_path(cairo_);
  return static_cast<double>(logical.height) / PANGO_SCALE;
}

double Canvas::width_of(std::string_view utf8, const Type& type) {
  const LayoutHandle layout = letters_->layout(utf8, type, 0, 1);
  PangoRectangle logical;
  pango_layout_get_extents(layout.get(), nullptr, &logical);
  return static_cast<double>(logical.width) / PANGO_SCALE;
}

double Canvas::height_of(double width_mm, int max_lines, std::string_view utf8, const Type& type) {
  if (utf8.empty() || width_mm <= 0 || max_lines <= 0) return 0;
  const LayoutHandle layout = letters_->layout(utf8, type, width_mm, max_lines);
  PangoRectangle logical;
  pango_layout_get_extents(layout.get(), nullptr, &logical);
  return static_cast<double>(logical.height) / PANGO_SCALE;
}

}  // namespace brakewright::report
