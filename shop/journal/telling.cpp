#include "shop/journal/telling.hpp"

#include <functional>
#include <nlohmann/json.hpp>
#include <optional>

namespace brakewright::shop {
namespace {

constexpr std::int64_t kPage = 500;

using Put = std::function<void(Store&, const Json&)>;

template <class E>
Put put_of() {
  return [](Store& store, const Json& detail) { store.put(from_json<E>(detail)); };
}

const std::map<std::string, Put>& puts() {
  static const std::map<std::string, Put> all{
      {"settings", put_of<Settings>()},
      {"person", put_of<Person>()},
      {"instrument", put_of<Instrument>()},
      {"zero_check", put_of<ZeroCheck>()},
      {"lathe", put_of<Lathe>()},
      {"known_part", put_of<KnownPart>()},
      {"piece", put_of<Piece>()},
      {"booking", put_of<Booking>()},
      {"cutting_insert", put_of<Insert>()},
      {"corner", put_of<Corner>()},
      {"band", put_of<Band>()},
      {"taper_plate", put_of<TaperPlate>()},
      {"job", put_of<Job>()},
      {"part", put_of<Part>()},
      {"measuring_plan", put_of<MeasuringPlan>()},
      {"reading", put_of<Reading>()},
      {"finding", put_of<Finding>()},
      {"decision", put_of<Decision>()},
      {"mount", put_of<Mount>()},
      {"mount_proof", put_of<MountProof>()},
      {"cut_plan", put_of<CutPlan>()},
      {"pass", put_of<Pass>()},
      {"bench_step", put_of<BenchStep>()},
      {"cut", put_of<Cut>()},
      {"refit", put_of<Refit>()},
      {"amendment", put_of<Amendment>()},
      {"job_file", [](Store& store, const Json& detail) { put_file(store, from_json<JobFile>(detail)); }}};
  return all;
}

template <class T>
void put_all(Store& store, const std::vector<T>& things) {
  for (const T& thing : things) store.put(thing);
}

using Subject = std::pair<std::string, Uuid>;

/// What must be known of the whole journal before its first entry is told again.
struct Ahead {
  std::set<std::int64_t> of_others;         ///< entries that tell nothing of this shop
  std::map<Subject, std::string> stand_in;  ///< of an erased detail: what a later entry tells of the same thing
};

class Retelling {
 public:
  Retelling(Store& from, Store& to, const std::vector<AnyShelf*>& rooms) : from_(from), to_(to) {
    for (AnyShelf* shelf : rooms) {
      rooms_[shelf->word()] = shelf;
      words_.insert(shelf->word());
    }
  }

  ToldBy run(std::int64_t until) {
    std::set<Subject> erased;
    each([&](const Change& entry) { look_ahead(entry, erased); });
    each([&](const Change& entry) {
      if (entry.seq > until || ahead_.of_others.contains(entry.seq)) return;
      try {
        tell(entry);
      } catch (const InputError& refusal) {
        throw TellingError(entry.seq, entry.kind,
                           (refusal.field().empty() ? "" : refusal.field() + ": ") + refusal.what());
      } catch (const StoreError& refusal) {
        throw TellingError(entry.seq, entry.kind, refusal.what());
      }
    });
    return std::move(told_by_);
  }

 private:
  template <class F>
  void each(F&& visit) {
    std::int64_t last = 0;
    while (true) {
      const auto page = from_.changes(last, kPage, std::nullopt);
      for (const Change& entry : page) visit(entry);
      if (page.empty()) return;
      last = page.back().seq;
    }
  }

  void look_ahead(const Change& entry, std::set<Subject>& erased) {
    const std::string table = told_table(entry.kind, words_);
    const Subject subject{table, entry.subject_id};
    if (entry.detail_json.empty()) {
      erased.insert(subject);
    } else if (erased.contains(subject)) {
      ahead_.stand_in.try_emplace(subject, row_in(entry));
    }
    if (entry.kind != "journal.chained" && entry.kind != "journal.brought") return;
    const Json detail = parse_json(entry.detail_json);
    const auto entries = detail.value("entries", std::int64_t{0});
    if (entry.kind == "journal.brought") {
      for (std::int64_t k = 1; k <= entries; ++k) ahead_.of_others.insert(entry.seq + k);
    } else if (!detail.value("told", false)) {
      for (std::int64_t k = 1; k <= entries; ++k) ahead_.of_others.insert(entry.seq - k);
    }
  }

