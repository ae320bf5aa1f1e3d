#include "report/frame/frame.hpp"

#include "report/qr/qr.hpp"

namespace brakewright::report {

namespace {

constexpr double kFilingEdgeMm = 18;
constexpr double kEdgeMm = 10;
constexpr double kHeadMm = 7.5;
constexpr double kBlockMm = 33;
constexpr double kPaddingMm = 4;

void draw_border(Canvas& canvas, Box frame) {
  canvas.rectangle(frame, kFrame, kInk);
  const Type small{.size_pt = 4.6, .colour = kQuiet, .align = Align::centre};
  constexpr int kAcross = 4;
  constexpr int kDown = 6;
  for (int k = 0; k < kAcross; ++k) {
    const double step = frame.width_mm / kAcross;
    const double x = frame.x_mm + step * k;
    for (const double y : {frame.y_mm, frame.bottom()}) {
      const double out = y == frame.y_mm ? -2.6 : 2.6;
      if (k > 0) canvas.line({x, y}, {x, y + out}, kThin, kInk);
      canvas.text({x, y == frame.y_mm ? y - 0.9 : y + 2.3}, step, std::to_string(k + 1), small);
    }
  }
  for (int k = 0; k < kDown; ++k) {
    const double step = frame.height_mm / kDown;
    const double y = frame.y_mm + step * k;
    for (const double x : {frame.x_mm, frame.right()}) {
      const double out = x == frame.x_mm ? -2.6 : 2.6;
      if (k > 0) canvas.line({x, y}, {x + out, y}, kThin, kInk);
      canvas.text({x + (x == frame.x_mm ? -3.6 : 0.6), y + step / 2 + 0.6}, 3,
                  std::string(1, static_cast<char>('A' + k)), small);
    }
  }
}

void draw_head(Canvas& canvas, Box frame, const TitleContent& title, const SheetPlace& place) {
  const double y = frame.y_mm + 4.9;
  const double left = frame.x_mm + kPaddingMm;
  const double right = frame.right() - kPaddingMm;
  const double name = canvas.text({left, y}, 80, title.record, {.size_pt = 8, .bold = true});
  canvas.text({left + name + 2, y}, 78 - name, place.name, {.size_pt = 8, .colour = kQuiet});
  const std::string number =
      "job " + title.job_number + "   sheet " + std::to_string(place.number) + " of " + std::to_string(place.count);
  const Type quiet{.size_pt = 7, .colour = kInk, .align = Align::right};
  canvas.text({right - 50, y}, 50, number, quiet);
  double x = right - canvas.width_of(number, quiet) - 4;
  for (auto stamp = title.stamps.rbegin(); stamp != title.stamps.rend(); ++stamp) {
    const Type type{.size_pt = 6.6, .bold = true, .align = Align::centre};
    const double width = canvas.width_of(*stamp, type) + 4;
    x -= width;
    canvas.rectangle({x, frame.y_mm + 1.7, width, 4.4}, kBold, kInk);
    canvas.text({x, y - 0.1}, width, *stamp, type);
    x -= 2;
  }
  canvas.line({frame.x_mm, frame.y_mm + kHeadMm}, {frame.right(), frame.y_mm + kHeadMm}, kLine, kInk);
}

struct Cell {
  Box box = {};
  const char* label;
  const std::string& value;
  double size_pt = 7;
  bool bold = false;
};

void draw_cell(Canvas& canvas, const Cell& cell) {
  const double inner = cell.box.width_mm - 2.4;
  canvas.text({cell.box.x_mm + 1.4, cell.box.y_mm + 2.6}, inner, cell.label, {.size_pt = 5, .colour = kQuiet});
  const double y = cell.box.bottom() - (cell.box.height_mm - 2.8 - cell.size_pt * 0.26) / 2;
  canvas.text({cell.box.x_mm + 1.4, y}, inner, cell.value.empty() ? "–" : cell.value,
              {.size_pt = cell.size_pt, .bold = cell.bold});
}

void draw_row(Canvas& canvas, Box row, const std::vector<double>& shares, const std::vector<Cell>& cells) {
  double total = 0;
  for (const double share : shares) total += share;
  double x = row.x_mm;
  for (std::size_t k = 0; k < cells.size(); ++k) {
    const double width = row.width_mm * shares[k] / total;
    Cell cell = cells[k];
    cell.box = {x, row.y_mm, width, row.height_mm};
    draw_cell(canvas, cell);
    x += width;
    if (k + 1 < cells.size()) canvas.line({x, row.y_mm}, {x, row.bottom()}, kThin, kInk);
  }
}

void draw_seal(Canvas& canvas, Box row, const TitleContent& title) {
  const double y = row.bottom() - 1.2;
  canvas.text({row.x_mm + 1.4, y}, 10, "seal", {.size_pt = 5, .colour = kQuiet});
  const double room = row.width_mm - 9;
  if (title.seal_sha256.empty()) {
    canvas.text({row.x_mm + 8, y}, room, "not sealed: this job is still open", {.size_pt = 5.4});
    return;
  }
  double used = 0;
  const auto say = [&](const std::string& words, const Type& type) {
    used += canvas.text({row.x_mm + 8 + used, y}, room - used, words, type) + 1.6;
  };
  say(title.seal_sha256, {.size_pt = 4.9, .mono = true});
  if (title.seal_entry.empty()) {
    say("in no entry of this journal", {.size_pt = 5.4});
  } else {
    say("entry " + title.seal_entry, {.size_pt = 5.4});
    say(title.seal_entry_groups, {.size_pt = 5.2, .bold = true, .mono = true});
  }
  if (!title.sealed_by.empty()) say("by " + title.sealed_by, {.size_pt = 5.4});
}

void draw_block(Canvas& canvas, Box block, const TitleContent& title, const SheetPlace& place) {
  canvas.line({block.x_mm, block.y_mm}, {block.right(), block.y_mm}, kFrame, kInk);
  const double code = block.height_mm;
  const Box cells{block.x_mm, block.y_mm, block.width_mm - code, block.height_mm};
  const double row_mm = 6.9;
  Box row{cells.x_mm, cells.y_mm, cells.width_mm, 8.6};
  const std::string paper = place.paper == shop::Paper::a4 ? "A4" : "Letter";
  const std::string sheet = std::to_string(place.number) + " of " + std::to_string(place.count) + ", " + paper;
  draw_row(canvas, row, {58, 19, 23},
           {{{}, "shop", title.shop_name, 10, true}, {{}, "job", title.job_number, 13, true}, {{}, "sheet", sheet, 8}});
  const auto next = [&](double height) {
    canvas.line({cells.x_mm, row.bottom()}, {cells.right(), row.bottom()}, kThin, kInk);
    row = {cells.x_mm, row.bottom(), cells.width_mm, height};
  };
  next(row_mm);
  draw_row(canvas, row, {45, 32, 23},
           {{{}, "vehicle", title.vehicle}, {{}, "brought by", title.brought_by}, {{}, "odometer", title.odometer}});
  next(row_mm);
  draw_row(
      canvas, row, {45, 32, 23},
      {{{}, "complaint", title.complaint}, {{}, "axle and sides", title.axle_and_sides}, {{}, "lathe", title.lathe}});
  next(row_mm);
  const std::string sealed = title.sealed.empty() ? "open" : title.sealed;
  draw_row(canvas, row, {26, 24.67, 24.67, 24.67},
           {{{}, "worked on by", title.worker},
            {{}, "opened", title.opened, 6},
            {{}, "sealed", sealed, 6},
            {{}, "printed", title.printed, 6}});
  next(block.bottom() - row.bottom());
  draw_seal(canvas, row, title);
  canvas.line({cells.right(), block.y_mm}, {cells.right(), block.bottom()}, kThin, kInk);
  const double side = code - 4;
  const Point corner{cells.right() + (code - side) / 2, block.y_mm + 0.2};
  if (draw_qr(canvas, corner, side, title.job_url)) {
    canvas.link({corner.x_mm, corner.y_mm, side, side}, title.job_url);
    canvas.text({cells.right() + 1.2, block.bottom() - 3.3}, code - 2.4, "this job on the shop's network",
                {.size_pt = 4.6, .colour = kQuiet, .align = Align::centre});
    canvas.text({cells.right() + 1.2, block.bottom() - 1.2}, code - 2.4, title.job_url,
                {.size_pt = 4.4, .align = Align::centre});
  } else {
    canvas.paragraph({cells.right() + 3, block.centre().y_mm - 3}, code - 6, 3,
                     "no address: the shop was not on a network",
                     {.size_pt = 5.5, .colour = kQuiet, .align = Align::centre});
  }
}

}  // namespace

SheetSize size_of(shop::Paper paper) {
  if (paper == shop::Paper::letter) return {215.9, 279.4};
  return {210, 297};
}

Box draw_frame(Canvas& canvas, const TitleContent& title, const SheetPlace& place) {
  const SheetSize size = size_of(place.paper);
  const Box frame{kFilingEdgeMm, kEdgeMm, size.width_mm - kFilingEdgeMm - kEdgeMm, size.height_mm - 2 * kEdgeMm};
  draw_border(canvas, frame);
  draw_head(canvas, frame, title, place);
  draw_block(canvas, {frame.x_mm, frame.bottom() - kBlockMm, frame.width_mm, kBlockMm}, title, place);
  return {frame.x_mm, frame.y_mm + kHeadMm, frame.width_mm, frame.height_mm - kHeadMm - kBlockMm};
}

Box draw_heading(Canvas& canvas, Box box, const std::string& words, const std::string& aside) {
  const double used = canvas.text({box.x_mm, box.y_mm + 3.2}, box.width_mm, words, {.size_pt = 8, .bold = true});
  if (!aside.empty() && box.width_mm - used > 8) {
    canvas.text({box.x_mm + used + 2.5, box.y_mm + 3.2}, box.width_mm - used - 2.5, aside,
                {.size_pt = 6.2, .colour = kQuiet, .align = Align::right});
  }
  return {box.x_mm, box.y_mm + 4.8, box.width_mm, box.height_mm - 4.8};
}

}  // namespace brakewright::report
