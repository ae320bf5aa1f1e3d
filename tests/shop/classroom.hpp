#pragma once

#include <gtest/gtest.h>

#include <cmath>
#include <memory>
#include <numbers>

#include "core/uncertainty/random.hpp"
#include "shop/shop.hpp"
#include "store/open.hpp"

namespace brakewright::shop {

/// A small shop in memory with one person, one micrometer, one lathe, and a clock that only moves when told.
class Classroom : public testing::Test {
 protected:
  Classroom() {
    teacher = shop.put_person({.id = id(), .name = "Ines Marrow", .role = Role::teacher}, last_id).id;
    Instrument instrument{.id = id(), .name = "Micrometer 1"};
    instrument.resolution = {1'000};
    instrument.mpe = {3'000};
    instrument.repeatability = {1'000};
    micrometer = shop.put_instrument(instrument, teacher).id;
    lathe = shop.put_lathe({.id = id(), .name = "Lathe 1"}, teacher).id;
  }

  static TypedLength mm(const std::string& text) { return parse_length(text, Unit::mm).typed; }
  static Limit limit(const std::string& text) { return {mm(text), LimitSource::cast_on_part, ""}; }

  Uuid id() { return last_id = shop.new_id(); }

  /// A job with a left part, or a pair; 22 mm nominal, 20.4 machine-to, 20 discard.
  JobFile open(std::size_t parts = 1) {
    Job job{.id = id(), .brought_by = "Staff car pool", .vehicle = "blue estate, 2.0 diesel"};
    job.lathe_id = lathe;
    std::vector<Part> list(parts);
    for (std::size_t k = 0; k < parts; ++k) {
      list[k].id = id();
      list[k].side = k == 0 ? Side::left : Side::right;
      list[k].limits.nominal = limit("22");
      list[k].limits.machine_to = limit("20.4");
      list[k].limits.discard = limit("20");
      list[k].limits.variation = limit("0.015");
    }
    return shop.open_job(job, list, teacher);
  }

  NewReading figure(const JobFile& file, std::int64_t point, const std::string& text, Stage stage = Stage::before) {
    clock += std::chrono::seconds(5);
    return {.id = id(),
            .part_id = file.parts.at(0).id,
            .stage = stage,
            .point = point,
            .text = text,
            .instrument_id = micrometer};
  }

  Reading add(const JobFile& file, const NewReading& reading) {
    return shop.add_reading(file.job.id, reading, teacher);
  }

  /// Codes of the doubts about a reading; empty when it was taken.
  std::vector<std::string> doubted(const JobFile& file, const NewReading& reading) {
    std::vector<std::string> codes;
    try {
      add(file, reading);
    } catch (const DoubtfulReading& refusal) {
      for (const Doubt& doubt : refusal.doubts()) codes.push_back(doubt.code);
    }
    return codes;
  }

  /// Eight points round every part: `mean` plus one wave of so much peak to valley.
  void measure(const JobFile& file, double mean_mm, double variation_mm, Stage stage = Stage::before) {
    for (const Part& part : file.parts) {
      for (std::int64_t point = 0; point < 8; ++point) {
        const double wave = variation_mm / 2 * std::cos(static_cast<double>(point) * std::numbers::pi / 4);
        NewReading reading =
            figure(file, point, format_number({std::llround((mean_mm + wave) * 1e3) * 1000}, Unit::mm, 1000), stage);
        reading.part_id = part.id;
        reading.confirmed = true;
        add(file, reading);
      }
    }
  }

  void look_over(const JobFile& file) {
    for (const Part& part : file.parts) {
      shop.add_finding({.id = id(), .job_id = file.job.id, .part_id = part.id, .note = ""}, teacher);
    }
  }

  /// Code of the refusal of `work`, or "done".
  template <class F>
  std::string refusal(F&& work) {
    try {
      work();
    } catch (const InputError& error) {
      return error.code();
    }
    return "done";
  }

  UtcTime clock = UtcTime(std::chrono::sys_days(std::chrono::year(2026) / 3 / 4)) + std::chrono::hours(9);
  std::unique_ptr<Store> store = store::open_in_memory();
  Random dice{1};
  Shop shop{*store,
            {.now = [this] { return clock; },
             .random =
                 [this](std::span<std::uint8_t> bytes) {
                   for (auto& byte : bytes) byte = static_cast<std::uint8_t>(dice.below(256));
                 },
             .verdict_json =
                 [](const Assessment& made) {
                   return R"({"p":)" + std::to_string(made.verdict ? made.verdict->p : made.drums->p) + "}";
                 }}};
  Uuid last_id;
  Uuid teacher;
  Uuid micrometer;
  Uuid lathe;
};

}  // namespace brakewright::shop
