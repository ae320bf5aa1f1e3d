#include "report/ring/ring.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace brakewright::report {

namespace {

constexpr double kInnerShare = 0.54;
constexpr double kHatchStep = 0.75;
constexpr double kNumbersMm = 4.4;  // outside the ring, for the points' numbers

struct Face {
  Point centre;
  double radius_mm = 0;
  int circles = 1;
  bool clockwise = true;

  double inner_mm() const { return radius_mm * kInnerShare; }
  double band_mm() const { return (radius_mm - inner_mm()) / circles; }
  double outer_of(int circle) const { return radius_mm - band_mm() * circle; }
  double clock(double angle_deg) const { return clockwise ? angle_deg : -angle_deg; }
  Point at(double radius, double clock_deg) const {
    const double t = clock_deg * std::numbers::pi / 180;
    return {centre.x_mm + radius * std::sin(t), centre.y_mm - radius * std::cos(t)};
  }
};

double cell_type_pt(const Face& face, int points) {
  const double arc = 2 * std::numbers::pi * (face.radius_mm + face.inner_mm()) / 2 / points;
  const double by_arc = arc / 0.95;
  const double by_band = face.band_mm() / 0.95;
  return std::min({by_arc, by_band, 7.5});
}

void draw_cells(Canvas& canvas, const Face& face, const Ring& ring) {
  const double half = 180.0 / ring.points;
  const double type_pt = cell_type_pt(face, ring.points);
  for (const RingCell& cell : ring.cells) {
    const double clock = face.clock(cell.angle_deg);
    const double outer = face.outer_of(cell.circle);
    const Canvas::Sector sector{face.centre, outer - face.band_mm(), outer, clock - half, clock + half};
    const double share = cell.deviation / ring.full_scale;
    canvas.sector(sector, diverging(share));
    if (share < -0.02) canvas.hatch(sector, kHatchStep, kHair, kPaper);
    canvas.sector_edge(sector, kThin, kPaper);
  }
  for (const RingCell& cell : ring.cells) {
    const double clock = face.clock(cell.angle_deg);
    const double outer = face.outer_of(cell.circle);
    const double share = cell.deviation / ring.full_scale;
    const bool dark = share > 0.62;  // hatched cells keep dark letters
    const bool lettered = type_pt >= 4.4 && !cell.text.empty();
    const bool both = lettered && face.band_mm() > 5;
    if (!lettered || both) {
      canvas.disc(face.at(outer - (both ? 1.1 : face.band_mm() * 0.5), clock), 0.42, dark ? kPaper : kInk);
    }
    if (lettered) {
      Point middle = face.at(outer - face.band_mm() * (both ? 0.6 : 0.5), clock);
      middle.y_mm += type_pt * 0.125;
      Type type{.size_pt = type_pt, .bold = true, .colour = dark ? kPaper : kInk, .align = Align::centre};
      canvas.text({middle.x_mm - 6, middle.y_mm}, 12, cell.text, type);
    }
  }
}

/// A black drop behind the point's number, its tip on the edge of the ring.
void draw_pointer(Canvas& canvas, const Face& face, double clock_deg, Point number) {
  canvas.disc(number, 1.85, kInk);
  canvas.polygon(
      {face.at(face.radius_mm + 0.1, clock_deg), face.at(face.radius_mm + 1.7, clock_deg + 88 / face.radius_mm),
       face.at(face.radius_mm + 1.7, clock_deg - 88 / face.radius_mm)},
      kInk);
}

void draw_points(Canvas& canvas, const Face& face, const Ring& ring) {
  const double number_pt = ring.points > 16 ? 4.6 : 5.5;
  std::optional<double> lowest_deg;
  if (ring.lowest && *ring.lowest < ring.cells.size()) lowest_deg = ring.cells[*ring.lowest].angle_deg;
  for (int k = 0; k < ring.points; ++k) {
    const double angle_deg = 360.0 * k / ring.points;
    const double clock = face.clock(angle_deg);
    const bool lowest = lowest_deg && std::abs(*lowest_deg - angle_deg) < 1e-6;
    canvas.line(face.at(face.radius_mm, clock), face.at(face.radius_mm + 0.8, clock), kThin, kRule);
    const Point number = face.at(face.radius_mm + 2.4, clock);
    if (lowest) draw_pointer(canvas, face, clock, number);
    canvas.text({number.x_mm - 3, number.y_mm + number_pt * 0.125}, 6, std::to_string(k + 1),
                {.size_pt = number_pt, .bold = lowest, .colour = lowest ? kPaper : kQuiet, .align = Align::centre});
    for (int circle = 0; circle < ring.circles; ++circle) {
      const bool read = std::any_of(ring.cells.begin(), ring.cells.end(), [&](const RingCell& cell) {
        return cell.circle == circle && std::abs(cell.angle_deg - angle_deg) < 1e-6;
      });
      if (!read) canvas.circle(face.at(face.outer_of(circle) - face.band_mm() / 2, clock), 0.5, kThin, kQuiet);
    }
  }
}

void draw_lowest(Canvas& canvas, const Face& face, const RingCell& cell, int points) {
  const double clock = face.clock(cell.angle_deg);
  const double outer = face.outer_of(cell.circle);
  const double half = 180.0 / points;
  canvas.sector_edge({face.centre, outer - face.band_mm(), outer, clock - half, clock + half}, 0.6, kInk);
}

void draw_outline(Canvas& canvas, const Face& face) {
  canvas.circle(face.centre, face.radius_mm, kBold, kInk);
  canvas.circle(face.centre, face.inner_mm(), kLine, kInk);
  const double hat = face.inner_mm() * 0.93;
  canvas.circle(face.centre, hat, kHair, kRule, {2.4, 0.7, 0.5, 0.7});
  const Point mark = face.at(face.inner_mm() - 0.2, 0);
  canvas.polygon({mark, {mark.x_mm - 1.0, mark.y_mm + 1.8}, {mark.x_mm + 1.0, mark.y_mm + 1.8}}, kInk);

  std::vector<Point> arc;
  const double radius = hat - 1.6;
  for (int deg = 16; deg <= 52; deg += 2) arc.push_back(face.at(radius, face.clock(deg)));
  canvas.polyline(arc, kThin, kQuiet);
  const double end = face.clock(52);
  const double beyond = face.clock(52 + 110 / radius);
  const Point head = face.at(radius, beyond);
  canvas.polygon({head, face.at(radius + 0.6, end), face.at(radius - 0.6, end)}, kQuiet);
}

}  // namespace

