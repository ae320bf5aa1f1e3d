#include <algorithm>

#include "tests/shop/school/schoolroom.hpp"

namespace brakewright::shop {
namespace {

class Classes : public Schoolroom {
 protected:
  SchoolClass autumn() { return school.put_class({.id = id(), .name = "Second year", .term = "Autumn"}, teacher); }

  std::vector<std::string> names_in(const SchoolClass& one) {
    std::vector<std::string> names;
    for (const Membership& membership : school.school_class(one.id).memberships) {
      for (const Person& person : shop.people()) {
        if (person.id == membership.person_id && !membership.until) names.push_back(person.name);
      }
    }
    return names;
  }
};

TEST_F(Classes, TakeAListOnceHoweverOftenItComes) {
  const SchoolClass one = autumn();
  const std::string csv = "Name;PIN\r\nEve Linden;2468\r\nbo fern;\r\n";
  const RosterReport trial = school.import_roster(one.id, csv, true, teacher);
  EXPECT_FALSE(trial.stored);
  EXPECT_EQ(trial.added, 1);
  EXPECT_EQ(trial.joins, 1) << "Bo Fern is here already, whatever the case of the letters";
  EXPECT_TRUE(names_in(one).empty());

  const RosterReport taken = school.import_roster(one.id, csv, false, teacher);
  EXPECT_TRUE(taken.stored);
  EXPECT_EQ(taken.lines.at(0).pin, "2468");
  EXPECT_EQ(names_in(one), (std::vector<std::string>{"Eve Linden", "Bo Fern"}));
  const auto entries = shop.last_seq();
  EXPECT_EQ(school.import_roster(one.id, csv, false, teacher).known, 2);
  EXPECT_EQ(shop.last_seq(), entries);
}

TEST_F(Classes, TakeNothingOfAListWithALineThatIsWrong) {
  const SchoolClass one = autumn();
  const RosterReport report =
      school.import_roster(one.id, "name,pin\nEve Linden,12\nEve Linden,1234\nFay Alder,\n", false, teacher);
  EXPECT_FALSE(report.stored);
  EXPECT_EQ(report.refused, 2) << "a PIN of two digits, and a name that stands twice";
  EXPECT_EQ(report.lines.at(0).field, "pin");
  EXPECT_EQ(report.lines.at(1).field, "name");
  EXPECT_TRUE(names_in(one).empty());
  EXPECT_EQ(shop.people().size(), 4U);
}

TEST_F(Classes, TakeALoneColumnOfNamesWithoutAHeading) {
  const SchoolClass one = autumn();
  EXPECT_EQ(school.import_roster(one.id, "Eve Linden\nFay Alder\n", false, teacher).added, 2);
  EXPECT_EQ(refusal([&] { school.import_roster(one.id, "a,b\nEve,Fay\n", false, teacher); }), "no_heading");
}

TEST_F(Classes, KeepWhoWasInThem) {
  const SchoolClass one = autumn();
  const Membership began = school.join_class({.id = id(), .class_id = one.id, .person_id = students[0]}, teacher);
  EXPECT_EQ(school.join_class({.id = id(), .class_id = one.id, .person_id = students[0]}, teacher), began);
  clock += std::chrono::hours(24);
  EXPECT_EQ(school.leave_class(one.id, students[0], teacher).until, clock);
  EXPECT_EQ(school.school_class(one.id).memberships.size(), 1U);
  SchoolClass archived = one;
  archived.archived = true;
  school.put_class(archived, teacher);
  EXPECT_EQ(refusal([&] { school.join_class({.id = id(), .class_id = one.id, .person_id = students[1]}, teacher); }),
            "archived");
}

TEST_F(Classes, ForgetANameOnRequestAndKeepWhatWasDone) {
  const JobFile job = open();
  const auto reading = shop.add_reading(job.job.id, figure(job, 0, "21.50"), students[0]);
  const Person former = shop.erase_person(students[0], teacher);
  EXPECT_EQ(former.name, "Former student 1");
  EXPECT_FALSE(former.active);
  EXPECT_EQ(shop.job_file(job.job.id).readings.at(0), reading);
  for (const Change& change : shop.changes(0, 1'000, std::nullopt)) {
    EXPECT_EQ(change.detail_json.find("Bo Fern"), std::string::npos) << change.kind;
  }
  EXPECT_EQ(shop.erase_person(students[1], teacher).name, "Former student 2");
  EXPECT_EQ(shop.erase_person(students[0], teacher), former) << "once";
  EXPECT_EQ(refusal([&] { shop.erase_person(teacher, teacher); }), "signs");
}

class CompetencesOf : public Classes {
 protected:
  CompetencesOf() { school.put_starter_lists(teacher); }

  Evidence shown(EvidenceLevel level, const Uuid& by) {
    clock += std::chrono::minutes(1);
    return school.add_evidence(
        {.id = id(), .competence_id = school.competences().front().id, .person_id = students[0], .level = level}, by);
  }

  std::optional<EvidenceLevel> reached() {
    return level_reached(school.evidence(), students[0], school.competences().front().id);
  }
};

TEST_F(CompetencesOf, AStudentAreSignedByWhoLeadsAlone) {
  EXPECT_EQ(reached(), std::nullopt);
  shown(EvidenceLevel::alone, students[0]);
  EXPECT_EQ(reached(), EvidenceLevel::alone);
  EXPECT_EQ(refusal([&] { shown(EvidenceLevel::signed_off, students[0]); }), "needs_teacher");
  EXPECT_EQ(refusal([&] { shown(EvidenceLevel::seen, students[1]); }), "not_yours");
  const Evidence signed_off = shown(EvidenceLevel::signed_off, teacher);
  EXPECT_EQ(signed_off.signed_by_person_id, teacher);
  EXPECT_EQ(signed_off.at, clock);
  shown(EvidenceLevel::seen, teacher);
  EXPECT_EQ(reached(), EvidenceLevel::signed_off) << "the highest";
  EXPECT_EQ(refusal([&] { school.withdraw_evidence(signed_off.id, students[0]); }), "needs_teacher");
  school.withdraw_evidence(signed_off.id, teacher);
  EXPECT_EQ(reached(), EvidenceLevel::alone);
}

TEST_F(CompetencesOf, TheStarterListAreEnteredOnceAndStayAsTheTeacherChangesThem) {
  Competence first = school.competences().front();
  first.name = "Read a disc";
  school.put_competence(first, teacher);
  const auto entries = shop.last_seq();
  school.put_starter_lists(teacher);
  EXPECT_EQ(shop.last_seq(), entries);
  EXPECT_EQ(school.competences().front().name, "Read a disc");
  EXPECT_EQ(school.competences().size(), 12U);
  for (const SafetyPoint& point : school.safety_points()) {
    EXPECT_NE(point.reason.find("come first"), std::string::npos) << point.question << ": defers to nobody";
  }
}

}  // namespace
}  // namespace brakewright::shop
