#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "shop/exchange/parcel.hpp"
#include "shop/exchange/transfer.hpp"
#include "shop/journal/chain.hpp"
#include "shop/journal/telling.hpp"

namespace brakewright::shop {
namespace {

constexpr std::size_t kMostBytes = 200'000'000;

const Json& needed(const Json& object, const std::string& name) {
  const auto found = object.find(name);
  if (found == object.end()) throw InputError("missing", name, "this field is needed");
  return *found;
}

template <class T>
std::vector<T> read_list(const Json& object, const std::string& name) {
  const Json& list = needed(object, name);
  if (!list.is_array()) throw InputError("wrong_type", name, "a list is needed here");
  std::vector<T> things;
  things.reserve(list.size());
  for (const Json& thing : list)
    things.push_back(from_json<T>(thing, name + "[" + std::to_string(things.size()) + "]"));
  return things;
}

/// Of what an export from before there was any of it does not have.
template <class T>
std::vector<T> read_list_if_there(const Json& object, const std::string& name) {
  return object.contains(name) ? read_list<T>(object, name) : std::vector<T>();
}

/// An emptied detail is written as {}, without a salt.
std::vector<Change> read_changes(const Json& object) {
  auto changes = read_list<Change>(object, "changes");
  for (Change& change : changes) {
    const bool emptied = change.salt.empty() && !change.detail_sha256.empty() && change.detail_json == "{}";
    if (emptied) change.detail_json.clear();
  }
  return changes;
}

Parcel unpack(std::string_view text) {
  const Json object = parse_json(text, kMostBytes);
  if (!object.is_object()) throw InputError("wrong_type", "", "an object is needed here");
  const Json& format = needed(object, "format");
  Parcel parcel;
  if (format == "brakewright-job-1") {
    parcel.jobs.push_back(from_json<JobFile>(needed(object, "file"), "file"));
  } else if (format == "brakewright-shop-1") {
    parcel.settings = from_json<Settings>(needed(object, "settings"), "settings");
    parcel.jobs = read_list<JobFile>(object, "jobs");
  } else {
    throw InputError("unknown_format", "format", "accepted here: brakewright-job-1, brakewright-shop-1");
  }
  parcel.people = read_list<Person>(object, "people");
  parcel.instruments = read_list<Instrument>(object, "instruments");
  parcel.lathes = read_list<Lathe>(object, "lathes");
  parcel.pieces = read_list_if_there<Piece>(object, "pieces");
  parcel.bookings = read_list_if_there<Booking>(object, "bookings");
  parcel.inserts = read_list_if_there<Insert>(object, "inserts");
  parcel.corners = read_list_if_there<Corner>(object, "corners");
  parcel.bands = read_list_if_there<Band>(object, "bands");
  parcel.taper_plates = read_list_if_there<TaperPlate>(object, "taper_plates");
  parcel.zero_checks = read_list<ZeroCheck>(object, "zero_checks");
  parcel.known_parts = read_list<KnownPart>(object, "known_parts");
  parcel.changes = read_changes(object);
  return parcel;
}

/// Puts what is brought and tells it in the journal, each row as it goes in. Nothing is told before there is a person
/// to have brought it; the first rows are people.
class Bringing {
 public:
  Bringing(Store& store, const Importer& importer) : store_(store), importer_(importer) {}

  template <class T>
  void put(const std::string& table, const T& thing) {
    store_.put(thing);
    if constexpr (requires { thing.id; }) {
      tell("brought." + table, std::nullopt, thing.id, json_text(thing));
    } else {
      tell("brought." + table, std::nullopt, fresh_id(), json_text(thing));
    }
  }

  /// Puts what is not in `present` yet and says how many that were.
  template <class T>
  std::int64_t put_new(const std::string& table, const std::vector<T>& things, const std::vector<T>& present) {
    std::set<Uuid> known;
    for (const T& thing : present) known.insert(thing.id);
    std::int64_t added = 0;
    for (const T& thing : things) {
      if (!known.insert(thing.id).second) continue;
      put(table, thing);
      ++added;
    }
    return added;
  }

  void put_job(const JobFile& file) {
    put_file(store_, file);
    tell("brought.job_file", file.job.id, file.job.id, json_text(file));
  }

  /// The next so many entries are another shop's.
  void announce(std::size_t entries) {
    tell("journal.brought", std::nullopt, fresh_id(), R"({"entries":)" + std::to_string(entries) + "}");
  }

  void tell(const std::string& kind, std::optional<Uuid> job_id, const Uuid& subject_id, std::string detail_json) {
    store_.append({.seq = 0,
                   .id = fresh_id(),
                   .kind = kind,
                   .job_id = job_id,
                   .subject_id = subject_id,
                   .detail_json = std::move(detail_json),
                   .by_person_id = by(),
                   .at = importer_.now});
  }

  const Uuid& by() {
    if (importer_.by) return *importer_.by;
    const auto people = store_.people();
    if (people.empty()) throw InputError("missing", "people", "an export names at least one person");
    const auto teacher =
        std::find_if(people.begin(), people.end(), [](const Person& one) { return one.role == Role::teacher; });
    importer_.by = teacher == people.end() ? people.front().id : teacher->id;
    return *importer_.by;
  }

