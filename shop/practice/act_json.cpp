#include "shop/practice/act_json.hpp"

#include <iterator>
#include <nlohmann/json.hpp>
#include <string_view>
#include <utility>
#include <variant>

#include "shop/json_reading.hpp"
#include "shop/json_writing.hpp"
#include "shop/practice/words.hpp"
#include "shop/texts.hpp"

namespace brakewright::shop {
namespace {

namespace acts = practice;

/// In the order of practice::Act.
constexpr std::string_view kActWords[] = {
    "look",        "zero_micrometer", "measure",    "read_runout", "wait",      "decide",
    "wipe",        "renew_races",     "mount_part", "unmount",     "band",      "wear",
    "change_edge", "spindle",         "place",      "turn_dial",   "lock_tool", "feed",
    "turns",       "reach",           "walk_away",  "wash",        "refit",     "finish"};
static_assert(std::size(kActWords) == std::variant_size_v<acts::Act>);

constexpr std::size_t kMostPiecesNamed = 40;
constexpr double kLargestWhole = 1e6;

constexpr Rule kNeeded{};
constexpr Rule kMayBeLeftOut{.needed = false};

template <class E, class... Of>
concept OneOf = (std::same_as<std::remove_const_t<E>, Of> || ...);

template <OneOf<acts::Look, acts::Wipe, acts::RenewRaces, acts::Unmount, acts::ChangeEdge, acts::Reach, acts::WalkAway,
                acts::Wash, acts::Finish>
              E,
          class V>
void act_fields(E&, V&&) {}

template <OneOf<acts::ZeroMicrometer> E, class V>
void act_fields(E& act, V&& v) {
  v("instrument_id", act.instrument_id, kNeeded);
}

template <OneOf<acts::Measure> E, class V>
void act_fields(E& act, V&& v) {
  v("instrument_id", act.instrument_id, kNeeded);
  v("radius_mm", act.radius_mm, kNeeded);
  v("angle_deg", act.angle_deg, kNeeded);
  v("ratchet", act.ratchet, kMayBeLeftOut);
}

template <OneOf<acts::ReadRunout> E, class V>
void act_fields(E& act, V&& v) {
  v("side", act.side, kNeeded);
  v("radius_mm", act.radius_mm, kNeeded);
  v("points", act.points, kMayBeLeftOut);
}

template <OneOf<acts::Wait> E, class V>
void act_fields(E& act, V&& v) {
  v("minutes", act.minutes, kNeeded);
}

template <OneOf<acts::Decide> E, class V>
void act_fields(E& act, V&& v) {
  v("action", act.action, kNeeded);
}

template <OneOf<acts::MountPart> E, class V>
void act_fields(E& act, V&& v) {
  v("pieces", act.pieces, kNeeded);
  v("turn_deg", act.turn_deg, kMayBeLeftOut);
  v("nut_tight", act.nut_tight, kMayBeLeftOut);
}

template <OneOf<acts::Band> E, class V>
void act_fields(E& act, V&& v) {
  v("on", act.on, kMayBeLeftOut);
}

template <OneOf<acts::Wear> E, class V>
void act_fields(E& act, V&& v) {
  v("glasses", act.glasses, kMayBeLeftOut);
  v("gloves", act.gloves, kMayBeLeftOut);
}

template <OneOf<acts::Spindle> E, class V>
void act_fields(E& act, V&& v) {
  v("rpm", act.rpm, kNeeded);
}

template <OneOf<acts::Place> E, class V>
void act_fields(E& act, V&& v) {
  v("radius_mm", act.radius_mm, kNeeded);
}

template <OneOf<acts::TurnDial> E, class V>
void act_fields(E& act, V&& v) {
  v("side", act.side, kNeeded);
  v("marks", act.marks, kNeeded);
}

template <OneOf<acts::LockTool> E, class V>
void act_fields(E& act, V&& v) {
  v("side", act.side, kNeeded);
  v("locked", act.locked, kMayBeLeftOut);
}

template <OneOf<acts::Feed> E, class V>
void act_fields(E& act, V&& v) {
  v("mm_per_rev", act.mm_per_rev, kNeeded);
}

template <OneOf<acts::Turns> E, class V>
void act_fields(E& act, V&& v) {
  v("turns", act.turns, kNeeded);
}

template <OneOf<acts::Refit> E, class V>
void act_fields(E& act, V&& v) {
  v("position", act.position, kNeeded);
  v("hub_cleaned", act.hub_cleaned, kMayBeLeftOut);
  v("nuts_in_star", act.nuts_in_star, kMayBeLeftOut);
}

/// An object's fields, with what every act's text and lists are held to.
class ActReader {
 public:
  ActReader(const Json& value, const std::string& path) : object_(value, path) { object_.find("do"); }

