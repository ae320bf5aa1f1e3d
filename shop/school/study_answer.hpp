#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/gauge_study/gauge_study.hpp"
#include "shop/entities.hpp"
#include "shop/school/entities.hpp"

/// What the readings of a study say: the parts, the people and the instruments told apart, each person marked against
/// the references, and plain words on what to do. Micrometres throughout.
namespace brakewright::shop {

/// How far somebody is in a study.
struct StudyProgress {
  Uuid person_id = {};
  std::int64_t done = 0;
  std::int64_t of = 0;

  friend bool operator==(const StudyProgress&, const StudyProgress&) = default;
};

/// What the hand, or the shop, should look at first.
enum class StudyCause {
  ratchet,     ///< how hard the instrument is closed
  zero,        ///< what it shows on nothing
  jaws,        ///< dirt, tilt, wear between the faces
  place,       ///< where on the part
  instrument,  ///< it tells too little
  parts,       ///< they are too much alike for a study
  nothing      ///< as it should be
};

struct StudyWords {
  StudyCause cause = StudyCause::nothing;
  std::optional<Uuid> person_id = {};
  std::optional<Uuid> instrument_id = {};
  std::string text = {};  ///< what was found and what to do, for people
  std::optional<double> value_um = {};
  std::optional<double> p = {};
};

/// One person, or one instrument, with its mark.
struct StudyGroup {
  Uuid id = {};
  gauge_study::Group figures = {};
  std::int64_t parts_within = 0;  ///< of its parts, those with |En| <= 1
  std::int64_t parts_marked = 0;  ///< those that have a normalised error
};

struct StudyAnswer {
  Uuid study_id = {};
  std::vector<StudyProgress> left_out = {};        ///< who is not through yet, and does not count
  std::vector<std::string> missing = {};           ///< why there are no figures, in words
  std::optional<gauge_study::Study> figures = {};  ///< parts and operators by their ids as text
  std::vector<StudyGroup> people = {};
  std::vector<StudyGroup> instruments = {};
  std::vector<StudyWords> words = {};
  std::vector<StudyReading> readings = {};  ///< those that count
};

/// Everything that a study's answer rests on. The references must outlive the call.
struct StudyMatter {
  const Study& study;
  const std::vector<ReferencePart>& parts;
  const std::vector<Person>& people;
  const std::vector<Instrument>& instruments;
  const std::vector<StudyReading>& readings;  ///< of this study, withdrawn ones included
};

/// Standard uncertainty, um, that all readings of the study's coarsest instrument share: its permissible error and its
/// last place, both as half widths of a rectangle. Source: JCGM 100:2008, 4.3.7.
double shared_u_um(const Study& study, const std::vector<Instrument>& instruments);

std::vector<StudyProgress> progress_of(const Study& study, const std::vector<StudyReading>& readings);

/// Who has not read every place is left out, since the analysis asks for as many readings of each part from each
/// person; they are named. The seed of the intervals is the study's: the same readings give the same answer.
StudyAnswer answer_of(const StudyMatter& matter);

/// The words on a finished analysis; shop/school/study_words.cpp.
std::vector<StudyWords> words_on(const StudyMatter& matter, const StudyAnswer& answer);

}  // namespace brakewright::shop