 private:
  Uuid fresh_id() const { return make_uuid7(importer_.now.time_since_epoch().count(), fresh_bytes); }

  Store& store_;
  Importer importer_;
};

/// Where a piece is that hung here before is this shop's own to say: its bookings elsewhere stay elsewhere.
void put_bookings(Store& store, Bringing& bringing, const std::vector<Booking>& bookings, const Ids& here_before) {
  for (const Booking& booking : bookings) {
    if (!here_before.contains(booking.piece_id) && !store.booking(booking.id)) bringing.put("booking", booking);
  }
}

/// The entries that come along: of an empty shop all, else those of the jobs that are new here.
std::vector<Change> coming_along(Store& store, const Parcel& parcel) {
  const bool empty_shop = store.last_seq() == 0;
  std::map<Uuid, bool> is_new;
  for (const JobFile& file : parcel.jobs) is_new[file.job.id] = !store.job_file(file.job.id).has_value();
  std::vector<Change> found;
  for (const Change& change : parcel.changes) {
    if (empty_shop || (change.job_id && is_new[*change.job_id])) found.push_back(change);
  }
  return found;
}

/// Visits the entries of a journal that tell its own shop: none that came along with another one's jobs, and none whose
/// detail was erased.
template <class F>
void each_own(const std::vector<Change>& entries, F&& visit) {
  std::int64_t of_others = 0;
  for (const Change& entry : entries) {
    if (of_others-- > 0) continue;
    of_others = entry.kind == "journal.brought" ? parse_json(entry.detail_json).value("entries", std::int64_t{0}) : 0;
    if (!entry.detail_json.empty()) visit(entry);
  }
}

/// The secrets that a journal tells: the newest of each person and kind, unless it was taken away.
std::vector<Json> secrets_in(const std::vector<Change>& entries) {
  std::map<std::pair<Uuid, std::string>, Json> newest;
  each_own(entries, [&](const Change& entry) {
    if (told_table(entry.kind, {"secret"}) != "secret") return;
    Json detail = parse_json(entry.detail_json);
    const std::string kind = detail.value("kind", "");
    newest[{entry.subject_id, kind}] = std::move(detail);
  });
  std::vector<Json> standing;
  for (auto& [of, detail] : newest) {
    if (!detail.value("hash", "").empty()) standing.push_back(std::move(detail));
  }
  return standing;
}

/// Puts and tells each row of the rooms as the newest of a whole shop's entries tells it, in the order in which they
/// first came; no secrets, which leave no shop.
void put_rooms(const std::vector<Change>& entries, const std::vector<AnyShelf*>& rooms, Bringing& bringing) {
  std::map<std::string, AnyShelf*> by_word;
  std::set<std::string> words;
  for (AnyShelf* room : rooms) {
    if (room->word() != "secret" && words.insert(room->word()).second) by_word[room->word()] = room;
  }
  std::vector<std::pair<std::string, Uuid>> order;
  std::map<std::pair<std::string, Uuid>, std::string> newest;
  each_own(entries, [&](const Change& entry) {
    const std::string table = told_table(entry.kind, words);
    if (!words.contains(table)) return;
    const std::pair key(table, entry.subject_id);
    if (!newest.contains(key)) order.push_back(key);
    newest[key] = entry.detail_json;
  });
  for (const auto& key : order) {
    by_word.at(key.first)->put_told(newest.at(key));
    bringing.tell("brought." + key.first, std::nullopt, key.second, newest.at(key));
  }
}

/// Adds to the shop what it has not, with entries that tell each row.
Imported bring(Store& store, const Parcel& parcel, const Importer& importer) {
  Bringing bringing(store, importer);
  Imported done;
  const auto entries = coming_along(store, parcel);
  const bool empty_shop = store.last_seq() == 0;
  done.others_added += bringing.put_new("person", parcel.people, store.people());
  if (empty_shop && parcel.settings) bringing.put("settings", *parcel.settings);
  done.others_added += bringing.put_new("instrument", parcel.instruments, store.instruments());
  done.others_added += bringing.put_new("lathe", parcel.lathes, store.lathes());
  done.others_added += bringing.put_new("known_part", parcel.known_parts, store.known_parts("", kAllParts));
  const auto pieces_here = store.pieces();
  done.others_added += bringing.put_new("piece", parcel.pieces, pieces_here);
  done.others_added += bringing.put_new("cutting_insert", parcel.inserts, store.inserts());
  done.others_added += bringing.put_new("corner", parcel.corners, store.corners());
  done.others_added += bringing.put_new("band", parcel.bands, store.bands());
  done.others_added += bringing.put_new("taper_plate", parcel.taper_plates, store.taper_plates());
  std::vector<JobFile> added;
  for (const JobFile& file : parcel.jobs) {
    if (store.job_file(file.job.id)) {
      ++done.jobs_known;
      continue;
    }
    added.push_back(file);
    if (const auto other = store.job_file_by_number(file.job.number); other || file.job.number < 1) {
      added.back().job.number = store.next_job_number();
      done.renumbered.push_back({.was = file.job.number, .is = added.back().job.number});
    }
    bringing.put_job(added.back());
    ++done.jobs_added;
  }
  done.others_added += bringing.put_new("zero_check", parcel.zero_checks, store.zero_checks(std::nullopt));
  put_bookings(store, bringing, parcel.bookings, ids_of(pieces_here, {}));
  if (empty_shop && parcel.settings) {
    put_rooms(parcel.changes, importer.rooms, bringing);
    done.secrets_left_behind = static_cast<std::int64_t>(secrets_in(parcel.changes).size());
  }
  if (!entries.empty()) bringing.announce(entries.size());
  for (Change entry : entries) {
    if (entry.detail_json.empty()) entry.detail_json = "{}";  // what erased it names it by another number
    store.append(std::move(entry));
  }
  return done;
}

/// Whether a shop that was made again from a parcel's journal is the parcel's.
bool is_same(Store& store, const Parcel& parcel) {
  const auto same = [](auto here, auto there) {
    const auto by_id = [](const auto& a, const auto& b) { return a.id < b.id; };
    std::sort(here.begin(), here.end(), by_id);
    std::sort(there.begin(), there.end(), by_id);
    return here == there;
  };
  std::vector<Booking> bookings;
  for (const Piece& piece : store.pieces()) {
    const auto of_piece = store.bookings_of(piece.id);
    bookings.insert(bookings.end(), of_piece.begin(), of_piece.end());
  }
  if (store.settings() != *parcel.settings || !same(store.people(), parcel.people) ||
      !same(store.instruments(), parcel.instruments) || !same(store.lathes(), parcel.lathes) ||
      !same(store.known_parts("", kAllParts), parcel.known_parts) || !same(store.pieces(), parcel.pieces) ||
      !same(store.inserts(), parcel.inserts) || !same(store.corners(), parcel.corners) ||
      !same(store.bands(), parcel.bands) || !same(store.taper_plates(), parcel.taper_plates) ||
      !same(store.zero_checks(std::nullopt), parcel.zero_checks) || !same(bookings, parcel.bookings)) {
    return false;
  }
  return store.jobs({.limit = 1}).total == static_cast<std::int64_t>(parcel.jobs.size()) &&
         std::all_of(parcel.jobs.begin(), parcel.jobs.end(), [&](JobFile file) {
           const auto here = store.job_file(file.job.id);
           if (here) file.seq = here->seq;
           return here == file;
         });
}

struct NotTheSame {};

/// What people come in with does not leave a shop: its journal tells each by a hash of its hash alone. So those that
/// were brought are taken away, and told so, which leaves the chain as it was and nobody with a secret.
void take_secrets_away(const std::vector<Json>& secrets, const Importer& importer, Bringing& bringing) {
  const auto shelf = std::find_if(importer.rooms.begin(), importer.rooms.end(),
                                  [](const AnyShelf* room) { return room->word() == "secret"; });
  if (shelf == importer.rooms.end()) return;
  for (Json detail : secrets) {
    detail["hash"] = "";
    detail["set_at"] = to_text(importer.now);
    detail["by_person_id"] = to_text(bringing.by());
    (*shelf)->put_told(detail.dump());
    bringing.tell("secret.taken_away", std::nullopt, parse_uuid(detail.at("person_id").get<std::string>()),
                  detail.dump());
  }
}

/// An empty shop is made again from the journal of another one, entry by entry, so that it is that shop, its chain and
/// all, but for secrets. False, and nothing stored, where the journal does not tell what the export holds: one from
/// before there was a chain.
bool made_again(Store& store, const Parcel& parcel, const Importer& importer, Imported& done) {
  if (!parcel.settings || parcel.changes.empty()) return false;
  const auto secrets = secrets_in(parcel.changes);
  try {
    store.transact([&] {
      if (store.last_seq() > 0 || !store.people().empty()) throw NotTheSame{};
      for (const Change& entry : parcel.changes) store.append(entry);
      retell(store, store, importer.rooms);
      if (!is_same(store, parcel)) throw NotTheSame{};
      Bringing bringing(store, importer);
      take_secrets_away(secrets, importer, bringing);
    });
  } catch (const NotTheSame&) {
    return false;
  } catch (const TellingError&) {
    return false;
  }
  done.secrets_left_behind = static_cast<std::int64_t>(secrets.size());
  done.jobs_added = static_cast<std::int64_t>(parcel.jobs.size());
  done.others_added = static_cast<std::int64_t>(
      parcel.people.size() + parcel.instruments.size() + parcel.lathes.size() + parcel.known_parts.size() +
      parcel.pieces.size() + parcel.inserts.size() + parcel.corners.size() + parcel.bands.size() +
      parcel.taper_plates.size() + parcel.zero_checks.size());
  return true;
}

}  // namespace

Imported import_export(Store& store, std::string_view text, const Importer& importer) {
  const Parcel parcel = unpack(text);
  Imported done;
  check_parcel(store, parcel);
  if (made_again(store, parcel, importer, done)) return done;
  store.transact([&] { done = bring(store, parcel, importer); });
  return done;
}

}  // namespace brakewright::shop