  void operator()(const char* name, int& member, const Rule& rule) {
    std::int64_t whole = member;
    object_(name, whole, rule);
    if (std::abs(static_cast<double>(whole)) > kLargestWhole) {
      throw InputError("out_of_range", object_.path_of(name), "the number is too large");
    }
    member = static_cast<int>(whole);
  }

  template <class T>
  void operator()(const char* name, T& member, const Rule& rule) {
    object_(name, member, rule);
    hold(object_.path_of(name), member);
  }

  void done() const { object_.done(); }

 private:
  static void hold(const std::string& path, const std::string& text) {
    json_reading::at_path(path, [&] {
      check_text(text, {.longest = 60});
      return true;
    });
  }
  static void hold(const std::string& path, const std::vector<std::string>& texts) {
    if (texts.size() > kMostPiecesNamed) throw InputError("too_many", path, "no arbor takes so many pieces");
    for (std::size_t k = 0; k < texts.size(); ++k) hold(path + "[" + std::to_string(k) + "]", texts[k]);
  }
  template <class T>
  static void hold(const std::string&, const T&) {}

  json_reading::ObjectReader object_;
};

struct ActWriter {
  Json& object;

  void operator()(const char* name, const int& value, const Rule&) const { object[name] = value; }
  template <class T>
  void operator()(const char* name, const T& value, const Rule&) const {
    object[name] = json_writing::written(value);
  }
};

template <class E>
practice::Act read_act(const Json& value, const std::string& path) {
  E act{};
  ActReader reader(value, path);
  act_fields(act, reader);
  reader.done();
  return act;
}

template <std::size_t... K>
practice::Act read_nth(std::size_t nth, const Json& value, const std::string& path, std::index_sequence<K...>) {
  using Read = practice::Act (*)(const Json&, const std::string&);
  constexpr Read kReads[] = {read_act<std::variant_alternative_t<K, practice::Act>>...};
  return kReads[nth](value, path);
}

}  // namespace

practice::Act act_from_json(const Json& value, const std::string& path) {
  if (!value.is_object()) json_reading::wrong_type(value, path, "an object");
  const auto found = value.find("do");
  if (found == value.end()) throw InputError("missing", path + ".do", "this field is needed");
  const std::string& word = json_reading::text_in(*found, path + ".do");
  for (std::size_t k = 0; k < std::size(kActWords); ++k) {
    if (kActWords[k] == word) {
      return read_nth(k, value, path, std::make_index_sequence<std::variant_size_v<practice::Act>>());
    }
  }
  std::string accepted;
  for (const auto& known : kActWords) accepted += (accepted.empty() ? "" : ", ") + std::string(known);
  throw InputError("unknown_act", path + ".do", "nobody can do this at the bench; accepted here: " + accepted);
}

Json act_to_json(const practice::Act& act) {
  Json object{{"do", kActWords[act.index()]}};
  std::visit([&](const auto& one) { act_fields(one, ActWriter{object}); }, act);
  return object;
}

}  // namespace brakewright::shop
