#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "shop/times.hpp"
#include "shop/uuid.hpp"

/// What a school remembers of its practice at the simulated bench. Plain data; who may do what, and when, is the
/// business of shop/practice/practice.hpp. Each struct lists its fields once, in shop/practice/fields.hpp.
namespace brakewright::shop {

/// An exercise that a teacher sets the class.
struct PracticeSet {
  Uuid id = {};
  std::string name = {};
  std::int64_t seed = 1;
  std::int64_t difficulty = 1;                          ///< 0 to 5
  std::optional<std::vector<std::string>> faults = {};  ///< those that are there and no other; absent: the seed draws
  bool open = false;                                    ///< students may begin it
  Uuid made_by_person_id = {};
  UtcTime made_at = {};

  friend bool operator==(const PracticeSet&, const PracticeSet&) = default;
};

struct NewPracticeSet {
  std::string name = {};
  std::int64_t seed = 1;
  std::int64_t difficulty = 1;
  std::optional<std::vector<std::string>> faults = {};
  bool open = false;
};

/// One run: what it began with and what it ended in. Its acts are kept elsewhere until it ends (PracticeBook), and from
/// then on in its PracticeRecord. Only ever ended.
struct PracticeRun {
  Uuid id = {};
  Uuid person_id = {};
  std::optional<Uuid> set_id = {};
  std::int64_t seed = 1;
  std::int64_t difficulty = 1;
  std::optional<std::vector<std::string>> faults = {};
  UtcTime begun_at = {};
  std::optional<UtcTime> ended_at = {};
  std::optional<double> points = {};  ///< 0 to 100; absent where it was given up
  std::optional<bool> safe = {};
  std::int64_t acts = 0;       ///< when it ended
  std::string view_json = {};  ///< the bench as it was left; until the end, as it began

  friend bool operator==(const PracticeRun&, const PracticeRun&) = default;
};

/// What was done in a run that has ended: {"acts": [{number, act, outcome}], "mark": {..} or null}.
struct PracticeRecord {
  Uuid id = {};  ///< the run's
  std::string done_json = {};
  UtcTime at = {};

  friend bool operator==(const PracticeRecord&, const PracticeRecord&) = default;
};

struct NewPracticeRun {
  std::int64_t difficulty = 1;
  std::optional<Uuid> set_id = {};
  std::optional<std::int64_t> seed = {};
};

/// The next act of a run.
struct NewPracticeAct {
  std::int64_t number = 0;    ///< from 1
  std::string act_json = {};  ///< as shop/practice/act_json.hpp
};

}  // namespace brakewright::shop
