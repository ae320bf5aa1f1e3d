#include <deque>
#include <string>
#include <utility>
#include <vector>

#include "report/record.hpp"
#include "server/routes/operations.hpp"
#include "shop/assess.hpp"
#include "shop/words.hpp"

namespace brakewright::server {
namespace {

constexpr int kPixelsPerInch = 150;
constexpr std::int64_t kMostOfVehicle = 20;

/// A picture may style itself, and do nothing else.
constexpr const char* kPicturePolicy = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:";

/// All that a record speaks of, held while it is drawn.
struct RecordMatter {
  RecordMatter(const Call& call, Surroundings& around) : RecordMatter(call, around, job_file_of(call, around)) {}
  RecordMatter(const Call& call, Surroundings& around, shop::JobFile of)
      : file(std::move(of)),
        assessment(around.shop.assessment(file.job.id)),
        people(around.shop.people()),
        instruments(around.shop.instruments()),
        lathes(around.shop.lathes()),
        zero_checks(around.shop.zero_checks(std::nullopt)),
        pieces(around.shop.pieces()),
        inserts(around.shop.inserts()),
        taper_plates(around.shop.taper_plates()),
        settings(around.shop.settings()),
        job_url(around.address() + "/jobs/" + std::to_string(file.job.number)),
        printed_at(around.now()) {
    const auto wanted = call.text("paper");
    paper = wanted ? shop::parse_word<shop::Paper>(*wanted) : settings.paper;
    sheet = static_cast<int>(call.number("sheet").value_or(1));
    for (const shop::JobLine& line : around.shop.jobs({.vehicle_of = file.job.id, .limit = kMostOfVehicle}).lines) {
      if (line.job.id != file.job.id) beside.push_back(line.job);
    }
  }

  report::RecordInput input() const {
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
            .beside = beside};
  }

  shop::JobFile file;
  shop::Assessment assessment;
  std::vector<shop::Person> people;
  std::vector<shop::Instrument> instruments;
  std::vector<shop::Lathe> lathes;
  std::vector<shop::ZeroCheck> zero_checks;
  std::vector<shop::Piece> pieces;
  std::vector<shop::Insert> inserts;
  std::vector<shop::TaperPlate> taper_plates;
  std::vector<shop::Job> beside;
  shop::Settings settings;
  std::string job_url;
  shop::UtcTime printed_at;
  shop::Paper paper;
  int sheet;
};

/// The record of the job, or of all jobs of its vehicle.
std::string pdf_of(const Call& call, Surroundings& around, const RecordMatter& matter) {
  if (!call.flag("vehicle")) return report::record_pdf(matter.input(), matter.paper);
  std::deque<RecordMatter> others;
  std::vector<report::RecordInput> inputs{matter.input()};
  for (const shop::Job& job : matter.beside) {
    others.emplace_back(call, around, around.shop.job_file(job.id));
    inputs.push_back(others.back().input());
  }
  return report::vehicle_pdf(inputs, matter.paper);
}

http::Response document(const RecordMatter& matter, const char* type, const char* ending, std::string bytes) {
  http::Response response;
  response.content_type = type;
  response.body = std::move(bytes);
  response.content_policy = kPicturePolicy;
  const std::string name = "brakewright-job-" + std::to_string(matter.file.job.number) + ending;
  response.headers.emplace_back("Content-Disposition", "inline; filename=\"" + name + "\"");
  return response;
}

}  // namespace

void add_record_operations(Operations& operations, Surroundings& around) {
  operations["record_pdf"] = [&](const Call& call) {
    const RecordMatter matter(call, around);
    return document(matter, "application/pdf", ".pdf", pdf_of(call, around, matter));
  };
  operations["record_svg"] = [&](const Call& call) {
    const RecordMatter matter(call, around);
    return document(matter, "image/svg+xml", ".svg", report::record_svg(matter.input(), matter.paper, matter.sheet));
  };
  operations["record_png"] = [&](const Call& call) {
    const RecordMatter matter(call, around);
    return document(matter, "image/png", ".png",
                    report::record_png(matter.input(), matter.paper, matter.sheet, kPixelsPerInch));
  };
}

}  // namespace brakewright::server
