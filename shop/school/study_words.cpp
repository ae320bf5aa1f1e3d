#include <algorithm>
#include <cmath>
#include <set>
#include <sstream>

#include "shop/find.hpp"
#include "shop/school/study_answer.hpp"

namespace brakewright::shop {
namespace {

using gauge_study::FindingCode;

/// Shares of the tolerance up to which a way of measuring is usually taken, and from which it is refused: common
/// practice, no source.
constexpr double kFitPercent = 10;
constexpr double kUnfitPercent = 30;

constexpr const char* kRatchet =
    "Close with the ratchet alone, the same number of clicks each time, never with the hand on the thimble.";
constexpr const char* kJaws =
    "Wipe both faces of the instrument and the part, and rock it gently to the smallest reading, square to the part.";
constexpr const char* kZero = "Close it on nothing, or on its setting standard, note what it shows, and set its zero.";
constexpr const char* kPlace = "Read on the marked place, every time: a part is not equally thick everywhere.";

std::string number(double value, int decimals) {
  std::ostringstream text;
  text.setf(std::ios::fixed);
  text.precision(decimals);
  text << value;
  return text.str();
}

/// "4.1 um (0.0002 in)".
std::string size(double um) {
  const double size_um = std::abs(um);
  return number(size_um, size_um < 10 ? 1 : 0) + " um (" + number(size_um / 25'400, size_um < 10 ? 5 : 4) + " in)";
}

class Wording {
 public:
  Wording(const StudyMatter& matter, const StudyAnswer& answer) : matter_(matter), study_(*answer.figures) {}

  std::vector<StudyWords> all() {
    everybody_off();
    for (const gauge_study::Finding& finding : study_.findings) tell(finding);
    against_tolerance();
    if (said_.empty()) {
      said_.push_back({.cause = StudyCause::nothing,
                       .text = "Nothing stands out: nobody's readings, and no instrument's, differ from the others' by "
                               "more than chance."});
    }
    return std::move(said_);
  }

 private:
  std::string person(const gauge_study::Finding& finding) const {
    const Person* found = find(matter_.people, parse_uuid(finding.who.value()));
    return found != nullptr ? found->name : "Somebody";
  }

  std::string instrument(const gauge_study::Finding& finding) const {
    const Instrument* found = find(matter_.instruments, parse_uuid(finding.who.value()));
    return found != nullptr ? found->name : "One instrument";
  }

  void say(StudyCause cause, const gauge_study::Finding& finding, std::string text, bool of_person) {
    StudyWords words{.cause = cause, .text = std::move(text), .value_um = finding.value, .p = finding.p};
    if (finding.who) (of_person ? words.person_id : words.instrument_id) = parse_uuid(*finding.who);
    said_.push_back(std::move(words));
  }

  /// What all hands have in common is no hand's: the zero, or the references.
  void everybody_off() {
    std::size_t over = 0, under = 0;
    double sum_um = 0;
    for (const auto& finding : study_.findings) {
      if (finding.code == FindingCode::operator_bias) ++(finding.value.value_or(0) > 0 ? over : under);
    }
    for (const auto& group : study_.by_operator) sum_um += group.bias.value_or(0);
    const std::size_t people = study_.by_operator.size();
    if (people < 2 || 3 * std::max(over, under) < 2 * people) return;
    all_off_ = true;
    const double mean_um = sum_um / static_cast<double>(people);
    said_.push_back({.cause = StudyCause::zero,
                     .text = "Nearly everybody reads " + size(mean_um) + (mean_um > 0 ? " over" : " under") +
                             " the references. What all hands share is the instrument's zero, or the references "
                             "themselves. " +
                             kZero,
                     .value_um = mean_um});
  }

  void tell(const gauge_study::Finding& finding) {
    switch (finding.code) {
      case FindingCode::operator_spread:
        return tell_spread(finding, person(finding), true);
      case FindingCode::instrument_spread:
        return tell_spread(finding, instrument(finding), false);
      case FindingCode::operator_bias:
        if (!all_off_) tell_person_off(finding, "the references");
        return;
      case FindingCode::operator_offset:
        return tell_person_off(finding, "the others");
      case FindingCode::instrument_bias:
        return tell_instrument_off(finding, "the references");
      case FindingCode::instrument_offset:
        return tell_instrument_off(finding, "the other instruments");
      case FindingCode::interaction_present:
        return say(StudyCause::place, finding,
                   std::string("Some people read some parts differently from others, beyond chance. ") + kPlace, true);
      case FindingCode::parts_not_told_apart:
        return say(StudyCause::parts, finding,
                   "The readings do not tell these parts apart. Choose parts that differ more, as those of the shop's "
                   "work do.",
                   true);
      case FindingCode::reproducibility_dominates:
        return say(StudyCause::nothing, finding,
                   "Most of what the readings differ by lies between people, not within one hand: measure one part "
                   "together and watch each other's hands.",
                   true);
      case FindingCode::repeatability_dominates:
        return say(StudyCause::ratchet, finding,
                   std::string("Most of what the readings differ by lies within one hand. ") + kRatchet, true);
    }
  }

  void tell_spread(const gauge_study::Finding& finding, const std::string& who, bool of_person) {
    const double ratio = finding.value.value_or(1);
    if (ratio < 1) {
      return say(StudyCause::nothing, finding,
                 who + ": repeated readings differ less than the others' do" +
                     (of_person ? "; let them show how they do it." : "."),
                 of_person);
    }
    say(of_person ? StudyCause::ratchet : StudyCause::jaws, finding,
        who + ": repeated readings differ " + number(ratio, 1) + " times as much as the others'. " +
            (of_person ? kRatchet : kJaws),
        of_person);
  }

  void tell_person_off(const gauge_study::Finding& finding, const std::string& from) {
    if (!people_off_.insert(*finding.who).second) return;
    const double off_um = finding.value.value_or(0);
    say(off_um < 0 ? StudyCause::ratchet : StudyCause::jaws, finding,
        person(finding) + " reads " + size(off_um) + (off_um < 0 ? " less than " : " more than ") + from + ". " +
            (off_um < 0 ? std::string("Too little is often too hard a hand. ") + kRatchet
                        : std::string("Too much is often dirt or a tilted instrument. ") + kJaws),
        true);
  }

  void tell_instrument_off(const gauge_study::Finding& finding, const std::string& from) {
    if (!instruments_off_.insert(*finding.who).second) return;
    const double off_um = finding.value.value_or(0);
    say(StudyCause::zero, finding,
        instrument(finding) + " shows " + size(off_um) + (off_um < 0 ? " less than " : " more than ") + from + ". " +
            kZero,
        false);
  }

  void against_tolerance() {
    const auto percent = study_.figures.percent_tolerance;
    if (!percent || *percent <= kFitPercent) return;
    const bool unfit = *percent > kUnfitPercent;
    said_.push_back({.cause = StudyCause::instrument,
                     .text = "Measuring takes up " + number(*percent, 0) + " % of the tolerance" +
                             (unfit ? ": too much to judge a part by one reading. Mend what stands above, read more "
                                      "often and take the mean, or take a finer instrument"
                                    : "; near a limit read more often and take the mean") +
                             " (10 and 30 % are common practice, no source)."});
  }

  const StudyMatter& matter_;
  const gauge_study::Study& study_;
  bool all_off_ = false;
  std::set<std::string> people_off_;
  std::set<std::string> instruments_off_;
  std::vector<StudyWords> said_;
};

}  // namespace

std::vector<StudyWords> words_on(const StudyMatter& matter, const StudyAnswer& answer) {
  return Wording(matter, answer).all();
}

}  // namespace brakewright::shop
