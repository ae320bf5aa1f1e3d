#include <algorithm>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "shop/exchange/parcel.hpp"
#include "shop/exchange/transfer.hpp"

namespace brakewright::shop {
namespace {

constexpr std::int64_t kPage = 500;
constexpr int kTries = 100;

std::vector<Change> all_changes(Shop& shop, std::optional<Uuid> job_id) {
  std::vector<Change> changes;
  while (true) {
    const auto page = shop.changes(changes.empty() ? 0 : changes.back().seq, kPage, job_id);
    changes.insert(changes.end(), page.begin(), page.end());
    if (page.size() < static_cast<std::size_t>(kPage)) return changes;
  }
}

std::vector<Uuid> all_jobs(Shop& shop) {
  std::vector<Uuid> ids;
  while (true) {
    const JobPage page =
        shop.jobs({.state = {}, .words = {}, .limit = kPage, .offset = static_cast<std::int64_t>(ids.size())});
    for (const JobLine& line : page.lines) ids.push_back(line.job.id);
    if (page.lines.size() < static_cast<std::size_t>(kPage)) break;
  }
  std::sort(ids.begin(), ids.end());
  return ids;
}

template <class T>
Json list(std::vector<T> things) {
  std::sort(things.begin(), things.end(), [](const T& a, const T& b) { return a.id < b.id; });
  Json all = Json::array();
  for (const T& thing : things) all.push_back(to_json(thing));
  return all;
}

/// Those of `things` whose id occurs in `text`.
template <class T>
std::vector<T> named_in(const std::string& text, std::vector<T> things) {
  std::erase_if(things, [&](const T& thing) { return text.find(to_text(thing.id)) == std::string::npos; });
  return things;
}

/// A zero check may have been made for another job, which does not travel with this one.
std::vector<ZeroCheck> of_this_job(std::vector<ZeroCheck> checks, const Uuid& job_id) {
  for (ZeroCheck& check : checks) {
    if (check.job_id != job_id) check.job_id.reset();
  }
  return checks;
}

Json journal(const std::vector<Change>& changes) {
  Json all = Json::array();
  for (const Change& change : changes) all.push_back(to_json(change));
  return all;
}

/// Every booking of these pieces; of one piece in the order in which they were made, since the last one counts.
Json bookings_of(Shop& shop, std::vector<Piece> pieces, std::optional<Uuid> job_id) {
  std::sort(pieces.begin(), pieces.end(), [](const Piece& a, const Piece& b) { return a.id < b.id; });
  Json all = Json::array();
  for (const Piece& piece : pieces) {
    const auto newest_first = shop.bookings_of(piece.id);
    for (auto booking = newest_first.rbegin(); booking != newest_first.rend(); ++booking) {
      if (!job_id || booking->job_id == job_id) all.push_back(to_json(*booking));
    }
  }
  return all;
}

/// Runs `take` again until nothing was written while it ran.
template <class Take>
Json between_writes(Shop& shop, Take take) {
  for (int tries = 0; tries < kTries; ++tries) {
    const std::int64_t before = shop.last_seq();
    Json taken = take();
    if (shop.last_seq() == before) return taken;
  }
  throw StoreError(StoreError::Cause::busy, "the shop is written to without a pause; try the export again in a moment");
}

}  // namespace

Json export_job(Shop& shop, const Uuid& job_id) {
  return between_writes(shop, [&] {
    Json file = to_json(shop.job_file(job_id));
    Json changes = journal(all_changes(shop, job_id));
    std::string text = file.dump() + changes.dump();
    const Json zero_checks = list(of_this_job(named_in(text, shop.zero_checks(std::nullopt)), job_id));
    const auto pieces = named_in(text, shop.pieces());
    Json bookings = bookings_of(shop, pieces, job_id);
    const Json corners = list(named_in(text, shop.corners()));
    text += zero_checks.dump() + bookings.dump() + corners.dump();
    Json people = list(named_in(text, shop.people()));
    Json instruments = list(named_in(text, shop.instruments()));
    Json lathes = list(named_in(text, shop.lathes()));
    Json known_parts = list(named_in(text, shop.known_parts("", kAllParts)));
    return Json{{"format", "brakewright-job-1"},
                {"file", std::move(file)},
                {"people", std::move(people)},
                {"instruments", std::move(instruments)},
                {"lathes", std::move(lathes)},
                {"pieces", list(pieces)},
                {"bookings", std::move(bookings)},
                {"inserts", list(named_in(text, shop.inserts()))},
                {"corners", corners},
                {"bands", list(named_in(text, shop.bands()))},
                {"taper_plates", list(named_in(text, shop.taper_plates()))},
                {"zero_checks", zero_checks},
                {"known_parts", std::move(known_parts)},
                {"changes", std::move(changes)}};
  });
}

Json export_shop(Shop& shop) {
  return between_writes(shop, [&] {
    Json jobs = Json::array();
    for (const Uuid& id : all_jobs(shop)) jobs.push_back(to_json(shop.job_file(id)));
    return Json{{"format", "brakewright-shop-1"},
                {"settings", to_json(shop.settings())},
                {"people", list(shop.people())},
                {"instruments", list(shop.instruments())},
                {"lathes", list(shop.lathes())},
                {"pieces", list(shop.pieces())},
                {"bookings", bookings_of(shop, shop.pieces(), std::nullopt)},
                {"inserts", list(shop.inserts())},
                {"corners", list(shop.corners())},
                {"bands", list(shop.bands())},
                {"taper_plates", list(shop.taper_plates())},
                {"zero_checks", list(shop.zero_checks(std::nullopt))},
                {"known_parts", list(shop.known_parts("", kAllParts))},
                {"jobs", std::move(jobs)},
                {"changes", journal(all_changes(shop, std::nullopt))}};
  });
}

}  // namespace brakewright::shop
