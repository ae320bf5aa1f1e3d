#include "report/school/evidence.hpp"

#include <algorithm>

#include "core/input_error.hpp"
#include "shop/find.hpp"
#include "shop/times.hpp"

namespace brakewright::report {
namespace {

std::string day_of(shop::UtcTime time) { return shop::to_text(time).substr(0, 10); }

const char* words_for(shop::EvidenceLevel level) {
  switch (level) {
    case shop::EvidenceLevel::seen:
      return "seen";
    case shop::EvidenceLevel::with_help:
      return "with help";
    case shop::EvidenceLevel::alone:
      return "alone";
    case shop::EvidenceLevel::signed_off:
      break;
  }
  return "signed";
}

std::string name_of(const EvidenceMatter& matter, const std::optional<shop::Uuid>& id) {
  const shop::Person* person = id ? shop::find(matter.people, *id) : nullptr;
  return person == nullptr ? "" : person->name;
}

/// "job 41", "study First week", with the note behind it.
std::string basis_of(const EvidenceMatter& matter, const shop::Evidence& one) {
  std::string text;
  const auto add = [&](const std::string& words) { text += (text.empty() ? "" : "; ") + words; };
  if (one.job_id) {
    const auto number = matter.job_numbers.find(*one.job_id);
    add(number == matter.job_numbers.end() ? "a job" : "job " + std::to_string(number->second));
  }
  if (one.study_id) {
    for (const auto& file : matter.studies) {
      if (file.study.id == *one.study_id) add("study " + file.study.name);
    }
  }
  if (!one.note.empty()) add(one.note);
  return text;
}

std::string permit_line(const EvidenceMatter& matter, const shop::Uuid& person_id) {
  for (const shop::PermitState& state : matter.permits) {
    if (state.person_id != person_id) continue;
    if (state.leads) return "Leads; needs no permit for the lathe";
    if (state.stands) return "Permit for the lathe to " + shop::to_text(state.permit->lapses_on);
    return "No permit for the lathe stands";
  }
  return "";
}

ListDocument begun(const EvidenceMatter& matter) {
  ListDocument document{.title = "What was shown", .shop_name = matter.settings.shop_name};
  if (matter.settings.demo) document.stamps.emplace_back("demo data, invented");
  document.made_at = matter.printed_at;
  return document;
}

std::vector<const shop::Evidence*> of_competence(const EvidenceMatter& matter, const shop::Uuid& person_id,
                                                 const shop::Uuid& competence_id) {
  std::vector<const shop::Evidence*> found;
  for (const shop::Evidence& one : matter.evidence) {
    if (one.person_id == person_id && one.competence_id == competence_id && !one.withdrawn_at) found.push_back(&one);
  }
  return found;
}

}  // namespace

ListDocument student_sheet(const EvidenceMatter& matter, const shop::Uuid& person_id) {
  const shop::Person* person = shop::find(matter.people, person_id);
  if (person == nullptr) throw InputError("unknown_person", "person_id", "nobody in this shop has this id");
  ListDocument document = begun(matter);
  document.subject = person->name;
  document.lines = {permit_line(matter, person_id)};
  ListTable reached{.heading = "Competences", .aside = "highest level, and who signed for it"};
  reached.table.columns = {{.head = "Competence", .share = 3, .lines = 2},
                           {.head = "Level", .share = 1},
                           {.head = "Day", .share = 1},
                           {.head = "Signed by", .share = 1.6}};
  reached.table.none = "The school has no list of competences yet.";
  ListTable all{.heading = "Evidence", .aside = "oldest first"};
  all.table.columns = {{.head = "Day", .share = 1},
                       {.head = "Competence", .share = 2.4, .lines = 2},
                       {.head = "Level", .share = 1},
                       {.head = "Where it was shown", .share = 3, .lines = 3}};
  all.table.none = "Nothing is on record yet.";
  for (const shop::Competence& competence : matter.competences) {
    const auto shown = of_competence(matter, person_id, competence.id);
    if (!competence.active && shown.empty()) continue;
    const shop::Evidence* best = nullptr;
    for (const shop::Evidence* one : shown) {
      if (best == nullptr || one->level >= best->level) best = one;
    }
    reached.table.rows.push_back({competence.name, best == nullptr ? "" : words_for(best->level),
                                  best == nullptr ? "" : day_of(best->at),
                                  best == nullptr ? "" : name_of(matter, best->signed_by_person_id)});
  }
  for (const shop::Evidence& one : matter.evidence) {
    if (one.person_id != person_id || one.withdrawn_at) continue;
    const shop::Competence* competence = shop::find(matter.competences, one.competence_id);
    all.table.rows.push_back(
        {day_of(one.at), competence == nullptr ? "" : competence->name, words_for(one.level), basis_of(matter, one)});
  }
  document.tables = {std::move(reached), std::move(all)};
  return document;
}

ListDocument class_sheet(const EvidenceMatter& matter, const shop::ClassFile& file) {
  ListDocument document = begun(matter);
  document.subject = file.school_class.name;
  document.lines = {file.school_class.term, "Levels: seen, with help, alone, signed"};
  ListTable people{.heading = "Class", .aside = "competences by their number"};
  people.table.columns.push_back({.head = "Name", .share = 3, .lines = 2});
  ListTable numbers{.heading = "Competences"};
  numbers.table.columns = {
      {.head = "No.", .share = 0.4}, {.head = "Competence", .share = 2}, {.head = "Done well", .share = 5, .lines = 3}};
  numbers.table.none = "The school has no list of competences yet.";
  std::vector<const shop::Competence*> asked;
  for (const shop::Competence& competence : matter.competences) {
    if (!competence.active) continue;
    asked.push_back(&competence);
    const std::string number = std::to_string(asked.size());
    people.table.columns.push_back({.head = number, .share = 1, .lines = 2});
    numbers.table.rows.push_back({number, competence.name, competence.words});
  }
  people.table.columns.push_back({.head = "Permit to", .share = 1.6});
  people.table.none = "Nobody is in this class.";
  for (const shop::Membership& membership : file.memberships) {
    const shop::Person* person = shop::find(matter.people, membership.person_id);
    if (membership.until || person == nullptr) continue;
    std::vector<std::string> row{person->name};
    for (const shop::Competence* competence : asked) {
      const auto level = shop::level_reached(matter.evidence, person->id, competence->id);
      row.emplace_back(level ? words_for(*level) : "");
    }
    std::string lapses;
    for (const shop::PermitState& state : matter.permits) {
      if (state.person_id == person->id && state.stands && state.permit)
        lapses = shop::to_text(state.permit->lapses_on);
    }
    row.push_back(std::move(lapses));
    people.table.rows.push_back(std::move(row));
  }
  std::sort(people.table.rows.begin(), people.table.rows.end());
  document.tables = {std::move(people), std::move(numbers)};
  return document;
}

}  // namespace brakewright::report
