#include "report/paper/paper.hpp"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <regex>
#include <stdexcept>

#include "core/input_error.hpp"
#include "report/sheet/sheet.hpp"

namespace brakewright::report {

namespace {

struct FreeSurface {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
};
struct FreeContext {
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};
using Surface = std::unique_ptr<cairo_surface_t, FreeSurface>;
using Context = std::unique_ptr<cairo_t, FreeContext>;

constexpr double kPointsPerMm = 72 / 25.4;

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
  try {
    static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
  } catch (...) {
    return CAIRO_STATUS_NO_MEMORY;
  }
}

void check(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) {
    throw std::runtime_error(std::string("the record could not be drawn: ") + cairo_status_to_string(status));
  }
}

void check_sheet(const Content& content, int sheet) {
  const int count = sheet_count(content);
  if (sheet >= 1 && sheet <= count) return;
  throw InputError("no_such_sheet", "sheet",
                   "this record has " + std::to_string(count) + (count == 1 ? " sheet" : " sheets") +
                       ": accepted here: 1" + (count == 1 ? "" : " to " + std::to_string(count)));
}

Context draw_on(const Surface& surface) {
  Context cairo(cairo_create(surface.get()));
  check(cairo_status(cairo.get()));
  return cairo;
}

Context draw_on_white(const Surface& surface) {
  Context cairo = draw_on(surface);
  cairo_set_source_rgb(cairo.get(), 1, 1, 1);
  cairo_paint(cairo.get());
  return cairo;
}

void draw_page(Context cairo, const Content& content, shop::Paper paper, int sheet) {
  {
    Canvas canvas(cairo.get());
    draw_sheet(canvas, content, paper, sheet);
  }
  cairo_show_page(cairo.get());
  check(cairo_status(cairo.get()));
}

void finish(const Surface& surface) {
  cairo_surface_finish(surface.get());
  check(cairo_surface_status(surface.get()));
}

std::string pdf_time(shop::UtcTime time) {
  const auto day = std::chrono::floor<std::chrono::days>(time);
  const std::chrono::year_month_day date(day);
  const std::chrono::hh_mm_ss clock(std::chrono::floor<std::chrono::seconds>(time - day));
  char text[32];
  std::snprintf(text, sizeof text, "%04d-%02u-%02uT%02d:%02d:%02dZ", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                static_cast<int>(clock.hours().count()), static_cast<int>(clock.minutes().count()),
                static_cast<int>(clock.seconds().count()));
  return text;
}

/// "Rotor record, job 41", or "Brake record, jobs 41 and 42".
std::string name_of(const std::vector<Content>& contents) {
  if (contents.size() == 1) return contents[0].title.record + ", job " + contents[0].title.job_number;
  std::string numbers;
  for (std::size_t k = 0; k < contents.size(); ++k) {
    numbers += (k == 0 ? "" : k + 1 == contents.size() ? " and " : ", ") + contents[k].title.job_number;
  }
  return "Brake record, jobs " + numbers;
}

bool fits_an_item(const std::string& address) {
  return std::all_of(address.begin(), address.end(), [](char c) { return c > ' ' && c < 0x7f && c != ';'; });
}

std::string carried_by(const std::vector<Content>& contents, shop::Paper paper, shop::UtcTime made_at) {
  const Content& first = contents.front();
  Carried carried{.paper = paper,
                  .printed_at = made_at,
                  .newest_entry = first.newest_entry.seq,
                  .newest_entry_sha256 = first.newest_entry.entry_sha256};
  if (fits_an_item(first.title.job_url)) carried.job_url = first.title.job_url;
  for (const Content& content : contents) carried.jobs.push_back(content.carried);
  return text_of(carried);
}

void describe(cairo_surface_t* pdf, const std::vector<Content>& contents, shop::Paper paper, shop::UtcTime made_at) {
  const auto set = [&](cairo_pdf_metadata_t what, const std::string& text) {
    cairo_pdf_surface_set_metadata(pdf, what, drawable(text, 300).c_str());
  };
  set(CAIRO_PDF_METADATA_TITLE, name_of(contents));
  if (!contents.empty()) {
    set(CAIRO_PDF_METADATA_AUTHOR, contents.front().title.shop_name);
    set(CAIRO_PDF_METADATA_SUBJECT, contents.front().title.vehicle);
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_KEYWORDS, carried_by(contents, paper, made_at).c_str());
  }
  set(CAIRO_PDF_METADATA_CREATOR, "Brakewright");
  set(CAIRO_PDF_METADATA_CREATE_DATE, pdf_time(made_at));
}

/// The drawing library numbers SVG groups by a count that runs through the whole process.
std::string without_running_numbers(const std::string& svg) {
  static const std::regex running("(id=\"|#)surface([0-9]+)");
  std::string out;
  std::vector<std::string> met;
  auto from = svg.cbegin();
  for (std::sregex_iterator hit(svg.begin(), svg.end(), running), end; hit != end; ++hit) {
    const std::string number = (*hit)[2].str();
    std::size_t place = 0;
    while (place < met.size() && met[place] != number) ++place;
    if (place == met.size()) met.push_back(number);
    out.append(from, svg.cbegin() + hit->position());
    out += (*hit)[1].str() + "surface" + std::to_string(place + 1);
    from = svg.cbegin() + hit->position() + hit->length();
  }
  out.append(from, svg.cend());
  return out;
}

}  // namespace

std::string pdf_of(const std::vector<Content>& contents, shop::Paper paper, shop::UtcTime made_at) {
  const SheetSize size = size_of(paper);
  std::string bytes;
  const Surface surface(
      cairo_pdf_surface_create_for_stream(append, &bytes, size.width_mm * kPointsPerMm, size.height_mm * kPointsPerMm));
  check(cairo_surface_status(surface.get()));
  cairo_pdf_surface_restrict_to_version(surface.get(), CAIRO_PDF_VERSION_1_5);
  describe(surface.get(), contents, paper, made_at);
  for (const Content& content : contents) {
    for (int sheet = 1; sheet <= sheet_count(content); ++sheet) {
      draw_page(draw_on(surface), content, paper, sheet);
    }
  }
  finish(surface);
  return bytes;
}

std::string svg_of(const Content& content, shop::Paper paper, int sheet) {
  check_sheet(content, sheet);
  const SheetSize size = size_of(paper);
  std::string bytes;
  const Surface surface(
      cairo_svg_surface_create_for_stream(append, &bytes, size.width_mm * kPointsPerMm, size.height_mm * kPointsPerMm));
  check(cairo_surface_status(surface.get()));
  draw_page(draw_on_white(surface), content, paper, sheet);
  finish(surface);
  return without_running_numbers(bytes);
}

std::string png_of(const Content& content, shop::Paper paper, int sheet, int dpi) {
  check_sheet(content, sheet);
  if (dpi < 36 || dpi > 600) throw InputError("out_of_range", "dpi", "accepted here: 36 to 600 pixels per inch");
  const SheetSize size = size_of(paper);
  const Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                                   static_cast<int>(std::lround(size.width_mm / 25.4 * dpi)),
                                                   static_cast<int>(std::lround(size.height_mm / 25.4 * dpi))));
  check(cairo_surface_status(surface.get()));
  Context cairo = draw_on_white(surface);
  cairo_scale(cairo.get(), dpi / 72.0, dpi / 72.0);
  draw_page(std::move(cairo), content, paper, sheet);
  std::string bytes;
  check(cairo_surface_write_to_png_stream(surface.get(), append, &bytes));
  return bytes;
}

}  // namespace brakewright::report
