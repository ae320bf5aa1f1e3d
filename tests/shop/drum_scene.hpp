#pragma once

#include "tests/shop/bench_scene.hpp"

namespace brakewright::shop {

/// The bench with a drum gauge, and jobs of drums. Limits of the utility of TM 9-2320-289: 11.15 in new, 11.21 in after
/// a cut, 11.24 in scrap (tests/outside/data/public_rotor_specs.csv, P06).
class DrumScene : public BenchScene {
 protected:
  DrumScene() {
    Instrument instrument{.id = id(), .name = "Drum gauge 1", .kind = InstrumentKind::drum_gauge};
    instrument.resolution = {10'000};
    instrument.mpe = {10'000};
    instrument.repeatability = {5'000};
    gauge = shop.put_instrument(instrument, teacher).id;
  }

  Part drum(Side side = Side::left) {
    Part part{.id = id(), .side = side, .construction = Construction::integral_hub};
    part.kind = PartKind::drum;
    part.limits.nominal = limit("283.21");
    part.limits.machine_to = limit("284.734");
    part.limits.discard = limit("285.496");
    part.limits.out_of_round = limit("0.076");
    part.band_width = mm("60");
    return part;
  }

  JobFile open_drums(std::size_t parts = 1) {
    std::vector<Part> list;
    for (std::size_t k = 0; k < parts; ++k) list.push_back(drum(k == 0 ? Side::left : Side::right));
    return open_with(list);
  }

  JobFile open_with(const std::vector<Part>& parts) {
    Job job{.id = id(), .brought_by = "Staff car pool", .vehicle = "green utility"};
    job.axle = Axle::rear;
    job.lathe_id = lathe;
    return shop.open_job(job, parts, teacher);
  }

  NewReading diameter(const JobFile& file, std::int64_t depth, std::int64_t point, const std::string& text,
                      Stage stage = Stage::before, std::size_t part = 0) {
    NewReading reading = figure(file, point, text, stage);
    reading.part_id = file.parts.at(part).id;
    reading.quantity = Quantity::diameter;
    reading.circle = depth;
    reading.instrument_id = gauge;
    return reading;
  }

  /// Four diameters at both edges of every drum: `mean`, oval by so much, and so much wider at the open edge.
  void gauge_drums(const JobFile& file, double mean_mm, double oval_mm, Stage stage = Stage::before,
                   double bell_mm = 0) {
    for (std::size_t part = 0; part < file.parts.size(); ++part) {
      for (std::int64_t depth = 0; depth < 2; ++depth) {
        for (std::int64_t point = 0; point < 4; ++point) {
          const double ends = point == 0 ? 0.5 : point == 2 ? -0.5 : 0;
          const double mm = mean_mm + ends * oval_mm + (depth == 0 ? bell_mm : 0);
          NewReading reading =
              diameter(file, depth, point, format_number({std::llround(mm * 1e3) * 1000}, Unit::mm, 1000), stage, part);
          reading.confirmed = true;
          add(file, reading);
        }
      }
    }
  }

  Uuid gauge;
};

}  // namespace brakewright::shop
