#include "server/records/record_matter.hpp"

#include <deque>

namespace brakewright::server {
namespace {

constexpr std::int64_t kMostOfVehicle = 20;

std::vector<shop::Job> others_of_vehicle(shop::Shop& shop, const shop::Uuid& job_id) {
  std::vector<shop::Job> others;
  for (const shop::JobLine& line : shop.jobs({.vehicle_of = job_id, .limit = kMostOfVehicle}).lines) {
    if (line.job.id != job_id) others.push_back(line.job);
  }
  return others;
}

RecordMatter gathered(shop::Shop& shop, const shop::Uuid& job_id, const Printing& printing) {
  RecordMatter matter{.file = shop.job_file(job_id),
                      .assessment = shop.assessment(job_id),
                      .people = shop.people(),
                      .instruments = shop.instruments(),
                      .lathes = shop.lathes(),
                      .zero_checks = shop.zero_checks(std::nullopt),
                      .pieces = shop.pieces(),
                      .inserts = shop.inserts(),
                      .taper_plates = shop.taper_plates(),
                      .beside = others_of_vehicle(shop, job_id),
                      .settings = shop.settings(),
                      .job_url = {},
                      .printed_at = printing.printed_at,
                      .seal_entry = printing.seal_entry ? printing.seal_entry(job_id) : shop.seal_head(job_id),
                      .newest_entry = printing.newest_entry ? *printing.newest_entry : shop.journal_head()};
  if (!printing.address.empty()) {
    matter.job_url = printing.address + "/jobs/" + std::to_string(matter.file.job.number);
  }
  return matter;
}

}  // namespace

report::RecordInput RecordMatter::input() const {
  return {.file = file,
          .assessment = assessment,
          .people = people,
          .instruments = instruments,
          .lathes = lathes,
          .zero_checks = zero_checks,
          .settings = settings,
          .job_url = job_url,
          .printed_at = printed_at,
          .local_clock = std::nullopt,
          .pieces = pieces,
          .inserts = inserts,
          .taper_plates = taper_plates,
          .beside = beside,
          .seal_entry = seal_entry,
          .newest_entry = newest_entry};
}

RecordMatter record_matter(shop::Shop& shop, const shop::Uuid& job_id, const Printing& printing) {
  shop.assessment(job_id);  // worked out while others may still come in
  std::optional<RecordMatter> matter;
  shop.undisturbed([&] { matter = gathered(shop, job_id, printing); });
  return std::move(*matter);
}

std::string record_file(shop::Shop& shop, const shop::Uuid& job_id, bool vehicle, std::optional<shop::Paper> paper,
                        const Printing& printing) {
  if (!vehicle) {
    const RecordMatter matter = record_matter(shop, job_id, printing);
    return report::record_pdf(matter.input(), paper.value_or(matter.settings.paper));
  }
  shop.assessment(job_id);
  for (const shop::Job& other : others_of_vehicle(shop, job_id)) shop.assessment(other.id);
  std::deque<RecordMatter> matters;
  shop.undisturbed([&] {
    matters.push_back(gathered(shop, job_id, printing));
    for (const shop::Job& other : matters.front().beside) matters.push_back(gathered(shop, other.id, printing));
  });
  std::vector<report::RecordInput> inputs;
  for (const RecordMatter& matter : matters) inputs.push_back(matter.input());
  return report::vehicle_pdf(inputs, paper.value_or(matters.front().settings.paper));
}

}  // namespace brakewright::server
