#include "calc/job_input.hpp"

#include <nlohmann/json.hpp>

namespace brakewright::calc {

Micrometer read_micrometer(Reader reader) {
  const Micrometer micrometer{.resolution_mm = reader.above("resolution_mm", 0),
                              .mpe_mm = reader.at_least("mpe_mm", 0),
                              .repeatability_mm = reader.at_least("repeatability_mm", 0),
                              .zero_error_mm = reader.number_or("zero_error_mm", 0)};
  reader.done();
  return micrometer;
}

std::vector<ThicknessPoint> read_points(std::vector<Reader> readers) {
  std::vector<ThicknessPoint> points;
  for (Reader& reader : readers) {
    points.push_back({.angle_deg = reader.number("angle_deg"),
                      .radius_mm = reader.optional_number("radius_mm"),
                      .values_mm = reader.numbers("values_mm")});
    reader.done();
  }
  return points;
}

LengthLimit read_length_limit(Reader reader) {
  LengthLimit limit{.value_mm = reader.number("value_mm"), .source = reader.optional_text("source").value_or("")};
  reader.done();
  return limit;
}

RoughnessLimit read_roughness_limit(Reader reader) {
  RoughnessLimit limit{.value_um = reader.number("value_um"), .source = reader.optional_text("source").value_or("")};
  reader.done();
  return limit;
}

PartLimits read_limits(Reader reader) {
  const auto length = [&](std::string_view name) -> std::optional<LengthLimit> {
    const auto inner = reader.optional_object(name);
    if (!inner) return std::nullopt;
    return read_length_limit(*inner);
  };
  PartLimits limits{.nominal = length("nominal"),
                    .machine_to = length("machine_to"),
                    .discard = length("discard"),
                    .variation = length("variation"),
                    .runout = length("runout"),
                    .scoring = length("scoring"),
                    .finish = std::nullopt};
  if (auto finish = reader.optional_object("finish")) limits.finish = read_roughness_limit(*finish);
  reader.done();
  return limits;
}

std::optional<WearRate> read_wear_rate(std::optional<Reader> reader) {
  if (!reader) return std::nullopt;
  WearRate rate;
  rate.mm_per_unit = reader->above("mm_per_unit", 0);
  rate.relative_u = reader->number_or("relative_u", rate.relative_u);
  rate.unit = reader->optional_one_of("unit", {"10 000 km", "year"}).value_or(rate.unit);
  reader->done();
  return rate;
}

Complaint read_complaint(Reader& reader) {
  const auto word = reader.optional_one_of(
      "complaint", {"pulsation", "noise", "pull", "pad_change", "inspection", "practice", "other"});
  if (!word) return Complaint::other;
  if (*word == "pulsation") return Complaint::pulsation;
  if (*word == "noise") return Complaint::noise;
  if (*word == "pull") return Complaint::pull;
  if (*word == "pad_change") return Complaint::pad_change;
  if (*word == "inspection") return Complaint::inspection;
  return *word == "practice" ? Complaint::practice : Complaint::other;
}

void read_draws(Reader& reader, double& confidence, std::uint64_t& seed, std::size_t& draws) {
  confidence = reader.number_or("confidence", confidence);
  seed = static_cast<std::uint64_t>(
      reader.optional_integer("seed", 0, kMostSeed).value_or(static_cast<std::int64_t>(seed)));
  draws = static_cast<std::size_t>(
      reader.optional_integer("draws", kLeastDraws, kMostDraws).value_or(static_cast<std::int64_t>(draws)));
}

}  // namespace brakewright::calc
