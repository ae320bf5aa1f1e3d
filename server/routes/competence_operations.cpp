#include <nlohmann/json.hpp>

#include "report/school/evidence.hpp"
#include "server/routes/operations.hpp"
#include "server/routes/put_operation.hpp"
#include "shop/words.hpp"

/// Competences, the evidence for them, and the sheets of students and classes.
namespace brakewright::server {
namespace {

/// All that a sheet speaks of, held while it is made.
struct SheetMatter {
  explicit SheetMatter(Surroundings& around)
      : settings(around.shop.settings()),
        people(around.shop.people()),
        competences(around.school->competences()),
        evidence(around.school->evidence()),
        permits(around.school->permits()),
        studies(around.school->studies()),
        printed_at(around.now()) {
    for (const shop::Evidence& one : evidence) {
      if (one.job_id) job_numbers.emplace(*one.job_id, around.shop.job_file(*one.job_id).job.number);
    }
  }

  report::EvidenceMatter matter() const {
    return {settings, people, competences, evidence, permits, job_numbers, studies, printed_at};
  }

  shop::Settings settings;
  std::vector<shop::Person> people;
  std::vector<shop::Competence> competences;
  std::vector<shop::Evidence> evidence;
  std::vector<shop::PermitState> permits;
  std::vector<shop::StudyFile> studies;
  shop::UtcTime printed_at;
  std::map<shop::Uuid, std::int64_t> job_numbers;
};

http::Response as_pdf(const Call& call, const report::ListDocument& document, shop::Paper usual) {
  const auto wanted = call.text("paper");
  http::Response response;
  response.content_type = "application/pdf";
  response.body = report::list_pdf(document, wanted ? shop::parse_word<shop::Paper>(*wanted) : usual);
  response.headers.emplace_back("Content-Disposition", "inline; filename=\"brakewright-evidence.pdf\"");
  return response;
}

http::Response as_xlsx(const report::ListDocument& document) {
  http::Response response;
  response.content_type = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
  response.body = report::list_xlsx(document);
  response.headers.emplace_back("Content-Disposition", "attachment; filename=\"brakewright-evidence.xlsx\"");
  return response;
}

report::ListDocument sheet_of_person(const Call& call, const SheetMatter& all) {
  const auto person_id = call.id("person_id");
  try {
    return report::student_sheet(all.matter(), person_id);
  } catch (const InputError& unknown) {
    throw shop::RuleError(unknown.code(), unknown.field(), unknown.what());
  }
}

void add_sheet_operations(Operations& operations, Surroundings& around) {
  operations["student_sheet_pdf"] = [&](const Call& call) {
    const SheetMatter all(around);
    return as_pdf(call, sheet_of_person(call, all), all.settings.paper);
  };
  operations["student_sheet_xlsx"] = [&](const Call& call) {
    return as_xlsx(sheet_of_person(call, SheetMatter(around)));
  };
  operations["class_sheet_pdf"] = [&](const Call& call) {
    const auto file = around.school->school_class(call.id("class_id"));
    const SheetMatter all(around);
    return as_pdf(call, report::class_sheet(all.matter(), file), all.settings.paper);
  };
  operations["class_sheet_xlsx"] = [&](const Call& call) {
    const auto file = around.school->school_class(call.id("class_id"));
    const SheetMatter all(around);
    return as_xlsx(report::class_sheet(all.matter(), file));
  };
}

}  // namespace

void add_competence_operations(Operations& operations, Surroundings& around) {
  operations["competences"] = [&](const Call&) { return json_answer(list_of(around.school->competences())); };
  operations["put_competence"] = put_operation<shop::Competence>(
      "competence_id",
      [&](const shop::Competence& wanted, const shop::Uuid& by) { return around.school->put_competence(wanted, by); });
  operations["evidence"] = [&](const Call& call) {
    const auto person_id = call.optional_id("person_id");
    return json_answer(list_of(person_id ? around.school->evidence_of(*person_id) : around.school->evidence()));
  };
  operations["add_evidence"] = [&](const Call& call) {
    const auto wanted = shop::from_json<shop::Evidence>(call.body());
    return json_answer(shop::to_json(around.school->add_evidence(wanted, call.by())));
  };
  operations["withdraw_evidence"] = [&](const Call& call) {
    return json_answer(shop::to_json(around.school->withdraw_evidence(call.id("evidence_id"), call.by())));
  };
  operations["put_starter_lists"] = [&](const Call& call) {
    around.school->put_starter_lists(call.by());
    return json_answer(list_of(around.school->competences()));
  };
  add_sheet_operations(operations, around);
}

}  // namespace brakewright::server