  static std::string row_in(const Change& entry) {
    if (entry.kind != "person.erased") return entry.detail_json;
    const Json detail = parse_json(entry.detail_json);
    return detail.contains("person") ? detail["person"].dump() : "{}";
  }

  void tell(const Change& entry) {
    const std::string table = told_table(entry.kind, words_);
    if (table.empty()) return;
    std::string row = row_in(entry);
    if (row.empty()) {
      const auto found = ahead_.stand_in.find({table, entry.subject_id});
      if (found == ahead_.stand_in.end()) return;
      row = found->second;
    }
    if (const auto shelf = rooms_.find(table); shelf != rooms_.end()) {
      shelf->second->put_told(row);
    } else {
      const Json detail = parse_json(row);
      puts().at(table)(to_, detail);
      note_parts(table, detail, entry.seq);
    }
    told_by_[{table == "job_file" ? "job" : table, told_id(table, row, entry)}] = entry.seq;
  }

  /// A booking's entry has the piece for its subject, and not itself.
  static Uuid told_id(const std::string& table, const std::string& row, const Change& entry) {
    if (table != "booking") return entry.subject_id;
    return parse_uuid(parse_json(row).at("id").get<std::string>());
  }

  void note_parts(const std::string& table, const Json& detail, std::int64_t seq) {
    if (table != "job_file") return;
    static const std::map<std::string, std::string> kTables{
        {"parts", "part"},         {"readings", "reading"}, {"findings", "finding"},
        {"decisions", "decision"}, {"mounts", "mount"},     {"mount_proofs", "mount_proof"},
        {"cut_plans", "cut_plan"}, {"passes", "pass"},      {"bench_steps", "bench_step"},
        {"cuts", "cut"},           {"refits", "refit"},     {"amendments", "amendment"}};
    for (const auto& [name, child_table] : kTables) {
      if (!detail.contains(name)) continue;
      for (const Json& child : detail[name]) {
        told_by_[{child_table, parse_uuid(child.at("id").get<std::string>())}] = seq;
      }
    }
  }

  Store& from_;
  Store& to_;
  std::map<std::string, AnyShelf*> rooms_;
  std::set<std::string> words_;
  Ahead ahead_;
  ToldBy told_by_;
};

}  // namespace

std::string told_table(std::string_view kind, const std::set<std::string>& room_words) {
  static const std::map<std::string, std::string, std::less<>> kWhole{
      {"mount.proven", "mount_proof"}, {"piece.taken", "booking"}, {"piece.returned", "booking"},
      {"piece.missing", "booking"},    {"piece.found", "booking"}, {"plan.changed", "measuring_plan"},
      {"plan.settled", "cut_plan"},    {"job.opened", "job_file"}};
  static const std::map<std::string, std::string, std::less<>> kWords{{"step", "bench_step"},
                                                                      {"insert", "cutting_insert"}};
  if (const auto found = kWhole.find(kind); found != kWhole.end()) return found->second;
  const auto point = kind.find('.');
  std::string word(kind.substr(0, point));
  if (word == "brought" && point != std::string_view::npos) word = kind.substr(point + 1);
  if (const auto found = kWords.find(word); found != kWords.end()) return found->second;
  return puts().contains(word) || room_words.contains(word) ? word : "";
}

void put_file(Store& store, const JobFile& file) {
  store.put(file.job);
  put_all(store, file.parts);
  put_all(store, file.plans);
  put_all(store, file.readings);
  put_all(store, file.findings);
  put_all(store, file.decisions);
  put_all(store, file.mounts);
  put_all(store, file.mount_proofs);
  put_all(store, file.cut_plans);
  put_all(store, file.passes);
  put_all(store, file.bench_steps);
  put_all(store, file.cuts);
  put_all(store, file.refits);
  put_all(store, file.amendments);
}

ToldBy retell(Store& from, Store& to, const std::vector<AnyShelf*>& rooms, std::int64_t until) {
  return Retelling(from, to, rooms).run(until);
}

}  // namespace brakewright::shop