void draw_ring(Canvas& canvas, Box box, const Ring& ring) {
  canvas.text({box.x_mm, box.y_mm + 2.4}, box.width_mm, ring.title, {.size_pt = 7, .bold = true});
  const double room = std::min(box.width_mm, box.height_mm - kRingLetteringMm + 4);
  const Face face{{box.x_mm + box.width_mm / 2, box.y_mm + 3.4 + (box.height_mm - 7.4) / 2},
                  std::max(6.0, room / 2 - kNumbersMm),
                  std::max(1, ring.circles),
                  ring.clockwise};
  draw_cells(canvas, face, ring);
  draw_outline(canvas, face);
  draw_points(canvas, face, ring);
  if (ring.lowest && *ring.lowest < ring.cells.size()) {
    draw_lowest(canvas, face, ring.cells[*ring.lowest], ring.points);
  }
  const double hole = face.inner_mm() * 1.5;
  const double value_pt = std::clamp(face.radius_mm * 0.62, 7.0, 16.0);
  canvas.text({face.centre.x_mm - hole / 2, face.centre.y_mm + value_pt * 0.09}, hole, ring.centre_value,
              {.size_pt = value_pt, .bold = true, .align = Align::centre});
  canvas.paragraph({face.centre.x_mm - hole / 2, face.centre.y_mm + value_pt * 0.16}, hole, 2, ring.centre_label,
                   {.size_pt = std::clamp(face.radius_mm * 0.31, 4.8, 6.5), .colour = kQuiet, .align = Align::centre});
  canvas.text({box.x_mm, box.bottom() - 0.8}, box.width_mm, ring.caption,
              {.size_pt = 5.8, .colour = kInk, .align = Align::centre});
}

void draw_ring_legend(Canvas& canvas, Box box, const std::string& full_scale_text, const RingWords& words) {
  constexpr int kSteps = 11;
  const double bar = std::min(34.0, box.width_mm * 0.4);
  const double left = box.centre().x_mm - bar / 2;
  const double step = bar / kSteps;
  for (int k = 0; k < kSteps; ++k) {
    const double share = (k - kSteps / 2) / static_cast<double>(kSteps / 2);
    const Box cell{left + step * k, box.y_mm, step, 2.2};
    canvas.fill(cell, diverging(share));
    if (share < -0.02) canvas.hatch(cell, kHatchStep, kHair, kPaper);
  }
  canvas.rectangle({left, box.y_mm, bar, 2.2}, kHair, kInk);
  const Type type{.size_pt = 5.5, .colour = kQuiet};
  Type right = type;
  right.align = Align::right;
  canvas.text({box.x_mm, box.y_mm + 1.9}, left - box.x_mm - 1.5, words.below + "  −" + full_scale_text, right);
  canvas.text({left + bar + 1.5, box.y_mm + 1.9}, box.right() - left - bar - 1.5,
              "+" + full_scale_text + "  " + words.above, type);
  Type middle = type;
  middle.align = Align::centre;
  canvas.text({left, box.y_mm + 4.6}, bar, "mean", middle);
}

}  // namespace brakewright::report
