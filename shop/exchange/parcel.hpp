#pragma once

#include <optional>
#include <set>
#include <vector>

#include "shop/store.hpp"

/// What an export holds, on its way in.
namespace brakewright::shop {

inline constexpr std::int64_t kAllParts = 100'000;

/// Of a job export, or of a whole shop's, which has settings.
struct Parcel {
  std::optional<Settings> settings;
  std::vector<Person> people;
  std::vector<Instrument> instruments;
  std::vector<Lathe> lathes;
  std::vector<Piece> pieces;
  std::vector<Booking> bookings;
  std::vector<Insert> inserts;
  std::vector<Corner> corners;
  std::vector<Band> bands;
  std::vector<TaperPlate> taper_plates;
  std::vector<ZeroCheck> zero_checks;
  std::vector<KnownPart> known_parts;
  std::vector<JobFile> jobs;
  std::vector<Change> changes;
};

using Ids = std::set<Uuid>;

template <class T>
Ids ids_of(const std::vector<T>& here, const std::vector<T>& there) {
  Ids ids;
  for (const auto* things : {&here, &there}) {
    for (const T& thing : *things) ids.insert(thing.id);
  }
  return ids;
}

/// @throws InputError "not_in_it" and others, with the field's path, where something names what is neither in the
/// parcel
///         nor in the shop
void check_parcel(Store& store, const Parcel& parcel);

}  // namespace brakewright::shop
