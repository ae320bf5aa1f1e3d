#include <algorithm>
#include <set>

#include "tests/shop/school/schoolroom.hpp"

namespace brakewright::shop {
namespace {

class Studies : public Schoolroom {
 protected:
  const StudyGroup& group(const StudyAnswer& answer, const Uuid& person) {
    return *std::find_if(answer.people.begin(), answer.people.end(),
                         [&](const StudyGroup& one) { return one.id == person; });
  }

  static std::vector<StudyCause> causes(const StudyAnswer& answer, const Uuid& person) {
    std::vector<StudyCause> found;
    for (const StudyWords& words : answer.words) {
      if (words.person_id == person) found.push_back(words.cause);
    }
    return found;
  }
};

TEST_F(Studies, KeepAReadingOnceHoweverOftenItIsSent) {
  const Study study = small_study();
  const auto place = school.open_places(study.id, students[0]).front();
  const auto sent = reading_at(place, students[0], "21.004");
  const StudyReading stored = school.add_study_reading(study.id, sent, students[0]);
  const auto entries = shop.last_seq();
  EXPECT_EQ(school.add_study_reading(study.id, sent, students[0]), stored);
  EXPECT_EQ(shop.last_seq(), entries);
  EXPECT_EQ(school.study(study.id).readings.size(), 1U);

  auto other = sent;
  other.text = "21.005";
  EXPECT_EQ(refusal([&] { school.add_study_reading(study.id, other, students[0]); }), "id_taken");
  EXPECT_EQ(refusal([&] { school.add_study_reading(study.id, reading_at(place, students[0], "21.004"), students[0]); }),
            "place_taken");
}

TEST_F(Studies, TellNothingOfTheReferenceWhenAReadingIsQuestioned) {
  const Study study = small_study();
  const auto place = school.open_places(study.id, students[0]).front();
  const auto text = format_number({std::llround(size_um(place.reference_part_id) * 1'000) + 500'000}, Unit::mm, 1'000);
  auto sent = reading_at(place, students[0], text);
  sent.confirmed = false;
  try {
    school.add_study_reading(study.id, sent, students[0]);
    FAIL() << "taken";
  } catch (const DoubtfulReading& refusal) {
    EXPECT_EQ(refusal.doubts().at(0).code, "far_off");
    EXPECT_EQ(refusal.doubts().at(0).suggestion, std::nullopt);
  }
  sent.confirmed = true;
  EXPECT_EQ(school.add_study_reading(study.id, sent, students[0]).value.text, text);
}

TEST_F(Studies, LetNobodyFindAReferenceBySteppingInFromBothSides) {
  const Study study = small_study();
  const auto is_questioned = [&](const StudyPlace& place, std::int64_t nm) {
    auto sent = reading_at(place, students[0], format_number({nm}, Unit::mm, 1'000));
    sent.confirmed = false;
    try {
      school.withdraw_study_reading(study.id, school.add_study_reading(study.id, sent, students[0]).id, teacher);
    } catch (const DoubtfulReading&) {
      return true;
    }
    return false;
  };
  std::set<Uuid> parts;
  std::set<std::int64_t> beside;
  for (const StudyPlace& place : school.open_places(study.id, students[0])) {
    if (!parts.insert(place.reference_part_id).second) continue;
    const std::int64_t reference_nm = std::llround(size_um(place.reference_part_id) * 1'000);
    std::int64_t low_nm = reference_nm, high_nm = reference_nm;
    while (!is_questioned(place, low_nm)) low_nm -= 10'000;
    while (!is_questioned(place, high_nm)) high_nm += 10'000;
    beside.insert((low_nm + high_nm) / 2 - reference_nm);
    EXPECT_NEAR(static_cast<double>(high_nm - low_nm), 500'000, 20'000);
    EXPECT_LT(low_nm, reference_nm - 140'000) << "what anybody reads is taken";
    EXPECT_GT(high_nm, reference_nm + 140'000);
  }
  EXPECT_GE(beside.size(), 3U) << "to a hundredth of a millimetre";
  EXPECT_GT(*beside.rbegin() - *beside.begin(), 50'000) << "each part's middle lies elsewhere beside its reference";
}

TEST_F(Studies, KeepTheirMarksOnceClosedWhateverIsEnteredOfTheInstrumentLater) {
  Study study = small_study(4);
  read_all(study, students[0], 0, 1);
  read_all(study, students[1], -18, 1);
  study.closed = true;
  EXPECT_GT(school.put_study(study, teacher).u_instrument_um.value(), 1.7);
  const auto within = [](const std::vector<StudyMark>& marks) {
    std::vector<std::int64_t> counts;
    for (const StudyMark& mark : marks) counts.push_back(mark.parts_within);
    return counts;
  };
  EXPECT_EQ(within(school.study_marks()), (std::vector<std::int64_t>{5, 0}));
  Instrument coarser = shop.instruments().front();
  coarser.mpe = {60'000};
  shop.put_instrument(coarser, teacher);
  School started_again(shop, *school_store, [this] { return clock; });
  EXPECT_EQ(within(started_again.study_marks()), (std::vector<std::int64_t>{5, 0}));
}

TEST_F(Studies, AreEnteredByEachForThemselvesOrByATeacher) {
  const Study study = small_study();
  const auto place = school.open_places(study.id, students[0]).front();
  const auto sent = reading_at(place, students[0], "21.004");
  EXPECT_EQ(refusal([&] { school.add_study_reading(study.id, sent, students[1]); }), "not_yours");
  EXPECT_EQ(refusal([&] { school.add_study_reading(study.id, sent, teacher); }), "done");
}

TEST_F(Studies, LetAStudentTakeBackTheirNewestReadingAndReadThatPlaceAgain) {
  const Study study = small_study();
  const auto places = school.open_places(study.id, students[0]);
  const auto first = school.add_study_reading(study.id, reading_at(places[0], students[0], "21.004"), students[0]);
  const auto second = school.add_study_reading(study.id, reading_at(places[1], students[0], "21.014"), students[0]);
  EXPECT_EQ(refusal([&] { school.withdraw_study_reading(study.id, first.id, students[0]); }), "not_yours");
  EXPECT_TRUE(school.withdraw_study_reading(study.id, second.id, students[0]).withdrawn_at);
  EXPECT_EQ(school.open_places(study.id, students[0]).front(), places[1]);
  EXPECT_EQ(
      refusal([&] { school.add_study_reading(study.id, reading_at(places[1], students[0], "21.015"), students[0]); }),
      "done");
  EXPECT_EQ(school.study(study.id).readings.size(), 3U) << "what was taken back stays on record";
  EXPECT_TRUE(school.withdraw_study_reading(study.id, first.id, teacher).withdrawn_at);
}

TEST_F(Studies, KeepWhatReadingsRestOn) {
  Study study = small_study();
  read_all(study, students[0], 0, 1);
  Study other = study;
  other.repeats = 2;
  EXPECT_EQ(refusal([&] { school.put_study(other, teacher); }), "readings_exist");
  other = study;
  other.person_ids.erase(other.person_ids.begin());
  EXPECT_EQ(refusal([&] { school.put_study(other, teacher); }), "readings_exist");
  other = study;
  other.person_ids.pop_back();
  EXPECT_EQ(refusal([&] { school.put_study(other, teacher); }), "done") << "who has not read may leave";
  ReferencePart part = school.reference_parts().front();
  part.reference = mm("20.113");
  EXPECT_EQ(refusal([&] { school.put_reference_part(part, teacher); }), "in_use");
  part = school.reference_parts().front();
  part.name = "Disc with the blue dot";
  EXPECT_EQ(refusal([&] { school.put_reference_part(part, teacher); }), "done");
}

TEST_F(Studies, TakeNothingMoreOnceClosed) {
  Study study = small_study();
  const auto place = school.open_places(study.id, students[0]).front();
  study.closed = true;
  const Study closed = school.put_study(study, teacher);
  EXPECT_EQ(closed.closed_at, clock);
  EXPECT_EQ(refusal([&] { school.add_study_reading(study.id, reading_at(place, students[0], "21.004"), students[0]); }),
            "closed");
  study.closed = false;
  EXPECT_EQ(refusal([&] { school.put_study(study, teacher); }), "closed");
  study = closed;
  study.name = "First week, all";
  EXPECT_EQ(school.put_study(study, teacher).name, "First week, all");
}

TEST_F(Studies, RefuseDoubledAndUnknownPartsPeopleAndInstruments) {
  Study study = small_study();
  study.id = id();
  Study wrong = study;
  wrong.person_ids.push_back(students[1]);
  EXPECT_EQ(refusal([&] { school.put_study(wrong, teacher); }), "duplicate");
  wrong = study;
  wrong.instrument_ids = {id()};
  EXPECT_EQ(refusal([&] { school.put_study(wrong, teacher); }), "unknown_instrument");
  wrong = study;
  wrong.reference_part_ids.resize(1);
  EXPECT_EQ(refusal([&] { school.put_study(wrong, teacher); }), "out_of_range");
}

TEST_F(Studies, CountNobodyWhoIsNotThroughAndNameThem) {
  const Study study = small_study();
  EXPECT_FALSE(school.study_answer(study.id).figures);
  read_all(study, students[0], 0, 1);
  read_all(study, students[1], 0, 1);
  const auto place = school.open_places(study.id, students[2]).front();
  school.add_study_reading(study.id, reading_at(place, students[2], "21.004"), students[2]);
  const StudyAnswer answer = school.study_answer(study.id);
  ASSERT_TRUE(answer.figures);
  EXPECT_EQ(answer.left_out, (std::vector<StudyProgress>{{students[2], 1, 15}}));
  EXPECT_EQ(answer.readings.size(), 30U);
  EXPECT_EQ(answer.people.size(), 2U);
}

TEST_F(Studies, TellTheHandThatClosesTooHardFromTheOthers) {
  const Study study = small_study(4);
  read_all(study, students[0], 0, 1);
  read_all(study, students[1], -18, 1);
  read_all(study, students[2], 0, 1);
  const StudyAnswer answer = school.study_answer(study.id);
  const StudyGroup& heavy = group(answer, students[1]);
  EXPECT_NEAR(heavy.figures.bias.value(), -18, 1.5);
  EXPECT_EQ(heavy.parts_marked, 5);
  EXPECT_EQ(heavy.parts_within, 0) << "18 um is far beyond 4 um of instrument and hand together";
  EXPECT_EQ(group(answer, students[0]).parts_within, 5);
  EXPECT_EQ(causes(answer, students[1]), std::vector{StudyCause::ratchet});
  EXPECT_EQ(causes(answer, students[0]), std::vector<StudyCause>{});
}

TEST_F(Studies, SayZeroWhereAllHandsAreOffAlike) {
  const Study study = small_study(4);
  for (const Uuid& student : students) read_all(study, student, 12, 1);
  const StudyAnswer answer = school.study_answer(study.id);
  ASSERT_FALSE(answer.words.empty());
  EXPECT_EQ(answer.words.front().cause, StudyCause::zero);
  EXPECT_EQ(answer.words.front().person_id, std::nullopt);
  for (const StudyWords& words : answer.words) EXPECT_NE(words.cause, StudyCause::jaws) << words.text;
}

TEST_F(Studies, SayRatchetToTheHandThatScatters) {
  const Study study = small_study(5);
  read_all(study, students[0], 0, 1);
  read_all(study, students[1], 0, 1);
  read_all(study, students[2], 0, 12);
  const StudyAnswer answer = school.study_answer(study.id);
  const auto found = causes(answer, students[2]);
  EXPECT_EQ(std::count(found.begin(), found.end(), StudyCause::ratchet), 1);
  EXPECT_GT(group(answer, students[2]).figures.u_reading, 6);
}

TEST_F(Studies, SayThatNothingStandsOutWhereNothingDoes) {
  const Study study = small_study(3);
  for (const Uuid& student : students) read_all(study, student, 0, 1.5);
  const StudyAnswer answer = school.study_answer(study.id);
  for (const StudyWords& words : answer.words) EXPECT_EQ(words.person_id, std::nullopt) << words.text;
}

}  // namespace
}  // namespace brakewright::shop
