#pragma once

#include <cmath>
#include <numbers>
#include <string>

#include "report/content/content.hpp"

/// Contents to draw. All invented.
namespace brakewright::report::sample {

inline double wave(int point, int points, double phase_deg) {
  const double t = 2 * std::numbers::pi * point / points - phase_deg * std::numbers::pi / 180;
  return std::cos(t) + 0.35 * std::cos(2 * t + 1);
}

inline Ring ring(const std::string& title, int points, int circles, double amplitude_um, bool read) {
  Ring ring{.title = title, .points = points, .circles = circles, .full_scale = 15};
  if (!read) {
    ring.centre_label = "not measured";
    return ring;
  }
  double lowest = 1e9;
  for (int circle = 0; circle < circles; ++circle) {
    for (int k = 0; k < points; ++k) {
      const double um = std::round(amplitude_um * wave(k, points, 70 + 15 * circle));
      const auto whole = static_cast<int>(std::abs(um));
      ring.cells.push_back(
          {circle, 360.0 * k / points, um, um == 0 ? "0" : (um < 0 ? "−" : "+") + std::to_string(whole)});
      if (um < lowest) {
        lowest = um;
        ring.lowest = ring.cells.size() - 1;
      }
    }
  }
  ring.centre_value = amplitude_um > 4 ? "0.024" : "0.004";
  ring.centre_label = "mm variation";
  ring.caption = "lowest 21.842 mm at point 6, 225°";
  return ring;
}

inline TracePlot traces(const std::string& title, int points, int circles, double before, double after, bool faces) {
  TracePlot plot{.title = title,
                 .unit = faces ? "µm" : "µm from its mean",
                 .limit = 13,
                 .limit_text = "13 µm",
                 .when_empty = "not measured"};
  for (const bool cut : {false, true}) {
    if (cut && after <= 0) continue;
    for (int circle = 0; circle < circles; ++circle) {
      TraceLine line{.after = cut, .mark = static_cast<TraceMark>(circle), .step_deg = 360.0 / points};
      for (int k = 0; k < points; ++k) {
        line.readings.push_back({360.0 * k / points, (cut ? after : before) * wave(k, points, 70 + 15 * circle)});
      }
      plot.lines.push_back(line);
    }
  }
  if (circles > 1) {
    for (int circle = 0; circle < circles; ++circle) {
      const std::string circle_name = circle == 0 ? "outer" : circle + 1 < circles ? "middle" : "inner";
      plot.keys.push_back(
          {static_cast<TraceMark>(circle), faces ? (circle == 0 ? "outboard" : "inboard") : circle_name});
    }
  }
  return plot;
}

inline Table limits() {
  return {{{"limit", 22}, {"as typed", 17, Align::right}, {"converted", 19, Align::right}, {"source", 42}},
          {{"nominal", "24 mm", "0.9449 in", "service information"},
           {"machine-to", "0.874 in", "22.200 mm", "service information"},
           {"discard", "21.8", "0.8583 in", "cast on the part"},
           {"variation", ".0005 in", "0.0127 mm", "service information, sheet 4"},
           {"runout", "0.05 mm", "0.0020 in", "house rule"},
           {"scoring", "–", "", "unknown"},
           {"finish Ra", "1.5 µm", "59 µin", "house rule"}},
          "",
          "more"};
}

inline RotorContent rotor(const std::string& side, int points, int circles, bool cut) {
  RotorContent rotor{.title = side + " rotor", .description = "hubless, vented, outer diameter 280 mm"};
  rotor.before = ring("Before", points, circles, 11, true);
  rotor.after = ring("After the cut", points, circles, 2, cut);
  rotor.full_scale_text = "15 µm";
  rotor.thickness = traces("Thickness", points, circles, 11, cut ? 2 : 0, false);
  rotor.runout = traces("Face runout", points, 2, 20, cut ? 6 : 0, true);
  rotor.runout.limit = 50;
  rotor.runout.limit_text = "50 µm";
  rotor.scale = {.title = "Thickness, mm",
                 .marks = {{"new", "24.000", 24.0, false},
                           {"now", "22.842", 22.842, true},
                           {"machine-to", "22.200", 22.2, false},
                           {"discard", "21.800", 21.8, false}},
                 .discard_mm = 21.8,
                 .machine_to_mm = 22.2};
  if (cut) rotor.scale.marks.push_back({"after the cut", "22.571", 22.571, true});
  const std::string none = "–";
  rotor.figures = {
      {"lowest", "machine-to 22.200", "22.842", "0.8993 in, point 6", cut ? "22.571" : none,
       cut ? "0.8886 in, point 3" : "", true},
      {"mean", "", "22.853", "0.8997 in", cut ? "22.573" : none, cut ? "0.8887 in" : "", false},
      {"variation", "limit 0.0127", "0.024", "highest less lowest", cut ? "0.004" : none, "", true},
      {"probably truly", "95 % range", "0.019–0.026", "middle 0.022", cut ? "0.002–0.005" : none, "", false},
      {"p within limit", "of the variation", "<0.001", "", cut ? ">0.999" : none, "", false},
      {"runout", "limit 50 µm", "43 | 38 µm", "outboard | inboard", cut ? "12 | 10 µm" : none, "", false},
      {"scoring", "", "100 | 50 µm", "outboard | inboard", none, "", false},
      {"finish Ra", "limit 1.5 µm", none, "", cut ? "1.1 | 1.2" : none, cut ? "µm" : "", false}};
  rotor.cut_table = {
      {{"side", 12}, {"planned", 10, Align::right}, {"turned", 10, Align::right}, {"mm", 9, Align::right}},
      {{"outboard", "5", "5", "0.127"}, {"inboard", "6", "6", "0.152"}},
      "",
      "more"};
  rotor.cut_note = "Removed 0.271 mm in the mean (0.262 to 0.281), 0.008 mm less than the dials took: agrees.";
  if (!cut) {
    rotor.cut_table.rows.clear();
    rotor.cut_note = "No cut is on record.";
  }
  rotor.check = {
      cut ? "pass" : "not cut",
      cut ? std::vector<ReasonContent>{{"over machine-to: 22.571 mm, limit 22.200 mm", "p >0.999, service information"},
                                       {"variation: 0.004 mm, limit 0.0127 mm", "p 0.998, service information"},
                                       {"finish: Ra 1.2 µm, limit 1.5 µm", "p 0.97, house rule"}}
          : std::vector<ReasonContent>{}};
  rotor.limits = limits();
  const bool tight = circles > 1;
  rotor.readings.columns = {{"", 5}};
  if (!tight) rotor.readings.columns.push_back({"angle", 9, Align::right});
  for (const char* stage : {"before", "after"}) {
    for (int circle = 0; circle < circles; ++circle) {
      rotor.readings.columns.push_back(
          {circles == 1 ? std::string(stage) : std::string(stage) + " " + std::to_string(circle + 1),
           circles > 2 ? 9.0 : 12.0, Align::right});
    }
  }
  for (const char* name : {"out", "in", "out", "in"}) rotor.readings.columns.push_back({name, 6, Align::right});
  for (int k = 0; k < points; ++k) {
    std::vector<std::string> row{std::to_string(k + 1)};
    if (!tight) row.push_back(std::to_string(360 * k / points) + "°");
    for (int c = 0; c < 2 * circles; ++c) row.push_back("22.8" + std::to_string(40 + k));
    for (int c = 0; c < 4; ++c) row.push_back(std::to_string(k * 3 % 41));
    rotor.readings.rows.push_back(row);
  }
  rotor.readings_note = "thickness in mm, runout in µm before and after";
  return rotor;
}

inline Content job(int points, int circles, bool cut, int rotors) {
  Content content;
  content.title = {.shop_name = "Lindenhof Training Workshop",
                   .job_number = "1042",
                   .vehicle = "blue estate, 2016, winter wheels on",
                   .brought_by = "M. Okonkwo-Reyes",
                   .complaint = "pulsation: felt in the pedal from 90 down to 60",
                   .axle_and_sides = rotors == 2 ? "front, left and right" : "front, left",
                   .odometer = "118 400 km",
                   .worker = "Ida Sandvik",
                   .lathe = "Lathe 2",
                   .opened = "2026-03-04 09:15 UTC",
                   .sealed = "2026-03-04 11:40 UTC",
                   .printed = "2026-03-04 11:42 UTC",
                   .sealed_by = "Tomasz Brandt",
                   .seal_sha256 = "9f2c61d0a7b84e3f5c1d2e3f4a5b6c7d8e9f0a1b2c3d4e5f60718293a4b5c6d7",
                   .job_url = "http://192.168.4.20:8520/jobs/0190a1b2-0000-7000-8000-0000000003e9",
                   .stamps = {"practice", "demo data, invented"}};
  content.verdict = {.word = "Cut",
                     .p = 0.993,
                     .asked = 0.95,
                     .p_text = "0.993",
                     .reasons = {{"Left: variation 0.024 mm is over its limit of 0.0127 mm.",
                                  "p 0.999, limit from service information"},
                                 {"Left: the least cut leaves 22.563 mm, 0.363 mm over machine-to 22.200 mm.",
                                  "p 0.993, limit from service information"},
                                 {"Right goes with its partner: both parts of an axle are judged together.",
                                  "common practice, no source"}},
                     .decision = "Cut",
                     .decided_by = "Tomasz Brandt (teacher), 2026-03-04 10:02 UTC",
                     .decision_reason = ""};
  content.rotors.push_back(rotor("Left", points, circles, cut));
  if (rotors > 1) content.rotors.push_back(rotor("Right", points, circles, cut));
  content.findings = {
      {"Left: rust lip. Outer edge, 2 mm, dressed before measuring", "Ida Sandvik, 2026-03-04 09:18 UTC"},
      {"Right: nothing found", "Ida Sandvik, 2026-03-04 09:19 UTC"}};
  content.instruments = {
      {{"instrument", 32}, {"resolution", 16, Align::right}, {"calibrated", 20}, {"due", 20}, {"zero check", 26}},
      {{"Disc micrometer 3, no. 118", "0.001 mm", "2025-11-03", "2026-11-03", "+0.001 mm 09:20"},
       {"Dial indicator 7", "0.01 mm", "2025-09-12", "2026-09-12", "0.00 mm 09:31"},
       {"Roughness tester", "0.01 µm", "2025-06-20", "2026-06-20", "–"}},
      "none",
      "more, see the job"};
  content.cautions = {
      "Brake dust can hold asbestos or other fibres: wet or HEPA methods only, never an air line or a dry brush.",
      "The lathe's and the vehicle's own instructions, local rules and licensed practice come first.",
      "This sheet says what is within the limits that were entered. It calls no part safe."};
  content.measured = true;
  return content;
}

inline Content empty_job() {
  Content content = job(8, 1, false, 2);
  content.measured = false;
  content.title.sealed.clear();
  content.title.sealed_by.clear();
  content.title.seal_sha256.clear();
  content.verdict = {.word = "Not measured",
                     .next_label = "What comes next",
                     .next = "Thickness at 8 points of each rotor, and the limits that are still unknown."};
  for (RotorContent& rotor : content.rotors) {
    rotor.before = ring("Points to read", 8, 1, 0, false);
  }
  content.findings.clear();
  content.instruments.rows.clear();
  return content;
}

}  // namespace brakewright::report::sample
