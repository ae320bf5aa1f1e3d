#include <chrono>
#include <memory>
#include <mutex>
#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>

#include "report/carried/carried.hpp"
#include "report/record.hpp"
#include "server/records/record_check.hpp"
#include "server/records/record_matter.hpp"
#include "server/routes/operations.hpp"
#include "shop/words.hpp"

namespace brakewright::server {
namespace {

constexpr int kPixelsPerInch = 150;

/// A picture may style itself, and do nothing else.
constexpr const char* kPicturePolicy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:";

std::optional<shop::Paper> paper_of(const Call& call) {
  const auto wanted = call.text("paper");
  return wanted ? std::optional(shop::parse_word<shop::Paper>(*wanted)) : std::nullopt;
}

int sheet_of(const Call& call) { return static_cast<int>(call.number("sheet").value_or(1)); }

Printing printing_of(Surroundings& around) { return {.printed_at = around.now(), .address = around.address()}; }

http::Response document(std::int64_t job_number, const char* type, const char* ending, std::string bytes) {
  http::Response response;
  response.content_type = type;
  response.body = std::move(bytes);
  response.content_policy = kPicturePolicy;
  const std::string name = "brakewright-job-" + std::to_string(job_number) + ending;
  response.headers.emplace_back("Content-Disposition", "inline; filename=\"" + name + "\"");
  return response;
}

Json json_of(const CheckedJob& job) {
  const auto entry = [](const std::optional<std::int64_t>& seq) { return seq ? Json(*seq) : Json(nullptr); };
  return {{"number", job.number},
          {"seal_entry", job.seal_entry},
          {"sealed_at", job.sealed_at ? Json(shop::to_text(*job.sealed_at)) : Json(nullptr)},
          {"sealed_by", job.sealed_by.empty() ? Json(nullptr) : Json(job.sealed_by)},
          {"later_entry", entry(job.later_entry)},
          {"amended_entry", entry(job.amended_entry)}};
}

Json json_of(const RecordCheck& check) {
  Json jobs = Json::array();
  for (const CheckedJob& job : check.jobs) jobs.push_back(json_of(job));
  return {{"answer", word_of_answer(check.answer)}, {"sentences", check.sentences}, {"jobs", std::move(jobs)}};
}

/// Names are for who works here; with open doors anybody can read them anyway.
bool knows_names(const Call& call, Surroundings& around) {
  if (!around.keeper->doors().closed()) return true;
  const auto asker = around.keeper->who(call.request());
  return asker && asker->person.role != shop::Role::visitor;
}

/// One at a time: to draw a record again costs about as much as to check the shop.
http::Response record_check(const Call& call, Surroundings& around, std::timed_mutex& one_at_a_time) {
  constexpr std::chrono::seconds kPatience{5};
  const std::string& pdf = call.request().body;
  if (pdf.size() > report::kMostRecordBytes) {
    throw http::Refusal(413, "too_large", "", "a record is no larger than 4 MiB; this is another file");
  }
  if (around.shop_file.empty()) throw std::logic_error("this shop is kept in no file");
  const std::unique_lock lock(one_at_a_time, kPatience);
  if (!lock) {
    throw http::Refusal(503, "busy", "", "other records are being checked; try again in a few seconds",
                        {{"Retry-After", "5"}});
  }
  return json_answer(json_of(
      check_record(pdf, around.shop_file, {.knows_names = knows_names(call, around), .address = around.address()})));
}

}  // namespace

void add_record_operations(Operations& operations, Surroundings& around) {
  operations["check_record"] = [&around, one_at_a_time = std::make_shared<std::timed_mutex>()](const Call& call) {
    return record_check(call, around, *one_at_a_time);
  };
  operations["record_pdf"] = [&](const Call& call) {
    const shop::Job job = job_file_of(call, around).job;
    return document(job.number, "application/pdf", ".pdf",
                    record_file(around.shop, job.id, call.flag("vehicle"), paper_of(call), printing_of(around)));
  };
  operations["record_svg"] = [&](const Call& call) {
    const RecordMatter matter = record_matter(around.shop, job_id_of(call, around), printing_of(around));
    const shop::Paper paper = paper_of(call).value_or(matter.settings.paper);
    return document(matter.file.job.number, "image/svg+xml", ".svg",
                    report::record_svg(matter.input(), paper, sheet_of(call)));
  };
  operations["record_png"] = [&](const Call& call) {
    const RecordMatter matter = record_matter(around.shop, job_id_of(call, around), printing_of(around));
    const shop::Paper paper = paper_of(call).value_or(matter.settings.paper);
    return document(matter.file.job.number, "image/png", ".png",
                    report::record_png(matter.input(), paper, sheet_of(call), kPixelsPerInch));
  };
}

}  // namespace brakewright::server
