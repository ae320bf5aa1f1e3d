#include <cairo-pdf.h>
#include <cairo.h>

#include <memory>
#include <stdexcept>

#include "report/canvas/canvas.hpp"
#include "report/frame/frame.hpp"
#include "report/lists/lists.hpp"
#include "shop/times.hpp"

namespace brakewright::report {
namespace {

constexpr double kPointsPerMm = 72 / 25.4;
constexpr double kEdgeMm = 14;
constexpr double kFootMm = 12;
constexpr double kBetweenMm = 5;
constexpr TableLook kLook{.size_pt = 7.4, .row_mm = 4.6};

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

struct FreeSurface {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct FreeContext {
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};

void check(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) {
    throw std::runtime_error(std::string("the list could not be drawn: ") + cairo_status_to_string(status));
  }
}

/// Sheets one after another, each with its head and foot.
class Sheets {
 public:
  Sheets(cairo_t* cairo, const ListDocument& document, SheetSize size)
      : cairo_(cairo), canvas_(cairo), document_(document), size_(size) {
    begin();
  }

  void draw(const ListTable& wanted) {
    Table rest = wanted.table;
    std::string heading = wanted.heading;
    while (true) {
      const double left = free_.height_mm - heading_mm_;
      std::size_t fits = rows_that_fit(rest, left);
      if (fits == 0 && !is_fresh_ && !rest.rows.empty()) {
        next();
        continue;
      }
      fits = std::max<std::size_t>(fits, 1);
      Table here = rest;
      if (here.rows.size() > fits) here.rows.resize(fits);
      const Box body = draw_heading(canvas_, free_, heading, wanted.aside);
      const double used = draw_table(canvas_, body, here, kLook) + (body.y_mm - free_.y_mm) + kBetweenMm;
      is_fresh_ = false;
      free_.y_mm += used;
      free_.height_mm -= used;
      if (rest.rows.size() <= fits) return;
      rest.rows.erase(rest.rows.begin(), rest.rows.begin() + static_cast<std::ptrdiff_t>(fits));
      heading = wanted.heading + ", continued";
      next();
    }
  }

  void finish() {
    foot();
    cairo_show_page(cairo_);
    check(cairo_status(cairo_));
  }

 private:
  void next() {
    finish();
    ++number_;
    begin();
  }

  void begin() {
    const double width = size_.width_mm - 2 * kEdgeMm;
    double y = kEdgeMm + 6;
    canvas_.text({kEdgeMm, y}, width * 0.7, document_.subject, {.size_pt = 15, .bold = true});
    canvas_.text({kEdgeMm + width * 0.5, y}, width * 0.5, document_.title, {.size_pt = 9, .align = Align::right});
    y += 5;
    std::string stamps = document_.shop_name;
    for (const auto& stamp : document_.stamps) stamps += (stamps.empty() ? "" : ", ") + stamp;
    canvas_.text({kEdgeMm + width * 0.5, y}, width * 0.5, stamps, {.size_pt = 7.5, .align = Align::right});
    for (const std::string& line : document_.lines) {
      canvas_.text({kEdgeMm, y}, width * 0.6, line, {.size_pt = 7.5});
      y += 4;
    }
    y += 2;
    free_ = {kEdgeMm, y, width, size_.height_mm - y - kFootMm - kEdgeMm / 2};
    is_fresh_ = true;
  }

  void foot() {
    const double y = size_.height_mm - kEdgeMm;
    const double width = size_.width_mm - 2 * kEdgeMm;
    canvas_.line({kEdgeMm, y - 4}, {kEdgeMm + width, y - 4}, kThin, kInk);
    canvas_.text({kEdgeMm, y}, width * 0.7, "Printed " + shop::to_text(document_.made_at) + " from the shop's record",
                 {.size_pt = 6.4});
    canvas_.text({kEdgeMm + width * 0.5, y}, width * 0.5, "sheet " + std::to_string(number_),
                 {.size_pt = 6.4, .align = Align::right});
  }

  std::size_t rows_that_fit(const Table& table, double height_mm) {
    Table some = table;
    std::size_t low = 0, high = table.rows.size();
    while (low < high) {
      const std::size_t middle = (low + high + 1) / 2;
      some.rows.assign(table.rows.begin(), table.rows.begin() + static_cast<std::ptrdiff_t>(middle));
      if (table_height(canvas_, free_.width_mm, some, kLook) <= height_mm) {
        low = middle;
      } else {
        high = middle - 1;
      }
    }
    return low;
  }

  cairo_t* cairo_;
  Canvas canvas_;
  const ListDocument& document_;
  SheetSize size_;
  Box free_ = {};
  double heading_mm_ = 7;
  int number_ = 1;
  bool is_fresh_ = true;
};

std::string pdf_time(shop::UtcTime time) { return shop::to_text(time).substr(0, 19) + "Z"; }

void describe(cairo_surface_t* pdf, const ListDocument& document) {
  const auto set = [&](cairo_pdf_metadata_t what, const std::string& text) {
    cairo_pdf_surface_set_metadata(pdf, what, drawable(text, 300).c_str());
  };
  set(CAIRO_PDF_METADATA_TITLE, document.title + ", " + document.subject);
  set(CAIRO_PDF_METADATA_AUTHOR, document.shop_name);
  set(CAIRO_PDF_METADATA_CREATOR, "Brakewright");
  set(CAIRO_PDF_METADATA_CREATE_DATE, pdf_time(document.made_at));
}

}  // namespace

std::string list_pdf(const ListDocument& document, shop::Paper paper) {
  const SheetSize size = size_of(paper);
  std::string bytes;
  const std::unique_ptr<cairo_surface_t, FreeSurface> surface(
      cairo_pdf_surface_create_for_stream(append, &bytes, size.width_mm * kPointsPerMm, size.height_mm * kPointsPerMm));
  check(cairo_surface_status(surface.get()));
  describe(surface.get(), document);
  const std::unique_ptr<cairo_t, FreeContext> cairo(cairo_create(surface.get()));
  check(cairo_status(cairo.get()));
  {
    Sheets sheets(cairo.get(), document, size);
    for (const ListTable& table : document.tables) sheets.draw(table);
    sheets.finish();
  }
  cairo_surface_finish(surface.get());
  check(cairo_surface_status(surface.get()));
  return bytes;
}

}  // namespace brakewright::report
